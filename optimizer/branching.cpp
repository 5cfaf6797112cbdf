#include "optimizer/branching.h"

#include <ClpSimplex.hpp>
#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <set>

#include "optimizer/board_groups.h"
#include "optimizer/index.h"
#include "optimizer/pivot_halt.h"
#include "optimizer/strong_branching.h"
#include "optimizer/wide.h"

namespace flitch::optimizer {
namespace {

constexpr int mostRounds = 4, mostRoundsOfRoot = 30;
constexpr int mostCutRounds = 6;
constexpr std::size_t cutsAtOnce = 6, mostCuts = 40;
constexpr std::uint64_t mostWorkOfUnits = 200000;
constexpr std::int64_t mostInTable = 30;  ///< units of a need that is rounded
constexpr Worth dear = Worth{1} << 55;    ///< no multiplier of a row is taken higher
constexpr std::size_t mostKept = 4;       ///< pricings of a board that are remembered
constexpr std::size_t share = 4;          ///< boards asked at a time

}  // namespace

class Branching::Tree {
  struct Range {
    std::int64_t low, high;
  };

  /// Multipliers of the rows that say what boards are worth.
  struct Prices {
    std::vector<Worth> unit;     ///< of each need
    std::vector<Worth> rounded;  ///< of each rounded need
  };

  /// A bound's ingredients: valid in the node where they were found and in all below.
  struct Point {
    Prices prices;
    std::vector<Worth> opening;  ///< of each group: what opening one of its boards earns
    std::vector<Worth> z;        ///< of each stock: no way of cutting it is worth more
  };

  /// What can be told apart by a branch.
  enum class Counted { stock, group, recipe, units };

  /// One step down the tree: so often at most or, `upper`, once more at least.
  struct Branch {
    Counted what = Counted::stock;
    std::size_t which = 0;
    std::int64_t times = 0;
    bool upper = false;
    std::size_t need = 0;  ///< of units: what stock `which`, a single board, supplies
  };

  struct Node {
    Worth bound = 0;
    std::size_t number = 0;  ///< in order of birth
    std::shared_ptr<const Node> parent;
    Branch branch;
    std::shared_ptr<const Point> best;
  };
  using NodeAt = std::shared_ptr<Node>;

  struct Lower {
    bool operator()(const NodeAt& a, const NodeAt& b) const {
      return a->bound != b->bound ? a->bound < b->bound : a->number < b->number;
    }
  };

 public:
  Tree(const Problem& problem, const Multipliers& root)
      : problem_(problem),
        wanted_(wanted(problem)),
        groups_(problem, pointers(root.master().columns())),
        kept_(problem.stock.size()),
        pauses_(problem.stock.size()) {
    limits_.resize(problem.stock.size());
    columns_ = &root.master().columns();
    for (std::size_t s = 0; s < problem.stock.size(); ++s)
      rations_.emplace_back(root.rations(static_cast<int>(s)).begin(),
                            root.rations(static_cast<int>(s)).end());
    load();
    auto point = std::make_shared<Point>();
    point->prices.unit = root.best();
    point->opening.assign(groups_.stocks.size(), 0);
    point->z = root.worth();
    const auto worths = std::make_shared<const UnitWorths>(worthsAt(point->prices));
    for (std::size_t s = 0; s < kept_.size(); ++s) remember(s, worths, point->z[s]);
    auto node = std::make_shared<Node>();
    node->bound = root.bound();
    node->best = std::move(point);
    open_.insert(std::move(node));
  }

  void step(Multipliers& known, Pricers& pricers, Worth cheapest, const Halt& halt,
            Filling& spent) {
    cheapest_ = cheapest;
    columns_ = &known.master().columns();
    while (!open_.empty() && (*open_.rbegin())->bound >= cheapest_) open_.erase(--open_.end());
    if (open_.empty() || halt.now()) return;
    NodeAt node = *open_.begin();
    open_.erase(open_.begin());
    work_ = 1000;
    if (visit(node, known, pricers, halt, spent)) open_.insert(node);
    spent.effort += work_;
    ++spent.nodes;
  }

  [[nodiscard]] Worth bound() const {
    Worth least = cheapest_;
    if (!open_.empty()) least = std::min(least, (*open_.begin())->bound);
    for (const NodeAt& node : leaves_) least = std::min(least, node->bound);
    return least;
  }
  [[nodiscard]] bool ended() const {
    if (open_.empty()) return true;
    // A leaf with the lowest bound holds up all.
    return std::any_of(leaves_.begin(), leaves_.end(),
                       [&](const NodeAt& leaf) { return leaf->bound <= (*open_.begin())->bound; });
  }

