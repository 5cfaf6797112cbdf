#pragma once
#include <QImage>
#include <QRectF>
#include <array>
#include <string>
#include <vector>

#include "inventory/records/board.h"
#include "inventory/records/cut_plan.h"
#include "inventory/records/saw_steps.h"
#include "inventory/records/shop.h"
#include "labels/page.h"

namespace flitch::pages {

/// How a board is drawn: on paper and in the window alike.
struct BoardLook {
  double scale = 0.08;  ///< page mm per mm of board; text and line sizes do not scale
  double pixel = 0.3;   ///< mm of the unit lines and gaps are given in; a window's pixel at 96 dpi
                        ///< is 0.2646
  double namePoints = 14;   ///< hand marks on blanks
  double smallPoints = 10;  ///< names, sizes, letters of marks
  double ring = 2.7;        ///< radius of a cut's ring
  bool atSaw = false;    ///< turned half round: fresh end left, tag end right; else as on the rack
  bool letters = true;   ///< letters beside marks
  bool tag = true;       ///< the little tag where it hangs, on face A
  bool margins = false;  ///< dotted clear margin round marks
  bool cuts = true;      ///< cuts with their numbers
  int made = 0;          ///< cuts up to this number are made: grey, ticked
  int atHand = 0;        ///< the cut whose ring is filled, 0: none
  Length margin;
  int chosenLine = 0;     ///< part line framed in blue, 0: none
  int chosenDefect = -1;  ///< index framed, -1: none
  /// Photos of face A and B, to scale, drawn on the wood under its marks; null: grain.
  std::array<QImage, 2> photos;
};

/// Where a place on the board comes to lie on the page: the transform of every drawing here, for
/// cross-hairs, tapes and hits. Board places in mm, x from the tag end, y from the near edge.
class BoardView {
 public:
  /// `at`: top left of the board's bounding box.
  BoardView(const Board& board, Face face, QPointF at, const BoardLook& look);
  [[nodiscard]] QPointF page(double x, double y) const;
  [[nodiscard]] QPointF board(QPointF onPage) const;
  [[nodiscard]] QRectF page(const Rect& r) const;
  [[nodiscard]] QSizeF size() const;  ///< of the bounding box
  /// 1 when y grows up the page, -1 when it grows down.
  [[nodiscard]] double up() const { return up_; }

 private:
  QPointF at_;
  double scale_, length_, low_, high_;
  bool turned_;
  double up_;
};

/// One face to scale with its marks; `at` is where the board's bounding box goes (top left, mm).
/// Face B is drawn as rolled over the near edge: y from the top. Crook lies in the outline.
[[nodiscard]] std::vector<Ink> drawFace(const Board& board, Face face, QPointF at,
                                        const BoardLook& look);
/// The strip under a face that shows bow, crook, cup, twist with their depth; empty when flat.
[[nodiscard]] std::vector<Ink> drawWarp(const Board& board, QPointF at, const BoardLook& look,
                                        Unit unit);
/// 1 ft or 25 cm in four fields with its name at the right; 1.2 mm high, top left at `at`.
[[nodiscard]] std::vector<Ink> drawScaleBar(QPointF at, const BoardLook& look, Unit unit);
/// Cuts, blanks, offcuts and thrown wood of a cutting over face A; `job` names the parts, cuts are
/// numbered as sawSteps() numbers them for `shop`, the profile the plan was made with. Rings
/// reach 10 pixels and two rings' radii above the board, crosscuts 10 pixels below it.
[[nodiscard]] std::vector<Ink> drawCutting(const Cutting& cutting, const Board& board,
                                           const Job& job, const ShopProfile& shop, QPointF at,
                                           const BoardLook& look, Unit unit);

}  // namespace flitch::pages
