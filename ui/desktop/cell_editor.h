#pragma once
#include <QLineEdit>

#include "ui/desktop/look.h"

namespace flitch::desktop {

/// The field of the one cell that is typed in, in a grid that paints its other cells itself: it
/// looks like its cell and tells where the keys lead.
class CellEditor : public QLineEdit {
  Q_OBJECT
 public:
  CellEditor(const Look& look, const QString& name, QWidget* viewport);

 signals:
  void goOn();                       ///< Enter
  void moved(int lines, int cells);  ///< arrows up and down, Tab and back
  void givenUp();                    ///< Esc
  void pasted(const QString& rows);  ///< cells of a spreadsheet, not text for this cell alone
  void focusLost();

 protected:
  bool event(QEvent* event) override;
  void focusInEvent(QFocusEvent* event) override;
  void focusOutEvent(QFocusEvent* event) override;

 private:
  void takeLook();
  const Look& look_;
};

/// The frame round a cell that is typed in, in red where what stands there cannot be read.
void drawCellFrame(QPainter& painter, const CellEditor& editor, bool trouble,
                   const Colours& colours);

}  // namespace flitch::desktop
