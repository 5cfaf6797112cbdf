#pragma once
#include <QImage>
#include <QTimer>
#include <QWidget>
#include <array>
#include <optional>
#include <vector>

#include "inventory/records/board.h"
#include "inventory/records/shop.h"
#include "ui/desktop/actions.h"
#include "ui/desktop/board_layout.h"
#include "ui/desktop/board_notes.h"
#include "ui/desktop/look.h"

namespace flitch::desktop {

/// One board to scale, both faces opened about the near edge: the tag end stays left, what goes
/// through stands at the same x and the same distance from the fold. Marks are set, moved and
/// sized here with single keys. Works on a copy of the board and hands it out when it changed.
class BoardView : public QWidget {
  Q_OBJECT
 public:
  BoardView(const Look& look, Unit unit, QWidget* parent);

  void setBoard(std::optional<Board> board, const ShopProfile& shop);
  [[nodiscard]] const std::optional<Board>& board() const { return board_; }
  /// Index into the board's marks, -1: none.
  [[nodiscard]] int chosen() const { return chosen_; }
  void choose(int mark);
  /// The kind that a pull of the mouse makes.
  void setKind(const std::string& kind) { kind_ = kind; }
  /// What is said in a line under the head; empty: no line, and its room goes to the faces.
  void setNotes(std::vector<BoardNote> notes);
  /// Clear cuttings on one face, each with its units; none: nothing is drawn.
  void setCuttings(Face face, std::vector<Rect> places);
  /// Photos of faces A and B, laid to scale; drawn under the marks, null: none.
  void setPhotos(std::array<QImage, 2> photos);
  /// Lengths framed on both faces while a quick mark is typed.
  void setPreview(std::vector<Defect> preview);
  /// Carries out one of the drawing's actions.
  void carryOut(Act act);
  /// Whether an action can be done now.
  [[nodiscard]] bool can(Act act) const;
  /// Hands out what is still held back for more key presses.
  void flush();
  [[nodiscard]] bool snaps() const { return snap_; }
  /// Where the faces lie now; needs a board.
  [[nodiscard]] BoardLayout layout() const;
  /// Changes the working copy and hands it out at once.
  void edit(const Board& board);

 signals:
  void edited(const Board& board);
  void chosenChanged();
  void kindChosen(const QString& kind);
  void figuresWanted();
  void quickWanted();
  void leaveWanted();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  void focusOutEvent(QFocusEvent* event) override;
  bool event(QEvent* event) override;

 private:
  /// What the mouse does while it is held: sets a mark, moves one, sizes one by a corner or side,
  /// moves where one that goes through comes out on face B.
  enum class Pull { none, draw, move, size, slant };
  struct Grip {
    int x = 0, y = 0;  ///< -1, 0, 1: which sides follow
  };
  [[nodiscard]] int markAt(const BoardLayout& l, QPointF point) const;
  /// The handle of the chosen mark under the point.
  [[nodiscard]] std::optional<Grip> gripAt(const BoardLayout& l, QPointF point) const;
  /// The face on which the chosen mark is handled.
  [[nodiscard]] Face handledFace() const;
  /// The board as it would be if the mouse were let go now.
  [[nodiscard]] Board pulledBoard() const;
  void pull(const BoardLayout& l, QPointF point, bool snap);
  void lieAlongEdge();
  void setZone();

  void paintHead(QPainter& painter) const;
  void paintNotes(QPainter& painter) const;
  void paintCuttings(QPainter& painter, const BoardLayout& l) const;
  void paintTape(QPainter& painter, const BoardLayout& l) const;
  void paintFaces(QPainter& painter, const BoardLayout& l) const;
  void paintFold(QPainter& painter, const BoardLayout& l) const;
  void paintChosen(QPainter& painter, const BoardLayout& l) const;
  void paintPulled(QPainter& painter, const BoardLayout& l) const;
  void paintHair(QPainter& painter, const BoardLayout& l) const;

  void addMark(const std::string& kind);
  void move(int dx, int dy, Qt::KeyboardModifiers modifiers);
  void cycleFace();
  void cycleLooked();
  void step(int by);
  void removeChosen();
  void changedMarks(bool atOnce);
  void describe();

  const Look& look_;
  Unit unit_;
  std::optional<Board> board_;
  ShopProfile shop_;
  int chosen_ = -1;
  std::string kind_ = "sound knot";
  FacePlace hair_;
  std::vector<Defect> preview_;
  std::vector<BoardNote> notes_;
  Face cuttingFace_ = Face::a;
  std::vector<Rect> cuttings_;
  std::array<QImage, 2> photos_;
  QTimer pause_;  ///< key presses in a row become one entry
  bool dirty_ = false;
  bool snap_ = true;
  Pull pull_ = Pull::none;
  Grip grip_;
  FacePlace from_;                                ///< where the mouse was pressed
  QPointF pressed_;                               ///< the same in pixels
  std::optional<Defect> pending_;                 ///< the mark as it is pulled
  std::array<std::optional<Length>, 2> drawnTo_;  ///< x and y that hold the pull
};

}  // namespace flitch::desktop
