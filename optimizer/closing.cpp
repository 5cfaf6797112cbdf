#include "optimizer/closing.h"

#include <ClpEventHandler.hpp>
#include <ClpSimplex.hpp>
#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>
#include <queue>

#include "optimizer/index.h"
#include "optimizer/wide.h"

namespace flitch::optimizer {
namespace {

constexpr int fraction = 16;  ///< bits of a multiplier behind the point

/// One step down the tree.
struct Branch {
  int stock = 0;
  int need = -1;              ///< -1: opened or not
  std::int64_t most = 0;      ///< the lower side: at most so many units, or not opened
  bool upper = false;         ///< the other side: more, so opened
  std::size_t column = none;  ///< instead of a need: this column, upper: taken once more
  std::int64_t times = 0;     ///< of column or recipe: at most, or at least one more
  std::size_t recipe = none;  ///< instead of a stock: this recipe, upper: once more
  static constexpr std::size_t none = static_cast<std::size_t>(-1);
};

struct Node {
  Worth bound = 0;
  std::size_t number = 0;  ///< in order of birth
  std::shared_ptr<const Node> parent;
  Branch branch;
};
using NodeAt = std::shared_ptr<Node>;

struct Worse {
  bool operator()(const NodeAt& a, const NodeAt& b) const {
    return a->bound != b->bound ? a->bound > b->bound : a->number > b->number;
  }
};

class PivotHalt : public ClpEventHandler {
 public:
  explicit PivotHalt(const Halt& halt) : halt_(&halt) {}
  int event(Event) override { return halt_->now() ? stopped : goOn; }
  [[nodiscard]] ClpEventHandler* clone() const override { return new PivotHalt(*this); }

