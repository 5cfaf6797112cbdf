#include <algorithm>
#include <cmath>

#include "labels/board_drawing.h"
#include "labels/cut_rings.h"
#include "labels/facing.h"
#include "labels/mark_drawing.h"
#include "labels/work_lists.h"

namespace flitch::pages {
namespace {

/// A board with its plan: thrown wood hatched, offcuts dashed, blanks clean wood with hand mark,
/// name, size and grain arrow, cuts with numbered rings.
class CuttingDrawing {
 public:
  CuttingDrawing(const Cutting& cutting, const Board& board, const Job& job,
                 const ShopProfile& shop, QPointF at, const BoardLook& look, Unit unit)
      : cutting_(cutting),
        board_(board),
        job_(job),
        look_(look),
        unit_(unit),
        u_(look.pixel),
        view_(board, Face::a, at, look),
        face_(board, Face::a, view_, look),
        steps_(sawSteps(cutting, board, job, shop)) {}

  std::vector<Ink> draw() {
    face_.wood(ink_);
    face_.grain(ink_, 6);
    for (const Piece& piece : cutting_.pieces)
      if (piece.kind == PieceKind::unusable || piece.kind == PieceKind::endTrim) thrown(piece);
    std::vector<QRectF> blanks;
    for (const Piece& piece : cutting_.pieces)
      if (piece.kind == PieceKind::blank) blanks.push_back(view_.page(piece.at));
    face_.marks(ink_, look_.letters, blanks);
    if (look_.cuts)
      for (const SawStep& step : steps_) kerf(step);
    face_.edges(ink_);
    for (const Piece& piece : cutting_.pieces)
      if (hasFront(piece, job_)) front(piece);
    for (const Piece& piece : cutting_.pieces)
      if (piece.kind == PieceKind::blank) blank(piece);
    leaders();
    for (const Piece& piece : cutting_.pieces)
      if (piece.kind == PieceKind::offcut) offcut(piece);
    for (const Piece& piece : cutting_.pieces)
      if (piece.kind == PieceKind::blank) chosen(piece);
    face_.tagSign(ink_, roomForTag());
    if (look_.cuts) {
      reference();
      CutRings(view_, look_, boardBox().top(), std::move(written_)).draw(ink_, steps_);
    }
    return std::move(ink_);
  }

 private:
  [[nodiscard]] QString sizeOf(const Rect& r) const {
    const LengthStyle style =
        unit_ == Unit::inches ? LengthStyle::inches : LengthStyle::millimetres;
    return QString::fromStdString(text(r.dx, style) + " × " + text(r.dy, style));
  }

  void thrown(const Piece& piece) {
    std::vector<QPointF> points = face_.within(QPolygonF(view_.page(piece.at)));
    if (points.size() > 2)
      ink_.emplace_back(
          Area{std::move(points), Fill::hatch, Tone::sheet, 0, Tone::ink, Dash::solid});
  }

  /// Crosscuts of the board run past both edges; rips and cuts of strips stop at their piece.
  void kerf(const SawStep& step) {
    if (step.number == 0) return;
    const QRectF box = view_.page(step.at);
    const bool along = step.kind == SawStep::Kind::rip;
    const double width = std::max(along ? box.height() : box.width(), 1.6 * u_);
    const double past =
        step.stick == 0 && !along && step.kind != SawStep::Kind::trimStrip ? 10 * u_ : 0;
    const QPointF middle = box.center();
    const std::vector<QPointF> points =
        along ? std::vector<QPointF>{{box.left(), middle.y()}, {box.right(), middle.y()}}
              : std::vector<QPointF>{{middle.x(), box.top() - past},
                                     {middle.x(), box.bottom() + past}};
    ink_.emplace_back(
        Line{points, width, Dash::solid, step.number <= look_.made ? Tone::edge : Tone::red});
  }

  [[nodiscard]] const Part* partOf(const Piece& piece) const {
    for (const Part& part : job_.parts)
      if (part.line == piece.line) return &part;
    return nullptr;
  }

  /// True when a numbered cut of a strip stands on the side of `box` where its ring covers wood.
  [[nodiscard]] double ringOn(const QRectF& box) const {
    for (const SawStep& step : steps_) {
      if (step.kind != SawStep::Kind::trimStrip) continue;
      const QRectF cut = view_.page(step.at);
      if (std::abs(cut.center().x() - box.left()) < 4 * u_ && cut.top() < box.bottom() &&
          cut.bottom() > box.top())
        return look_.ring;
    }
    return 0;
  }

