#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <functional>

#include "inventory/records/choices.h"
#include "tests/records/bench.h"

using namespace flitch;
using bench::in;
using bench::inRect;
using bench::listed;
using bench::part;
using bench::plank;

namespace {

Piece node(int depth, PieceKind kind, Length x0, Length y0, Length x1, Length y1, int copy = 0) {
  Piece p;
  p.depth = depth;
  p.kind = kind;
  p.at = {x0, y0, x1 - x0, y1 - y0};
  p.line = copy > 0 ? 1 : 0;
  p.copy = copy;
  return p;
}

constexpr std::size_t body = 2, section = 3, firstBlank = 5, secondBlank = 7, waste = 9,
                      offcut = 11;

/// A good plan: one plank of two, two blanks of the first 21 in, an offcut behind them, one copy
/// short.
struct Good {
  PlanRequest request;
  CutPlan plan;

  Good() {
    using K = PieceKind;
    request.shop = startingProfile();
    request.job.parts = {part(1, 3, in(20), in(2)), part(2, 1, in(30), in(3))};
    request.job.parts[1].recipe = "steam bent";  // waits
    request.boards = {plank(1, in(50), in(6), in(6)), plank(2, in(50), in(6), in(6))};
    plan.tick = in(0, 8);
    plan.waiting = {2};
    plan.shorts = {{1, 1, false, "no more wood"}};
    Cutting cutting;
    cutting.board = {1};
    cutting.pieces = {
        node(0, K::cut, in(0), in(0), in(50), in(6)),
        node(1, K::endTrim, in(0), in(0), in(1), in(6)),
        node(1, K::cut, in(1), in(0), in(49), in(6)),
        node(2, K::cut, in(1), in(0), in(22), in(6)),
        node(3, K::kerf, in(1), in(0), in(22), in(0, 8)),
        node(3, K::blank, in(1), in(0, 8), in(22), in(2, 24), 1),
        node(3, K::kerf, in(1), in(2, 24), in(22), in(2, 32)),
        node(3, K::blank, in(1), in(2, 32), in(22), in(4, 48), 2),
        node(3, K::kerf, in(1), in(4, 48), in(22), in(4, 56)),
        node(3, K::unusable, in(1), in(4, 56), in(22), in(6)),
        node(2, K::kerf, in(22), in(0), in(22, 8), in(6)),
        node(2, K::offcut, in(22, 8), in(0), in(49), in(6)),
        node(1, K::endTrim, in(49), in(0), in(50), in(6)),
    };
    plan.cuttings = {cutting};
    bench::promise(plan, request);
  }
  /// The two blanks as staves of copy 1.
  void layOut(const std::array<Length, 2>& gives) {
    for (int stave = 0; stave < 2; ++stave) {
      Layup layup;
      layup.piece = 5 + 2 * stave;
      layup.copy = 1;
      layup.slot = stave + 1;
      layup.section = 1;
      layup.gives = gives[static_cast<std::size_t>(stave)];
      plan.cuttings[0].layups.push_back(layup);
    }
  }
  /// Part 1 as one panel of both blanks, each 2 1/4 in wide: 2 1/8 in once jointed, of which the
  /// last loses 1/2 in to the trim after gluing.
  void glue() {
    part1().recipe = "glued";
    part1().copies = 1;
    part1().width = in(3, 48);
    layOut({in(2, 8), in(1, 40)});
    plan.shorts.clear();
    bench::promise(plan, request);
  }
  /// The same panel, its second stave from the other board.
  void glueFromTwo() {
    glue();
    Cutting other = plan.cuttings[0];
    other.board = {2};
    other.pieces[5].kind = plan.cuttings[0].pieces[7].kind = PieceKind::unusable;
    other.layups = {plan.cuttings[0].layups[1]};
    plan.cuttings[0].layups.pop_back();
    plan.cuttings.push_back(other);
    bench::promise(plan, request);
  }
  void layOne(std::size_t blank, LayupKind kind, int copy, int slot, Length gives) {
    Layup layup;
    layup.piece = static_cast<int>(blank);
    layup.kind = kind;
    layup.copy = copy;
    layup.slot = slot;
    layup.gives = gives;
    plan.cuttings[0].layups.push_back(layup);
  }
  void settle(int copies) {
    part1().copies = copies;
    plan.shorts.clear();
    bench::promise(plan, request);
  }
  /// Each blank is two copies of 9 15/16 in end to end: 2 x 9 15/16 + 1/8 kerf + 1 in = 21 in.
  void gang() {
    part1().recipe = "ganged";
    part1().length = in(9, 60);
    for (int copy = 1; copy <= 4; ++copy) {
      layOne(copy <= 2 ? 5 : 7, LayupKind::gang, copy, copy <= 2 ? copy : copy - 2, part1().width);
    }
    settle(4);
  }
  /// Part 1 as one block of both blanks: 1/8 in narrower for the trim, 13/16 in each once planed.
  void laminate() {
    part1().recipe = "laminated";
    part1().width = in(1, 56);
    part1().thickness = in(1, 40);
    layOne(5, LayupKind::lamina, 1, 1, in(0, 52));
    layOne(7, LayupKind::lamina, 1, 2, in(0, 52));
    settle(1);
  }
  /// The blanks as strips 2 1/8 in thick on their sides, the board's thickness their width.
  void turn() {
    part1().recipe = "turned";
    part1().width = in(0, 48);
    part1().thickness = in(2, 8);
    for (const std::size_t blank : {firstBlank, secondBlank}) {
      layOne(blank, LayupKind::whole, blank == firstBlank ? 1 : 2, 1, part1().width);
      plan.cuttings[0].layups.back().turned = true;
    }
    settle(2);
  }
  /// Each blank is two leaves of 5/16: 5/8, 1/16 kerf, 1/8 and 1/16 clean-up: 7/8 in.
  void resaw() {
    part1().recipe = "resawn";
    part1().thickness = in(0, 20);
    for (int copy = 1; copy <= 4; ++copy) {
      layOne(copy <= 2 ? 5 : 7, LayupKind::whole, copy, copy <= 2 ? copy : copy - 2, part1().width);
    }
    settle(4);
  }
  std::vector<Layup>& layups() { return plan.cuttings[0].layups; }
  std::vector<Piece>& pieces() { return plan.cuttings[0].pieces; }
  Board& board() { return request.boards[0]; }
  Part& part1() { return request.job.parts[0]; }
};

bool has(const std::vector<Fault>& faults, FaultKind kind) {
  return std::any_of(faults.begin(), faults.end(), [&](const Fault& f) { return f.kind == kind; });
}

struct Broken {
  const char* how;
  FaultKind expected;
  std::function<void(Good&)> breaking;
};

const std::vector<Broken>& brokenPlans() {
  using F = FaultKind;
  static const std::vector<Broken> all{
      {"a board that is not in the request", F::unknownBoard,
       [](Good& g) { g.plan.cuttings[0].board = {9}; }},
      {"the same board cut twice", F::boardTwice,
       [](Good& g) { g.plan.cuttings.push_back(g.plan.cuttings[0]); }},
      {"a board kept out", F::boardKeptOut, [](Good& g) { g.request.choices.keptOut = {{1}}; }},
      {"a board the request keeps out, though the plan does not say so", F::boardKeptOut,
       [](Good& g) { g.plan.choices.keptOut = {{1}}; }},
      {"a pinned board that is not cut", F::pinUnused,
       [](Good& g) { g.request.choices.pins = {{2}}; }},
      {"a pinned board that gives an offcut alone", F::pinUnused,
       [](Good& g) {
         g.request.choices.pins = {{1}};
         for (Piece& p : g.pieces()) {
           if (p.kind == PieceKind::blank) p.kind = PieceKind::unusable;
         }
       }},
      {"a locked board that is not cut", F::lockBroken,
       [](Good& g) {
         g.request.choices.locks = {{g.plan.cuttings[0]}};
         g.plan.cuttings.clear();
       }},
      {"a locked cutting with another number chalked on a blank", F::lockBroken,
       [](Good& g) {
         g.request.choices.locks = {{g.plan.cuttings[0]}};
         g.pieces()[secondBlank].copy = 3;
       }},
      {"a lock of the plan's own that it does not keep", F::lockBroken,
       [](Good& g) {
         g.plan.choices.locks = {{g.plan.cuttings[0]}};
         g.pieces()[firstBlank].frontEdge = Edge::far;
       }},
      {"a stave of a locked cutting put elsewhere in its panel", F::lockBroken,
       [](Good& g) {
         g.glue();
         g.request.choices.locks = {{g.plan.cuttings[0]}};
         std::swap(g.layups()[0].slot, g.layups()[1].slot);
       }},
      {"a blank laid by hand that lies elsewhere", F::laidMoved,
       [](Good& g) {
         g.request.choices.laid = {{{1}, 1, {in(2), in(0, 8), in(21), in(2, 16)}}};
       }},
      {"a blank laid by hand turned over", F::laidMoved,
       [](Good& g) {
         g.request.choices.laid = {{{1}, 1, g.pieces()[firstBlank].at, Face::b}};
       }},
      {"a blank laid by hand end for end", F::laidMoved,
       [](Good& g) {
         g.request.choices.laid = {{{1}, 1, g.pieces()[firstBlank].at, Face::a, Edge::far}};
       }},
      {"a blank laid by hand on a board that is not cut", F::laidMoved,
       [](Good& g) {
         g.request.choices.laid = {{{2}, 1, g.pieces()[firstBlank].at}};
       }},
      {"no tree at all", F::badTree, [](Good& g) { g.pieces().clear(); }},
      {"a root that is not the board", F::badTree, [](Good& g) { g.pieces()[0].at.dx = in(49); }},
      {"a depth that jumps", F::badTree, [](Good& g) { g.pieces()[firstBlank].depth = 5; }},
      {"a blank with children", F::badTree,
       [](Good& g) { g.pieces()[section].kind = PieceKind::blank; }},
      {"a cut without children", F::badTree,
       [](Good& g) { g.pieces()[waste].kind = PieceKind::cut; }},
      {"a piece without size", F::badTree, [](Good& g) { g.pieces()[waste].at.dy = in(0); }},
      {"a kerf wider than the saw's", F::badTree,
       [](Good& g) {
         g.pieces()[8].at.dy = in(0, 16);
         g.pieces()[waste].at.y += in(0, 8);
         g.pieces()[waste].at.dy -= in(0, 8);
       }},
      {"end trim in the middle of the board", F::badTree,
       [](Good& g) { g.pieces()[waste].kind = PieceKind::endTrim; }},
      {"twice as much end trim as the shop's", F::badTree,
       [](Good& g) {
         g.pieces()[12].at = {in(48), in(0), in(2), in(6)};
         g.pieces()[body].at.dx = in(47);
         g.pieces()[offcut].at.dx = in(48) - in(22, 8);
       }},
      {"a section that is crosscut again", F::badTree,
       [](Good& g) {
         g.pieces()[offcut].kind = PieceKind::cut;
         auto at = g.pieces().begin() + offcut + 1;
         at = g.pieces().insert(at, node(3, PieceKind::offcut, in(22, 8), in(0), in(36), in(6)));
         at = g.pieces().insert(at + 1, node(3, PieceKind::kerf, in(36), in(0), in(36, 8), in(6)));
         g.pieces().insert(at + 1, node(3, PieceKind::unusable, in(36, 8), in(0), in(49), in(6)));
       }},
      {"pieces no straight cut can part", F::notGuillotine,
       [](Good& g) { g.pieces()[firstBlank].at.dx -= in(0, 8); }},
      {"a fourth stage", F::tooManyStages,
       [](Good& g) {
         // The first blank grows a strip and a piece of its own: depth 3 to 5.
         const Piece blank = g.pieces()[firstBlank];
         Piece strip = blank, piece = blank, last = blank;
         strip.kind = piece.kind = PieceKind::cut;
         piece.depth = 4;
         last.depth = 5;
         g.pieces()[firstBlank] = strip;
         g.pieces().insert(g.pieces().begin() + firstBlank + 1, {piece, last});
       }},
      {"wood that belongs to no piece", F::gap,
       [](Good& g) { g.pieces().erase(g.pieces().begin() + waste); }},
      {"wood between two pieces that belongs to none", F::gap,
       [](Good& g) { g.pieces().erase(g.pieces().begin() + 6); }},
      {"two blanks upon each other", F::overlap,
       [](Good& g) { g.pieces()[secondBlank].at.y -= in(0, 16); }},
      {"blanks closer than the kerf", F::missedKerf,
       [](Good& g) {
         const Length less = in(0, 4);
         g.pieces()[6].at.dy -= less;
         g.pieces()[secondBlank].at.y -= less;
         g.pieces()[8].at.y -= less;
         g.pieces()[8].at.dy += less;
       }},
      {"a crosscut without kerf", F::missedKerf,
       [](Good& g) {
         g.pieces().erase(g.pieces().begin() + 10);
         g.pieces()[offcut - 1].at = {in(22), in(0), in(27), in(6)};
       }},
      {"waste beside a blank without a kerf", F::missedKerf,
       [](Good& g) { g.pieces()[8].kind = PieceKind::unusable; }},
      {"an end as bought left on", F::endTrimMissing,
       [](Good& g) {
         g.pieces().pop_back();
         g.pieces()[body].at.dx = in(49);
         g.pieces()[offcut].at.dx = in(50) - in(22, 8);
       }},
      {"less end trim than the shop's", F::endTrimMissing,
       [](Good& g) { g.request.shop.endTrim = in(1, 8); }},
      {"a trimmed end that our saw made", F::endTrimMissing,
       [](Good& g) { g.board().sawnEnd[1] = true; }},
      {"a blank over the far edge", F::outsideOutline,
       [](Good& g) { g.board().outline[1] = Outline::tapered(in(50), in(4, 32), in(6)); }},
      {"a blank in the reference edge", F::outsideOutline,
       [](Good& g) { g.request.shop.referenceEdge = in(0, 9); }},
      {"a blank in the hollow of a crook", F::outsideOutline,
       [](Good& g) { g.board().warp.crook = in(0, 32); }},
      {"a knot on the clear face", F::onMark,
       [](Good& g) {
         g.board().defects = {{"sound knot", DefectFace::a, inRect(10, 1, 1, 1)}};
       }},
      {"a surface check a hair too deep to plane out", F::onMark,
       [](Good& g) {
         // 15/16 in flat, finished 13/16: 1/16 comes off each face.
         g.board().defects = {
             {"check", DefectFace::a, inRect(10, 1, 1, 1), in(0, 4) + Length::nanometres(1)}};
       }},
      {"a knot aslant that reaches the clear face below where it begins", F::onMark,
       [](Good& g) {
         // Face A at 30, face B at 4: half way at 17, so 17 to 31 on A once it is planed.
         g.board().defects = {{"sound knot", DefectFace::through, inRect(30, 1, 1, 1), std::nullopt,
                               inRect(4, 1, 1, 1)}};
       }},
      {"a check aslant on the sound back where it comes out", F::onMark,
       [](Good& g) {
         g.part1().faceA = "hidden";
         g.board().defects = {{"check", DefectFace::through, inRect(40, 1, 1, 1), std::nullopt,
                               inRect(10, 1, 1, 1)}};
       }},
      {"an edge in pith that goes through aslant", F::onMark,
       [](Good& g) {
         g.part1().faceA = g.part1().faceB = "hidden";
         g.board().defects = {
             {"pith", DefectFace::through, inRect(40, 1, 1, 1), std::nullopt, inRect(10, 3, 1, 1)}};
       }},
      {"a knot nearer than the margin", F::onMark,
       [](Good& g) {
         // The blanks end at x = 22; the knot begins 1/4 in behind, the margin is 1/2 in.
         g.board().defects = {{"sound knot", DefectFace::a, {in(22, 16), in(1), in(1), in(1)}}};
       }},
      {"a check on the sound face", F::onMark,
       [](Good& g) {
         g.board().defects = {{"check", DefectFace::b, inRect(10, 1, 1, 1)}};
       }},
      {"the show face turned to the knot", F::onMark,
       [](Good& g) {
         g.board().defects = {{"sound knot", DefectFace::b, inRect(10, 1, 1, 1)}};
         g.pieces()[firstBlank].faceUp = Face::b;
       }},
      {"an edge in a pith line", F::onMark,
       [](Good& g) {
         g.part1().faceA = g.part1().faceB = "hidden";
         g.board().defects = {{"pith", DefectFace::a, inRect(10, 2, 1, 1)}};
       }},
      {"a clear front edge turned to the far side", F::onMark,
       [](Good& g) {
         g.part1().faceA = g.part1().faceB = "sound";
         g.part1().edges = {"clear", "sound"};
         g.board().defects = {{"stain", DefectFace::far, {in(10), in(2, 24), in(1), in(0, 4)}}};
         g.pieces()[firstBlank].frontEdge = Edge::far;
       }},
      {"a blank outside the good wood", F::onMark,
       [](Good& g) {
         g.board().defects = {{"good", DefectFace::through, inRect(2, 0, 48, 6)}};
       }},
      {"a clear face nobody has looked at", F::unseenFace,
       [](Good& g) {
         g.board().looked = {Looked::no, Looked::rough};
       }},
      {"a sound back nobody has looked at", F::unseenFace,
       [](Good& g) {
         g.board().looked = {Looked::rough, Looked::no};
       }},
      {"a straight part from a board of steep grain", F::steepGrain,
       [](Good& g) {
         g.request.job.parts[0].straight = true;
         g.board().grain = GrainSlope{119};
       }},
      {"a straight part from a board whose grain nobody measured", F::steepGrain,
       [](Good& g) { g.request.job.parts[0].straight = true; }},
      {"a board too thin", F::tooThin, [](Good& g) { g.board().thickness = in(0, 55); }},
      {"a board too thin once flat", F::tooThin, [](Good& g) { g.board().warp.cup = in(1); }},
      {"a board too thin over its kink", F::tooThin,
       [](Good& g) {
         g.board().warp.bow = in(0, 5);
         g.board().warp.bentAt = in(5);
       }},
      {"a species the part does not allow", F::wrongSpecies,
       [](Good& g) { g.board().species = "ash"; }},
      {"a blank that is not the part's size", F::wrongSize,
       [](Good& g) { g.part1().length = in(19, 56); }},
      {"a line the job does not have", F::unknownPart,
       [](Good& g) { g.pieces()[firstBlank].line = 7; }},
      {"a part that waits", F::unknownPart, [](Good& g) { g.part1().recipe = "steam bent"; }},
      {"a stave of a part that is not glued", F::badLayup,
       [](Good& g) {
         g.layOut({in(1), in(1)});
       }},
      {"a layup of waste", F::badLayup,
       [](Good& g) {
         g.glue();
         g.layups()[1].piece = waste;
       }},
      {"a blank of a glued part that is in no panel", F::badLayup,
       [](Good& g) {
         g.glue();
         g.layups().pop_back();
       }},
      {"two staves in one place", F::badLayup,
       [](Good& g) {
         g.glue();
         g.layups()[1].slot = 1;
       }},
      {"sections out of order", F::badLayup,
       [](Good& g) {
         g.glue();
         g.layups()[0].section = 2;
       }},
      {"staves that bring less than the panel", F::notFilled,
       [](Good& g) {
         g.glue();
         g.layups()[1].gives -= in(0, 1);
       }},
      {"a stave that brings more than is left once jointed", F::notFilled,
       [](Good& g) {
         g.glue();
         g.layups()[0].gives = in(2, 9);
         g.layups()[1].gives -= in(0, 1);
       }},
      {"no room left for the trim after gluing", F::notFilled,
       [](Good& g) {
         g.glue();
         g.request.shop.glueTrim = in(0, 33);
       }},
      {"staves of two boards where one board is asked for", F::mixedWood,
       [](Good& g) {
         g.glueFromTwo();
         g.part1().woodFrom = WoodFrom::oneBoard;
       }},
      {"staves of two boards that are no sisters", F::mixedWood,
       [](Good& g) {
         g.glueFromTwo();
         g.part1().woodFrom = WoodFrom::sisters;
       }},
      {"a group of one board from two", F::mixedWood,
       [](Good& g) {
         g.glueFromTwo();
         g.part1().woodFrom = WoodFrom::oneBoard;
         g.part1().group = "fronts";
       }},
      {"a section the planer does not take", F::wideSection,
       [](Good& g) {
         g.glue();
         g.request.shop.planerWidth = in(4, 23);
       }},
      {"a stave narrower than the shop's", F::wrongSize,
       [](Good& g) {
         g.glue();
         g.request.shop.narrowestStave = in(2, 17);
       }},
      {"a stave wider than the part's", F::wrongSize,
       [](Good& g) {
         g.glue();
         g.part1().stavesFrom = in(1);
         g.part1().stavesTo = in(2, 8);
       }},
      {"a lamina of a part that is not laminated", F::badLayup,
       [](Good& g) {
         g.glue();
         g.layups()[1].kind = LayupKind::lamina;
       }},
      {"a stave turned on its side though the part is flat", F::badLayup,
       [](Good& g) {
         g.glue();
         g.layups()[1].turned = true;
       }},
      {"a stave of a panel in no section", F::badLayup,
       [](Good& g) {
         g.glue();
         g.layups()[1].section = 0;
       }},
      {"a stave that is two copies'", F::badLayup,
       [](Good& g) {
         g.glue();
         g.layups().push_back(g.layups()[1]);
         g.layups().back().copy = 2;
       }},
      {"a gang with a copy twice", F::badLayup,
       [](Good& g) {
         g.gang();
         g.layups()[1].copy = 1;
       }},
      {"a gang with a place twice", F::badLayup,
       [](Good& g) {
         g.gang();
         g.layups()[1] = g.layups()[0];
       }},
      {"a gang too short for its pieces", F::wrongSize,
       [](Good& g) {
         g.gang();
         g.part1().length = in(11);
       }},
      {"a gang of a part that is milled alone", F::badLayup,
       [](Good& g) {
         g.gang();
         g.part1().recipe = "solid";
       }},
      {"laminae that are not as thick as the part", F::notFilled,
       [](Good& g) {
         g.laminate();
         g.layups()[1].gives -= in(0, 1);
       }},
      {"a lamina thicker than its board gives", F::tooThin,
       [](Good& g) {
         g.laminate();
         g.layups()[0].gives += in(0, 5);
         g.layups()[1].gives -= in(0, 5);
       }},
      {"two laminae in one place", F::badLayup,
       [](Good& g) {
         g.laminate();
         g.layups()[1].slot = 1;
       }},
      {"a copy begun with laminae and ended with staves", F::badLayup,
       [](Good& g) {
         g.glue();
         Layup sawn;
         sawn.kind = LayupKind::lamina;
         sawn.copy = 1;
         sawn.slot = 3;
         sawn.gives = in(0, 1);
         g.request.laid = {{1, sawn}};
       }},
      {"a strip laid on its side with a knot in its depth", F::onMark,
       [](Good& g) {
         g.turn();
         g.board().defects = {{"sound knot", DefectFace::b, inRect(10, 1, 1, 1)}};
       }},
      {"a resawn blank too thin for its leaves", F::tooThin,
       [](Good& g) {
         g.resaw();
         g.part1().thickness = in(0, 32);
       }},
      {"a resawn blank wider than the band saw takes", F::wrongSize,
       [](Good& g) {
         g.resaw();
         g.request.shop.resawHeight = in(2);
       }},
      {"a demand the shop does not know", F::unknownPart,
       [](Good& g) { g.part1().faceA = "spotless"; }},
      {"a shortage of an unknown line", F::unknownPart,
       [](Good& g) {
         g.plan.shorts.push_back({8, 1, false, ""});
       }},
      {"one copy fewer than wanted", F::wrongCount, [](Good& g) { g.plan.shorts.clear(); }},
      {"one copy more than wanted", F::wrongCount, [](Good& g) { g.part1().copies = 2; }},
      {"the same copy twice", F::wrongCount, [](Good& g) { g.pieces()[secondBlank].copy = 1; }},
      {"a copy that is made already", F::wrongCount,
       [](Good& g) {
         g.request.made[1] = {2};
         g.plan.shorts.clear();
       }},
      {"a waiting part not named", F::wrongCount, [](Good& g) { g.plan.waiting.clear(); }},
      {"an offcut smaller than the keeping rule", F::badOffcut,
       [](Good& g) { g.request.shop.keepLength = in(27); }},
      {"an offcut too narrow on its grid", F::badOffcut,
       [](Good& g) { g.request.shop.keepWidth = in(5, 60); }},
      {"an offcut with a split in it", F::badOffcut,
       [](Good& g) {
         g.board().defects = {{"split", DefectFace::through, inRect(40, 2, 9, 1)}};
       }},
      {"a piece between grid steps", F::offGrid,
       [](Good& g) {
         g.pieces()[10].at = {in(22), in(0), in(0, 6), in(6)};
         g.pieces()[offcut].at = {in(22, 6), in(0), in(49) - in(22, 6), in(6)};
         g.request.shop.crosscutKerf = in(0, 6);
       }},
      {"no grid step", F::offGrid, [](Good& g) { g.plan.tick = Length(); }},
      {"wood cost a ten-thousandth low", F::wrongMoney,
       [](Good& g) { g.plan.woodCost -= Money::tenThousandths(1); }},
      {"cutting cost left out", F::wrongMoney, [](Good& g) { g.plan.cutCost = Money(); }},
      {"worth of offcuts exaggerated", F::wrongMoney,
       [](Good& g) { g.plan.offcutWorth += Money::units(1); }},
      {"shortage for nothing", F::wrongMoney, [](Good& g) { g.plan.shortageCost = Money(); }},
      {"a bound above the cost", F::wrongBound,
       [](Good& g) { g.plan.bound = g.plan.total() + Money::tenThousandths(1); }},
  };
  return all;
}

}  // namespace

