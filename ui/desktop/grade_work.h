#pragma once
#include <QObject>
#include <optional>
#include <thread>

#include "inventory/desk/board_grade.h"

namespace flitch::desktop {

/// Estimates the grade of one board after another in a thread of its own, with so small an effort
/// that an answer is there in a moment. The newest question wins: what was asked before it and has
/// not begun is dropped. Belongs to the window's thread.
class GradeWork : public QObject {
  Q_OBJECT
 public:
  using QObject::QObject;

  /// Asks for a board's grade; answered() comes later unless another board is asked for.
  void ask(const Board& board);
  /// What was last answered, if it is for this board as it is now.
  [[nodiscard]] const desk::BoardGrade* known(const Board& board) const;

 signals:
  void answered();

 private:
  void begin();
  void take(const Board& board, const desk::BoardGrade& grade);

  std::optional<Board> waiting_;
  bool busy_ = false;
  Board board_;
  std::optional<desk::BoardGrade> grade_;
  std::jthread worker_;  ///< last: ends before what it reports to
};

}  // namespace flitch::desktop
