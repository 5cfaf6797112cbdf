#pragma once
#include <QImage>
#include <QWidget>
#include <array>

#include "inventory/records/photo.h"
#include "ui/desktop/look.h"

namespace flitch::desktop {

/// A photo of a board on which its four corners are pulled to the board's, by mouse or arrows, so
/// that it lies to scale under the marks. Tab goes round the corners, F turns to the other face,
/// Enter keeps, Esc leaves.
class CornerView : public QWidget {
  Q_OBJECT
 public:
  CornerView(const Look& look, QWidget* parent);
  void setPhoto(const Photo& photo, QImage picture);
  [[nodiscard]] Face face() const { return face_; }
  [[nodiscard]] const PhotoCorners& corners() const { return corners_; }

 signals:
  void kept(PhotoId photo, Face face, const PhotoCorners& corners);
  void leaveWanted();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  bool event(QEvent* event) override;

 private:
  [[nodiscard]] QRectF pictureBox() const;
  [[nodiscard]] QPointF onScreen(const PhotoPoint& point) const;
  void put(QPointF point);
  void step(int dx, int dy);
  void proposeCorners();
  void describe();

  const Look& look_;
  Photo photo_;
  QImage picture_;
  Face face_ = Face::a;
  PhotoCorners corners_{};
  std::size_t at_ = 0;
  bool held_ = false;
};

}  // namespace flitch::desktop
