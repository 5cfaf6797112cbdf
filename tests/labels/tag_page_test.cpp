#include "labels/tag_page.h"

#include <QDir>
#include <QTemporaryDir>
#include <algorithm>
#include <catch2/catch.hpp>
#include <stdexcept>

#include "inventory/records/refusal.h"
#include "labels/picture_reader.h"
#include "tests/labels/outside_readers.h"
#include "tests/labels/sample_boards.h"

using namespace flitch;
using namespace flitch::pages;

namespace {

constexpr const char* stocksForBoards[] = {"roll-100x50", "a4-3x8", "letter-2x5"};

/// What one piece of ink covers; a symbol with its quiet zone.
struct Covered {
  QRectF box;
  QString what;
};

QRectF boundsOf(const std::vector<QPointF>& points, double pen) {
  QRectF box(points.front(), points.front());
  for (const QPointF& point : points) {
    box.setLeft(std::min(box.left(), point.x()));
    box.setRight(std::max(box.right(), point.x()));
    box.setTop(std::min(box.top(), point.y()));
    box.setBottom(std::max(box.bottom(), point.y()));
  }
  return box.adjusted(-pen / 2, -pen / 2, pen / 2, pen / 2);
}

std::vector<Covered> coveredBy(const Page& page) {
  std::vector<Covered> all;
  for (const Ink& ink : page.ink) {
    if (const auto* text = std::get_if<Text>(&ink))
      all.push_back({textBox(*text), text->text});
    else if (const auto* symbol = std::get_if<Symbol>(&ink))
      all.push_back({symbol->box, "symbol " + QString::fromStdString(symbol->text)});
    else if (const auto* line = std::get_if<Line>(&ink))
      all.push_back({boundsOf(line->points, line->width), "line"});
    else if (const auto* area = std::get_if<pages::Area>(&ink))
      all.push_back({boundsOf(area->points, area->outline), "area"});
    else
      FAIL("unexpected ink on a label");
  }
  return all;
}

void checkLayout(const Page& page) {
  const auto all = coveredBy(page);
  const QRectF inside = QRectF(QPointF(0, 0), page.mm).adjusted(1, 1, -1, -1);
  for (std::size_t a = 0; a < all.size(); ++a) {
    INFO(all[a].what.toStdString());
    CHECK(inside.contains(all[a].box));
    for (std::size_t b = a + 1; b < all.size(); ++b) {
      INFO(all[b].what.toStdString());
      CHECK_FALSE(all[a].box.adjusted(0.02, 0.02, -0.02, -0.02).intersects(all[b].box));
    }
  }
}

bool shows(const Page& page, const QString& words) {
  return std::any_of(page.ink.begin(), page.ink.end(), [&](const Ink& ink) {
    const auto* text = std::get_if<Text>(&ink);
    return text && shownText(*text).contains(words);
  });
}

bool isSlip(const LabelStock& stock) { return stock.name == "slip-38x13"; }

/// A slip carries a Data Matrix alone: read by our reader and by dmtxread.
void checkReadsSlip(const QImage& image, TagCode tag, const QTemporaryDir& folder) {
  const std::vector<Found> found = decode(image);
  REQUIRE(found.size() == 1);
  CHECK(found[0].format == "DataMatrix");
  CHECK(found[0].text == symbolText(tag));
  const QString file = folder.filePath("slip.png");
  REQUIRE(image.save(file));
  CHECK(test::dmtx(file) == QStringList{QString::fromStdString(symbolText(tag))});
}

std::vector<std::string> expected(const Board& board) {
  const std::string code = symbolText(*board.tag);
  return {"CODE-128:" + code, "QR-Code:" + code};
}

/// Reads one label by our reader and by zbarimg: both symbols, nothing else.
void checkReads(const QImage& image, const Board& board, const QTemporaryDir& folder) {
  std::vector<std::string> ours;
  for (const Found& found : decode(image))
    ours.push_back((found.format == "Code128" ? "CODE-128:" : "QR-Code:") + found.text);
  std::sort(ours.begin(), ours.end());
  CHECK(ours == expected(board));
  const QString file = folder.filePath("label.png");
  REQUIRE(image.save(file));
  std::vector<std::string> theirs;
  for (const QString& line : test::zbar(file)) theirs.push_back(line.toStdString());
  CHECK(theirs == expected(board));
}

QImage croppedTo(const QImage& page, const LabelStock& stock, int place, int dpi) {
  const QPointF at = stock.origin + QPointF(place % stock.columns * stock.pitch.x(),
                                            place / stock.columns * stock.pitch.y());
  const double dots = dpi / 25.4;
  return page.copy(QRectF(at * dots, stock.label * dots).toAlignedRect());
}

}  // namespace

