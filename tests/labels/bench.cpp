#include "tests/labels/bench.h"

#include <algorithm>
#include <catch2/catch.hpp>

namespace flitch::test {

using Kind = SawStep::Kind;

Bench::Bench(const Board& board, const ShopProfile& shop)
    : shop_(shop), faces_{lying(board, Face::a), lying(board, Face::b)} {
  sticks_[0] = boundsOf(board);
}

void Bench::make(const SawStep& step) {
  INFO("step " << step.number << " kind " << static_cast<int>(step.kind) << " " << step.from << " "
               << step.falls << " " << exactText(step.measure) << " on " << step.stick);
  Rect& stick = sticks_.at(step.stick);
  const bool off = step.from.rfind("off", 0) == 0;
  switch (step.kind) {
    case Kind::squareEnd:
    case Kind::crosscut:
    case Kind::trimStrip: {
      REQUIRE(step.measure > Length());
      REQUIRE(step.measure <= stick.dx);
      const Length end = stick.right() - step.measure;
      stick.dx = end - stick.x;
      if (off) break;
      sticks_[step.number] = {end, stick.y, step.measure, stick.dy};
      stick.dx = stick.dx - std::min(shop_.crosscutKerf, stick.dx);
      break;
    }
    case Kind::reference:
      if (step.section == 0)
        edgeForAll_ = step.measure;
      else
        takeEdge(stick, step.measure);
      if (step.section == 0 && step.stick == 0 && !crosscutBoard_) {
        takeEdge(stick, step.measure);
        edgeForAll_ = Length();  // what is cut from it later has its edge
      }
      break;
    case Kind::rip: {
      if (edgeForAll_ > Length() && crosscutBoard_ && !edged_.count(step.stick))
        takeEdge(stick, edgeForAll_);
      edged_.insert(step.stick);
      REQUIRE(step.measure > Length());
      REQUIRE(step.measure <= stick.dy);
      if (!off) {
        sticks_[step.number] = {stick.x, stick.y, stick.dx, step.measure};
        edged_.insert(step.number);
      }
      const Length lost = step.measure + (off ? Length() : shop_.ripKerf);
      const Length taken = std::min(lost, stick.dy);
      stick = {stick.x, stick.y + taken, stick.dx, stick.dy - taken};
      break;
    }
    case Kind::remainder: CHECK(step.measure == stick.dx); break;
  }
  if (step.kind == Kind::crosscut) crosscutBoard_ = true;
}

bool near(const Rect& a, const Rect& b, Length off) {
  const auto close = [off](Length m, Length n) { return m - n <= off && n - m <= off; };
  return close(a.x, b.x) && close(a.y, b.y) && close(a.right(), b.right()) &&
         close(a.top(), b.top());
}

bool Bench::has(const Rect& r, Length off) const {
  return std::any_of(sticks_.begin(), sticks_.end(),
                     [&](const auto& each) { return near(each.second, r, off); });
}

void Bench::takeEdge(Rect& stick, Length measure) {
  const Length rough = std::max(faces_[0].clearSpan(stick.x, stick.right()).near,
                                faces_[1].clearSpan(stick.x, stick.right()).near);
  const Length top = stick.top();
  stick.y = rough + measure;
  stick.dy = top - stick.y;
}

}  // namespace flitch::test
