#pragma once
#include <QStyledItemDelegate>
#include <QTableView>
#include <vector>

#include "ui/desktop/look.h"

namespace flitch::desktop {

/// A table as on a drafting sheet: horizontal rules only, figures right, the head in soft ink over
/// an ink line, the chosen row tinted with a bar of 4 px. Tab leaves it.
class SheetTable : public QTableView {
  Q_OBJECT
 public:
  SheetTable(const Look& look, const QString& name, QWidget* parent);
  /// Shares the width out: the columns' own widths, the rest to the last.
  void setWidths(const std::vector<int>& widths);
  static constexpr int rowHeight = 27;
  static constexpr int headHeight = 28;

 signals:
  void entered();  ///< Enter on the chosen row
  void left();     ///< Up from the first row, or Esc

 protected:
  void keyPressEvent(QKeyEvent* event) override;
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  const Look& look_;
  std::vector<int> widths_;
};

}  // namespace flitch::desktop
