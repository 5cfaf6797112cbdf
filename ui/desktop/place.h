#pragma once
#include <QAction>
#include <QWidget>
#include <array>
#include <functional>
#include <map>
#include <vector>

#include "ui/desktop/actions.h"

namespace flitch::desktop {

/// One cell of the title block.
struct TitleCell {
  QString label, value;
  int width = 0;      ///< at 1280 px
  int wideWidth = 0;  ///< from 2000 px on
};

/// The window's actions as Qt knows them, by row of the table.
using Actions = std::map<Act, QAction*>;

/// A place of the window: Deliveries, Rack, Jobs, Saw.
class Place : public QWidget {
  Q_OBJECT
 public:
  using QWidget::QWidget;
  /// What is shown, chosen and drawn: three cells.
  [[nodiscard]] virtual std::array<TitleCell, 3> cells() const = 0;
  [[nodiscard]] virtual Where where() const = 0;
  /// Whether an action of this place can be done now.
  [[nodiscard]] virtual bool can(Act act) const = 0;
  virtual void carryOut(Act act) = 0;
  /// The book changed: reads again, keeps what is chosen.
  virtual void refresh() = 0;
  /// Shows the board a scan or the find field named; returns false when it is not here.
  virtual bool find(const QString& text) = 0;
  /// Something was typed here that is no entry yet: undo takes it back before any entry.
  [[nodiscard]] virtual bool canUndoTyping() const { return false; }
  virtual void undoTyping() {}
  /// The last entry of the book is about to be undone, and was: what was done here can be done
  /// again until something else is.
  virtual void beforeUndo() {}
  virtual void afterUndo() {}
  [[nodiscard]] virtual bool canRedo() const { return false; }
  virtual void redo() {}
  /// The areas F6 goes through, in order.
  [[nodiscard]] virtual std::vector<QWidget*> areas() const = 0;

 signals:
  void cellsChanged();
  void said(const QString& sentence, bool trouble);
};

/// Width from which drawings grow and a third area opens.
inline constexpr int wideFrom = 2000;

}  // namespace flitch::desktop
