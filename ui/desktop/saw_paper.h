#pragma once
#include <QAbstractScrollArea>
#include <vector>

#include "inventory/desk/saw_paper.h"
#include "ui/desktop/cell_editor.h"
#include "ui/desktop/plan_sheet.h"

namespace flitch::desktop {

/// What was sawn from paper, entered in one sitting: a line a board, in which only what went
/// otherwise is typed. Nothing is booked here.
class SawPaper : public QAbstractScrollArea {
  Q_OBJECT
 public:
  SawPaper(const Look& look, Unit unit, QWidget* parent);
  /// Boards of the sheet that are not sawn yet, in this order. What was typed stays with its board.
  void setBoards(const PlanSheet* sheet, const std::vector<std::size_t>& order,
                 const exchange::ReadingRules& rules);
  /// Takes what stands in the field too.
  void commit();

  /// One line of the list.
  struct Line {
    BoardId board;
    const OpenedBoard* opened = nullptr;
    QString typed;
    desk::PaperLine read;
    QString reading;  ///< how it was understood, with what it changes
    QString trouble;  ///< what is wrong with it, empty: nothing
  };
  [[nodiscard]] const std::vector<Line>& lines() const { return lines_; }
  [[nodiscard]] int sawn() const;
  [[nodiscard]] int otherwise() const;
  [[nodiscard]] QString trouble() const;  ///< of the first line that has one

 signals:
  void changed();
  void left();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;

 private:
  [[nodiscard]] int otherwiseAt() const;
  [[nodiscard]] int topOf(int line) const;
  void read(Line& line) const;
  void goTo(int line);
  void place();

  static constexpr int rowHeight = 38, headHeight = 30, fieldWidth = 160;

  const Look& look_;
  Unit unit_;
  exchange::ReadingRules rules_;
  PlanRequest request_;  ///< what the lines are judged by
  Length tick_;
  std::vector<Line> lines_;
  int line_ = 0;
  CellEditor editor_;
};

}  // namespace flitch::desktop