 private:
  static std::vector<const Column*> pointers(const std::vector<Column>& columns) {
    std::vector<const Column*> all;
    for (const Column& column : columns) all.push_back(&column);
    return all;
  }

  // ---- the programme ---------------------------------------------------------------------------

  [[nodiscard]] int stockRow(std::size_t s) const {
    return static_cast<int>(problem_.needs.size() + s);
  }
  [[nodiscard]] int groupRow(std::size_t g) const {
    return static_cast<int>(problem_.needs.size() + problem_.stock.size() + g);
  }
  [[nodiscard]] int roundedRow(std::size_t q) const { return groupRow(groups_.stocks.size() + q); }
  [[nodiscard]] int recipeColumn(std::size_t r) const {
    return static_cast<int>(problem_.needs.size() + problem_.stock.size() + r);
  }
  [[nodiscard]] int columnOf(std::size_t c) const {
    return recipeColumn(problem_.recipes.size()) + static_cast<int>(c);
  }

  [[nodiscard]] int uncutColumn(std::size_t s) const {
    return static_cast<int>(problem_.needs.size() + s);
  }

  /// Rows, shortages, stocks opened uncut, recipes.
  void load() {
    model_.setLogLevel(0);
    model_.resize(0, 0);
    for (const Need& need : problem_.needs)
      model_.addRow(0, nullptr, nullptr, static_cast<double>(need.amount), COIN_DBL_MAX);
    for (const Stock& stock : problem_.stock) {
      model_.addRow(0, nullptr, nullptr, stock.least, stock.copies);
      stockRange_.push_back({stock.least, stock.copies});
    }
    for (const std::vector<std::size_t>& group : groups_.stocks) {
      std::int64_t most = 0;
      for (const std::size_t s : group) most += problem_.stock[s].copies;
      groupRange_.push_back({0, most});
      model_.addRow(0, nullptr, nullptr, 0, static_cast<double>(most));
    }
    for (std::size_t n = 0; n < problem_.needs.size(); ++n)
      addColumn({static_cast<int>(n)}, {1}, static_cast<double>(problem_.needs[n].shortage));
    for (std::size_t s = 0; s < problem_.stock.size(); ++s) {
      std::vector<int> rows{stockRow(s)};
      for (const std::size_t g : groups_.of[s]) rows.push_back(groupRow(g));
      addColumn(rows, std::vector<double>(rows.size(), 1),
                static_cast<double>(problem_.stock[s].cost));
    }
    for (const Recipe& recipe : problem_.recipes) {
      const RecipeColumn column(recipe);
      addColumn(column.rows, column.values, static_cast<double>(recipe.cost));
      recipeRange_.push_back({0, mostTimes(problem_, recipe)});
    }
  }
  void addColumn(const std::vector<int>& rows, const std::vector<double>& values, double cost) {
    model_.addColumn(static_cast<int>(rows.size()), rows.data(), values.data(), 0, COIN_DBL_MAX,
                     cost);
  }

  /// Takes the columns that came since.
  void take(const std::vector<Column>& columns) {
    for (; taken_ < columns.size(); ++taken_) {
      const Column& column = columns[taken_];
      std::vector<int> rows;
      std::vector<double> values;
      const auto put = [&](int row, std::int64_t value) {
        if (value == 0) return;
        rows.push_back(row);
        values.push_back(static_cast<double>(value));
      };
      for (std::size_t n = 0; n < column.units.size(); ++n)
        put(static_cast<int>(n), column.units[n]);
      put(stockRow(index(column.stock)), 1);
      for (const std::size_t g : groups_.of[index(column.stock)]) put(groupRow(g), 1);
      for (std::size_t q = 0; q < rounded_.size(); ++q)
        put(roundedRow(q), rounded_[q].factor(column.units[rounded_[q].need]));
      addColumn(rows, values, static_cast<double>(column.cost));
      isOpen_.push_back(allows(column));
      if (!isOpen_.back()) model_.setColumnUpper(columnOf(taken_), 0);
    }
  }

  [[nodiscard]] std::int64_t unitsOf(const Recipe& recipe, std::size_t need) const {
    std::int64_t units = index(recipe.makes) == need ? 1 : 0;
    for (const Supply& use : recipe.uses)
      if (index(use.need) == need) units -= use.amount;
    return units;
  }

