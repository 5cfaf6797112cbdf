#include "labels/part_labels.h"

#include <catch2/catch.hpp>
#include <set>

#include "labels/board_drawing.h"
#include "tests/labels/sample_boards.h"
#include "tests/labels/sample_cuttings.h"

using namespace flitch;
using namespace flitch::pages;

TEST_CASE("part labels come in cutting order and say where the blank came from") {
  const Board board = test::mapChestBoard();
  const ShopProfile shop;
  Job job = test::mapChestJob();
  job.parts[2].edges = {"clear", "sound"};
  CutPlan plan;
  plan.cuttings = {test::mapChestCutting(board, shop)};
  for (Piece& piece : plan.cuttings[0].pieces) {
    if (piece.line != 3 || piece.copy != 2) continue;
    piece.faceUp = Face::b;
    piece.frontEdge = Edge::far;
  }
  const auto labels = partLabels(plan, {board}, job, shop, Unit::inches);
  // As the sheet lists them: long fronts, the rail, the small fronts from their strip.
  const std::vector<std::pair<std::string, std::string>> expected{
      {"C1", "T0042-F cut 5"}, {"C2", "T0042-F cut 6"},  {"E1", "T0042-F cut 7"},
      {"D1", "T0042-F cut 9"}, {"D2", "T0042-F cut 10"}, {"D3", "T0042-F cut 11"}};
  REQUIRE(labels.size() == expected.size());
  for (std::size_t n = 0; n < labels.size(); ++n) {
    CHECK(labels[n].handMark == expected[n].first);
    CHECK(labels[n].from == expected[n].second);
  }
  CHECK(labels[0].part == "long front");
  CHECK(labels[0].rough == "49 3/4 × 3 9/16 rough");
  CHECK(labels[0].finished == "20 × 3 × 13/16");
  CHECK(labels[0].next == "next: plane to 13/16");
  CHECK(labels[0].show == "show A");
  CHECK(labels[0].front == "front: edge V");
  CHECK(labels[1].show == "show B");
  CHECK(labels[1].front == "front: far edge");
  CHECK(labels[2].front.empty());
  CHECK_THROWS_AS(partLabels(plan, {}, job, shop, Unit::inches), std::invalid_argument);
}

TEST_CASE("every blank of random boards has one label, at the last cut that touches it") {
  std::mt19937 random(61);
  const ShopProfile shop;
  const Job job = test::mapChestJob();
  for (int n = 0; n < 60; ++n) {
    INFO("board " << n);
    const Board board = test::mapChestBoard();
    CutPlan plan;
    plan.cuttings = {test::randomCutting(random, board, shop)};
    const auto& pieces = plan.cuttings[0].pieces;
    std::set<std::string> wanted, got;
    for (const Piece& piece : pieces)
      if (piece.kind == PieceKind::blank) wanted.insert(handMark(piece.line, piece.copy));
    const auto cutOf = [](const PartLabel& label) {
      const auto at = label.from.rfind(' ');
      return at == std::string::npos ? 0 : std::stoi(label.from.substr(at));
    };
    const auto labels = partLabels(plan, {board}, job, shop, Unit::inches);
    CHECK(labels.size() == wanted.size());
    int last = 0;
    for (const PartLabel& label : labels) {
      got.insert(label.handMark);
      CHECK(cutOf(label) >= last);
      last = cutOf(label);
      for (const SawStep& step : sawSteps(plan.cuttings[0], board, job, shop)) {
        if (step.piece < 0) continue;
        const Piece& freed = pieces[static_cast<std::size_t>(step.piece)];
        if (freed.kind == PieceKind::blank && handMark(freed.line, freed.copy) == label.handMark)
          CHECK(cutOf(label) >= step.number);
      }
    }
    CHECK(got == wanted);
  }
}
