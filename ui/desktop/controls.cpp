#include "ui/desktop/controls.h"

#include <QAbstractItemView>
#include <QKeyEvent>
#include <QMouseEvent>
#include <algorithm>
#include <array>

namespace flitch::desktop {
namespace {

QString shownKey(const QAction& action) {
  return action.shortcut().toString(QKeySequence::PortableText).replace("Return", "Enter");
}

void drawTriangle(QPainter& painter, double x, double y, const QColor& colour) {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(Qt::NoPen);
  painter.setBrush(colour);
  const std::array<QPointF, 3> points{QPointF(x, y), QPointF(x + 8, y), QPointF(x + 4, y + 5)};
  painter.drawPolygon(points.data(), 3);
  painter.restore();
}

void drawFocus(QPainter& painter, const QRect& box, const Colours& colours) {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(colours.blue, 2));
  painter.drawRoundedRect(QRectF(box).adjusted(1, 1, -1, -1), 3, 3);
  painter.restore();
}

}  // namespace

Button::Button(const Look& look, QAction* action, QWidget* parent, const QString& label)
    : QPushButton(parent), look_(look) {
  setAction(action, label);
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
  connect(this, &QPushButton::clicked, this, [this] { action_->trigger(); });
}

void Button::setAction(QAction* action, const QString& label) {
  if (action_ != nullptr) disconnect(action_, nullptr, this, nullptr);
  action_ = action;
  label_ = label;
  connect(action_, &QAction::changed, this, &Button::take);
  take();
}

void Button::take() {
  key_ = shownKey(*action_);
  setText(label_.isEmpty() ? action_->text() : label_);
  setEnabled(action_->isEnabled());
  setToolTip(action_->toolTip());
  setAccessibleName(text());
  setAccessibleDescription(action_->toolTip() + " " + key_);
  updateGeometry();
  update();
}

void Button::setLabel(const QString& label) {
  if (label == label_) return;
  label_ = label;
  take();
}

void Button::setPrimary(bool primary) {
  primary_ = primary;
  update();
}

void Button::setKeyShown(bool shown) {
  keyShown_ = shown;
  updateGeometry();
  update();
}

int Button::keyWidth() const { return keyShown_ && !key_.isEmpty() ? textWidth(key_, 12) + 10 : 0; }

QSize Button::sizeHint() const { return {textWidth(text(), 13, true) + keyWidth() + 24, 30}; }

void Button::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  const bool solid = primary_ && isEnabled();
  drawFrame(painter, rect(),
            solid      ? c.ink
            : isDown() ? c.picked
                       : c.field,
            solid         ? c.ink
            : isEnabled() ? c.edge
                          : c.rule,
            false, c);
  const int key = keyWidth();
  const int room = width() - 16 - key;
  const QString shown = elided(text(), 13, solid, room);
  const double x = (width() - textWidth(shown, 13, solid) - key) / 2.0;
  const double line = height() / 2.0 + 4.7;
  drawText(painter, x, line, shown, 13, solid, solid ? c.sheet : isEnabled() ? c.ink : c.soft);
  if (key > 0) {
    drawText(painter, x + textWidth(shown, 13, solid) + 10, line, key_, 12, false,
             solid ? c.rule : c.soft);
  }
  if (hasFocus()) {
    if (solid) {
      painter.setPen(QPen(c.sheet, 1));
      painter.drawRect(rect().adjusted(2, 2, -3, -3));
    }
    drawFocus(painter, rect(), c);
  }
}

TextButton::TextButton(const Look& look, const QString& text, const QString& key, QWidget* parent)
    : QAbstractButton(parent), look_(look), key_(key) {
  setText(text);
  setAccessibleName(text);
  setFocusPolicy(Qt::StrongFocus);
}

QSize TextButton::sizeHint() const {
  return {textWidth(text(), 13) + 8 + textWidth(key_, 13) + 12, 28};
}

void TextButton::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  const double line = height() / 2.0 + 4.7;
  const QColor ink = isEnabled() ? c.ink : c.soft;
  drawText(painter, 6, line, text(), 13, false, ink);
  drawText(painter, 6 + textWidth(text(), 13) + 8, line, key_, 13, false, ink);
  if (hasFocus()) drawFocus(painter, rect(), c);
}

