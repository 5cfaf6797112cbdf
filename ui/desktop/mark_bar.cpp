#include "ui/desktop/mark_bar.h"

#include <QPainter>
#include <algorithm>

#include "inventory/records/refusal.h"
#include "inventory/records/zones.h"
#include "inventory/wood/unreadable.h"
#include "ui/desktop/actions.h"
#include "ui/desktop/rack_model.h"

namespace flitch::desktop {
namespace {

constexpr std::array faces{DefectFace::through, DefectFace::a, DefectFace::b, DefectFace::near,
                           DefectFace::far};

Bare bareOf(Unit unit) { return unit == Unit::inches ? Bare::inches : Bare::millimetres; }

/// As the last field shows it.
QString detailOf(const Defect& mark, Unit unit) {
  if (mark.depth) return shortText(*mark.depth, unit);
  if (!mark.onB) return {};
  return shortText(mark.onB->x + mark.onB->dx / 2, unit) + ", " +
         shortText(mark.onB->y + mark.onB->dy / 2, unit);
}

/// What stands before it.
QString detailTitle(const Defect& mark) {
  if (isZone(mark.kind)) return {};
  if (mark.face == DefectFace::through) return "on B at";
  return mark.face == DefectFace::a || mark.face == DefectFace::b ? "deep" : "";
}

}  // namespace

QString depthText(const Defect& mark, Unit unit) {
  if (mark.depth) return detailOf(mark, unit) + " deep";
  return mark.onB ? "on B at " + detailOf(mark, unit) : QString();
}

std::vector<Defect> quickMarks(const QString& text, const Board& board,
                               const exchange::ReadingRules& rules) {
  std::vector<Defect> marks;
  const Rect all = boundsOf(board);
  for (const exchange::MarkLine& line : exchange::readQuickMarks(text.toStdString(), rules)) {
    const Length to = line.xTo.value_or(all.right());
    if (to > all.right() || line.xFrom >= all.right()) {
      throw Refusal("past-end", {"",
                                 "The mark would lie past the far end: this board is " +
                                     longText(board.length(), rules.unit).toStdString() + " long.",
                                 text.toStdString(), ""});
    }
    if (to <= line.xFrom) {
      throw Refusal("no-length",
                    {"", "The mark ends before it begins.", text.toStdString(), "12-17, 60-end"});
    }
    const Length yFrom = line.yFrom.value_or(all.y), yTo = line.yTo.value_or(all.top());
    marks.push_back({line.kind, line.face, {line.xFrom, yFrom, to - line.xFrom, yTo - yFrom}});
  }
  return marks;
}

QString readingOf(const std::vector<Defect>& marks, Unit unit) {
  QStringList said;
  bool good = false;
  for (const Defect& mark : marks) {
    good = good || mark.kind == "good";
    said.push_back(QString("%1 from %2 to %3 %4")
                       .arg(q(mark.kind), shortText(mark.where.x, unit),
                            shortText(mark.where.right(), unit),
                            unit == Unit::inches ? QString("in") : QString("mm")));
  }
  return said.join("; ") + (good ? "; all outside is bad" : ", whole width, both faces");
}

MarkBar::MarkBar(const Look& look, Unit unit, QWidget* parent)
    : QWidget(parent),
      look_(look),
      unit_(unit),
      quick_(look, "Quick mark",
             unit == Unit::inches ? "12-17   60-end   good 14-78" : "300-430   1500-end", "M",
             this),
      face_(look, "Face of the mark", "", this),
      detail_(look, "Depth of the mark, or where it comes out on face B", "", "", this) {
  static constexpr std::array titles{"A", "B"};
  for (std::size_t i = 0; i < 2; ++i) {
    looked_[i] = new Choice(look, QString("Face %1 looked at").arg(QString(titles[i])),
                            QString(titles[i]), this);
    looked_[i]->addItems({"not looked at", "looked at rough", "looked at planed"});
    connect(looked_[i], &QComboBox::activated, this, &MarkBar::keepLooked);
  }
  for (const ActionRow& r : actionTable()) {
    if (*r.kind == '\0') continue;
    auto* key = new MarkKey(look, QString(r.key), QString(r.kind), this);
    connect(key, &QAbstractButton::clicked, this,
            [this, kind = QString(r.kind)] { emit kindWanted(kind); });
    keys_.push_back(key);
  }
  static constexpr std::array figureNames{"Mark at, from the tag end",
                                          "Mark at, from the near edge", "Mark size along",
                                          "Mark size across"};
  for (std::size_t i = 0; i < figures_.size(); ++i) {
    figures_[i] = new Field(look, QString(figureNames[i]), "", "", this);
    figures_[i]->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
    connect(figures_[i], &QLineEdit::editingFinished, this, &MarkBar::keepFigures);
    connect(figures_[i], &Field::left, this, [this] { emit leaveWanted(); });
  }
  face_.addItems({"through", "face A", "face B", "near edge", "far edge"});
  connect(&face_, &QComboBox::activated, this, &MarkBar::keepFigures);
  connect(&detail_, &QLineEdit::editingFinished, this, &MarkBar::keepFigures);
  connect(&detail_, &Field::left, this, [this] { emit leaveWanted(); });
  connect(&quick_, &QLineEdit::textChanged, this, &MarkBar::read);
  connect(&quick_, &QLineEdit::returnPressed, this, &MarkBar::keepQuick);
  connect(&quick_, &Field::left, this, [this] { emit leaveWanted(); });
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
}

void MarkBar::setBoard(const std::optional<Board>& board, int chosen) {
  const bool other = !board || !board_ || board->id != board_->id;
  board_ = board;
  chosen_ = board && chosen < static_cast<int>(board->defects.size()) ? chosen : -1;
  filling_ = true;
  if (other) quick_.setText("");
  quick_.setEnabled(board.has_value());
  for (std::size_t i = 0; i < 2; ++i) {
    looked_[i]->setEnabled(board.has_value());
    looked_[i]->setCurrentIndex(board ? static_cast<int>(board->looked[i]) : 0);
  }
  for (MarkKey* key : keys_) key->setEnabled(board.has_value());
  const bool any = chosen_ >= 0;
  for (Field* figure : figures_) {
    figure->setEnabled(any);
    figure->setTrouble(false);
    if (!any) figure->setText("");
  }
  face_.setEnabled(any);
  detail_.setTrouble(false);
  detail_.setText("");
  // Never hidden in between: it would lose the focus.
  const auto title = [&] {
    return detailTitle(board_->defects[static_cast<std::size_t>(chosen_)]);
  };
  detail_.setVisible(any && !title().isEmpty());
  if (any) {
    const Defect& mark = board_->defects[static_cast<std::size_t>(chosen_)];
    const std::array values{mark.where.x + mark.where.dx / 2, mark.where.y + mark.where.dy / 2,
                            mark.where.dx, mark.where.dy};
    for (std::size_t i = 0; i < values.size(); ++i) {
      figures_[i]->setText(shortText(values[i], unit_));
      figures_[i]->setCursorPosition(0);
    }
    const auto at = std::find(faces.begin(), faces.end(), mark.face);
    face_.setCurrentIndex(static_cast<int>(at - faces.begin()));
    detail_.setText(detailOf(mark, unit_));
    setKind(q(mark.kind));
  }
  filling_ = false;
  update();
}

void MarkBar::setKind(const QString& kind) {
  for (MarkKey* key : keys_) key->setChecked(key->text() == kind);
}

void MarkBar::focusQuick() { quick_.setFocus(Qt::ShortcutFocusReason); }

void MarkBar::focusFigures() {
  figures_[0]->setFocus(Qt::ShortcutFocusReason);
  figures_[0]->selectAll();
}

void MarkBar::read() {
  reading_.clear();
  unreadable_ = false;
  std::vector<Defect> marks;
  if (board_ && !quick_.text().trimmed().isEmpty()) {
    try {
      marks = quickMarks(quick_.text(), *board_, rules_);
      reading_ = readingOf(marks, unit_);
    } catch (const Unreadable& error) {
      unreadable_ = true;
      reading_ = QString("%1. Accepted: %2").arg(QString(error.what()), q(error.accepted));
    } catch (const Refusal& refusal) {
      unreadable_ = true;
      reading_ = q(refusal.complaints().front().sentence);
    }
  }
  quick_.setTrouble(unreadable_);
  quick_.setAccessibleDescription(reading_);
  emit preview(marks);
  update();
}

void MarkBar::keepQuick() {
  if (!board_ || unreadable_ || quick_.text().trimmed().isEmpty()) return;
  Board changed = *board_;
  for (Defect& mark : quickMarks(quick_.text(), changed, rules_)) {
    changed.defects.push_back(std::move(mark));
  }
  quick_.setText("");
  emit edited(changed);
}

void MarkBar::keepFigures() {
  if (filling_ || !board_ || chosen_ < 0) return;
  std::array<Length, 4> values;
  for (std::size_t i = 0; i < values.size(); ++i) {
    bool bad = false;
    try {
      values[i] = parseLength(figures_[i]->text().toStdString(), bareOf(unit_));
    } catch (const Unreadable&) {
      bad = true;
    }
    bad = bad || (i >= 2 && values[i] <= Length{});
    figures_[i]->setTrouble(bad);
    if (bad) return;
  }
  Board changed = *board_;
  Defect& mark = changed.defects[static_cast<std::size_t>(chosen_)];
  mark.where = {values[0] - values[2] / 2, values[1] - values[3] / 2, values[2], values[3]};
  mark.face = faces[static_cast<std::size_t>(face_.currentIndex())];
  const bool read =
      mark.face != board_->defects[static_cast<std::size_t>(chosen_)].face || readDetail(mark);
  detail_.setTrouble(!read);
  if (!read) return;
  settle(mark);
  const Defect& before = board_->defects[static_cast<std::size_t>(chosen_)];
  // What is shown is rounded to 1/64: unchanged figures leave the mark as it is.
  const std::array shown{before.where.x + before.where.dx / 2, before.where.y + before.where.dy / 2,
                         before.where.dx, before.where.dy};
  bool same = mark.face == before.face && detail_.text() == detailOf(before, unit_);
  for (std::size_t i = 0; i < shown.size(); ++i) {
    same = same && figures_[i]->text() == shortText(shown[i], unit_);
  }
  if (!same) emit edited(changed);
}

bool MarkBar::readDetail(Defect& mark) const {
  const std::string typed = detail_.text().trimmed().toStdString();
  if (detail_.text() == detailOf(mark, unit_)) return true;
  const Rect size = mark.onB.value_or(mark.where);
  mark.depth.reset();
  mark.onB.reset();
  if (typed.empty()) return true;
  try {
    if (mark.face != DefectFace::through) {
      mark.depth = parseLength(typed, bareOf(unit_));
      return *mark.depth > Length() && *mark.depth < board_->thickness;
    }
    const std::size_t comma = typed.find(',');
    if (comma == std::string::npos) return false;
    const Length x = parseLength(typed.substr(0, comma), bareOf(unit_));
    const Length y = parseLength(typed.substr(comma + 1), bareOf(unit_));
    mark.onB = {x - size.dx / 2, y - size.dy / 2, size.dx, size.dy};
    return overlaps(*mark.onB, boundsOf(*board_));
  } catch (const Unreadable&) {
    return false;
  }
}

void MarkBar::keepLooked() {
  if (filling_ || !board_) return;
  Board changed = *board_;
  for (std::size_t i = 0; i < 2; ++i) {
    changed.looked[i] = static_cast<Looked>(looked_[i]->currentIndex());
  }
  if (changed.looked != board_->looked) emit edited(changed);
}

void MarkBar::resizeEvent(QResizeEvent*) {
  quick_.setGeometry(64, 4, 236, 28);
  int x = width() - 16;
  for (std::size_t i = looked_.size(); i-- > 0;) {
    x -= 176;
    looked_[i]->setGeometry(x, 4, 176, 28);
    x -= 8;
  }
  detail_.setGeometry(x - 100, 4, 92, 28);
  x = 12;
  for (MarkKey* key : keys_) {
    // In a narrow window the letters stand alone; the word is in the tooltip.
    const int w = width() < 1268 ? MarkKey::letterWidth : key->sizeHint().width();
    key->setGeometry(x, 38, w, 28);
    x += w;
  }
  // From the right: face, across, along, y, x, with their words between.
  x = width() - 16;
  face_.setGeometry(x -= 102, 39, 102, 26);
  x -= 6;
  figures_[3]->setGeometry(x -= 62, 39, 62, 26);
  x -= 16;
  figures_[2]->setGeometry(x -= 62, 39, 62, 26);
  x -= 32;
  figures_[1]->setGeometry(x -= 74, 39, 74, 26);
  x -= 12;
  figures_[0]->setGeometry(x -= 68, 39, 68, 26);
}

void MarkBar::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.sheet);
  drawRule(painter, 0, 0, width(), 0, c.rule);
  drawText(painter, 16, 23, "Quick", 13, true, c.ink);
  int end = looked_[0]->x();
  if (!detail_.isHidden()) {
    const QString title = detailTitle(board_->defects[static_cast<std::size_t>(chosen_)]);
    drawText(painter, detail_.x() - 8, 23, title, 12, false, c.soft, Qt::AlignRight);
    end = detail_.x() - 8 - textWidth(title, 12);
  }
  const int room = end - 312 - 12;
  const QString shown =
      reading_.isEmpty() ? "lengths from the tag end, whole width, both faces" : reading_;
  drawText(painter, 312, 23, elided(shown, 13, false, room), 13, false,
           unreadable_          ? c.red
           : reading_.isEmpty() ? c.soft
                                : c.ink);
  const int at = figures_[0]->x();
  drawRule(painter, at - 26, 40, at - 26, 64, c.edge);
  drawText(painter, at - 18, 56, "at", 12, false, c.soft);
  drawText(painter, figures_[1]->x() - 8, 56, ",", 12, false, c.soft);
  drawText(painter, figures_[2]->x() - 29, 56, "size", 12, false, c.soft);
  drawText(painter, figures_[3]->x() - 13, 56, "×", 12, false, c.soft);
}

}  // namespace flitch::desktop
