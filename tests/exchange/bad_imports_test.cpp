#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <set>

#include "tests/exchange/rules.h"

using namespace flitch;
using namespace flitch::exchange;

namespace {

const std::string folder = std::string(FLITCHBOOK_TEST_DATA) + "/bad/";

/// What the command would say: its refusal, or its warnings.
struct Said {
  bool taken = false;
  std::string words;
  std::size_t rows = 0;
};

template <class Row>
Said said(const Taken<Row>& taken) {
  Said out{true, "", taken.rows.size()};
  for (const std::string& warning : taken.warnings) out.words += warning + "\n";
  return out;
}

Said import(const std::string& command, const CsvFile& file) {
  const ReadingRules rules = newBookRules();
  if (command == "receive") return said(readTally(file, rules));
  if (command == "mark") return said(readMarks(file, rules));
  REQUIRE(command == "job");
  return said(readParts(file, rules));
}

Said importBytes(const std::string& command, const std::string& bytes) {
  try {
    return import(command, readCsv(bytes, "made.csv"));
  } catch (const Refusal& refusal) {
    return {false, refusal.what(), 0};
  }
}

std::string cellOf(const CsvFile& index, std::size_t row, std::size_t cell) {
  const auto& cells = index.rows[row].cells;
  return cell < cells.size() ? cells[cell].text : "";
}

const std::string head = "species,quarters,length,width,note\n";
const std::string row = "cherry,4/4,10,7 3/8,\n";

}  // namespace

TEST_CASE("every saved bad import is refused clearly or taken rightly") {
  const CsvFile index = readCsvFile(folder + "index.csv");
  std::set<std::string> named{"index.csv", "README.md", ".gitattributes"};
  for (std::size_t i = 0; i < index.rows.size(); ++i) {
    const std::string file = cellOf(index, i, 0);
    named.insert(file);
    DYNAMIC_SECTION(file) {
      Said result;
      try {
        result = import(cellOf(index, i, 1), readCsvFile(folder + file));
      } catch (const Refusal& refusal) {
        result.words = refusal.what();
        // Every complaint names the file and says something.
        REQUIRE_FALSE(refusal.complaints().empty());
        for (const Complaint& complaint : refusal.complaints()) {
          CHECK(complaint.place.starts_with(file));
          CHECK(complaint.sentence.size() > 10);
        }
      }
      CAPTURE(result.words);
      CHECK(result.taken == (cellOf(index, i, 2) == "taken"));
      std::string words = cellOf(index, i, 3);
      while (!words.empty()) {
        const std::size_t bar = words.find('|');
        CHECK_THAT(result.words, Catch::Contains(words.substr(0, bar)));
        words = bar == std::string::npos ? "" : words.substr(bar + 1);
      }
    }
  }
  CHECK(index.rows.size() >= 60);
  // None lies about unread.
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    CAPTURE(entry.path());
    CHECK(named.contains(entry.path().filename().string()));
  }
}

TEST_CASE("what is taken is taken rightly") {
  const auto lineOf = [](const std::string& file, std::size_t at = 0) {
    return readTally(readCsvFile(folder + file), newBookRules()).rows.at(at);
  };
  const TallyLine plain = lineOf("bom.csv");
  CHECK(plain.species == "cherry");
  CHECK(plain.nominal == Nominal::quarters(4));
  CHECK(plain.outline[0] ==
        Outline::tapered(Length::feet(10), Length::sixtyFourths(472), Length::sixtyFourths(472)));
  CHECK(plain.price == Money::tenThousandths(82'000));
  CHECK(plain.line == 2);
  for (const char* same : {"crlf.csv", "cr-only.csv", "no-last-line-end.csv", "tab.csv"}) {
    CAPTURE(same);
    CHECK(lineOf(same).outline == plain.outline);
    CHECK(lineOf(same).price == plain.price);
  }
  CHECK(lineOf("crlf.csv", 1).line == 3);
  CHECK(lineOf("blank-rows.csv").line == 4);
  CHECK(lineOf("semicolon.csv").note == "oak; no, cherry");
  const Outline tenSix =
      Outline::tapered(Length::inches(126), Length::sixtyFourths(472), Length::sixtyFourths(472));
  CHECK(lineOf("inch-signs.csv").outline[0] == tenSix);
  CHECK(lineOf("inch-signs.csv").note == "the 2\" knot");
  CHECK(lineOf("quoted.csv").outline[0] == tenSix);
  CHECK(lineOf("quoted.csv").note == "two\nlines, and a \"word\"");
  CHECK(lineOf("head-units.csv").outline[0] ==
        Outline::tapered(Length::feet(10), Length::millimetres(185), Length::millimetres(185)));
  CHECK(lineOf("formula-note.csv").note == "=HYPERLINK(\"http://example.invalid\")");
}

TEST_CASE("files past their limits are refused") {
  const std::string note(maxCellBytes, 'x');
  CHECK(importBytes("receive", head + "cherry,4/4,10,7," + note.substr(0, 1000) + "\n").taken);
  const auto refusedFor = [](const std::string& bytes, const std::string& words) {
    const Said result = importBytes("receive", bytes);
    CHECK_FALSE(result.taken);
    CHECK_THAT(result.words, Catch::Contains(words));
  };
  // A cell of 10 MB is a file over 8 MB.
  refusedFor(head + "cherry,4/4,10,7," + std::string(10u << 20, 'x') + "\n", "larger than 8 MB");
  refusedFor(head + row + "cherry,4/4,10,7," + note + "x\n",
             "made.csv:3: a cell is longer than 10 000 bytes");
  refusedFor(head + row + "cherry,4/4,10,7,\"" + note + "x\"\n",
             "made.csv:3: a cell is longer than 10 000 bytes");
  refusedFor(head + "cherry,4/4,10,7," + note.substr(0, 1001) + "\n", "is too long");
  std::string many = head;
  for (std::size_t i = 0; i < maxCsvRows; ++i) many += row;
  CHECK(importBytes("receive", many).rows == maxCsvRows);
  refusedFor(many + row, "more than 20 000 rows");
  refusedFor(std::string(201, 'a') + std::string(250, ',') + "b\n", "more than 200 columns");
}

TEST_CASE("all bad cells come at once, fifty of them and a count") {
  std::string bytes = head;
  for (int i = 0; i < 60; ++i) bytes += "cherry,4/4,0,7,\n";
  try {
    (void)readTally(readCsv(bytes, "made.csv"), newBookRules());
    FAIL("taken");
  } catch (const Refusal& refusal) {
    CHECK(refusal.code() == "bad-cell");
    REQUIRE(refusal.complaints().size() == 51);
    CHECK(refusal.complaints().front().place == "made.csv:2:length");
    CHECK(refusal.complaints().back().sentence == "and 10 more like these");
  }
}

TEST_CASE("a file that cannot be read is refused by name") {
  const auto why = [](const std::string& path) {
    try {
      (void)readCsvFile(path);
    } catch (const Refusal& refusal) {
      return std::string(refusal.what());
    }
    return std::string();
  };
  CHECK_THAT(why(folder + "no-such.csv"), Catch::Contains("cannot be opened"));
  CHECK_THAT(why(folder), Catch::Contains("a folder"));
}
