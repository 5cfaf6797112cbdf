// A cut sheet alone is enough: its words are taken from the PDF by an independent reader, the cuts
// made by them at a bench, and the pieces held against those of the checked plan.
#include <QRegularExpression>
#include <QTemporaryDir>
#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <stop_token>

#include "inventory/planning/planner.h"
#include "labels/cut_sheet.h"
#include "tests/labels/bench.h"
#include "tests/labels/outside_readers.h"
#include "tests/labels/sample_boards.h"
#include "tests/labels/sample_cuttings.h"
#include "tests/planning/random_shop.h"

using namespace flitch;
using namespace flitch::pages;
using test::Bench;
using Kind = SawStep::Kind;

namespace {

/// A row of the table of cuts, as it is read.
struct ReadRow {
  SawStep step;
  QString mark;  ///< the hand mark of what falls, if a blank does
  QString keep;  ///< the size of what falls, if it is kept: "31 1/8 × 3"
  QString line;
};

Length measureOf(const QString& words) { return parseLength(words.toStdString(), Bare::inches); }

/// What a row says is cut, and on which stick, as its words alone tell it.
class TableReader {
 public:
  void read(const QString& line) {
    static const QRegularExpression row(
        R"(^\s*(\d+|A)?\s+(square the end|crosscut, waste off|crosscut length \d+|crosscut strip \d+)"
        R"(|crosscut the rest|length \d+, \w+|edge of length \d+|reference edge|rip length \d+)"
        R"(|rip piece \d+|rip the board|remainder)\s+(\d+(?: \d+/\d+)?|\d+/\d+)\s+(.*)$)");
    const QRegularExpressionMatch match = row.match(line);
    if (!match.hasMatch()) return;
    ReadRow read;
    read.line = line.simplified();
    read.step.number = match.captured(1).toInt();
    read.step.measure = measureOf(match.captured(3));
    what(read, match.captured(2));
    rest(read, match.captured(4).simplified());
    rows.push_back(std::move(read));
  }
  std::vector<ReadRow> rows;

