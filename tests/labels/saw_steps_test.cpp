#include <catch2/catch.hpp>

#include "labels/board_drawing.h"
#include "tests/labels/bench.h"
#include "tests/labels/sample_boards.h"
#include "tests/labels/sample_cuttings.h"

using namespace flitch;
using namespace flitch::pages;
using test::Bench;
using Kind = SawStep::Kind;

namespace {

void checkReplay(const Cutting& cutting, const Board& board, const ShopProfile& shop) {
  const Job job = test::mapChestJob();
  const std::vector<SawStep> steps = sawSteps(cutting, board, job, shop);
  Bench bench(board, shop);
  for (const SawStep& step : steps) bench.make(step);
  int products = 0;
  for (const Piece& piece : cutting.pieces) {
    if (piece.kind != PieceKind::blank && piece.kind != PieceKind::offcut) continue;
    ++products;
    INFO("piece " << exactText(piece.at.x) << " " << exactText(piece.at.y) << " "
                  << exactText(piece.at.dx) << " x " << exactText(piece.at.dy));
    CHECK(bench.has(piece.at));
  }
  CHECK(products > 0);
}

/// What a sheet promises whatever the cutting.
void checkOrder(const std::vector<SawStep>& steps) {
  int number = 0;
  bool reference = false, rest = false, edgeFirst = false, lengths = false;
  Length chalk;
  for (const SawStep& step : steps) {
    if (step.number != 0) CHECK(step.number == ++number);
    CHECK(step.stick < std::max(step.number, number + 1));
    if (step.kind == Kind::reference) {
      reference = true;
      edgeFirst = !lengths;  // a board of one strip gets its edge before it is cut into lengths
    }
    if (step.kind == Kind::rip) CHECK(reference);
    if (step.kind == Kind::squareEnd) CHECK(step.number == 1);
    if (step.kind == Kind::crosscut) {
      CHECK((!reference || edgeFirst));
      lengths = true;
      CHECK_FALSE(rest);
      CHECK(step.chalk > chalk);
      chalk = step.chalk;
    }
    if (step.kind == Kind::remainder) rest = true;
  }
}

Board boardFor(std::mt19937& random) {
  Board board = test::mapChestBoard();
  board.defects.clear();
  const auto between = [&](std::int64_t low, std::int64_t high) {
    return Length::sixtyFourths(4 * std::uniform_int_distribution<std::int64_t>(low, high)(random));
  };
  const Outline outline = Outline::tapered(between(16 * 40, 16 * 160), between(16 * 5, 16 * 14),
                                           between(16 * 4, 16 * 13));
  board.outline = {outline, outline};
  board.sawnEnd = {random() % 3 == 0, random() % 3 == 0};
  return board;
}

}  // namespace

TEST_CASE("the shared cut sheet's board: measures, chalk marks and order as drawn there") {
  const Board board = test::mapChestBoard();
  const ShopProfile shop;
  const std::vector<SawStep> steps =
      sawSteps(test::mapChestCutting(board, shop), board, test::mapChestJob(), shop);
  struct Expected {
    int number;
    const char *measure, *from, *falls, *chalk;
  };
  const std::vector<Expected> expected{{1, "3 1/2", "off end", "", "0"},
                                       {2, "49 3/4", "from stop", "", "49 3/4"},
                                       {3, "50 3/8", "from stop", "", "100 1/4"},
                                       {4, "21 1/8", "from stop", "keep", "121 1/2"},
                                       {0, "7/8", "", "throw, staple and all", "122 1/2"},
                                       {0, "1/8", "off, jointer", "near edge", "0"},
                                       {5, "3 9/16", "from edge V", "C1 long front", "0"},
                                       {6, "3 9/16", "from cut 5", "C2 long front", "0"},
                                       {7, "2 3/4", "from edge V", "E1 front rail", "0"},
                                       {8, "4", "from cut 7", "strip D1 to D3", "0"},
                                       {9, "16 1/4", "from stop", "D1 small front", "0"},
                                       {10, "16 1/4", "from stop", "D2 small front", "0"},
                                       {11, "16 1/4", "from stop", "D3 small front", "0"}};
  REQUIRE(steps.size() == expected.size());
  for (std::size_t at = 0; at < steps.size(); ++at) {
    INFO("row " << at);
    CHECK(steps[at].number == expected[at].number);
    CHECK(text(steps[at].measure, LengthStyle::inches) == expected[at].measure);
    CHECK(steps[at].from == expected[at].from);
    CHECK(steps[at].falls == expected[at].falls);
    CHECK(text(steps[at].chalk, LengthStyle::inches) == expected[at].chalk);
  }
}

