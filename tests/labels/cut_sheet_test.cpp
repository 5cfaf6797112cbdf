#include "labels/cut_sheet.h"

#include <QTemporaryDir>
#include <algorithm>
#include <catch2/catch.hpp>
#include <stdexcept>

#include "inventory/records/planed_away.h"
#include "labels/step_table.h"
#include "tests/labels/outside_readers.h"
#include "tests/labels/sample_boards.h"
#include "tests/labels/sample_cuttings.h"
#include "tests/labels/words_on.h"

using namespace flitch;
using namespace flitch::pages;
using test::checkTexts;
using test::texts;

namespace {

bool shows(const Page& page, const QString& words) {
  const auto all = texts(page);
  return std::any_of(all.begin(), all.end(),
                     [&](const Text& text) { return shownText(text).contains(words); });
}
QString allWords(const Page& page) {
  QStringList words;
  for (const Text& text : texts(page)) words << shownText(text);
  return words.join(' ');
}

/// y of the rule between board and table: the lowest that crosses the whole frame.
double tableTop(const Page& page) {
  double top = 0;
  for (const Ink& one : page.ink)
    if (const auto* line = std::get_if<Line>(&one))
      if (line->width == 0.35 && line->points.front().x() == 8)
        top = std::max(top, line->points.front().y());
  return top;
}

struct Case {
  std::vector<Board> boards;
  Job job = test::mapChestJob();
  ShopProfile shop;
  CutPlan plan;
  CutSheetFacts facts{"Best so far $1,199.40; no way of cutting can save more than $9.",
                      "25 Nov 2026",
                      Unit::inches,
                      false,
                      "$",
                      {}};
};

Case mapChest() {
  Case at;
  at.boards = {test::mapChestBoard()};
  at.plan.cuttings = {test::mapChestCutting(at.boards[0], at.shop)};
  at.plan.tick = Length::sixtyFourths(4);
  return at;
}

std::vector<std::string> cautionsFor(Board board) {
  Case at = mapChest();
  return cautions(at.plan.cuttings[0], board, at.job, at.shop);
}
bool says(const std::vector<std::string>& all, const std::string& words) {
  return std::any_of(all.begin(), all.end(),
                     [&](const std::string& one) { return one.find(words) != std::string::npos; });
}

}  // namespace

TEST_CASE("a cut sheet carries every figure of every step as text") {
  const Case at = mapChest();
  for (const bool letter : {false, true})
    for (const Unit unit : {Unit::inches, Unit::millimetres}) {
      CutSheetFacts facts = at.facts;
      facts.letter = letter;
      facts.unit = unit;
      const auto pages = cutSheets(at.plan, at.boards, at.job, at.shop, facts);
      REQUIRE(pages.size() == 1);
      const Page& page = pages[0];
      CHECK(page.mm == (letter ? QSizeF(279.4, 215.9) : QSizeF(297, 210)));
      const LengthStyle style =
          unit == Unit::inches ? LengthStyle::inches : LengthStyle::millimetres;
      for (const SawStep& step : sawSteps(at.plan.cuttings[0], at.boards[0], at.job, at.shop)) {
        CHECK(shows(page, QString::fromStdString(text(step.measure, style))));
        CHECK(shows(page, QString::fromStdString(step.from)));
        if (step.kind == SawStep::Kind::crosscut)
          CHECK(shows(page, QString::fromStdString(text(step.chalk, style))));
      }
      for (const char* words : {"T0042-F", "cherry 4/4", "FACE A UP", "near edge", "Map chest",
                                "64 % used", "11 cuts", "25 Nov 2026"})
        CHECK(shows(page, words));
      CHECK(shows(page, letter ? "1 : 15" : "1 : 12.5"));
      checkTexts(page, tableTop(page));
    }
}

TEST_CASE("the text of the PDF alone carries the cuts") {
  const Case at = mapChest();
  const QTemporaryDir folder;
  const QString pdf = folder.filePath("sheet.pdf");
  writePdf(cutSheets(at.plan, at.boards, at.job, at.shop, at.facts), pdf.toStdString(), "Cuts");
  const QString words = test::run("pdftotext", {"-layout", pdf, "-"}).join('\n');
  for (const char* figure : {"49 3/4", "50 3/8", "100 1/4", "3 9/16", "16 1/4", "121 1/2"})
    CHECK(words.contains(figure));
}

TEST_CASE(
    "sheets of random plans: no text on another, all steps there, on as many sheets as needed") {
  std::mt19937 random(41);
  std::size_t most = 0;
  for (int n = 0; n < 40; ++n) {
    Case at = mapChest();
    at.plan.cuttings = {test::randomCutting(random, at.boards[0], at.shop)};
    at.job.parts[2].name = "long front of the harbour archive's second map chest";
    const auto pages = cutSheets(at.plan, at.boards, at.job, at.shop, at.facts);
    most = std::max(most, pages.size());
    int rings = 0;
    for (const Page& page : pages) {
      checkTexts(page, tableTop(page));
      CHECK(allWords(page).contains("Your machine's manual and the local rules come first."));
      for (const Ink& one : page.ink)
        if (const auto* ring = std::get_if<Ellipse>(&one))
          rings += ring->tone == Tone::ink && ring->box.top() > tableTop(page);
    }
    int cuts = 0;
    for (const SawStep& step : sawSteps(at.plan.cuttings[0], at.boards[0], at.job, at.shop))
      cuts += step.number > 0;
    CHECK(rings == cuts);
  }
  CHECK(most > 1);
}

