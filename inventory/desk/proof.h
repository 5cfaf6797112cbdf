#pragma once
#include <vector>

#include "inventory/store/book.h"

namespace flitch::desk {

/// Proves the book again: all that Book::check() proves, then cuts every kept plan of a standing
/// job once more before the checker, where all its boards stand as they were when it was kept. The
/// price of short parts is taken as kept: it depends on all stock of that day. O(book + pieces² per
/// plan).
[[nodiscard]] std::vector<store::Unsound> prove(const store::Book& book);

}  // namespace flitch::desk
