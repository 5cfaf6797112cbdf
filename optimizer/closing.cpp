#include "optimizer/closing.h"

#include <ClpSimplex.hpp>
#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>
#include <queue>

#include "optimizer/board_groups.h"
#include "optimizer/index.h"
#include "optimizer/pivot_halt.h"
#include "optimizer/rounding.h"
#include "optimizer/strong_branching.h"
#include "optimizer/wide.h"

namespace flitch::optimizer {
namespace {

constexpr int fraction = 16;  ///< bits of a multiplier behind the point
constexpr int cutRounds = 8;  ///< at the root
constexpr std::size_t cutsAtOnce = 10;

/// One step down the tree.
struct Branch {
  static constexpr std::size_t none = static_cast<std::size_t>(-1);
  int stock = 0;
  int need = -1;              ///< -1: opened or not
  std::int64_t most = 0;      ///< the lower side: at most so many units, or not opened
  bool upper = false;         ///< the other side: more, so opened
  std::size_t column = none;  ///< instead of a need: this column, upper: taken once more
  std::int64_t times = 0;     ///< of column or recipe: at most, or at least one more
  std::size_t recipe = none;  ///< instead of a stock: this recipe, upper: once more
  std::size_t group = none;   ///< instead of a stock: boards opened of this group
};

struct Node {
  Worth bound = 0;
  std::size_t number = 0;  ///< in order of birth
  std::shared_ptr<const Node> parent;
  Branch branch;
  std::vector<std::size_t> needless;  ///< columns that no cheaper plan below here is made of
};
using NodeAt = std::shared_ptr<Node>;

struct Worse {
  bool operator()(const NodeAt& a, const NodeAt& b) const {
    return a->bound != b->bound ? a->bound > b->bound : a->number > b->number;
  }
};

class Tree {
 public:
  Tree(const Problem& problem, const std::vector<const Column*>& columns, const Closing& closing,
       const Halt& halt)
      : problem_(problem),
        columns_(columns),
        most_(closing.nodes),
        trying_(closing.trying),
        patience_(closing.patience),
        halt_(halt),
        groups_(problem, columns) {
    closed_.bound = closing.below;
    cheapest_ = closing.below;
    byStock_.resize(problem.stock.size());
    for (std::size_t c = 0; c < columns_.size(); ++c)
      byStock_[index(columns_[c]->stock)].push_back(c);
    load();
  }

  Closed run(Filling& spent) {
    auto root = std::make_shared<Node>();
    root->bound = std::numeric_limits<Worth>::min();
    open_.push(root);
    while (!open_.empty() && born_ < most_ && !tired() && !halt_.now()) {
      NodeAt node = open_.top();
      if (node->bound >= cheapest_) break;  // so are all others
      open_.pop();
      while (node) node = visit(node);
    }
    closed_.bound = cheapest_;
    if (!open_.empty()) closed_.bound = std::min(cheapest_, open_.top()->bound);
    spent.nodes += visited_;
    spent.effort += work_;
    return std::move(closed_);
  }

 private:
  [[nodiscard]] bool tired() const { return visited_ / 2 > lastGain_ + patience_; }

  [[nodiscard]] int cutRow(std::size_t cut) const {
    return groupRow(groups_.stocks.size()) + static_cast<int>(cut);
  }

  /// Adds the rounded rows that the programme's optimum breaks most. False: it breaks none.
  bool separate() {
    const double* x = model_.getColSolution();
    const Shares shares{{x, columns_.size()},
                        {x + columns_.size(), problem_.needs.size()},
                        {x + columns_.size() + problem_.needs.size(), problem_.recipes.size()}};
    std::vector<Rounding> broken = brokenRoundings(problem_, columns_, shares, cutsAtOnce, work_);
    for (Rounding& cut : broken) {
      std::vector<int> at;
      std::vector<double> values;
      int column = 0;
      for (const auto* factors : {&cut.columns, &cut.needs, &cut.recipes})
        for (const std::int64_t factor : *factors) {
          if (factor != 0) {
            at.push_back(column);
            values.push_back(static_cast<double>(factor));
          }
          ++column;
        }
      model_.addRow(static_cast<int>(at.size()), at.data(), values.data(),
                    static_cast<double>(cut.least), COIN_DBL_MAX);
      work_ += 10 * at.size();
      cuts_.push_back(std::move(cut));
    }
    return !broken.empty();
  }

  [[nodiscard]] int groupRow(std::size_t group) const {
    return static_cast<int>(problem_.needs.size() + problem_.stock.size() + group);
  }