TEST_CASE("a first length that is thrown is no squared end, and a kept size is read whole") {
  SawStep step;
  step.kind = SawStep::Kind::squareEnd;
  step.number = 1;
  step.measure = Length::inches(3);
  CHECK(rowOf(step, {}, Unit::inches).what == "square the end");
  step.falls = "waste";
  CHECK(rowOf(step, {}, Unit::inches).what == "crosscut, waste off");

  Piece kept;
  kept.kind = PieceKind::offcut;
  kept.at = {{}, {}, Length::sixtyFourths(25 * 64 + 56), Length::sixtyFourths(15 * 64 + 8)};
  step.kind = SawStep::Kind::trimStrip;
  step.stick = 2;
  step.piece = 0;
  step.measure = kept.at.dx;
  step.from = "from stop";
  Cutting cutting;
  cutting.pieces = {kept};
  const Row row = rowOf(step, cutting, Unit::inches);
  CHECK(row.falls == "keep 25 7/8 × 15 1/8");
  const double half = (297 - 2 * 16 - 8) / 2.0;
  const Columns columns = columnsFor({row}, half);
  CHECK(columns.fallsStart + textWidth(row.falls, 11, false) <= half);
}

TEST_CASE("a long board takes the next scale and stays on the sheet") {
  Case at = mapChest();
  const Outline outline =
      Outline::tapered(Length::inches(190), Length::inches(8), Length::inches(8));
  at.boards[0].outline = {outline, outline};
  at.boards[0].defects.clear();
  std::mt19937 random(43);
  at.plan.cuttings = {test::randomCutting(random, at.boards[0], at.shop)};
  const auto pages = cutSheets(at.plan, at.boards, at.job, at.shop, at.facts);
  CHECK(shows(pages[0], "1 : 20"));
  checkTexts(pages[0], tableTop(pages[0]));
}

TEST_CASE("a board that is not at hand is the caller's mistake") {
  Case at = mapChest();
  at.boards[0].id = {7};
  CHECK_THROWS_AS(cutSheets(at.plan, at.boards, at.job, at.shop, at.facts), std::invalid_argument);
}

TEST_CASE("cautions say what the stock calls for and end with the manual") {
  Board board = test::mapChestBoard();
  const auto plain = cautionsFor(board);
  CHECK(plain.back() == "Your machine's manual and the local rules come first.");
  CHECK(says(plain, "Bow 1/4 in"));
  CHECK(says(plain, "No rough edge runs against a rip fence."));
  CHECK(says(plain, "Narrow rips"));
  CHECK_FALSE(says(plain, "Heavy"));
  CHECK_FALSE(says(plain, "not ripped against a fence"));
  board.warp.bow = {};
  CHECK_FALSE(says(cautionsFor(board), "Bow"));
  // 126 in x 8 1/2 in x 2 in of cherry: 35.1 dm3 at 0.50 and 12 %, 19.7 kg, 43 lb.
  board.thickness = Length::inches(2);
  CHECK_FALSE(says(cautionsFor(board), "Heavy"));
  board.thickness = Length::sixtyFourths(5 * 32);
  CHECK(says(cautionsFor(board), "Heavy, about 54 lb: mind"));
  board.thickness = Length::inches(4);
  CHECK(says(cautionsFor(board), "two people."));
  board.species = "a wood nobody has weighed";
  board.thickness = Length::inches(2);
  CHECK(says(cautionsFor(board), "Heavy"));
}

TEST_CASE("short work and the push stick: HSE web pages on planers and rip saws (S)") {
  // hse_planer_short_work: under 300 mm a push block and another machine; saw_push_stick_zone: the
  // last 300 mm of the cut (safety_numbers.csv).
  for (const Unit unit : {Unit::inches, Unit::millimetres}) {
    CHECK(startingProfile(unit).jointerShortest >= Length::millimetres(300));
  }
  Case at = mapChest();
  at.shop.jointerShortest = Length::millimetres(300);
  const auto metric =
      cautions(at.plan.cuttings[0], at.boards[0], at.job, at.shop, Unit::millimetres);
  CHECK(says(metric, "push stick for the last 300 mm of the cut"));
  at.shop.jointerShortest = Length::inches(17);
  const auto shorter =
      cautions(at.plan.cuttings[0], at.boards[0], at.job, at.shop, Unit::millimetres);
  CHECK(says(shorter, "push block on the jointer, and think of another machine"));
}