 private:
  void what(ReadRow& read, const QString& words) {
    SawStep& step = read.step;
    static const QRegularExpression digits(R"((\d+))");
    const int number = digits.match(words).captured(1).toInt();
    if (words.startsWith("square") || words.startsWith("crosscut, waste")) {
      step.kind = step.number == 1 ? Kind::squareEnd : Kind::crosscut;
    } else if (words.startsWith("crosscut length") || words.startsWith("length")) {
      step.kind = Kind::crosscut;
      step.section = number;
      lengths_[number] = step.number;
      if (words.endsWith("keep")) read.keep = "any";
      if (words.startsWith("length") && !words.endsWith("keep")) read.mark = words.section(' ', -1);
    } else if (words.startsWith("crosscut")) {
      step.kind = Kind::trimStrip;
      step.stick = number;
    } else if (words == "reference edge" || words.startsWith("edge of length")) {
      step.kind = Kind::reference;
      step.section = number;
      step.stick = lengths_[number];
    } else if (words == "remainder") {
      step.kind = Kind::remainder;
    } else {
      step.kind = Kind::rip;
      if (words.startsWith("rip length")) step.section = number;
      step.stick = words.startsWith("rip length") ? lengths_[number] : number;
    }
  }
  /// Where the measure is taken from, and what falls.
  static void rest(ReadRow& read, const QString& words) {
    static const QRegularExpression from(
        R"(^(off end|from stop|off, jointer|off, track saw|off, sled|(?:off|from) edge V)"
        R"(|(?:off|from) cut \d+)?\s*(.*)$)");
    const QRegularExpressionMatch match = from.match(words);
    read.step.from = match.captured(1).toStdString();
    const QString falls = match.captured(2);
    if (falls.startsWith("keep ")) read.keep = falls.mid(5);
    static const QRegularExpression mark(R"(^([A-Z]{1,2}\d+)( |$))");
    if (const auto blank = mark.match(falls); blank.hasMatch()) read.mark = blank.captured(1);
  }
  std::map<int, int> lengths_;  ///< the cut that freed each length
};

/// Rows of every board's sheets, by tag: the left half of a page, then the right.
std::map<QString, std::vector<ReadRow>> tablesOf(const QString& pdf, int pages) {
  std::map<QString, TableReader> readers;
  QString tag;
  for (int page = 1; page <= pages; ++page) {
    for (const bool left : {true, false}) {
      const QString number = QString::number(page);
      const QStringList lines =
          test::run("pdftotext", {"-layout", "-f", number, "-l", number, "-x", left ? "0" : "421",
                                  "-y", "0", "-W", "421", "-H", "595", pdf, "-"});
      if (left) tag = lines.value(0).simplified().section(' ', 0, 0);
      for (const QString& line : lines) readers[tag].read(line);
    }
  }
  std::map<QString, std::vector<ReadRow>> tables;
  for (auto& [name, reader] : readers) tables[name] = std::move(reader.rows);
  return tables;
}

const Piece* blankMarked(const Cutting& cutting, const QString& mark) {
  for (const Piece& piece : cutting.pieces)
    if (piece.kind == PieceKind::blank && handMark(piece.line, piece.copy) == mark.toStdString())
      return &piece;
  return nullptr;
}

/// Cuts the board by what was read; the same pieces must lie on the bench, by their marks, up to
/// what paper rounds (`off`).
int cutByPaper(const std::vector<ReadRow>& rows, const Cutting& cutting, const Board& board,
               const ShopProfile& shop, Length off) {
  Bench bench(board, shop);
  int number = 0;
  for (const ReadRow& row : rows) {
    INFO(row.line.toStdString());
    if (row.step.number > 0) CHECK(row.step.number == ++number);
    bench.make(row.step);
    if (!row.mark.isEmpty()) {
      const Piece* blank = blankMarked(cutting, row.mark);
      REQUIRE(blank);
      CHECK(test::near(bench.stick(row.step.number), blank->at, off));
    }
    if (row.keep.contains(QStringLiteral("×"))) {
      const Rect& kept = bench.stick(row.step.number);
      CHECK(row.keep == QString::fromStdString(text(kept.dx, LengthStyle::inches) + " × " +
                                               text(kept.dy, LengthStyle::inches)));
    }
  }
  int products = 0;
  for (const Piece& piece : cutting.pieces) {
    if (piece.kind != PieceKind::blank && piece.kind != PieceKind::offcut) continue;
    INFO((piece.line > 0 ? handMark(piece.line, piece.copy) : "offcut"));
    CHECK(bench.has(piece.at, off));
    ++products;
  }
  return products;
}

/// Prints the plan's sheets, reads them back and cuts by them; how many pieces that gave.
int printedAndCut(const CutPlan& plan, const std::vector<Board>& boards, const Job& job,
                  const ShopProfile& shop, Length off) {
  const QTemporaryDir folder;
  const QString pdf = folder.filePath("sheets.pdf");
  const std::vector<Page> pages =
      cutSheets(plan, boards, job, shop, {"", "25 Nov 2026", Unit::inches, false, "$", {}});
  writePdf(pages, pdf.toStdString(), "Cuts");
  const auto tables = tablesOf(pdf, static_cast<int>(pages.size()));
  int products = 0;
  for (const Cutting& cutting : plan.cuttings) {
    const auto board = std::find_if(boards.begin(), boards.end(),
                                    [&](const Board& b) { return b.id == cutting.board; });
    REQUIRE(board != boards.end());
    const QString tag = QString::fromStdString(text(*board->tag));
    INFO(tag.toStdString());
    REQUIRE(tables.contains(tag));
    products += cutByPaper(tables.at(tag), cutting, *board, shop, off);
  }
  return products;
}

}  // namespace

TEST_CASE("cuts read from the sheets of random cuttings give the pieces of the plan") {
  std::mt19937 random(77);
  const ShopProfile shop;
  CutPlan plan;
  std::vector<Board> boards;
  constexpr int count = 60;
  for (int n = 1; n <= count; ++n) {
    Board board = test::mapChestBoard();
    board.id = {n};
    std::int64_t serial = 100 + n;
    while (!issuable(TagKind::board, serial)) serial += count;
    board.tag = TagCode{TagKind::board, serial};
    board.sawnEnd = {n % 3 == 0, n % 5 == 0};
    plan.cuttings.push_back(test::randomCutting(random, board, shop));
    boards.push_back(std::move(board));
  }
  // A tapered edge lies on no sixty-fourth: paper says it rounded, and so each cut after it.
  const Length off = Length::sixtyFourths(1);
  CHECK(printedAndCut(plan, boards, test::mapChestJob(), shop, off) > 4 * count);
}

TEST_CASE("a plan the checker has passed is sawn from its paper alone, piece by piece") {
  int products = 0, plans = 0;
  for (unsigned seed = 1; seed <= 8; ++seed) {
    INFO("shop " << seed);
    PlanRequest request = bench::RandomShop(seed).request(6, 4);
    std::int64_t serial = 40;
    for (Board& board : request.boards) {
      while (!issuable(TagKind::board, ++serial)) {
      }
      board.tag = TagCode{TagKind::board, serial};
      // A crooked edge lies on no sixty-fourth: paper says it rounded.
      board.warp.crook = {};
    }
    optimizer::Limits limits;
    limits.effort = 1;
    const planning::PlanResult made = planning::makePlan(request, limits);
    REQUIRE(check(made.plan, request).empty());
    if (made.plan.cuttings.empty()) continue;
    ++plans;
    products += printedAndCut(made.plan, request.boards, request.job, request.shop, {});
  }
  CHECK(plans >= 5);
  CHECK(products > 30);
}
