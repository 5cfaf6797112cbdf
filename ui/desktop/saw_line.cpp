#include "ui/desktop/saw_line.h"

#include <QPainter>

#include "inventory/desk/saw_paper.h"

namespace flitch::desktop {
namespace {

constexpr int margin = 24;

QString titleOf(SawLine::About about) {
  return about == SawLine::About::otherwise ? "What went otherwise" : "Spoiled since";
}

}  // namespace

SawLine::SawLine(const Look& look, QWidget* parent)
    : QWidget(parent), look_(look), field_(look, "What went otherwise", "", "", this) {
  setFocusProxy(&field_);
  connect(&field_, &QLineEdit::textEdited, this, &SawLine::edited);
  connect(&field_, &QLineEdit::returnPressed, this, &SawLine::entered);
  connect(&field_, &Field::left, this, &SawLine::left);
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
}

void SawLine::setAbout(About about) {
  about_ = about;
  field_.setAccessibleName(titleOf(about));
  field_.setPlaceholderText(about == About::otherwise ? "C2 lost" : "hand marks, like C2");
  resizeEvent(nullptr);
}

void SawLine::begin(About about, const QString& typed, const QString& word) {
  setAbout(about);
  QStringList items = typed.split(',', Qt::SkipEmptyParts);
  const QString asked = word.section(',', -1).trimmed();
  const QString last = items.isEmpty() ? QString() : items.last().trimmed();
  // Begun before and left without a figure: begun anew.
  const bool bare = !asked.isEmpty() && last.compare(asked, Qt::CaseInsensitive) == 0;
  if (bare) items.removeLast();
  QString text = items.join(',');
  if (items.isEmpty() || bare || !last.startsWith(asked, Qt::CaseInsensitive)) {
    text += (text.isEmpty() ? "" : ", ") + word;
  }
  field_.setText(text);
  field_.setFocus(Qt::ShortcutFocusReason);
  field_.end(false);
}

void SawLine::setTyped(const QString& typed) {
  setAbout(About::otherwise);
  if (this->typed() != typed) field_.setText(typed);
}

void SawLine::append(const QString& words) {
  field_.setText(field_.text() + words);
  emit edited();
}

void SawLine::tell(const QString& reading, bool trouble) {
  reading_ = reading;
  trouble_ = trouble;
  field_.setTrouble(trouble);
  field_.setAccessibleDescription(reading);
  update();
}

int SawLine::fieldAt() const { return margin + textWidth(titleOf(about_), 13, true) + 14; }

void SawLine::resizeEvent(QResizeEvent*) {
  field_.setGeometry(fieldAt(), 6, std::clamp(width() * 3 / 10, 220, 460), 40);
}

void SawLine::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.sheet);
  drawRule(painter, 0, 0, width(), 0, c.rule);
  drawText(painter, margin, 31, titleOf(about_), 13, true, c.ink);
  const QString hint = about_ == About::otherwise
                           ? QString(desk::paperWords)
                           : QString("their wood is lost; the next plan makes them again");
  const int at = field_.x() + field_.width() + 16;
  painter.setFont(typeface(12));
  painter.setPen(trouble_ ? c.red : reading_.isEmpty() ? c.soft : c.ink);
  painter.drawText(QRect(at, 2, width() - at - 16, height() - 4),
                   Qt::TextWordWrap | Qt::AlignVCenter, reading_.isEmpty() ? hint : reading_);
}

}  // namespace flitch::desktop
