#include <catch2/catch.hpp>

#include "tests/store/behind.h"
#include "tests/store/sample.h"

// The database itself refuses what would break the book: tried by SQL behind the program's back,
// with the program's own rules out of the way.

using namespace flitch;
using namespace flitch::store;
using Catch::Contains;

namespace {

/// Two boards, two jobs, a plan; the first board is sawn, then the second held.
struct Shop {
  sample::Folder folder;
  std::string path = folder.file("shop.flitch");
  Book book = Book::create(path, sample::facts());
  sample::Received received = sample::receive(book, {sample::plank(), sample::plank()});
  JobId job = sample::addJob(book, "Map chest");
  JobId other = sample::addJob(book, "Bench");
  PlanId plan = sample::keep(book, job, received.boards);
  sample::Sawn sawn = sample::saw(book, plan, received.boards[0]);
  sample::Behind behind{path};

  std::string next = std::to_string(sawn.entry.value + 1);
  std::string entry = "INSERT INTO entries (id, at, hand, station, event, note) VALUES (" + next +
                      ", '2026-03-02T08:00:00.000Z', 'Eve', '', 'sawn', '')";
  std::string count = "UPDATE counters SET last = last + 1 WHERE name = 'entry'";
  std::string seal = "INSERT INTO seals (entry) VALUES (" + next + ")";

  /// A move between the account of a board, by its id, and a cause.
  [[nodiscard]] std::string moveOut(int board, const std::string& target, const std::string& volume,
                                    const std::string& cost, int line = 1) const {
    return "INSERT INTO moves (entry, line, source, target, volume, cost) SELECT " + next + ", " +
           std::to_string(line) + ", s.id, t.id, " + volume + ", " + cost +
           " FROM accounts s, accounts t WHERE s.board = " + std::to_string(board) +
           " AND t.board IS NULL AND t.kind = '" + target + "'";
  }
  void unharmed() const {
    CHECK(sample::checked(book) == "");
    CHECK(book.read().lastEntry() == sawn.entry);
  }
};

}  // namespace

TEST_CASE_METHOD(Shop, "SQL that keeps the rules is taken, so the refusals below mean something") {
  CHECK(behind.runAll({count, entry, moveOut(2, "lost", "s.volume", "s.cost"), seal}) == "");
  CHECK(book.read().board({2})->wood == CubicMillimetres{});
  CHECK(sample::checked(book) == "");
}

TEST_CASE_METHOD(Shop, "an entry without its seal is refused") {
  CHECK_THAT(behind.runAll({count, entry, moveOut(2, "lost", "s.volume", "s.cost")}),
             Contains("FOREIGN KEY"));
  unharmed();
}

TEST_CASE_METHOD(Shop, "a seal without its entry is refused") {
  CHECK_THAT(behind.runAll({seal}), Contains("seal_without_entry"));
  unharmed();
}

TEST_CASE_METHOD(Shop, "a cut that loses wood, makes wood or leaves money is refused") {
  for (const auto& [volume, cost] :
       std::vector<std::pair<std::string, std::string>>{{"s.volume - 1", "s.cost"},
                                                        {"s.volume + 1", "s.cost"},
                                                        {"s.volume", "s.cost - 1"},
                                                        {"s.volume", "s.cost + 1"},
                                                        {"0", "s.cost + 1"}}) {
    INFO(volume << ", " << cost);
    CHECK_THAT(behind.runAll({count, entry, moveOut(2, "parts", volume, cost), seal}),
               Contains("board_balance"));
  }
  unharmed();
}

TEST_CASE_METHOD(Shop, "a second cut of a board is refused") {
  CHECK_THAT(behind.runAll({count, entry, moveOut(1, "parts", "s.whole_volume", "10000"), seal}),
             Contains("board_balance"));
  unharmed();
}

