#include "tests/bench/comparison.h"

#include <algorithm>
#include <cmath>
#include <iomanip>
#include <sstream>

namespace flitch::bench {
namespace {

using optimizer::FirstCut;
using optimizer::Worth;

/// Where both first cuts have a proven optimum, the greater is that of either. (Rows of one first
/// cut are about values, but for some of boards, which have one first cut only.)
void addEither(std::vector<Known>& known) {
  std::vector<Known> either;
  for (const Known& x : known) {
    if (x.variant.first != FirstCut::x || x.kind != "optimal") continue;
    Known both = x;
    both.variant.first = FirstCut::y;
    for (const Known& y : known)
      if (y.instance == x.instance && y.variant == both.variant && y.kind == "optimal") {
        both.variant.first = FirstCut::any;
        both.value = std::max(x.value, y.value);
        either.push_back(both);
      }
  }
  known.insert(known.end(), either.begin(), either.end());
}

double share(Worth a, Worth b) {
  return std::abs(static_cast<double>(a - b)) / std::max(1.0, std::abs(static_cast<double>(b)));
}

std::string list(const std::string& head, const std::vector<std::string>& lines) {
  std::string all = head + ": " + std::to_string(lines.size()) + "\n";
  for (const std::string& line : lines) all += "    " + line + "\n";
  return all;
}

}  // namespace

void Comparison::Gaps::add(double gap, const std::string& name) {
  ++count;
  sum += gap;
  if (gap <= worst) return;
  worst = gap;
  where = name;
}

std::string Comparison::Gaps::text() const {
  std::ostringstream out;
  out << std::fixed << std::setprecision(3);
  out << count << " instances, mean " << (count > 0 ? 100 * sum / count : 0) << " %, worst "
      << 100 * worst << " %";
  if (!where.empty()) out << " (" << where << ")";
  return out.str();
}

Comparison::Comparison(std::vector<Known> known, const Variant& variant)
    : known_(std::move(known)), variant_(variant) {
  if (variant.first == FirstCut::any) addEither(known_);
}

void Comparison::add(const Instance& instance, const Outcome& outcome) {
  const Goal goal = instance.goal();
  ++instances_;
  if (outcome.value == outcome.bound) ++proven_;
  if (goal != Goal::fits) open_.add(share(outcome.value, outcome.bound), instance.name);
  Worth lower = -1, upper = -1;
  for (const Known& row : known_) {
    if (row.instance != instance.name) continue;
    compare(row, goal, outcome);
    if (row.variant.rotation != variant_.rotation) continue;
    if (row.variant.stages != Variant::unlimited) continue;
    if (row.kind == "optimal" || row.kind == "lower_bound") lower = std::max(lower, row.value);
    if (row.kind == "optimal" || row.kind == "best_known")
      upper = upper < 0 ? row.value : std::min(upper, row.value);
  }
  if (goal != Goal::fewestBoards || lower < 0) return;
  ++boards_.instances;
  boards_.value += outcome.value;
  boards_.bound += outcome.bound;
  boards_.knownLower += lower;
  boards_.knownUpper += upper < 0 ? outcome.value : upper;
}

bool Comparison::hasRow(const std::string& instance) const {
  return std::any_of(known_.begin(), known_.end(),
                     [&](const Known& row) { return row.instance == instance && isOwn(row); });
}

void Comparison::compare(const Known& row, Goal goal, const Outcome& outcome) {
  const bool same = isOwn(row);
  const bool wider = same || holds(row.variant, variant_);
  const bool narrower = same || holds(variant_, row.variant);
  const bool most = goal != Goal::fewestBoards;
  // Proven from the far side: no plan of the row's variant is better than its value.
  const bool isLimit = row.kind == "optimal" || row.kind == (most ? "upper_bound" : "lower_bound");
  const bool isPlan = row.kind == "optimal" || row.kind == "best_known" ||
                      row.kind == (most ? "lower_bound" : "upper_bound");
  const auto better = [&](Worth a, Worth b) { return most ? a > b : a < b; };
  const std::string told = row.instance + ": " + std::to_string(outcome.value) + " to " +
                           std::to_string(outcome.bound) + ", known " + row.kind + " " +
                           std::to_string(row.value);
  if (wider && isLimit && better(outcome.value, row.value)) beaten_.push_back(told);
  if (narrower && isPlan && better(row.value, outcome.bound)) contradicted_.push_back(told);
  if (!isPlan) return;
  if (same) {
    ++rows_;
    if (row.kind != "optimal" && better(outcome.value, row.value)) better_.push_back(told);
    if (row.kind == "optimal") {
      if (outcome.value == row.value) ++met_;
      if (better(row.value, outcome.value)) misses_.push_back(told);
    }
    toKnown_.add(share(outcome.value, row.value), row.instance);
  } else if (wider) {
    ++wider_;
    if (row.variant.rotation == variant_.rotation)
      toWider_.add(share(outcome.value, row.value), row.instance);
  } else if (narrower) {
    ++narrower_;
  }
}

std::string Comparison::text() const {
  std::ostringstream out;
  out << instances_ << " instances, " << proven_ << " proven; known rows: " << rows_
      << " of this variant, " << wider_ << " of wider and " << narrower_ << " of narrower ones\n"
      << "  optimal rows met: " << met_ << "\n"
      << list("  optimal rows missed", misses_) << list("  plans that beat a limit (bug)", beaten_)
      << list("  bounds that contradict a plan (bug)", contradicted_);
  if (!better_.empty()) out << list("  better than best known", better_);
  out << "  gap to the row's value: " << toKnown_.text() << "\n"
      << "  gap to a wider variant's value: " << toWider_.text() << "\n"
      << "  gap between plan and own bound: " << open_.text() << "\n";
  if (boards_.instances > 0)
    out << "  boards over " << boards_.instances << " instances: " << boards_.value
        << ", own bounds " << boards_.bound << ", known lower bounds " << boards_.knownLower
        << ", known plans " << boards_.knownUpper << "\n";
  return out.str();
}

}  // namespace flitch::bench
