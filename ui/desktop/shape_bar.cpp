#include "ui/desktop/shape_bar.h"

#include <QPainter>

#include "inventory/records/refusal.h"

namespace flitch::desktop {
namespace {

struct Named {
  const char* name;
  int share;  ///< of the width that is left beside the hollow edge
};
constexpr std::array<Named, 9> named{{{"Outline A", 25},
                                      {"Outline B", 18},
                                      {"Thickness", 8},
                                      {"Bow", 7},
                                      {"Bent at", 9},
                                      {"Crook", 7},
                                      {"Cup", 7},
                                      {"Twist", 7},
                                      {"Grain slope", 12}}};
constexpr int hollowWidth = 132, left = 16, between = 8;

}  // namespace

ShapeBar::ShapeBar(const Look& look, Unit unit, QWidget* parent)
    : QWidget(parent), look_(look), unit_(unit), hollow_(look, "Hollow edge", "", this) {
  setAccessibleName("Shape of the board");
  for (std::size_t f = 0; f < fields_.size(); ++f) {
    const QString hint = f == outlineA
                             ? QString(unit == Unit::inches ? "8 3/4 - 8 1/4" : "210 - 205")
                         : f == outlineB ? QString("as face A")
                         : f == grain    ? QString("1 in 12")
                                         : QString();
    fields_[f] = new Field(look, QString(named[f].name), hint, "", this);
    connect(fields_[f], &QLineEdit::textChanged, this, &ShapeBar::read);
    connect(fields_[f], &QLineEdit::returnPressed, this, &ShapeBar::keep);
    connect(fields_[f], &Field::left, this, &ShapeBar::leaveWanted);
  }
  hollow_.addItems({"hollow near", "hollow far"});
  connect(&hollow_, &QComboBox::activated, this, &ShapeBar::read);
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
}

void ShapeBar::setBoard(const std::optional<Board>& board) {
  board_ = board;
  filling_ = true;
  const desk::ShapeTyped shape = board_ ? desk::shapeOf(*board_, unit_) : desk::ShapeTyped{};
  const std::array<const std::string*, figures> texts{
      &shape.outlineA, &shape.outlineB, &shape.thickness, &shape.bow,  &shape.bentAt,
      &shape.crook,    &shape.cup,      &shape.twist,     &shape.grain};
  for (std::size_t f = 0; f < fields_.size(); ++f) {
    fields_[f]->setEnabled(board_.has_value());
    fields_[f]->setText(q(*texts[f]));
    fields_[f]->setCursorPosition(0);
  }
  hollow_.setCurrentIndex(static_cast<int>(shape.hollow));
  filling_ = false;
  read();
}

void ShapeBar::focusOutline() {
  fields_[outlineA]->setFocus(Qt::ShortcutFocusReason);
  fields_[outlineA]->selectAll();
}

void ShapeBar::focusWarp() {
  fields_[bow]->setFocus(Qt::ShortcutFocusReason);
  fields_[bow]->selectAll();
}

desk::ShapeTyped ShapeBar::typed() const {
  const auto at = [&](Figure f) { return fields_[f]->text().trimmed().toStdString(); };
  return {at(thickness), at(outlineA),
          at(outlineB),  at(bow),
          at(bentAt),    at(crook),
          at(cup),       at(twist),
          at(grain),     hollow_.currentIndex() == 1 ? Edge::far : Edge::near};
}

void ShapeBar::read() {
  if (filling_) return;
  said_.clear();
  read_.reset();
  QString wrong;
  if (board_) {
    try {
      read_ = desk::reshaped(*board_, typed(), rules_);
      said_ = q(sizeText(*read_, unit_)) +
              (*read_ == *board_ ? ", as it is in the book" : ", Enter keeps it");
    } catch (const Refusal& refusal) {
      const Complaint& first = refusal.complaints().front();
      wrong = q(first.place.substr(first.place.rfind(':') + 1)).replace('_', ' ');
      said_ = q(text(first));
    }
  }
  for (std::size_t f = 0; f < fields_.size(); ++f) {
    fields_[f]->setTrouble(!wrong.isEmpty() &&
                           fields_[f]->accessibleName().compare(wrong, Qt::CaseInsensitive) == 0);
  }
  update();
}

void ShapeBar::keep() {
  if (read_ && board_ && *read_ != *board_) emit reshaped(*read_);
}

void ShapeBar::resizeEvent(QResizeEvent*) {
  const int room = width() - 2 * left - hollowWidth - between * figures;
  int x = left;
  for (std::size_t f = 0; f < fields_.size(); ++f) {
    const int wide = room * named[f].share / 100;
    fields_[f]->setGeometry(x, 20, wide, 28);
    x += wide + between;
    if (f != crook) continue;
    hollow_.setGeometry(x, 20, hollowWidth, 28);
    x += hollowWidth + between;
  }
}

void ShapeBar::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.sheet);
  drawRule(painter, 0, 0, width(), 0, c.rule);
  for (const Field* field : fields_) {
    drawText(painter, field->x(), 15, elided(field->accessibleName(), 12, false, field->width()),
             12, false, c.soft);
  }
  drawText(painter, left, 64, elided(said_, 12, false, width() - 2 * left), 12, false,
           read_ || !board_ ? c.soft : c.red);
}

}  // namespace flitch::desktop
