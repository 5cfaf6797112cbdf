#include "ui/desktop/board_view.h"

#include <QAccessible>
#include <QKeyEvent>
#include <algorithm>

#include "inventory/records/zones.h"
#include "ui/desktop/mark_bar.h"
#include "ui/desktop/rack_model.h"
#include "ui/desktop/usual_mark.h"

namespace flitch::desktop {
namespace {

Length sixteenths(std::int64_t n, Unit unit, std::int64_t mm) {
  return unit == Unit::inches ? Length::sixtyFourths(4 * n) : Length::millimetres(mm);
}

Length kept(Length value, Length low, Length high) {
  return std::max(low, std::min(value, std::max(low, high)));
}

}  // namespace

BoardView::BoardView(const Look& look, Unit unit, QWidget* parent)
    : QWidget(parent), look_(look), unit_(unit) {
  setFocusPolicy(Qt::StrongFocus);
  setAccessibleName("Board, both faces");
  pause_.setSingleShot(true);
  pause_.setInterval(400);
  connect(&pause_, &QTimer::timeout, this, &BoardView::flush);
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
}

void BoardView::setBoard(std::optional<Board> board, const ShopProfile& shop) {
  const bool same = board && board_ && board->id == board_->id;
  if (!same) {
    chosen_ = -1;
    preview_.clear();
    dirty_ = false;
    pause_.stop();
    if (board) {
      const Rect all = boundsOf(*board);
      hair_ = {Face::a, all.x + all.dx / 2, all.y + all.dy / 2};
    }
  }
  board_ = std::move(board);
  shop_ = shop;
  if (board_ && chosen_ >= static_cast<int>(board_->defects.size())) chosen_ = -1;
  describe();
  update();
  emit chosenChanged();
}

void BoardView::setNotes(std::vector<BoardNote> notes) {
  notes_ = std::move(notes);
  describe();
  update();
}

void BoardView::setCuttings(Face face, std::vector<Rect> places) {
  cuttingFace_ = face;
  cuttings_ = std::move(places);
  update();
}

void BoardView::setPhotos(std::array<QImage, 2> photos) {
  photos_ = std::move(photos);
  update();
}

void BoardView::choose(int mark) {
  chosen_ = mark;
  if (board_ && chosen_ >= 0) {
    const Defect& defect = board_->defects[static_cast<std::size_t>(chosen_)];
    hair_ = {defect.face == DefectFace::b ? Face::b : Face::a, defect.where.x + defect.where.dx / 2,
             defect.where.y + defect.where.dy / 2};
  }
  describe();
  update();
  emit chosenChanged();
}

void BoardView::setPreview(std::vector<Defect> preview) {
  preview_ = std::move(preview);
  update();
}

void BoardView::edit(const Board& board) {
  board_ = board;
  changedMarks(true);
}

void BoardView::flush() {
  pause_.stop();
  if (!dirty_ || !board_) return;
  dirty_ = false;
  emit edited(Board(*board_));
}

void BoardView::changedMarks(bool atOnce) {
  dirty_ = true;
  update();
  emit chosenChanged();
  if (atOnce) {
    flush();
  } else {
    pause_.start();
  }
}

bool BoardView::can(Act act) const {
  if (!board_) return false;
  switch (act) {
    case Act::markFace:
    case Act::figures:
    case Act::alongEdge:
    case Act::removeMark: return chosen_ >= 0;
    case Act::nextMark:
    case Act::previousMark: return !board_->defects.empty();
    default: return true;
  }
}

void BoardView::carryOut(Act act) {
  if (!can(act)) return;
  const ActionRow& r = row(act);
  if (*r.kind != '\0') {
    addMark(r.kind);
    return;
  }
  switch (act) {
    case Act::quickMark: emit quickWanted(); break;
    case Act::markFace: cycleFace(); break;
    case Act::lookedAt: cycleLooked(); break;
    case Act::figures: emit figuresWanted(); break;
    case Act::nextMark: step(1); break;
    case Act::previousMark: step(-1); break;
    case Act::removeMark: removeChosen(); break;
    case Act::alongEdge: lieAlongEdge(); break;
    case Act::zone: setZone(); break;
    case Act::snapping:
      snap_ = !snap_;
      update();
      break;
    default: break;
  }
}

void BoardView::addMark(const std::string& kind) {
  flush();
  kind_ = kind;
  emit kindChosen(q(kind));
  board_->defects.push_back(usualMark(kind, *board_, hair_.face, hair_.x, hair_.y, unit_));
  chosen_ = static_cast<int>(board_->defects.size()) - 1;
  changedMarks(true);
}

void BoardView::lieAlongEdge() {
  const Rect all = boundsOf(*board_);
  Rect& where = board_->defects[static_cast<std::size_t>(chosen_)].where;
  const bool far = where.y + where.dy / 2 > all.y + all.dy / 2;
  where.dy = std::min(where.dy, all.dy);
  where = {all.x, far ? all.top() - where.dy : all.y, all.dx, where.dy};
  board_->defects[static_cast<std::size_t>(chosen_)].onB.reset();
  changedMarks(true);
}

void BoardView::setZone() {
  const bool again =
      chosen_ >= 0 && isZone(board_->defects[static_cast<std::size_t>(chosen_)].kind);
  if (!again) {
    addMark(std::string(zoneKinds.front()));
    return;
  }
  std::string& kind = board_->defects[static_cast<std::size_t>(chosen_)].kind;
  const auto at = std::find(zoneKinds.begin(), zoneKinds.end(), kind);
  kind = at + 1 == zoneKinds.end() ? zoneKinds.front() : *(at + 1);
  kind_ = kind;
  settle(board_->defects[static_cast<std::size_t>(chosen_)]);
  changedMarks(true);
}

void BoardView::removeChosen() {
  flush();
  board_->defects.erase(board_->defects.begin() + chosen_);
  chosen_ = -1;
  changedMarks(true);
}

void BoardView::step(int by) {
  flush();
  const int count = static_cast<int>(board_->defects.size());
  choose(((chosen_ < 0 && by < 0 ? 0 : chosen_) + by + count) % count);
}

void BoardView::cycleFace() {
  DefectFace& face = board_->defects[static_cast<std::size_t>(chosen_)].face;
  switch (face) {
    case DefectFace::a: face = DefectFace::b; break;
    case DefectFace::b: face = DefectFace::through; break;
    default: face = DefectFace::a; break;
  }
  settle(board_->defects[static_cast<std::size_t>(chosen_)]);
  hair_.face = face == DefectFace::b ? Face::b : Face::a;
  changedMarks(true);
}

void BoardView::cycleLooked() {
  Looked& looked = board_->looked[static_cast<std::size_t>(hair_.face)];
  looked = looked == Looked::no      ? Looked::rough
           : looked == Looked::rough ? Looked::planed
                                     : Looked::no;
  changedMarks(true);
}

void BoardView::move(int dx, int dy, Qt::KeyboardModifiers modifiers) {
  const bool fine = modifiers & Qt::ControlModifier;
  const Rect all = boundsOf(*board_);
  if (chosen_ < 0) {
    const Length far = fine ? sixteenths(1, unit_, 1) : sixteenths(16, unit_, 25);
    hair_.x = kept(hair_.x + far * dx, all.x, all.right());
    // Up on the screen is away from the near edge on face A, toward it on face B: over the fold
    // the cross-hair goes on to the other face.
    const Length y = hair_.y + far * (hair_.face == Face::a ? dy : -dy);
    if (y < all.y) {
      hair_.face = hair_.face == Face::a ? Face::b : Face::a;
      hair_.y = all.y;
    } else {
      hair_.y = std::min(y, all.top());
    }
    update();
    return;
  }
  const Length by = fine ? sixteenths(1, unit_, 1) : sixteenths(4, unit_, 5);
  Rect& where = board_->defects[static_cast<std::size_t>(chosen_)].where;
  if (modifiers & Qt::ShiftModifier) {
    // The centre stays, the size changes.
    const Length dxNew = std::max(by, where.dx + by * dx), dyNew = std::max(by, where.dy + by * dy);
    where.x += (where.dx - dxNew) / 2;
    where.y += (where.dy - dyNew) / 2;
    where.dx = dxNew;
    where.dy = dyNew;
  } else {
    Defect& mark = board_->defects[static_cast<std::size_t>(chosen_)];
    const bool onB = mark.face == DefectFace::b;
    const Rect was = where;
    where.x = kept(where.x + by * dx, all.x - where.dx / 2, all.right() - where.dx / 2);
    where.y = kept(where.y + by * (onB ? -dy : dy), all.y - where.dy / 2, all.top() - where.dy / 2);
    moveAlong(mark, was, all);
  }
  hair_.x = where.x + where.dx / 2;
  hair_.y = where.y + where.dy / 2;
  changedMarks(false);
}

bool BoardView::event(QEvent* event) {
  // Single letters and the drawing's keys are taken here before any shortcut of the window.
  if (event->type() == QEvent::ShortcutOverride && board_) {
    const auto* key = static_cast<QKeyEvent*>(event);
    const bool arrow = key->key() >= Qt::Key_Left && key->key() <= Qt::Key_Down;
    if (!(key->modifiers() & ~(Qt::KeypadModifier | Qt::ShiftModifier)) ||
        (arrow && key->modifiers() == Qt::ControlModifier)) {
      for (const ActionRow& r : actionTable()) {
        if ((r.where & ~inDrawing) == 0 &&
            QKeySequence(QString(r.key))[0].key() == static_cast<Qt::Key>(key->key())) {
          event->accept();
          return true;
        }
      }
      if (arrow) {
        event->accept();
        return true;
      }
    }
  }
  return QWidget::event(event);
}

void BoardView::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Escape) {
    flush();
    if (chosen_ >= 0) {
      choose(-1);
    } else {
      emit leaveWanted();
    }
    return;
  }
  if (!board_) return QWidget::keyPressEvent(event);
  const auto modifiers = event->modifiers() & ~Qt::KeypadModifier;
  switch (event->key()) {
    case Qt::Key_Left: return move(-1, 0, modifiers);
    case Qt::Key_Right: return move(1, 0, modifiers);
    case Qt::Key_Up: return move(0, 1, modifiers);
    case Qt::Key_Down: return move(0, -1, modifiers);
    default: break;
  }
  if (modifiers == Qt::NoModifier) {
    const int pressed = event->key() == Qt::Key_Enter ? int(Qt::Key_Return) : event->key();
    for (const ActionRow& r : actionTable()) {
      if ((r.where & ~inDrawing) == 0 && QKeySequence(QString(r.key))[0].key() == pressed) {
        return carryOut(r.act);
      }
    }
  }
  QWidget::keyPressEvent(event);
}

