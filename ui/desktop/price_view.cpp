#include "ui/desktop/price_view.h"

#include <QPainter>
#include <algorithm>

#include "ui/desktop/rack_model.h"

namespace flitch::desktop {
namespace {
constexpr int side = 20, headHeight = 112;
}

PriceView::PriceView(const Look& look, const Actions& actions, Unit unit, const std::string& sign,
                     QWidget* parent)
    : QWidget(parent),
      look_(look),
      sign_(sign),
      which_(look, "Table of the price", "", this),
      estimate_(look, actions.at(Act::estimate), this),
      quote_(look, actions.at(Act::quote), this),
      lines_(look, actions.at(Act::takeLines), this),
      model_(unit, sign, this),
      table_(look, "Price", this) {
  setAccessibleName("What the job costs");
  setFocusProxy(&table_);
  quote_.setPrimary(true);
  table_.setModel(&model_);
  connect(&which_, &QComboBox::activated, this, &PriceView::showTable);
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
}

void PriceView::setPrice(const Estimate& estimate, std::vector<Table> tables) {
  sum_ = QString("%1 bought today").arg(q(text(estimate.sum.today, sign_)));
  asItCost_ =
      QString("%1 at what the boards cost · asked for: %2")
          .arg(q(text(estimate.sum.landed, sign_)), q(wholeText(askedPrice(estimate), sign_)));
  notes_.clear();
  for (const std::string& note : estimate.notes) notes_ += q(note);
  setAccessibleDescription(sum_ + ", " + asItCost_ + ". " + notes_.join(" "));
  tables_ = std::move(tables);
  const int before = std::max(0, which_.currentIndex());
  which_.clear();
  for (const Table& table : tables_) which_.addItem(q(table.title));
  which_.setCurrentIndex(std::min(before, which_.count() - 1));
  showTable();
}

void PriceView::showTable() {
  const int at = which_.currentIndex();
  model_.setTable(at < 0 ? Table{} : tables_[static_cast<std::size_t>(at)]);
  table_.horizontalHeader()->setSortIndicator(-1, Qt::AscendingOrder);
  lay();
  update();
}

void PriceView::lay() {
  int x = side;
  const int y = 70;
  which_.setGeometry(x, y, 180, 30);
  x += 188;
  for (Button* b : {&estimate_, &lines_, &quote_}) b->setKeyShown(true);
  const auto need = [&] {
    int sum = x;
    for (Button* b : {&estimate_, &lines_, &quote_}) sum += b->sizeHint().width() + 8;
    return sum;
  };
  for (Button* b : {&lines_, &estimate_, &quote_}) {
    if (need() > width() - side) b->setKeyShown(false);
  }
  for (Button* b : {&estimate_, &lines_, &quote_}) {
    b->setGeometry(x, y, b->sizeHint().width(), 30);
    x += b->width() + 8;
  }
  const int foot = static_cast<int>(notes_.size()) * 20 + (notes_.isEmpty() ? 0 : 8);
  std::vector<int> widths = model_.widths(420);
  int sum = 12;
  for (const int wide : widths) sum += wide;
  const int room = width() - side - 8;
  const int more =
      widths.empty() ? 0 : std::clamp((room - sum) / static_cast<int>(widths.size()), 0, 32);
  for (int& wide : widths) wide += more;
  sum += more * static_cast<int>(widths.size());
  const int wanted = SheetTable::headHeight + model_.rowCount() * SheetTable::rowHeight + 2;
  table_.setGeometry(side - 8, headHeight, std::min(room, sum),
                     std::min(wanted, height() - headHeight - foot - 8));
  table_.setWidths(widths);
}

void PriceView::resizeEvent(QResizeEvent*) { lay(); }

void PriceView::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.sheet);
  const int room = width() - 2 * side;
  drawText(painter, side, 32, elided(sum_, 17, true, room), 17, true, c.ink);
  drawText(painter, side, 54, elided(asItCost_, 13, false, room), 13, false, c.soft);
  int y = height() - 8 - 20 * (static_cast<int>(notes_.size()) - 1);
  for (const QString& note : notes_) {
    drawText(painter, side, y, elided("! " + note, 13, false, room), 13, false, c.caution);
    y += 20;
  }
}

}  // namespace flitch::desktop