  /// Page x where a mark that the blank carries begins: its text ends before.
  [[nodiscard]] double textEnd(const QRectF& box) const {
    double end = box.right();
    for (const Defect& defect : board_.defects) {
      if (defect.kind == "sapwood" || defect.kind == "pith" || isZone(defect)) continue;
      const QRectF mark = view_.page(wholeOf(defect));
      if (mark.top() < box.bottom() - u_ && mark.bottom() > box.top() + u_ &&
          mark.left() > box.left() + 30 * u_ && mark.left() < box.right())
        end = std::min(end, mark.left() - 2 * u_);
    }
    return end;
  }

  void blank(const Piece& piece) {
    const QRectF box = view_.page(piece.at);
    // Text as high as the blank allows, down to 8 pt.
    const double most = box.height() / mmPerPoint;
    const double bold = most > look_.namePoints * 1.45
                            ? look_.namePoints
                            : std::max(most * 0.68, std::min(look_.namePoints, 8.0));
    const double small = std::min(look_.smallPoints, std::max(most * 0.6, 8.0));
    const double left = box.left() + 8 * u_ + ringOn(box) * 0.75;
    const double room = textEnd(box) - left - 12 * u_;
    const QString mark = QString::fromStdString(handMark(piece.line, piece.copy));
    const double markWidth = textWidth(mark, bold, true);
    const Part* part = partOf(piece);
    const QString size = sizeOf(piece.at);
    const QString name = part ? QString::fromStdString(part->name) : QString();
    QString words = name + "  " + size;
    const auto fits = [&](const QString& candidate) {
      return markWidth + 6 * u_ + textWidth(candidate, small, false) <= room;
    };
    if (!fits(words)) words = size;
    if (!fits(words) || small * mmPerPoint * 1.05 > box.height()) words.clear();
    if (markWidth > box.width() - 4 * u_ || bold * mmPerPoint * 0.75 > box.height()) {
      led_.push_back(&piece);
      return;
    }
    const double base = box.center().y() + bold * mmPerPoint * 0.36;
    const double markAt = std::min(left, box.right() - markWidth - 2 * u_);
    const double wordsAt = markAt + markWidth + 6 * u_;
    const double end =
        words.isEmpty() ? markAt + markWidth : wordsAt + textWidth(words, small, false);
    const double arrow = std::min(32 * u_, left + room - end - 6 * u_);
    QRectF patch(markAt - 3 * u_, std::max(base - bold * mmPerPoint * 0.85, box.top() + u_),
                 end - markAt + 6 * u_, std::min(bold * mmPerPoint * 1.1, box.height() - 2 * u_));
    if (hasFront(piece, job_)) patch &= besideFront(piece);
    ink_.emplace_back(
        Area{pointsOf(QPolygonF(patch)), Fill::tone, Tone::wood, 0, Tone::ink, Dash::solid});
    ink_.emplace_back(Text{{markAt, base}, mark, bold, true});
    if (!words.isEmpty()) ink_.emplace_back(Text{{wordsAt, base}, words, small});
    double covered = end;
    if (arrow > 16 * u_) {
      grainArrow(end + 8 * u_, end + 8 * u_ + arrow, base - small * mmPerPoint * 0.36);
      covered += 8 * u_ + arrow;
    }
    written_.emplace_back(markAt - 2 * u_, base - bold * mmPerPoint * 0.8,
                          covered - markAt + 4 * u_, bold * mmPerPoint);
    if (hasFront(piece, job_)) frontWord(piece, written_.back().right());
  }