  /// Adds the rounded rows that the programme's optimum breaks most. False: none.
  bool separate(const std::vector<Column>& columns) {
    const std::vector<const Column*> all = pointers(columns);
    const double* x = model_.getColSolution();
    const Shares shares{{x + columnOf(0), taken_},
                        {x, problem_.needs.size()},
                        {x + recipeColumn(0), problem_.recipes.size()}};
    bool found = false;
    for (const RoundedNeed& row : brokenNeeds(problem_, all, shares, cutsAtOnce, work_)) {
      if (wanted_[row.need] > mostInTable) continue;
      std::vector<int> at;
      std::vector<double> values;
      const auto put = [&](int column, std::int64_t value) {
        if (value == 0) return;
        at.push_back(column);
        values.push_back(static_cast<double>(value));
      };
      put(static_cast<int>(row.need), row.factor(1));
      for (std::size_t r = 0; r < problem_.recipes.size(); ++r)
        put(recipeColumn(r), row.factor(unitsOf(problem_.recipes[r], row.need)));
      for (std::size_t c = 0; c < taken_; ++c)
        put(columnOf(c), row.factor(columns[c].units[row.need]));
      model_.addRow(static_cast<int>(at.size()), at.data(), values.data(),
                    static_cast<double>(row.least), COIN_DBL_MAX);
      rounded_.push_back(row);
      mostUnits_[row.need].resize(problem_.stock.size(), -1);
      found = true;
    }
    return found;
  }

  // ---- a node ----------------------------------------------------------------------------------

  void restrictTo(const Node& leaf) {
    stocks_ = stockRange_;
    opened_ = groupRange_;
    made_ = recipeRange_;
    for (std::vector<Supplied>& limits : limits_) limits.clear();
    for (const Node* node = &leaf; node->parent; node = node->parent.get()) narrowTo(node->branch);
  }
  void narrowTo(const Branch& branch) {
    if (branch.what == Counted::units) {
      std::vector<Supplied>& limits = limits_[branch.which];
      const auto found = std::find_if(limits.begin(), limits.end(),
                                      [&](const Supplied& l) { return l.need == branch.need; });
      const auto at = found != limits.end()
                          ? found
                          : limits.insert(limits.end(), {branch.need, {0, wanted_[branch.need]}});
      narrow(at->units, branch);
      if (branch.upper)
        stocks_[branch.which].low = std::max<std::int64_t>(1, stocks_[branch.which].low);
      return;
    }
    narrow(branch.what == Counted::stock   ? stocks_[branch.which]
           : branch.what == Counted::group ? opened_[branch.which]
                                           : made_[branch.which],
           branch);
  }
  static void narrow(Range& range, const Branch& branch) {
    if (branch.upper)
      range.low = std::max(range.low, branch.times + 1);
    else
      range.high = std::min(range.high, branch.times);
  }
  /// What it would cost to buy what the stock must supply: so dear is it for the programme, while
  /// it knows no way of supplying it.
  [[nodiscard]] double missingWorth(std::size_t s) const {
    double sum = 0;
    for (const Supplied& limit : limits_[s])
      sum += static_cast<double>(limit.units.low) *
             static_cast<double>(problem_.needs[limit.need].shortage);
    return sum;
  }
  /// Whether no plan opens as many boards of each stock and group as the node says.
  [[nodiscard]] bool contradictory() const {
    for (const Range& copies : stocks_)
      if (copies.low > copies.high) return true;
    Range all{0, 0};
    for (std::size_t g = groups_.stocks.size(); g-- > 0;) {
      Range own{0, 0};
      for (const std::size_t s : groups_.stocks[g]) {
        own = {own.low + stocks_[s].low, own.high + stocks_[s].high};
      }
      // The first group holds all, the others, if any, each board once.
      if (g == 0 && groups_.stocks.size() > 1) own = all;
      own = {std::max(own.low, opened_[g].low), std::min(own.high, opened_[g].high)};
      if (own.low > own.high) return true;
      all = {all.low + own.low, all.high + own.high};
    }
    return std::any_of(made_.begin(), made_.end(),
                       [](const Range& times) { return times.low > times.high; });
  }
  /// Whether the node's limits leave a way of cutting to a board.
  [[nodiscard]] bool allows(const Column& column) const {
    const std::vector<Supplied>& limits = limits_[index(column.stock)];
    return std::all_of(limits.begin(), limits.end(), [&](const Supplied& limit) {
      const std::int64_t units = column.units[limit.need];
      return limit.units.low <= units && units <= limit.units.high;
    });
  }
  void apply() {
    for (std::size_t c = 0; c < taken_; ++c) {
      const bool open = allows((*columns_)[c]);
      if (open == isOpen_[c]) continue;
      isOpen_[c] = open;
      model_.setColumnUpper(columnOf(c), open ? COIN_DBL_MAX : 0);
    }
    for (std::size_t s = 0; s < stocks_.size(); ++s)
      model_.setObjectiveCoefficient(uncutColumn(s),
                                     static_cast<double>(problem_.stock[s].cost) + missingWorth(s));
    for (std::size_t s = 0; s < stocks_.size(); ++s)
      model_.setRowBounds(stockRow(s), static_cast<double>(stocks_[s].low),
                          static_cast<double>(stocks_[s].high));
    for (std::size_t g = 0; g < opened_.size(); ++g)
      model_.setRowBounds(groupRow(g), static_cast<double>(opened_[g].low),
                          static_cast<double>(opened_[g].high));
    for (std::size_t r = 0; r < made_.size(); ++r)
      model_.setColumnBounds(recipeColumn(r), static_cast<double>(made_[r].low),
                             static_cast<double>(made_[r].high));
  }
  void solve() {
    model_.dual();
    work_ += 100 * static_cast<std::uint64_t>(std::max(0, model_.numberIterations())) + 1000;
  }