  void load() {
    const int needs = static_cast<int>(problem_.needs.size());
    model_.setLogLevel(0);
    model_.resize(0, 0);
    for (const Need& need : problem_.needs)
      model_.addRow(0, nullptr, nullptr, static_cast<double>(need.amount), COIN_DBL_MAX);
    for (const Stock& stock : problem_.stock)
      model_.addRow(0, nullptr, nullptr, stock.least, stock.copies);
    for (const std::vector<std::size_t>& group : groups_.stocks) {
      std::int64_t most = 0;
      for (const std::size_t s : group) most += problem_.stock[s].copies;
      mostOf_.push_back(most);
      model_.addRow(0, nullptr, nullptr, 0, static_cast<double>(most));
    }
    std::vector<CoinBigIndex> starts{0};
    std::vector<int> rows;
    std::vector<double> values, costs;
    for (const Column* column : columns_) {
      for (int n = 0; n < needs; ++n)
        if (const std::int64_t units = column->units[index(n)]; units > 0) {
          rows.push_back(n);
          values.push_back(static_cast<double>(units));
        }
      rows.push_back(needs + column->stock);
      values.push_back(1);
      for (const std::size_t g : groups_.of[index(column->stock)]) {
        rows.push_back(groupRow(g));
        values.push_back(1);
      }
      starts.push_back(static_cast<CoinBigIndex>(rows.size()));
      costs.push_back(static_cast<double>(column->cost));
    }
    for (int n = 0; n < needs; ++n) {
      rows.push_back(n);
      values.push_back(1);
      starts.push_back(static_cast<CoinBigIndex>(rows.size()));
      costs.push_back(static_cast<double>(problem_.needs[index(n)].shortage));
    }
    for (const Recipe& recipe : problem_.recipes) {
      const RecipeColumn column(recipe);
      rows.insert(rows.end(), column.rows.begin(), column.rows.end());
      values.insert(values.end(), column.values.begin(), column.values.end());
      starts.push_back(static_cast<CoinBigIndex>(rows.size()));
      costs.push_back(static_cast<double>(recipe.cost));
    }
    const std::vector<double> zero(costs.size(), 0), large(costs.size(), COIN_DBL_MAX);
    model_.addColumns(static_cast<int>(costs.size()), zero.data(), large.data(), costs.data(),
                      starts.data(), rows.data(), values.data());
    endWhenHalted(model_, halt_);
    work_ += 30 * rows.size() + 100 * (columns_.size() + problem_.stock.size() + 20);
  }

  /// Bounds of the columns, recipes and stocks in a node.
  void restrictTo(const Node& leaf) {
    low_.assign(columns_.size(), 0);
    high_.resize(columns_.size());
    for (std::size_t c = 0; c < columns_.size(); ++c)
      high_[c] = problem_.stock[index(columns_[c]->stock)].copies;
    recipes_.clear();
    for (const Recipe& recipe : problem_.recipes)
      recipes_.push_back({0, mostTimes(problem_, recipe)});
    least_.clear();
    for (const Stock& stock : problem_.stock) least_.push_back(stock.least);
    opened_.clear();
    for (const std::int64_t most : mostOf_) opened_.push_back({0, most});
    for (const Node* node = &leaf; node != nullptr; node = node->parent.get()) {
      for (const std::size_t c : node->needless) high_[c] = 0;
      if (node->parent) narrowTo(node->branch);
    }
  }
  void narrowTo(const Branch& branch) {
    const auto narrow = [&](std::int64_t& low, std::int64_t& high) {
      if (branch.upper)
        low = std::max(low, branch.times + 1);
      else
        high = std::min(high, branch.times);
    };
    if (branch.group != Branch::none) {
      narrow(opened_[branch.group].low, opened_[branch.group].high);
    } else if (branch.recipe != Branch::none) {
      narrow(recipes_[branch.recipe].low, recipes_[branch.recipe].high);
    } else if (branch.column != Branch::none) {
      narrow(low_[branch.column], high_[branch.column]);
    } else {
      for (const std::size_t c : byStock_[index(branch.stock)]) {
        const bool isUpper =
            branch.need < 0 || columns_[c]->units[index(branch.need)] > branch.most;
        if (isUpper != branch.upper) high_[c] = 0;
      }
      if (branch.upper) least_[index(branch.stock)] = std::max(1, least_[index(branch.stock)]);
    }
  }

  /// A row's multiplier, in 2^-fraction.
  [[nodiscard]] Worth dual(int row) const {
    const double price = model_.getRowPrice()[row];
    return static_cast<Worth>(std::floor(std::ldexp(std::isfinite(price) ? price : 0.0, fraction)));
  }

