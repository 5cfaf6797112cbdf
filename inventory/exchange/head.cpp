#include "inventory/exchange/cells.h"
#include "inventory/wood/writing.h"

namespace flitch::exchange {
namespace {

struct UnitWord {
  std::string_view word;
  std::string_view unit;  ///< as Cell::unit
};
constexpr std::array lengthUnits{
    UnitWord{"mm", "mm"}, UnitWord{"cm", "cm"},     UnitWord{"m", "m"},    UnitWord{"in", "in"},
    UnitWord{"\"", "in"}, UnitWord{"inches", "in"}, UnitWord{"ft", "ft"},  UnitWord{"feet", "ft"},
    UnitWord{"'", "ft"},  UnitWord{"inch", "in"},   UnitWord{"foot", "ft"}};

bool isLength(Measure measure) {
  return measure == Measure::feetLength || measure == Measure::inchLength ||
         measure == Measure::millimetres;
}

/// The unit a head may name for such a column; none when it does not fit.
std::optional<std::string> unitFor(std::string_view word, Measure measure, std::string_view sign) {
  if (isLength(measure)) {
    for (const UnitWord& unit : lengthUnits) {
      if (unit.word != word) continue;
      if (measure == Measure::millimetres && unit.unit != "mm") return std::nullopt;
      return std::string(unit.unit);
    }
    return std::nullopt;
  }
  const bool fits = (measure == Measure::percent && (word == "%" || word == "percent")) ||
                    (measure == Measure::boardFeet && word == "bf") ||
                    (measure == Measure::money && word == plain(sign));
  return fits ? std::optional<std::string>("") : std::nullopt;
}

/// A head cell taken apart: `Length (mm)` is length and mm.
struct HeadWords {
  std::string name;
  std::string unit;
};
HeadWords headWords(std::string_view cell) {
  std::string written = plain(cell);
  HeadWords words;
  const std::size_t open = written.find_first_of("([");
  if (open != std::string::npos && (written.back() == ')' || written.back() == ']')) {
    const std::string_view inside =
        std::string_view(written).substr(open + 1, written.size() - open - 2);
    words.unit = trimmed(inside);
    written = trimmed(std::string_view(written).substr(0, open));
  }
  std::replace(written.begin(), written.end(), ' ', '_');
  std::replace(written.begin(), written.end(), '-', '_');
  words.name = written;
  return words;
}

std::optional<std::size_t> fieldNamed(std::string_view name,
                                      std::span<const ImportColumn> columns) {
  const auto at = std::find_if(columns.begin(), columns.end(),
                               [name](const ImportColumn& c) { return c.name == name; });
  if (at == columns.end()) return std::nullopt;
  return static_cast<std::size_t>(at - columns.begin());
}

/// `length_mm` where there is no such column but there is `length`.
std::optional<std::size_t> fieldWithUnit(HeadWords& words, std::span<const ImportColumn> columns,
                                         std::span<const Measure> measures) {
  const std::size_t bar = words.name.rfind('_');
  if (bar == std::string::npos || !words.unit.empty()) return std::nullopt;
  const std::optional<std::size_t> field = fieldNamed(words.name.substr(0, bar), columns);
  if (!field || !unitFor(words.name.substr(bar + 1), measures[*field], "")) return std::nullopt;
  words.unit = words.name.substr(bar + 1);
  return field;
}

}  // namespace

Head readHead(const CsvFile& file, std::span<const ImportColumn> columns,
              std::span<const Measure> measures, const ReadingRules& rules) {
  Head head;
  Complaints complaints(file);
  const int line = file.head.empty() ? 1 : file.head.front().line;
  std::vector<bool> seen(columns.size(), false);
  for (std::size_t i = 0; i < file.head.size(); ++i) {
    const std::string& cell = file.head[i].text;
    HeadWords words = headWords(cell);
    std::optional<std::size_t> field = fieldNamed(words.name, columns);
    if (!field) field = fieldWithUnit(words, columns, measures);
    HeadCell out{field, ""};
    if (!field) {
      head.warnings.push_back(file.name + ": column " +
                              (cell.empty() ? std::to_string(i + 1) + " has no name"
                                            : inBackticks(cell) + " is not known") +
                              " and was left out");
    } else if (seen[*field]) {
      complaints.add(line, columns[*field].name, inBackticks(cell) + " stands in the head twice",
                     cell, "each column once");
    } else {
      seen[*field] = true;
      if (!words.unit.empty()) {
        const auto unit = unitFor(words.unit, measures[*field], rules.sign);
        if (unit) {
          out.unit = *unit;
        } else {
          complaints.add(line, columns[*field].name,
                         inBackticks(words.unit) + " is not a unit of this column", cell,
                         isLength(measures[*field]) ? "mm, cm, m, in, ft" : "the name alone");
        }
      }
    }
    head.cells.push_back(std::move(out));
  }
  for (std::size_t i = 0; i < columns.size(); ++i) {
    if (!columns[i].needed || seen[i]) continue;
    complaints.add(line, "", "the head has no column `" + std::string(columns[i].name) + "`", "",
                   std::string(columns[i].text));
  }
  complaints.refuse("bad-head");
  return head;
}

}  // namespace flitch::exchange
