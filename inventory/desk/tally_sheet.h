#pragma once
#include <array>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "inventory/desk/invoice_sheet.h"
#include "inventory/exchange/columns.h"
#include "inventory/records/delivery.h"
#include "inventory/records/table.h"

namespace flitch::desk {

/// The cells of a tally's line as they are typed, in order.
enum class TallyCell {
  tag,
  species,
  nominal,
  length,
  width,
  far,
  grade,
  looked,
  marks,
  price,
  bay,
  log,
  count,
  outlineA,
  outlineB,
  thickness,
  cutFrom,
  moisture,
  note
};
inline constexpr std::size_t tallyCells = 19;

/// A line as typed. A cell that is carried stands there because it stood in the line above.
struct TypedLine {
  std::array<std::string, tallyCells> cells;
  std::array<bool, tallyCells> carried{};
  [[nodiscard]] const std::string& at(TallyCell cell) const {
    return cells[static_cast<std::size_t>(cell)];
  }
  /// Nothing in it was typed.
  [[nodiscard]] bool blank() const;
  friend bool operator==(const TypedLine&, const TypedLine&) = default;
};

/// A delivery while it is being typed.
struct TallySheet {
  std::string supplier, reference;
  std::string receivedOn;            ///< ISO date
  std::string freight;               ///< as typed, spread by value
  std::optional<CountingRule> rule;  ///< none: as the supplier's last delivery
  std::vector<TypedLine> lines;
  std::vector<TypedInvoice> invoice;  ///< what the invoice asks and claims
  friend bool operator==(const TallySheet&, const TallySheet&) = default;
};

/// Under which the book's drafts keep it.
inline constexpr const char* tallyDraft = "tally";
/// For the book's drafts, and back; what cannot be read gives an empty sheet.
[[nodiscard]] std::string written(const TallySheet& sheet);
[[nodiscard]] TallySheet readSheet(const std::string& body);

/// Something wrong in a cell.
struct CellFault {
  TallyCell cell = TallyCell::length;
  Complaint complaint;
};

/// A line as it was read.
struct ReadLine {
  std::optional<TallyLine> line;  ///< none while something is missing or wrong
  std::vector<exchange::MarkLine> marks;
  std::vector<CellFault> faults;
  std::vector<std::string> cautions;  ///< what is unlikely in it and taken all the same
  std::size_t missing = 0;            ///< faults that are needed cells still empty
};

/// Reads one line as the import reads a row: same words, same sentences. `number`: 1, 2, ... A
/// multiplier before the length (`3x 10-6`) is passed over: see spreadEqual().
[[nodiscard]] ReadLine readLine(const TypedLine& typed, int number,
                                const exchange::ReadingRules& rules);

/// A sheet as it was read. Lines without anything typed are passed over.
struct ReadTally {
  std::vector<ReadLine> lines;  ///< of each line of the sheet
  DeliveryDraft draft;          ///< of the lines that can be read
  std::vector<exchange::MarkLine> marks;
  std::vector<TallyFigures> figures;  ///< of the draft's boards
  ReadInvoice invoice;
  Table against;  ///< the tally beside what the invoice claims; no rows where it claims nothing
  std::vector<std::string> troubles;  ///< that keep it from being received, a sentence each
  [[nodiscard]] bool ready() const { return troubles.empty() && !draft.lines.empty(); }
};
[[nodiscard]] ReadTally readTally(const TallySheet& sheet, CountingRule rule,
                                  const exchange::ReadingRules& rules);

/// The line that follows `above`: its species, thickness, grade, looked, price, log and bay carried
/// down, and `tag` the next of the roll.
[[nodiscard]] TypedLine lineAfter(const TypedLine& above, const std::string& tag);

/// `3x 10-6` in a line's length: makes it one of so many equal lines, each with the next tag of the
/// roll. Returns how many lines it is now; 1: nothing changed.
std::size_t spreadEqual(TallySheet& sheet, std::size_t line,
                        const std::function<std::string()>& nextTag);

/// A board cut for the van: a second line below, of the same wood and `tag`, that came as one with
/// this line. They are billed once and share its cost.
void cutForTheVan(TallySheet& sheet, std::size_t line, const std::string& tag);

/// Rows of a spreadsheet (tabs between cells, a line a row) typed over the sheet from a cell on,
/// new lines where it ends. A first row that names columns of a tally says which cells are which;
/// what it leaves out stands as it was. `nextTag` gives the tags of lines that have none.
void paste(TallySheet& sheet, std::size_t line, TallyCell cell, const std::string& rows, Unit unit,
           const std::function<std::string()>& nextTag);

}  // namespace flitch::desk
