#pragma once
#include <string>
#include <vector>

#include "inventory/planning/bars.h"
#include "inventory/records/estimate.h"
#include "inventory/store/book.h"

namespace flitch::desk {

/// Adds rows to the price table; those without a day hold from `today`. Throws Refusal: no rows, or
/// two rows for the same stock and day.
EntryId setPrices(store::Book& book, std::vector<ReplacementPrice> prices, const std::string& today,
                  const store::Hand& hand);
/// The prices that hold on a day, a row per species, thickness and grade.
[[nodiscard]] Table priceTable(const std::vector<ReplacementPrice>& prices, const std::string& day);

/// Bars of one name: what is sold, what is cut from it, what to buy.
struct BarBill {
  std::string name;
  std::vector<planning::BarSold> sold;
  std::vector<planning::BarPieces> pieces;
  planning::BarPlan plan;
};
/// The bars of a job's lines, planned: a kerf as of a crosscut between pieces. Throws what
/// cutBars() throws.
[[nodiscard]] std::vector<BarBill> barBills(const std::vector<JobLine>& lines,
                                            const ShopProfile& shop);
/// A row per way of cutting: name, bars, length, pieces, what is left of each.
[[nodiscard]] Table barTable(const std::vector<BarBill>& bills, Unit unit);

/// Sets all a job costs beside its lumber. Throws Refusal: bars and pieces that do not go together.
EntryId setJobLines(store::Book& book, JobId job, const std::vector<JobLine>& lines,
                    const store::Hand& hand);
/// A row per line as typed, with what it comes to; pieces of bars with what their bars come to.
[[nodiscard]] Table jobLineTable(const std::vector<JobLine>& lines,
                                 const std::vector<BarBill>& bars, const ShopProfile& shop);

/// What a job costs on a day: the boards sawn for it and those its newest plan still opens, at
/// landed cost and at the prices of that day, and its lines. Parts short or waiting are named.
[[nodiscard]] Estimate estimate(const store::Snapshot& snapshot, JobId job, const std::string& day,
                                Unit unit);

/// Gives a quote: number and, where `asked` leaves it out, price (askedPrice()) are given to it.
/// Throws Refusal: no title, valid until a day before it is given, no plan with boards, or parts of
/// the plan that are short while no price is named.
struct Asked {
  Quote quote;
  bool price = false;  ///< quote.price is named
};
Quote giveQuote(store::Book& book, const Asked& asked, const store::Hand& hand);

}  // namespace flitch::desk
