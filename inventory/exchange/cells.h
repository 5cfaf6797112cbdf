#pragma once
#include <algorithm>
#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "inventory/exchange/columns.h"
#include "inventory/wood/unreadable.h"

/// How the three imports read their cells. Used by the *_columns units only.
namespace flitch::exchange {

/// What a column measures: how a bare figure is read, and which unit its head may name.
enum class Measure { none, feetLength, inchLength, millimetres, percent, money, boardFeet };

/// All that is wrong with a file, with places.
class Complaints {
 public:
  explicit Complaints(const CsvFile& file) : file_(file.name) {}
  void add(int line, std::string_view column, const std::string& sentence, std::string_view value,
           const std::string& accepted);
  void add(int line, std::string_view column, const Unreadable& what);
  [[nodiscard]] bool any() const { return !all_.empty(); }
  /// Throws a Refusal with the first 50 and a count of the rest, if there is anything.
  void refuse(const std::string& code);

 private:
  std::string file_;
  std::vector<Complaint> all_;
};

/// A cell with the rules it is read by. Every reader throws Unreadable.
struct Cell {
  std::string_view text;
  const ReadingRules& rules;
  Measure measure = Measure::none;
  std::string_view unit;  ///< named by the head, or empty

  [[nodiscard]] Length length() const;
  /// A whole number from `least` to `most`.
  [[nodiscard]] int number(int least, int most) const;
  [[nodiscard]] Money price() const;
  /// Free text of at most `most` bytes.
  [[nodiscard]] std::string note(std::size_t most) const;
  [[nodiscard]] bool yesOrNo() const;
  /// A board's tag with its check character.
  [[nodiscard]] TagCode tag() const;
  /// One of `known`, blanks and case folded; else named with what is near.
  [[nodiscard]] std::string oneOf(std::span<const std::string> known, std::string_view what) const;
  [[nodiscard]] Unreadable unreadable(std::string_view sentence, std::string accepted) const;
};

/// The one of `words` that the cell holds, as its number.
[[nodiscard]] std::size_t wordOf(const Cell& cell, std::span<const std::string_view> words);

/// Sizes with a maker's sentence when they are too large or too small to be meant.
[[nodiscard]] Length boardLength(const Cell& cell);
[[nodiscard]] Length boardWidth(const Cell& cell);
[[nodiscard]] Length boardThickness(const Cell& cell);

/// Nominal thickness under a column of quarters, or of millimetres.
[[nodiscard]] Nominal nominalCell(const Cell& cell, Unit unit);

/// `12-17`, `60-end`, `1-1/2-15 1/4`: two lengths, bare figures by `bare`; the second may be `end`
/// (none). Throws Unreadable, also when it can be read in two ways or runs backward.
struct LengthSpan {
  Length from;
  std::optional<Length> to;
};
[[nodiscard]] LengthSpan readSpan(std::string_view text, Bare bare);

/// The bare unit of widths, marks and job sizes.
[[nodiscard]] constexpr Bare smallBare(Unit unit) {
  return unit == Unit::inches ? Bare::inches : Bare::millimetres;
}

/// `text` parted at any of `signs`, outer blanks cut, empty parts left out.
[[nodiscard]] std::vector<std::string_view> parted(std::string_view text, std::string_view signs);

/// A column of an import: what is told about it, and how its cell goes into a row.
template <class Row>
struct Field {
  ImportColumn column;
  Measure measure;
  void (*read)(const Cell&, Row&);
};

template <class Row, std::size_t n>
[[nodiscard]] std::array<ImportColumn, n> columnsOf(const std::array<Field<Row>, n>& fields) {
  std::array<ImportColumn, n> columns;
  std::transform(fields.begin(), fields.end(), columns.begin(),
                 [](const Field<Row>& field) { return field.column; });
  return columns;
}

/// Which column each head cell is, and the unit it names.
struct HeadCell {
  std::optional<std::size_t> field;
  std::string unit;
};
struct Head {
  std::vector<HeadCell> cells;
  std::vector<std::string> warnings;
};
/// Matches the head against the columns: `Length (mm)`, `length_mm`, `length` alike. Throws Refusal
/// ("bad-head"): a column twice, a needed one missing, a unit that does not fit.
[[nodiscard]] Head readHead(const CsvFile& file, std::span<const ImportColumn> columns,
                            std::span<const Measure> measures, const ReadingRules& rules);

/// Reads every row; a row with a complaint is left out of the result, so the caller's own checks
/// see whole rows only.
template <class Row, std::size_t n>
std::vector<Row> readRows(const CsvFile& file, const std::array<Field<Row>, n>& fields,
                          const ReadingRules& rules, Complaints& complaints,
                          std::vector<std::string>& warnings) {
  std::array<Measure, n> measures{};
  std::transform(fields.begin(), fields.end(), measures.begin(),
                 [](const Field<Row>& field) { return field.measure; });
  const std::array<ImportColumn, n> columns = columnsOf(fields);
  const Head head = readHead(file, columns, measures, rules);
  warnings.insert(warnings.end(), head.warnings.begin(), head.warnings.end());

  std::vector<Row> rows;
  for (const CsvRow& from : file.rows) {
    Row row;
    row.line = from.line;
    bool whole = true;
    for (std::size_t i = 0; i < head.cells.size(); ++i) {
      if (!head.cells[i].field) continue;
      const Field<Row>& field = fields[*head.cells[i].field];
      const bool there = i < from.cells.size() && !from.cells[i].text.empty();
      try {
        if (there) {
          field.read(Cell{from.cells[i].text, rules, field.measure, head.cells[i].unit}, row);
        } else if (field.column.needed) {
          throw Unreadable("the cell is empty", "", std::string(field.column.text));
        }
      } catch (const Unreadable& what) {
        const int line = there ? from.cells[i].line : from.line;
        complaints.add(line, field.column.name, what);
        whole = false;
      }
    }
    if (whole) rows.push_back(std::move(row));
  }
  if (file.rows.empty()) {
    complaints.add(0, "", "the file has a head and no rows", "", "a row for each line");
  }
  return rows;
}

}  // namespace flitch::exchange