TEST_CASE_METHOD(Shop, "undoing a cut whose offcut was sawn since is refused") {
  const PlanId second = sample::keep(book, other, sawn.offcuts, false);
  const auto again = sample::saw(book, second, sawn.offcuts[0]);
  next = std::to_string(again.entry.value + 1);
  const std::string reversed = std::to_string(sawn.entry.value);
  CHECK_THAT(
      behind.runAll(
          {count,
           "INSERT INTO entries (id, at, hand, station, event, note, reverses) VALUES (" + next +
               ", '2026-03-02T08:00:00.000Z', 'Eve', '', 'undone', '', " + reversed + ")",
           "INSERT INTO moves (entry, line, source, target, volume, cost) SELECT " + next +
               ", line, target, source, volume, cost FROM moves WHERE entry = " + reversed,
           "INSERT INTO seals (entry) VALUES (" + next + ")"}),
      Contains("board_balance"));
  CHECK(sample::checked(book) == "");
}

TEST_CASE_METHOD(Shop, "the past cannot be changed") {
  for (const char* sql : {
           "UPDATE entries SET note = 'other' WHERE id = 1",
           "UPDATE entries SET id = 99 WHERE id = 1",
           "DELETE FROM entries WHERE id = 1",
           "INSERT OR REPLACE INTO entries (id, at, hand, station, event, note) "
           "VALUES (1, '', '', '', 'sawn', '')",
           "UPDATE moves SET cost = cost + 1 WHERE entry = 1",
           "DELETE FROM moves WHERE entry = 1",
           "INSERT INTO moves (entry, line, source, target, volume, cost) VALUES (1, 9, 1, 2, 5, "
           "5)",
           "INSERT OR REPLACE INTO moves (entry, line, source, target, volume, cost) "
           "VALUES (1, 1, 1, 2, 5, 5)",
           "UPDATE edits SET after = '{}' WHERE entry = 1",
           "DELETE FROM edits WHERE entry = 1",
           "INSERT INTO edits (entry, line, record, id, after) VALUES (1, 99, 'boards', 1, '{}')",
           "UPDATE seals SET entry = 99 WHERE entry = 1",
           "DELETE FROM seals WHERE entry = 1",
           "INSERT OR REPLACE INTO seals (entry) VALUES (1)",
           "UPDATE cuttings SET board = 2 WHERE board = 1",
           "DELETE FROM cuttings",
           "INSERT INTO cuttings (id, board, plan, entry) VALUES (99, 2, 1, 1)",
           "INSERT OR REPLACE INTO cuttings (id, board, plan) VALUES (1, 2, 1)",
           "UPDATE pieces SET dx = dx + 1",
           "DELETE FROM pieces",
           "INSERT OR REPLACE INTO pieces SELECT cutting, place, depth, kind, x, y, dx + 1, dy, "
           "face_up, front_edge, line, copy, became, bin FROM pieces",
           "INSERT INTO layups SELECT cutting, place, 0, 'stave', 1, 1, 1, 0, 5 FROM pieces "
           "WHERE kind = 'blank'",
           "UPDATE profiles SET body = '{}'",
           "DELETE FROM profiles",
           "INSERT OR REPLACE INTO profiles (id, body) VALUES (1, '{}')",
           "DELETE FROM plans",
           "DELETE FROM boards",
           "DELETE FROM accounts",
       }) {
    INFO(sql);
    CHECK_THAT(behind.runAll({sql}), Contains("past_changed"));
  }
  unharmed();
}