  /// Where the heavy line of a blank's front edge runs, a little inside it; y of the page.
  [[nodiscard]] double frontAt(const Piece& piece) const {
    const QRectF box = view_.page(piece.at);
    const double gap = std::min(3.5 * u_, box.height() * 0.18);
    return frontAtTop(piece) ? box.top() + gap : box.bottom() - gap;
  }
  /// Near or far edge of the board, at the top or foot of the page as the board lies.
  [[nodiscard]] bool frontAtTop(const Piece& piece) const {
    return (piece.frontEdge == Edge::near) == (view_.up() < 0);
  }
  [[nodiscard]] double frontPen(const QRectF& box) const {
    return std::min(2.4 * u_, box.height() * 0.12);
  }
  /// The blank without the strip its front line takes.
  [[nodiscard]] QRectF besideFront(const Piece& piece) const {
    QRectF box = view_.page(piece.at);
    const double half = frontPen(box) / 2;
    if (frontAtTop(piece))
      box.setTop(frontAt(piece) + half);
    else
      box.setBottom(frontAt(piece) - half);
    return box;
  }
  void front(const Piece& piece) {
    const QRectF box = view_.page(piece.at);
    const double inset = std::min(4 * u_, box.width() / 4), y = frontAt(piece);
    ink_.emplace_back(Line{{{box.left() + inset, y}, {box.right() - inset, y}},
                           frontPen(box),
                           Dash::solid,
                           Tone::ink});
  }
  /// The word beside the line, where it stands clear of what the blank says and carries.
  void frontWord(const Piece& piece, double from) {
    const QRectF box = besideFront(piece);
    const QString word = QStringLiteral("front");
    const double points = look_.smallPoints * 0.9, high = points * mmPerPoint;
    const double right = textEnd(box) - 6 * u_, left = right - textWidth(word, points, false);
    if (left < from + 4 * u_ || box.height() < 1.45 * high) return;
    const double base = frontAtTop(piece) ? box.top() + high : box.bottom() - high * 0.45;
    face_.label(ink_, Text{{left, base}, word, points});
    written_.emplace_back(left, base - high, right - left, high * 1.3);
  }

  /// All blanks of the part chosen are framed; on a narrow one the frame lies on its edges, off its
  /// words.
  void chosen(const Piece& piece) {
    const QRectF box = view_.page(piece.at);
    const double pen = std::min(2 * u_, box.height() * 0.1);
    const double in = std::min(2.5 * u_, box.height() * 0.06);
    if (look_.chosenLine == piece.line && piece.line > 0)
      ink_.emplace_back(Area{face_.within(QPolygonF(box.adjusted(2.5 * u_, in, -2.5 * u_, -in))),
                             Fill::none, Tone::wood, pen, Tone::blue, Dash::solid});
  }

  /// Hand marks that do not fit stand below the board, a line leads to their blanks; those of
  /// blanks one above the other stand together.
  void leaders() {
    const double size = std::max(look_.smallPoints, 8.0);
    const auto middle = [&](const Piece* piece) { return view_.page(piece->at).center(); };
    std::stable_sort(led_.begin(), led_.end(),
                     [&](const Piece* a, const Piece* b) { return middle(a).x() < middle(b).x(); });
    for (auto from = led_.begin(); from != led_.end();) {
      const double x = middle(*from).x();
      double top = middle(*from).y();
      std::vector<std::pair<int, int>> marks;
      auto to = from;
      for (; to != led_.end() && middle(*to).x() - x < 2 * size * mmPerPoint; ++to) {
        marks.emplace_back((*to)->line, (*to)->copy);
        top = std::min(top, middle(*to).y());
      }
      std::sort(marks.begin(), marks.end());
      const QPointF end(x, boardBox().bottom() + 7 * u_);
      ink_.emplace_back(Line{{{x, top}, end}, u_, Dash::solid, Tone::ink});
      ink_.emplace_back(Text{end + QPointF(0, size * mmPerPoint),
                             QString::fromStdString(joined(marks)), size, true, Qt::AlignHCenter});
      from = to;
    }
  }

  void grainArrow(double x0, double x1, double y) {
    ink_.emplace_back(Line{{{x0, y}, {x1, y}}, 1.1 * u_, Dash::solid, Tone::ink});
    for (const auto& [x, inward] : {std::pair{x0, 1.0}, std::pair{x1, -1.0}})
      ink_.emplace_back(
          Line{{{x + inward * 6 * u_, y - 3 * u_}, {x, y}, {x + inward * 6 * u_, y + 3 * u_}},
               1.1 * u_,
               Dash::solid,
               Tone::ink});
  }

