#include "labels/glue_up_sheet.h"

#include <catch2/catch.hpp>

#include "tests/labels/sample_boards.h"
#include "tests/labels/sample_cuttings.h"
#include "tests/labels/words_on.h"

using namespace flitch;
using namespace flitch::pages;

namespace {

/// The two long fronts of the sample board as what `kind` and section make of them.
CutPlan glued(const Board& board, const ShopProfile& shop, LayupKind kind, int secondSection) {
  CutPlan plan;
  plan.tick = Length::sixtyFourths(4);
  plan.cuttings = {test::mapChestCutting(board, shop)};
  Cutting& cutting = plan.cuttings[0];
  for (std::size_t i = 0; i < cutting.pieces.size(); ++i) {
    const Piece& piece = cutting.pieces[i];
    if (piece.kind != PieceKind::blank || piece.line != 3) continue;
    Layup layup;
    layup.piece = static_cast<int>(i);
    layup.kind = kind;
    layup.copy = 1;
    layup.slot = piece.copy;
    layup.section = kind == LayupKind::lamina ? 0 : piece.copy == 1 ? 1 : secondSection;
    layup.gives = Length::inches(3);
    cutting.layups.push_back(layup);
  }
  return plan;
}

}  // namespace

TEST_CASE("a glue-up sheet shows staves in order, sections, what is up, and the steps") {
  const Board board = test::mapChestBoard();
  const ShopProfile shop;
  Job job = test::mapChestJob();
  const CutPlan plan = glued(board, shop, LayupKind::stave, 2);
  const std::vector<Page> pages = glueUpSheets(plan, {board}, job, shop, {});
  REQUIRE(pages.size() == 1);
  for (const char* words :
       {"FACE A UP", "front edge", "back edge", "C1", "C2", "section 1", "section 2",
        "panel 1 of 1", "3 9/16 rough  T0042-F  A up", "2 from 1 board"}) {
    INFO(words);
    CHECK(test::shown(pages, words) >= 1);
  }
  const QString words = test::wordsOn(pages).simplified();
  CHECK(words.contains("Joint the edges: 1/8 off"));
  CHECK(words.contains("Keep iron off the wood"));
  CHECK(words.contains("over and under in turn"));
  test::checkTexts(pages[0]);
  CHECK_THROWS_AS(glueUpSheets(plan, {}, job, shop, {}), std::invalid_argument);
}

TEST_CASE("a glue-up sheet of laminae is seen from the edge, loose boards have none") {
  const Board board = test::mapChestBoard();
  const ShopProfile shop;
  Job job = test::mapChestJob();
  job.parts[2].name = "a part with a name so long that it does not fit beside that of its job";
  const std::vector<Page> block =
      glueUpSheets(glued(board, shop, LayupKind::lamina, 0), {board}, job, shop, {});
  REQUIRE(block.size() == 1);
  CHECK(test::shown(block, "block 1 of 1") == 1);
  CHECK(test::wordsOn(block).simplified().contains("Plane each lamina to 3"));
  test::checkTexts(block[0]);
  CutPlan loose = glued(board, shop, LayupKind::stave, 0);
  for (Layup& l : loose.cuttings[0].layups) l.section = 0;
  CHECK(glueUpSheets(loose, {board}, job, shop, {}).empty());
}
