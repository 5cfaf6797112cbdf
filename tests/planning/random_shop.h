#pragma once
#include <random>
#include <vector>

#include "optimizer/solve.h"
#include "tests/records/bench.h"

namespace flitch::bench {

/// For a shop worked by hand, where the cheapest plan is found and proved at once; the time is for
/// a build with sanitizers.
inline optimizer::Limits brief() {
  optimizer::Limits limits;
  limits.seconds = 5;
  return limits;
}
/// For many shops in a row: the first plan and little more.
inline optimizer::Limits first() {
  optimizer::Limits limits;
  limits.seconds = 0.1;
  return limits;
}

/// Made-up shops: boards with marks, warp, taper, crook, unseen faces; parts that ask for all
/// sorts.
class RandomShop {
 public:
  explicit RandomShop(unsigned seed) : chance_(seed), ofMarks_(seed) {}

  PlanRequest request(int boards, int parts) {
    PlanRequest request;
    request.shop = startingProfile();
    if (dice(4) == 0) request.shop.keepBands = {{in(12), 300}, {in(36), 500}};
    if (dice(4) == 0) request.shop.referenceEdge = in(0, 5);
    request.job.name = "made up";
    for (int i = 0; i < parts; ++i) request.job.parts.push_back(madeUpPart(i + 1));
    for (int i = 0; i < boards; ++i) request.boards.push_back(madeUpBoard(i + 1));
    if (dice(3) == 0) request.made[1] = {1 + dice(2)};
    if (dice(4) == 0) request.choices.trustUnseen = true;
    if (dice(4) == 0) request.choices.keptOut = {{1 + dice(boards)}};
    return request;
  }

  /// The same with parts of every recipe, and thick stock for them.
  PlanRequest everyRecipe(int boards, int parts) {
    PlanRequest shop = request(boards, parts);
    shop.made.clear();
    for (Part& p : shop.job.parts) makeBy(p);
    for (Board& b : shop.boards) {
      if (dice(2) == 0) continue;
      const int quarters = dice(2) == 0 ? 8 : 12;
      b.nominal = Nominal::quarters(quarters);
      b.thickness = Length::sixtyFourths(quarters * 16 - dice(16));
      b.wood = volumeOf(b);
      b.measuredFeet = feetOf(b.wood);
    }
    return shop;
  }

  int dice(int sides) { return std::uniform_int_distribution<int>(0, sides - 1)(chance_); }

 private:
  template <class T>
  const T& pick(const std::vector<T>& from) {
    return from[static_cast<std::size_t>(dice(static_cast<int>(from.size())))];
  }

  Part madeUpPart(int line) {
    static const std::vector<std::string> demands{"hidden", "sound", "clear", "heart only"};
    Part p = part(line, 1 + dice(6), in(9 + dice(30), 8 * dice(8)), in(1 + dice(4), 16 * dice(4)));
    p.thickness = dice(5) == 0 ? in(1, 16) : in(0, 48);
    p.faceA = pick(demands);
    p.faceB = pick(demands);
    p.edges = {pick(demands), "hidden"};
    if (dice(3) == 0) p.species.emplace_back("ash");
    if (dice(6) == 0) p.spares = 1;
    if (dice(4) == 0) glue(p);
    if (dice(20) == 0) p.recipe = "steam bent";  // waits
    p.straight = ofMarks_() % 8 == 0;
    return p;
  }

  void makeBy(Part& p) {
    static const std::vector<std::string> recipes{"",
                                                  "solid",
                                                  "laminated",
                                                  "ganged",
                                                  "turned",
                                                  "resawn",
                                                  "random widths",
                                                  "solid|laminated",
                                                  "solid|resawn",
                                                  "glued|random widths",
                                                  "turned|glued",
                                                  "solid|ganged|turned"};
    p.recipe = pick(recipes);
    p.copies = 1 + dice(5);
    if (dice(6) == 0) p.run = dice(2) == 0 ? "along 2" : "across 2,1,2";
    if (dice(6) == 0) p.setUps = 1;
    p.length = in(2 + dice(30), 8 * dice(8));
    p.width = in(dice(6), 8 + 8 * dice(7));
    p.thickness = dice(3) == 0 ? in(1 + dice(3), 8 * dice(8)) : in(0, 24 + dice(32));
    if (p.recipe.find("widths") == std::string::npos) return;
    p.width = in(8 + dice(20), 8 * dice(8));
    p.thickness = in(0, 32);
    p.stavesFrom = in(2 + dice(3));
    p.stavesTo = p.stavesFrom + in(dice(4), dice(64));
  }