TEST_CASE("on no tag does anything overlap or leave the label, however long the names") {
  std::vector<Board> boards = test::sampleBoards(11, 60);
  boards.push_back(test::mapChestBoard());
  for (const Board& board : boards)
    for (const LabelStock& stock : labelStocks()) {
      INFO(stock.name << " " << text(*board.tag) << " " << board.species << " " << board.grade);
      for (const Unit unit : {Unit::inches, Unit::millimetres})
        checkLayout(boardTag(board, stock, unit));
      const Page blank = blankTag(*board.tag, stock);
      checkLayout(blank);
      CHECK(shows(blank, QString::fromStdString(text(*board.tag))));
    }
}

TEST_CASE("a board tag says what the board is") {
  const Board board = test::mapChestBoard();
  for (const char* stock : stocksForBoards) {
    INFO(stock);
    const Page tag = boardTag(board, *findLabelStock(stock), Unit::inches);
    for (const char* words : {"T0042-F", "cherry", "4/4", "7.4 bf", "FAS", "bay B3", "near edge"})
      CHECK(shows(tag, words));
    CHECK(shows(tag, QString::fromStdString(sizeText(board, Unit::inches))));
  }
  Board untagged = board;
  untagged.tag.reset();
  CHECK_THROWS_AS(boardTag(untagged, *findLabelStock("roll-100x50"), Unit::inches),
                  std::invalid_argument);
}

TEST_CASE("every symbol on a tag is whole dots at 203 and 300 dpi") {
  for (const Board& board : test::sampleBoards(12, 30))
    for (const LabelStock& stock : labelStocks())
      for (const Ink& ink : boardTag(board, stock, Unit::inches).ink)
        if (const auto* symbol = std::get_if<Symbol>(&ink))
          for (const int dpi : {203, 300}) {
            INFO(stock.name << " at " << dpi);
            CHECK(symbolDots(*symbol, dpi).module >= (stock.label.height() < 45 ? 2 : 3));
          }
}

TEST_CASE("every tag reads back from a picture at 203 and 300 dpi") {
  const QTemporaryDir folder;
  for (const Board& board : test::sampleBoards(13, 30))
    for (const char* stock : stocksForBoards)
      for (const int dpi : {203, 300}) {
        INFO(stock << " " << text(*board.tag) << " at " << dpi);
        checkReads(toImage(boardTag(board, *findLabelStock(stock), Unit::inches), dpi, true), board,
                   folder);
      }
}

TEST_CASE("every tag of a PDF from the roll reads back at 203 and 300 dpi") {
  const QTemporaryDir folder;
  const LabelStock& stock = *findLabelStock("roll-100x50");
  const std::vector<Board> boards = test::sampleBoards(14, 30);
  std::vector<Page> tags;
  for (const Board& board : boards) tags.push_back(boardTag(board, stock, Unit::inches));
  const QString pdf = folder.filePath("tags.pdf");
  writePdf(impose(tags, stock), pdf.toStdString(), "Tags");
  for (const int dpi : {203, 300}) {
    const std::vector<QImage> pages = test::renderPdf(pdf, dpi);
    REQUIRE(pages.size() == boards.size());
    for (std::size_t at = 0; at < boards.size(); ++at) {
      INFO(text(*boards[at].tag) << " at " << dpi);
      checkReads(pages[at], boards[at], folder);
    }
  }
}

TEST_CASE("every tag of a PDF of sheets reads back at 203 and 300 dpi, label by label") {
  const QTemporaryDir folder;
  const LabelStock& stock = *findLabelStock("a4-3x8");
  const std::vector<Board> boards = test::sampleBoards(15, 30);
  std::vector<Page> tags;
  for (const Board& board : boards) tags.push_back(boardTag(board, stock, Unit::millimetres));
  const QString pdf = folder.filePath("tags.pdf");
  writePdf(impose(tags, stock), pdf.toStdString(), "Tags");
  for (const int dpi : {203, 300}) {
    const std::vector<QImage> pages = test::renderPdf(pdf, dpi);
    REQUIRE(pages.size() == 2);
    for (std::size_t at = 0; at < boards.size(); ++at) {
      INFO(text(*boards[at].tag) << " at " << dpi);
      const QImage label = croppedTo(pages[at / 24], stock, static_cast<int>(at % 24), dpi);
      checkReads(label, boards[at], folder);
    }
  }
}

