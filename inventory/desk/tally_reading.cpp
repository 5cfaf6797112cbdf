#include <algorithm>
#include <sstream>

#include "inventory/desk/receive.h"
#include "inventory/desk/tally_cells.h"
#include "inventory/records/tally_cautions.h"
#include "inventory/wood/unreadable.h"

namespace flitch::desk {

namespace {

/// Columns beside those of the cells: what a price may be of, and the lot it is of.
constexpr std::array<std::string_view, 6> otherColumns{"price_per_bf", "price_per_m3", "price_each",
                                                       "price_per_ft", "price_lot",    "lot"};

/// The cell that a complaint's place names last: "tally:3:width".
std::optional<TallyCell> cellOf(const Complaint& complaint, Unit unit) {
  const std::string column = complaint.place.substr(complaint.place.rfind(':') + 1);
  if (std::find(otherColumns.begin(), otherColumns.end(), column) != otherColumns.end()) {
    return TallyCell::price;
  }
  const auto columns = tallyColumnsOf(unit);
  for (std::size_t c = 0; c < tallyCells; ++c) {
    if (!columns[c].empty() && columns[c] == column) return static_cast<TallyCell>(c);
  }
  return std::nullopt;
}

/// What a price is of, said after it: `45 each`, `3.20 ft`, `900 m3`, `120 lot`, `120 lot A`. Bare:
/// of a board foot, in a metric book of a cubic metre.
struct PriceSaid {
  std::string_view column;
  std::string amount, lot;
};
PriceSaid priceSaid(const std::string& cell, Unit unit) {
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 6> words{
      {{"bf", "price_per_bf"},
       {"m3", "price_per_m3"},
       {"m³", "price_per_m3"},
       {"each", "price_each"},
       {"ft", "price_per_ft"},
       {"lot", "price_lot"}}};
  std::istringstream parts(cell);
  std::string amount, word, lot;
  parts >> amount >> word;
  std::getline(parts, lot);
  if (!word.empty() && word[0] == '/') word.erase(0, 1);
  for (const auto& [said, column] : words) {
    if (word == said && (lot.empty() || word == "lot")) return {column, amount, trimmed(lot)};
  }
  return {tallyColumnsOf(unit)[index(TallyCell::price)], cell, ""};
}

/// Lines as rows of a tally file, numbered as given.
class AsFile {
 public:
  explicit AsFile(Unit unit) : unit_(unit) {
    file_.name = "tally";
    for (const std::string_view column : tallyColumnsOf(unit)) {
      if (!column.empty() && column.rfind("price", 0) != 0) {
        file_.head.push_back({std::string(column), 0});
      }
    }
    for (const std::string_view column : otherColumns) {
      file_.head.push_back({std::string(column), 0});
    }
  }
  void add(const TypedLine& typed, int number, bool withGroups) {
    exchange::CsvRow& row = file_.rows.emplace_back();
    row.line = number;
    const auto columns = tallyColumnsOf(unit_);
    const auto put = [&](const std::string& text) { row.cells.push_back({text, number}); };
    for (std::size_t c = 0; c < tallyCells; ++c) {
      const auto cell = static_cast<TallyCell>(c);
      if (columns[c].empty() || cell == TallyCell::price) continue;
      if (cell == TallyCell::length) {
        put(multiplied(typed.at(cell)).length);
      } else {
        put(cell == TallyCell::cutFrom && !withGroups ? std::string() : typed.at(cell));
      }
    }
    const PriceSaid price = priceSaid(typed.at(TallyCell::price), unit_);
    for (const std::string_view column : otherColumns) {
      put(column == "lot"          ? (withGroups ? price.lot : std::string())
          : column == price.column ? price.amount
                                   : std::string());
    }
  }
  [[nodiscard]] std::vector<TallyLine> read(const exchange::ReadingRules& rules) const {
    return exchange::readTally(file_, rules).rows;
  }
  [[nodiscard]] bool empty() const { return file_.rows.empty(); }

