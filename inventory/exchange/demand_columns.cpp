#include <set>

#include "inventory/exchange/cells.h"
#include "inventory/wood/writing.h"

namespace flitch::exchange {
namespace {

/// What a column of the table says: its key with blanks for underscores.
std::string keyOf(std::string_view head) {
  std::string key = plain(head);
  std::replace(key.begin(), key.end(), '_', ' ');
  return key;
}

class DemandReader {
 public:
  DemandReader(const CsvFile& file, const ReadingRules& rules)
      : file_(file), rules_(rules), complaints_(file) {}

  std::vector<Demand> read() {
    readHead();
    complaints_.refuse("bad-head");
    for (const CsvRow& row : file_.rows) readRow(row);
    if (file_.rows.empty()) {
      complaints_.add(0, "", "the table has a head and no rows", "", "a row for each demand");
    }
    complaints_.refuse("bad-cell");
    return std::move(demands_);
  }

 private:
  void readHead() {
    std::set<std::string> seen;
    for (const CsvCell& cell : file_.head) {
      const std::string key = keyOf(cell.text);
      columns_.push_back(key);
      const bool known = key == "demand" || key == "unseen" || key == "outside good" || isKind(key);
      if (!known) {
        std::string kinds;
        for (const std::string& kind : rules_.defectKinds) {
          if (isKind(kind)) kinds += ", " + kind;
        }
        complaints_.add(cell.line, cell.text, inBackticks(cell.text) + " is no kind of mark",
                        cell.text, "demand, unseen, outside_good" + kinds);
      } else if (!seen.insert(key).second) {
        complaints_.add(cell.line, cell.text, "the column stands twice", cell.text, "once");
      }
    }
    if (!seen.contains("demand")) {
      complaints_.add(1, "", "the column demand is missing", "", "demand, and kinds of mark");
    }
  }

  [[nodiscard]] bool isKind(const std::string& key) const {
    return key != "good" && key != "show" &&
           std::find(rules_.defectKinds.begin(), rules_.defectKinds.end(), key) !=
               rules_.defectKinds.end();
  }

  void readRow(const CsvRow& row) {
    Demand demand;
    for (std::size_t i = 0; i < columns_.size() && i < row.cells.size(); ++i) {
      const CsvCell& from = row.cells[i];
      if (from.text.empty()) continue;
      try {
        readCell(Cell{from.text, rules_, Measure::inchLength, ""}, columns_[i], demand);
      } catch (const Unreadable& what) {
        complaints_.add(from.line, columns_[i], what);
      }
    }
    if (demand.name.empty()) {
      complaints_.add(row.line, "demand", "the row has no name", "", "heart only, clear, ...");
    } else if (std::any_of(demands_.begin(), demands_.end(),
                           [&](const Demand& d) { return d.name == demand.name; })) {
      complaints_.add(row.line, "demand", demand.name + " stands twice", demand.name, "once");
    }
    demands_.push_back(std::move(demand));
  }

  static void readCell(const Cell& cell, const std::string& column, Demand& demand) {
    static const std::array<std::string_view, 3> none{"no", "none", "-"};
    const std::string written = plain(cell.text);
    const bool barred = std::find(none.begin(), none.end(), written) != none.end();
    if (column == "demand") {
      demand.name = plain(cell.note(40));
    } else if (column == "unseen") {
      demand.unseen = cell.yesOrNo();
    } else if (column == "outside good") {
      demand.outsideGood = cell.yesOrNo();
    } else if (!barred) {
      if (written != "any" && written != "yes") demand.limits.push_back({column, sizeIn(cell)});
      demand.allowed.push_back(column);
    }
  }

  static Length sizeIn(const Cell& cell) {
    try {
      const Length size = cell.length();
      if (size > Length()) return size;
    } catch (const Unreadable&) {
    }
    throw cell.unreadable(" is no size of a mark", "any, no, or the largest: 1/2, 12 mm");
  }

  const CsvFile& file_;
  const ReadingRules& rules_;
  Complaints complaints_;
  std::vector<std::string> columns_;
  std::vector<Demand> demands_;
};

}  // namespace

std::vector<Demand> readDemands(const CsvFile& file, const ReadingRules& rules) {
  return DemandReader(file, rules).read();
}

}  // namespace flitch::exchange
