#include "labels/cut_sheet.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <stdexcept>

#include "inventory/records/glue_up.h"
#include "labels/facing.h"
#include "labels/mark_drawing.h"
#include "labels/page.h"
#include "labels/sheet.h"
#include "labels/step_table.h"
#include "labels/symbol.h"

namespace flitch::pages {
namespace {

using Kind = SawStep::Kind;

constexpr double mmPerInch = 25.4;
constexpr double mmPerPoint = mmPerInch / 72;
constexpr double columnGap = 7;

/// Chalk marks: running measures from the fresh end, as the tape lies.
void drawChalk(Sheet& sheet, const std::vector<SawStep>& steps, const BoardView& view,
               const Board& board, double y, Unit unit) {
  constexpr double tick = 1.5, points = 12;
  const LengthStyle style = unit == Unit::inches ? LengthStyle::inches : LengthStyle::millimetres;
  struct Mark {
    double x;
    Length measure;
    bool end;
  };
  std::vector<Mark> marks;
  Length zero = board.length();
  bool any = false;
  for (const SawStep& step : steps) {
    if (step.kind == Kind::squareEnd) zero = board.length() - step.measure;
    any = any || step.kind == Kind::crosscut;
  }
  if (!any) return;
  const auto at = [&](Length measure) { return view.page(mm(zero - measure), 0).x(); };
  marks.push_back({at({}), {}, true});
  for (const SawStep& step : steps)
    if (step.kind == Kind::crosscut) marks.push_back({at(step.chalk), step.chalk, false});
  marks.push_back({at(zero), zero, true});
  sheet.line(marks.front().x, marks.back().x, y, 0.3, Tone::soft);
  double last = -1e9;
  for (const Mark& mark : marks) {
    sheet.page.ink.emplace_back(
        Line{{{mark.x, y - tick}, {mark.x, y + tick}}, 0.3, Dash::solid, Tone::soft});
    const QString figure = asText(text(mark.measure, style));
    const double half = textWidth(figure, points, !mark.end) / 2;
    if (mark.x - half < last + 2) continue;
    sheet.page.ink.emplace_back(Text{{mark.x, y + tick + points * mmPerPoint + 0.4},
                                     figure,
                                     points,
                                     !mark.end,
                                     Qt::AlignHCenter,
                                     mark.end ? Tone::soft : Tone::ink});
    last = mark.x + half;
  }
}

/// 1 : 12.5 and the next scales that a board of this size takes.
double scaleFor(const Rect& bounds, double wide, double high) {
  for (const double scale : {12.5, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 75.0})
    if (mm(bounds.dx) / scale <= wide && mm(bounds.dy) / scale <= high) return scale;
  return 100;
}

QString piecesText(const Cutting& cutting, const Board& board, int cuts) {
  std::map<int, int> copies;
  double used = 0;
  for (const Piece& piece : cutting.pieces) {
    if (piece.kind != PieceKind::blank) continue;
    ++copies[piece.line];
    used += mm(piece.at.dx) * mm(piece.at.dy);
  }
  QStringList words;
  for (const auto& [line, count] : copies)
    words << QString::number(count) + " " + asText(partLetter(line));
  const double whole = static_cast<double>(board.outline[0].area().doubled) / 2e12;
  return words.join(", ") + " · " + QString::number(std::lround(used / whole * 100)) +
         " % used · " + QString::number(cuts) + (cuts == 1 ? " cut" : " cuts");
}

/// One board's sheet, and as many more as its steps need.
class BoardSheets {
 public:
  BoardSheets(const Cutting& cutting, const Board& board, const Job& job, const ShopProfile& shop,
              const CutSheetFacts& facts, Length tick, std::size_t number, std::size_t boards)
      : cutting_(cutting),
        board_(board),
        job_(job),
        shop_(shop),
        facts_(facts),
        number_(number),
        boards_(boards),
        steps_(sawSteps(cutting, board, job, shop)) {
    for (const SawStep& step : steps_) rows_.push_back(rowOf(step, cutting, facts.unit));
    std::string sentences = facingNotes(cutting, board, job) + laterCuts(tick);
    for (const std::string& caution :
         cautions(cutting, board, job, shop, facts.unit, facts.ownSpecies))
      sentences += caution + " ";
    caution_ = asText(sentences);
  }

