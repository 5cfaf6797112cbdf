#pragma once
#include <functional>

#include "inventory/exchange/columns.h"
#include "inventory/records/refusal.h"
#include "tests/desk/shop.h"

namespace flitch::desk::sample {

/// One board's life worked by hand: 96 x 8 in, 1 in thick, so cubic inches are square inches.
/// Ends trimmed by 1 in; from the tag end a section of 61 in, kerf 1/8, the rest kept. In the
/// section the reference edge 1/8 (a cut of one kerf), the blank 61 x 6 1/4, kerf 1/8, 1 1/2 thrown
/// away.
inline Cutting cuttingOf(BoardId board) {
  using K = PieceKind;
  Cutting cutting;
  cutting.board = board;
  const Length section = in(62);
  const Length kept = in(62, 8);
  cutting.pieces = {piece(0, K::cut, box(in(0), in(0), in(96), in(8))),
                    piece(1, K::endTrim, box(in(0), in(0), in(1), in(8))),
                    piece(1, K::cut, box(in(1), in(0), in(95), in(8))),
                    piece(2, K::cut, box(in(1), in(0), section, in(8))),
                    piece(3, K::kerf, box(in(1), in(0), section, in(0, 8))),
                    piece(3, K::blank, box(in(1), in(0, 8), section, in(6, 24)), 1, 1),
                    piece(3, K::kerf, box(in(1), in(6, 24), section, in(6, 32))),
                    piece(3, K::unusable, box(in(1), in(6, 32), section, in(8))),
                    piece(2, K::kerf, box(section, in(0), kept, in(8))),
                    piece(2, K::offcut, box(kept, in(0), in(95), in(8))),
                    piece(1, K::endTrim, box(in(95), in(0), in(96), in(8)))};
  return cutting;
}

/// A shop with that board, a job of one part 60 x 6 x 7/8 and the plan kept.
struct Life {
  Shop shop;
  Board board;
  JobId job;
  planning::PlanResult plan;
  Kept kept{};

  explicit Life(bool reserve = false) {
    board = shop.receive({plank(in(96), in(8))}).boards.front();
    // A knot of 2 x 1 in through what will be thrown away.
    exchange::MarkLine knot;
    knot.tag = text(*board.tag);
    knot.kind = "sound knot";
    knot.xFrom = in(10);
    knot.xTo = in(12);
    knot.yFrom = in(7);
    mark(shop.book, {knot}, "marks.csv", shop.hand);
    Job asked;
    asked.name = "Shelf";
    asked.parts = {part(1, 1, in(60), in(6))};
    job = addJob(shop.book, asked, shop.hand);
    plan = shop.planned(job, {cuttingOf(board.id)});
    kept = keep(shop.book, plan, reserve, shop.hand);
  }
  [[nodiscard]] Board now(BoardId id) const { return shop.now().board(id).value(); }
  [[nodiscard]] std::string code(const std::function<void()>& work) const {
    try {
      work();
    } catch (const Refusal& refusal) {
      return refusal.code();
    }
    return "";
  }
};

}  // namespace flitch::desk::sample
