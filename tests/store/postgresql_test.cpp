#include <sys/stat.h>
#include <unistd.h>

#include <QDir>
#include <QFile>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <iostream>

#include "inventory/store/database.h"
#include "inventory/store/schema.h"
#include "tests/store/sample.h"

// The schema on the other engine: the same tables and columns, the same refusals. A server of its
// own is started in a folder of its own, on a socket there; without PostgreSQL this is skipped.

using namespace flitch;
using namespace flitch::store;
using Catch::Contains;

namespace {

/// A throw-away server. initdb refuses the superuser, so it then runs as `postgres`.
class Server {
 public:
  Server() {
    const QStringList versions = QDir(QStringLiteral("/usr/lib/postgresql"))
                                     .entryList(QDir::Dirs | QDir::NoDotAndDotDot, QDir::Name);
    if (versions.isEmpty()) return;
    const std::string bin = "/usr/lib/postgresql/" + versions.back().toStdString() + "/bin/";
    char pattern[] = "/tmp/flitchbook-postgresql-XXXXXX";
    if (!::mkdtemp(pattern)) return;
    folder_ = pattern;
    as_ = ::geteuid() == 0 ? "cd / && runuser -u postgres -- " : "";
    if (!as_.empty() && std::system(("chown postgres " + folder_).c_str()) != 0) return;
    if (!run(bin + "initdb -A trust -U postgres --no-sync -D " + folder_ + "/data")) return;
    stop_ = bin + "pg_ctl -D " + folder_ + "/data -m immediate stop";
    running_ = run(bin + "pg_ctl -D " + folder_ + "/data -w -l " + folder_ +
                   "/log -o \"-c listen_addresses='' -c fsync=off -k " + folder_ + "\" start");
  }
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;
  ~Server() {
    if (running_) (void)run(stop_);
    if (!folder_.empty()) QDir(QString::fromStdString(folder_)).removeRecursively();
  }

  [[nodiscard]] bool running() const { return running_; }
  [[nodiscard]] std::shared_ptr<Database> connect() const {
    return Database::postgresql(folder_, "postgres", "postgres");
  }

 private:
  [[nodiscard]] bool run(const std::string& command) const {
    return std::system((as_ + command + " >" + folder_ + ".out 2>&1; code=$?; rm -f " + folder_ +
                        ".out; exit $code")
                           .c_str()) == 0;
  }

  std::string folder_, as_, stop_;
  bool running_ = false;
};

/// What the engine says against the statements; all are rolled back then.
std::string refusal(Database& database, const std::vector<std::string>& statements) {
  try {
    Transaction transaction(database, Transaction::Kind::write);
    for (const std::string& sql : statements) database.direct(sql);
    transaction.commit();
  } catch (const DatabaseError& error) {
    return error.rule().empty() ? error.detail() : error.rule();
  }
  return {};
}

std::string entry(int id, const std::string& reverses = "NULL") {
  return "INSERT INTO entries (id, at, hand, station, event, note, reverses) VALUES (" +
         std::to_string(id) + ", '', 'Eve', '', 'sawn', '', " + reverses + ")";
}
std::string seal(int id) { return "INSERT INTO seals (entry) VALUES (" + std::to_string(id) + ")"; }
std::string move(int entry, const std::string& source, const std::string& target, int volume,
                 int cost) {
  return "INSERT INTO moves (entry, line, source, target, volume, cost) VALUES (" +
         std::to_string(entry) + ", 1, " + source + ", " + target + ", " + std::to_string(volume) +
         ", " + std::to_string(cost) + ")";
}

}  // namespace

