#pragma once
#include <QWidget>
#include <optional>

#include "inventory/store/snapshot.h"
#include "ui/desktop/board_notes.h"
#include "ui/desktop/look.h"

namespace flitch::desktop {

/// What the book says of a board, where the window is wide: its marks in figures, where it came
/// from, what it cost, its family.
class BoardFacts : public QWidget {
  Q_OBJECT
 public:
  BoardFacts(const Look& look, Unit unit, const std::string& sign, QWidget* parent);
  void setBoard(const std::optional<Board>& board, const store::Snapshot& snapshot);
  void setNotes(std::vector<BoardNote> notes);

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  struct Fact {
    QString name, value;
  };
  const Look& look_;
  Unit unit_;
  std::string sign_;
  std::optional<Board> board_;
  std::vector<Fact> origin_, family_;
  std::vector<BoardNote> notes_;
};

}  // namespace flitch::desktop
