#include "labels/board_drawing.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <set>

#include "labels/cut_rings.h"
#include "labels/mark_drawing.h"
#include "tests/labels/sample_boards.h"
#include "tests/labels/sample_cuttings.h"
#include "tests/labels/words_on.h"

using namespace flitch;
using namespace flitch::pages;
using test::texts;

namespace {

const Text* textOf(const std::vector<Text>& all, const QString& words) {
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const Text& text) { return text.text == words; });
  return found == all.end() ? nullptr : &*found;
}
int count(const std::vector<Ink>& ink, Fill fill) {
  return static_cast<int>(std::count_if(ink.begin(), ink.end(), [&](const Ink& one) {
    const auto* area = std::get_if<pages::Area>(&one);
    return area && area->fill == fill;
  }));
}
/// Rings by their number: the text and the circle drawn just before it.
struct Ring {
  int number;
  QRectF box;
};
std::vector<Ring> rings(const std::vector<Ink>& ink) {
  std::vector<Ring> all;
  for (std::size_t at = 1; at < ink.size(); ++at) {
    const auto* circle = std::get_if<Ellipse>(&ink[at - 1]);
    const auto* text = std::get_if<Text>(&ink[at]);
    if (circle && text && circle->tone == Tone::red)
      all.push_back({text->text.toInt(), circle->box});
  }
  return all;
}

const QPointF origin(20, 30);

}  // namespace

TEST_CASE("a place on the board and its place on the page are one for one, however it lies") {
  const Board board = test::mapChestBoard();
  for (const Face face : {Face::a, Face::b})
    for (const bool atSaw : {false, true}) {
      BoardLook look;
      look.atSaw = atSaw;
      const BoardView view(board, face, origin, look);
      const QPointF there = view.page(700, 55);
      CHECK(view.board(there).x() == Approx(700));
      CHECK(view.board(there).y() == Approx(55));
      const QRectF box(origin, view.size());
      CHECK(box.contains(there));
      // The tag end is left on the rack, right at the saw.
      CHECK((view.page(0, 0).x() < box.center().x()) != atSaw);
      // Rolled over the near edge, y grows down; turned half round, it does so on face A.
      CHECK((view.page(0, 50).y() < view.page(0, 0).y()) == ((face == Face::a) != atSaw));
    }
}

TEST_CASE("a through-mark stands at the same place from the fold on both faces") {
  Board board = test::mapChestBoard();
  const BoardLook look;
  const auto knot = [&](Face face) {
    const std::vector<Text> all = texts(drawFace(board, face, {0, 0}, look));
    const Text* letter = textOf(all, "K");
    REQUIRE(letter != nullptr);
    return letter->at;
  };
  board.defects.resize(1);
  const QPointF a = knot(Face::a), b = knot(Face::b);
  CHECK(a.x() == Approx(b.x()));
  const double foot = BoardView(board, Face::a, {0, 0}, look).size().height();
  const double capital = look.smallPoints * 0.3528 * 0.72;  // letters hang half of it low
  CHECK(foot - a.y() + capital / 2 == Approx(b.y() - capital / 2));
}

TEST_CASE("every kind of mark has a sign and its letter, and a mark of the other face neither") {
  for (const DefectKind& kind : startingDefectKinds()) {
    INFO(kind.name);
    Board board = test::mapChestBoard();
    board.defects = {
        {kind.name,
         DefectFace::a,
         {Length::inches(40), Length::inches(3), Length::inches(6), Length::inches(2)}}};
    const auto here = drawFace(board, Face::a, origin, {});
    board.defects.clear();
    const auto clear = drawFace(board, Face::a, origin, {});
    CHECK(here.size() > clear.size());
    if (kind.letter == 0) continue;
    CHECK(textOf(texts(here), QString(QChar(kind.letter))) != nullptr);
    board.defects = {
        {kind.name,
         DefectFace::b,
         {Length::inches(40), Length::inches(3), Length::inches(6), Length::inches(2)}}};
    CHECK(textOf(texts(drawFace(board, Face::a, origin, {})), QString(QChar(kind.letter))) ==
          nullptr);
  }
}