TEST_CASE_METHOD(Shop, "what an invoice asked, what was sent back and counted stands as well") {
  const std::string one = std::to_string(sawn.entry.value);
  REQUIRE(
      behind.runAll(
          {"INSERT INTO invoice_lines VALUES (1, 1, 'freight', 5, 'feet', '')",
           "INSERT INTO invoice_claims VALUES (1, 1, NULL, NULL, NULL, 4000, NULL)",
           "INSERT INTO returns (id, board, reason, expected, version) VALUES (1, 2, 'x', 5, " +
               one + ")",
           "INSERT INTO credits (id, returned, amount, received_on, version) "
           "VALUES (1, 1, 5, '2026-03-09', " +
               one + ")",
           "INSERT INTO bays (name) VALUES ('Z')",
           "INSERT INTO bay_counts (id, bay, untagged, version) VALUES (1, 'Z', 0, " + one + ")",
           "INSERT INTO bay_count_lines VALUES (1, 2, 'seen')",
           "INSERT INTO bay_tags (id, bay, version) VALUES (7, 'Z', " + one + ")"}) == "");
  for (const std::string sql :
       {"UPDATE invoice_lines SET amount = 6", "DELETE FROM invoice_lines",
        "UPDATE invoice_claims SET feet = 1", "DELETE FROM invoice_claims",
        "UPDATE returns SET expected = 6", "DELETE FROM returns", "UPDATE credits SET amount = 6",
        "DELETE FROM credits", "UPDATE bay_counts SET untagged = 6", "DELETE FROM bay_counts",
        "UPDATE bay_count_lines SET found = 'missing'", "DELETE FROM bay_count_lines",
        "UPDATE bay_tags SET bay = 'B3'", "DELETE FROM bay_tags"}) {
    INFO(sql);
    CHECK_THAT(behind.runAll({sql}), Contains("past_changed"));
  }
  CHECK_THAT(
      behind.runAll({"INSERT INTO bay_tags (id, bay, version) VALUES (8, 'Z', " + one + ")"}),
      Contains("bay_tags.bay"));
  CHECK_THAT(behind.runAll({"UPDATE tags SET replaced_by = 99999 WHERE serial = 1"}),
             Contains("FOREIGN KEY"));
  // The line of freight that no board ever paid is found.
  CHECK_THAT(sample::checked(book), Contains("The boards of delivery 1 cost"));
}

TEST_CASE_METHOD(Shop,
                 "a bin holds wood and no money, never less than nothing, one for a species") {
  sample::Sawn last = sawn;
  last.entry = book.change({"bin added", {}, "", {}}, sample::hand(), [](Writer& writer) {
    static_cast<void>(writer.addBin({{}, "Cherry shorts", "cherry", "", {}}));
  });
  next = std::to_string(last.entry.value + 1);
  entry = "INSERT INTO entries (id, at, hand, station, event, note) VALUES (" + next +
          ", '2026-03-02T08:00:00.000Z', 'Eve', '', 'bin changed', '')";
  seal = "INSERT INTO seals (entry) VALUES (" + next + ")";
  const auto moved = [&](const char* from, const char* to, const char* volume, const char* cost) {
    return std::string("INSERT INTO moves (entry, line, source, target, volume, cost) SELECT ") +
           next + ", 1, s.id, t.id, " + volume + ", " + cost +
           " FROM accounts s, accounts t WHERE " + "s.kind = '" + from + "' AND t.kind = '" + to +
           "'";
  };
  CHECK_THAT(behind.runAll({count, entry, moved("found", "bin", "5", "1"), seal}),
             Contains("bin_balance"));
  CHECK_THAT(behind.runAll({count, entry, moved("bin", "lost", "5", "0"), seal}),
             Contains("bin_balance"));
  CHECK_THAT(behind.run("UPDATE bins SET species = 'ash'"), Contains("past_changed"));
  CHECK_THAT(behind.run("INSERT INTO bins (id, name, species, note, version) VALUES (9, 'More', "
                        "'cherry', '', 1)"),
             Contains("UNIQUE"));
  CHECK(sample::checked(book) == "");
  CHECK(behind.runAll({count, entry, moved("found", "bin", "5", "0"), seal}) == "");
  CHECK(book.read().bins().at(0).wood == CubicMillimetres{5});
  CHECK(sample::checked(book) == "");
}

TEST_CASE_METHOD(Shop, "a board is held for one job only") {
  CHECK_THAT(behind.runAll({"INSERT INTO holds (board, job, entry) VALUES (2, " +
                            std::to_string(other.value) + ", 1)"}),
             Contains("holds.board"));
  unharmed();
}

TEST_CASE_METHOD(Shop, "an entry is undone once and only after it was made") {
  sample::undo(book, sawn.entry);
  next = std::to_string(sawn.entry.value + 2);
  const auto undoing = [&](const std::string& reversed) {
    return behind.runAll(
        {"INSERT INTO entries (id, at, hand, station, event, note, reverses) VALUES (" + next +
         ", '', 'Eve', '', 'undone', '', " + reversed + ")"});
  };
  CHECK_THAT(undoing(std::to_string(sawn.entry.value)), Contains("entries.reverses"));
  CHECK_THAT(undoing(next), Contains("only_earlier_reversed"));
  CHECK(sample::checked(book) == "");
}

