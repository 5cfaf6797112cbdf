#pragma once
#include <QAbstractScrollArea>
#include <vector>

#include "inventory/desk/tally_sheet.h"
#include "ui/desktop/cell_editor.h"

namespace flitch::desktop {

/// A tally as it is typed, a line a board. One cell is always the field being typed in; Enter goes
/// on to the next one that is wanted, and from the last to a new line. How a cell was read stands
/// below it. Cells carried down are in soft ink.
class TallyGrid : public QAbstractScrollArea {
  Q_OBJECT
 public:
  TallyGrid(const Look& look, Unit unit, std::string sign, QWidget* parent);

  /// What is shown; both outlive the grid's next call.
  void setTally(const desk::TallySheet* sheet, const desk::ReadTally* read);
  /// Goes to a cell and selects what stands there.
  void goTo(int line, desk::TallyCell cell);
  /// Shows the other cells of a line in a window too narrow for all: taper and outline points of
  /// both faces, thickness, moisture, what it was cut from, a note; or those of the tally again.
  void turnCells();
  [[nodiscard]] int line() const { return line_; }
  [[nodiscard]] desk::TallyCell cell() const { return cell_; }
  [[nodiscard]] CellEditor& editor() { return editor_; }

  static constexpr int rowHeight = 27, chosenHeight = 46, headHeight = 28;

 signals:
  /// Left a cell in which something else stands now.
  void typed(int line, desk::TallyCell cell, const QString& text);
  /// Rows of a spreadsheet were pasted at a cell.
  void pasted(int line, desk::TallyCell cell, const QString& rows);
  /// Enter in the last cell that is wanted: a new line.
  void lineDone(int line);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void focusInEvent(QFocusEvent* event) override;

 private:
  /// A column of the grid: a cell, or a figure that is reckoned.
  struct Column {
    const char* title;
    std::optional<desk::TallyCell> cell;
    int width = 0;
    bool right = false;
  };
  [[nodiscard]] std::vector<Column> columns() const;
  /// The other cells are shown: the cell at hand is one of them, or they were asked for.
  [[nodiscard]] bool otherShown() const;
  [[nodiscard]] QRect boxOf(int line, std::size_t column) const;
  [[nodiscard]] int topOf(int line) const;
  [[nodiscard]] int lines() const;
  [[nodiscard]] QString figure(int line, std::size_t column) const;
  [[nodiscard]] QString echo(desk::TallyCell cell) const;
  [[nodiscard]] bool faulty(int line, desk::TallyCell cell) const;
  void placeEditor();
  void commit();
  void goOn();
  void step(int way);
  void reveal();

  const Look& look_;
  Unit unit_;
  std::string sign_;
  const desk::TallySheet* sheet_ = nullptr;
  const desk::ReadTally* read_ = nullptr;
  bool other_ = false;  ///< the other cells were asked for
  int line_ = 0;
  desk::TallyCell cell_ = desk::TallyCell::length;
  CellEditor editor_;
};

}  // namespace flitch::desktop
