#pragma once
#include <QAbstractTableModel>
#include <QFont>
#include <vector>

#include "inventory/records/board.h"
#include "inventory/records/shop.h"
#include "ui/desktop/look.h"

namespace flitch::desktop {

/// Roles that the sheet tables read beside Qt's own.
enum SheetRole {
  boldRole = Qt::UserRole,  ///< set bold
  softRole                  ///< set in soft ink
};

/// Share of a face free of marks that bar the demand, with their margins, in thousandths; -1 for a
/// face nobody has looked at. O(marks³), small numbers.
[[nodiscard]] int clearPermille(const Board& board, Face face, const Demand& demand);

/// The largest clear places of a face for a demand, each at least as large as no other in both
/// directions, longest first, at most `count` spread over length.
[[nodiscard]] std::vector<Rect> clearPlaces(const Board& board, Face face, const Demand& demand,
                                            Length margin, std::size_t count);

/// The rack: its boards, and an index of those shown in the order shown. Filters and sorts records,
/// not cells.
class RackModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Column {
    tag,
    species,
    quarters,
    length,
    width,
    thick,
    feet,
    grade,
    moisture,
    pricePerFoot,
    value,
    bay,
    marks,
    looked,
    clearA,
    clearB,
    state,
    columnCountOf
  };

  RackModel(Unit unit, std::string sign, QObject* parent);

  void setBoards(std::vector<Board> boards, const ShopProfile& shop);
  void setFilter(const QString& words);
  void setState(int which);  ///< 0 on the rack, 1 free, 2 reserved, 3 kept back
  /// Only boards of that log, in their sequence; empty: all.
  void setLog(const QString& log);
  [[nodiscard]] const QString& log() const { return log_; }
  /// As they came into the book, those that lie longest first; else by the column chosen.
  void setOldestFirst(bool oldest);
  [[nodiscard]] bool oldestFirst() const { return oldest_; }
  /// What is wrong with the words typed; empty: nothing.
  [[nodiscard]] const QString& complaint() const { return complaint_; }
  [[nodiscard]] const std::vector<Board>& boards() const { return boards_; }
  [[nodiscard]] const Board& at(int row) const {
    return boards_[shown_[static_cast<std::size_t>(row)]];
  }
  /// Row of a board, or -1 when the filter hides it.
  [[nodiscard]] int rowOf(BoardId board) const;

  [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
  [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
  [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
  [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                    int role) const override;
  void sort(int column, Qt::SortOrder order) override;

 private:
  [[nodiscard]] QString cell(const Board& board, std::size_t index, int column) const;
  void show();
  void sortShown();

  Unit unit_;
  std::string sign_;
  std::vector<Board> boards_;
  std::vector<std::array<int, 2>> clear_;
  std::vector<std::size_t> shown_;
  QString words_, complaint_, log_;
  bool oldest_ = false;
  int state_ = 0;
  int sortColumn_ = tag;
  Qt::SortOrder order_ = Qt::AscendingOrder;
};

/// `A and B, planed`, `A, rough`, `not looked at`.
[[nodiscard]] QString lookedText(const Board& board);
/// `10' 6"` or millimetres.
[[nodiscard]] QString longText(Length length, Unit unit);
/// `7 3/8` or millimetres.
[[nodiscard]] QString shortText(Length length, Unit unit);
[[nodiscard]] QString tagText(const Board& board);

}  // namespace flitch::desktop