PlaceTab::PlaceTab(const Look& look, int number, const QString& name, QWidget* parent)
    : QAbstractButton(parent), look_(look), number_(number) {
  setText(name);
  setCheckable(true);
  setAutoExclusive(true);
  setFocusPolicy(Qt::TabFocus);
  setAccessibleName(QString("Place %1, %2").arg(number).arg(name));
}

QSize PlaceTab::sizeHint() const { return {textWidth(text(), 14, true) + 40, 38}; }

void PlaceTab::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  if (isChecked()) {
    painter.fillRect(rect(), c.sheet);
    painter.fillRect(0, 0, width(), 3, c.ink);
  }
  drawText(painter, 12, 24, QString::number(number_), 12, false, c.soft);
  drawText(painter, 26, 24, text(), 14, isChecked(), c.ink);
  if (hasFocus()) drawFocus(painter, rect().adjusted(0, 4, 0, 0), c);
}

MarkKey::MarkKey(const Look& look, const QString& key, const QString& word, QWidget* parent)
    : QAbstractButton(parent), look_(look), key_(key) {
  setText(word);
  setCheckable(true);
  setFocusPolicy(Qt::TabFocus);
  setAccessibleName(QString("Mark: %1").arg(word));
  setToolTip(QString("Puts a mark at the cross-hair: %1. Key %2 in the drawing.").arg(word, key));
}

QSize MarkKey::sizeHint() const { return {textWidth(text(), 12) + 31, 28}; }

void MarkKey::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const double middle = height() / 2.0;
  if (isChecked()) {
    painter.setPen(QPen(c.blue, 1.5));
    painter.setBrush(c.picked);
    painter.drawRoundedRect(QRectF(0.75, middle - 12.25, width() - 1.5, 24.5), 3, 3);
  }
  painter.setPen(QPen(c.edge, 1));
  painter.setBrush(c.field);
  painter.drawRoundedRect(QRectF(4.5, middle - 9, 18, 18), 2, 2);
  const QColor ink = isEnabled() ? c.ink : c.soft;
  drawText(painter, 13.5, middle + 4.5, key_, 12, true, ink, Qt::AlignHCenter);
  if (width() > letterWidth) drawText(painter, 26, middle + 4.5, text(), 12, false, ink);
  if (hasFocus()) drawFocus(painter, rect(), c);
}

Field::Field(const Look& look, const QString& name, const QString& hint, const QString& key,
             QWidget* parent)
    : QLineEdit(parent), look_(look), key_(key) {
  setFrame(false);
  setAccessibleName(name);
  setPlaceholderText(hint);
  setFont(typeface(13));
  setTextMargins(8, 0, key.isEmpty() ? 6 : textWidth(key, 12) + 14, 0);
  connect(&look_, &Look::changed, this, &Field::take);
  take();
}

void Field::take() {
  QPalette palette = look_.palette();
  palette.setColor(QPalette::Base, Qt::transparent);
  setPalette(palette);
}

void Field::setTrouble(bool trouble) {
  if (trouble_ == trouble) return;
  trouble_ = trouble;
  update();
}

QSize Field::sizeHint() const { return {120, 28}; }

void Field::paintEvent(QPaintEvent* event) {
  const Colours& c = look_.colours();
  {
    QPainter painter(this);
    drawFrame(painter, rect(), c.field,
              trouble_      ? c.red
              : isEnabled() ? c.edge
                            : c.rule,
              hasFocus(), c);
    if (!key_.isEmpty()) {
      drawText(painter, width() - 10, height() / 2.0 + 4.5, key_, 12, false, c.soft,
               Qt::AlignRight);
    }
  }
  QLineEdit::paintEvent(event);
}

bool Field::event(QEvent* event) {
  // With nothing typed to take back, Undo is the window's: the last thing written in the book.
  if (event->type() == QEvent::ShortcutOverride && !isUndoAvailable() &&
      static_cast<QKeyEvent*>(event)->matches(QKeySequence::Undo)) {
    event->ignore();
    return false;
  }
  return QLineEdit::event(event);
}