TEST_CASE("short and thin pieces are named") {
  Case at = mapChest();
  at.shop.jointerShortest = Length::inches(17);
  at.job.parts[4].thickness = Length::sixtyFourths(24);
  const auto all = cautions(at.plan.cuttings[0], at.boards[0], at.job, at.shop);
  CHECK(says(all, "D1, D2, D3 under 17 in: push block"));
  CHECK(says(all, "E1 under 1/2 in thick"));
}

TEST_CASE("blanks that lose more than an inch to the planer are named (common practice)") {
  Case at = mapChest();
  Board thick = at.boards[0];
  thick.thickness = at.job.parts[2].thickness + Length::inches(1);
  CHECK_FALSE(says(cautionsFor(thick), "to the planer"));
  thick.thickness += Length::sixtyFourths(1);
  CHECK(says(cautionsFor(thick), "C1, C2"));
  CHECK(says(cautionsFor(thick), "lose more than 1 in to the planer: resaw them first"));
  // Three leaves of one blank and the two kerfs between them leave nothing to plane away.
  const Cutting& cutting = at.plan.cuttings[0];
  const auto blank = std::find_if(cutting.pieces.begin(), cutting.pieces.end(),
                                  [](const Piece& p) { return p.kind == PieceKind::blank; });
  Part part;
  part.thickness = Length::sixtyFourths(32);
  thick.thickness = Length::inches(2);
  const auto place = static_cast<std::size_t>(blank - cutting.pieces.begin());
  CHECK(planedAway(cutting, place, thick, part, at.shop) == Length::sixtyFourths(96));
  Cutting resawn = cutting;
  for (int leaf = 1; leaf <= 3; ++leaf) {
    Layup layup;
    layup.piece = static_cast<int>(place);
    layup.kind = LayupKind::whole;
    layup.copy = leaf;
    layup.slot = leaf;
    resawn.layups.push_back(layup);
  }
  // 2 less 3 x 1/2 and 2 x 1/16: 3/8.
  CHECK(planedAway(resawn, place, thick, part, at.shop) == Length::sixtyFourths(24));
}

TEST_CASE("a turned blank and an unseen face are named on the sheet") {
  Case at = mapChest();
  at.boards[0].looked = {Looked::rough, Looked::no};
  for (Piece& piece : at.plan.cuttings[0].pieces)
    if (piece.line == 3) piece.faceUp = Face::b;
  const auto pages = cutSheets(at.plan, at.boards, at.job, at.shop, at.facts);
  CHECK(allWords(pages[0]).contains("Face B of the board is face A of C1, C2."));
  CHECK(allWords(pages[0]).contains("Nobody has looked at face B: look before the first cut."));
}

TEST_CASE("the sheet says which edge is the front, where the edges of a part differ") {
  Case at = mapChest();
  const auto sheet = [&] {
    return allWords(cutSheets(at.plan, at.boards, at.job, at.shop, at.facts)[0]);
  };
  CHECK_FALSE(sheet().contains("front edge"));
  at.job.parts[2].edges = {"clear", "sound"};
  at.job.parts[3].edges = {"sound", "hidden"};
  CHECK(sheet().contains("The heavy line is the front edge: toward edge V on C1, C2, D1, D2, D3."));
  for (Piece& piece : at.plan.cuttings[0].pieces) {
    if (piece.line == 3) piece.frontEdge = Edge::far;
    if (piece.copy == 1) piece.faceUp = Face::b;
  }
  CHECK(
      sheet().contains("Face B of the board is face A of C1, D1, E1. The heavy line is the front "
                       "edge: toward edge V on D1, D2, D3, toward the far edge on C1, C2."));
}

TEST_CASE("the summary carries the proof, its terms, the shortages and every board") {
  Case at = mapChest();
  at.plan.boundKind = PlanBound::exact;
  at.plan.woodCost = Money::units(50);
  at.plan.offcutWorth = Money::units(8);
  at.plan.cutCost = Money::units(16);
  at.plan.bound = Money::units(60);
  at.plan.shorts = {{1, 2, true, "no 8/4 white oak of 3 1/2 in width is free"}};
  at.plan.waiting = {2};
  for (const bool letter : {false, true}) {
    at.facts.letter = letter;
    const Page page =
        planSummary(at.plan, at.boards, at.job, at.shop, at.facts, {"Stopped by itself."});
    for (const char* words :
         {"Best so far $1,199.40", "defects as marked", "1/16 in", "$66.00", "$60.00",
          "Short: 2 top (A)", "No wood is planned yet for case side (B)", "T0042-F",
          "2 C, 3 D, 1 E", "1 board opened", "Stopped by itself."})
      CHECK(allWords(page).contains(words));
    checkTexts(page, 0);
  }
  // More boards than a page holds are counted, not dropped in silence.
  for (int n = 0; n < 60; ++n) at.plan.cuttings.push_back(at.plan.cuttings[0]);
  const Page page = planSummary(at.plan, at.boards, at.job, at.shop, at.facts, {});
  CHECK(allWords(page).contains("61 boards opened"));
  CHECK(allWords(page).contains("more, each on its own sheet"));
  checkTexts(page, 0);
}
