#include "inventory/planning/useful.h"

#include <algorithm>

namespace flitch::planning {

namespace {

std::vector<std::int64_t> piecesOf(const optimizer::Solution& solution, std::size_t items) {
  std::vector<std::int64_t> pieces(items, 0);
  for (const optimizer::StockCut& cut : solution.cuts) {
    for (const optimizer::Cell& cell : cut.pattern.cells) {
      if (cell.item >= 0) pieces[static_cast<std::size_t>(cell.item)] += cut.times;
    }
  }
  return pieces;
}

/// Keeps of `pieces`, for the items of one need, enough for as many copies as they make together,
/// those that supply much dropped first. Returns the copies.
std::int64_t keepEnough(std::vector<std::int64_t>& pieces, std::vector<std::size_t> items,
                        const std::vector<optimizer::Item>& all, std::int64_t units,
                        std::int64_t wanted) {
  std::int64_t supplied = 0;
  for (const std::size_t i : items) supplied += pieces[i] * all[i].supplies;
  const std::int64_t copies = std::min(wanted, supplied / units);
  std::int64_t spare = supplied - copies * units;
  std::stable_sort(items.begin(), items.end(),
                   [&](std::size_t a, std::size_t b) { return all[a].supplies > all[b].supplies; });
  for (const std::size_t i : items) {
    const std::int64_t dropped = std::min(pieces[i], spare / all[i].supplies);
    pieces[i] -= dropped;
    spare -= dropped * all[i].supplies;
  }
  return copies;
}

/// The same of staves of two widths, in whole sets. Returns the copies.
std::int64_t keepSets(std::vector<std::int64_t>& pieces, std::vector<std::size_t> items,
                      const std::vector<optimizer::Item>& all, std::int64_t units,
                      std::int64_t wanted) {
  std::int64_t copies = 0;
  std::int64_t rest = 0;  // units of pieces in no set
  std::vector<std::int64_t> kept;
  for (const std::size_t i : items) {
    const std::int64_t set = units / all[i].supplies;
    const std::int64_t sets = std::min(pieces[i] / set, wanted - copies);
    copies += sets;
    kept.push_back(sets * set);
    rest += std::min(pieces[i] - kept.back(), set - 1) * all[i].supplies;
  }
  const bool more = copies < wanted && rest >= units;
  for (std::size_t k = 0; k < items.size(); ++k) {
    std::int64_t& here = pieces[items[k]];
    const std::int64_t supplies = all[items[k]].supplies;
    std::int64_t left = std::min(here - kept[k], units / supplies - 1);
    here = kept[k];
    if (!more) continue;
    const std::int64_t spare = std::min(left, (rest - units) / supplies);
    here += left - spare;
    rest -= spare * supplies;
  }
  return copies + (more ? 1 : 0);
}

}  // namespace

std::vector<std::size_t> itemsOf(const optimizer::Problem& problem, int need) {
  std::vector<std::size_t> items;
  for (std::size_t i = 0; i < problem.items.size(); ++i) {
    if (problem.items[i].need == need) items.push_back(i);
  }
  return items;
}

namespace {

/// Keeps of `pieces` what makes `wanted` copies. Returns the copies they lack.
std::int64_t keepFor(const Want& want, std::int64_t wanted, const optimizer::Problem& problem,
                     std::vector<std::int64_t>& pieces) {
  for (const Making& making : want.makings) {
    const auto keep = making.divided ? keepSets : keepEnough;
    wanted -= keep(pieces, itemsOf(problem, making.need), problem.items, making.units, wanted);
  }
  return wanted;
}

}  // namespace

Useful usefulPieces(const optimizer::Solution& solution, const Framing& framing) {
  const optimizer::Problem& problem = framing.problem;
  Useful useful;
  useful.pieces = piecesOf(solution, problem.items.size());
  std::vector<std::int64_t> wanted;  // copies of each want
  for (const Want& want : framing.wants) {
    wanted.push_back(problem.needs[static_cast<std::size_t>(want.need)].amount);
  }
  for (const GroupWant& group : framing.groups) {
    const auto whole = std::find_if(
        group.ways.begin(), group.ways.end(), [&](const std::vector<std::size_t>& way) {
          return std::all_of(way.begin(), way.end(), [&](std::size_t w) {
            std::vector<std::int64_t> pieces = useful.pieces;
            const auto copies = static_cast<std::int64_t>(framing.wants[w].copies.size());
            return keepFor(framing.wants[w], copies, problem, pieces) == 0;
          });
        });
    useful.whole.push_back(whole != group.ways.end());
    if (!useful.whole.back()) continue;
    for (const std::size_t w : *whole) {
      wanted[w] = static_cast<std::int64_t>(framing.wants[w].copies.size());
    }
  }
  for (std::size_t w = 0; w < framing.wants.size(); ++w) {
    useful.missing.push_back(keepFor(framing.wants[w], wanted[w], problem, useful.pieces));
  }
  return useful;
}

}  // namespace flitch::planning