TEST_CASE_METHOD(Shop,
                 "only an offcut has a parent, a serial hangs on one board, a board has one") {
  CHECK_THAT(behind.runAll({"UPDATE boards SET parent = 1 WHERE id = 2"}),
             Contains("only_offcuts_have_a_parent"));
  CHECK_THAT(behind.runAll({"INSERT INTO tags (serial, board, reserved_in) VALUES (500, 2, 1)"}),
             Contains("tags.board"));
  CHECK_THAT(behind.runAll({"INSERT INTO jobs (id, name, customer, profile, version) "
                            "VALUES (99, 'Bench', '', 1, 1)"}),
             Contains("jobs.name"));
  unharmed();
}

TEST_CASE_METHOD(Shop, "check names what was bent behind the book's back") {
  SECTION("a balance") {
    REQUIRE(behind.runAll({"UPDATE accounts SET cost = cost + 10000 WHERE board = 2"}) == "");
    CHECK_THAT(sample::checked(book), Contains("T0002"));
    CHECK_THAT(sample::checked(book), Contains("All accounts together hold 0 mm³ and 1 "));
  }
  SECTION("a sawn board's marks and outline") {
    REQUIRE(behind.runAll({"UPDATE outlines SET far = far - 9000000 WHERE board = 1"}) == "");
    CHECK_THAT(sample::checked(book), Contains("Entry " + std::to_string(sawn.entry.value)));
  }
  SECTION("a board's thickness") {
    REQUIRE(behind.runAll({"UPDATE boards SET thickness = thickness + 1000 WHERE id = 2"}) == "");
    CHECK_THAT(sample::checked(book), Contains("its drawing"));
  }
  SECTION("where an offcut lay") {
    REQUIRE(behind.runAll({"UPDATE boards SET parent_x = parent_x + parent_dx WHERE parent = 1"}) ==
            "");
    CHECK_THAT(sample::checked(book), Contains("came from T0001-X, yet lay outside of it"));
  }
  SECTION("the entry counter") {
    REQUIRE(behind.runAll({count}) == "");
    CHECK_THAT(sample::checked(book), Contains("gaps"));
  }
  SECTION("a key, with keys off") {
    REQUIRE(behind.run("PRAGMA foreign_keys = OFF") == "");
    REQUIRE(behind.runAll({"UPDATE boards SET delivery = 99 WHERE id = 2"}) == "");
    CHECK_THAT(sample::checked(book), Contains("deliveries"));
  }
  SECTION("the triggers") {
    REQUIRE(behind.runAll({"UPDATE schema_steps SET sha256 = 'x'"}) == "");
    CHECK_THAT(sample::checked(book), Contains("Step 1"));
  }
}

TEST_CASE("a tag that went on stays so said, and never of a board on the rack") {
  const sample::Folder folder;
  Book book = Book::create(folder.file("shop.flitch"), sample::facts());
  const auto received = sample::receive(book, {sample::plank(), sample::plank()});
  book.change({"used by hand", {}, "", {}}, sample::hand(), [&](Writer& writer) {
    const Board whole = writer.now().board(received.boards[0]).value();
    Board left = whole;
    left.kind = BoardKind::offcut;
    left.parent = whole.id;
    left.tag.reset();
    left.delivery = {};
    const BoardId id = writer.addBoard(left);
    writer.passTag(whole.id, id);
    writer.post(
        {AccountKind::board, whole.id, AccountKind::board, id, whole.wood, whole.cost, -1, {}});
  });
  CHECK(sample::checked(book) == "");
  sample::Behind behind(folder.file("shop.flitch"));
  CHECK_THAT(behind.run("UPDATE tags_passed SET board = 2"), Contains("past_changed"));
  CHECK_THAT(behind.run("DELETE FROM tags_passed"), Contains("past_changed"));
  const std::string other = std::to_string(received.boards[1].value);
  CHECK(behind.run("INSERT INTO tags_passed (id, board, serial, version) VALUES (9, " + other +
                   ", 1, 1)") == "");
  CHECK_THAT(sample::checked(book), Contains("its tag went on with a remainder"));
}
