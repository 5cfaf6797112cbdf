#include "optimizer/bar_master.h"

#include <ClpSimplex.hpp>
#include <algorithm>
#include <limits>

namespace flitch::optimizer {

std::int64_t timesWithin(const BarPattern& pattern, std::span<const std::int64_t> wanted) {
  std::int64_t times = std::numeric_limits<std::int64_t>::max();
  for (const auto& [kind, count] : pattern.pieces)
    times = std::min(times, wanted[static_cast<std::size_t>(kind)] / count);
  return times;
}

class BarMaster::Programme {
 public:
  ClpSimplex model;
};

BarMaster::BarMaster(std::size_t kinds, std::span<const Worth> costs)
    : kinds_(kinds),
      costs_(costs.begin(), costs.end()),
      wanted_(kinds, 0),
      programme_(std::make_unique<Programme>()) {
  ClpSimplex& model = programme_->model;
  model.setLogLevel(0);
  model.resize(0, 0);
  for (std::size_t k = 0; k < kinds; ++k) model.addRow(0, nullptr, nullptr, 0, COIN_DBL_MAX);
}
BarMaster::~BarMaster() = default;

bool BarMaster::add(const BarPattern& pattern) {
  if (!known_.insert(pattern).second) return false;
  std::vector<int> rows;
  std::vector<double> counts;
  for (const auto& [kind, count] : pattern.pieces) {
    rows.push_back(kind);
    counts.push_back(static_cast<double>(count));
  }
  const bool open = timesWithin(pattern, wanted_) > 0;
  programme_->model.addColumn(static_cast<int>(rows.size()), rows.data(), counts.data(), 0,
                              open ? COIN_DBL_MAX : 0,
                              static_cast<double>(costs_[static_cast<std::size_t>(pattern.bar)]));
  patterns_.push_back(pattern);
  return true;
}

void BarMaster::want(std::span<const std::int64_t> wanted) {
  wanted_.assign(wanted.begin(), wanted.end());
  ClpSimplex& model = programme_->model;
  for (std::size_t k = 0; k < kinds_; ++k)
    model.setRowLower(static_cast<int>(k), static_cast<double>(wanted[k]));
  for (std::size_t p = 0; p < patterns_.size(); ++p)
    model.setColumnUpper(static_cast<int>(p),
                         timesWithin(patterns_[p], wanted) > 0 ? COIN_DBL_MAX : 0);
  rightSidesChanged_ = true;
}

bool BarMaster::solve() {
  ClpSimplex& model = programme_->model;
  // The dual goes on from the last basis when demands change, the primal when patterns come in.
  if (rightSidesChanged_) {
    model.dual();
  } else {
    model.primal(1);
  }
  rightSidesChanged_ = false;
  constexpr std::uint64_t start = 10'000;  // what a solve takes before its first pivot
  work_ += start + static_cast<std::uint64_t>(model.numberIterations()) * kinds_;
  return model.status() == 0;
}

double BarMaster::value() const { return programme_->model.objectiveValue(); }

std::span<const double> BarMaster::worths() const {
  return {programme_->model.getRowPrice(), kinds_};
}

std::span<const double> BarMaster::shares() const {
  return {programme_->model.getColSolution(), patterns_.size()};
}

}  // namespace flitch::optimizer
