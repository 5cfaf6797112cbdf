#pragma once
#include <QAbstractScrollArea>
#include <vector>

#include "ui/desktop/look.h"

namespace flitch::desktop {

/// One board to fetch.
struct PullRow {
  QString bay, tag, wood;
  QString state;  ///< "cut 3 of 10", "to fetch", "sawn ✓"
  bool sawn = false;
};

/// The boards of a plan by bay, with how far each is. Up and Down choose.
class PullList : public QAbstractScrollArea {
  Q_OBJECT
 public:
  PullList(const Look& look, QWidget* parent);
  void setRows(std::vector<PullRow> rows);
  /// Chooses a row and brings it into view; -1: none.
  void setCurrent(int row);
  [[nodiscard]] int current() const { return current_; }
  [[nodiscard]] const std::vector<PullRow>& rows() const { return rows_; }

  static constexpr int rowHeight = 38;

 signals:
  void chosen(int row);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;

 private:
  void describe();
  const Look& look_;
  std::vector<PullRow> rows_;
  int current_ = -1;
};

}  // namespace flitch::desktop