  /// The programme's multiplier of a row, rounded down.
  [[nodiscard]] Worth whole(int row) const {
    constexpr auto most = static_cast<double>(dear);
    const double price = model_.getRowPrice()[row];
    return static_cast<Worth>(
        std::floor(std::isfinite(price) ? std::clamp(price, -most, most) : 0.0));
  }
  /// The programme's own multipliers, as far as they may be taken.
  [[nodiscard]] Point duals() const {
    Point point;
    for (std::size_t n = 0; n < problem_.needs.size(); ++n)
      point.prices.unit.push_back(whole(static_cast<int>(n)));
    for (std::size_t q = 0; q < rounded_.size(); ++q)
      point.prices.rounded.push_back(whole(roundedRow(q)));
    clip(point.prices);
    for (std::size_t g = 0; g < groups_.stocks.size(); ++g)
      point.opening.push_back(whole(groupRow(g)));
    return point;
  }
  /// What is missing must not pay: multipliers of a need and its rounded rows keep to its shortage.
  void clip(Prices& prices) const {
    prices.rounded.resize(rounded_.size(), 0);
    std::vector<Worth> most;
    for (const Need& need : problem_.needs) most.push_back(need.shortage);
    for (std::size_t q = 0; q < rounded_.size(); ++q) {
      Worth& left = most[rounded_[q].need];
      Worth& price = prices.rounded[q];
      price = std::max<Worth>(0, price);
      if (const std::int64_t factor = rounded_[q].factor(1); factor > 0) {
        price = std::min(price, left / factor);
        left -= price * factor;
      }
    }
    for (std::size_t n = 0; n < most.size(); ++n)
      prices.unit[n] = std::clamp<Worth>(prices.unit[n], 0, most[n]);
  }

  [[nodiscard]] UnitWorths worthsAt(const Prices& prices) const {
    UnitWorths worths(prices.unit, wanted_);
    std::map<std::size_t, std::vector<std::size_t>> rows;
    for (std::size_t q = 0; q < prices.rounded.size(); ++q)
      if (prices.rounded[q] > 0) rows[rounded_[q].need].push_back(q);
    for (const auto& [need, own] : rows) {
      std::vector<Worth> table;
      for (std::int64_t u = 0; u <= wanted_[need]; ++u) {
        Worth sum = prices.unit[need] * u;
        for (const std::size_t q : own) sum += prices.rounded[q] * rounded_[q].factor(u);
        table.push_back(sum);
      }
      worths.setTable(need, std::move(table));
    }
    return worths;
  }

