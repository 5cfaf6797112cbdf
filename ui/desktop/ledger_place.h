#pragma once
#include <vector>

#include "labels/report_plots.h"
#include "ui/desktop/controls.h"
#include "ui/desktop/place.h"
#include "ui/desktop/plot_view.h"
#include "ui/desktop/report_list.h"
#include "ui/desktop/session.h"
#include "ui/desktop/sheet_table.h"
#include "ui/desktop/table_model.h"

namespace flitch::desktop {

/// What the wood cost and where it went: reports with a plot over their table. Enter goes down from
/// a row to its boards and from a board to its family; Backspace goes up again.
class LedgerPlace : public Place {
  Q_OBJECT
 public:
  LedgerPlace(Session& session, const Look& look, const Actions& actions, QWidget* parent);

  [[nodiscard]] std::array<TitleCell, 3> cells() const override;
  [[nodiscard]] Where where() const override { return inLedger; }
  [[nodiscard]] bool can(Act act) const override;
  void carryOut(Act act) override;
  void refresh() override;
  /// A scanned board shows its family, on the rack or not.
  bool find(const QString& text) override;
  [[nodiscard]] std::vector<QWidget*> areas() const override;

  enum class Shown { wood, clear, actual, learned, lost, offcuts, kept, stock, old };
  void show(Shown report);
  [[nodiscard]] const Table& table() const { return model_.table(); }
  [[nodiscard]] const pages::Plot& plot() const { return plot_.plot(); }
  /// Write what is shown; refusals are said.
  void writeCsvTo(const QString& path);
  void writePdfTo(const QString& path);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void showEvent(QShowEvent* event) override;

 private:
  void read();
  void readReport(const store::Snapshot& now);
  void showTable();
  void goDown();
  void goUp();
  void takeDay();
  void lay();
  [[nodiscard]] QString subtitle() const;

  static constexpr int listWidth = 232;

  Session& session_;
  const Look& look_;
  bool stale_ = true;
  Shown report_ = Shown::wood;
  std::vector<Table> path_;  ///< the report, and how far down from it
  pages::ReportPlot told_;   ///< the report's plot
  QString day_;              ///< of the stock shown, empty: today
  ReportList list_;
  Choice by_, in_, months_;
  Field on_;
  Button csv_, pdf_, up_;
  PlotView plot_;
  TableModel model_;
  SheetTable table_;
};

}  // namespace flitch::desktop