  std::vector<Page> draw() {
    std::vector<Page> pages;
    std::size_t next = 0;
    do {
      Sheet sheet(facts_.letter, true);
      head(sheet);
      double y = Sheet::margin + 20;
      if (pages.empty()) y = board(sheet);
      const std::vector<QString> caution = cautionLines(sheet);
      const double boxHeight = caution.empty() ? 0 : static_cast<double>(caution.size()) * 6.4 + 4;
      const double columnWidth = (sheet.right() - sheet.left() - columnGap) / 2;
      const Columns columns = columnsFor(rows_, columnWidth);
      const std::size_t left = rows_.size() - next;
      // Rows come closer before a second sheet is begun.
      const double space = sheet.foot() - 3 - boxHeight - 2.5 - y;
      const double close = space / std::max(1.0, std::ceil(static_cast<double>(left) / 2));
      const double step = close < leastRowHeight ? rowHeight : std::min(close, rowHeight);
      const auto room = static_cast<std::size_t>(std::max(1.0, std::floor(space / step + 1e-6)));
      const std::size_t high = std::min(room, (left + 1) / 2);
      const std::size_t taken = std::min(left, 2 * high);
      for (std::size_t n = 0; n < taken; ++n) {
        const bool second = n >= high;
        drawRow(sheet, sheet.left() + (second ? columnWidth + columnGap : 0),
                y + static_cast<double>(second ? n - high : n) * step, step, rows_[next + n],
                columns);
      }
      next += taken;
      cautionBox(sheet, caution, y + static_cast<double>(high) * step + 2.5, boxHeight);
      pages.push_back(std::move(sheet.page));
    } while (next < rows_.size());
    for (std::size_t n = 0; n < pages.size(); ++n) finish(pages[n], n + 1, pages.size());
    return pages;
  }

 private:
  /// What is done to blanks of several once they are planed: no stage of this board's cuts.
  [[nodiscard]] std::string laterCuts(Length tick) const {
    std::string sentences;
    for (const Parted& parted : partedOf(cutting_, job_, shop_, tick)) {
      const auto part = std::find_if(job_.parts.begin(), job_.parts.end(),
                                     [&](const Part& p) { return p.line == parted.blank.line; });
      sentences += handMark(parted.blank.line, parted.blank.copy) + " " +
                   partingText(parted, *part, facts_.unit) + ". ";
    }
    return sentences;
  }

  void head(Sheet& sheet) const {
    const double top = Sheet::margin;
    double codeStart = sheet.right();
    if (board_.tag) {
      const QString tag = asText(text(*board_.tag));
      sheet.write(sheet.left(), top + 11, tag, fittingPoints(tag, 34, true, 58), true);
      const std::string symbol = symbolText(*board_.tag);
      const double module = 3 * mmPerInch / 203;
      const double wide = (code128(symbol).columns + 2 * quietCode128) * module;
      codeStart = sheet.right() + quietCode128 * module - wide;
      sheet.page.ink.emplace_back(
          Symbol{Symbol::Kind::code128, symbol, QRectF(codeStart, top - 0.5, wide, 11.5)});
    }
    const double x = sheet.left() + 62, jobX = x + 84;
    sheet.write(x, top + 4.6, asText(board_.species + " " + text(board_.nominal)), 15, true, 81);
    const QString bay = board_.bay.empty() ? QString() : "   bay " + asText(board_.bay);
    sheet.write(x, top + 11, asText(sizeText(board_, facts_.unit)) + bay, 13, false, 81);
    sheet.write(jobX, top + 4.6, asText(job_.name), 15, true, codeStart - jobX - 1);
    sheet.write(jobX, top + 11,
                "board " + QString::number(number_) + " of " + QString::number(boards_), 13, false,
                codeStart - jobX - 1);
    sheet.rule(top + 15);
  }

