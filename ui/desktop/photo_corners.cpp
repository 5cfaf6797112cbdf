#include "ui/desktop/photo_corners.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <algorithm>
#include <cmath>

namespace flitch::desktop {
namespace {

constexpr std::array<const char*, 4> names{"tag end, near edge", "far end, near edge",
                                           "far end, far edge", "tag end, far edge"};
constexpr int head = 34, foot = 30, thousand = 1000;

}  // namespace

CornerView::CornerView(const Look& look, QWidget* parent) : QWidget(parent), look_(look) {
  setFocusPolicy(Qt::StrongFocus);
  setAccessibleName("Photo, corners of the board");
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
}

void CornerView::setPhoto(const Photo& photo, QImage picture) {
  photo_ = photo;
  picture_ = std::move(picture);
  face_ = photo.face.value_or(Face::a);
  at_ = 0;
  if (photo.corners) {
    corners_ = *photo.corners;
  } else {
    proposeCorners();
  }
  describe();
  update();
}

/// A frame within the photo, going round as its face does.
void CornerView::proposeCorners() {
  const std::int64_t w = std::int64_t{photo_.width} * thousand,
                     h = std::int64_t{photo_.height} * thousand;
  const std::int64_t left = w / 10, right = w - w / 10, top = h / 4, bottom = h - h / 4;
  const std::int64_t near = face_ == Face::a ? bottom : top, far = face_ == Face::a ? top : bottom;
  corners_ = {{{left, near}, {right, near}, {right, far}, {left, far}}};
}

QRectF CornerView::pictureBox() const {
  const QSizeF room(width() - 32, std::max(10, height() - head - foot));
  const QSizeF size = QSizeF(picture_.size()).scaled(room, Qt::KeepAspectRatio);
  return {QPointF((width() - size.width()) / 2, head), size};
}

QPointF CornerView::onScreen(const PhotoPoint& point) const {
  const QRectF box = pictureBox();
  return {box.x() + static_cast<double>(point.x) / thousand * box.width() / photo_.width,
          box.y() + static_cast<double>(point.y) / thousand * box.height() / photo_.height};
}

void CornerView::put(QPointF point) {
  const QRectF box = pictureBox();
  const auto along = [](double part, int whole) {
    return std::clamp<std::int64_t>(std::llround(part * whole * thousand), 0,
                                    std::int64_t{whole} * thousand);
  };
  corners_[at_] = {along((point.x() - box.x()) / box.width(), photo_.width),
                   along((point.y() - box.y()) / box.height(), photo_.height)};
  update();
}

void CornerView::step(int dx, int dy) {
  PhotoPoint& point = corners_[at_];
  point.x =
      std::clamp<std::int64_t>(point.x + dx * thousand, 0, std::int64_t{photo_.width} * thousand);
  point.y =
      std::clamp<std::int64_t>(point.y + dy * thousand, 0, std::int64_t{photo_.height} * thousand);
  update();
}

void CornerView::describe() {
  setAccessibleDescription(QString("Face %1, corner %2 of 4: %3.")
                               .arg(face_ == Face::a ? "A" : "B")
                               .arg(at_ + 1)
                               .arg(QString(names[at_])));
}

bool CornerView::event(QEvent* event) {
  if (event->type() == QEvent::KeyPress) {
    const auto* key = static_cast<QKeyEvent*>(event);
    const bool on = key->key() == Qt::Key_Tab, back = key->key() == Qt::Key_Backtab;
    if (on || back) {
      at_ = (at_ + (on ? 1 : 3)) % 4;
      describe();
      update();
      return true;
    }
  }
  return QWidget::event(event);
}

void CornerView::keyPressEvent(QKeyEvent* event) {
  const int by = event->modifiers() & Qt::ShiftModifier ? 10 : 1;
  switch (event->key()) {
    case Qt::Key_Left: return step(-by, 0);
    case Qt::Key_Right: return step(by, 0);
    case Qt::Key_Up: return step(0, -by);
    case Qt::Key_Down: return step(0, by);
    case Qt::Key_F:
      face_ = face_ == Face::a ? Face::b : Face::a;
      // The other face goes round the other way: near and far edge change places.
      std::swap(corners_[0], corners_[3]);
      std::swap(corners_[1], corners_[2]);
      describe();
      update();
      return;
    case Qt::Key_Return:
    case Qt::Key_Enter: emit kept(photo_.id, face_, corners_); return;
    case Qt::Key_Escape: emit leaveWanted(); return;
    default: QWidget::keyPressEvent(event);
  }
}

void CornerView::mousePressEvent(QMouseEvent* event) {
  const auto apart = [&](std::size_t corner) {
    const QPointF way = onScreen(corners_[corner]) - event->position();
    return std::hypot(way.x(), way.y());
  };
  at_ = 0;
  for (std::size_t corner = 1; corner < 4; ++corner) {
    if (apart(corner) < apart(at_)) at_ = corner;
  }
  held_ = true;
  put(event->position());
  describe();
}

void CornerView::mouseMoveEvent(QMouseEvent* event) {
  if (held_) put(event->position());
}

void CornerView::mouseReleaseEvent(QMouseEvent*) { held_ = false; }

void CornerView::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.sheet);
  drawText(painter, 16, 22,
           QString("Photo of face %1: pull each corner to the board's. Now: %2")
               .arg(face_ == Face::a ? "A" : "B")
               .arg(QString(names[at_])),
           13, true, c.ink);
  drawText(painter, 16, height() - 10,
           "Tab next corner · arrows one pixel, with Shift ten · F other face · Enter keeps · Esc "
           "leaves",
           12, false, c.soft);
  if (picture_.isNull()) return;
  painter.setRenderHint(QPainter::SmoothPixmapTransform);
  painter.drawImage(pictureBox(), picture_);
  painter.setRenderHint(QPainter::Antialiasing);
  QPolygonF round;
  for (const PhotoPoint& corner : corners_) round << onScreen(corner);
  painter.setPen(QPen(c.sheet, 4));
  painter.drawPolygon(round);
  painter.setPen(QPen(c.blue, 2));
  painter.drawPolygon(round);
  // The tag end is drawn three times as heavy.
  painter.setPen(QPen(c.blue, 6));
  painter.drawLine(round[0], round[3]);
  for (std::size_t corner = 0; corner < 4; ++corner) {
    const bool now = corner == at_;
    painter.setPen(QPen(c.blue, 2));
    painter.setBrush(now ? c.blue : c.field);
    painter.drawEllipse(round[static_cast<qsizetype>(corner)], now ? 8 : 6, now ? 8 : 6);
  }
  if (hasFocus()) {
    painter.setRenderHint(QPainter::Antialiasing, false);
    painter.setPen(QPen(c.blue, 2));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(rect().adjusted(1, 1, -1, -1));
  }
}

}  // namespace flitch::desktop
