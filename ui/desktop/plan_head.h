#pragma once
#include <QWidget>
#include <array>
#include <memory>

#include "ui/desktop/controls.h"
#include "ui/desktop/curves.h"
#include "ui/desktop/place.h"
#include "ui/desktop/plan_sheet.h"

namespace flitch::desktop {

/// Over the opened boards: the plain proof sentence, why it stands still, how much rests on faces
/// nobody has looked at, and what can be done next. While planning, a thin bar runs to the sum at
/// which it stops by itself.
class PlanHead : public QWidget {
  Q_OBJECT
 public:
  PlanHead(const Look& look, const Actions& actions, const std::string& sign, QWidget* parent);
  /// Nothing planned yet: what to do, in one sentence.
  void showNothing(const QString& sentence);
  void showPlan(const PlanSheet& sheet, const std::vector<Step>& steps);
  void showProgress(const std::string& sentence, const std::vector<Step>& steps,
                    const ShopProfile& shop, double seconds, bool stopping);
  void setCurves(bool open);
  [[nodiscard]] bool curvesOpen() const { return curvesOpen_; }
  [[nodiscard]] int wantedHeight() const;
  [[nodiscard]] const QString& sentence() const { return sentence_; }

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  void lay();
  [[nodiscard]] int textLeft() const;
  [[nodiscard]] bool wide() const { return width() >= 1200; }
  void paintBar(QPainter& painter, int x) const;

  enum class State { nothing, planning, planned };
  const Look& look_;
  std::string sign_;
  State state_ = State::nothing;
  QString sentence_, why_, unseen_, stopsAt_;
  bool someUnseen_ = false;
  double done_ = 0;  ///< of the bar, 0 to 1
  bool curvesOpen_ = false;
  Button plan_, stop_, sheets_, curvesButton_, saw_, trust_, labels_, price_;
  Curves curves_;
};

}  // namespace flitch::desktop
