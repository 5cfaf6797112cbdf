#pragma once
#include <QWidget>

#include "inventory/records/board.h"
#include "ui/desktop/controls.h"

namespace flitch::desktop {

/// One thing a maker says was done to the boards chosen.
struct BoardWords {
  enum class What { move, note, keepBack, letGo, reading, retire, sendBack, newTag };
  What what = What::move;
  std::string text;  ///< the bay, the note, the reason
  int tenthsPercent = 0;
  MoistureState state = MoistureState::ready;
};
/// Reads `bay B3`, `note for the door`, `keep back`, `let go`, `moisture 8.5`, `moisture 13
/// resting`, `retire split in two`, `return honeycombed end`, `new tag`. Throws Unreadable.
[[nodiscard]] BoardWords readBoardWords(const std::string& text);
/// "to bay B3"; how it was understood.
[[nodiscard]] QString readingOf(const BoardWords& words);

/// In place of the marks' bar: one line for what was done to the boards chosen.
class BoardLine : public QWidget {
  Q_OBJECT
 public:
  BoardLine(const Look& look, QWidget* parent);
  /// "T0042-F", "5 boards": of what is said.
  void setBoards(const QString& boards);
  void clear() { field_.setText(""); }

 signals:
  void entered(const flitch::desktop::BoardWords& words);
  void leaveWanted();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  void read();
  void keep();

  const Look& look_;
  QString boards_, reading_;
  bool trouble_ = false;
  Field field_;
};

}  // namespace flitch::desktop
