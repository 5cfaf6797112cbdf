#pragma once
#include <QAbstractScrollArea>
#include <optional>
#include <utility>
#include <vector>

#include "labels/board_drawing.h"
#include "ui/desktop/laying.h"
#include "ui/desktop/look.h"
#include "ui/desktop/plan_sheet.h"
#include "ui/desktop/settled_boards.h"

namespace flitch::desktop {

/// The boards a plan opens, all to one scale, each with its cuts, blanks, offcuts and marks; what
/// is short or waits stands first in a caution band.
class PlanView : public QAbstractScrollArea {
  Q_OBJECT
 public:
  PlanView(const Look& look, Unit unit, const std::string& sign, QWidget* parent);
  void setSheet(const PlanSheet* sheet);
  /// What the maker settled, shown on each board's line. Borrowed.
  void setSettled(const SettledBoards* settled);
  /// The part line framed on every board, 0: none.
  void setChosenLine(int line);
  [[nodiscard]] int current() const { return current_; }
  /// Chooses a board of the plan and brings it into view.
  void setCurrent(int board);
  /// Pixels an inch, the same for all boards.
  [[nodiscard]] double scale() const;
  /// A place of a board of the plan as it is drawn now, in pixels of the viewport.
  [[nodiscard]] QRectF drawnAt(std::size_t board, const Rect& r) const;

 signals:
  void boardWanted(BoardId board);
  void currentChanged();
  /// A blank was pulled to another place; `before`: it lay there by hand already.
  void layWanted(const flitch::LaidByHand& laid, const std::optional<flitch::LaidByHand>& before);
  /// One laid by hand was pulled off all boards.
  void takeUpWanted(const flitch::LaidByHand& laid);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;

 private:
  struct Caution {
    QString text;
    int top = 0, height = 0;
  };
  /// A blank that the mouse has in hand.
  struct Pulled {
    BlankInHand from;
    QPoint pressed;
    Length offX, offY;  ///< of the mouse in the blank
    bool moved = false;
    std::optional<LaidByHand> to;  ///< none: off every board
  };
  void lay();
  void describe();
  /// The board at a height of the view, scrolling counted in; none: -1.
  [[nodiscard]] int boardAt(int y) const;
  [[nodiscard]] std::pair<Length, Length> placeOn(std::size_t board, QPointF at) const;
  [[nodiscard]] pages::BoardLook boardLook() const;
  [[nodiscard]] const std::vector<LaidByHand>& laid() const;
  void pull(QMouseEvent* event);
  void paintLaid(QPainter& painter, std::size_t board) const;
  void paintBlank(QPainter& painter, std::size_t board, const LaidByHand& laid, bool inHand) const;
  [[nodiscard]] int heightOf(std::size_t board) const;
  void paintCautions(QPainter& painter, int y) const;
  void paintLine(QPainter& painter, int y, const OpenedBoard& opened, bool current) const;
  void paintBoard(QPainter& painter, int y, const OpenedBoard& opened) const;

  const Look& look_;
  Unit unit_;
  std::string sign_;
  const PlanSheet* sheet_ = nullptr;
  const SettledBoards* settled_ = nullptr;
  std::vector<Caution> cautions_;
  int cautionsHeight_ = 0;
  std::vector<int> tops_;
  int chosenLine_ = 0;
  int current_ = -1;
  std::optional<Pulled> pulled_;
};

/// What a plan is short of and what waits, a sentence each.
[[nodiscard]] std::vector<QString> cautionsOf(const PlanSheet& sheet);
/// A swatch of a face nobody has looked at.
void drawUnseen(QPainter& painter, const QRectF& box, const QColor& wood, const Colours& colours);

}  // namespace flitch::desktop
