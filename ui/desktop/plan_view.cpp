#include "ui/desktop/plan_view.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QScrollBar>
#include <algorithm>

#include "inventory/records/choices.h"
#include "labels/facing.h"
#include "ui/desktop/controls.h"
#include "ui/desktop/rack_model.h"

namespace flitch::desktop {
namespace {

constexpr int left = 20, rightMargin = 20;
/// Above a face: its line and the rings of the crosscuts; under it the ends of the crosscuts.
constexpr int above = 50, below = 18;

double inchesOf(Length length) { return static_cast<double>(length.nm()) / 25'400'000.0; }

}  // namespace

std::vector<QString> cautionsOf(const PlanSheet& sheet) {
  std::vector<QString> said;
  const auto nameOf = [&](int line) {
    for (const Part& part : sheet.job.parts) {
      if (part.line == line) return q(partLetter(line)) + " " + q(part.name);
    }
    return q(partLetter(line));
  };
  // Parts short for one reason share a sentence.
  std::vector<std::pair<const ShortPart*, QStringList>> reasons;
  for (const ShortPart& s : sheet.plan.shorts) {
    const QString part = QString("%1 of %2").arg(s.copies).arg(nameOf(s.line));
    const auto same = std::find_if(reasons.begin(), reasons.end(), [&](const auto& r) {
      return r.first->reason == s.reason && r.first->unseenOnly == s.unseenOnly;
    });
    if (same == reasons.end()) {
      reasons.push_back({&s, {part}});
    } else {
      same->second.push_back(part);
    }
  }
  for (const auto& [s, parts] : reasons) {
    QString text = "Short: " + parts.join(", ") + ".";
    if (!s->reason.empty()) {
      QString reason = q(s->reason);
      reason[0] = reason[0].toUpper();
      text += " " + reason + (reason.endsWith('.') ? "" : ".");
    }
    if (s->unseenOnly) {
      text +=
          " Only because faces were not looked at: look at them and mark them in Rack, or trust "
          "them, Ctrl+U.";
    }
    said.push_back(text);
  }
  if (!sheet.plan.waiting.empty()) {
    QStringList names;
    for (int line : sheet.plan.waiting) names.push_back(nameOf(line));
    said.push_back(QString("Waiting, not in this plan: %1. Their recipes are not known.")
                       .arg(names.join(", ")));
  }
  for (const std::string& lesson : sheet.lessons) said.push_back(q(lesson));
  return said;
}

void drawUnseen(QPainter& painter, const QRectF& box, const QColor& wood, const Colours& colours) {
  painter.save();
  painter.fillRect(box, wood);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(QPen(colours.soft, 1.3, Qt::SolidLine, Qt::RoundCap));
  for (const QPointF at : {QPointF(2, 2), QPointF(15, 8)}) {
    painter.drawLine(box.topLeft() + at, box.topLeft() + at + QPointF(4, 4));
  }
  painter.setPen(QPen(colours.edge, 1));
  painter.drawRect(box.adjusted(0.5, 0.5, -0.5, -0.5));
  painter.restore();
}

PlanView::PlanView(const Look& look, Unit unit, const std::string& sign, QWidget* parent)
    : QAbstractScrollArea(parent), look_(look), unit_(unit), sign_(sign) {
  setFrameShape(QFrame::NoFrame);
  setVerticalScrollBar(new ThinBar(look, this));
  setFocusPolicy(Qt::StrongFocus);
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  setAccessibleName("Boards of the plan");
  connect(&look_, &Look::changed, this, [this] { viewport()->update(); });
}

void PlanView::setSheet(const PlanSheet* sheet) {
  sheet_ = sheet;
  if (sheet_ == nullptr || current_ >= static_cast<int>(sheet_->boards.size())) current_ = -1;
  lay();
  describe();
}

void PlanView::setSettled(const SettledBoards* settled) {
  settled_ = settled;
  describe();
  viewport()->update();
}

void PlanView::setChosenLine(int line) {
  chosenLine_ = line;
  viewport()->update();
}

double PlanView::scale() const {
  double longest = 1;
  if (sheet_ != nullptr) {
    for (const OpenedBoard& b : sheet_->boards) {
      longest = std::max(longest, inchesOf(boundsOf(b.board).dx));
    }
  }
  // Never so large that one board fills the view.
  return std::min((viewport()->width() - left - rightMargin) / longest, 14.0);
}

int PlanView::heightOf(std::size_t board) const {
  return above + below +
         static_cast<int>(inchesOf(boundsOf(sheet_->boards[board].board).dy) * scale());
}

void PlanView::lay() {
  cautions_.clear();
  tops_.clear();
  cautionsHeight_ = 0;
  int y = 0;
  if (sheet_ != nullptr) {
    const QFontMetrics metrics(typeface(13));
    for (const QString& text : cautionsOf(*sheet_)) {
      const int h =
          metrics
              .boundingRect(QRect(0, 0, viewport()->width() - left - rightMargin - 40, 4000),
                            Qt::TextWordWrap, text)
              .height();
      cautions_.push_back({text, y + 8, h});
      y += h + 10;
    }
    if (!cautions_.empty()) y = cautionsHeight_ = y + 8;
    if (y > 0) y += 8;
    for (std::size_t i = 0; i < sheet_->boards.size(); ++i) {
      tops_.push_back(y);
      y += heightOf(i);
    }
  }
  verticalScrollBar()->setRange(0, std::max(0, y + 8 - viewport()->height()));
  verticalScrollBar()->setPageStep(viewport()->height());
  verticalScrollBar()->setSingleStep(40);
  viewport()->update();
}

void PlanView::resizeEvent(QResizeEvent*) { lay(); }

void PlanView::setCurrent(int board) {
  if (sheet_ == nullptr || sheet_->boards.empty()) return;
  current_ = std::clamp(board, 0, static_cast<int>(sheet_->boards.size()) - 1);
  const std::size_t i = static_cast<std::size_t>(current_);
  const int top = tops_[i], bottom = top + heightOf(i);
  QScrollBar* bar = verticalScrollBar();
  if (top < bar->value()) bar->setValue(top);
  if (bottom > bar->value() + viewport()->height()) bar->setValue(bottom - viewport()->height());
  describe();
  viewport()->update();
  emit currentChanged();
}

void PlanView::keyPressEvent(QKeyEvent* event) {
  if (pulled_ && event->key() == Qt::Key_Escape) {
    pulled_.reset();
    unsetCursor();
    viewport()->update();
    return;
  }
  switch (event->key()) {
    case Qt::Key_Down: return setCurrent(current_ + 1);
    case Qt::Key_Up: return setCurrent(std::max(0, current_ - 1));
    case Qt::Key_Home: return setCurrent(0);
    case Qt::Key_End: return setCurrent(1 << 20);
    case Qt::Key_Return:
    case Qt::Key_Enter:
      if (current_ >= 0 && event->modifiers() == Qt::NoModifier) {
        emit boardWanted(sheet_->boards[static_cast<std::size_t>(current_)].board.id);
        return;
      }
      break;
    default: break;
  }
  QAbstractScrollArea::keyPressEvent(event);
}

int PlanView::boardAt(int y) const {
  const int down = y + verticalScrollBar()->value();
  for (std::size_t i = 0; i < tops_.size(); ++i) {
    if (down >= tops_[i] && down < tops_[i] + heightOf(i)) return static_cast<int>(i);
  }
  return -1;
}

pages::BoardLook PlanView::boardLook() const {
  pages::BoardLook look;
  look.scale = scale() / windowDpi;
  return look;
}

std::pair<Length, Length> PlanView::placeOn(std::size_t board, QPointF at) const {
  const QPointF origin(toMm(left), toMm(tops_[board] - verticalScrollBar()->value() + above));
  const pages::BoardView view(sheet_->boards[board].board, Face::a, origin, boardLook());
  const QPointF mm = view.board(QPointF(toMm(at.x()), toMm(at.y())));
  const auto length = [](double millimetres) {
    return Length::micrometres(static_cast<std::int64_t>(millimetres * 1000));
  };
  return {length(mm.x()), length(mm.y())};
}

QRectF PlanView::drawnAt(std::size_t board, const Rect& r) const {
  const QPointF origin(toMm(left), toMm(tops_[board] - verticalScrollBar()->value() + above));
  const pages::BoardView view(sheet_->boards[board].board, Face::a, origin, boardLook());
  const QRectF mm = view.page(r).normalized();
  const double pixels = 1 / toMm(1);
  return {mm.x() * pixels, mm.y() * pixels, mm.width() * pixels, mm.height() * pixels};
}

const std::vector<LaidByHand>& PlanView::laid() const {
  static const std::vector<LaidByHand> none;
  return settled_ == nullptr ? none : settled_->laid();
}

void PlanView::mousePressEvent(QMouseEvent* event) {
  const int board = boardAt(static_cast<int>(event->position().y()));
  if (board < 0) return;
  setCurrent(board);
  const auto i = static_cast<std::size_t>(board);
  if (event->button() != Qt::LeftButton || sheet_->boards[i].sawn) return;
  const auto [x, y] = placeOn(i, event->position());
  if (std::optional<BlankInHand> blank = blankAt(sheet_->boards[i], laid(), x, y)) {
    const Rect at = blank->blank.at;
    pulled_ = Pulled{*std::move(blank), event->position().toPoint(), x - at.x, y - at.y, false, {}};
  }
}

void PlanView::pull(QMouseEvent* event) {
  LaidByHand blank = pulled_->from.blank;
  // Held over, it is turned: its other face up.
  if (event->modifiers().testFlag(Qt::ShiftModifier)) {
    blank.faceUp = blank.faceUp == Face::a ? Face::b : Face::a;
  }
  const int board = boardAt(static_cast<int>(event->position().y()));
  pulled_->to.reset();
  if (board < 0 || sheet_->boards[static_cast<std::size_t>(board)].sawn) return;
  const auto i = static_cast<std::size_t>(board);
  const auto [x, y] = placeOn(i, event->position());
  constexpr double reach = 9;  // pixels
  pulled_->to =
      laidNear(blank, sheet_->boards[i], laid(), *sheet_, x - pulled_->offX, y - pulled_->offY,
               Length::micrometres(static_cast<std::int64_t>(reach / scale() * 25'400)));
}

void PlanView::mouseMoveEvent(QMouseEvent* event) {
  if (!pulled_) return;
  constexpr int still = 6;  // pixels that a click may shake
  const QPoint away = event->position().toPoint() - pulled_->pressed;
  if (!pulled_->moved && away.manhattanLength() < still) return;
  pulled_->moved = true;
  pull(event);
  setCursor(Qt::ClosedHandCursor);
  viewport()->update();
}

void PlanView::mouseReleaseEvent(QMouseEvent* event) {
  if (!pulled_) return;
  if (pulled_->moved) pull(event);
  const Pulled pulled = *std::move(pulled_);
  pulled_.reset();
  unsetCursor();
  viewport()->update();
  if (!pulled.moved) return;
  const std::optional<LaidByHand> before =
      pulled.from.laidBefore ? std::optional(pulled.from.blank) : std::nullopt;
  if (pulled.to) {
    emit layWanted(*pulled.to, before);
  } else if (before) {
    emit takeUpWanted(*before);
  }
}

void PlanView::describe() {
  if (sheet_ == nullptr) {
    setAccessibleDescription("No plan yet.");
    return;
  }
  QString said;
  for (std::size_t i = 0; i < sheet_->boards.size(); ++i) {
    if (current_ >= 0 && static_cast<std::size_t>(current_) != i) continue;
    const OpenedBoard& b = sheet_->boards[i];
    const QString settled = settled_ == nullptr ? QString() : word(settled_->of(b.board.id));
    said += QString("Board %1 of %2: %3, %4 %5, %6, %7 cuts%8. ")
                .arg(i + 1)
                .arg(sheet_->boards.size())
                .arg(tagText(b.board), q(b.board.species), q(text(b.board.nominal)),
                     q(sizeText(b.board, unit_)))
                .arg(b.cuts)
                .arg((b.sawn ? QString(", sawn") : QString()) +
                     (settled.isEmpty() ? QString() : ", " + settled));
    for (const Piece& piece : b.cutting.pieces) {
      if (piece.kind == PieceKind::blank) {
        said += QString("Blank %1, %2 by %3%4. ")
                    .arg(q(handMark(piece.line, piece.copy)), shortText(piece.at.dx, unit_),
                         shortText(piece.at.dy, unit_),
                         !pages::hasFront(piece, sheet_->job) ? ""
                         : piece.frontEdge == Edge::near      ? ", front edge at the near edge"
                                                              : ", front edge at the far edge");
      } else if (piece.kind == PieceKind::offcut) {
        said += QString("Keep %1 by %2. ")
                    .arg(shortText(piece.at.dx, unit_), shortText(piece.at.dy, unit_));
      }
    }
  }
  setAccessibleDescription(said);
}

void PlanView::paintEvent(QPaintEvent* event) {
  const Colours& c = look_.colours();
  QPainter painter(viewport());
  painter.fillRect(viewport()->rect(), c.sheet);
  if (sheet_ == nullptr) return;
  const int scrolled = verticalScrollBar()->value();
  paintCautions(painter, -scrolled);
  for (std::size_t i = 0; i < sheet_->boards.size(); ++i) {
    const int y = tops_[i] - scrolled;
    if (y > event->rect().bottom() || y + heightOf(i) < event->rect().top()) continue;
    paintLine(painter, y, sheet_->boards[i], static_cast<int>(i) == current_);
    paintBoard(painter, y, sheet_->boards[i]);
    paintLaid(painter, i);
  }
  if (hasFocus()) {
    painter.setPen(QPen(c.blue, 2));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(viewport()->rect().adjusted(1, 1, -1, -1));
  }
}

void PlanView::paintCautions(QPainter& painter, int y) const {
  if (cautions_.empty()) return;
  const Colours& c = look_.colours();
  const QRect band(left, y, viewport()->width() - left - rightMargin, cautionsHeight_);
  painter.fillRect(band, c.cautionBand);
  painter.fillRect(band.left(), band.top(), 4, band.height(), c.caution);
  for (const Caution& caution : cautions_) {
    drawText(painter, band.left() + 18, y + caution.top + 12, "!", 14, true, c.caution,
             Qt::AlignHCenter);
    painter.setPen(c.ink);
    painter.setFont(typeface(13));
    painter.drawText(
        QRect(band.left() + 32, y + caution.top, band.width() - 40, caution.height + 4),
        Qt::TextWordWrap, caution.text);
  }
}

void PlanView::paintLine(QPainter& painter, int y, const OpenedBoard& opened, bool current) const {
  const Colours& c = look_.colours();
  const Board& b = opened.board;
  const double line = y + 16;
  if (current) painter.fillRect(left - 12, y + 4, 4, 16, c.blue);
  const int right = viewport()->width() - rightMargin;
  drawText(painter, right, line,
           opened.sawn ? QString("sawn ✓") : QString("%1 cuts").arg(opened.cuts), 13, false,
           opened.sawn ? c.good : c.soft, Qt::AlignRight);
  drawText(painter, right - 90, line, QString("%1 % used").arg((opened.usedPermille + 5) / 10), 13,
           false, c.ink, Qt::AlignRight);
  drawText(painter, right - 190, line, q(text(b.cost, sign_)), 13, false, c.ink, Qt::AlignRight);
  drawText(painter, right - 280, line, q(text(b.measuredFeet)) + " bf", 13, false, c.ink,
           Qt::AlignRight);
  const int end = right - 350;
  drawText(painter, left, line, tagText(b), 14, true, c.ink);
  double x = left + 82;
  const bool unseen = b.looked[0] == Looked::no && b.looked[1] == Looked::no;
  const int swatch = unseen ? 26 + 6 + textWidth("not looked at", 13, true) + 14 : 0;
  const QString wood = q(b.species) + " " + q(text(b.nominal));
  const Settled settled =
      settled_ == nullptr || opened.sawn ? Settled::nothing : settled_->of(b.id);
  if (settled != Settled::nothing) {
    const QString told = word(settled);
    drawText(painter, x, line, told, 13, true, c.blue);
    x += textWidth(told, 13, true) + 16;
  }
  const QString place = q(sizeText(b, unit_)) + (b.bay.empty() ? "" : "    bay " + q(b.bay));
  const QString shownWood =
      elided(wood, 13, false, std::max(60, end - swatch - static_cast<int>(x)));
  drawText(painter, x, line, shownWood, 13, false, c.ink);
  x += textWidth(shownWood, 13) + 16;
  const QString shownPlace =
      elided(place, 13, false, std::max(0, end - swatch - static_cast<int>(x)));
  drawText(painter, x, line, shownPlace, 13, false, c.soft);
  x += textWidth(shownPlace, 13) + 14;
  if (!unseen) return;
  drawUnseen(painter, QRectF(x, line - 11, 26, 13), look_.wood(b.species).of(pages::Tone::wood), c);
  drawText(painter, x + 32, line, "not looked at", 13, true, c.ink);
}

void PlanView::paintLaid(QPainter& painter, std::size_t board) const {
  const OpenedBoard& opened = sheet_->boards[board];
  for (const LaidByHand& l : laid()) {
    // What the plan drawn keeps already needs no second frame.
    const bool kept = holds(opened.cutting, l);
    const bool inHand = pulled_ && pulled_->moved && pulled_->from.blank == l;
    if (l.board == opened.board.id && !kept && !inHand) paintBlank(painter, board, l, false);
  }
  const bool here = pulled_ && pulled_->to && pulled_->to->board == opened.board.id;
  if (here) paintBlank(painter, board, *pulled_->to, true);
}

void PlanView::paintBlank(QPainter& painter, std::size_t board, const LaidByHand& laid,
                          bool inHand) const {
  const Colours& c = look_.colours();
  const QRectF box = drawnAt(board, laid.at);
  QColor wood = look_.wood(sheet_->boards[board].board.species).of(pages::Tone::wood);
  wood.setAlphaF(0.85F);
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setBrush(wood);
  painter.setPen(QPen(c.blue, 2, inHand ? Qt::DashLine : Qt::SolidLine));
  painter.drawRect(box);
  painter.restore();
  const QString name = q(partLetter(laid.line)) + (laid.faceUp == Face::b ? " face B up" : "");
  const QString places = shortText(laid.at.x, unit_) + ", " + shortText(laid.at.y, unit_);
  const bool room = box.width() > textWidth(name + "  " + places, 13) + 16;
  painter.setClipRect(box);
  drawText(painter, box.x() + 8, box.center().y() + 5, room ? name + "  " + places : name, 13, true,
           c.blue);
  painter.setClipping(false);
}

void PlanView::paintBoard(QPainter& painter, int y, const OpenedBoard& opened) const {
  pages::BoardLook look = boardLook();
  look.letters = scale() > 8;
  look.cuts = true;
  look.margin = sheet_->shop.markMargin;
  look.chosenLine = chosenLine_;
  // Type and lines in window pixels: 14 and 11 px, in a wide window 17 and 13.
  const bool large = scale() > 8;
  look.pixel = toMm(1);
  look.namePoints = (large ? 17 : 14) * 72.0 / windowDpi;
  look.smallPoints = (large ? 13 : 11) * 72.0 / windowDpi;
  look.ring = toMm(large ? 10 : 9);
  pages::Page page;
  page.mm = QSizeF(toMm(viewport()->width()), toMm(viewport()->height()));
  page.ink = pages::drawCutting(opened.cutting, opened.board, sheet_->job, sheet_->shop,
                                QPointF(toMm(left), toMm(y + above)), look, unit_);
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  pages::paint(page, painter, windowDpi, look_.wood(opened.board.species));
  painter.restore();
}

}  // namespace flitch::desktop
