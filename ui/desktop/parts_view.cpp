#include "ui/desktop/parts_view.h"

#include <QHeaderView>
#include <QKeyEvent>
#include <QLineEdit>
#include <QPainter>
#include <QStyledItemDelegate>

#include "ui/desktop/controls.h"
#include "ui/desktop/rack_model.h"

namespace flitch::desktop {
namespace {

/// Second lines run under figures that have none: the last column paints them over the others.
class PartCell : public QStyledItemDelegate {
 public:
  PartCell(const Look& look, const PartsView* view)
      : QStyledItemDelegate(nullptr), look_(look), view_(view) {}

  QWidget* createEditor(QWidget* viewport, const QStyleOptionViewItem&,
                        const QModelIndex& index) const override {
    const QString head =
        index.model()->headerData(index.column(), Qt::Horizontal, Qt::DisplayRole).toString();
    const QString name = index.siblingAtColumn(PartsModel::name).data().toString();
    auto* field = new QLineEdit(viewport);
    field->setAccessibleName(head + " of " + (name.isEmpty() ? QString("another part") : name));
    field->setFont(typeface(13));
    if (index.column() != PartsModel::name) field->setAlignment(Qt::AlignRight);
    const Colours& c = look_.colours();
    QPalette own = field->palette();
    own.setColor(QPalette::Base, c.field);
    own.setColor(QPalette::Text, c.ink);
    own.setColor(QPalette::Highlight, c.blue);
    own.setColor(QPalette::HighlightedText, c.sheet);
    field->setPalette(own);
    return field;
  }
  void setEditorData(QWidget* editor, const QModelIndex& index) const override {
    auto* field = static_cast<QLineEdit*>(editor);
    field->setText(index.data(Qt::EditRole).toString());
    field->selectAll();
  }
  void setModelData(QWidget* editor, QAbstractItemModel* model,
                    const QModelIndex& index) const override {
    model->setData(index, static_cast<QLineEdit*>(editor)->text(), Qt::EditRole);
  }
  /// Over the first line; of a size, which may be arithmetic, over the cell before it too, of words
  /// over all before it up to the name.
  void updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option,
                            const QModelIndex& index) const override {
    QRect box(option.rect.left(), option.rect.top() + 1, option.rect.width(), 24);
    if (index.column() == PartsModel::asks) {
      box.setLeft(view_->columnViewportPosition(PartsModel::count));
    } else if (index.column() >= PartsModel::length) {
      box.setLeft(view_->columnViewportPosition(index.column() - 1));
    }
    editor->setGeometry(box);
  }

  void paint(QPainter* painter, const QStyleOptionViewItem& option,
             const QModelIndex& index) const override {
    const Colours& c = look_.colours();
    const QRect& box = option.rect;
    const auto* model = static_cast<const PartsModel*>(index.model());
    const bool chosen = option.state & QStyle::State_Selected;
    painter->fillRect(box, chosen ? c.picked : c.sheet);
    if (chosen && index.column() == 0) {
      painter->fillRect(box.left(), box.top(), 4, box.height() - 1, c.blue);
    }
    drawRule(*painter, box.left(), box.bottom(), box.right() + 1, box.bottom(), c.rule);
    const QString shown = index.data().toString();
    const double first = box.top() + 17, second = box.top() + 33;
    const double right = box.right() + 1 - 6;
    if (model->isNew(index.row())) {
      paintNew(*painter, box, index.column(), shown);
      return;
    }
    const Part& part = model->part(index.row());
    switch (index.column()) {
      case PartsModel::letter:
        drawText(*painter, box.left() + 8, first, shown, 14, true, c.ink);
        break;
      case PartsModel::name:
        drawText(*painter, box.left() + 8, first, elided(shown, 14, false, box.width() - 12), 14,
                 false, c.ink);
        break;
      case PartsModel::width:
        drawText(*painter, right, first, shown, 14, false, c.ink, Qt::AlignRight);
        if (!view_->wide()) {
          drawText(*painter, right, second, shortText(part.thickness, model->unit()) + " thick", 12,
                   false, c.soft, Qt::AlignRight);
        }
        break;
      case PartsModel::asks:
        drawAsks(*painter, QRectF(box.center().x() - 15, box.top() + 11, 30, 18), part, c);
        paintSecond(*painter, box.top(), *model, index.row());
        break;
      default: drawText(*painter, right, first, shown, 14, false, c.ink, Qt::AlignRight);
    }
  }