  void offcut(const Piece& piece) {
    const QRectF box = view_.page(piece.at);
    ink_.emplace_back(Area{face_.within(QPolygonF(box.adjusted(3 * u_, 3 * u_, -3 * u_, -3 * u_))),
                           Fill::none, Tone::wood, 1.2 * u_, Tone::ink, Dash::dashed});
    const double points = look_.smallPoints;
    const double line = points * mmPerPoint * 1.25;
    // The middle of the part no through-mark and no tag stands on.
    double left = box.left(), right = box.right();
    const QRectF tag = face_.tagPlace(roomForTag());
    if (tag.intersects(box)) (look_.atSaw ? right : left) = look_.atSaw ? tag.left() : tag.right();
    for (const Defect& defect : board_.defects) {
      const QRectF mark = view_.page(wholeOf(defect));
      if (defect.face != DefectFace::through || mark.width() > box.width() / 2) continue;
      if (mark.bottom() < box.center().y() - line || mark.top() > box.center().y() + line) continue;
      const double x = mark.center().x();
      if (x < box.left() || x > box.right()) continue;
      if (x < box.center().x())
        left = std::max(left, mark.right() + points * mmPerPoint);
      else
        right = std::min(right, mark.left() - 2 * u_);
    }
    const QString size = sizeOf(piece.at);
    const double sizeWidth = textWidth(size, points, true);
    const double centre = (left + right) / 2;
    const bool two = box.height() > 2.6 * line && right - left > sizeWidth + 6 * u_;
    const double base = box.center().y() + points * mmPerPoint * 0.36;
    if (two) {
      face_.label(
          ink_,
          Text{{centre, base - line / 2}, QStringLiteral("keep"), points, false, Qt::AlignHCenter});
      face_.label(ink_, Text{{centre, base + line / 2}, size, points, true, Qt::AlignHCenter});
    } else if (right - left > textWidth("keep", points, true) + 4 * u_ &&
               box.height() > points * mmPerPoint) {
      const bool both = right - left > textWidth("keep " + size, points, true) + 6 * u_;
      face_.label(ink_, Text{{centre, base},
                             both ? "keep " + size : QStringLiteral("keep"),
                             points,
                             true,
                             Qt::AlignHCenter});
    }
    const double wide = (two ? sizeWidth : textWidth("keep", points, true)) / 2;
    written_.emplace_back(centre - wide, base - line * 1.3, 2 * wide, line * 2.2);
  }

  /// The bench sign for the reference edge, a V that stands on it.
  void reference() {
    for (const SawStep& step : steps_) {
      if (step.kind != SawStep::Kind::reference) continue;
      double x = mm(step.at.x) + mm(step.at.dx) * 0.62;
      if (step.section == 0) x = mm(board_.length()) * 0.38;
      const Outline wood = lying(board_, Face::a);
      const Length place = std::clamp(lengthOf(x), Length(), wood.length());
      const QPointF foot = view_.page(x, mm(wood.nearAt(place)));
      const double away = view_.up() * 7 * u_;  // out of the wood, on the page
      ink_.emplace_back(
          Line{{foot + QPointF(-0.7 * 7 * u_, 1.7 * away), foot + QPointF(0, 0.36 * away),
                foot + QPointF(0.7 * 7 * u_, 1.7 * away)},
               2.2 * u_,
               Dash::solid,
               Tone::blue});
    }
  }

  [[nodiscard]] QRectF boardBox() const { return face_.outline().boundingRect(); }

  /// Wood at the tag end on which the little tag covers no blank.
  [[nodiscard]] double roomForTag() const {
    double room = mm(board_.length());
    for (const Piece& piece : cutting_.pieces)
      if (piece.kind == PieceKind::blank) room = std::min(room, mm(piece.at.x));
    return room * look_.scale;
  }

  const Cutting& cutting_;
  const Board& board_;
  const Job& job_;
  const BoardLook& look_;
  Unit unit_;
  double u_;
  BoardView view_;
  MarkDrawing face_;
  std::vector<SawStep> steps_;
  std::vector<Ink> ink_;
  std::vector<const Piece*> led_;  ///< blanks whose hand mark finds no room on them
  std::vector<QRectF> written_;
};

}  // namespace

std::vector<Ink> drawCutting(const Cutting& cutting, const Board& board, const Job& job,
                             const ShopProfile& shop, QPointF at, const BoardLook& look,
                             Unit unit) {
  return CuttingDrawing(cutting, board, job, shop, at, look, unit).draw();
}

}  // namespace flitch::pages
