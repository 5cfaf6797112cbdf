#pragma once
#include <QRectF>
#include <string>
#include <vector>

#include "inventory/records/board.h"
#include "inventory/records/cut_plan.h"
#include "inventory/records/shop.h"
#include "labels/page.h"

namespace flitch::pages {

/// How a board is drawn: on paper and in the window alike.
struct BoardLook {
  double scale = 0.08;   ///< page mm per mm of board; text sizes do not scale
  bool atSaw = false;    ///< turned half round: fresh end left, tag end right; else as on the rack
  bool letters = true;   ///< letters beside marks
  bool margins = false;  ///< dotted clear margin round marks
  bool cuts = true;      ///< cuts with their numbers
  Length margin;
  int chosenLine = 0;     ///< part line framed in blue, 0: none
  int chosenDefect = -1;  ///< index framed, -1: none
};

/// One face to scale with its marks; `at` is where the board's bounding box goes (top left, mm).
/// Face B is drawn as rolled over the near edge: y from the top.
[[nodiscard]] std::vector<Ink> drawFace(const Board& board, Face face, QPointF at,
                                        const BoardLook& look);
/// The strip under a face that shows bow, crook, cup, twist with their depth; empty when flat.
[[nodiscard]] std::vector<Ink> drawWarp(const Board& board, QPointF at, const BoardLook& look,
                                        Unit unit);
/// Cuts, blanks, offcuts and thrown wood of a cutting over face A; `job` names the parts.
[[nodiscard]] std::vector<Ink> drawCutting(const Cutting& cutting, const Board& board,
                                           const Job& job, QPointF at, const BoardLook& look,
                                           Unit unit);

/// One cut as a person makes it.
struct SawStep {
  enum class Kind { squareEnd, crosscut, reference, rip, trimStrip, remainder };
  int number = 0;  ///< 0 for steps without number (reference edge, remainder)
  Kind kind = Kind::crosscut;
  Length measure;     ///< from the stop, from edge V or from a cut
  Length chalk;       ///< running mark from the fresh end (crosscuts of the board)
  std::string from;   ///< "off end", "from stop", "from edge V", "from cut 4"
  std::string falls;  ///< "C1 long front", "waste", "strip D1 to D3", "keep T0188-G"
  Rect at;            ///< the kerf, board coordinates
  int piece = -1;     ///< of the cutting that falls
};
/// The cuts of a cutting in the order of the sheet: square the end away from the tag, crosscuts (or
/// rips) toward the tag, reference edge before any rip, then rips, then strips across.
[[nodiscard]] std::vector<SawStep> sawSteps(const Cutting& cutting, const Board& board,
                                            const Job& job, const ShopProfile& shop);

}  // namespace flitch::pages
