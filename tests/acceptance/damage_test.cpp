#include <algorithm>
#include <catch2/catch.hpp>
#include <random>
#include <sstream>

#include "tests/acceptance/program.h"

using flitch::acceptance::Bench;
using flitch::acceptance::Ran;

// Files as they come from elsewhere, damaged at random: whatever is done to one, the program takes
// it whole or names what is wrong with it and leaves the book byte for byte as it was.

namespace {

using Rows = std::vector<std::vector<std::string>>;

struct Import {
  const char* file;
  const char* command;
  Rows rows;
};

const std::vector<Import>& imports() {
  static const std::vector<Import> all{
      {"tally.csv",
       "receive tally.csv --supplier Yard",
       {{"species", "quarters", "length", "width", "grade", "price_per_bf", "bay", "note"},
        {"cherry", "4/4", "10-6", "8 3/4", "FAS", "8.20", "A1", "cup, light"},
        {"white oak", "8/4", "9' 6\"", "7", "", "$12.50", "", ""},
        {"ash", "5/4", "96 in", "190 mm", "No. 1 Common", "5", "B2", "=not a formula"}}},
      {"invoice.csv",
       "receive whole.csv --supplier Yard --invoice invoice.csv",
       {{"what", "species", "quarters", "bf", "amount", "spread"},
        {"boards", "cherry", "4/4", "8", "64.00", ""},
        {"freight", "", "", "", "20", "feet"},
        {"discount", "", "", "", "3.50", "value"}}},
      {"marks.csv",
       "mark marks.csv",
       {{"tag", "kind", "face", "x_from", "x_to", "y_from", "y_to"},
        {"T0001-X", "sound knot", "A", "12", "14 1/2", "2", "4"},
        {"T0002-V", "split", "through", "90", "end", "", ""}}},
      {"parts.csv",
       "job add JOB parts.csv",
       {{"part", "count", "length", "width", "thickness", "species", "face_a", "note"},
        {"shelf", "2", "30", "6", "3/4", "cherry|ash", "clear", ""},
        {"rail", "4", "952.5 mm", "2 1/2", "13/16", "ash", "", "left \"long\""}}}};
  return all;
}

std::string quoted(const std::string& cell) {
  if (cell.find_first_of(",;\t\"\n") == std::string::npos) return cell;
  std::string out = "\"";
  for (const char c : cell) out += c == '"' ? std::string("\"\"") : std::string(1, c);
  return out + "\"";
}

std::string written(const Rows& rows, const std::string& comma = ",",
                    const std::string& end = "\n") {
  std::string text;
  for (const auto& row : rows) {
    for (std::size_t c = 0; c < row.size(); ++c) text += (c == 0 ? "" : comma) + quoted(row[c]);
    text += end;
  }
  return text;
}

class Damage {
 public:
  explicit Damage(unsigned seed) : random_(seed) {}

  std::string done(Rows rows, std::string& what) {
    const std::string whole = written(rows);
    switch (pick(14)) {
      case 0: what = "columns in another order"; return written(shuffled(rows));
      case 1: what = "a byte order mark"; return "\xef\xbb\xbf" + whole;
      case 2: what = "line ends of elsewhere"; return written(rows, ",", "\r\n");
      case 3: what = "semicolons"; return written(rows, ";");
      case 4: what = "tabs"; return written(rows, "\t");
      case 5: what = "sixteen bits a letter"; return wide(whole);
      case 6: what = "a quote too many"; return inserted(whole, "\"");
      case 7: what = "cut off"; return whole.substr(0, pick(whole.size()));
      case 8: what = "bytes turned"; return turned(whole);
      case 9: what = "a huge cell"; return written(withCell(rows, std::string(3'000'000, '7')));
      case 10: what = "a column gone"; return written(without(rows));
      case 11: what = "a head twice"; return written(twice(rows));
      case 12: what = "nothing"; return pick(2) == 0 ? "" : "\n\n";
      default: break;
    }
    static const std::vector<std::string> cells{
        "-5",       "0",          "1e99",       "99999999999999999999",
        "8 7/",     "106'",       "12 parsecs", "=1+2",
        "@SUM(A1)", "+cmd|x",     "7,40 kr",    "NaN",
        "-0",       "\xff\xfe",   "9' 13\"",    "8 3/4 in mm",
        "1/0",      "0.0000001",  "9e-9",       "\x01",
        "T0001-Y",  "ünïcode 木", "A\nB",       "\"\"",
        "1000 ft",  "  ",         "4/4/4",      "end-12"};
    const std::string cell = cells[pick(cells.size())];
    what = "the cell " + cell;
    return written(withCell(rows, cell));
  }

