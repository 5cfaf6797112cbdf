#include "ui/desktop/plan_head.h"

#include <QAccessible>
#include <QPainter>
#include <algorithm>

#include "ui/desktop/plan_view.h"

namespace flitch::desktop {
namespace {
constexpr int curvesWidth = 580;
}

PlanHead::PlanHead(const Look& look, const Actions& actions, const std::string& sign,
                   QWidget* parent)
    : QWidget(parent),
      look_(look),
      sign_(sign),
      plan_(look, actions.at(Act::plan), this),
      stop_(look, actions.at(Act::stop), this),
      sheets_(look, actions.at(Act::cutSheets), this),
      curvesButton_(look, actions.at(Act::curves), this),
      saw_(look, actions.at(Act::sawAsPlanned), this),
      trust_(look, actions.at(Act::trustUnseen), this),
      labels_(look, actions.at(Act::partLabels), this),
      price_(look, actions.at(Act::price), this),
      curves_(look, sign, this) {
  setAccessibleName("The plan and its proof");
  stop_.setPrimary(true);
  saw_.setPrimary(true);
  curves_.setVisible(false);
  connect(actions.at(Act::trustUnseen), &QAction::changed, this, &PlanHead::lay);
  connect(actions.at(Act::plan), &QAction::changed, this, &PlanHead::lay);
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
  showNothing("");
}

void PlanHead::showNothing(const QString& sentence) {
  state_ = State::nothing;
  sentence_ = sentence;
  why_.clear();
  unseen_.clear();
  curves_.setSteps({});
  setAccessibleDescription(sentence_);
  lay();
}

void PlanHead::showPlan(const PlanSheet& sheet, const std::vector<Step>& steps) {
  state_ = State::planned;
  sentence_ = q(sheet.sentence);
  const bool opens = !sheet.plan.cuttings.empty();  // else there is nothing to say of it
  why_ = opens ? q(sheet.why) : QString();
  someUnseen_ = sheet.unseen.permille > 0;
  unseen_ = opens ? q(planning::trustText(sheet.unseen)) : QString();
  curves_.setSteps(steps);
  setAccessibleDescription(sentence_ + " " + why_ + " " + unseen_);
  QAccessibleEvent changed(this, QAccessible::DescriptionChanged);
  QAccessible::updateAccessibility(&changed);
  lay();
}

void PlanHead::showProgress(const std::string& sentence, const std::vector<Step>& steps,
                            const ShopProfile& shop, double seconds, bool stopping) {
  state_ = State::planning;
  sentence_ = stopping           ? "Stopped. The best plan so far is being kept."
              : sentence.empty() ? "Looking for a first plan."
                                 : q(sentence);
  done_ = 0;
  const Step* last = steps.empty() ? nullptr : &steps.back();
  why_ = QString("%1 s · plan %2 · all else stays usable")
             .arg(seconds, 0, 'f', 1)
             .arg(last == nullptr ? 0 : last->plan);
  const Money sum = shop.stopWhenBelow;
  stopsAt_ = QString("stops by itself below %1 and %2 %")
                 .arg(q(wholeText(sum, sign_)))
                 .arg(shop.stopPermille / 10.0, 0, 'g', 2);
  if (last != nullptr) {
    const auto open = [](const Step& s) { return static_cast<double>((s.cost - s.bound).raw()); };
    const double first = open(steps.front());
    const double goal =
        std::min(static_cast<double>(sum.raw()),
                 static_cast<double>(last->cost.raw()) * shop.stopPermille / 1000.0);
    if (first > goal) done_ = std::clamp((first - open(*last)) / (first - goal), 0.0, 1.0);
  }
  unseen_.clear();
  curves_.setSteps(steps);
  lay();
}

void PlanHead::setCurves(bool open) {
  curvesOpen_ = open;
  lay();
}

int PlanHead::wantedHeight() const {
  if (wide()) return curvesOpen_ ? 206 : 144;
  return curvesOpen_ ? 144 + 170 : 144;
}

int PlanHead::textLeft() const { return wide() && curvesOpen_ ? 20 + curvesWidth : 20; }

void PlanHead::lay() {
  const bool planning = state_ == State::planning, planned = state_ == State::planned;
  plan_.setVisible(!planning);
  stop_.setVisible(planning);
  sheets_.setVisible(planned);
  saw_.setVisible(planned);
  labels_.setVisible(planned);
  price_.setVisible(planned);
  curvesButton_.setVisible(planned || planning);
  trust_.setVisible(!planning);
  plan_.setPrimary(state_ == State::nothing);
  plan_.setLabel(planned ? "Plan again" : "");
  curves_.setVisible(curvesOpen_);
  if (wide()) {
    curves_.setGeometry(0, 8, curvesWidth, 196);
  } else {
    curves_.setGeometry(0, 144, width(), 168);
  }
  int x = textLeft();
  const int y = wide() && curvesOpen_ ? 140 : 102;
  // In the order of the work: plan, look, print, saw.
  std::array<Button*, 8> order{&plan_,   &stop_,         &price_, &sheets_,
                               &labels_, &curvesButton_, &trust_, &saw_};
  const int room = width() - x - 20;
  const auto need = [&] {
    int sum = -8;
    for (const Button* b : order) sum += b->isHidden() ? 0 : b->sizeHint().width() + 8;
    return sum;
  };
  for (Button* b : order) b->setKeyShown(true);
  // Keys make way before words do, those of what is done least often first.
  for (Button* b : {&curvesButton_, &labels_, &trust_, &sheets_, &price_, &plan_, &saw_, &stop_}) {
    if (need() > room) b->setKeyShown(false);
  }
  for (Button* b : order) {
    if (b->isHidden()) continue;
    const int w = b->sizeHint().width();
    b->setGeometry(x, y, w, 30);
    x += w + 8;
  }
  update();
}

void PlanHead::resizeEvent(QResizeEvent*) { lay(); }

void PlanHead::paintBar(QPainter& painter, int x) const {
  const Colours& c = look_.colours();
  const int end = std::min(520, width() - x - 220);
  painter.fillRect(x, 48, end, 4, c.stripe);
  painter.fillRect(x, 48, static_cast<int>(end * done_), 4, c.ink);
  painter.fillRect(x + end - 1, 43, 2, 14, c.ink);
  drawText(painter, x + end + 10, 55, stopsAt_, 12, false, c.soft);
}

void PlanHead::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.sheet);
  const int x = textLeft(), room = width() - x - 20;
  const int big = wide() && textWidth(sentence_, 22, true) < room ? 22 : 17;
  drawText(painter, x, wide() && curvesOpen_ ? 44 : 34, elided(sentence_, big, true, room), big,
           true, c.ink);
  if (state_ == State::planning) {
    paintBar(painter, x);
    drawText(painter, x, 78, why_, 13, false, c.soft);
    return;
  }
  const int down = wide() && curvesOpen_ ? 16 : 0;
  drawText(painter, x, 56 + down, elided(why_, 13, false, room), 13, false, c.soft);
  if (unseen_.isEmpty()) return;
  int left = x;
  if (someUnseen_) {
    drawUnseen(painter, QRectF(x, 69 + down, 26, 14), c.cherry, c);
    left += 34;
  }
  drawText(painter, left, 80 + down, elided(unseen_, 13, false, room - (left - x)), 13, false,
           someUnseen_ ? c.ink : c.soft);
}

}  // namespace flitch::desktop