void Field::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Escape) {
    emit left(-1);
  } else if (event->key() == Qt::Key_Down) {
    emit left(1);
  } else {
    QLineEdit::keyPressEvent(event);
    return;
  }
  event->accept();
}

Choice::Choice(const Look& look, const QString& name, const QString& lead, QWidget* parent)
    : QComboBox(parent), look_(look), lead_(lead) {
  setAccessibleName(name);
  setFont(typeface(13));
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
}

QSize Choice::sizeHint() const {
  int widest = 0;
  for (int i = 0; i < count(); ++i) widest = std::max(widest, textWidth(itemText(i), 13));
  return {widest + 40 + (lead_.isEmpty() ? 0 : textWidth(lead_, 13, true) + 6), 28};
}

void Choice::setHeading(bool heading) {
  heading_ = heading;
  update();
}

void Choice::showPopup() {
  view()->setPalette(look_.palette());
  view()->parentWidget()->setPalette(look_.palette());
  QComboBox::showPopup();
}

void Choice::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  const QColor ink = isEnabled() ? c.ink : c.soft;
  if (heading_) {
    const QString shown = elided(currentText(), 22, true, width() - 24);
    drawText(painter, 4, height() / 2.0 + 5, shown, 22, true, ink);
    drawTriangle(painter, textWidth(shown, 22, true) + 16, height() / 2.0 - 2, ink);
    if (hasFocus()) drawFocus(painter, rect(), c);
    return;
  }
  drawFrame(painter, rect(), c.field, isEnabled() ? c.edge : c.rule, hasFocus(), c);
  const double line = height() / 2.0 + 4.7;
  double x = 10;
  if (!lead_.isEmpty()) {
    drawText(painter, x, line, lead_, 13, true, ink);
    x += textWidth(lead_, 13, true) + 6;
  }
  drawText(painter, x, line, elided(currentText(), 13, false, width() - 26 - static_cast<int>(x)),
           13, false, ink);
  drawTriangle(painter, width() - 18, height() / 2.0 - 2.5, ink);
}

ThinBar::ThinBar(const Look& look, QWidget* parent)
    : QScrollBar(Qt::Vertical, parent), look_(look) {}

QRectF ThinBar::thumb() const {
  const double whole = maximum() - minimum() + pageStep();
  if (whole <= 0 || maximum() <= minimum()) return {};
  const double h = std::max(24.0, height() * pageStep() / whole);
  const double y = (height() - h) * (value() - minimum()) / (maximum() - minimum());
  return {2, y, width() - 4.0, h};
}

void ThinBar::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.sheet);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(Qt::NoPen);
  painter.setBrush(c.stripe);
  painter.drawRect(QRectF(2, 0, width() - 4, height()));
  painter.setBrush(c.edge);
  painter.drawRoundedRect(thumb(), 2, 2);
}

void ThinBar::mousePressEvent(QMouseEvent* event) {
  const QRectF now = thumb();
  const double y = event->position().y();
  if (y < now.top()) return triggerAction(SliderPageStepSub);
  if (y > now.bottom()) return triggerAction(SliderPageStepAdd);
  held_ = y - now.top();
}

void ThinBar::mouseMoveEvent(QMouseEvent* event) {
  const double free = height() - thumb().height();
  if (!(event->buttons() & Qt::LeftButton) || free <= 0) return;
  setValue(minimum() +
           static_cast<int>((event->position().y() - held_) / free * (maximum() - minimum())));
}

void setUpTable(QTableView& table, const Look& look, const QString& name, QHeaderView* head,
                int headHeight) {
  table.setAccessibleName(name);
  table.setFrameShape(QFrame::NoFrame);
  table.setVerticalScrollBar(new ThinBar(look, &table));
  table.setShowGrid(false);
  table.setTabKeyNavigation(false);
  table.setSelectionBehavior(QAbstractItemView::SelectRows);
  table.setSelectionMode(QAbstractItemView::SingleSelection);
  table.setEditTriggers(QAbstractItemView::NoEditTriggers);
  table.setVerticalScrollMode(QAbstractItemView::ScrollPerItem);
  table.setHorizontalHeader(head);
  head->setFixedHeight(headHeight);
  table.verticalHeader()->hide();
}

}  // namespace flitch::desktop
