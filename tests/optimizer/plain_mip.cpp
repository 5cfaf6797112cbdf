#include "tests/optimizer/plain_mip.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>
#include <vector>

namespace flitch::optimizer::outside {
namespace {

/// Rows and whole columns of a programme to minimise.
class Programme {
 public:
  /// A row that must equal nothing, be at least `right` ('G') or at most ('L').
  int row(char sense, std::int64_t right) {
    rows_.push_back({sense, right});
    return static_cast<int>(rows_.size()) - 1;
  }
  int column(Worth cost) {
    columns_.push_back({cost, {}});
    return static_cast<int>(columns_.size()) - 1;
  }
  void put(int row, int column, std::int64_t factor) {
    columns_[static_cast<std::size_t>(column)].in[row] += factor;
  }

  [[nodiscard]] std::string text() const {
    std::string out = "NAME          SHOP\nROWS\n N  COST\n";
    for (std::size_t r = 0; r < rows_.size(); ++r)
      out += " " + std::string(1, rows_[r].sense) + "  " + name('R', r) + "\n";
    out += "COLUMNS\n    M1        'MARKER'                 'INTORG'\n";
    for (std::size_t c = 0; c < columns_.size(); ++c) {
      const std::string column = name('C', c);
      if (columns_[c].cost != 0) out += entry(column, "COST", columns_[c].cost);
      for (const auto& [row, factor] : columns_[c].in)
        if (factor != 0) out += entry(column, name('R', static_cast<std::size_t>(row)), factor);
    }
    out += "    M2        'MARKER'                 'INTEND'\nRHS\n";
    for (std::size_t r = 0; r < rows_.size(); ++r)
      if (rows_[r].right != 0) out += entry("RHS", name('R', r), rows_[r].right);
    // Readers differ in what they take a whole column's upper bound to be when none is given.
    out += "BOUNDS\n";
    for (std::size_t c = 0; c < columns_.size(); ++c) out += " PL BND       " + name('C', c) + "\n";
    return out + "ENDATA\n";
  }

 private:
  struct Row {
    char sense;
    std::int64_t right;
  };
  struct Column {
    Worth cost;
    std::map<int, std::int64_t> in;
  };

  static std::string name(char kind, std::size_t number) {
    std::array<char, 24> text{};
    std::snprintf(text.data(), text.size(), "%c%07zu", kind, number);
    return text.data();
  }
  static std::string entry(const std::string& column, const std::string& row, std::int64_t value) {
    std::array<char, 64> text{};
    std::snprintf(text.data(), text.size(), "    %-8s  %-8s  %12lld\n", column.c_str(), row.c_str(),
                  static_cast<long long>(value));
    return text.data();
  }

  std::vector<Row> rows_;
  std::vector<Column> columns_;
};

/// A flow from 0 to a last position, as strong as a column.
class Flow {
 public:
  Flow(Programme& programme, Tick last, int strength) : programme_(programme) {
    for (Tick p = 0; p <= last; ++p) rows_.push_back(programme.row('E', 0));
    programme.put(rows_.front(), strength, 1);
    programme.put(rows_.back(), strength, -1);
    for (Tick p = 0; p < last; ++p) arc(p, p + 1, 0);  // waste
  }
  /// Returns the arc's column.
  int arc(Tick from, Tick to, Worth cost) {
    const int column = programme_.column(cost);
    programme_.put(rows_[static_cast<std::size_t>(from)], column, -1);
    programme_.put(rows_[static_cast<std::size_t>(to)], column, 1);
    return column;
  }

 private:
  Programme& programme_;
  std::vector<int> rows_;
};

bool in(ClassSet set, int cls) { return ((set >> cls) & 1U) != 0; }

bool legal(const Stock& stock, int cls, const Rect& r) {
  if (cls == noClass) return false;
  const auto first = static_cast<std::size_t>(r.x), last = static_cast<std::size_t>(r.x + r.dx);
  for (std::size_t x = first; x < last; ++x)
    if (stock.profile.low[x] > r.y || stock.profile.high[x] < r.y + r.dy) return false;
  for (const std::vector<Zone>& zones : stock.zones) {
    const bool clear = std::none_of(zones.begin(), zones.end(), [&](const Zone& zone) {
      const Rect& z = zone.where;
      const bool alongX = std::max(z.x, r.x) < std::min(z.x + z.dx, r.x + r.dx);
      const bool alongY = std::max(z.y, r.y) < std::min(z.y + z.dy, r.y + r.dy);
      const auto meets = [&](Tick side) { return alongX && z.y <= side && side <= z.y + z.dy; };
      return (in(zone.barred, cls) && alongX && alongY) || (in(zone.nearEdge, cls) && meets(r.y)) ||
             (in(zone.farEdge, cls) && meets(r.y + r.dy));
    });
    if (clear) return true;
  }
  return false;
}

/// One stock cut in one direction first.
class Board {
 public:
  Board(Programme& programme, const Problem& problem, const Stock& stock, bool crosscutFirst,
        const std::vector<int>& needRows)
      : programme_(programme),
        problem_(problem),
        stock_(stock),
        x_(crosscutFirst),
        needRows_(needRows) {
    const Tick l = stock.profile.length(), w = stock.profile.width();
    nu_ = x_ ? l : w;
    nv_ = x_ ? w : l;
    ku_ = x_ ? problem.saw.kerfX : problem.saw.kerfY;
    kv_ = x_ ? problem.saw.kerfY : problem.saw.kerfX;
    cu_ = x_ ? problem.saw.crosscut : problem.saw.rip;
    cv_ = x_ ? problem.saw.rip : problem.saw.crosscut;
  }