  /// The Lagrangian bound of the node at hand.
  [[nodiscard]] Worth boundAt(const Point& point) const {
    Wide sum = 0;
    const auto& [unit, rounded] = point.prices;
    for (std::size_t n = 0; n < unit.size(); ++n) sum += Wide{problem_.needs[n].amount} * unit[n];
    for (std::size_t q = 0; q < rounded.size(); ++q) sum += Wide{rounded_[q].least} * rounded[q];
    const auto add = [&](Wide reduced, const Range& times) {
      sum += reduced * (reduced > 0 ? times.low : times.high);
    };
    for (std::size_t r = 0; r < made_.size(); ++r) {
      Wide reduced = reducedCost(problem_.recipes[r], unit);
      for (std::size_t q = 0; q < rounded.size(); ++q)
        reduced -=
            Wide{rounded[q]} * rounded_[q].factor(unitsOf(problem_.recipes[r], rounded_[q].need));
      add(reduced, made_[r]);
    }
    for (std::size_t g = 0; g < opened_.size(); ++g) add(point.opening[g], opened_[g]);
    for (std::size_t s = 0; s < stocks_.size(); ++s)
      add(Wide{problem_.stock[s].cost} - earned(point, s) - point.z[s], stocks_[s]);
    constexpr Wide most = std::numeric_limits<Worth>::max();
    return static_cast<Worth>(std::clamp(sum, -most, most));
  }
  [[nodiscard]] Worth earned(const Point& point, std::size_t s) const {
    Worth sum = 0;
    for (const std::size_t g : groups_.of[s]) sum += point.opening[g];
    return sum;
  }

  // ---- what boards are worth -------------------------------------------------------------------

  using Worths = std::shared_ptr<const UnitWorths>;  ///< of all boards asked at some multipliers
  void remember(std::size_t s, const Worths& worths, Worth most) {
    std::vector<Told>& known = kept_[s];
    if (known.size() == mostKept) known.erase(known.begin() + 1);  // the root's stays
    known.push_back({worths, most});
  }
  /// What older pricings say of it.
  [[nodiscard]] Worth carried(std::size_t s, const UnitWorths& worths) const {
    Worth least = std::numeric_limits<Worth>::max() / 4;
    for (const Told& known : kept_[s]) {
      const UnitWorths& before = *known.worths;
      std::vector<Worth> each;  // most that a unit can have risen
      for (std::size_t n = 0; n < wanted_.size(); ++n) {
        Worth rise = worths.steepest(n) - before.steepest(n);
        if (worths.isTable(n) || before.isTable(n)) {
          rise = 0;
          for (std::int64_t u = 1; u <= wanted_[n]; ++u)
            rise = std::max(rise, (worths.of(n, u) - before.of(n, u) + u - 1) / u);
        }
        each.push_back(std::max<Worth>(0, rise));
      }
      std::vector<Worth> rises;
      for (const Item& item : problem_.items)
        rises.push_back(each[index(item.need)] * item.supplies);
      least = std::min(least, lifted(problem_, problem_.stock[s], known.most, rises, Caps::keep));
    }
    return least;
  }
  /// Most units of a need that a board of the stock can supply. For one thread a stock.
  [[nodiscard]] std::int64_t mostUnits(std::size_t need, std::size_t s, Pricers& pricers,
                                       const Halt& halt, Filling& spent) {
    std::int64_t& known = mostUnits_.at(need)[s];
    if (known >= 0) return known;
    const Stock& stock = problem_.stock[s];
    // Dear enough that offcuts do not count, nor the cuts around a piece, at most three.
    const Worth cuts = 4 * (problem_.saw.crosscut + problem_.saw.rip);
    const Worth unit =
        1000 * (stock.offcuts.worth(stock.profile.length(), stock.profile.width()) + cuts + 1);
    std::vector<Priced> prices;
    for (std::size_t i = 0; i < problem_.items.size(); ++i)
      if (index(problem_.items[i].need) == need)
        prices.push_back({static_cast<int>(i), unit * problem_.items[i].supplies});
    const Best best =
        pricers.of(static_cast<int>(s))
            .best(prices, {.caps = Caps::drop, .halt = &halt, .most = mostWorkOfUnits});
    spent += {best.work + 100, 1, 0};
    known = (best.upperBound + cuts) / (unit - cuts);
    return known;
  }