  /// Lagrangian bound of the node at hand at CLP's multipliers. Columns that no plan cheaper than
  /// the cheapest known takes go to `needless`.
  Worth bound(std::vector<std::size_t>& needless) {
    std::vector<Worth> unit;  // in 2^-fraction
    Wide sum = 0;
    // What is missing must not pay: multipliers of a need and of its cuts keep to its shortage.
    std::vector<Wide> most;
    for (const Need& need : problem_.needs) most.push_back(Wide{need.shortage} << fraction);
    struct Weight {
      const Rounding* cut;
      Wide price;
    };
    std::vector<Weight> cuts;
    for (std::size_t q = 0; q < cuts_.size(); ++q) {
      Wide price = std::max<Worth>(0, dual(cutRow(q)));
      for (std::size_t n = 0; n < most.size(); ++n)
        if (cuts_[q].needs[n] > 0) price = std::min(price, most[n] / cuts_[q].needs[n]);
      if (price == 0) continue;
      for (std::size_t n = 0; n < most.size(); ++n) most[n] -= price * cuts_[q].needs[n];
      sum += price * cuts_[q].least;
      cuts.push_back({&cuts_[q], price});
    }
    for (std::size_t n = 0; n < problem_.needs.size(); ++n) {
      unit.push_back(static_cast<Worth>(std::clamp<Wide>(dual(static_cast<int>(n)), 0, most[n])));
      sum += Wide{problem_.needs[n].amount} * unit.back();
    }
    for (std::size_t r = 0; r < recipes_.size(); ++r) {
      const Range& times = recipes_[r];
      if (times.low > times.high) return std::numeric_limits<Worth>::max();
      Wide reduced = reducedCost(problem_.recipes[r], unit, fraction);
      for (const Weight& weight : cuts) reduced -= weight.price * weight.cut->recipes[r];
      sum += reduced * (reduced > 0 ? times.low : times.high);
    }
    std::vector<Worth> opening;  // of each group: what opening one of its boards earns
    for (std::size_t g = 0; g < groups_.stocks.size(); ++g) {
      const Range& boards = opened_[g];
      if (boards.low > boards.high) return std::numeric_limits<Worth>::max();
      opening.push_back(dual(groupRow(g)));
      sum += Wide{opening.back()} * (opening.back() > 0 ? boards.low : boards.high);
    }
    struct Room {
      Wide reduced;
      std::int64_t copies;
      std::size_t column;
    };
    std::vector<Room> rooms;
    struct Spare {
      Wide more;  ///< than the best of its board
      std::size_t column;
    };
    std::vector<Spare> spares;
    for (std::size_t s = 0; s < byStock_.size(); ++s) {
      rooms.clear();
      std::int64_t left = problem_.stock[s].copies, must = least_[s];
      Wide earned = 0;
      for (const std::size_t g : groups_.of[s]) earned += opening[g];
      for (const std::size_t c : byStock_[s]) {
        if (high_[c] == 0) continue;
        Wide reduced = (Wide{columns_[c]->cost} << fraction) - earned;
        for (std::size_t n = 0; n < unit.size(); ++n)
          reduced -= Wide{unit[n]} * columns_[c]->units[n];
        for (const Weight& weight : cuts) reduced -= weight.price * weight.cut->columns[c];
        sum += reduced * low_[c];
        left -= low_[c];
        must -= low_[c];
        if (high_[c] > low_[c]) rooms.push_back({reduced, high_[c] - low_[c], c});
      }
      if (left < 0) return std::numeric_limits<Worth>::max();
      std::sort(rooms.begin(), rooms.end(),
                [](const Room& a, const Room& b) { return a.reduced < b.reduced; });
      Wide own = 0;
      for (const Room& room : rooms) {
        const std::int64_t forced = std::clamp<std::int64_t>(must, 0, room.copies);
        const std::int64_t taken = room.reduced < 0 ? std::min(left, room.copies) : forced;
        if (taken <= 0) break;
        own += room.reduced * taken;
        left -= taken;
        must -= taken;
      }
      sum += own;
      if (must > 0) return std::numeric_limits<Worth>::max();  // nothing is left to open it with
      if (problem_.stock[s].copies == 1)
        for (const Room& room : rooms) spares.push_back({room.reduced - own, room.column});
    }
    work_ += columns_.size() * unit.size() / 16 + 100;
    const auto rounded = [](Wide sum16) {
      const Wide step = Wide{1} << fraction;
      return sum16 >= 0 ? (sum16 + step - 1) / step : -((-sum16) / step);
    };
    for (const Spare& spare : spares)
      if (rounded(sum + spare.more) >= cheapest_) needless.push_back(spare.column);
    return static_cast<Worth>(rounded(sum));
  }

