#pragma once
#include <QWidget>

#include "ui/desktop/controls.h"
#include "ui/desktop/place.h"

namespace flitch::desktop {

/// The rack of a new book: an empty bay in thin line, and how boards come onto it.
class EmptyRack : public QWidget {
  Q_OBJECT
 public:
  EmptyRack(const Look& look, const Actions& actions, QWidget* parent);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  const Look& look_;
  Button tally_, open_;
};

}  // namespace flitch::desktop