 private:
  /// What is typed of another part; where nothing is, that it may be.
  void paintNew(QPainter& painter, const QRect& box, int column, const QString& shown) const {
    const Colours& c = look_.colours();
    const double first = box.top() + 17;
    if (column == PartsModel::name && shown.isEmpty()) {
      drawText(painter, box.left() + 8, first, "Another part", 14, false, c.soft);
    } else if (column == PartsModel::asks) {
      // Words, too long for its column; here over the cells before it.
      const int left = view_->columnViewportPosition(PartsModel::name) + 8;
      const QString said = !shown.isEmpty() ? shown
                           : view_->begun() ? QString("Enter goes on, Del drops it")
                                            : QString("Type its name");
      drawText(painter, left, first + 16, elided(said, 12, false, box.right() - left - 8), 12,
               false, c.soft);
    } else {
      const bool left = column == PartsModel::name;
      drawText(painter, left ? box.left() + 8 : box.right() + 1 - 6, first,
               elided(shown, 14, false, box.width() - 12), 14, false, c.ink,
               left ? Qt::AlignLeft : Qt::AlignRight);
    }
  }

  void paintSecond(QPainter& painter, int top, const PartsModel& model, int row) const {
    const Colours& c = look_.colours();
    const int missing = model.shortOf(row);
    const int left = view_->columnViewportPosition(PartsModel::name);
    const int room = view_->columnWidth(PartsModel::name) + view_->columnWidth(PartsModel::count) +
                     view_->columnWidth(PartsModel::length) - 24;
    if (missing > 0) {
      drawText(painter, left + 8, top + 33,
               elided(QString("! %1 short · %2").arg(missing).arg(model.secondLine(row)), 12, true,
                      room),
               12, true, c.caution);
    } else {
      drawText(painter, left + 8, top + 33, elided(model.secondLine(row), 12, false, room), 12,
               false, c.soft);
    }
    if (const std::optional<Blank>& blank = model.blank(row); view_->wide() && blank) {
      QStringList added;
      for (const auto& [what, list] :
           {std::pair("length", &blank->onLength), std::pair("width", &blank->onWidth),
            std::pair("thickness", &blank->onThickness)}) {
        Length sum;
        for (const Allowance& a : *list) sum += a.amount;
        if (sum > Length{}) {
          added.push_back(QString("%1 +%2").arg(QString(what), shortText(sum, model.unit())));
        }
      }
      const double y = top + 54;
      drawText(painter, left + 24, y, "blank", 12, true, c.ink);
      const QString size =
          shortText(blank->length, model.unit()) + " × " + shortText(blank->width, model.unit());
      drawText(painter, left + 72, y, size, 12, false, c.ink);
      const int at = 72 + textWidth(size, 12) + 16;
      drawText(painter, left + at, y,
               elided(added.join(", "), 12, false, view_->viewport()->width() - left - at - 8), 12,
               false, c.soft);
    }
  }

  const Look& look_;
  const PartsView* view_;
};

class PartHead : public QHeaderView {
 public:
  PartHead(const Look& look, QWidget* parent) : QHeaderView(Qt::Horizontal, parent), look_(look) {
    setMinimumSectionSize(10);
  }

 protected:
  void paintSection(QPainter* painter, const QRect& box, int section) const override {
    const Colours& c = look_.colours();
    painter->fillRect(box, c.sheet);
    drawRule(*painter, box.left(), box.bottom(), box.right() + 1, box.bottom(), c.ink);
    const int align = model()->headerData(section, orientation(), Qt::TextAlignmentRole).toInt();
    const QString title = model()->headerData(section, orientation(), Qt::DisplayRole).toString();
    const double x = align & Qt::AlignRight     ? box.right() + 1 - 6
                     : align & Qt::AlignHCenter ? box.center().x() + 1
                                                : box.left() + 8;
    drawText(*painter, x, box.top() + 17, title, 12, false, c.soft,
             Qt::Alignment(align & Qt::AlignHorizontal_Mask));
  }

 private:
  const Look& look_;
};

}  // namespace