 private:
  static constexpr int goOn = -1, stopped = 4;
  const Halt* halt_;
};

class Tree {
 public:
  Tree(const Problem& problem, const std::vector<const Column*>& columns, const Closing& closing,
       const Halt& halt)
      : problem_(problem), columns_(columns), most_(closing.nodes), halt_(halt) {
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
    while (!open_.empty() && born_ < most_ && !halt_.now()) {
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
  void load() {
    const int needs = static_cast<int>(problem_.needs.size());
    model_.setLogLevel(0);
    model_.resize(0, 0);
    for (const Need& need : problem_.needs)
      model_.addRow(0, nullptr, nullptr, static_cast<double>(need.amount), COIN_DBL_MAX);
    for (const Stock& stock : problem_.stock)
      model_.addRow(0, nullptr, nullptr, stock.least, stock.copies);
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
    PivotHalt pivotHalt(halt_);
    model_.passInEventHandler(&pivotHalt);
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
    for (const Node* node = &leaf; node->parent; node = node->parent.get()) {
      const Branch& branch = node->branch;
      const auto narrow = [&](std::int64_t& low, std::int64_t& high) {
        if (branch.upper)
          low = std::max(low, branch.times + 1);
        else
          high = std::min(high, branch.times);
      };
      if (branch.recipe != Branch::none) {
        narrow(recipes_[branch.recipe].low, recipes_[branch.recipe].high);
        continue;
      }
      if (branch.column != Branch::none) {
        narrow(low_[branch.column], high_[branch.column]);
        continue;
      }
      for (const std::size_t c : byStock_[index(branch.stock)]) {
        const bool isUpper =
            branch.need < 0 || columns_[c]->units[index(branch.need)] > branch.most;
        if (isUpper != branch.upper) high_[c] = 0;
      }
      if (branch.upper) least_[index(branch.stock)] = std::max(1, least_[index(branch.stock)]);
    }
  }

  /// Lagrangian bound of the node at hand at CLP's multipliers; also finds what columns may still
  /// be part of a cheaper plan.
  Worth bound() {
    std::vector<Worth> unit;  // in 2^-fraction
    Wide sum = 0;
    for (std::size_t n = 0; n < problem_.needs.size(); ++n) {
      const Need& need = problem_.needs[n];
      const double dual = model_.getRowPrice()[n];
      const double most = static_cast<double>(need.shortage);
      const double clipped = std::isfinite(dual) ? std::clamp(dual, 0.0, most) : 0.0;
      const auto scaled = static_cast<std::int64_t>(std::floor(std::ldexp(clipped, fraction)));
      unit.push_back(
          static_cast<std::int64_t>(std::min(Wide{scaled}, Wide{need.shortage} << fraction)));
      sum += Wide{need.amount} * unit.back();
    }
    for (std::size_t r = 0; r < recipes_.size(); ++r) {
      const Range& times = recipes_[r];
      if (times.low > times.high) return std::numeric_limits<Worth>::max();
      const Wide reduced = reducedCost(problem_.recipes[r], unit, fraction);
      sum += reduced * (reduced > 0 ? times.low : times.high);
    }
    struct Room {
      Wide reduced;
      std::int64_t copies;
    };
    std::vector<Room> rooms;
    for (std::size_t s = 0; s < byStock_.size(); ++s) {
      rooms.clear();
      std::int64_t left = problem_.stock[s].copies, must = least_[s];
      for (const std::size_t c : byStock_[s]) {
        if (high_[c] == 0) continue;
        Wide reduced = Wide{columns_[c]->cost} << fraction;
        for (std::size_t n = 0; n < unit.size(); ++n)
          reduced -= Wide{unit[n]} * columns_[c]->units[n];
        sum += reduced * low_[c];
        left -= low_[c];
        must -= low_[c];
        if (high_[c] > low_[c]) rooms.push_back({reduced, high_[c] - low_[c]});
      }
      if (left < 0) return std::numeric_limits<Worth>::max();
      std::sort(rooms.begin(), rooms.end(),
                [](const Room& a, const Room& b) { return a.reduced < b.reduced; });
      for (const Room& room : rooms) {
        const std::int64_t forced = std::clamp<std::int64_t>(must, 0, room.copies);
        const std::int64_t taken = room.reduced < 0 ? std::min(left, room.copies) : forced;
        if (taken <= 0) break;
        sum += room.reduced * taken;
        left -= taken;
        must -= taken;
      }
      if (must > 0) return std::numeric_limits<Worth>::max();  // nothing is left to open it with
    }
    work_ += columns_.size() * unit.size() / 16 + 100;
    const Wide step = Wide{1} << fraction;
    const Wide whole = sum >= 0 ? (sum + step - 1) / step : -((-sum) / step);
    return static_cast<Worth>(whole);
  }

  /// Solves a node; gives its cheaper child, the other one waits. Null: nothing is left here.
  NodeAt visit(const NodeAt& node) {
    if (node->bound >= cheapest_ || halt_.now() || born_ >= most_) {
      if (node->bound < cheapest_) open_.push(node);
      return nullptr;
    }
    ++visited_;
    restrictTo(*node);
    for (std::size_t c = 0; c < columns_.size(); ++c)
      model_.setColumnBounds(static_cast<int>(c), static_cast<double>(low_[c]),
                             static_cast<double>(high_[c]));
    for (std::size_t r = 0; r < recipes_.size(); ++r)
      model_.setColumnBounds(static_cast<int>(columns_.size() + problem_.needs.size() + r),
                             static_cast<double>(recipes_[r].low),
                             static_cast<double>(recipes_[r].high));
    for (std::size_t s = 0; s < least_.size(); ++s)
      model_.setRowLower(static_cast<int>(problem_.needs.size() + s), least_[s]);
    model_.dual();
    work_ += 100 * static_cast<std::uint64_t>(std::max(0, model_.numberIterations())) + 1000;
    const Worth own = std::max(node->bound, bound());
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
  }

  NodeAt split(const NodeAt& node, const std::vector<double>& x) {
    Branch best;
    double bestScore = 0;
    const auto consider = [&](const Branch& branch, double share, double weight) {
      const double part = share - std::floor(share);
      const double score = std::min(part, 1 - part) * weight;
      if (score <= std::max(bestScore, 1e-6)) return;
      bestScore = score;
      best = branch;
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
          Branch branch{stock, -1, 0, false, c, static_cast<std::int64_t>(std::floor(x[c] + 1e-7))};
          consider(branch, x[c], weight);
        }
        continue;
      }
      consider({stock, -1, 0, false}, opened, weight * 2);
      for (std::size_t n = 0; n < problem_.needs.size(); ++n)
        for (const std::size_t at : used) {
          const std::int64_t most = columns_[at]->units[n];
          double above = 0;
          for (const std::size_t c : used)
            if (columns_[c]->units[n] > most) above += x[c];
          consider({stock, static_cast<int>(n), most, false}, above, weight);
        }
    }
    const double* made = model_.getColSolution() + columns_.size() + problem_.needs.size();
    for (std::size_t r = 0; r < recipes_.size(); ++r) {
      Branch branch;
      branch.recipe = r;
      branch.times = static_cast<std::int64_t>(std::floor(made[r] + 1e-7));
      consider(branch, made[r], static_cast<double>(problem_.recipes[r].cost) + 1);
    }
    if (bestScore == 0) {
      // Whole already, but for what rounding left open: take the columns one by one.
      for (std::size_t c = 0; c < x.size() && best.column == Branch::none; ++c)
        if (x[c] > 0.5 && low_[c] < high_[c] && low_[c] < std::lround(x[c]))
          best = {columns_[c]->stock, -1, 0, false, c, low_[c]};
      if (best.column == Branch::none)
        for (std::size_t c = 0; c < x.size() && best.column == Branch::none; ++c)
          if (low_[c] < high_[c]) best = {columns_[c]->stock, -1, 0, false, c, low_[c]};
      if (best.column == Branch::none) return nullptr;  // one plan, and it was offered
    }
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
    open_.push(sides[0]);
    return sides[1];
  }

  const Problem& problem_;
  const std::vector<const Column*>& columns_;
  std::size_t most_;
  const Halt& halt_;
  std::vector<std::vector<std::size_t>> byStock_;
  ClpSimplex model_;
  struct Range {
    std::int64_t low, high;
  };
  std::vector<Range> recipes_;  ///< how often each may be made
  std::vector<std::int64_t> low_, high_;
  std::vector<int> least_;
  std::priority_queue<NodeAt, std::vector<NodeAt>, Worse> open_;
  Worth cheapest_ = 0;
  Closed closed_;
  std::size_t born_ = 0, visited_ = 0;
  std::uint64_t work_ = 0;
};

}  // namespace

Closed close(const Problem& problem, const std::vector<const Column*>& columns,
             const Closing& closing, const Halt& halt, Filling& spent) {
  return Tree(problem, columns, closing, halt).run(spent);
}

}  // namespace flitch::optimizer
