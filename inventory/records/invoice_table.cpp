#include <algorithm>

#include "inventory/records/delivery.h"

namespace flitch {
namespace {

/// One species and thickness, as counted and as claimed.
struct Kind {
  std::string species;
  Nominal nominal;
  std::int64_t boards = 0;
  Feet feet;
  Money money;
  std::optional<Feet> claimedFeet;
  std::optional<Money> claimedMoney;
};

Kind& kindOf(std::vector<Kind>& kinds, const std::string& species, Nominal nominal) {
  const auto found = std::find_if(kinds.begin(), kinds.end(), [&](const Kind& kind) {
    return kind.species == species && kind.nominal == nominal;
  });
  if (found != kinds.end()) return *found;
  kinds.push_back({species, nominal, 0, {}, {}, {}, {}});
  return kinds.back();
}

template <class Amount>
void add(std::optional<Amount>& sum, const std::optional<Amount>& more) {
  if (more) sum = sum.value_or(Amount{}) + *more;
}

template <class Amount>
CellValue cellOf(const std::optional<Amount>& amount) {
  return amount ? CellValue(*amount) : CellValue();
}

template <class Amount>
CellValue over(const std::optional<Amount>& claimed, Amount counted) {
  return claimed ? CellValue(*claimed - counted) : CellValue();
}

}  // namespace

Money invoiceTotal(const std::vector<TallyFigures>& figures) {
  Money total;
  for (const TallyFigures& board : figures) total += board.landed;
  return total;
}

Table againstInvoice(const DeliveryDraft& draft, const std::vector<TallyFigures>& figures) {
  std::vector<Kind> kinds;
  Kind all;
  for (const TallyFigures& board : figures) {
    const TallyLine& line = draft.lines[board.line];
    for (Kind* sum : {&kindOf(kinds, line.species, line.nominal), &all}) {
      ++sum->boards;
      sum->feet += board.billed;
      sum->money += board.price;
    }
  }
  std::optional<Money> extras;
  for (const InvoiceLine& line : draft.extras) {
    if (line.kind != InvoiceKind::difference) add(extras, std::optional(line.amount));
  }
  all.money += extras.value_or(Money());
  Kind whole;
  for (const InvoiceClaim& claim : draft.claims) {
    Kind& kind = claim.species.empty() ? whole : kindOf(kinds, claim.species, claim.nominal);
    add(kind.claimedFeet, claim.feet);
    add(kind.claimedMoney, claim.amount);
  }
  // Over in all: of what is claimed; of the whole load where the invoice has a total.
  std::optional<Feet> feetOver;
  std::optional<Money> moneyOver;
  for (const Kind& kind : kinds) {
    add(all.claimedFeet, kind.claimedFeet);
    add(all.claimedMoney, kind.claimedMoney);
    if (kind.claimedFeet) add(feetOver, std::optional(*kind.claimedFeet - kind.feet));
    if (kind.claimedMoney) add(moneyOver, std::optional(*kind.claimedMoney - kind.money));
  }
  if (whole.claimedFeet) {
    all.claimedFeet = whole.claimedFeet;
    feetOver = *whole.claimedFeet - all.feet;
  }
  if (whole.claimedMoney) {
    all.claimedMoney = whole.claimedMoney;
    moneyOver = *whole.claimedMoney - all.money;
  }

  Table table;
  table.title = "Against the invoice";
  table.columns = {{"species", "species", false},
                   {"nominal", "quarters", false},
                   {"boards", "boards", true},
                   {"counted_feet", "counted", true},
                   {"claimed_feet", "claimed", true},
                   {"over_feet", "over", true},
                   {"counted", "money", true},
                   {"claimed", "claimed", true},
                   {"over", "over", true}};
  for (const Kind& kind : kinds) {
    table.rows.push_back({kind.species, text(kind.nominal), kind.boards, kind.feet,
                          cellOf(kind.claimedFeet), over(kind.claimedFeet, kind.feet), kind.money,
                          cellOf(kind.claimedMoney), over(kind.claimedMoney, kind.money)});
  }
  if (extras) {
    table.rows.push_back({std::string("other lines"), {}, {}, {}, {}, {}, *extras, {}, {}});
  }
  table.totals = {std::string("all"),
                  {},
                  all.boards,
                  all.feet,
                  cellOf(all.claimedFeet),
                  cellOf(feetOver),
                  all.money,
                  cellOf(all.claimedMoney),
                  cellOf(moneyOver)};
  return table;
}

}  // namespace flitch
