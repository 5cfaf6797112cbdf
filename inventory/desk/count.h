#pragma once
#include <string>
#include <vector>

#include "inventory/store/book.h"

namespace flitch::desk {

using store::Book;
using store::Hand;

/// A bay as counted: the book's boards of it held against the codes scanned there.
struct Counted {
  EntryId entry;  ///< none when it was only looked at
  std::string bay;
  std::vector<Board> seen, missing;
  std::vector<Board> unexpected;  ///< on the rack, but not in this bay by the book
  std::vector<Board> found;       ///< missing by the book, and here: back on the rack
  std::vector<Board> gone;        ///< off the rack by the book (sawn, returned, ...)
  std::vector<TagCode> blank;     ///< tags that hang on a board nobody entered yet
  int untagged = 0;               ///< pieces that lay there without a tag
};

/// Holds codes against the bay; writes nothing. Throws one Refusal for all codes that are no tag
/// of this book: misread ones count for nothing.
[[nodiscard]] Counted compare(const store::Snapshot& snapshot, const std::string& bay,
                              const std::vector<std::string>& codes, int untagged, bool sure,
                              Unit unit);

/// Posts it in one entry: missing boards leave the rack for `missing`, reservations given up;
/// unexpected ones belong to this bay now; those found are back with what they cost.
Counted count(Book& book, const std::string& bay, const std::vector<std::string>& codes,
              int untagged, bool sure, const Hand& hand);

}  // namespace flitch::desk
