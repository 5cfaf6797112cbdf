#pragma once
#include <array>
#include <map>
#include <set>

#include "inventory/records/board.h"
#include "inventory/records/saw_steps.h"
#include "inventory/records/shop.h"

namespace flitch::test {

/// The sides of two pieces lie no more than `off` apart.
[[nodiscard]] bool near(const Rect& a, const Rect& b, Length off);

/// A person at the saw: sticks on the bench by the number of the cut that freed them, cut by the
/// measures of the listed steps alone.
class Bench {
 public:
  Bench(const Board& board, const ShopProfile& shop);

  /// Fails the test where a step cannot be made.
  void make(const SawStep& step);
  /// A stick lies there, each of its sides no more than `off` away.
  [[nodiscard]] bool has(const Rect& r, Length off = {}) const;
  /// The stick a cut has freed, zero the board itself, as it is now.
  [[nodiscard]] const Rect& stick(int number) const { return sticks_.at(number); }

 private:
  void takeEdge(Rect& stick, Length measure);

  const ShopProfile& shop_;
  std::array<Outline, 2> faces_;
  std::map<int, Rect> sticks_;
  std::set<int> edged_;
  Length edgeForAll_;
  bool crosscutBoard_ = false;
};

}  // namespace flitch::test
