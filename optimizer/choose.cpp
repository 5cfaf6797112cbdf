#include "optimizer/choose.h"

#include <CbcEventHandler.hpp>
#include <CbcHeuristic.hpp>
#include <CbcModel.hpp>
#include <ClpEventHandler.hpp>
#include <ClpSimplex.hpp>
#include <CoinError.hpp>
#include <OsiClpSolverInterface.hpp>
#include <algorithm>
#include <cmath>

namespace flitch::optimizer {
namespace {

std::size_t index(int value) { return static_cast<std::size_t>(value); }

class TreeHalt : public CbcEventHandler {
 public:
  explicit TreeHalt(const Halt& halt) : halt_(&halt) {}
  CbcAction event(CbcEvent) override { return halt_->now() ? stop : noAction; }
  [[nodiscard]] CbcEventHandler* clone() const override { return new TreeHalt(*this); }

 private:
  const Halt* halt_;
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

/// Rows: needs that miss something, stocks with a column. Columns: the columns, then shortages.
class Cover {
 public:
  Cover(const Draft& kept, const Problem& problem, const std::vector<const Column*>& columns)
      : needRow_(problem.needs.size(), -1), stockRow_(problem.stock.size(), -1) {
    Worth dearest = 1;
    for (const Column* column : columns) dearest = std::max(dearest, std::abs(column->cost));
    scale_ = 1000.0 / static_cast<double>(dearest);
    for (std::size_t n = 0; n < needRow_.size(); ++n)
      if (const std::int64_t missing = kept.missing(static_cast<int>(n)); missing > 0)
        needRow_[n] = addRow(static_cast<double>(missing), COIN_DBL_MAX);
    for (const Column* column : columns) {
      int& row = stockRow_[index(column->stock)];
      if (row < 0) row = addRow(-COIN_DBL_MAX, kept.copiesLeft(column->stock));
    }
    for (const Column* column : columns) {
      for (std::size_t n = 0; n < needRow_.size(); ++n) {
        const std::int64_t units = std::min(column->units[n], kept.missing(static_cast<int>(n)));
        if (needRow_[n] >= 0 && units > 0) entry(needRow_[n], static_cast<double>(units));
      }
      entry(stockRow_[index(column->stock)], 1);
      endColumn(static_cast<double>(column->cost), kept.copiesLeft(column->stock));
    }
    for (std::size_t n = 0; n < needRow_.size(); ++n)
      if (needRow_[n] >= 0) {
        entry(needRow_[n], 1);
        endColumn(static_cast<double>(problem.needs[n].shortage), COIN_DBL_MAX);
      }
  }

  void load(OsiClpSolverInterface& osi, std::size_t whole) const {
    const std::vector<double> zero(costs_.size(), 0);
    const CoinPackedMatrix matrix(true, static_cast<int>(low_.size()),
                                  static_cast<int>(costs_.size()),
                                  static_cast<CoinBigIndex>(rows_.size()), values_.data(),
                                  rows_.data(), starts_.data(), nullptr);
    osi.loadProblem(matrix, zero.data(), most_.data(), costs_.data(), low_.data(), high_.data());
    for (std::size_t c = 0; c < whole; ++c) osi.setInteger(static_cast<int>(c));
  }
  [[nodiscard]] double scale() const { return scale_; }

 private:
  int addRow(double low, double high) {
    low_.push_back(low);
    high_.push_back(high);
    return static_cast<int>(low_.size()) - 1;
  }
  void entry(int row, double value) {
    rows_.push_back(row);
    values_.push_back(value);
  }
  void endColumn(double cost, double most) {
    costs_.push_back(cost * scale_);
    most_.push_back(most);
    starts_.push_back(static_cast<CoinBigIndex>(rows_.size()));
  }

  double scale_ = 1;
  std::vector<int> needRow_, stockRow_;
  std::vector<double> low_, high_, values_, costs_, most_;
  std::vector<int> rows_;
  std::vector<CoinBigIndex> starts_{0};
};

}  // namespace

std::optional<Draft> choose(const Draft& kept, const Problem& problem,
                            const std::vector<const Column*>& columns, const Choosing& choosing,
                            const Halt& halt, Filling& spent) {
  if (columns.empty() || halt.now()) return std::nullopt;
  Worth open = kept.cost();  // of what is kept alone
  for (std::size_t n = 0; n < problem.needs.size(); ++n)
    open -= kept.missing(static_cast<int>(n)) * problem.needs[n].shortage;
  const Cover cover(kept, problem, columns);
  std::optional<Draft> made;
  try {
    OsiClpSolverInterface osi;
    osi.messageHandler()->setLogLevel(0);
    cover.load(osi, columns.size());
    CbcModel model(osi);
    model.setLogLevel(0);
    model.messageHandler()->setLogLevel(0);
    model.solver()->messageHandler()->setLogLevel(0);
    TreeHalt treeHalt(halt);
    model.passInEventHandler(&treeHalt);
    PivotHalt pivotHalt(halt);
    if (auto* clp = dynamic_cast<OsiClpSolverInterface*>(model.solver()))
      clp->getModelPtr()->passInEventHandler(&pivotHalt);
    model.setRandomSeed(1);
    model.setMaximumNodes(choosing.nodes);
    model.setCutoff((static_cast<double>(choosing.below - open) - 0.5) * cover.scale());
    CbcRounding rounding(model);
    model.addHeuristic(&rounding);
    model.branchAndBound();
    const auto nodes = static_cast<std::uint64_t>(std::max(0, model.getNodeCount()));
    spent.nodes += nodes;
    spent.effort += 1000 + nodes * 1000 +
                    100 * static_cast<std::uint64_t>(std::max(0, model.getIterationCount()));
    const double* x = model.bestSolution();
    if (x == nullptr) return std::nullopt;
    made = kept;
    for (std::size_t c = 0; c < columns.size(); ++c) {
      const double share = std::isfinite(x[c]) ? std::clamp(x[c], 0.0, 1e6) : 0.0;
      for (long times = std::lround(share); times > 0; --times)
        if (made->copiesLeft(columns[c]->stock) > 0)
          made->add({columns[c]->stock, columns[c]->pattern});
    }
  } catch (const CoinError&) {
    return std::nullopt;
  }
  made->tidy();
  openForced(*made, problem);
  if (made->cost() >= choosing.below) return std::nullopt;
  return made;
}

}  // namespace flitch::optimizer
