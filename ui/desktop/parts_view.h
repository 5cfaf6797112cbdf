#pragma once
#include <QTableView>

#include "ui/desktop/parts_model.h"

namespace flitch::desktop {

/// The parts list: two lines a part, its sign; in a wide window also its blank with the reason for
/// each inch added. F2 or a double click types over a cell; in the row below the last part any key
/// begins another, and Enter goes on from cell to cell.
class PartsView : public QTableView {
  Q_OBJECT
 public:
  PartsView(const Look& look, QWidget* parent);
  void setParts(PartsModel* model);
  void setWide(bool wide);
  [[nodiscard]] bool wide() const { return wide_; }
  static constexpr int headHeight = 25;
  [[nodiscard]] int partHeight() const { return wide_ ? 64 : 40; }
  /// The last size typed of a new part.
  [[nodiscard]] int lastColumn() const { return wide_ ? PartsModel::thick : PartsModel::width; }
  /// Whether something of another part is typed.
  [[nodiscard]] bool begun() const { return !parts()->typedNew()[PartsModel::name].isEmpty(); }
  /// Makes the row below the last part the current one.
  void goToNew();

  using QTableView::edit;

 protected:
  bool edit(const QModelIndex& index, EditTrigger trigger, QEvent* event) override;
  void closeEditor(QWidget* editor, QAbstractItemDelegate::EndEditHint hint) override;
  void keyPressEvent(QKeyEvent* event) override;
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  void lay();
  [[nodiscard]] PartsModel* parts() const { return static_cast<PartsModel*>(model()); }
  const Look& look_;
  bool wide_ = false;
};

/// The strengths of line that a sign may have, in a row; returns the width drawn.
int drawAsksLegend(QPainter& painter, int x, int y, int gap, const Colours& colours);

}  // namespace flitch::desktop
