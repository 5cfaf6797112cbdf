#include <algorithm>
#include <catch2/catch.hpp>

#include "inventory/planning/frame.h"
#include "tests/records/bench.h"

using namespace flitch;
using namespace flitch::planning;
using bench::in;
using bench::listed;
using bench::part;
using bench::plank;
using optimizer::Cell;
using Cells = optimizer::Rect;

namespace {

PlanRequest simple() {
  PlanRequest request;
  request.shop = startingProfile();
  request.job.parts = {part(1, 4, in(20), in(2))};
  request.boards = {plank(7, in(50), in(6), in(6))};
  return request;
}

/// Crosscut first: a section of 21 in with two blanks side by side, an offcut behind it.
optimizer::Solution sectioned() {
  optimizer::Solution s;
  optimizer::StockCut cut;
  cut.pattern.first = optimizer::FirstCut::x;
  cut.pattern.cells = {
      {1, Cells{0, 0, 168, 47}, Cell::divided, 0},
      {2, Cells{0, 0, 168, 18}, Cell::divided, 0},
      {3, Cells{0, 0, 168, 18}, 0, 0},
      {2, Cells{0, 22, 168, 18}, Cell::divided, 0},
      {3, Cells{0, 22, 168, 18}, 0, 3},
      {1, Cells{169, 0, 215, 47}, Cell::offcut, 0},
  };
  s.cuts = {cut};
  return s;
}

}  // namespace

TEST_CASE("a crosscut-first pattern comes back as a tree the checker takes") {
  const PlanRequest request = simple();
  const Framing f = frame(request);
  CutPlan plan = unframe(sectioned(), f, request);
  const std::vector<Fault> faults = check(plan, request);
  INFO(listed(faults));
  CHECK(faults.empty());
  REQUIRE(plan.cuttings.size() == 1);
  std::vector<Piece> blanks;
  Length kerfs;
  for (const Piece& p : plan.cuttings[0].pieces) {
    if (p.kind == PieceKind::blank) blanks.push_back(p);
    if (p.kind == PieceKind::kerf) kerfs += std::min(p.at.dx, p.at.dy);
  }
  REQUIRE(blanks.size() == 2);
  CHECK(blanks[0].at == Rect{in(1), in(0, 8), in(21), in(2, 16)});
  CHECK(blanks[0].faceUp == Face::a);
  CHECK(blanks[0].frontEdge == Edge::near);
  CHECK(blanks[1].at == Rect{in(1), in(2, 56), in(21), in(2, 16)});
  CHECK(blanks[1].faceUp == Face::b);
  CHECK(blanks[1].frontEdge == Edge::far);
  CHECK(blanks[0].copy == 1);
  CHECK(blanks[1].copy == 2);
  // At the reference edge, two in the gap between the blanks, one behind, one crosscut.
  CHECK(kerfs == 5 * in(0, 8));
  REQUIRE(plan.shorts.size() == 1);
  CHECK(plan.shorts[0].copies == 2);
  CHECK(plan.shortageCost == shortagePrice(request.job.parts[0], request) * 2);
  // Cost by account and by the optimizer's own sum: board, opening, six cells, offcut.
  CHECK((plan.woodCost + plan.cutCost).raw() ==
        f.problem.stock[0].cost + 6 * 10'000 - f.problem.stock[0].offcuts.worth(215, 47));
}

TEST_CASE("a rip-first pattern comes back as a tree the checker takes") {
  PlanRequest request = simple();
  request.made[1] = {2};
  const Framing f = frame(request);
  optimizer::Solution s;
  optimizer::StockCut cut;
  cut.pattern.first = optimizer::FirstCut::y;
  cut.pattern.cells = {
      {1, Cells{0, 3, 384, 18}, Cell::divided, 0},
      {2, Cells{40, 3, 168, 18}, Cell::divided, 0},
      {3, Cells{40, 3, 168, 18}, 0, 0},
      {2, Cells{209, 3, 168, 18}, Cell::divided, 0},
      {3, Cells{209, 3, 168, 18}, 0, 0},
      {1, Cells{0, 22, 384, 25}, Cell::offcut, 0},
  };
  s.cuts = {cut};
  const CutPlan plan = unframe(s, f, request);
  const std::vector<Fault> faults = check(plan, request);
  INFO(listed(faults));
  CHECK(faults.empty());
  std::vector<int> copies;
  for (const Piece& p : plan.cuttings[0].pieces) {
    if (p.kind == PieceKind::blank) copies.push_back(p.copy);
  }
  // Copy 2 was sawn before copy 1: the numbers left are 1 and 3.
  CHECK(copies == std::vector<int>{1, 3});
  CHECK((plan.woodCost + plan.cutCost).raw() ==
        f.problem.stock[0].cost + 6 * 10'000 - f.problem.stock[0].offcuts.worth(384, 25));
}

TEST_CASE("copies nobody wants are not cut") {
  PlanRequest request = simple();
  request.job.parts[0].copies = 1;
  const CutPlan plan = unframe(sectioned(), frame(request), request);
  const std::vector<Fault> faults = check(plan, request);
  INFO(listed(faults));
  CHECK(faults.empty());
  CHECK(plan.shorts.empty());
}

TEST_CASE("a bark-edged, crooked offcut with sawn ends comes back whole") {
  PlanRequest request = simple();
  Board& board = request.boards[0];
  board.outline[0] = Outline({{in(0), -in(0, 20), in(6, 3)}, {in(50, 3), in(0, 10), in(6)}});
  board.outline[1] = Outline({{in(0), -in(0, 40), in(7)}, {in(50, 3), in(0, 10), in(6)}});
  board.warp.crook = in(0, 11);
  board.sawnEnd = {true, true};
  board.wood = volumeOf(board);
  const Framing f = frame(request);
  const Cells& o = f.origin[0];
  REQUIRE(o.x == 0);
  REQUIRE(o.dx == 400);
  optimizer::Tick low = 0;
  for (int x = 10; x < 178; ++x) {
    low = std::max(low, f.problem.stock[0].profile.low[static_cast<std::size_t>(x)]);
  }
  optimizer::Solution s;
  optimizer::StockCut cut;
  cut.pattern.first = optimizer::FirstCut::x;
  cut.pattern.cells = {{1, Cells{10, 0, 168, o.dy}, Cell::divided, 0},
                       {2, Cells{10, low, 168, 18}, Cell::divided, 0},
                       {3, Cells{10, low, 168, 18}, 0, 0}};
  s.cuts = {cut};
  const CutPlan plan = unframe(s, f, request);
  const std::vector<Fault> faults = check(plan, request);
  INFO(listed(faults));
  CHECK(faults.empty());
}