 private:
  std::size_t pick(std::size_t below) {
    return below == 0 ? 0 : std::uniform_int_distribution<std::size_t>(0, below - 1)(random_);
  }
  Rows shuffled(const Rows& rows) {
    std::vector<std::size_t> order(rows[0].size());
    for (std::size_t c = 0; c < order.size(); ++c) order[c] = c;
    std::shuffle(order.begin(), order.end(), random_);
    Rows other = rows;
    for (std::size_t r = 0; r < rows.size(); ++r)
      for (std::size_t c = 0; c < order.size(); ++c) other[r][c] = rows[r][order[c]];
    return other;
  }
  Rows withCell(Rows rows, const std::string& cell) {
    auto& row = rows[1 + pick(rows.size() - 1)];
    row[pick(row.size())] = cell;
    return rows;
  }
  Rows without(Rows rows) {
    const auto gone = static_cast<std::ptrdiff_t>(pick(rows[0].size()));
    for (auto& row : rows) row.erase(row.begin() + gone);
    return rows;
  }
  Rows twice(Rows rows) {
    rows[0][pick(rows[0].size())] = rows[0][pick(rows[0].size())];
    return rows;
  }
  std::string inserted(std::string text, const std::string& bytes) {
    return text.insert(pick(text.size()), bytes);
  }
  std::string turned(std::string text) {
    for (std::size_t n = 1 + pick(4); n > 0; --n)
      text[pick(text.size())] = static_cast<char>(pick(256));
    return text;
  }
  static std::string wide(const std::string& text) {
    std::string out("\xff\xfe");
    for (const char c : text) out += std::string{c, '\0'};
    return out;
  }

  std::mt19937 random_;
};

/// A shop with a load in its book, each import whole beside it.
void open(const Bench& bench) {
  bench.flitch("book create");
  bench.write("whole.csv", written(imports()[0].rows));
  bench.flitch("receive whole.csv --supplier Yard");
}

Ran importAs(const Bench& bench, const Import& import, int number) {
  std::string command = import.command;
  if (const std::size_t at = command.find("JOB"); at != std::string::npos)
    command.replace(at, 3, "'Job " + std::to_string(number) + "'");
  return bench.shell("flitch " + command);
}

}  // namespace

TEST_CASE("every import is taken whole as it is, in any order of columns, with any line end") {
  const Bench bench;
  open(bench);
  int number = 0;
  for (const Import& import : imports())
    for (const std::string& bytes :
         {written(import.rows), "\xef\xbb\xbf" + written(import.rows, ",", "\r\n"),
          written(import.rows, ";"), written(import.rows, "\t")}) {
      bench.write(import.file, bytes);
      const Ran ran = importAs(bench, import, ++number);
      INFO(import.file << ": " << ran.err);
      CHECK(ran.exitCode == 0);
    }
}

TEST_CASE("random damage to an import: a clear error and an untouched book, or a correct result") {
  const Bench bench;
  open(bench);
  Damage damage(53);
  int refused = 0, taken = 0;
  for (int n = 0; n < 160; ++n) {
    const Import& import = imports()[static_cast<std::size_t>(n) % imports().size()];
    std::string what;
    bench.write(import.file, damage.done(import.rows, what));
    const std::string before = bench.bookBytes();
    const Ran ran = importAs(bench, import, n);
    INFO(n << " " << import.file << ", " << what << ": " << ran.err.substr(0, 400));
    REQUIRE((ran.exitCode == 0 || ran.exitCode == 1));
    if (ran.exitCode == 0) {
      ++taken;
      continue;
    }
    ++refused;
    CHECK(ran.out.empty());
    // Places are named; a sentence about one cell never carries the whole of a huge one.
    CHECK(ran.err.size() > 10);
    CHECK(ran.err.size() < 5000);
    CHECK_FALSE(ran.err.find("terminate") != std::string::npos);
    CHECK(bench.bookBytes() == before);
  }
  CHECK(refused >= 40);
  CHECK(taken >= 20);
  CHECK(bench.flitch("book check").exitCode == 0);
}
