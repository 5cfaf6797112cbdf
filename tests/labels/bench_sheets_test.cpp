#include "labels/bench_sheets.h"

#include <QTemporaryDir>
#include <algorithm>
#include <catch2/catch.hpp>
#include <numeric>
#include <stdexcept>

#include "labels/board_drawing.h"
#include "tests/labels/outside_readers.h"
#include "tests/labels/sample_boards.h"
#include "tests/labels/sample_cuttings.h"
#include "tests/labels/words_on.h"

using namespace flitch;
using namespace flitch::pages;
using test::checkTexts;
using test::wordsOn;

namespace {

using Kind = SawStep::Kind;

struct Case {
  std::vector<Board> boards;
  Job job = test::mapChestJob();
  ShopProfile shop;
  CutPlan plan;
  [[nodiscard]] WorkLists lists(Unit unit = Unit::inches) const {
    return workLists(plan, boards, job, shop, unit, {});
  }
};

/// Boards cut at random, tags T0001 on.
Case randomCase(std::mt19937& random, int count) {
  Case at;
  for (int n = 1; n <= count; ++n) {
    Board board = test::mapChestBoard();
    board.id = BoardId{n};
    board.tag = TagCode{TagKind::board, n};
    board.wood = volumeOf(board);
    board.bay = "B" + std::to_string(n % 4 + 7);
    at.plan.cuttings.push_back(test::randomCutting(random, board, at.shop));
    at.boards.push_back(board);
  }
  return at;
}

int cutsOf(const std::vector<MachineSetting>& settings) {
  return std::accumulate(settings.begin(), settings.end(), 0,
                         [](int sum, const MachineSetting& at) { return sum + at.cuts; });
}

}  // namespace

TEST_CASE("hand marks in a row are drawn together from three on") {
  CHECK(joined({}).empty());
  CHECK(joined({{3, 1}}) == "C1");
  CHECK(joined({{3, 1}, {3, 2}}) == "C1, C2");
  CHECK(joined({{1, 2}, {1, 3}, {1, 4}, {3, 1}, {3, 3}}) == "A2 to A4, C1, C3");
}

TEST_CASE("the map chest's board by station, as on its cut sheet") {
  Case at;
  at.boards = {test::mapChestBoard()};
  at.plan.cuttings = {test::mapChestCutting(at.boards[0], at.shop)};
  const WorkLists lists = at.lists();
  REQUIRE(lists.rough.size() == 1);
  const auto in = [](int whole, int eighths) {
    return Length::inches(whole) + Length::sixtyFourths(8 * eighths);
  };
  REQUIRE(lists.rough[0].chalk.size() == 3);
  const std::vector<std::pair<Length, std::string>> marks{
      {in(49, 6), ""}, {in(100, 2), ""}, {in(121, 4), "keep"}};
  for (std::size_t n = 0; n < marks.size(); ++n) {
    CHECK(lists.rough[0].chalk[n].at == marks[n].first);
    CHECK(lists.rough[0].chalk[n].falls == marks[n].second);
  }
  CHECK(lists.rough[0].off > Length());
  CHECK(lists.rough[0].rest.find("throw") != std::string::npos);
  CHECK(lists.stops.size() == 1);  // all parts of the sample are 20 in long
  CHECK(lists.stops[0].pieces == "C1, C2, D1 to D3, E1");
  // The widest fence first; long fronts are ripped to 3 9/16.
  CHECK(std::is_sorted(lists.fences.begin(), lists.fences.end(),
                       [](const auto& a, const auto& b) { return a.measure > b.measure; }));
  CHECK(std::any_of(lists.fences.begin(), lists.fences.end(), [](const MachineSetting& fence) {
    return fence.pieces == "C1, C2" &&
           fence.measure == Length::inches(3) + Length::sixtyFourths(36);
  }));
  CHECK(lists.cautions.back() == "Your machine's manual and the local rules come first.");
  CHECK_THROWS_AS(workLists(at.plan, {}, at.job, at.shop, Unit::inches, {}), std::invalid_argument);
}