TEST_CASE("a face nobody has looked at is ticked and says so, and has no grain") {
  Board board = test::mapChestBoard();
  const auto grainLines = [](const std::vector<Ink>& ink) {
    return std::count_if(ink.begin(), ink.end(), [](const Ink& one) {
      const auto* line = std::get_if<Line>(&one);
      return line && line->tone == Tone::grain;
    });
  };
  const auto seen = drawFace(board, Face::b, origin, {});
  CHECK(count(seen, Fill::unseen) == 0);
  CHECK(grainLines(seen) == 9);
  board.looked[1] = Looked::no;
  const auto unseen = drawFace(board, Face::b, origin, {});
  CHECK(count(unseen, Fill::unseen) == 1);
  CHECK(grainLines(unseen) == 0);
  CHECK(textOf(texts(unseen), "not looked at") != nullptr);
}

TEST_CASE("a planned board shows every blank, what is kept and what is thrown") {
  const Board board = test::mapChestBoard();
  const Cutting cutting = test::mapChestCutting(board, {});
  for (const bool atSaw : {false, true}) {
    BoardLook look;
    look.atSaw = atSaw;
    const auto ink =
        drawCutting(cutting, board, test::mapChestJob(), {}, origin, look, Unit::inches);
    const auto all = texts(ink);
    for (const char* mark : {"C1", "C2", "E1", "D1", "D2", "D3", "keep"})
      CHECK(textOf(all, mark) != nullptr);
    CHECK(textOf(all, "front rail  50 3/8 × 2 3/4") != nullptr);
    CHECK(count(ink, Fill::hatch) == 8);
    const auto numbers = rings(ink);
    REQUIRE(numbers.size() == 11);
  }
}

TEST_CASE("thrown wood is hatched exactly where it lies, on any of many boards") {
  std::mt19937 random(14);
  BoardLook look;
  std::vector<Board> boards = test::sampleBoards(14, 100);
  boards.push_back(test::mapChestBoard());
  for (Board board : boards) {
    // Whole sixteenths of an inch, so that sides lie on each other.
    if (random() % 2 == 0) {
      board.outline.fill(Outline::tapered(Length::inches(96), Length::sixtyFourths(304),
                                          Length::sixtyFourths(304)));
    }
    const Cutting cutting = test::randomCutting(random, board, {});
    double hatched = 0, wood = 0;
    for (const Ink& one :
         drawCutting(cutting, board, test::mapChestJob(), {}, origin, look, Unit::inches)) {
      const auto* area = std::get_if<pages::Area>(&one);
      if (area == nullptr || area->fill != Fill::hatch) continue;
      double twice = 0;
      for (std::size_t at = 0; at < area->points.size(); ++at) {
        const QPointF a = area->points[at], b = area->points[(at + 1) % area->points.size()];
        twice += a.x() * b.y() - b.x() * a.y();
      }
      hatched += std::abs(twice) / 2;
    }
    const Outline face = lying(board, Face::a);
    for (const Piece& piece : cutting.pieces)
      if (piece.kind == PieceKind::unusable || piece.kind == PieceKind::endTrim)
        wood +=
            static_cast<double>(face.areaWithin(piece.at).doubled) / 2e12 * look.scale * look.scale;
    CAPTURE(sizeText(board, Unit::inches));
    CHECK(hatched == Approx(wood).margin(1e-3));
  }
}