  /// Solves a node; gives its cheaper child, the other one waits. Null: nothing is left here.
  NodeAt visit(const NodeAt& node) {
    if (node->bound >= cheapest_ || halt_.now() || born_ >= most_) {
      if (node->bound < cheapest_) open_.push(node);
      return nullptr;
    }
    ++visited_;
    restrictTo(*node);
    apply();
    solve();
    if (!node->parent)
      for (int round = 0; round < cutRounds && model_.status() == 0 && !halt_.now(); ++round) {
        if (!separate()) break;
        solve();
      }
    const Worth own = std::max(node->bound, bound(node->needless));
    node->bound = own;
    if (own >= cheapest_) return nullptr;
    if (model_.status() != 0) {  // halted, or CLP gave up: the node stays open
      open_.push(node);
      most_ = 0;
      return nullptr;
    }
    std::vector<double> x(model_.getColSolution(), model_.getColSolution() + columns_.size());
    offer(x);
    if (own >= cheapest_) return nullptr;
    return split(node, x);
  }

  void solve() {
    model_.dual();
    work_ += 100 * static_cast<std::uint64_t>(std::max(0, model_.numberIterations())) + 1000;
  }

  /// A plan of the columns taken whole.
  void offer(const std::vector<double>& x) {
    Draft draft(problem_);
    for (std::size_t c = 0; c < x.size(); ++c)
      for (long times = std::lround(std::clamp(x[c], 0.0, 1e6)); times > 0; --times)
        if (draft.copiesLeft(columns_[c]->stock) > 0)
          draft.add({columns_[c]->stock, columns_[c]->pattern});
    draft.tidy();
    openForced(draft, problem_);
    if (draft.cost() >= cheapest_) return;
    cheapest_ = draft.cost();
    closed_.better = std::move(draft);
    lastGain_ = visited_;
  }

  struct Candidate {
    Branch branch;
    double score;  ///< how undecided, by how much money hangs on it
  };
  /// What is not whole, the most promising first.
  [[nodiscard]] std::vector<Candidate> candidates(const std::vector<double>& x) const {
    std::vector<Candidate> found;
    const auto consider = [&](const Branch& branch, double share, double weight) {
      const double part = share - std::floor(share);
      if (std::min(part, 1 - part) > 1e-6)
        found.push_back({branch, std::min(part, 1 - part) * weight});
    };
    for (std::size_t s = 0; s < byStock_.size(); ++s) {
      const int stock = static_cast<int>(s);
      std::vector<std::size_t> used;
      double opened = 0;
      for (const std::size_t c : byStock_[s])
        if (x[c] > 1e-7) {
          used.push_back(c);
          opened += x[c];
        }
      const double weight = static_cast<double>(problem_.stock[s].cost) + 1;
      if (problem_.stock[s].copies > 1) {
        for (const std::size_t c : used) {
          Branch branch;
          branch.stock = stock;
          branch.column = c;
          branch.times = static_cast<std::int64_t>(std::floor(x[c] + 1e-7));
          consider(branch, x[c], weight);
        }
        continue;
      }
      Branch open;
      open.stock = stock;
      consider(open, opened, weight * 2);
      for (std::size_t n = 0; n < problem_.needs.size(); ++n)
        for (const std::size_t at : used) {
          Branch branch;
          branch.stock = stock;
          branch.need = static_cast<int>(n);
          branch.most = columns_[at]->units[n];
          double above = 0;
          for (const std::size_t c : used)
            if (columns_[c]->units[n] > branch.most) above += x[c];
          consider(branch, above, weight);
        }
    }
    for (std::size_t g = 0; g < groups_.stocks.size(); ++g) {
      double boards = 0, weight = 0;
      for (const std::size_t s : groups_.stocks[g]) {
        for (const std::size_t c : byStock_[s]) boards += x[c];
        weight += static_cast<double>(problem_.stock[s].cost);
      }
      Branch branch;
      branch.group = g;
      branch.times = static_cast<std::int64_t>(std::floor(boards + 1e-7));
      consider(branch, boards, 4 * weight / static_cast<double>(groups_.stocks[g].size()) + 1);
    }
    const double* made = model_.getColSolution() + columns_.size() + problem_.needs.size();
    for (std::size_t r = 0; r < recipes_.size(); ++r) {
      Branch branch;
      branch.recipe = r;
      branch.times = static_cast<std::int64_t>(std::floor(made[r] + 1e-7));
      consider(branch, made[r], static_cast<double>(problem_.recipes[r].cost) + 1);
    }
    std::stable_sort(found.begin(), found.end(),
                     [](const Candidate& a, const Candidate& b) { return a.score > b.score; });
    return found;
  }