TEST_CASE("a good plan has no fault") {
  Good good;
  INFO(listed(check(good.plan, good.request)));
  CHECK(check(good.plan, good.request).empty());
}

TEST_CASE(
    "two staves that fill a panel have no fault, and its wood is that of the finished panel") {
  Good good;
  good.glue();
  INFO(listed(check(good.plan, good.request)));
  CHECK(check(good.plan, good.request).empty());
  const Breakdown wood =
      account(good.plan.cuttings[0], good.board(), good.request.job, good.request.shop, in(0, 8));
  const Area face = rectangle(in(20), in(3, 48));
  const std::int64_t panel = volume(face, face, in(0, 52)).value;
  CHECK(std::abs(wood.volume[static_cast<std::size_t>(Cause::parts)].value - panel) <= 1);
  std::int64_t all = 0;
  for (const CubicMillimetres& v : wood.volume) all += v.value;
  CHECK(all == good.board().wood.value);
}

TEST_CASE("gangs, laminae, turned strips and resawn blanks have no fault, and all wood adds up") {
  using Made = void (Good::*)();
  for (const Made make : {&Good::gang, &Good::laminate, &Good::turn, &Good::resaw}) {
    Good good;
    (good.*make)();
    INFO(listed(check(good.plan, good.request)));
    CHECK(check(good.plan, good.request).empty());
    const Part& p = good.part1();
    const Area face = rectangle(p.length, p.width);
    const Breakdown wood =
        account(good.plan.cuttings[0], good.board(), good.request.job, good.request.shop, in(0, 8));
    const std::int64_t parts = p.copies * volume(face, face, p.thickness).value;
    CHECK(std::abs(wood.volume[static_cast<std::size_t>(Cause::parts)].value - parts) <= 4);
    std::int64_t all = 0;
    for (const CubicMillimetres& v : wood.volume) all += v.value;
    CHECK(all == good.board().wood.value);
  }
}