TEST_CASE("an end split stays within its place, whatever its shape") {
  Board board = test::mapChestBoard();
  const Length width = Length::sixtyFourths(304);
  board.outline.fill(Outline::tapered(Length::inches(96), width, width));
  BoardLook look;
  for (int sixteenths = 40; sixteenths < 440; ++sixteenths) {
    look.scale = 0.05 + sixteenths * 0.0005;
    const Length depth = Length::sixtyFourths(4 * sixteenths);
    board.defects = {{"split", DefectFace::through, {Length(), Length(), depth, width}}};
    const BoardView view(board, Face::a, origin, look);
    const QRectF place = view.page(board.defects[0].where).adjusted(-0.1, -0.1, 0.1, 0.1);
    for (const Ink& one : drawFace(board, Face::a, origin, look)) {
      const auto* area = std::get_if<pages::Area>(&one);
      if (area == nullptr || area->tone != Tone::sheet || area->fill != Fill::tone) continue;
      const bool tagSign = area->points.size() < 6;
      if (tagSign) continue;
      CAPTURE(sixteenths);
      CHECK(std::all_of(area->points.begin(), area->points.end(),
                        [&](const QPointF& point) { return place.contains(point); }));
    }
  }
}

TEST_CASE("no ring of a cut lies on another, on any of many boards") {
  std::mt19937 random(31);
  BoardLook look;
  look.atSaw = true;
  int crowded = 0;
  for (int n = 0; n < 60; ++n) {
    Board board = test::mapChestBoard();
    const Cutting cutting = test::randomCutting(random, board, {});
    const auto ink =
        drawCutting(cutting, board, test::mapChestJob(), {}, origin, look, Unit::inches);
    const auto all = rings(ink);
    for (std::size_t a = 0; a < all.size(); ++a)
      for (std::size_t b = a + 1; b < all.size(); ++b) {
        const QPointF apart = all[a].box.center() - all[b].box.center();
        const double reach = (all[a].box.width() + all[b].box.width()) / 2;
        crowded += std::hypot(apart.x(), apart.y()) < reach;
      }
  }
  CHECK(crowded == 0);
}

TEST_CASE("a ring on a narrow strip stands beside it, not on its words") {
  const Board board = test::mapChestBoard();
  BoardLook look;
  const BoardView view(board, Face::a, origin, look);
  const auto in = [](std::int64_t n) { return Length::inches(n); };
  SawStep cut;
  cut.kind = SawStep::Kind::trimStrip;
  cut.number = 7;
  cut.at = {in(40), in(3), Length::sixtyFourths(8), in(1)};
  // The strip's two blanks are written on up to the cut.
  const QRectF words = view.page(Rect{in(20), in(3), in(40), in(1)});
  std::vector<Ink> ink;
  CutRings(view, look, origin.y(), {words}).draw(ink, {cut});
  const auto drawn = rings(ink);
  REQUIRE(drawn.size() == 1);
  CHECK_FALSE(drawn.front().box.intersects(words));
  const auto* leader = std::get_if<Line>(&ink.front());
  REQUIRE(leader != nullptr);
  CHECK(words.contains(leader->points.front()));
  CHECK(drawn.front().box.contains(leader->points.back()));
}

TEST_CASE("the rings on the board carry the numbers of the table, whatever the kerf") {
  std::mt19937 random(57);
  BoardLook look;
  look.atSaw = true;
  const Job job = test::mapChestJob();
  ShopProfile shop;
  for (const Length kerf :
       {Length::sixtyFourths(16), Length::millimetres(4), Length::sixtyFourths(4)}) {
    shop.crosscutKerf = shop.ripKerf = kerf;
    for (int n = 0; n < 20; ++n) {
      INFO("kerf " << exactText(kerf) << ", board " << n);
      const Board board = test::mapChestBoard();
      const Cutting cutting = test::randomCutting(random, board, shop);
      std::set<int> listed, drawn;
      for (const SawStep& step : sawSteps(cutting, board, job, shop))
        if (step.number > 0) listed.insert(step.number);
      for (const Ring& ring :
           rings(drawCutting(cutting, board, job, shop, origin, look, Unit::inches)))
        drawn.insert(ring.number);
      CHECK(drawn == listed);
    }
  }
}

