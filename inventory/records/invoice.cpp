#include "inventory/records/invoice.h"

#include <algorithm>
#include <stdexcept>

#include "inventory/records/refusal.h"
#include "inventory/wood/split.h"

namespace flitch {
namespace {

std::vector<Wide> sharesOf(const std::vector<Billed>& boards, Spread spread) {
  std::vector<Wide> shares;
  shares.reserve(boards.size());
  for (const Billed& board : boards) {
    shares.push_back(spread == Spread::feet ? board.feet.thousandths : board.price.raw());
  }
  if (std::all_of(shares.begin(), shares.end(), [](Wide share) { return share == 0; })) {
    std::fill(shares.begin(), shares.end(), 1);
  }
  return shares;
}

}  // namespace

std::string_view word(InvoiceKind kind) {
  switch (kind) {
    case InvoiceKind::freight: return "freight";
    case InvoiceKind::tax: return "tax";
    case InvoiceKind::surfacing: return "surfacing";
    case InvoiceKind::discount: return "discount";
    case InvoiceKind::other: return "other";
    case InvoiceKind::difference: return "difference";
  }
  throw std::logic_error("no such line of an invoice");
}

Spread usualSpread(InvoiceKind kind) {
  switch (kind) {
    case InvoiceKind::freight:
    case InvoiceKind::surfacing:
    case InvoiceKind::other: return Spread::feet;
    case InvoiceKind::tax:
    case InvoiceKind::discount:
    case InvoiceKind::difference: return Spread::value;
  }
  throw std::logic_error("no such line of an invoice");
}

std::vector<Money> landed(const std::vector<Billed>& boards,
                          const std::vector<InvoiceLine>& lines) {
  std::vector<Money> costs;
  costs.reserve(boards.size());
  for (const Billed& board : boards) costs.push_back(board.price);
  for (const InvoiceLine& line : lines) {
    const std::vector<std::int64_t> parts = split(line.amount.raw(), sharesOf(boards, line.spread));
    for (std::size_t i = 0; i < costs.size(); ++i) costs[i] += Money::tenThousandths(parts[i]);
  }
  if (std::any_of(costs.begin(), costs.end(), [](Money cost) { return cost < Money(); })) {
    throw Refusal(
        "below-nothing",
        Complaint{"", "What the invoice takes off would leave a board at less than nothing", "",
                  "a discount spread by value, no more than the boards cost"});
  }
  return costs;
}

}  // namespace flitch
