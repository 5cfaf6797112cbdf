#pragma once
#include <QWidget>
#include <vector>

#include "inventory/records/estimate.h"
#include "ui/desktop/controls.h"
#include "ui/desktop/place.h"
#include "ui/desktop/sheet_table.h"
#include "ui/desktop/table_model.h"

namespace flitch::desktop {

/// What a job costs, in place of its opened boards: the sum at today's prices and at what the
/// boards cost, then one of several tables (lumber and bills, wood by part, what to buy).
class PriceView : public QWidget {
  Q_OBJECT
 public:
  PriceView(const Look& look, const Actions& actions, Unit unit, const std::string& sign,
            QWidget* parent);
  /// `tables`: with titles; which of them is shown stays as it was chosen.
  void setPrice(const Estimate& estimate, std::vector<Table> tables);
  [[nodiscard]] const Table& table() const { return model_.table(); }
  [[nodiscard]] QString sum() const { return sum_; }

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  void showTable();
  void lay();

  const Look& look_;
  std::string sign_;
  QString sum_, asItCost_;
  QStringList notes_;
  std::vector<Table> tables_;
  Choice which_;
  Button estimate_, quote_, lines_;
  TableModel model_;
  SheetTable table_;
};

}  // namespace flitch::desktop
