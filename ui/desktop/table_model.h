#pragma once
#include <QAbstractTableModel>
#include <vector>

#include "inventory/records/table.h"

namespace flitch::desktop {

/// Shows any report: rows as they come until a head is pressed, totals last and never sorted.
class TableModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  TableModel(Unit unit, std::string sign, QObject* parent);
  void setTable(Table table);
  [[nodiscard]] const Table& table() const { return table_; }
  /// The boards a shown row is made of; none for the totals.
  [[nodiscard]] const std::vector<BoardId>& boards(int row) const;
  /// Widths in pixels that hold heads and cells, none above `most`.
  [[nodiscard]] std::vector<int> widths(int most) const;

  [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
  [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
  [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
  [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                    int role) const override;
  void sort(int column, Qt::SortOrder order) override;

 private:
  [[nodiscard]] const std::vector<CellValue>& cells(int row) const;

  Unit unit_;
  std::string sign_;
  Table table_;  ///< exact, for files and for sorting
  Table shown_;
  std::vector<std::size_t> order_;  ///< rows as shown
};

}  // namespace flitch::desktop
