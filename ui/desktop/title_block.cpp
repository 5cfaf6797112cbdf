#include "ui/desktop/title_block.h"

#include <QAccessible>
#include <QPainter>

namespace flitch::desktop {

TitleBlock::TitleBlock(const Look& look, QAction* undo, QWidget* parent)
    : QWidget(parent), look_(look), undo_(look, "Undo", "Ctrl+Z", this) {
  setAccessibleName("Title block");
  undo_.setToolTip(undo->toolTip());
  connect(&undo_, &QAbstractButton::clicked, undo, &QAction::trigger);
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
}

void TitleBlock::setCells(const std::array<TitleCell, 3>& cells) {
  cells_ = cells;
  lay();
}

void TitleBlock::setBook(const QString& unit, const QString& state) {
  unit_ = unit;
  state_ = state;
  lay();
}

void TitleBlock::setLast(const QString& sentence, bool undo) {
  const bool news = sentence != last_;
  last_ = sentence;
  undo_.setVisible(undo);
  lay();
  if (!news) return;
  setAccessibleDescription(sentence);
  QAccessibleEvent changed(this, QAccessible::DescriptionChanged);
  QAccessible::updateAccessibility(&changed);
}

std::vector<TitleCell> TitleBlock::all() const {
  std::vector<TitleCell> all(cells_.begin(), cells_.end());
  all.push_back({"Unit", unit_, 90, 160});
  all.push_back({"Book", state_, 130, 240});
  all.push_back({"Last done", last_, 0, 0});
  return all;
}

std::vector<int> TitleBlock::widths() const {
  const std::vector<TitleCell> cells = all();
  const bool wide = width() >= wideFrom;
  std::vector<int> widths;
  for (const TitleCell& cell : cells) widths.push_back(wide ? cell.wideWidth : cell.width);
  int sum = 0;
  for (const int w : widths) sum += w;
  // The last cell keeps room for a word and the whole of Undo.
  const int most = width() - leastLast - undo_.sizeHint().width();
  if (sum > most) {
    for (int& w : widths) w = w * std::max(0, most) / sum;
  }
  return widths;
}

int TitleBlock::lastLeft() const {
  int left = 0;
  for (const int w : widths()) left += w;
  return left;
}

void TitleBlock::lay() {
  const int x = lastLeft(), undo = undo_.sizeHint().width();
  const int text = std::min(textWidth(last_, 13), width() - x - undo - 10 - 18 - 8);
  undo_.setGeometry(x + 10 + std::max(0, text) + 18, 14, undo, 28);
  update();
}

void TitleBlock::resizeEvent(QResizeEvent*) { lay(); }

void TitleBlock::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.ground);
  painter.fillRect(QRectF(0, 0, width(), 1.5), c.ink);
  const std::vector<TitleCell> cells = all();
  const std::vector<int> each = widths();
  int x = 0;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const bool last = i + 1 == cells.size();
    const int w = last ? width() - x : each[i];
    if (i > 0) drawRule(painter, x, 2, x, height(), c.edge);
    const int left = x + (i == 0 ? 16 : 10);
    const int room = (last ? (undo_.isHidden() ? width() : undo_.x()) : x + w) - left - 6;
    drawText(painter, left, 16, elided(cells[i].label, 11, false, room), 11, false, c.soft);
    drawText(painter, left, 33, elided(cells[i].value, 13, false, room), 13, false, c.ink);
    x += w;
  }
}

}  // namespace flitch::desktop
