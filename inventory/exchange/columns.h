#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "inventory/exchange/csv.h"
#include "inventory/records/delivery.h"
#include "inventory/records/job.h"
#include "inventory/records/job_line.h"
#include "inventory/records/price.h"
#include "inventory/records/shop.h"

namespace flitch::exchange {

/// One column of an import: feeds reading, paste, grid heads and --help.
struct ImportColumn {
  std::string_view name;  ///< as in the head: "length"
  std::string_view unit;  ///< how a bare figure is read in an inch book, or empty
  bool needed = false;
  std::string_view text;  ///< one sentence
};
[[nodiscard]] std::span<const ImportColumn> tallyColumns();
[[nodiscard]] std::span<const ImportColumn> invoiceColumns();
[[nodiscard]] std::span<const ImportColumn> markColumns();
[[nodiscard]] std::span<const ImportColumn> partColumns();
[[nodiscard]] std::span<const ImportColumn> sizeColumns();
[[nodiscard]] std::span<const ImportColumn> priceColumns();
[[nodiscard]] std::span<const ImportColumn> jobLineColumns();

/// What a file gave: all its rows, and warnings (an unknown column, by name).
template <class Row>
struct Taken {
  std::vector<Row> rows;
  std::vector<std::string> warnings;
};

/// How bare figures of a book are read.
struct ReadingRules {
  Unit unit = Unit::inches;  ///< inches: bare length in feet, bare width in inches
  std::string sign = "$";
  std::vector<std::string> species;  ///< names the book knows; others are complaints
  std::vector<std::string> defectKinds;
  std::vector<std::string> demands;
  std::vector<std::string> sizes;  ///< names that parts' sizes may be arithmetic over
};

/// A tally. All bad cells of the file are collected; throws one Refusal with all of them (at most
/// 50, then a count), each with file:line:column, value and what is accepted. Sizes past
/// maxBoardLength and kin are complaints in a maker's words. Codes: "bad-head", "bad-cell".
/// Units stand in the cell or the head (`length (mm)`, `length_mm`); the cell's holds.
[[nodiscard]] Taken<TallyLine> readTally(const CsvFile& file, const ReadingRules& rules);

/// The invoice of a delivery, as one "row": what its boards claim, its other lines, its total.
[[nodiscard]] Taken<Invoice> readInvoice(const CsvFile& file, const ReadingRules& rules);

/// Where a mark that goes through aslant comes out on face B; what is not said is as on face A.
struct PlaceOnB {
  std::optional<Length> xFrom, xTo, yFrom, yTo;
};

/// A line of a marks file: which board, and the mark. `end` is resolved when the board is known.
struct MarkLine {
  int line = 0;
  std::string tag;    ///< T0042-F, or empty
  int tallyLine = 0;  ///< line of the tally, or 0
  std::string kind;
  DefectFace face = DefectFace::through;
  Length xFrom;
  std::optional<Length> xTo;    ///< none: the board's end
  std::optional<Length> yFrom;  ///< none: the near edge
  std::optional<Length> yTo;    ///< none: the far edge
  std::optional<Length> depth;  ///< of a mark on one face
  std::optional<PlaceOnB> onB;
};
[[nodiscard]] Taken<MarkLine> readMarks(const CsvFile& file, const ReadingRules& rules);

/// A quick mark as spoken: `12-17`, `60-end`, `good 14-78`, `K 12-17`, several with commas: lengths
/// from the tag end, whole width, through. Without a kind the wood there is bad: an unsound knot.
/// Throws Unreadable.
[[nodiscard]] std::vector<MarkLine> readQuickMarks(std::string_view text,
                                                   const ReadingRules& rules);

[[nodiscard]] Taken<Part> readParts(const CsvFile& file, const ReadingRules& rules);

/// The sizes a job names; their expressions are worked out when the job is added.
[[nodiscard]] Taken<NamedSize> readSizes(const CsvFile& file, const ReadingRules& rules);

/// Replacement prices; a row without a day has an empty one.
[[nodiscard]] Taken<ReplacementPrice> readPrices(const CsvFile& file, const ReadingRules& rules);

/// The shop's demand table: a row a demand, a column a kind of mark. A cell is empty (no such mark
/// may lie there), `any`, or the largest size allowed; `unseen` and `outside_good` are yes or no.
/// Throws Refusal: a column that is no kind of mark of the book, a name twice, a bad cell.
[[nodiscard]] std::vector<Demand> readDemands(const CsvFile& file, const ReadingRules& rules);

/// What a job costs beside its lumber.
[[nodiscard]] Taken<JobLine> readJobLines(const CsvFile& file, const ReadingRules& rules);

}  // namespace flitch::exchange
