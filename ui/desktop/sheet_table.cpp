#include "ui/desktop/sheet_table.h"

#include <QHeaderView>
#include <QKeyEvent>
#include <QPainter>
#include <QScrollBar>

#include "ui/desktop/controls.h"
#include "ui/desktop/rack_model.h"

namespace flitch::desktop {
namespace {

class SheetHead : public QHeaderView {
 public:
  SheetHead(const Look& look, QWidget* parent) : QHeaderView(Qt::Horizontal, parent), look_(look) {
    setSectionsClickable(true);
    setHighlightSections(false);
    setMinimumSectionSize(20);
  }

 protected:
  void paintSection(QPainter* painter, const QRect& box, int section) const override {
    const Colours& c = look_.colours();
    painter->fillRect(box, c.sheet);
    drawRule(*painter, box.left(), box.bottom(), box.right() + 1, box.bottom(), c.ink);
    const QString title = model()->headerData(section, orientation(), Qt::DisplayRole).toString();
    const bool right =
        model()->headerData(section, orientation(), Qt::TextAlignmentRole).toInt() & Qt::AlignRight;
    const double line = box.top() + box.height() / 2.0 + 4.5;
    drawText(*painter, right ? box.right() + 1 - 8 : box.left() + 8, line,
             elided(title, 12, false, box.width() - 10), 12, false, look_.colours().soft,
             right ? Qt::AlignRight : Qt::AlignLeft);
    if (isSortIndicatorShown() && sortIndicatorSection() == section) {
      painter->save();
      painter->setRenderHint(QPainter::Antialiasing);
      painter->setPen(Qt::NoPen);
      painter->setBrush(c.ink);
      const double x = right ? box.right() - 5 : box.left() + textWidth(title, 12) + 12;
      const double y = box.top() + box.height() / 2.0;
      const bool up = sortIndicatorOrder() == Qt::AscendingOrder;
      const QPolygonF sign{{QPointF(x, y + (up ? 3 : -1)), QPointF(x + 6, y + (up ? 3 : -1)),
                            QPointF(x + 3, y + (up ? -1 : 3))}};
      painter->drawPolygon(sign);
      painter->restore();
    }
  }
  void paintEvent(QPaintEvent* event) override {
    QHeaderView::paintEvent(event);
    QPainter painter(viewport());
    drawRule(painter, 0, height() - 1, width(), height() - 1, look_.colours().ink);
  }

 private:
  const Look& look_;
};

class SheetCell : public QStyledItemDelegate {
 public:
  SheetCell(const Look& look, QObject* parent) : QStyledItemDelegate(parent), look_(look) {}

  void paint(QPainter* painter, const QStyleOptionViewItem& option,
             const QModelIndex& index) const override {
    const Colours& c = look_.colours();
    const QRect& box = option.rect;
    const bool chosen = option.state & QStyle::State_Selected;
    painter->fillRect(box, chosen ? c.picked : index.row() % 2 ? c.stripe : c.sheet);
    if (chosen && index.column() == 0)
      painter->fillRect(box.left(), box.top(), 4, box.height(), c.blue);
    drawRule(*painter, box.left(), box.bottom(), box.right() + 1, box.bottom(), c.rule);
    const bool bold = index.data(boldRole).toBool();
    const bool right = index.data(Qt::TextAlignmentRole).toInt() & Qt::AlignRight;
    const QString shown =
        elided(index.data(Qt::DisplayRole).toString(), 13, bold, box.width() - 12);
    drawText(*painter, right ? box.right() + 1 - 8 : box.left() + 8,
             box.top() + box.height() / 2.0 + 4.7, shown, 13, bold,
             index.data(softRole).toBool() ? c.soft : c.ink,
             right ? Qt::AlignRight : Qt::AlignLeft);
  }

 private:
  const Look& look_;
};

}  // namespace

SheetTable::SheetTable(const Look& look, const QString& name, QWidget* parent)
    : QTableView(parent), look_(look) {
  setUpTable(*this, look, name, new SheetHead(look, this), headHeight);
  setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
  verticalHeader()->setDefaultSectionSize(rowHeight);
  verticalHeader()->setMinimumSectionSize(rowHeight);
  setItemDelegate(new SheetCell(look, this));
  setSortingEnabled(true);
  horizontalHeader()->setSortIndicatorShown(true);
  sortByColumn(0, Qt::AscendingOrder);
}

void SheetTable::setWidths(const std::vector<int>& widths) {
  widths_ = widths;
  int sum = 0;
  for (std::size_t i = 0; i < widths_.size(); ++i) {
    const int w =
        i + 1 == widths_.size() ? std::max(widths_[i], viewport()->width() - sum) : widths_[i];
    setColumnWidth(static_cast<int>(i), w);
    sum += w;
  }
}

void SheetTable::resizeEvent(QResizeEvent* event) {
  QTableView::resizeEvent(event);
  if (!widths_.empty()) setWidths(std::vector<int>(widths_));
}

void SheetTable::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
    if (!(event->modifiers() & ~Qt::KeypadModifier)) {
      emit entered();
      return;
    }
  }
  if (event->key() == Qt::Key_Escape || (event->key() == Qt::Key_Up && currentIndex().row() <= 0)) {
    emit left();
    return;
  }
  QTableView::keyPressEvent(event);
}

void SheetTable::paintEvent(QPaintEvent* event) {
  QPainter painter(viewport());
  const Colours& c = look_.colours();
  painter.fillRect(viewport()->rect(), c.sheet);
  painter.end();
  QTableView::paintEvent(event);
  if (hasFocus()) {
    QPainter frame(viewport());
    frame.setPen(QPen(c.blue, 2));
    frame.drawRect(viewport()->rect().adjusted(1, 1, -1, -1));
  }
}

}  // namespace flitch::desktop