TEST_CASE("a strip is named from its first mark to its last, whichever comes off first") {
  const Board board = test::mapChestBoard();
  const ShopProfile shop;
  const Job job = test::mapChestJob();
  Cutting cutting = test::mapChestCutting(board, shop);
  for (Piece& piece : cutting.pieces) {
    if (piece.kind == PieceKind::blank && partLetter(piece.line) == "D")
      piece.copy = 4 - piece.copy;
  }
  const std::vector<SawStep> steps = sawSteps(cutting, board, job, shop);
  REQUIRE(steps.size() == 13);
  CHECK(steps[9].falls == "strip D1 to D3");
  CHECK(steps[10].falls == "D3 small front");
}

TEST_CASE("the steps alone cut random boards into exactly the pieces of their plan") {
  std::mt19937 random(21);
  const ShopProfile shop;
  for (int n = 0; n < 400; ++n) {
    INFO("board " << n);
    const Board board = boardFor(random);
    const Cutting cutting = test::randomCutting(random, board, shop);
    checkReplay(cutting, board, shop);
    checkOrder(sawSteps(cutting, board, test::mapChestJob(), shop));
  }
}

TEST_CASE("a cutting that gives nothing has no steps") {
  const Board board = test::mapChestBoard();
  Cutting cutting;
  cutting.board = board.id;
  CHECK(sawSteps(cutting, board, {}, {}).empty());
  Piece root;
  root.at = boundsOf(board);
  Piece waste = root;
  waste.depth = 1;
  waste.kind = PieceKind::unusable;
  cutting.pieces = {root, waste};
  CHECK(sawSteps(cutting, board, {}, {}).empty());
}

TEST_CASE("a thick reference edge is sawn, not jointed, and a short one ridden on a sled") {
  const Board board = test::mapChestBoard();
  const auto reference = [&](Length length, Length edge) {
    Cutting cutting;
    const Rect bounds = boundsOf(board);
    const auto add = [&](int depth, PieceKind kind, const Rect& at) {
      Piece piece;
      piece.depth = depth;
      piece.kind = kind;
      piece.at = at;
      piece.line = piece.copy = kind == PieceKind::blank;
      cutting.pieces.push_back(piece);
    };
    const Length kerf = Length::sixtyFourths(8), rest = bounds.dx - length - kerf;
    add(0, PieceKind::cut, bounds);
    add(1, PieceKind::cut, bounds);
    add(2, PieceKind::unusable, {{}, bounds.y, rest, bounds.dy});
    add(2, PieceKind::kerf, {rest, bounds.y, kerf, bounds.dy});
    add(2, PieceKind::cut, {rest + kerf, bounds.y, length, bounds.dy});
    add(3, PieceKind::unusable, {rest + kerf, bounds.y, length, edge});
    add(3, PieceKind::blank, {rest + kerf, bounds.y + edge, length, bounds.dy - edge});
    for (const SawStep& step : sawSteps(cutting, board, test::mapChestJob(), {}))
      if (step.kind == Kind::reference) return step;
    FAIL("no reference edge");
    return SawStep{};
  };
  CHECK(reference(Length::inches(40), Length::sixtyFourths(8)).from == "off, jointer");
  CHECK(reference(Length::inches(40), Length::inches(2)).from == "off, track saw");
  CHECK(reference(Length::inches(8), Length::sixtyFourths(8)).from == "off, sled");
}