TEST_CASE("end tags and blank tags read back") {
  const QTemporaryDir folder;
  for (Board board : test::sampleBoards(16, 12))
    for (const int dpi : {203, 300}) {
      board.kind = BoardKind::plank;
      INFO(text(*board.tag) << " at " << dpi);
      const LabelStock& end = *findLabelStock("end-72x18");
      checkReads(toImage(boardTag(board, end, Unit::inches), dpi, true), board, folder);
      for (const LabelStock& stock : labelStocks())
        if (!isSlip(stock))
          checkReads(toImage(blankTag(*board.tag, stock), dpi, true), board, folder);
    }
}

TEST_CASE("slips read back by their Data Matrix") {
  const QTemporaryDir folder;
  const LabelStock& slip = *findLabelStock("slip-38x13");
  for (const Board& board : test::sampleBoards(17, 6))
    for (const int dpi : {203, 300}) {
      INFO(text(*board.tag) << " at " << dpi);
      checkReadsSlip(toImage(boardTag(board, slip, Unit::inches), dpi, true), *board.tag, folder);
      checkReadsSlip(toImage(blankTag(*board.tag, slip), dpi, true), *board.tag, folder);
    }
  CHECK_THROWS_AS(bayTag({{TagKind::bay, 3}, "B3", ""}, slip), Refusal);
}

TEST_CASE("an end tag has the sizes that surfaced 4/4 asks for") {
  // An end tag is 18 mm high, its QR 9 mm, its letters 20 pt, its bars 5.5 mm.
  const LabelStock& end = *findLabelStock("end-72x18");
  CHECK(end.label.height() == 18);
  const Page page = boardTag(test::mapChestBoard(), end, Unit::inches);
  bool letters = false;
  for (const Ink& ink : page.ink) {
    if (const auto* said = std::get_if<Text>(&ink))
      letters = letters || (said->text == "T0042-F" && said->points == 20);
    if (const auto* symbol = std::get_if<Symbol>(&ink)) {
      if (symbol->kind == Symbol::Kind::code128) CHECK(symbol->box.height() == Approx(5.5));
      if (symbol->kind == Symbol::Kind::qr)
        CHECK(symbolDots(*symbol, 300).width * 25.4 / 300 == Approx(9).margin(0.2));
    }
  }
  CHECK(letters);
}

TEST_CASE("a bay tag shows its name and what lies there, and reads back") {
  const QTemporaryDir folder;
  for (const char* stock : stocksForBoards) {
    INFO(stock);
    for (const std::string bay : {"B3", "Lean-to", "the loft behind the drying kiln, far wall"}) {
      for (const std::int64_t serial : {3, 104, 12'003}) {
        if (!issuable(TagKind::bay, serial)) continue;
        const BayTag facts{{TagKind::bay, serial}, bay, "cherry 4/4 · white oak 8/4 · ash 5/4"};
        const Page page = bayTag(facts, *findLabelStock(stock));
        checkLayout(page);
        CHECK(shows(page, QString::fromStdString(bay)));
        CHECK(shows(page, QString::fromStdString(text(facts.tag))));
        CHECK(shows(page, "cherry 4/4"));
        for (const int dpi : {203, 300}) {
          const QString file = folder.filePath("bay.png");
          REQUIRE(toImage(page, dpi, true).save(file));
          const auto read = test::zbar(file);
          REQUIRE(read.size() == 1);
          CHECK(read[0].toStdString() == "CODE-128:" + symbolText(facts.tag));
        }
      }
    }
  }
  CHECK_THROWS_AS(bayTag({{TagKind::bay, 3}, "B3", ""}, *findLabelStock("end-72x18")), Refusal);
}

TEST_CASE("a part label shows all it was given and nothing overlaps") {
  PartLabel label{
      "B2",     "case side",         "Map chest",     "27 × 4 3/4 rough",   "26 × 4 1/2 × 13/16",
      "show A", "next: joint edges", "T0045-9 cut 6", {TagKind::board, 45}, "front: edge V"};
  for (const char* stock : stocksForBoards) {
    const Page page = partLabel(label, *findLabelStock(stock));
    checkLayout(page);
    for (const std::string& words :
         {label.handMark, label.part, label.job, label.rough, label.finished, label.show,
          label.next, label.from, label.front})
      CHECK(shows(page, QString::fromStdString(words)));
  }
  label.handMark = "AB12";
  label.part = label.job = label.next = label.finished =
      "a name nobody would give a part of a chest but somebody will";
  for (const char* stock : stocksForBoards) checkLayout(partLabel(label, *findLabelStock(stock)));
  CHECK_THROWS_AS(partLabel(label, *findLabelStock("end-72x18")), Refusal);
}
