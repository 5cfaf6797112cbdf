#pragma once
#include <QWidget>

#include "inventory/records/part_wood.h"
#include "ui/desktop/look.h"
#include "ui/desktop/plan_sheet.h"

namespace flitch::desktop {

/// What the year does to the wide parts of a job, and what the finished piece weighs.
struct JobYear {
  std::vector<PartMovement> moves;
  double kilograms = 0;
  Season season;
};

/// Beside the boards of a wide window: the plan against the two rules of hand, where its wood goes
/// by cause, and the offcuts it keeps.
class PlanFacts : public QWidget {
  Q_OBJECT
 public:
  PlanFacts(const Look& look, Unit unit, const std::string& sign, QWidget* parent);
  void setSheet(const PlanSheet* sheet);
  void setYear(JobYear year);

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  struct Row {
    std::vector<QString> cells;
    bool bold = false;
  };
  int paintTable(QPainter& painter, int y, const QString& title, const std::vector<int>& widths,
                 const std::vector<Row>& rows) const;
  const Look& look_;
  Unit unit_;
  std::string sign_;
  const PlanSheet* sheet_ = nullptr;
  JobYear year_;
};

}  // namespace flitch::desktop
