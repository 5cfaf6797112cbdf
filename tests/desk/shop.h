#pragma once
#include <QTemporaryDir>
#include <string>
#include <vector>

#include "inventory/desk/jobs.h"
#include "inventory/desk/receive.h"
#include "inventory/desk/saw.h"
#include "tests/desk/hand_plans.h"

/// A shop with a book of its own for the tests of the desk.
namespace flitch::desk::sample {

inline Length in(std::int64_t whole, std::int64_t sixtyFourths = 0) {
  return Length::inches(whole) + Length::sixtyFourths(sixtyFourths);
}
inline Rect box(Length x0, Length y0, Length x1, Length y1) { return {x0, y0, x1 - x0, y1 - y0}; }

/// Cherry 4/4, 1 in thick as measured, both faces looked at, $6 a board foot.
[[nodiscard]] TallyLine plank(Length length, Length width);
[[nodiscard]] Part part(int line, int copies, Length length, Length width);

class Shop {
  QTemporaryDir folder_;  // before the book that lies in it

 public:
  Shop();
  Book book;
  Hand hand{"tester", "bench"};

  [[nodiscard]] store::Snapshot now() const { return book.read(); }
  Received receive(const std::vector<TallyLine>& lines);
  /// Text of check(): empty when the book is sound.
  [[nodiscard]] std::string faults() const;
  /// planOf() this book. Fails the test when the checker finds a fault in it.
  [[nodiscard]] planning::PlanResult planned(JobId job, const std::vector<Cutting>& cuttings) const;
};

}  // namespace flitch::desk::sample