 private:
  Unit unit_;
  exchange::CsvFile file_;
};

/// Whether the line came with others as one board, or as one lot.
bool grouped(const TypedLine& typed, Unit unit) {
  return !typed.at(TallyCell::cutFrom).empty() ||
         !priceSaid(typed.at(TallyCell::price), unit).lot.empty();
}

}  // namespace

ReadLine readLine(const TypedLine& typed, int number, const exchange::ReadingRules& rules) {
  ReadLine read;
  AsFile file(rules.unit);
  file.add(typed, number, false);
  try {
    read.line = file.read(rules).at(0);
    read.cautions = cautions(*read.line, rules.unit);
  } catch (const Refusal& refusal) {
    for (const Complaint& complaint : refusal.complaints()) {
      const TallyCell cell = cellOf(complaint, rules.unit).value_or(TallyCell::width);
      if (typed.at(cell).empty()) ++read.missing;
      read.faults.push_back({cell, complaint});
    }
  }
  if (!typed.at(TallyCell::marks).empty()) {
    try {
      read.marks = exchange::readQuickMarks(typed.at(TallyCell::marks), rules);
      for (exchange::MarkLine& mark : read.marks) mark.tallyLine = number;
      // A mark past the board's end would be refused when the load is in.
      if (read.line) {
        Board board;
        board.outline = read.line->outline;
        static_cast<void>(placed(board, read.marks, rules.unit));
      }
    } catch (const Refusal& refusal) {
      read.faults.push_back({TallyCell::marks, refusal.complaints().front()});
    } catch (const Unreadable& what) {
      read.faults.push_back({TallyCell::marks, {"", what.what(), what.value, what.accepted}});
    }
    if (!read.faults.empty()) read.line.reset();
  }
  return read;
}

namespace {

/// Lines that came as one board or as one lot are read once more, together: they share a price.
void shareBetweenLines(const TallySheet& sheet, ReadTally& tally,
                       const exchange::ReadingRules& rules) {
  AsFile file(rules.unit);
  std::vector<std::size_t> members;
  for (std::size_t l = 0; l < sheet.lines.size(); ++l) {
    if (!tally.lines[l].line || !grouped(sheet.lines[l], rules.unit)) continue;
    file.add(sheet.lines[l], tally.lines[l].line->line, true);
    members.push_back(l);
  }
  if (file.empty()) return;
  try {
    const std::vector<TallyLine> shared = file.read(rules);
    for (std::size_t m = 0; m < members.size(); ++m) tally.lines[members[m]].line = shared[m];
  } catch (const Refusal& refusal) {
    for (const Complaint& complaint : refusal.complaints()) {
      for (const std::size_t l : members) {
        ReadLine& line = tally.lines[l];
        const std::string place = "tally:" + std::to_string(line.line ? line.line->line : 0) + ":";
        if (complaint.place.rfind(place, 0) != 0) continue;
        line.faults.push_back(
            {cellOf(complaint, rules.unit).value_or(TallyCell::cutFrom), complaint});
        break;
      }
    }
    for (const std::size_t l : members) {
      if (!tally.lines[l].faults.empty()) tally.lines[l].line.reset();
    }
  }
}

/// What the invoice asks besides the boards, and what it claims.
void takeInvoice(const TallySheet& sheet, ReadTally& tally, const exchange::ReadingRules& rules) {
  tally.invoice = readInvoice(sheet.invoice, rules);
  tally.draft.extras = tally.invoice.invoice.extras;
  tally.draft.claims = tally.invoice.invoice.claims;
  for (const auto& line : tally.invoice.faults) {
    if (line.empty()) continue;
    tally.troubles.push_back("Invoice: " + line.front().second.sentence);
    break;
  }
  if (sheet.freight.empty()) return;
  try {
    tally.draft.extras.push_back(
        {0, InvoiceKind::freight, parseMoney(sheet.freight), Spread::value, ""});
  } catch (const Unreadable& what) {
    tally.troubles.push_back("Freight: " + std::string(what.what()));
  }
}

}  // namespace

ReadTally readTally(const TallySheet& sheet, CountingRule rule,
                    const exchange::ReadingRules& rules) {
  ReadTally tally;
  tally.draft.supplier = sheet.supplier;
  tally.draft.reference = sheet.reference;
  tally.draft.receivedOn = sheet.receivedOn;
  tally.draft.rule = sheet.rule.value_or(rule);
  int number = 0;
  for (const TypedLine& typed : sheet.lines) {
    tally.lines.push_back(typed.blank() ? ReadLine() : readLine(typed, ++number, rules));
  }
  shareBetweenLines(sheet, tally, rules);
  number = 0;
  for (std::size_t l = 0; l < sheet.lines.size(); ++l) {
    if (sheet.lines[l].blank()) continue;
    ++number;
    const std::string& tag = sheet.lines[l].at(TallyCell::tag);
    const ReadLine& line = tally.lines[l];
    if (line.line) {
      tally.draft.lines.push_back(*line.line);
      tally.marks.insert(tally.marks.end(), line.marks.begin(), line.marks.end());
    } else if (!line.faults.empty()) {
      tally.troubles.push_back((tag.empty() ? "Line " + std::to_string(number) : tag) + ": " +
                               line.faults.front().complaint.sentence);
    }
  }
  takeInvoice(sheet, tally, rules);
  if (tally.draft.lines.empty()) return tally;
  if (sheet.supplier.empty()) tally.troubles.push_back("The supplier is not named yet");
  try {
    tally.figures = figures(tally.draft);
    if (!tally.draft.claims.empty()) tally.against = againstInvoice(tally.draft, tally.figures);
  } catch (const Refusal& refusal) {
    tally.troubles.push_back(refusal.complaints().front().sentence);
  }
  return tally;
}

}  // namespace flitch::desk