  /// Asks boards until all that could still pay a trifle are asked. Returns how many gave
  /// something new.
  std::size_t ask(Point& point, Multipliers& known, Pricers& pricers, const Halt& halt,
                  Worth trifle, Filling& spent) {
    const auto worths = std::make_shared<const UnitWorths>(worthsAt(point.prices));
    const auto prices = pricesAt(problem_, worths->steepest());
    std::vector<Worth> costs;
    point.z.resize(problem_.stock.size());
    for (std::size_t s = 0; s < problem_.stock.size(); ++s) {
      costs.push_back(problem_.stock[s].cost - earned(point, s));
      point.z[s] = carried(s, *worths);
    }
    work_ += 50 * problem_.stock.size() * problem_.items.size();
    struct Open {
      std::size_t stock;
      Worth floor, promise;
    };
    std::vector<Open> order;
    Wide left = 0;
    for (std::size_t s = 0; s < costs.size(); ++s) {
      if (stocks_[s].high == 0) continue;
      Worth floor = costs[s] - std::abs(costs[s]) / 20;
      if (stocks_[s].low > 0)
        floor = std::min(
            floor, costs[s] - std::max<Worth>(0, whole(stockRow(s))) - std::abs(costs[s]) / 50);
      const Worth promise = stocks_[s].low > 0 ? point.z[s] - floor : point.z[s] - costs[s];
      if (promise <= 0) continue;
      order.push_back({s, std::max<Worth>(0, floor), promise});
      left += promise;
    }
    std::stable_sort(order.begin(), order.end(),
                     [](const Open& a, const Open& b) { return a.promise > b.promise; });
    std::size_t fresh = 0;
    for (std::size_t from = 0; from < order.size() && left > trifle && !halt.now(); from += share) {
      std::vector<BoardWorth> answers(std::min(share, order.size() - from));
      pricers.crew().each(answers.size(), [&](std::size_t a) {
        const Open& open = order[from + a];
        const std::size_t s = open.stock;
        UnitWorths own = *worths;
        Filling counting;
        for (std::size_t n = 0; n < own.needs(); ++n)
          if (own.isTable(n)) own.limit(n, mostUnits(n, s, pricers, halt, counting));
        // What must be supplied earns more than all else, and is taken off again.
        Worth bonus = 0;
        for (const Supplied& limit : limits_[s]) {
          own.limit(limit.need, limit.units.high);
          if (limit.units.low == 0 || point.z[s] >= dear) continue;
          const Worth more = std::max<Worth>(0, point.z[s]) + 1;
          std::vector<Worth> table;
          for (std::int64_t u = 0; u <= limit.units.high; ++u)
            table.push_back(own.of(limit.need, u) + (u >= limit.units.low ? more : 0));
          own.setTable(limit.need, std::move(table));
          bonus += more;
        }
        const bool free = limits_[s].empty();
        answers[a] = boardWorth(
            pricers, problem_, static_cast<int>(s),
            free ? prices : pricesAt(problem_, own.steepest()),
            {.worths = own,
             .depth = pauses_.depth(s),
             .rations = free ? std::span<const Worth>(rations_[s]) : std::span<const Worth>(),
             .floor = open.floor + bonus,
             .cost = costs[s] + bonus,
             .halt = &halt});
        answers[a].spent += counting;
        answers[a].most -= bonus;
      });
      for (std::size_t a = 0; a < answers.size(); ++a) {
        const Open& open = order[from + a];
        left -= open.promise;
        spent += answers[a].spent;
        pauses_.told(open.stock, answers[a]);
        const std::size_t before = known.master().columns().size();
        for (const Pattern& pattern : answers[a].patterns)
          known.learn(static_cast<int>(open.stock), pattern);
        if (known.master().columns().size() > before) ++fresh;
        const bool free = limits_[open.stock].empty();
        if (free && !answers[a].rations.empty())
          rations_[open.stock] = std::move(answers[a].rations);
        if (answers[a].most >= point.z[open.stock]) continue;
        point.z[open.stock] = answers[a].most;
        if (free) remember(open.stock, worths, answers[a].most);
      }
    }
    return fresh;
  }

  /// The best point between two: what a board is worth is convex in the multipliers.
  [[nodiscard]] Point between(const Point& a, const Point& b) const {
    constexpr int bits = 16;
    const auto at = [&](std::int64_t part) {
      const auto mean = [&](Worth x, Worth y) { return (Wide{x} << bits) + (Wide{y} - x) * part; };
      const auto down = [&](Worth x, Worth y) { return static_cast<Worth>(mean(x, y) >> bits); };
      Point made;
      for (std::size_t n = 0; n < a.prices.unit.size(); ++n)
        made.prices.unit.push_back(down(a.prices.unit[n], b.prices.unit[n]));
      for (std::size_t q = 0; q < rounded_.size(); ++q)
        made.prices.rounded.push_back(down(a.prices.rounded[q], b.prices.rounded[q]));
      for (std::size_t g = 0; g < groups_.stocks.size(); ++g)
        made.opening.push_back(down(a.opening[g], b.opening[g]));
      for (std::size_t s = 0; s < a.z.size(); ++s)
        made.z.push_back(
            static_cast<Worth>((mean(a.z[s], b.z[s]) + (Wide{1} << bits) - 1) >> bits));
      return made;
    };
    std::int64_t lo = 0, hi = std::int64_t{1} << bits;
    while (hi - lo > 64) {
      const std::int64_t left = lo + (hi - lo) / 3, right = hi - (hi - lo) / 3;
      if (boundAt(at(left)) < boundAt(at(right)))
        lo = left;
      else
        hi = right;
    }
    return at((lo + hi) / 2);
  }

