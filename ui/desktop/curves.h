#pragma once
#include <QWidget>
#include <vector>

#include "ui/desktop/look.h"
#include "ui/desktop/session.h"

namespace flitch::desktop {

/// How cost and bound closed on each other: seconds along, money up. The best so far falls in solid
/// steps, the proven bound rises in dashed ones; what lies between is all that is still open.
class Curves : public QWidget {
  Q_OBJECT
 public:
  Curves(const Look& look, const std::string& sign, QWidget* parent);
  void setSteps(const std::vector<Step>& steps);

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  const Look& look_;
  std::string sign_;
  std::vector<Step> steps_;
};

}  // namespace flitch::desktop