  /// The board as it lies at the saw, chalk marks, how to lay it. Returns where the table begins.
  double board(Sheet& sheet) {
    constexpr double highest = 74;
    const double x = sheet.left() + 3, top = Sheet::margin + 35;
    const Rect bounds = boundsOf(board_);
    scale_ = scaleFor(bounds, sheet.right() - sheet.left() - 6, highest);
    BoardLook look;
    look.scale = 1 / scale_;
    look.atSaw = true;
    const BoardView view(board_, Face::a, {x, top}, look);
    const double foot = top + view.size().height();
    sheet.write(x, top - 13.6, "near edge", 10);
    sheet.writeRight(sheet.right() - 3, top - 13.6, "FACE A UP", 11, true);
    const std::vector<Ink> drawing =
        drawCutting(cutting_, board_, job_, shop_, {x, top}, look, facts_.unit);
    lay(sheet.page, drawing);
    // Hand marks too small for their blanks stand under the board; the chalk line gives way.
    const bool below = std::any_of(drawing.begin(), drawing.end(), [&](const Ink& ink) {
      const auto* text = std::get_if<Text>(&ink);
      return text && text->at.y() > foot + 2 && text->tone == Tone::ink;
    });
    const double line = foot + (below ? 11 : 7);
    drawChalk(sheet, steps_, view, board_, line, facts_.unit);
    const double words = line + 12;
    const double bar = (facts_.unit == Unit::inches ? 304.8 : 250) / scale_;
    const QString farEdge = "far edge toward you";
    const QString blade = "The blade runs on the tag's side of the chalk.";
    QString how =
        "Lay it so: tag at your right, upside down. The tape hooks the fresh end. " + blade;
    const double room = sheet.right() - 48 - bar - textWidth(farEdge, 10, false) - x;
    if (textWidth(how, 10, false) > room)
      how = "Tag at your right. Tape on the fresh end. " + blade;
    sheet.write(x, words, how, 10);
    lay(sheet.page, drawScaleBar({sheet.right() - 16 - bar, words - 2.2}, look, facts_.unit));
    sheet.writeRight(sheet.right() - 44 - bar, words, farEdge, 10);
    sheet.rule(words + 5);
    return words + 8;
  }

  [[nodiscard]] std::vector<QString> cautionLines(const Sheet& sheet) const {
    return wrapped(caution_, 12, false, sheet.right() - sheet.left() - 16);
  }

  static void cautionBox(Sheet& sheet, const std::vector<QString>& lines, double y, double high) {
    const QRectF box(sheet.left(), y, sheet.right() - sheet.left(), high);
    sheet.filled(QRectF(box.left(), y, 9, high), Tone::ink);
    sheet.page.ink.emplace_back(Text{
        {box.left() + 4.5, box.center().y() + 3}, "!", 24, true, Qt::AlignHCenter, Tone::sheet});
    sheet.box(box, 0.5);
    double base = y + 6.2;
    for (const QString& line : lines) {
      sheet.write(box.left() + 13, base, line, 12);
      base += 6.4;
    }
  }

  void finish(Page& page, std::size_t part, std::size_t parts) const {
    Sheet sheet(facts_.letter, true);
    sheet.page = std::move(page);
    const int cuts = static_cast<int>(std::count_if(
        steps_.begin(), steps_.end(), [](const SawStep& step) { return step.number > 0; }));
    const QString scale = "1 : " + QString::number(scale_);
    QString number = QString::number(number_) + " of " + QString::number(boards_);
    if (parts > 1) number += ", " + QString::number(part) + "/" + QString::number(parts);
    QString jobName = asText(job_.name);
    if (!job_.customer.empty()) jobName += ", " + asText(job_.customer);
    sheet.titleBlock({{"Job", jobName, 0.26},
                      {"Pieces", piecesText(cutting_, board_, cuts), 0.31},
                      {"Scale", part == 1 ? scale : QString("–"), 0.1},
                      {"Unit", facts_.unit == Unit::inches ? "inches" : "millimetres", 0.1},
                      {"Sheet", number, 0.1},
                      {"Planned", asText(facts_.planned), 0.13}});
    page = std::move(sheet.page);
  }

  const Cutting& cutting_;
  const Board& board_;
  const Job& job_;
  const ShopProfile& shop_;
  const CutSheetFacts& facts_;
  std::size_t number_, boards_;
  std::vector<SawStep> steps_;
  std::vector<Row> rows_;
  QString caution_;
  double scale_ = 0;
};

const Board& boardOf(const Cutting& cutting, const std::vector<Board>& boards) {
  const auto found = std::find_if(boards.begin(), boards.end(),
                                  [&](const Board& board) { return board.id == cutting.board; });
  if (found == boards.end()) throw std::invalid_argument("a cutting's board is not at hand");
  return *found;
}

}  // namespace

std::vector<Page> cutSheets(const CutPlan& plan, const std::vector<Board>& boards, const Job& job,
                            const ShopProfile& shop, const CutSheetFacts& facts) {
  std::vector<Page> pages;
  for (std::size_t n = 0; n < plan.cuttings.size(); ++n) {
    const Cutting& cutting = plan.cuttings[n];
    const Board& board = boardOf(cutting, boards);
    for (Page& page :
         BoardSheets(cutting, board, job, shop, facts, plan.tick, n + 1, plan.cuttings.size())
             .draw())
      pages.push_back(std::move(page));
  }
  return pages;
}

}  // namespace flitch::pages
