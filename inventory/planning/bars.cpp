#include "inventory/planning/bars.h"

#include <algorithm>
#include <numeric>

#include "inventory/records/refusal.h"

namespace flitch::planning {

namespace {

using optimizer::Tick;

/// The measure all lengths share, if it is not too fine; else a 64th of an inch.
Length tickOf(std::span<const BarSold> sold, std::span<const BarPieces> pieces, Length kerf) {
  constexpr std::int64_t finest = 100'000;
  std::int64_t shared = kerf.nm(), longest = 0;
  for (const BarSold& bar : sold) {
    shared = std::gcd(shared, bar.length.nm());
    longest = std::max(longest, bar.length.nm());
  }
  for (const BarPieces& piece : pieces) shared = std::gcd(shared, piece.length.nm());
  return shared > 0 && longest / shared <= finest ? Length::nanometres(shared)
                                                  : Length::sixtyFourths(1);
}

Tick up(Length length, Length tick) { return static_cast<Tick>(stepsUp(length, tick)); }
Tick down(Length length, Length tick) { return static_cast<Tick>(stepsDown(length, tick)); }

void refuseWhatCannotBe(const std::string& name, std::span<const BarSold> sold,
                        std::span<const BarPieces> pieces, Length tick) {
  if (sold.empty()) {
    throw Refusal("no-bar", Complaint{name, "pieces of " + name + " are cut from no bar", name,
                                      "a row \"bar\" of the same name with length and price"});
  }
  if (pieces.empty()) {
    throw Refusal("no-cut", Complaint{name, "nothing is cut from the bars of " + name, name,
                                      "a row \"cut\" of the same name with length and count"});
  }
  std::int64_t all = 0;
  for (const BarPieces& piece : pieces) all += piece.count;
  constexpr std::int64_t mostPieces = 1'000'000;
  if (all > mostPieces) {
    throw Refusal("too-many-pieces",
                  Complaint{name, "more pieces of " + name + " than can be planned at once",
                            std::to_string(all), std::to_string(mostPieces) + " at most"});
  }
  const auto longest =
      std::max_element(sold.begin(), sold.end(),
                       [](const BarSold& a, const BarSold& b) { return a.length < b.length; });
  for (const BarPieces& piece : pieces) {
    if (up(piece.length, tick) <= down(longest->length, tick)) continue;
    const std::string inches = text(piece.length, LengthStyle::inches) + " in";
    throw Refusal(
        "bar-too-short",
        Complaint{name,
                  "a piece of " + name + " of " + inches + " is longer than the longest bar sold",
                  inches, text(longest->length, LengthStyle::inches) + " in at most"});
  }
}

/// Prices over what they all are multiples of, so that sums stay small; a bar for nothing counts
/// the least there is.
std::vector<optimizer::Worth> costsOf(std::span<const BarSold> sold) {
  std::int64_t shared = 0;
  for (const BarSold& bar : sold) shared = std::gcd(shared, bar.price.raw());
  std::vector<optimizer::Worth> costs;
  for (const BarSold& bar : sold) {
    costs.push_back(std::max<optimizer::Worth>(1, shared == 0 ? 1 : bar.price.raw() / shared));
  }
  return costs;
}

optimizer::BarProblem problemOf(std::span<const BarSold> sold, std::span<const BarPieces> pieces,
                                Length kerf, Length tick) {
  optimizer::BarProblem problem;
  problem.kerf = up(kerf, tick);
  const std::vector<optimizer::Worth> costs = costsOf(sold);
  for (std::size_t bar = 0; bar < sold.size(); ++bar) {
    problem.bars.push_back({down(sold[bar].length, tick), costs[bar]});
  }
  for (const BarPieces& piece : pieces) {
    problem.needs.push_back({up(piece.length, tick), piece.count});
  }
  return problem;
}

BarCut cutOf(const optimizer::BarCutting& cutting, std::span<const BarSold> sold,
             std::span<const BarPieces> pieces, Length kerf) {
  BarCut cut;
  cut.sold = static_cast<std::size_t>(cutting.bar);
  cut.times = static_cast<int>(cutting.times);
  cut.left = sold[cut.sold].length + kerf;
  for (std::size_t kind = 0; kind < pieces.size(); ++kind) {
    cut.copies.push_back(static_cast<int>(cutting.pieces[kind]));
    cut.left = cut.left - (pieces[kind].length + kerf) * cut.copies.back();
  }
  return cut;
}

}  // namespace

BarPlan cutBars(const std::string& name, std::span<const BarSold> sold,
                std::span<const BarPieces> pieces, Length kerf,
                const optimizer::BarLimits& limits) {
  const Length tick = tickOf(sold, pieces, kerf);
  refuseWhatCannotBe(name, sold, pieces, tick);
  const optimizer::BarSolution solution =
      optimizer::cutBars(problemOf(sold, pieces, kerf, tick), limits);
  BarPlan plan;
  plan.proved = solution.proved();
  plan.bars.assign(sold.size(), 0);
  for (const optimizer::BarCutting& cutting : solution.cuttings) {
    const BarCut& cut = plan.cuts.emplace_back(cutOf(cutting, sold, pieces, kerf));
    plan.bars[cut.sold] += cut.times;
    plan.cost += sold[cut.sold].price * cut.times;
  }
  return plan;
}

std::string piecesText(const BarCut& cut, std::span<const BarPieces> pieces, Unit unit) {
  std::string all;
  for (std::size_t kind = 0; kind < pieces.size(); ++kind) {
    if (cut.copies[kind] == 0) continue;
    all += (all.empty() ? "" : ", ") + std::to_string(cut.copies[kind]) + " × " +
           lengthText(pieces[kind].length, unit);
  }
  return all;
}

std::string barText(const BarPlan& plan, std::span<const BarSold> sold,
                    std::span<const BarPieces> pieces, Unit unit) {
  std::string all;
  for (const BarCut& cut : plan.cuts) {
    all += (all.empty() ? "" : "; ") + std::to_string(cut.times) + " of " +
           lengthText(sold[cut.sold].length, unit) + ": " + piecesText(cut, pieces, unit);
  }
  return all;
}

}  // namespace flitch::planning