TEST_CASE("a heavy line runs along the front edge where the edges of a part differ") {
  const Board board = test::mapChestBoard();
  const auto frontLines = [](const std::vector<Ink>& ink, const QRectF& blank) {
    std::vector<QPointF> middles;
    for (const Ink& one : ink) {
      const auto* line = std::get_if<Line>(&one);
      if (!line || line->tone != Tone::ink || line->points.size() != 2) continue;
      const QPointF a = line->points[0], b = line->points[1];
      if (a.y() == b.y() && blank.contains(a) && blank.contains(b) &&
          std::abs(b.x() - a.x()) > 0.8 * blank.width())
        middles.push_back((a + b) / 2);
    }
    return middles;
  };
  for (const bool atSaw : {false, true})
    for (const Face up : {Face::a, Face::b})
      for (const Edge edge : {Edge::near, Edge::far}) {
        INFO("at saw " << atSaw << ", face " << static_cast<int>(up) << " up, edge "
                       << static_cast<int>(edge));
        Job job = test::mapChestJob();
        job.parts[2].edges = {"clear", "sound"};
        Cutting cutting = test::mapChestCutting(board, {});
        for (Piece& piece : cutting.pieces) {
          piece.faceUp = up;
          piece.frontEdge = edge;
        }
        BoardLook look;
        look.atSaw = atSaw;
        const BoardView view(board, Face::a, origin, look);
        const auto ink = drawCutting(cutting, board, job, {}, origin, look, Unit::inches);
        for (const Piece& piece : cutting.pieces) {
          if (piece.kind != PieceKind::blank) continue;
          const auto lines = frontLines(ink, view.page(piece.at));
          REQUIRE(lines.size() == (piece.line == 3 ? 1 : 0));
          if (lines.empty()) continue;
          // The board's faces are told by its tag; its near edge is y = 0 whatever lies up.
          const double y = view.board(lines[0]).y(), low = mm(piece.at.y),
                       high = mm(piece.at.top());
          CHECK((y < low + (high - low) / 4) == (edge == Edge::near));
          CHECK((y > high - (high - low) / 4) == (edge == Edge::far));
        }
        CHECK(textOf(texts(ink), "front") != nullptr);
      }
}

TEST_CASE("the chosen part and the chosen mark are framed") {
  const Board board = test::mapChestBoard();
  const auto framed = [](const std::vector<Ink>& ink) {
    return std::count_if(ink.begin(), ink.end(), [](const Ink& one) {
      const auto* area = std::get_if<pages::Area>(&one);
      return area && area->outlineTone == Tone::blue && area->outline > 0;
    });
  };
  BoardLook look;
  const Cutting cutting = test::mapChestCutting(board, {});
  const auto draw = [&] {
    return drawCutting(cutting, board, test::mapChestJob(), {}, origin, look, Unit::inches);
  };
  CHECK(framed(draw()) == 0);
  look.chosenLine = 4;
  CHECK(framed(draw()) == 3);
  look.chosenDefect = 0;
  CHECK(framed(drawFace(board, Face::a, origin, look)) == 1);
}

TEST_CASE("warp is drawn with its depth, a flat board has no strip") {
  Board board = test::mapChestBoard();
  CHECK(textOf(texts(drawWarp(board, origin, {}, Unit::inches)), "bow 1/4") != nullptr);
  board.warp.cup = Length::sixtyFourths(8);
  board.warp.twist = Length::millimetres(5);
  board.warp.crook = Length::sixtyFourths(12);
  const auto all = texts(drawWarp(board, origin, {}, Unit::millimetres));
  CHECK(textOf(all, "bow 6.4") != nullptr);
  CHECK(textOf(all, "twist 5") != nullptr);
  board.warp = {};
  CHECK(drawWarp(board, origin, {}, Unit::inches).empty());
}
