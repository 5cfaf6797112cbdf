#pragma once
#include <QPolygonF>
#include <vector>

#include "labels/board_drawing.h"

namespace flitch::pages {

/// Drawing of marks and of a face's wood, shared by the drawings of a board.
class MarkDrawing {
 public:
  MarkDrawing(const Board& board, Face face, const BoardView& view, const BoardLook& look);

  [[nodiscard]] const QPolygonF& outline() const { return outline_; }
  /// The part of a board rectangle that is wood of this face.
  [[nodiscard]] std::vector<QPointF> within(const QPolygonF& shape) const;

  /// Clean wood, grain when it was looked at, ticks when not.
  void wood(std::vector<Ink>& ink) const;
  /// Thin lines along the grain that swell round knots; the window's theme shows them.
  void grain(std::vector<Ink>& ink, int lines) const;
  /// Outline, and the tag end three times as heavy.
  void edges(std::vector<Ink>& ink) const;
  /// Every mark that shows on this face, then dashed those on the other face only. Letters are left
  /// out where they would lie on one of `keepClear`.
  void marks(std::vector<Ink>& ink, bool letters, const std::vector<QRectF>& keepClear) const;
  /// The little tag where it hangs, its letter upright from the near edge. `room`: page mm of wood
  /// at the tag end that it may lie on; where it is too small the tag stands outside the end at the
  /// saw and is left out on the rack.
  void tagSign(std::vector<Ink>& ink, double room) const;
  /// Where that tag is drawn; empty when it is left out.
  [[nodiscard]] QRectF tagPlace(double room) const;
  /// Text on a patch of wood, so that no line crosses it.
  void label(std::vector<Ink>& ink, const Text& text) const;

  [[nodiscard]] bool shows(const Defect& defect) const;

 private:
  void sign(std::vector<Ink>& ink, const Defect& defect) const;
  void knot(std::vector<Ink>& ink, const QRectF& box, bool sound) const;
  void wedges(std::vector<Ink>& ink, const Defect& defect, bool open) const;
  void wedge(std::vector<Ink>& ink, const Defect& defect, const QRectF& box, bool open) const;
  void wane(std::vector<Ink>& ink, const Defect& defect) const;
  void sapwood(std::vector<Ink>& ink, const Defect& defect) const;
  void stain(std::vector<Ink>& ink, const QRectF& box) const;
  void lens(std::vector<Ink>& ink, const QRectF& box, bool ticks) const;
  void zone(std::vector<Ink>& ink, const Defect& defect) const;
  void onEdge(std::vector<Ink>& ink, const Defect& defect) const;
  void area(std::vector<Ink>& ink, const QPolygonF& shape, Fill fill, Tone tone, double pen,
            Dash dash = Dash::solid) const;
  [[nodiscard]] QRectF boxOf(const Defect& defect) const;
  [[nodiscard]] QPointF letterPlace(const Defect& defect) const;
  [[nodiscard]] bool nearEdge(const Defect& defect) const;

  Board board_;  ///< each mark where it shows on the face
  Face face_;
  const BoardView& view_;
  const BoardLook& look_;
  Outline wood_;
  QPolygonF outline_;
  double u_;
};

/// `good` and `show`: zones, no defects.
[[nodiscard]] bool isZone(const Defect& defect);
/// Millimetres of a length, for drawing only.
[[nodiscard]] inline Line line(std::vector<QPointF> points, double width, Tone tone = Tone::ink,
                               Dash dash = Dash::solid) {
  return {std::move(points), width, dash, tone};
}
[[nodiscard]] constexpr double mm(Length length) { return static_cast<double>(length.nm()) / 1e6; }
/// Length of a drawn place, to the nearest nanometre.
[[nodiscard]] Length lengthOf(double millimetres);
/// A regular polygon close to an ellipse.
[[nodiscard]] QPolygonF ellipse(const QRectF& box);
[[nodiscard]] std::vector<QPointF> pointsOf(const QPolygonF& polygon);

}  // namespace flitch::pages
