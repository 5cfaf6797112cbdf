#pragma once
#include <vector>

#include "inventory/store/book.h"
#include "inventory/store/database.h"

namespace flitch::store {

/// Book::check(): proves the whole book again from what it holds. O(book).
[[nodiscard]] std::vector<Unsound> prove(Database& database);

}  // namespace flitch::store