  void offer(Node& node, Point point) {
    const Worth own = boundAt(point);
    if (own <= bestOf_) return;
    bestOf_ = own;
    node.best = std::make_shared<const Point>(std::move(point));
    node.bound = std::max(node.bound, own);
  }

  /// Rounds, then two children. True: the node stays open itself.
  bool visit(const NodeAt& node, Multipliers& known, Pricers& pricers, const Halt& halt,
             Filling& spent) {
    endWhenHalted(model_, halt);
    restrictTo(*node);
    if (contradictory()) {
      node->bound = cheapest_;
      return false;
    }
    apply();
    {
      Point own = *node->best;
      own.prices.rounded.resize(rounded_.size(), 0);
      bestOf_ = boundAt(own);
      node->best = std::make_shared<const Point>(std::move(own));
      node->bound = std::max(node->bound, bestOf_);
    }
    const bool isRoot = !node->parent;
    bool smooth = true;
    int cutRounds = 0;
    for (int round = 0; round < (isRoot ? mostRoundsOfRoot : mostRounds); ++round) {
      take(known.master().columns());
      solve();
      if (halt.now()) return true;
      if (model_.status() != 0) {  // CLP gave up
        leaves_.push_back(node);
        return false;
      }
      if (node->bound >= cheapest_) return false;
      const double value = model_.objectiveValue();
      const double open = static_cast<double>(cheapest_ - node->bound);
      const bool near = value - static_cast<double>(node->bound) < open / 25;
      if ((near || !smooth) && rounded_.size() < mostCuts &&
          cutRounds < (isRoot ? mostCutRounds : 1) && separate(known.master().columns())) {
        ++cutRounds;
        Point own = *node->best;
        own.prices.rounded.resize(rounded_.size(), 0);
        node->best = std::make_shared<const Point>(std::move(own));
        smooth = true;
        solve();
      } else if (near) {
        break;
      }
      Point point = duals();
      if (smooth) {
        const Point& best = *node->best;
        const auto mix = [](Worth& own, Worth other) {
          own = static_cast<Worth>((Wide{own} * 4 + Wide{other}) / 5);
        };
        for (std::size_t n = 0; n < point.prices.unit.size(); ++n)
          mix(point.prices.unit[n], best.prices.unit[n]);
        for (std::size_t q = 0; q < rounded_.size(); ++q)
          mix(point.prices.rounded[q], best.prices.rounded[q]);
        for (std::size_t g = 0; g < groups_.stocks.size(); ++g)
          mix(point.opening[g], best.opening[g]);
      }
      const std::size_t fresh =
          ask(point, known, pricers, halt, static_cast<Worth>(open / 200), spent);
      offer(*node, between(*node->best, point));
      offer(*node, std::move(point));
      if (fresh == 0 && !smooth) break;
      smooth = fresh > 0;
    }
    if (node->bound >= cheapest_) return false;
    if (halt.now()) return true;
    return !split(node, halt);
  }

  // ---- branches --------------------------------------------------------------------------------

