#pragma once
#include <QWidget>
#include <vector>

#include "ui/desktop/look.h"

namespace flitch::desktop {

/// A few reports under one another, each with what it answers; Up and Down choose.
class ReportList : public QWidget {
  Q_OBJECT
 public:
  struct Row {
    QString name, what;
  };
  ReportList(const Look& look, std::vector<Row> rows, QWidget* parent);
  void setRows(std::vector<Row> rows);
  void setCurrent(int row);
  [[nodiscard]] int current() const { return current_; }
  [[nodiscard]] const std::vector<Row>& rows() const { return rows_; }
  static constexpr int rowHeight = 47;

 signals:
  void chosen(int row);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;

 private:
  void choose(int row);
  const Look& look_;
  std::vector<Row> rows_;
  int current_ = 0;
};

}  // namespace flitch::desktop
