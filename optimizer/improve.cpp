#include "optimizer/improve.h"

#include <algorithm>
#include <limits>
#include <numeric>

#include "optimizer/closing.h"
#include "optimizer/corner.h"
#include "optimizer/index.h"

namespace flitch::optimizer {
namespace {

constexpr std::size_t mostFreed = 6;
constexpr std::size_t columnsOfPlan = 3000;  ///< known ones a whole plan is chosen from
constexpr std::size_t waysOfBoard = 60;      ///< taken from one listing
constexpr Trying quickly{2, 20};  ///< a plan is wanted, not a proof: more nodes in the same time
constexpr std::size_t patience = 400;

/// Equal on every machine, unlike the standard distributions.
std::size_t below(std::mt19937_64& random, std::size_t count) {
  return static_cast<std::size_t>(random() % count);
}

/// What a column costs beyond the worth of what it supplies of `missing`.
Worth excess(const Column& column, std::span<const Worth> unit, const Draft& draft) {
  Worth sum = column.cost;
  for (std::size_t n = 0; n < unit.size(); ++n)
    sum -= unit[n] * std::min(column.units[n], draft.useful(static_cast<int>(n)));
  return sum;
}

/// The place of a board in the plan, drawn by what it costs beyond its worth.
std::size_t drawBoard(const Draft& draft, const Problem& problem, std::span<const Worth> unit,
                      std::mt19937_64& random) {
  std::vector<std::uint64_t> upTo;
  std::uint64_t sum = 0;
  for (const Opened& board : draft.boards()) {
    Worth own = cost(board.pattern, problem, problem.stock[index(board.stock)]);
    const std::vector<std::int64_t> units = supplies(board.pattern, problem);
    for (std::size_t n = 0; n < units.size(); ++n) own -= unit[n] * units[n];
    const Worth least = problem.stock[index(board.stock)].cost / 100 + 1;
    sum += static_cast<std::uint64_t>(std::max(own, least));
    upTo.push_back(sum);
  }
  const std::uint64_t drawn = random() % sum;
  return static_cast<std::size_t>(std::upper_bound(upTo.begin(), upTo.end(), drawn) - upTo.begin());
}

/// Unopened boards, those that nearly pay first, with some skipped by chance.
std::vector<int> drawFresh(const Draft& draft, std::span<const Worth> reduced, std::size_t count,
                           std::mt19937_64& random) {
  std::vector<int> order;
  for (std::size_t s = 0; s < reduced.size(); ++s)
    if (draft.copiesLeft(static_cast<int>(s)) > 0) order.push_back(static_cast<int>(s));
  std::stable_sort(order.begin(), order.end(),
                   [&](int a, int b) { return reduced[index(a)] < reduced[index(b)]; });
  std::vector<int> drawn;
  for (std::size_t o = 0; o < order.size() && drawn.size() < count; ++o)
    if (order.size() - o <= count - drawn.size() || below(random, 2) == 0)
      drawn.push_back(order[o]);
  return drawn;
}

}  // namespace

bool replan(Draft& draft, const Problem& problem, Multipliers& multipliers, Pricers& pricers,
            std::mt19937_64& random, const Halt& halt, Filling& spent) {
  spent.effort += 100;  // a try that asks no board counts too
  Draft tried = draft;
  std::vector<int> allowed;
  std::size_t freed = std::min(draft.boards().size(), 2 + below(random, mostFreed - 1));
  const std::vector<Worth>& unit = multipliers.best();
  for (; freed > 0; --freed) {
    const std::size_t place = below(random, 5) == 0 ? below(random, tried.boards().size())
                                                    : drawBoard(tried, problem, unit, random);
    Opened out = tried.remove(place);
    multipliers.learn(out.stock, out.pattern);
    allowed.push_back(out.stock);
  }
  for (const int s : drawFresh(tried, multipliers.reduced(), 4 + allowed.size(), random))
    allowed.push_back(s);
  if (allowed.empty() || problem.needs.empty()) return false;
  std::sort(allowed.begin(), allowed.end());
  allowed.erase(std::unique(allowed.begin(), allowed.end()), allowed.end());

  const Corner corner(tried, problem, allowed);
  const std::optional<Draft> better =
      planCorner(corner, multipliers, pricers, draft.cost() - tried.boardsCost(), halt, spent);
  if (!better) return false;
  for (const Opened& board : better->boards()) {
    const int stock = corner.stock[index(board.stock)];
    multipliers.learn(stock, board.pattern);
    tried.add({stock, board.pattern});
  }
  tried.tidy();
  openForced(tried, problem);
  if (tried.cost() >= draft.cost()) return false;
  draft = std::move(tried);
  return true;
}

void enrich(const Problem& problem, Multipliers& multipliers, Pricers& pricers, int spread,
            std::mt19937_64& random, const Halt& halt, Filling& spent) {
  std::vector<Worth> unit = multipliers.best();
  for (std::size_t n = 0; n < unit.size() && spread > 0; ++n) {
    const auto parts =
        static_cast<Worth>(64 - spread + static_cast<int>(below(random, 2 * index(spread) + 1)));
    unit[n] = std::min(problem.needs[n].shortage, unit[n] / 64 * parts);
  }
  const UnitWorths worths(unit, wanted(problem));
  std::vector<int> asked;
  for (std::size_t s = 0; s < problem.stock.size(); ++s)
    if (multipliers.worth()[s] > problem.stock[s].cost / 10 * 9)
      asked.push_back(static_cast<int>(s));
  std::vector<Listing> listings(asked.size());
  pricers.crew().each(asked.size(), [&](std::size_t a) {
    listings[a] =
        pricers.lister(asked[a]).list({.worths = worths,
                                       .prices = multipliers.rations(asked[a]),
                                       .floor = problem.stock[index(asked[a])].cost / 10 * 8,
                                       .enough = waysOfBoard,
                                       .labels = 10000,
                                       .halt = &halt});
  });
  for (std::size_t a = 0; a < asked.size(); ++a) {
    spent += {listings[a].work + 100, 1, 0};
    for (const Listed& way : listings[a].ways) multipliers.learn(asked[a], way.pattern);
  }
}

bool rechoose(Draft& draft, const Problem& problem, const Multipliers& multipliers,
              std::size_t nodes, const Halt& halt, Filling& spent) {
  const Draft none(problem);
  struct Scored {
    Worth excess;
    const Column* column;
  };
  std::vector<Scored> scored;
  for (const Column& column : multipliers.master().columns()) {
    Worth over = excess(column, multipliers.best(), none);
    // A stock that earns at the multipliers does so with its best pattern; others lose by more.
    if (!multipliers.reduced().empty())
      over -= std::min<Worth>(0, multipliers.reduced()[index(column.stock)]);
    scored.push_back({over, &column});
  }
  std::stable_sort(scored.begin(), scored.end(),
                   [](const Scored& a, const Scored& b) { return a.excess < b.excess; });
  if (scored.size() > columnsOfPlan) scored.resize(columnsOfPlan);
  std::vector<const Column*> columns;
  for (const Scored& s : scored) columns.push_back(s.column);
  std::optional<Draft> better =
      close(problem, columns, {draft.cost(), nodes, quickly, patience}, halt, spent).better;
  if (!better) return false;
  draft = std::move(*better);
  return true;
}

}  // namespace flitch::optimizer