  struct Candidate {
    Branch branch;
    double score;
  };
  [[nodiscard]] std::vector<Candidate> candidates(const std::vector<Column>& columns) const {
    std::vector<Candidate> found;
    const double* x = model_.getColSolution();
    const auto consider = [&](Counted what, std::size_t which, double times, double weight) {
      const double part = times - std::floor(times);
      if (std::min(part, 1 - part) < 1e-5) return;
      found.push_back({{what, which, static_cast<std::int64_t>(std::floor(times)), false, 0},
                       std::min(part, 1 - part) * weight});
    };
    std::vector<double> opened(problem_.stock.size(), 0);
    for (std::size_t s = 0; s < opened.size(); ++s) opened[s] += x[problem_.needs.size() + s];
    for (std::size_t c = 0; c < taken_; ++c) opened[index(columns[c].stock)] += x[columnOf(c)];
    for (std::size_t s = 0; s < opened.size(); ++s)
      consider(Counted::stock, s, opened[s], 2 * static_cast<double>(problem_.stock[s].cost) + 1);
    std::vector<std::vector<std::size_t>> used(problem_.stock.size());
    for (std::size_t c = 0; c < taken_; ++c)
      if (x[columnOf(c)] > 1e-7) used[index(columns[c].stock)].push_back(c);
    for (std::size_t s = 0; s < used.size(); ++s) {
      if (problem_.stock[s].copies > 1 || used[s].size() < 2) continue;
      for (std::size_t n = 0; n < wanted_.size(); ++n) {
        if (wanted_[n] > mostInTable) continue;
        std::set<std::int64_t> counts;
        for (const std::size_t c : used[s]) counts.insert(columns[c].units[n]);
        for (const std::int64_t most : counts) {
          double above = 0;
          for (const std::size_t c : used[s])
            if (columns[c].units[n] > most) above += x[columnOf(c)];
          const double part = std::min(above, 1 - above);
          if (part < 1e-5) continue;
          found.push_back({{Counted::units, s, most, false, n},
                           part * static_cast<double>(problem_.stock[s].cost)});
        }
      }
    }
    for (std::size_t g = 0; g < groups_.stocks.size(); ++g) {
      double boards = 0, weight = 0;
      for (const std::size_t s : groups_.stocks[g]) {
        boards += opened[s];
        weight += static_cast<double>(problem_.stock[s].cost);
      }
      consider(Counted::group, g, boards,
               4 * weight / static_cast<double>(groups_.stocks[g].size()) + 1);
    }
    for (std::size_t r = 0; r < made_.size(); ++r)
      consider(Counted::recipe, r, x[recipeColumn(r)],
               static_cast<double>(problem_.recipes[r].cost) + 1);
    std::stable_sort(found.begin(), found.end(),
                     [](const Candidate& a, const Candidate& b) { return a.score > b.score; });
    return found;
  }

  /// Divides the node; false: nothing is left to divide, it is a leaf.
  bool split(const NodeAt& node, const Halt& halt) {
    take(*columns_);
    restrictTo(*node);
    apply();
    solve();
    if (halt.now()) return false;
    const std::vector<Candidate> found = candidates(*columns_);
    if (found.empty() || model_.status() != 0) {
      leaves_.push_back(node);
      return true;
    }
    const auto side = [&](std::size_t place, bool upper) {
      restrictTo(*node);
      Branch branch = found[place].branch;
      branch.upper = upper;
      narrowTo(branch);
      apply();
    };
    const Branch best =
        found[strongest(model_, found.size(), cheapest_, {}, side, halt, work_).place].branch;
    for (const bool upper : {false, true}) {
      auto child = std::make_shared<Node>();
      child->bound = node->bound;
      child->number = ++born_;
      child->parent = node;
      child->branch = best;
      child->branch.upper = upper;
      child->best = node->best;
      open_.insert(std::move(child));
    }
    return true;
  }

  struct Told {
    Worths worths;
    Worth most;
  };
  struct Supplied {
    std::size_t need;
    Range units;
  };

  const Problem& problem_;
  std::vector<std::int64_t> wanted_;
  BoardGroups groups_;
  std::vector<Range> stockRange_, groupRange_, recipeRange_;  ///< at the root
  std::vector<Range> stocks_, opened_, made_;                 ///< in the node at hand
  std::vector<std::vector<Supplied>> limits_;                 ///< likewise, by stock
  const std::vector<Column>* columns_ = nullptr;
  ClpSimplex model_;
  std::size_t taken_ = 0;     ///< columns in the programme
  std::vector<bool> isOpen_;  ///< of these, what the node at hand allows
  std::vector<RoundedNeed> rounded_;
  std::map<std::size_t, std::vector<std::int64_t>> mostUnits_;  ///< by need and stock
  std::vector<std::vector<Told>> kept_;
  std::vector<std::vector<Worth>> rations_;
  ListingPauses pauses_;
  std::set<NodeAt, Lower> open_;
  std::vector<NodeAt> leaves_;
  std::size_t born_ = 0;
  Worth cheapest_ = std::numeric_limits<Worth>::max();
  Worth bestOf_ = 0;  ///< bound of the node at hand by its best point alone
  std::uint64_t work_ = 0;
};

Branching::Branching(const Problem& problem, const Multipliers& root)
    : tree_(std::make_unique<Tree>(problem, root)) {}
Branching::~Branching() = default;
Branching::Branching(Branching&&) noexcept = default;

void Branching::step(Multipliers& known, Pricers& pricers, Worth cheapest, const Halt& halt,
                     Filling& spent) {
  tree_->step(known, pricers, cheapest, halt, spent);
}
Worth Branching::bound() const { return tree_->bound(); }
bool Branching::ended() const { return tree_->ended(); }

}  // namespace flitch::optimizer
