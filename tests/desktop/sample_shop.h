#pragma once
#include <string>

#include "inventory/store/book.h"

namespace flitch::desktop::sample {

/// A book on disk with a small invented rack: eight boards of cherry, ash and oak, some marked, one
/// nobody has looked at, and a job of three part types.
void makeBook(const std::string& path);
/// A book without anything.
void makeEmptyBook(const std::string& path);
inline constexpr int boardCount = 8;
[[nodiscard]] store::Hand hand();

}  // namespace flitch::desktop::sample