  /// Sets the model's bounds to those at hand.
  void apply() {
    for (std::size_t c = 0; c < columns_.size(); ++c)
      model_.setColumnBounds(static_cast<int>(c), static_cast<double>(low_[c]),
                             static_cast<double>(high_[c]));
    for (std::size_t r = 0; r < recipes_.size(); ++r)
      model_.setColumnBounds(static_cast<int>(columns_.size() + problem_.needs.size() + r),
                             static_cast<double>(recipes_[r].low),
                             static_cast<double>(recipes_[r].high));
    for (std::size_t s = 0; s < least_.size(); ++s)
      model_.setRowLower(static_cast<int>(problem_.needs.size() + s), least_[s]);
    for (std::size_t g = 0; g < opened_.size(); ++g)
      model_.setRowBounds(groupRow(g), static_cast<double>(opened_[g].low),
                          static_cast<double>(opened_[g].high));
  }

  /// The most telling of these branches; `upper`: its cheaper side.
  Branch choose(const NodeAt& node, const std::vector<Candidate>& found) {
    const auto side = [&](std::size_t place, bool upper) {
      restrictTo(*node);
      Branch branch = found[place].branch;
      branch.upper = upper;
      narrowTo(branch);
      apply();
    };
    const Strongest best = strongest(model_, found.size(), cheapest_, trying_, side, halt_, work_);
    Branch branch = found[best.place].branch;
    branch.upper = best.upperCheaper;
    return branch;
  }

  [[nodiscard]] Branch oneMore(std::size_t column) const {
    Branch branch;
    branch.stock = columns_[column]->stock;
    branch.column = column;
    branch.times = low_[column];
    return branch;
  }

  NodeAt split(const NodeAt& node, const std::vector<double>& x) {
    const std::vector<Candidate> found = candidates(x);
    Branch best;
    if (!found.empty()) best = choose(node, found);
    if (found.empty()) {
      // Whole already, but for what rounding left open: take the columns one by one.
      for (std::size_t c = 0; c < x.size() && best.column == Branch::none; ++c)
        if (x[c] > 0.5 && low_[c] < high_[c] && low_[c] < std::lround(x[c])) best = oneMore(c);
      if (best.column == Branch::none)
        for (std::size_t c = 0; c < x.size() && best.column == Branch::none; ++c)
          if (low_[c] < high_[c]) best = oneMore(c);
      if (best.column == Branch::none) return nullptr;  // one plan, and it was offered
    }
    const bool cheaper = best.upper || found.empty();
    NodeAt sides[2];
    for (const bool upper : {false, true}) {
      auto child = std::make_shared<Node>();
      child->bound = node->bound;
      child->number = ++born_;
      child->parent = node;
      child->branch = best;
      child->branch.upper = upper;
      sides[upper ? 1 : 0] = std::move(child);
    }
    const std::size_t first = cheaper ? 1 : 0;
    open_.push(sides[1 - first]);
    return sides[first];
  }

  const Problem& problem_;
  const std::vector<const Column*>& columns_;
  std::size_t most_;
  const Trying trying_;
  const std::size_t patience_;
  const Halt& halt_;
  std::vector<std::vector<std::size_t>> byStock_;
  ClpSimplex model_;
  struct Range {
    std::int64_t low, high;
  };
  std::vector<Range> recipes_;  ///< how often each may be made
  std::vector<std::int64_t> low_, high_;
  std::vector<int> least_;
  BoardGroups groups_;
  std::vector<std::int64_t> mostOf_;  ///< boards there are of each group
  std::vector<Rounding> cuts_;
  std::vector<Range> opened_;  ///< boards opened of each group
  std::priority_queue<NodeAt, std::vector<NodeAt>, Worse> open_;
  Worth cheapest_ = 0;
  Closed closed_;
  std::size_t born_ = 0, visited_ = 0, lastGain_ = 0;
  std::uint64_t work_ = 0;
};

}  // namespace

Closed close(const Problem& problem, const std::vector<const Column*>& columns,
             const Closing& closing, const Halt& halt, Filling& spent) {
  return Tree(problem, columns, closing, halt).run(spent);
}

}  // namespace flitch::optimizer
