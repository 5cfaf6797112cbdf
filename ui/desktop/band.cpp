#include "ui/desktop/band.h"

#include <QAccessible>
#include <QKeyEvent>
#include <QPainter>

namespace flitch::desktop {
namespace {
constexpr int textLeft = 44;
}

Band::Band(const Look& look, QWidget* parent)
    : QWidget(parent),
      look_(look),
      yesAction_("Yes"),
      showAction_("Show"),
      closeAction_("Close"),
      yes_(look, &yesAction_, this),
      showing_(look, &showAction_, this),
      close_(look, &closeAction_, this) {
  setVisible(false);
  setFocusPolicy(Qt::ClickFocus);
  setAccessibleName("Message");
  yes_.setPrimary(true);
  connect(&yesAction_, &QAction::triggered, this, [this] {
    const auto work = work_;
    close();
    if (work) work();
  });
  connect(&showAction_, &QAction::triggered, this, [this] { show_(); });
  connect(&closeAction_, &QAction::triggered, this, &Band::close);
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
}

void Band::tell(Kind kind, const QString& sentence) {
  kind_ = kind;
  sentence_ = sentence;
  work_ = nullptr;
  yes_.setVisible(false);
  showing_.setVisible(false);
  closeAction_.setText("Close");
  setAccessibleDescription(sentence);
  setVisible(true);
  lay();
  QAccessibleEvent alert(this, QAccessible::Alert);
  QAccessible::updateAccessibility(&alert);
  emit changed();
}

void Band::ask(const QString& sentence, const QString& yes, std::function<void()> work) {
  tell(Kind::question, sentence);
  work_ = std::move(work);
  yesAction_.setText(yes);
  closeAction_.setText("Not now");
  yes_.setVisible(true);
  lay();
  yes_.setFocus();
  emit changed();
}

void Band::offer(const QString& label, std::function<void()> show) {
  show_ = std::move(show);
  showAction_.setText(label);
  showing_.setVisible(true);
  lay();
  emit changed();
}

void Band::close() {
  if (!isVisible()) return;
  const bool hadFocus = isAncestorOf(focusWidget()) || hasFocus() || yes_.hasFocus() ||
                        showing_.hasFocus() || close_.hasFocus();
  setVisible(false);
  sentence_.clear();
  if (hadFocus && parentWidget() != nullptr) parentWidget()->setFocus();
  emit changed();
}

int Band::buttonsWidth() const {
  int w = 16 + close_.sizeHint().width();
  for (const Button* button : {&yes_, &showing_}) {
    if (!button->isHidden()) w += 8 + button->sizeHint().width();
  }
  return w;
}

int Band::heightFor(int width) const {
  const QRect text = QFontMetrics(typeface(13))
                         .boundingRect(QRect(0, 0, width - textLeft - buttonsWidth() - 16, 10'000),
                                       Qt::TextWordWrap, sentence_);
  return std::max(44, text.height() + 20);
}

void Band::lay() {
  int x = width() - 16;
  for (Button* button : {&close_, &showing_, &yes_}) {
    if (button->isHidden()) continue;
    const QSize size = button->sizeHint();
    x -= size.width();
    button->setGeometry(x, (height() - 30) / 2, size.width(), 30);
    x -= 8;
  }
}

void Band::resizeEvent(QResizeEvent*) { lay(); }

void Band::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Escape) {
    close();
  } else if ((event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) && yes_.hasFocus()) {
    yesAction_.trigger();
  } else if ((event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) &&
             showing_.hasFocus()) {
    showAction_.trigger();
  } else {
    QWidget::keyPressEvent(event);
  }
}

void Band::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  const bool error = kind_ == Kind::error;
  const QColor sign = error ? c.red : c.caution;
  painter.fillRect(rect(), error ? c.errorBand : c.cautionBand);
  painter.fillRect(0, 0, 4, height(), sign);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setBrush(sign);
  painter.setPen(Qt::NoPen);
  painter.drawRoundedRect(QRectF(16, height() / 2.0 - 9, 18, 18), 3, 3);
  drawText(painter, 25, height() / 2.0 + 5, error ? QString(QChar(0x2212)) : "!", 13, true,
           error ? c.errorBand : c.cautionBand, Qt::AlignHCenter);
  painter.setPen(c.ink);
  painter.setFont(typeface(13));
  painter.drawText(QRect(textLeft, 0, width() - textLeft - buttonsWidth() - 16, height()),
                   Qt::TextWordWrap | Qt::AlignVCenter, sentence_);
}

}  // namespace flitch::desktop
