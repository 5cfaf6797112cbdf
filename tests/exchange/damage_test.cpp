#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <random>
#include <sstream>

#include "inventory/wood/unreadable.h"
#include "tests/exchange/rules.h"

using namespace flitch;
using namespace flitch::exchange;

namespace {

std::string bytesOf(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

/// The first lines only: short files keep the test quick and every byte likely to be hit.
std::string firstLines(const std::string& bytes, int lines) {
  std::size_t at = 0;
  for (; lines > 0 && at != std::string::npos; --lines) at = bytes.find('\n', at + 1);
  return bytes.substr(0, at);
}

std::string damaged(std::string bytes, std::mt19937_64& random) {
  for (std::size_t n = 1 + random() % 2; n > 0; --n) {
    const std::size_t at = bytes.empty() ? 0 : random() % bytes.size();
    const std::string signs = "\",;\t\n\r'-=/. 0\xE2\x80\xB2\xFF";
    switch (random() % 6) {
      case 0: bytes.insert(at, 1, signs[random() % signs.size()]); break;
      case 1: bytes.erase(at, 1 + random() % 3); break;
      case 2:
        if (!bytes.empty()) bytes[at] = static_cast<char>(random());
        break;
      case 3: bytes.insert(at, bytes.substr(random() % (bytes.size() + 1), random() % 40)); break;
      case 4: bytes.resize(at); break;
      default: bytes.insert(at, signs, random() % signs.size(), 1); break;
    }
  }
  return bytes;
}

struct Outcome {
  int taken = 0;
  int refused = 0;
};

/// A result or a Refusal, never another exception; a Refusal says where and what.
template <class Read>
void replay(const std::string& bytes, Outcome& outcome, Read&& read) {
  try {
    read(readCsv(bytes, "d.csv"));
    ++outcome.taken;
  } catch (const Refusal& refusal) {
    ++outcome.refused;
    for (const Complaint& complaint : refusal.complaints()) {
      if (!complaint.place.starts_with("d.csv") || complaint.sentence.empty()) {
        FAIL(refusal.what());
      }
    }
  }
}

}  // namespace

TEST_CASE("the demo's files are read without a warning") {
  const std::filesystem::path demo = std::filesystem::path(FLITCHBOOK_SOURCE) / "tools" / "demo";
  const ReadingRules rules = newBookRules();
  std::size_t boards = 0;
  for (const char* tally :
       {"1-opening.csv", "2-quillmere.csv", "3-hobbs-reach.csv", "4-vannerlo.csv"}) {
    const auto taken = readTally(readCsvFile(demo / tally), rules);
    CHECK(taken.warnings.empty());
    boards += taken.rows.size();
  }
  CHECK(boards == 60);
  CHECK(readMarks(readCsvFile(demo / "marks.csv"), rules).rows.size() > 40);
  const auto parts = readParts(readCsvFile(demo / "map-chest.csv"), rules);
  CHECK(parts.warnings.empty());
  CHECK(parts.rows.size() == 20);
}

TEST_CASE("damaged files never crash the reader") {
  const std::filesystem::path demo = std::filesystem::path(FLITCHBOOK_SOURCE) / "tools" / "demo";
  const ReadingRules rules = newBookRules();
  const std::string tally = firstLines(bytesOf(demo / "3-hobbs-reach.csv"), 4);
  const std::string slab =
      "species,kind,quarters,length,outline_a,outline_b,looked,count\ncherry,slab,8/4,7,"
      "0:0-14; 24:1/2-15 1/2; end:0-19,0:3/4-13 1/4; end:3/4-18,\"A rough, B no\",2\n";
  const std::string marks = firstLines(bytesOf(demo / "marks.csv"), 6);
  const std::string parts = firstLines(bytesOf(demo / "map-chest.csv"), 6);
  REQUIRE(tally.size() > 100);
  REQUIRE(parts.size() > 100);
  std::mt19937_64 random(41);
  Outcome outcome;
  for (int round = 0; round < 1500; ++round) {
    const auto tallyToo = [&](const CsvFile& f) { (void)readTally(f, rules); };
    replay(damaged(tally, random), outcome, tallyToo);
    replay(damaged(slab, random), outcome, tallyToo);
    replay(damaged(marks, random), outcome, [&](const CsvFile& f) { (void)readMarks(f, rules); });
    replay(damaged(parts, random), outcome, [&](const CsvFile& f) { (void)readParts(f, rules); });
  }
  // Both ends are reached, else the damage is too great or too small to show anything.
  CHECK(outcome.taken > 500);
  CHECK(outcome.refused > 2000);
}

TEST_CASE("quick marks take any keys without a stumble") {
  const ReadingRules rules = newBookRules();
  std::mt19937_64 random(42);
  const std::string keys = "0123456789--  /,.KC";
  int taken = 0;
  for (int round = 0; round < 20'000; ++round) {
    std::string text;
    for (std::size_t n = random() % 7; n > 0; --n) text += keys[random() % keys.size()];
    try {
      for (const MarkLine& mark : readQuickMarks(text, rules)) {
        if (mark.xTo && *mark.xTo <= mark.xFrom) FAIL(text);
        ++taken;
      }
    } catch (const Unreadable&) {
    }
  }
  CHECK(taken > 100);
}
