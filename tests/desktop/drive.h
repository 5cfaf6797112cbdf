#pragma once
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>
#include <memory>

#include "tests/desktop/sample_shop.h"
#include "ui/desktop/window.h"

namespace flitch::desktop {

/// A window on a book of its own, shown and active.
struct Driven {
  QTemporaryDir folder;
  Look look;
  std::unique_ptr<Window> window;

  explicit Driven(bool empty = false, QSize size = {1280, 720}) {
    const std::string path = (folder.path() + "/shop.flitch").toStdString();
    empty ? sample::makeEmptyBook(path) : sample::makeBook(path);
    window = openWindow(path, look);
    window->resize(size);
    window->show();
    window->activateWindow();
    static_cast<void>(QTest::qWaitForWindowActive(window.get()));
  }
  /// The control with that accessible name.
  template <class Control = QWidget>
  [[nodiscard]] Control* named(const QString& name) const {
    for (Control* control : window->findChildren<Control*>()) {
      if (control->accessibleName() == name) return control;
    }
    return nullptr;
  }
  void key(Qt::Key pressed, Qt::KeyboardModifiers modifiers = Qt::NoModifier) const {
    QWidget* target = QApplication::focusWidget();
    QTest::keyClick(target == nullptr ? window.get() : target, pressed, modifiers);
  }
  void type(const QString& text) const { QTest::keyClicks(QApplication::focusWidget(), text); }
  [[nodiscard]] store::Snapshot book() const { return window->session().book().read(); }
};

}  // namespace flitch::desktop
