#pragma once
#include <string>
#include <vector>

#include "inventory/desk/names.h"
#include "inventory/exchange/columns.h"
#include "inventory/store/book.h"

namespace flitch::desk {

using store::Book;
using store::Hand;

/// How files are read for this book: its unit and money, the species and kinds of mark it knows
/// beside those everybody knows, the demands of its newest settings.
[[nodiscard]] exchange::ReadingRules readingRules(const Book& book);

/// How this supplier counts board feet: as in their last delivery that stands, else as the book.
[[nodiscard]] CountingRule countingRule(const Book& book, const std::string& supplier);

/// The draft with what its invoice's total is over or under all its lines as a line of its own, so
/// that boards cost what is asked to the last unit.
[[nodiscard]] DeliveryDraft withDifference(const DeliveryDraft& draft);

struct Received {
  EntryId entry;
  DeliveryId delivery;
  std::vector<Board> boards;  ///< as the book has them now, in tally order
  Feet billed, measured;
  Money paid;                         ///< boards and all other lines of the invoice
  DeliveryDraft draft;                ///< with what the invoice's total is over its lines, if any
  std::vector<TallyFigures> figures;  ///< a figure for each of `boards`
  /// A board that has a price and yet comes to nothing; what is unlikely in a line.
  std::vector<std::string> warnings;
};
/// Takes a delivery in: tags given or issued, figures counted, wood and cost posted from `bought`
/// (opening offcuts from `opening`): the landed cost, so that boards cost what the invoice asks. If
/// its total is over or under its lines, the difference is one more line. Throws Refusal: a tag
/// already on a board, a tag never printed for this book is taken, an empty tally, a supplier
/// without a name.
Received receive(Book& book, const DeliveryDraft& draft, const Hand& hand);

/// The boards of a tally as they would be received, at what they would cost, without entry, tag or
/// delivery; numbered from `first` on. Nothing is written.
[[nodiscard]] std::vector<Board> boardsOffered(const DeliveryDraft& draft, std::int64_t first);

struct Marked {
  EntryId entry;
  std::vector<BoardId> boards;
  int marks = 0;
};
/// Adds marks from lines of a file (tag, or line of the newest delivery's tally). All lines or
/// none: throws one Refusal with every complaint (unknown tag, beyond the board's end, ...).
Marked mark(Book& book, const std::vector<exchange::MarkLine>& lines, const std::string& fileName,
            const Hand& hand);
/// Marks laid on one board: `end`, full width (all of boundsOf(), crook included) and the half inch
/// (13 mm) of a mark on one edge resolved. Throws one Refusal for all that would lie off the board.
[[nodiscard]] std::vector<Defect> placed(const Board& board,
                                         const std::vector<exchange::MarkLine>& lines, Unit unit);
/// Sets the whole of a board's marks and looked-at states as edited in the window.
EntryId survey(Book& book, const Board& board, const Hand& hand);

/// Serials for blank tags.
std::vector<TagCode> reserveTags(Book& book, int count, const Hand& hand);
/// The next blank tags of the roll, at most `count`: printed, hanging on no board yet.
[[nodiscard]] std::vector<TagCode> blankTags(const store::Snapshot& snapshot, std::size_t count);

}  // namespace flitch::desk
