#include "optimizer/rounding.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "optimizer/index.h"

namespace flitch::optimizer {
namespace {

constexpr double shallow = 1e-3;  ///< of r: less than that broken is not worth a row

/// Needs weighed, in k-ths; those left out count nothing.
struct Weighing {
  std::int64_t k = 1;
  std::vector<std::pair<std::size_t, std::int64_t>> weights;

  [[nodiscard]] std::int64_t of(const std::vector<std::int64_t>& units) const {
    std::int64_t sum = 0;
    for (const auto& [need, weight] : weights) sum += weight * units[need];
    return sum;
  }
  [[nodiscard]] std::int64_t of(const Recipe& recipe) const {
    std::int64_t sum = 0;
    for (const auto& [need, weight] : weights) {
      if (index(recipe.makes) == need) sum += weight;
      for (const Supply& use : recipe.uses)
        if (index(use.need) == need) sum -= weight * use.amount;
    }
    return sum;
  }
  [[nodiscard]] std::int64_t wanted(const Problem& problem) const {
    std::int64_t sum = 0;
    for (const auto& [need, weight] : weights) sum += weight * problem.needs[need].amount;
    return sum;
  }
};

/// A row's right side in k-ths, rounded.
struct Rounder {
  std::int64_t k = 1, r = 0, least = 0;
  Rounder(std::int64_t k_, std::int64_t b) : k(k_), r(b % k_) {
    const std::int64_t ceiling = r == 0 ? b / k : b / k + 1;
    least = ceiling * r;
  }
  [[nodiscard]] std::int64_t factor(std::int64_t a) const {
    const std::int64_t rest = (a % k + k) % k;
    return (a - rest) / k * r + std::min(rest, r);
  }
};

std::vector<Weighing> weighings(const Problem& problem, bool ofOneOnly) {
  constexpr std::int64_t ofOne = 12, ofTwo = 4;
  std::vector<Weighing> all;
  const std::size_t needs = problem.needs.size();
  const auto wanted = [&](std::size_t n) { return problem.needs[n].amount > 0; };
  for (std::size_t n = 0; n < needs; ++n) {
    if (!wanted(n)) continue;
    for (std::int64_t k = 2; k <= ofOne; ++k)
      for (std::int64_t a = 1; a < k; ++a)
        if (std::gcd(a, k) == 1) all.push_back({k, {{n, a}}});
    if (ofOneOnly) continue;
    for (std::size_t m = n + 1; m < needs; ++m) {
      if (!wanted(m)) continue;
      for (std::int64_t k = 2; k <= ofTwo; ++k)
        for (std::int64_t a = 1; a < k; ++a)
          for (std::int64_t b = 1; b < k; ++b) all.push_back({k, {{n, a}, {m, b}}});
      for (std::size_t l = m + 1; l < needs; ++l)
        if (wanted(l)) all.push_back({2, {{n, 1}, {m, 1}, {l, 1}}});
    }
  }
  return all;
}

Rounding roundingOf(const Problem& problem, const std::vector<const Column*>& columns,
                    const Weighing& by) {
  const Rounder rounder(by.k, by.wanted(problem));
  Rounding made;
  made.least = rounder.least;
  made.needs.assign(problem.needs.size(), 0);
  for (const auto& [need, weight] : by.weights) made.needs[need] = rounder.factor(weight);
  for (const Column* column : columns) made.columns.push_back(rounder.factor(by.of(column->units)));
  for (const Recipe& recipe : problem.recipes)
    made.recipes.push_back(rounder.factor(by.of(recipe)));
  return made;
}

/// Those that the shares break, the deepest first.
std::vector<Weighing> deepest(std::vector<Weighing> all, const Problem& problem,
                              const std::vector<const Column*>& columns, const Shares& shares,
                              std::size_t most, std::uint64_t& work) {
  std::vector<std::size_t> used;
  for (std::size_t c = 0; c < columns.size(); ++c)
    if (shares.columns[c] > 1e-7) used.push_back(c);
  struct Broken {
    double depth;
    Weighing by;
  };
  std::vector<Broken> broken;
  for (Weighing& by : all) {
    const Rounder rounder(by.k, by.wanted(problem));
    work += used.size() / 8 + 1;
    if (rounder.r == 0) continue;
    auto left = static_cast<double>(rounder.least);
    double norm = 1;
    const auto take = [&](std::int64_t a, double share) {
      const auto factor = static_cast<double>(rounder.factor(a));
      left -= factor * share;
      norm += factor * factor;
    };
    for (const auto& [need, weight] : by.weights) take(weight, shares.missing[need]);
    for (const std::size_t c : used) take(by.of(columns[c]->units), shares.columns[c]);
    for (std::size_t q = 0; q < problem.recipes.size(); ++q)
      if (shares.made[q] > 1e-7) take(by.of(problem.recipes[q]), shares.made[q]);
    if (left > shallow * static_cast<double>(rounder.r))
      broken.push_back({left / std::sqrt(norm), std::move(by)});
  }
  std::stable_sort(broken.begin(), broken.end(),
                   [](const Broken& a, const Broken& b) { return a.depth > b.depth; });
  std::vector<Weighing> rows;
  for (std::size_t b = 0; b < std::min(most, broken.size()); ++b)
    rows.push_back(std::move(broken[b].by));
  return rows;
}

}  // namespace

std::vector<Rounding> brokenRoundings(const Problem& problem,
                                      const std::vector<const Column*>& columns,
                                      const Shares& shares, std::size_t most, std::uint64_t& work) {
  std::vector<Rounding> rows;
  for (const Weighing& by :
       deepest(weighings(problem, false), problem, columns, shares, most, work))
    rows.push_back(roundingOf(problem, columns, by));
  return rows;
}

RoundedNeed::RoundedNeed(std::size_t need_, std::int64_t k_, std::int64_t weight_,
                         std::int64_t wanted)
    : need(need_), k(k_), weight(weight_) {
  const Rounder rounder(k, weight * wanted);
  r = rounder.r;
  least = rounder.least;
}

std::int64_t RoundedNeed::factor(std::int64_t units) const {
  Rounder rounder(k, 0);
  rounder.r = r;
  return rounder.factor(weight * units);
}

std::vector<RoundedNeed> brokenNeeds(const Problem& problem,
                                     const std::vector<const Column*>& columns,
                                     const Shares& shares, std::size_t most, std::uint64_t& work) {
  std::vector<RoundedNeed> rows;
  for (const Weighing& by :
       deepest(weighings(problem, true), problem, columns, shares, most, work)) {
    const auto& [need, weight] = by.weights.front();
    rows.emplace_back(need, by.k, weight, problem.needs[need].amount);
  }
  return rows;
}

}  // namespace flitch::optimizer
