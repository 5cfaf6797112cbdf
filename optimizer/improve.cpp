#include "optimizer/improve.h"

#include <algorithm>
#include <limits>
#include <numeric>

#include "optimizer/closing.h"

namespace flitch::optimizer {
namespace {

constexpr std::size_t mostFreed = 6;
constexpr std::size_t columnsOfBoard = 25;   ///< known ones tried in a re-plan
constexpr std::size_t columnsOfPlan = 3000;  ///< known ones a whole plan is chosen from
constexpr std::size_t waysOfBoard = 60;      ///< taken from one listing
constexpr int quickTurns = 8;
constexpr std::size_t nodesOfReplan = 200;

std::size_t index(int value) { return static_cast<std::size_t>(value); }

/// Equal on every machine, unlike the standard distributions.
std::size_t below(std::mt19937_64& random, std::size_t count) {
  return static_cast<std::size_t>(random() % count);
}

/// What a column costs beyond the worth of what it supplies of `missing`.
Worth excess(const Column& column, std::span<const Worth> unit, const Draft& draft) {
  Worth sum = column.cost;
  for (std::size_t n = 0; n < unit.size(); ++n)
    sum -= unit[n] * std::min(column.units[n], draft.missing(static_cast<int>(n)));
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

/// Some boards, and what they are to supply: a problem of its own with the stock numbered anew. The
/// stocks have no marks; patterns come from the boards themselves.
struct Corner {
  Problem problem;
  std::vector<int> stock;  ///< number in the whole
  std::vector<std::int64_t> wanted;

  Corner(const Draft& kept, const Problem& whole, std::vector<int> allowed)
      : stock(std::move(allowed)) {
    problem.saw = whole.saw;
    problem.items = whole.items;
    for (std::size_t n = 0; n < whole.needs.size(); ++n) {
      wanted.push_back(kept.missing(static_cast<int>(n)));
      problem.needs.push_back({wanted.back(), whole.needs[n].shortage});
    }
    for (const int s : stock) {
      const Stock& of = whole.stock[index(s)];
      Stock own;
      own.copies = kept.copiesLeft(s);
      own.cost = of.cost;
      own.offcuts = of.offcuts;
      own.least = std::max(0, of.least - (of.copies - own.copies));
      problem.stock.push_back(std::move(own));
    }
  }
};

/// Columns of the corner, by listing at its own multipliers a few times. Nothing: no plan of the
/// corner costs less than `below`.
std::optional<Draft> planCorner(const Corner& corner, const Multipliers& known, Pricers& pricers,
                                Worth below, const Halt& halt, Filling& spent) {
  Master master(corner.problem);
  std::vector<std::vector<std::pair<Worth, const Column*>>> byStock(corner.stock.size());
  for (const Column& column : known.master().columns()) {
    const auto at = std::lower_bound(corner.stock.begin(), corner.stock.end(), column.stock);
    if (at == corner.stock.end() || *at != column.stock) continue;
    Worth over = column.cost;
    for (std::size_t n = 0; n < corner.wanted.size(); ++n)
      over -= known.best()[n] * std::min(column.units[n], corner.wanted[n]);
    byStock[static_cast<std::size_t>(at - corner.stock.begin())].emplace_back(over, &column);
  }
  for (std::size_t s = 0; s < byStock.size(); ++s) {
    std::stable_sort(byStock[s].begin(), byStock[s].end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    if (byStock[s].size() > columnsOfBoard) byStock[s].resize(columnsOfBoard);
    for (const auto& [over, column] : byStock[s]) master.add(static_cast<int>(s), column->pattern);
  }
  // Quick columns first, at multipliers on their way from those of the whole to the corner's own.
  std::vector<Worth> unit = known.best();
  const auto least = [&](std::size_t s) {
    return corner.problem.stock[s].cost - corner.problem.stock[s].cost / 20;
  };
  for (int turn = 0; turn < quickTurns; ++turn) {
    const std::vector<Priced> prices = pricesAt(corner.problem, unit);
    std::vector<Best> found(corner.stock.size());
    pricers.crew().each(found.size(), [&](std::size_t s) {
      found[s] =
          pricers.of(corner.stock[s])
              .best(prices,
                    {.caps = Caps::keep, .reach = Reach::quick, .floor = least(s), .halt = &halt});
    });
    if (halt.now()) return std::nullopt;
    bool fresh = false;
    for (std::size_t s = 0; s < found.size(); ++s) {
      spent += {found[s].work + 100, 1, 0};
      if (found[s].value > least(s) &&
          master.add(static_cast<int>(s), pricers.kept(corner.stock[s], found[s].pattern)))
        fresh = fresh || found[s].value > corner.problem.stock[s].cost;
    }
    const std::vector<Worth> own = master.multipliers();
    if (own.empty()) return std::nullopt;
    if (!fresh && turn > 1) break;
    for (std::size_t n = 0; n < unit.size(); ++n) unit[n] = (unit[n] + own[n]) / 2;
  }
  unit = master.multipliers();
  const Worth open = below - static_cast<Worth>(master.value());
  if (open <= 0) return std::nullopt;
  const auto chosen = [&] {
    std::vector<const Column*> columns;
    for (const Column& column : master.columns()) columns.push_back(&column);
    return close(corner.problem, columns, {below, nodesOfReplan}, halt, spent).better;
  };
  if (std::optional<Draft> better = chosen()) return better;
  // All that can be part of a better plan, as far as it is few.
  std::vector<Listing> listings(corner.stock.size());
  pricers.crew().each(listings.size(), [&](std::size_t s) {
    listings[s] = pricers.lister(corner.stock[s])
                      .list({.unit = unit,
                             .wanted = corner.wanted,
                             .floor = corner.problem.stock[s].cost - open,
                             .enough = waysOfBoard,
                             .labels = 5000,
                             .halt = &halt});
  });
  for (std::size_t s = 0; s < listings.size(); ++s) {
    spent += {listings[s].work + 100, 1, 0};
    for (const Listed& way : listings[s].ways) master.add(static_cast<int>(s), way.pattern);
  }
  return chosen();
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
  Worth open = tried.cost();  // of what is kept alone
  for (std::size_t n = 0; n < corner.wanted.size(); ++n)
    open -= corner.wanted[n] * problem.needs[n].shortage;
  const std::optional<Draft> better =
      planCorner(corner, multipliers, pricers, draft.cost() - open, halt, spent);
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
  std::vector<std::int64_t> wanted;
  for (const Need& need : problem.needs) wanted.push_back(need.amount);
  std::vector<int> asked;
  for (std::size_t s = 0; s < problem.stock.size(); ++s)
    if (multipliers.worth()[s] > problem.stock[s].cost / 10 * 9)
      asked.push_back(static_cast<int>(s));
  std::vector<Listing> listings(asked.size());
  pricers.crew().each(asked.size(), [&](std::size_t a) {
    listings[a] =
        pricers.lister(asked[a]).list({.unit = unit,
                                       .wanted = wanted,
                                       .floor = problem.stock[index(asked[a])].cost / 10 * 8,
                                       .enough = waysOfBoard,
                                       .labels = 30000,
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
  std::optional<Draft> better = close(problem, columns, {draft.cost(), nodes}, halt, spent).better;
  if (!better) return false;
  draft = std::move(*better);
  return true;
}

}  // namespace flitch::optimizer
