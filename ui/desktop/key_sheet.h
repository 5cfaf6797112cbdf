#pragma once
#include <QWidget>

#include "ui/desktop/actions.h"
#include "ui/desktop/look.h"

namespace flitch::desktop {

/// The sheet of keys (F1): every action of the place and of the program, from the table of actions.
/// Esc or F1 puts it away.
class KeySheet : public QWidget {
  Q_OBJECT
 public:
  KeySheet(const Look& look, QWidget* parent);
  void show(Where place, const QString& name);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void focusOutEvent(QFocusEvent* event) override;

 private:
  const Look& look_;
  Where place_ = inRack;
  QString name_;
};

}  // namespace flitch::desktop