TEST_CASE("a plan broken in any way is rejected with the right kind of fault") {
  for (const Broken& broken : brokenPlans()) {
    Good good;
    broken.breaking(good);
    const std::vector<Fault> faults = check(good.plan, good.request);
    INFO(broken.how << "\n" << listed(faults));
    CHECK(has(faults, broken.expected));
  }
}

TEST_CASE("every kind of fault is reached by a broken plan") {
  for (int kind = 0; kind <= static_cast<int>(FaultKind::wrongBound); ++kind) {
    INFO(word(static_cast<FaultKind>(kind)));
    CHECK(std::any_of(brokenPlans().begin(), brokenPlans().end(),
                      [&](const Broken& b) { return b.expected == static_cast<FaultKind>(kind); }));
  }
}

TEST_CASE("a plan that keeps what was settled has no fault") {
  Good good;
  Choices& choices = good.request.choices;
  choices.pins = {{1}};
  choices.keptOut = {{2}};
  choices.locks = {{good.plan.cuttings[0]}};
  choices.laid = {{{1}, 1, good.pieces()[secondBlank].at}};
  good.plan.choices = choices;
  const std::vector<Fault> faults = check(good.plan, good.request);
  INFO(listed(faults));
  CHECK(faults.empty());
}

TEST_CASE(
    "a locked cutting may begin a panel whose rest is short, one that is not locked may not") {
  Good good;
  good.glue();
  good.part1().width += in(2);
  good.plan.shorts = {{1, 1, false, "no wood for the rest"}};
  bench::promise(good.plan, good.request);
  CHECK(has(check(good.plan, good.request), FaultKind::notFilled));
  good.request.choices.locks = {{good.plan.cuttings[0]}};
  const std::vector<Fault> faults = check(good.plan, good.request);
  INFO(listed(faults));
  CHECK(faults.empty());
}