TEST_CASE("PostgreSQL has the same tables and columns and refuses the same") {
  const Server server;
  if (!server.running()) {
    std::cout << "SKIPPED: no PostgreSQL server could be started; the schema was tried on SQLite "
                 "only.\n";
    return;
  }
  const auto database = server.connect();
  runSteps(*database, steps(Engine::postgresql), "flitchbook test");
  CHECK(schemaOf(*database) == 12);
  runSteps(*database, steps(Engine::postgresql), "flitchbook test");

  const sample::Folder folder;
  const auto sqlite = Database::sqlite(folder.file("fresh.db"), Database::Mode::create);
  runSteps(*sqlite, steps(Engine::sqlite), "flitchbook test");
  const auto ours = sqlite->rows<std::string, std::string, bool>(
      "SELECT m.name, c.name, c.\"notnull\" = 0 AND c.pk = 0 FROM sqlite_master m "
      "JOIN pragma_table_info(m.name) c WHERE m.type = 'table' ORDER BY m.name, c.name");
  const auto theirs = database->rows<std::string, std::string, bool>(
      "SELECT table_name, column_name, CASE WHEN is_nullable = 'YES' THEN 1 ELSE 0 END "
      "FROM information_schema.columns WHERE table_schema = 'public' "
      "ORDER BY table_name COLLATE \"C\", column_name COLLATE \"C\"");
  CHECK(ours.size() > 150);
  CHECK(ours == theirs);

  // A board with 500 mm³ of wood that cost 60, from entry 1.
  REQUIRE(refusal(*database,
                  {entry(1), "INSERT INTO species (name) VALUES ('cherry')",
                   "INSERT INTO boards (id, kind, species, nominal, nominal_in, thickness, "
                   "measured, bow, crook, cup, twist, hollow, log, place_in_log, billed_feet, "
                   "measured_feet, half, price, kept_back, parent_x, parent_y, parent_dx, "
                   "parent_dy, sawn_tag_end, sawn_far_end, note, version) VALUES (1, 'plank', "
                   "'cherry', 4, 'quarters', 5, 1, 0, 0, 0, 0, 'near', '', 0, 0, 0, 'none', 60, 0, "
                   "0, 0, 0, 0, 0, 0, '', 1)",
                   "INSERT INTO accounts (id, kind, board, whole_volume, volume, cost) "
                   "VALUES (18, 'board', 1, 500, 0, 0)",
                   "INSERT INTO profiles (id, body) VALUES (1, '{}')",
                   "INSERT INTO jobs (id, name, customer, profile, version) VALUES "
                   "(1, 'Map chest', '', 1, 1), (2, 'Bench', '', 1, 1)",
                   "INSERT INTO holds (board, job, entry) VALUES (1, 1, 1)",
                   move(1, "1", "18", 500, 60), seal(1)}) == "");
  CHECK(database->value<int>("SELECT volume FROM accounts WHERE board = 1") == 500);
  CHECK(database->value<std::int64_t>("SELECT CAST(sum(cost) AS BIGINT) FROM accounts") == 0);

  CHECK_THAT(refusal(*database, {entry(2), move(2, "18", "6", 500, 60)}),
             Contains("entries_id_fkey"));
  CHECK_THAT(refusal(*database, {seal(2)}), Contains("seal_without_entry"));
  CHECK_THAT(refusal(*database, {entry(2), move(2, "18", "6", 499, 60), seal(2)}),
             Contains("board_balance"));
  CHECK_THAT(refusal(*database, {entry(2), move(2, "18", "6", 500, 59), seal(2)}),
             Contains("board_balance"));
  CHECK_THAT(refusal(*database, {"INSERT INTO holds (board, job, entry) VALUES (1, 2, 1)"}),
             Contains("holds_pkey"));
  REQUIRE(refusal(*database, {entry(2), move(2, "18", "6", 500, 60), seal(2)}) == "");
  CHECK_THAT(refusal(*database, {entry(3), move(3, "18", "6", 500, 60), seal(3)}),
             Contains("board_balance"));
  REQUIRE(refusal(*database, {entry(3, "2"), move(3, "6", "18", 500, 60), seal(3)}) == "");
  CHECK_THAT(refusal(*database, {entry(4, "2"), seal(4)}), Contains("entries_reverses_key"));
  CHECK_THAT(refusal(*database, {entry(4, "4"), seal(4)}), Contains("only_earlier_reversed"));
  // Measured again: out and back in one entry, with a new whole.
  REQUIRE(refusal(*database, {entry(4), "UPDATE accounts SET remeasured_volume = 480 WHERE id = 18",
                              move(4, "18", "17", 500, 60),
                              "INSERT INTO moves (entry, line, source, target, volume, cost) "
                              "VALUES (4, 2, 17, 18, 480, 60)",
                              seal(4)}) == "");
  CHECK(database->value<int>("SELECT whole_volume FROM accounts WHERE board = 1") == 480);
  for (const char* sql :
       {"UPDATE entries SET note = 'x'", "DELETE FROM entries", "UPDATE moves SET cost = 1",
        "DELETE FROM moves", "INSERT INTO moves VALUES (1, 9, 1, 2, 5, 5, NULL, NULL)",
        "INSERT INTO edits (entry, line, record, id, after) VALUES (1, 9, 'boards', 1, '{}')",
        "UPDATE seals SET entry = 9", "DELETE FROM seals", "UPDATE profiles SET body = ''",
        "DELETE FROM boards", "DELETE FROM accounts"}) {
    INFO(sql);
    CHECK(refusal(*database, {sql}) == "past_changed");
  }
}
