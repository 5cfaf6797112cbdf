#pragma once
#include "inventory/desk/bins.h"
#include "ui/desktop/said_line.h"
#include "ui/desktop/session.h"
#include "ui/desktop/sheet_table.h"
#include "ui/desktop/table_model.h"

namespace flitch::desktop {

/// What a maker says was done with a bin, as typed.
struct BinLine {
  std::string species;  ///< of a new bin; empty: the bin chosen
  desk::BinWork work = desk::BinWork::put;
  Feet feet;
  std::string word;  ///< why; of wood used the job, where the book has one of that name
};
/// Reads `put 2`, `used 1.5, Map chest`, `thrown 3, split`, `holds 4.5`, `new cherry`. Throws
/// Unreadable.
[[nodiscard]] BinLine readBinLine(const std::string& text);

/// The bins of untagged shorts over the rack, and one line for what was done with the one chosen.
class BinsView : public QWidget {
  Q_OBJECT
 public:
  BinsView(Session& session, const Look& look, QWidget* parent);
  void refresh();
  [[nodiscard]] std::size_t count() const { return bins_.size(); }
  /// In all bins, by estimate.
  [[nodiscard]] Feet feet() const;

 signals:
  void leaveWanted();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  void read();
  void keep();
  [[nodiscard]] const Bin* chosen() const;
  /// Where the line's part begins, below the bins.
  [[nodiscard]] int lineTop() const;

  Session& session_;
  const Look& look_;
  std::vector<Bin> bins_;
  TableModel model_;
  SheetTable table_;
  SaidLine line_;
};

}  // namespace flitch::desktop
