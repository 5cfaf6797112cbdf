#pragma once
#include <QWidget>
#include <array>

#include "inventory/desk/reshape.h"
#include "ui/desktop/controls.h"

namespace flitch::desktop {

/// In place of the marks' bar: the board measured again. Thickness at its thinnest, the outline of
/// each face, and warp as a straightedge or string shows it; how it was read stands below.
class ShapeBar : public QWidget {
  Q_OBJECT
 public:
  ShapeBar(const Look& look, Unit unit, QWidget* parent);
  void setRules(exchange::ReadingRules rules) { rules_ = std::move(rules); }
  void setBoard(const std::optional<Board>& board);
  void focusOutline();
  void focusWarp();

 signals:
  /// Enter: keep the board so.
  void reshaped(const Board& board);
  void leaveWanted();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  enum Figure { outlineA, outlineB, thickness, bow, bentAt, crook, cup, twist, grain, figures };
  [[nodiscard]] desk::ShapeTyped typed() const;
  void read();
  void keep();

  const Look& look_;
  Unit unit_;
  exchange::ReadingRules rules_;
  std::optional<Board> board_, read_;
  QString said_;
  bool filling_ = false;
  std::array<Field*, figures> fields_{};
  Choice hollow_;
};

}  // namespace flitch::desktop
