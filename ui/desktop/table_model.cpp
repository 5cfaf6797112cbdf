#include "ui/desktop/table_model.h"

#include <algorithm>
#include <numeric>

#include "inventory/records/shown_table.h"
#include "ui/desktop/look.h"
#include "ui/desktop/rack_model.h"

namespace flitch::desktop {

TableModel::TableModel(Unit unit, std::string sign, QObject* parent)
    : QAbstractTableModel(parent), unit_(unit), sign_(std::move(sign)) {}

void TableModel::setTable(Table table) {
  beginResetModel();
  table_ = std::move(table);
  shown_ = shown(table_);
  order_.resize(table_.rows.size());
  std::iota(order_.begin(), order_.end(), std::size_t{0});
  endResetModel();
}

const std::vector<BoardId>& TableModel::boards(int row) const {
  static const std::vector<BoardId> none;
  const auto at = static_cast<std::size_t>(row);
  if (row < 0 || at >= order_.size() || order_[at] >= table_.boards.size()) return none;
  return table_.boards[order_[at]];
}

std::vector<int> TableModel::widths(int most) const {
  constexpr int padding = 22;
  std::vector<int> widths;
  for (int c = 0; c < columnCount(); ++c) {
    int wide = textWidth(headerData(c, Qt::Horizontal, Qt::DisplayRole).toString(), 12);
    for (int r = 0; r < rowCount(); ++r) {
      const QModelIndex at = index(r, c);
      wide = std::max(wide, textWidth(at.data().toString(), 13, at.data(boldRole).toBool()));
    }
    widths.push_back(std::min(most, wide + padding));
  }
  return widths;
}

int TableModel::rowCount(const QModelIndex& parent) const {
  if (parent.isValid()) return 0;
  return static_cast<int>(table_.rows.size() + (table_.totals.empty() ? 0 : 1));
}

int TableModel::columnCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(table_.columns.size());
}

const std::vector<CellValue>& TableModel::cells(int row) const {
  const auto at = static_cast<std::size_t>(row);
  return at < order_.size() ? shown_.rows[order_[at]] : shown_.totals;
}

QVariant TableModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid()) return {};
  const auto column = static_cast<std::size_t>(index.column());
  switch (role) {
    case Qt::DisplayRole: return q(text(cells(index.row())[column], unit_, sign_));
    case Qt::TextAlignmentRole:
      return int(table_.columns[column].right ? Qt::AlignRight : Qt::AlignLeft);
    case boldRole: return static_cast<std::size_t>(index.row()) >= order_.size();
    default: return {};
  }
}

QVariant TableModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || section >= columnCount()) return {};
  const Column& column = table_.columns[static_cast<std::size_t>(section)];
  if (role == Qt::DisplayRole) return q(column.title);
  if (role == Qt::TextAlignmentRole) return int(column.right ? Qt::AlignRight : Qt::AlignLeft);
  return {};
}

void TableModel::sort(int column, Qt::SortOrder order) {
  if (column < 0 || column >= columnCount()) return;
  emit layoutAboutToBeChanged();
  const auto c = static_cast<std::size_t>(column);
  std::stable_sort(order_.begin(), order_.end(), [&](std::size_t a, std::size_t b) {
    const CellValue& left = table_.rows[a][c];
    const CellValue& right = table_.rows[b][c];
    return order == Qt::AscendingOrder ? left < right : right < left;
  });
  emit layoutChanged();
}

}  // namespace flitch::desktop