PartsView::PartsView(const Look& look, QWidget* parent) : QTableView(parent), look_(look) {
  setUpTable(*this, look, "Parts of the job", new PartHead(look, this), headHeight);
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  verticalHeader()->setMinimumSectionSize(20);
  auto* cells = new PartCell(look, this);
  cells->setParent(this);
  setItemDelegate(cells);
  setEditTriggers(QAbstractItemView::DoubleClicked | QAbstractItemView::EditKeyPressed |
                  QAbstractItemView::AnyKeyPressed);
  connect(&look_, &Look::changed, this, [this] { viewport()->update(); });
}

void PartsView::setParts(PartsModel* model) {
  setModel(model);
  setWide(wide_);
}

void PartsView::setWide(bool wide) {
  wide_ = wide;
  lay();
}

void PartsView::lay() {
  if (model() == nullptr) return;
  setColumnHidden(PartsModel::thick, !wide_);
  parts()->setThickInWidth(!wide_);
  const std::array<int, PartsModel::columnCountOf> fixed =
      wide_ ? std::array<int, PartsModel::columnCountOf>{26, 0, 64, 80, 66, 56, 50}
            : std::array<int, PartsModel::columnCountOf>{26, 0, 50, 76, 64, 0, 42};
  int rest = viewport()->width();
  for (int w : fixed) rest -= w;
  for (int i = 0; i < PartsModel::columnCountOf; ++i) {
    const int w = fixed[static_cast<std::size_t>(i)];
    if (!isColumnHidden(i)) setColumnWidth(i, i == PartsModel::name ? std::max(60, rest) : w);
  }
  verticalHeader()->setDefaultSectionSize(partHeight());
}

void PartsView::resizeEvent(QResizeEvent* event) {
  QTableView::resizeEvent(event);
  lay();
}

bool PartsView::edit(const QModelIndex& index, EditTrigger trigger, QEvent* event) {
  const bool isNew = index.isValid() && parts()->isNew(index.row());
  // A part is not typed over by a key hit by chance.
  if (trigger == AnyKeyPressed && !isNew) return false;
  const bool begins = trigger != NoEditTriggers && isNew &&
                      parts()->typedNew()[PartsModel::name].isEmpty() &&
                      index.column() != PartsModel::name;
  if (!begins) return QTableView::edit(index, trigger, event);
  const QModelIndex name = index.siblingAtColumn(PartsModel::name);
  setCurrentIndex(name);
  return QTableView::edit(name, trigger, event);
}

void PartsView::closeEditor(QWidget* editor, QAbstractItemDelegate::EndEditHint hint) {
  const QModelIndex at = currentIndex();
  const bool entered = hint == QAbstractItemDelegate::SubmitModelCache;
  const bool goesOn = entered && at.isValid() && parts()->isNew(at.row()) &&
                      !at.data().toString().isEmpty() && at.column() < lastColumn();
  QTableView::closeEditor(editor, goesOn ? QAbstractItemDelegate::EditNextItem : hint);
}

void PartsView::goToNew() {
  setCurrentIndex(model()->index(model()->rowCount() - 1, PartsModel::name));
}

void PartsView::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Delete && currentIndex().isValid() &&
      parts()->isNew(currentIndex().row())) {
    parts()->clearNew();
    return;
  }
  if (event->key() == Qt::Key_Escape) {
    clearSelection();
    setCurrentIndex({});
    return;
  }
  QTableView::keyPressEvent(event);
}

void PartsView::paintEvent(QPaintEvent* event) {
  {
    QPainter painter(viewport());
    painter.fillRect(viewport()->rect(), look_.colours().sheet);
  }
  QTableView::paintEvent(event);
  if (hasFocus()) {
    QPainter frame(viewport());
    frame.setPen(QPen(look_.colours().blue, 2));
    frame.drawRect(viewport()->rect().adjusted(1, 1, -1, -1));
  }
}

int drawAsksLegend(QPainter& painter, int x, int y, int gap, const Colours& colours) {
  const int from = x;
  for (const char* demand : {"heart only", "clear", "sound", "hidden"}) {
    Part sign;
    sign.faceA = demand;
    sign.faceB = sign.edges[0] = sign.edges[1] =
        std::string(demand) == "hidden" ? "hidden" : "sound";
    drawAsks(painter, QRectF(x, y - 1, 26, 15), sign, colours);
    drawText(painter, x + 31, y + 10.5, demand, 11, false, colours.soft);
    x += 31 + textWidth(demand, 11) + gap;
  }
  return x - from;
}

}  // namespace flitch::desktop
