#pragma once
#include <optional>
#include <vector>

#include "labels/board_drawing.h"

namespace flitch::pages {

/// The numbered rings of a drawn board's cuts, none on another and, where there is room, none on a
/// word.
class CutRings {
 public:
  /// `top`: page y of the board's upper edge. `words`: boxes of what is written on the board.
  CutRings(const BoardView& view, const BoardLook& look, double top, std::vector<QRectF> words);

  /// Rings of the board's crosscuts stand above it, those of rips and of strips on their cuts.
  void draw(std::vector<Ink>& ink, const std::vector<SawStep>& steps);

 private:
  struct Circle {
    QPointF at;
    double radius = 0;
  };
  void ring(std::vector<Ink>& ink, int number, const std::vector<QPointF>& places, double radius);
  [[nodiscard]] bool free(const Circle& ring, bool ofWords) const;
  [[nodiscard]] std::optional<QPointF> beside(const QPointF& home, double radius,
                                              bool ofWords) const;

  const BoardView& view_;
  double u_, radius_, points_, top_;
  int made_, atHand_;
  std::vector<QRectF> words_;
  std::vector<Circle> rings_;
};

}  // namespace flitch::pages