TEST_CASE("wishes are counted beside the price") {
  Good good;
  const Money price = good.plan.total();
  good.plan.choices.wishes = {{"offcuts first", {{2}}, Money::units(3)},
                              {"delivery 1 first", {{1}, {2}}, Money::units(7)}};
  CHECK(wishCost(good.plan) == Money::units(3));
  CHECK(good.plan.total() == price);
}

TEST_CASE("what looks like a fault and is none") {
  Good good;
  const auto clean = [&] {
    const std::vector<Fault> faults = check(good.plan, good.request);
    INFO(listed(faults));
    CHECK(faults.empty());
  };
  SECTION("a mark the demand allows") {
    good.board().defects = {{"sapwood", DefectFace::through, inRect(10, 1, 1, 1)},
                            {"sound knot", DefectFace::b, inRect(10, 1, 1, 1)}};
    clean();
  }
  SECTION("a mark just the margin away") {
    good.board().defects = {{"sound knot", DefectFace::a, {in(22, 32), in(1), in(1), in(1)}}};
    clean();
  }
  SECTION("an edge that only touches a mark's end") {
    good.part1().faceA = good.part1().faceB = "hidden";
    good.board().defects = {{"pith", DefectFace::a, inRect(22, 2, 1, 1)}};
    clean();
  }
  SECTION("good wood in two zones that meet") {
    good.board().defects = {{"good", DefectFace::a, inRect(0, 0, 11, 6)},
                            {"good", DefectFace::a, inRect(11, 0, 20, 6)}};
    clean();
  }
  SECTION("hidden parts on faces nobody has looked at") {
    good.part1().faceA = good.part1().faceB = "hidden";
    good.board().looked = {Looked::no, Looked::no};
    clean();
  }
  SECTION("unseen faces that the maker trusts") {
    good.request.choices.trustUnseen = good.plan.choices.trustUnseen = true;
    good.board().looked = {Looked::no, Looked::no};
    clean();
  }
  SECTION("a kink between the blanks and the offcut") {
    good.board().warp.bow = in(0, 16);
    good.board().warp.bentAt = in(22);
    clean();
  }
  SECTION("copies numbered round one that is made") {
    good.request.made[1] = {2};
    good.plan.shorts.clear();
    good.pieces()[secondBlank].copy = 3;
    bench::promise(good.plan, good.request);
    clean();
  }
  SECTION("a sound knot in an offcut") {
    good.board().defects = {{"sound knot", DefectFace::a, inRect(40, 2, 1, 1)}};
    clean();
  }
}

TEST_CASE(
    "boards of a panel are sawn in any order: a later section may be sawn before an earlier") {
  Good g;
  g.glue();
  Layup sawn;
  sawn.kind = LayupKind::stave;
  sawn.copy = 1;
  sawn.slot = 3;
  sawn.section = 2;
  sawn.gives = in(2);
  g.request.laid = {{1, sawn}};
  g.part1().width += in(2);
  bench::promise(g.plan, g.request);
  for (const Fault& fault : check(g.plan, g.request)) FAIL_CHECK(fault.sentence);
  // The same section before theirs does not follow.
  g.request.laid[0].layup.slot = 1;
  for (Layup& layup : g.layups()) ++layup.slot;
  const std::vector<Fault> faults = check(g.plan, g.request);
  CHECK(std::any_of(faults.begin(), faults.end(),
                    [](const Fault& fault) { return fault.kind == FaultKind::badLayup; }));
}
