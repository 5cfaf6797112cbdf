#include "ui/desktop/wedge.h"

#include <QAction>
#include <QApplication>
#include <utility>

#include "inventory/wood/tag_code.h"

namespace flitch::desktop {
namespace {

/// Symbols hold capitals: what a hand types in small letters is never held back.
bool beginsCode(const QKeyEvent& event) {
  const QString& text = event.text();
  return text.size() == 1 && QStringLiteral("TBP").contains(text.front()) && !event.isAutoRepeat();
}

bool endsBurst(int key) {
  return key == Qt::Key_Return || key == Qt::Key_Enter || key == Qt::Key_Tab;
}

bool isModifier(int key) {
  return key == Qt::Key_Shift || key == Qt::Key_Control || key == Qt::Key_Alt ||
         key == Qt::Key_Meta || key == Qt::Key_AltGr || key == Qt::Key_CapsLock;
}

}  // namespace

Wedge::Wedge(QWidget* window) : QObject(window), window_(window) {
  over_.setSingleShot(true);
  over_.setInterval(silence);
  connect(&over_, &QTimer::timeout, this, &Wedge::end);
  qApp->installEventFilter(this);
}

bool Wedge::eventFilter(QObject* watched, QEvent* event) {
  const bool press = event->type() == QEvent::KeyPress;
  if (passing_ || (!press && event->type() != QEvent::ShortcutOverride)) return false;
  // A key that its widget leaves alone comes by again for each of its parents.
  const auto* widget = qobject_cast<QWidget*>(watched);
  if (widget == nullptr || widget->window() != window_) return false;
  if (QApplication::focusWidget() != nullptr && widget != QApplication::focusWidget()) return false;
  const auto* key = static_cast<QKeyEvent*>(event);
  if (isModifier(key->key())) return false;
  if (held_.empty() && !beginsCode(*key)) return false;
  if (press) {
    take(*key);
  } else {
    event->accept();  // no shortcut of a single key before it is clear who typed it
  }
  return true;
}

bool Wedge::goesOn(const QKeyEvent& event) const {
  if (since_.elapsed() > gap || event.isAutoRepeat() || event.text().size() != 1) return false;
  const QChar letter = event.text().front();
  return (letter >= '0' && letter <= '9') || (letter >= 'A' && letter <= 'Z') || letter == '*';
}

bool Wedge::isCode() const {
  if (static_cast<std::size_t>(burst_.size()) < shortest) return false;
  const TagReading::Verdict verdict = readTag(burst_.toStdString()).verdict;
  return verdict == TagReading::Verdict::right || verdict == TagReading::Verdict::wrongCheck;
}

void Wedge::take(const QKeyEvent& event) {
  const bool first = held_.empty(), more = !first && goesOn(event);
  const bool ends = !first && endsBurst(event.key()) && since_.elapsed() <= gap;
  if (ends && isCode()) {
    end();
    return;
  }
  if (!first && !more && beginsCode(event)) {
    handOn();
    take(event);
    return;
  }
  held_.push_back({event.key(), event.modifiers(), event.text()});
  if (!first && !more) {
    handOn();
    return;
  }
  burst_ += event.text();
  since_.start();
  over_.start();
}

void Wedge::end() {
  if (!isCode()) {
    handOn();
    return;
  }
  over_.stop();
  held_.clear();
  emit scanned(std::exchange(burst_, {}));
}

void Wedge::handOn() {
  over_.stop();
  burst_.clear();
  passing_ = true;
  for (const Key& key : std::exchange(held_, {})) pass(key);
  passing_ = false;
}

void Wedge::pass(const Key& key) {
  QWidget* to = QApplication::focusWidget() != nullptr ? QApplication::focusWidget() : window_;
  QKeyEvent asked(QEvent::ShortcutOverride, key.key, key.modifiers, key.text);
  asked.ignore();
  QApplication::sendEvent(to, &asked);
  if (!asked.isAccepted()) {
    const QKeySequence typed(static_cast<int>(key.modifiers & ~Qt::KeypadModifier) | key.key);
    for (QAction* action : window_->actions()) {
      if (!action->isEnabled() || !action->shortcuts().contains(typed)) continue;
      action->trigger();
      return;
    }
  }
  QKeyEvent press(QEvent::KeyPress, key.key, key.modifiers, key.text);
  QApplication::sendEvent(to, &press);
}

}  // namespace flitch::desktop