  void glue(Part& p) {
    p.copies = 1 + dice(3);
    p.spares = dice(5) == 0 ? 1 : 0;
    p.width = in(4 + dice(14), 16 * dice(4));
    if (dice(2) == 0) p.recipe = "glued";  // else the shop's rule, where it is wide
    if (dice(2) == 0) {
      p.stavesFrom = in(1 + dice(4), dice(64));
      p.stavesTo = p.stavesFrom + in(dice(4), dice(64));
    }
  }

  /// At times a mark of one face has a depth, and one that goes through does so aslant.
  void makeDeep(Defect& mark) {
    const auto dice = [&](int sides) {
      return std::uniform_int_distribution<int>(0, sides - 1)(ofMarks_);
    };
    if (dice(2) == 0) mark.depth = in(0, 1 + dice(12));
    if (dice(2) == 0) {
      mark.onB =
          Rect{mark.where.x + in(dice(6), dice(64)) - in(3), mark.where.y + in(dice(3)) - in(1),
               in(dice(8), 1 + dice(63)), in(dice(2), 1 + dice(63))};
    }
    settle(mark);
  }

  Board madeUpBoard(int id) {
    static const std::vector<std::string> kinds{"sound knot", "unsound knot", "check", "split",
                                                "wane",       "sapwood",      "hole",  "gum",
                                                "pith",       "odd mark",     "stain"};
    const Length length = in(36 + dice(70), dice(64));
    Board b = plank(id, length, in(4 + dice(7), dice(64)), in(4 + dice(7), dice(64)),
                    Money::tenThousandths(100'000 + dice(800'000)));
    b.outline[1] = Outline::tapered(length, in(4 + dice(7), dice(64)), in(4 + dice(7), dice(64)));
    if (dice(4) == 0) b.species = "ash";
    if (dice(4) == 0) {
      b.nominal = Nominal::quarters(8);
      b.thickness = in(1, 50);
    }
    if (dice(4) == 0) b.warp.crook = in(0, dice(60));
    if (dice(2) == 0) b.warp.hollow = Edge::far;
    if (dice(3) == 0) b.warp.bow = in(0, dice(20));
    if (dice(3) == 0) b.warp.cup = in(0, dice(10));
    if (dice(4) == 0) b.warp.twist = in(0, dice(20));
    if (dice(5) == 0) b.warp.bentAt = in(10 + dice(20), dice(64));
    if (dice(5) == 0) b.looked = {Looked::no, Looked::rough};
    if (dice(8) == 0) b.looked = {Looked::no, Looked::no};
    b.sawnEnd = {dice(4) == 0, dice(5) == 0};
    if (ofMarks_() % 2 == 0) b.grain = GrainSlope{10 * static_cast<int>(ofMarks_() % 30)};
    const DefectFace faces[] = {DefectFace::a, DefectFace::b, DefectFace::through, DefectFace::near,
                                DefectFace::far};
    for (int i = dice(6); i > 0; --i) {
      b.defects.push_back({pick(kinds), faces[dice(5)],
                           Rect{in(dice(90), dice(64)), in(dice(7), dice(64)),
                                in(dice(8), 1 + dice(63)), in(dice(2), 1 + dice(63))}});
      makeDeep(b.defects.back());
    }
    if (dice(7) == 0) {
      b.defects.push_back(
          {"good", faces[dice(3)], Rect{in(dice(10)), in(dice(2)), in(30, dice(64)), in(6)}});
    }
    b.wood = volumeOf(b);
    b.measuredFeet = feetOf(b.wood);
    return b;
  }

  std::mt19937 chance_, ofMarks_;
};

}  // namespace flitch::bench
