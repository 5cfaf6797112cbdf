#include "inventory/store/schema.h"

#include <QDir>
#include <catch2/catch.hpp>
#include <set>

#include "tests/store/behind.h"
#include "tests/store/sample.h"

using namespace flitch;
using namespace flitch::store;
using Catch::Contains;

namespace {

const int newest = steps(Engine::sqlite).back().number;

/// A step that rebuilds a table others point at, as later steps will.
const Step following{newest + 1,
                     "-- Bays get a note.\n\nCREATE TABLE new_bays (\n  name TEXT PRIMARY KEY,\n"
                     "  note TEXT NOT NULL\n) STRICT;\n\n"
                     "INSERT INTO new_bays (name, note) SELECT name, 'by the door' FROM bays;\n\n"
                     "DROP TABLE bays;\n\nALTER TABLE new_bays RENAME TO bays;\n",
                     ""};

std::vector<Step> with(const Step& step) {
  std::vector<Step> all = steps(Engine::sqlite);
  all.push_back(step);
  return all;
}

QStringList copies(const sample::Folder& folder) {
  return QDir(QString::fromStdString(folder.path()))
      .entryList({QStringLiteral("shop.before-step-*.flitch")}, QDir::Files);
}

struct OldBook {
  sample::Folder folder;
  std::string path = folder.file("shop.flitch");
  std::vector<Board> rack;

  OldBook() {
    Book book = Book::create(path, sample::facts());
    sample::receive(book, {sample::everyField(), sample::plank()});
    rack = book.read().rack();
  }
};

}  // namespace

TEST_CASE("a script is split at blank lines and says the same to both engines") {
  const std::string script =
      "-- a comment\nCREATE TABLE t (\n  id INTEGER PRIMARY KEY,\n  w REAL, b BLOB\n) STRICT;\n\n"
      "-- another\n\nCREATE TABLE u (\n  id INTEGER\n) STRICT, WITHOUT ROWID;\n\nCREATE INDEX i ON "
      "t (w);\n";
  CHECK(statements(script, Engine::sqlite) ==
        std::vector<std::string>{
            "CREATE TABLE t (\n  id INTEGER PRIMARY KEY,\n  w REAL, b BLOB\n) STRICT;",
            "CREATE TABLE u (\n  id INTEGER\n) STRICT, WITHOUT ROWID;",
            "CREATE INDEX i ON t (w);"});
  CHECK(statements(script, Engine::postgresql) ==
        std::vector<std::string>{
            "CREATE TABLE t (\n  id BIGINT PRIMARY KEY,\n  w DOUBLE PRECISION, b BYTEA\n);",
            "CREATE TABLE u (\n  id BIGINT\n);", "CREATE INDEX i ON t (w);"});
}

TEST_CASE_METHOD(OldBook, "a book is brought up after a verified copy") {
  {
    const auto database = Database::sqlite(path, Database::Mode::write);
    bringUpToDate(*database, path, with(following), "flitchbook test");
    CHECK(schemaOf(*database) == newest + 1);
    CHECK(database->value<std::string>("SELECT note FROM bays WHERE name = 'B3'") == "by the door");
    CHECK(database->value<std::string>("SELECT bay FROM boards WHERE bay IS NOT NULL") == "B3");
    CHECK(database->value<int>("PRAGMA foreign_keys") == 1);
    bringUpToDate(*database, path, with(following), "flitchbook test");
  }
  REQUIRE(copies(folder).size() == 1);
  const Book copy = Book::open(folder.file(copies(folder)[0].toStdString()), Access::write);
  CHECK(copy.read().rack() == rack);
  CHECK(copy.facts().schema == newest);
  // Past what this program knows.
  CHECK(inspect(path).schema == newest + 1);
  CHECK_THROWS_WITH(Book::open(path, Access::write), Contains("newer Flitchbook"));
}

TEST_CASE_METHOD(OldBook, "a step that fails leaves the book as it was") {
  const auto bad = GENERATE(
      Step{newest + 1,
           "CREATE TABLE extra (x INTEGER) STRICT;\n\nCREATE TABLE extra (x INTEGER);\n", ""},
      Step{newest + 1, "DELETE FROM bays;\n", ""});
  {
    const auto database = Database::sqlite(path, Database::Mode::write);
    CHECK_THROWS_AS(bringUpToDate(*database, path, with(bad), "flitchbook test"), StoreError);
  }
  const Book book = Book::open(path, Access::write);
  CHECK(book.facts().schema == newest);
  CHECK(book.read().rack() == rack);
  CHECK(sample::checked(book) == "");
}

TEST_CASE_METHOD(OldBook, "the newest five copies are kept") {
  for (int step = newest + 1; step <= newest + 6; ++step) {
    const auto database = Database::sqlite(path, Database::Mode::write);
    std::vector<Step> all = steps(Engine::sqlite);
    for (int n = newest + 1; n <= step; ++n) {
      all.push_back({n, "CREATE TABLE extra_" + std::to_string(n) + " (x INTEGER) STRICT;\n", ""});
    }
    bringUpToDate(*database, path, all, "flitchbook test");
  }
  std::set<int> kept;
  for (const QString& name : copies(folder)) kept.insert(name.section(u'-', 2, 2).toInt());
  CHECK(kept == std::set<int>{newest + 2, newest + 3, newest + 4, newest + 5, newest + 6});
  CHECK(kept.size() == backupsKept);
}

TEST_CASE_METHOD(OldBook, "a book is not brought up when its copy cannot be made") {
  const auto database = Database::sqlite(path, Database::Mode::write);
  CHECK_THROWS_AS(
      bringUpToDate(*database, folder.file("none/shop.flitch"), with(following), "test"),
      StoreError);
  CHECK(schemaOf(*database) == newest);
}
