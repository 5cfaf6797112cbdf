#include "labels/passport_page.h"

#include <algorithm>

#include "labels/board_drawing.h"
#include "labels/page.h"
#include "labels/sheet.h"

namespace flitch::pages {
namespace {

void drawBoard(Sheet& sheet, double top, const Board& board, const Piece& piece,
               const std::string& handMark) {
  constexpr double highest = 90;
  const Rect bounds = boundsOf(board);
  const double room = sheet.right() - sheet.left() - 8;
  BoardLook look;
  look.scale = std::min(room / (static_cast<double>(bounds.dx.nm()) / 1e6),
                        highest / (static_cast<double>(bounds.dy.nm()) / 1e6));
  look.letters = false;
  const QPointF at(sheet.left() + 4, top);
  lay(sheet.page, drawFace(board, piece.faceUp, at, look));
  const BoardView view(board, piece.faceUp, at, look);
  const QRectF part = view.page(piece.at);
  sheet.page.ink.emplace_back(
      Area{{part.topLeft(), part.topRight(), part.bottomRight(), part.bottomLeft()},
           Fill::tone,
           Tone::sheet,
           0.7,
           Tone::ink,
           Dash::solid});
  const QString mark = asText(handMark);
  const double points = std::min(14.0, std::max(7.0, part.height() * 2));
  if (textWidth(mark, points, true) < part.width() && points * 0.28 < part.height())
    sheet.writeCentred(part.center().x(), part.center().y() + points * 0.127, mark, points, true);
  sheet.write(sheet.left() + 4, top + view.size().height() + 6,
              "tag end at the left, the near edge " +
                  QString(piece.faceUp == Face::a ? "below" : "above") + "; the part is framed",
              9, false, 0, Tone::soft);
}

}  // namespace

Page passportPage(const Table& words, const Board& board, const Piece& piece,
                  const PassportFacts& facts) {
  Sheet sheet(false, false);
  const double top = Sheet::margin, x = sheet.left();
  const double room = sheet.right() - x;
  sheet.write(x, top + 6, "Where this part comes from", 12, false, room, Tone::soft);
  const QString name = asText(facts.handMark + "  " + facts.part);
  sheet.write(x, top + 17, name, fittingPoints(name, 26, true, room), true, room);
  sheet.write(x, top + 25,
              asText(facts.job + (facts.customer.empty() ? "" : ", " + facts.customer)), 14, false,
              room);
  sheet.rule(top + 29);
  double y = top + 38;
  constexpr double column = 42;
  for (const auto& row : words.rows) {
    const QString what = asText(std::get<std::string>(row[0]));
    sheet.write(x, y, what, 10, false, column - 3, Tone::soft);
    for (const QString& line :
         wrapped(asText(std::get<std::string>(row[1])), 12, false, room - column)) {
      sheet.write(x + column, y, line, 12, false, room - column);
      y += 6;
    }
    y += 2;
  }
  drawBoard(sheet, y + 8, board, piece, facts.handMark);
  sheet.titleBlock({{"Part", asText(facts.handMark + " " + facts.part), 0.36},
                    {"Made by", asText(facts.book), 0.4},
                    {"Printed", asText(facts.printed), 0.24}});
  return std::move(sheet.page);
}

}  // namespace flitch::pages