void BoardView::focusOutEvent(QFocusEvent* event) {
  flush();
  QWidget::focusOutEvent(event);
  update();
}

void BoardView::describe() {
  if (!board_) {
    setAccessibleDescription("No board chosen.");
    return;
  }
  QString said = QString("Board %1, face A %2, face B %3, %4 marks.")
                     .arg(tagText(*board_),
                          board_->looked[0] == Looked::no
                              ? QString("not looked at")
                              : "looked at " + q(std::string(word(board_->looked[0]))),
                          board_->looked[1] == Looked::no
                              ? QString("not looked at")
                              : "looked at " + q(std::string(word(board_->looked[1]))))
                     .arg(board_->defects.size());
  for (const BoardNote& note : notes_) {
    if (!note.brief.isEmpty()) said += " " + note.name + ": " + note.value + ".";
  }
  for (std::size_t i = 0; i < board_->defects.size(); ++i) {
    if (chosen_ >= 0 && static_cast<std::size_t>(chosen_) != i) continue;
    const Defect& d = board_->defects[i];
    said += QString(" Mark %1 of %2: %3, %4, %5 from tag end, %6 from near edge, %7 by %8.")
                .arg(i + 1)
                .arg(board_->defects.size())
                .arg(q(d.kind), q(std::string(word(d.face))),
                     shortText(d.where.x + d.where.dx / 2, unit_),
                     shortText(d.where.y + d.where.dy / 2, unit_), shortText(d.where.dx, unit_),
                     shortText(d.where.dy, unit_));
    if (const QString more = depthText(d, unit_); !more.isEmpty()) said += " " + more + ".";
  }
  setAccessibleDescription(said);
  QAccessibleEvent changed(this, QAccessible::DescriptionChanged);
  QAccessible::updateAccessibility(&changed);
}

}  // namespace flitch::desktop