  /// Returns the column that counts boards cut so.
  int build() {
    const int boards = programme_.column(stock_.cost);
    Flow flow(programme_, nu_ + ku_, boards);
    for (Tick u = 0; u < nu_; ++u)
      for (Tick end = u + 1; end <= nu_; ++end) section(u, end, flow.arc(u, end + ku_, cu_));
    return boards;
  }

 private:
  [[nodiscard]] Tick along(const Item& item) const { return x_ ? item.length : item.width; }
  [[nodiscard]] Tick across(const Item& item) const { return x_ ? item.width : item.length; }

  void section(Tick u, Tick end, int strength) {
    Flow flow(programme_, nv_ + kv_, strength);
    std::vector<Tick> widths;
    for (const Item& item : problem_.items)
      if (along(item) <= end - u && across(item) <= nv_) widths.push_back(across(item));
    std::sort(widths.begin(), widths.end());
    widths.erase(std::unique(widths.begin(), widths.end()), widths.end());
    for (const Tick width : widths)
      for (Tick v = 0; v + width <= nv_; ++v)
        strip(u, end, v, width, flow.arc(v, v + width + kv_, cv_));
  }

  void strip(Tick u, Tick end, Tick v, Tick width, int strength) {
    Flow flow(programme_, end - u + ku_, strength);
    for (std::size_t i = 0; i < problem_.items.size(); ++i) {
      const Item& item = problem_.items[i];
      if (across(item) != width) continue;
      for (Tick a = u; a + along(item) <= end; ++a) {
        const Rect where =
            x_ ? Rect{a, v, item.length, item.width} : Rect{v, a, item.length, item.width};
        if (!legal(stock_, stock_.itemClass[i], where)) continue;
        const int piece = flow.arc(a - u, a - u + along(item) + ku_, cu_ + item.extra);
        programme_.put(needRows_[static_cast<std::size_t>(item.need)], piece, item.supplies);
      }
    }
  }

  Programme& programme_;
  const Problem& problem_;
  const Stock& stock_;
  bool x_;
  const std::vector<int>& needRows_;
  Tick nu_ = 0, nv_ = 0, ku_ = 0, kv_ = 0;
  Worth cu_ = 0, cv_ = 0;
};

std::string firstLineWith(const std::string& word, const std::string& file) {
  std::ifstream in(file);
  for (std::string line; std::getline(in, line);)
    if (line.find(word) != std::string::npos) return line;
  return {};
}

/// Runs a program that writes `file`.out.
void run(const std::string& command, const std::string& file) {
  std::remove((file + ".out").c_str());
  // What it printed and how it ended does not matter, only what it wrote.
  if (std::system((command + " >'" + file + ".log' 2>&1").c_str()) == -1)
    throw std::runtime_error("no shell");
}

}  // namespace

std::string mps(const Problem& problem) {
  if (problem.saw.stages != 3 || problem.saw.trim)
    throw std::invalid_argument("three stages without trim only");
  Programme programme;
  std::vector<int> needRows;
  for (const Need& need : problem.needs) {
    needRows.push_back(programme.row('G', need.amount));
    programme.put(needRows.back(), programme.column(need.shortage), 1);
  }
  for (const Recipe& recipe : problem.recipes) {
    const int times = programme.column(recipe.cost);
    programme.put(needRows[static_cast<std::size_t>(recipe.makes)], times, 1);
    for (const Supply& use : recipe.uses)
      programme.put(needRows[static_cast<std::size_t>(use.need)], times, -use.amount);
  }
  for (const Stock& stock : problem.stock) {
    if (!stock.offcuts.bands.empty()) throw std::invalid_argument("offcuts worth nothing only");
    const int most = programme.row('L', stock.copies), least = programme.row('G', stock.least);
    for (const bool crosscutFirst : {true, false}) {
      if (problem.saw.first == (crosscutFirst ? FirstCut::y : FirstCut::x)) continue;
      const int boards = Board(programme, problem, stock, crosscutFirst, needRows).build();
      programme.put(most, boards, 1);
      programme.put(least, boards, 1);
    }
  }
  return programme.text();
}

std::optional<Worth> glpsol(const std::string& file) {
  run("glpsol --mps '" + file + "' --tmlim 20 -w '" + file + ".out'", file);
  // s mip ROWS COLUMNS o VALUE
  std::istringstream line(firstLineWith("s mip ", file + ".out"));
  std::string s, mip, rows, columns, status;
  double value = 0;
  if (!(line >> s >> mip >> rows >> columns >> status >> value) || status != "o") return {};
  return std::llround(value);
}

std::optional<Worth> cbc(const std::string& file) {
  run("cbc '" + file + "' -seconds 20 -solve -solution '" + file + ".out' -quit", file);
  // Optimal - objective value VALUE
  std::istringstream line(firstLineWith("Optimal - ", file + ".out"));
  std::string optimal, dash, objective, word;
  double value = 0;
  if (!(line >> optimal >> dash >> objective >> word >> value)) return {};
  return std::llround(value);
}

}  // namespace flitch::optimizer::outside
