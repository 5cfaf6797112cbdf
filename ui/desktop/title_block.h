#pragma once
#include <QWidget>
#include <array>

#include "ui/desktop/controls.h"
#include "ui/desktop/place.h"

namespace flitch::desktop {

/// The foot of the sheet: what is shown, chosen and drawn, the unit, the book's state, the last
/// thing done with its undo.
class TitleBlock : public QWidget {
  Q_OBJECT
 public:
  static constexpr int blockHeight = 42;
  TitleBlock(const Look& look, QAction* undo, QWidget* parent);
  void setCells(const std::array<TitleCell, 3>& cells);
  void setBook(const QString& unit, const QString& state);
  /// The last cell; read to a screen reader when it changes.
  void setLast(const QString& sentence, bool undo);
  [[nodiscard]] const QString& last() const { return last_; }

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  [[nodiscard]] std::vector<TitleCell> all() const;
  /// Of each cell but the last, which takes the rest; less than they ask for in a narrow window.
  [[nodiscard]] std::vector<int> widths() const;
  [[nodiscard]] int lastLeft() const;
  void lay();
  static constexpr int leastLast = 160;
  const Look& look_;
  std::array<TitleCell, 3> cells_;
  QString unit_, state_, last_;
  TextButton undo_;
};

}  // namespace flitch::desktop
