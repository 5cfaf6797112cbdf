#include <catch2/catch.hpp>

#include "inventory/exchange/csv.h"
#include "tests/acceptance/program.h"

using flitch::acceptance::Bench;
using flitch::acceptance::Ran;
using flitch::exchange::CsvFile;
using flitch::exchange::readCsvFile;

// The saved bad imports of tests/exchange, through the program: after a refusal the book is byte
// for byte what it was.
TEST_CASE("bad imports leave the book untouched") {
  const std::string folder = std::string(FLITCHBOOK_SOURCE) + "/tests/exchange/data/bad/";
  const CsvFile index = readCsvFile(folder + "index.csv");
  const Bench bench;
  bench.flitch("book create");
  int refused = 0;
  for (const auto& row : index.rows) {
    const auto cell = [&](std::size_t at) {
      return at < row.cells.size() ? row.cells[at].text : std::string();
    };
    const std::string file = cell(0);
    const std::string path = "'" + folder + file + "'";
    const std::string before = bench.bookBytes();
    INFO(cell(1) << " " << file);
    const std::string command = cell(1) == "receive" ? "receive " + path + " --supplier Yard"
                                : cell(1) == "mark"  ? "mark " + path
                                                     : "job add '" + file + "' " + path;
    const Ran ran = bench.shell("flitch " + command);
    INFO(ran.out << ran.err);
    if (cell(2) == "refused") {
      CHECK(ran.exitCode == 1);
      CHECK(ran.out.empty());
      CHECK(ran.err.find(file) == 0);
      for (std::string words = cell(3); !words.empty();) {
        const std::size_t bar = words.find('|');
        CHECK_THAT(ran.err, Catch::Contains(words.substr(0, bar)));
        words = bar == std::string::npos ? "" : words.substr(bar + 1);
      }
    } else if (cell(1) != "mark") {
      // A file of marks that reads well may still name tags this book does not have.
      CHECK(ran.exitCode == 0);
    }
    if (ran.exitCode != 0) {
      ++refused;
      CHECK(bench.bookBytes() == before);
    } else {
      CHECK(bench.bookBytes() != before);
    }
  }
  CHECK(refused >= 30);
  CHECK(bench.flitch("book check").exitCode == 0);
}