TEST_CASE("every numbered cut of random plans stands in one list, every blank in two") {
  std::mt19937 random(81);
  for (int n = 0; n < 60; ++n) {
    const Case at = randomCase(random, 1 + n % 7);
    const WorkLists lists = at.lists();
    int cuts = 0, blanks = 0;
    for (std::size_t b = 0; b < at.boards.size(); ++b) {
      for (const SawStep& step : sawSteps(at.plan.cuttings[b], at.boards[b], at.job, at.shop)) {
        cuts += step.number > 0;
        if (step.kind != Kind::rip) continue;
        CHECK(std::any_of(
            lists.fences.begin(), lists.fences.end(),
            [&](const MachineSetting& fence) { return fence.measure == step.measure; }));
      }
      for (const Piece& piece : at.plan.cuttings[b].pieces)
        blanks += piece.kind == PieceKind::blank;
    }
    int rough = 0;
    for (const RoughCuts& board : lists.rough)
      rough += static_cast<int>(board.chalk.size()) + (board.off > Length());
    CHECK(rough + cutsOf(lists.fences) + cutsOf(lists.strips) == cuts);
    CHECK(cutsOf(lists.thicknesses) == blanks);
    CHECK(cutsOf(lists.stops) == blanks);
    std::int64_t rows = 0;
    for (const auto& row : workRows(lists).rows) rows += std::get<std::int64_t>(row.back());
    CHECK(rows == cuts + 2 * blanks);
  }
}

TEST_CASE("a caution that does not hold for every board is headed by tags") {
  std::mt19937 random(82);
  Case at = randomCase(random, 3);
  at.boards[1].warp.bow = Length::sixtyFourths(32);
  const WorkLists lists = at.lists();
  CHECK(std::any_of(lists.cautions.begin(), lists.cautions.end(), [&](const std::string& one) {
    return one.rfind(text(*at.boards[1].tag) + ": Bow 1/2 in", 0) == 0;
  }));
}

TEST_CASE("work sheets of random plans: every figure there, no text on another") {
  std::mt19937 random(83);
  std::size_t most = 0;
  for (int n = 0; n < 12; ++n) {
    Case at = randomCase(random, 1 + 3 * n);
    at.job.name = "Map chest for the harbour archive of Wendlehaven, second of three";
    const Unit unit = n % 2 ? Unit::inches : Unit::millimetres;
    const WorkLists lists = at.lists(unit);
    const auto pages = workSheets(lists, {"Harbour archive", "2026-05-31", unit});
    most = std::max(most, pages.size());
    for (const Page& page : pages) checkTexts(page);
    const QString said = wordsOn(pages);
    const LengthStyle style = unit == Unit::inches ? LengthStyle::inches : LengthStyle::millimetres;
    for (const auto* settings : {&lists.thicknesses, &lists.fences, &lists.strips, &lists.stops})
      for (const MachineSetting& at2 : *settings)
        CHECK(said.contains(QString::fromStdString(text(at2.measure, style))));
    for (const RoughCuts& board : lists.rough) {
      CHECK(said.contains(QString::fromStdString(board.tag)));
      for (const ChalkMark& mark : board.chalk)
        CHECK(said.contains(QString::fromStdString(text(mark.at, style))));
    }
    CHECK(said.contains("Your machine's manual and the local rules come first."));
  }
  CHECK(most > 2);
}

TEST_CASE("pull sheets: every board once, its symbol read back, no text on another") {
  std::mt19937 random(84);
  for (const int count : {1, 15, 40}) {
    Case at = randomCase(random, count);
    at.boards[0].bay = "";
    at.boards[0].species = "quartersawn white oak of the second log";
    if (count > 1) at.boards[1].bay = "the far wall";
    PullList list = pullList(at.plan, at.boards, {}, at.job, {}, Unit::inches);
    tick(list, at.boards[0]);
    const auto pages = pullSheets(list, {"Harbour archive", "2026-05-31", Unit::inches});
    CHECK(pages.size() == static_cast<std::size_t>(count <= 15 ? 1 : 3));
    std::size_t symbols = 0;
    for (const Page& page : pages) {
      checkTexts(page);
      symbols += static_cast<std::size_t>(
          std::count_if(page.ink.begin(), page.ink.end(),
                        [](const Ink& ink) { return std::holds_alternative<Symbol>(ink); }));
    }
    CHECK(symbols == at.boards.size());
    for (const Board& board : at.boards)
      CHECK(wordsOn(pages).count(QString::fromStdString(text(*board.tag))) == 1);
    if (count != 15) continue;
    const QTemporaryDir folder;
    const QString picture = folder.filePath("pull.png");
    REQUIRE(toImage(pages[0], 300).save(picture));
    const QString read = test::run("zbarimg", {"-q", picture}).join('\n');
    for (const Board& board : at.boards)
      CHECK(read.contains(QString::fromStdString(symbolText(*board.tag))));
  }
}
