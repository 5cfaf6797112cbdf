#pragma once
#include "inventory/records/board.h"
#include "ui/desktop/said_line.h"

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
class BoardLine : public SaidLine {
  Q_OBJECT
 public:
  BoardLine(const Look& look, QWidget* parent);
  void clear();

 signals:
  void said(const flitch::desktop::BoardWords& words);

 private:
  void read();
};

}  // namespace flitch::desktop
