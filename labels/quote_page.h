#pragma once
#include <string>
#include <vector>

#include "inventory/records/job_line.h"
#include "labels/page.h"

namespace flitch::pages {

struct QuoteFacts {
  std::string shop;      ///< who makes it
  std::string customer;  ///< for whom
  std::string sign = "$";
  bool woodMoves = false;  ///< some part is wide enough to say so
};

/// A quote for the customer, A4 upright: what is made, its price, terms, two lines to sign on. No
/// cost stands on it. Long words go on over a second sheet.
[[nodiscard]] std::vector<Page> quotePages(const Quote& quote, const QuoteFacts& facts);

}  // namespace flitch::pages
