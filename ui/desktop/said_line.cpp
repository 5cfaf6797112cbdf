#include "ui/desktop/said_line.h"

#include <QPainter>
#include <algorithm>

namespace flitch::desktop {

SaidLine::SaidLine(const Look& look, QWidget* parent)
    : QWidget(parent), look_(look), field_(look, "", "", "", this) {
  setFocusProxy(&field_);
  connect(&field_, &QLineEdit::textEdited, this, &SaidLine::edited);
  connect(&field_, &QLineEdit::returnPressed, this, &SaidLine::entered);
  connect(&field_, &Field::left, this, &SaidLine::left);
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
}

void SaidLine::setAbout(const QString& title, const QString& example, const QString& words) {
  field_.setAccessibleName(title);
  field_.setPlaceholderText(example);
  words_ = words;
  setTitle(title);
}

void SaidLine::setTitle(const QString& title) {
  title_ = title;
  resizeEvent(nullptr);
  update();
}

void SaidLine::setTyped(const QString& typed) {
  if (field_.text() != typed) field_.setText(typed);
}

void SaidLine::append(const QString& words) {
  field_.setText(field_.text() + words);
  emit edited();
}

void SaidLine::takeKeys() {
  field_.setFocus(Qt::ShortcutFocusReason);
  field_.end(false);
}

void SaidLine::tell(const QString& reading, bool trouble) {
  reading_ = reading;
  trouble_ = trouble;
  field_.setTrouble(trouble);
  field_.setAccessibleDescription(reading);
  update();
}

void SaidLine::tell(const Unreadable& error) {
  tell(QString("%1. Accepted: %2").arg(QString(error.what()), q(error.accepted)), true);
}

void SaidLine::tell(const Refusal& refusal) {
  const Complaint& first = refusal.complaints().front();
  tell(q(first.sentence) + ". Accepted: " + q(first.accepted), true);
}

void SaidLine::resizeEvent(QResizeEvent*) {
  const int at = 24 + textWidth(title_, 13, true) + 14;
  field_.setGeometry(at, (height() - 40) / 2, std::clamp(width() * 3 / 10, 220, 460), 40);
}

void SaidLine::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.sheet);
  drawRule(painter, 0, 0, width(), 0, c.rule);
  drawText(painter, 24, field_.geometry().center().y() + 5, title_, 13, true, c.ink);
  const int at = field_.x() + field_.width() + 16;
  painter.setFont(typeface(12));
  painter.setPen(trouble_ ? c.red : reading_.isEmpty() ? c.soft : c.ink);
  painter.drawText(QRect(at, 2, width() - at - 16, height() - 4),
                   Qt::TextWordWrap | Qt::AlignVCenter, reading_.isEmpty() ? words_ : reading_);
}

}  // namespace flitch::desktop
