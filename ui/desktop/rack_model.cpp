#include "ui/desktop/rack_model.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>
#include <tuple>

#include "inventory/desk/reports.h"
#include "inventory/records/refusal.h"

namespace flitch::desktop {
namespace {

/// Sorts by a key worked out once for each, equals in the order they stand in.
template <class Key, class KeyOf>
void sortBy(std::vector<std::size_t>& shown, bool down, const KeyOf& keyOf) {
  std::vector<std::pair<Key, std::size_t>> keyed;
  keyed.reserve(shown.size());
  for (const std::size_t i : shown) keyed.emplace_back(keyOf(i), i);
  std::stable_sort(keyed.begin(), keyed.end(), [down](const auto& a, const auto& b) {
    return down ? b.first < a.first : a.first < b.first;
  });
  for (std::size_t n = 0; n < shown.size(); ++n) shown[n] = keyed[n].second;
}

}  // namespace

QString longText(Length length, Unit unit) {
  return q(text(length, unit == Unit::inches ? LengthStyle::feetInches : LengthStyle::millimetres));
}

QString shortText(Length length, Unit unit) {
  return q(text(length, unit == Unit::inches ? LengthStyle::inches : LengthStyle::millimetres));
}

QString tagText(const Board& board) { return board.tag ? q(text(*board.tag)) : QString("no tag"); }

QString lookedText(const Board& board) {
  const auto [a, b] = std::tuple(board.looked[0], board.looked[1]);
  if (a == Looked::no && b == Looked::no) return "not looked at";
  if (a == Looked::no) return QString("B, %1").arg(q(std::string(word(b))));
  if (b == Looked::no) return QString("A, %1").arg(q(std::string(word(a))));
  if (a == b) return QString("A and B, %1").arg(q(std::string(word(a))));
  return QString("A %1, B %2").arg(q(std::string(word(a))), q(std::string(word(b))));
}

RackModel::RackModel(Unit unit, std::string sign, QObject* parent)
    : QAbstractTableModel(parent), unit_(unit), sign_(std::move(sign)) {}

void RackModel::setBoards(std::vector<Board> boards, const ShopProfile& shop) {
  beginResetModel();
  boards_ = std::move(boards);
  clear_.clear();
  const Demand* clear = findDemand(shop, "clear");
  for (const Board& board : boards_) {
    clear_.push_back(clear == nullptr ? std::array{-1, -1}
                                      : std::array{clearPermille(board, Face::a, *clear),
                                                   clearPermille(board, Face::b, *clear)});
  }
  show();
  endResetModel();
}

void RackModel::setFilter(const QString& words) {
  beginResetModel();
  words_ = words;
  show();
  endResetModel();
}

void RackModel::setState(int which) {
  beginResetModel();
  state_ = which;
  show();
  endResetModel();
}

void RackModel::setLog(const QString& log) {
  beginResetModel();
  log_ = log;
  show();
  endResetModel();
}

void RackModel::setOldestFirst(bool oldest) {
  beginResetModel();
  oldest_ = oldest;
  show();
  endResetModel();
}

int RackModel::rowOf(BoardId board) const {
  for (std::size_t i = 0; i < shown_.size(); ++i) {
    if (boards_[shown_[i]].id == board) return static_cast<int>(i);
  }
  return -1;
}

int RackModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(shown_.size());
}

int RackModel::columnCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : columnCountOf;
}

QString RackModel::cell(const Board& board, std::size_t index, int column) const {
  switch (column) {
    case tag: return tagText(board);
    case species: return q(board.species);
    case quarters: return q(text(board.nominal));
    case length: return longText(board.length(), unit_);
    case width: {
      const QString at = shortText(board.widthAtTag(), unit_);
      const QString far = shortText(board.widthAtFar(), unit_);
      return at == far ? at : at + QChar(0x2013) + far;
    }
    case thick: return shortText(board.thickness, unit_);
    case feet: return q(text(board.measuredFeet));
    case grade: return q(board.grade);
    case moisture:
      if (board.readings.empty()) return QString(QChar(0x2013));
      return QString("%1 %").arg(board.readings.back().tenthsPercent / 10.0, 0, 'f', 1);
    case pricePerFoot:
      if (board.measuredFeet.thousandths <= 0) return QString(QChar(0x2013));
      return q(text(Money::tenThousandths(board.cost.raw() * 1000 / board.measuredFeet.thousandths),
                    ""));
    case value: return q(text(board.cost, ""));
    case bay: return q(board.bay);
    case marks: return QString::number(board.defects.size());
    case looked: return lookedText(board);
    case clearA:
    case clearB: {
      const int share = clear_[index][column == clearA ? 0 : 1];
      return share < 0 ? QString(QChar(0x2013)) : QString("%1 %").arg((share + 5) / 10);
    }
    case state:
      if (board.keptBack) return "kept back";
      if (!board.reservedName.empty()) return q(board.reservedName);
      if (!board.readings.empty() && board.readings.back().state != MoistureState::ready) {
        return q(std::string(word(board.readings.back().state)));
      }
      return "free";
    default: return {};
  }
}

QVariant RackModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid()) return {};
  const std::size_t i = shown_[static_cast<std::size_t>(index.row())];
  const Board& board = boards_[i];
  switch (role) {
    case Qt::DisplayRole: return cell(board, i, index.column());
    case Qt::ToolTipRole: return cell(board, i, index.column());
    case Qt::AccessibleTextRole:
      return headerData(index.column(), Qt::Horizontal, Qt::DisplayRole).toString() + ", " +
             cell(board, i, index.column());
    case Qt::TextAlignmentRole: {
      const QVariant head = headerData(index.column(), Qt::Horizontal, role);
      return head;
    }
    case boldRole:
      return index.column() == tag ||
             (index.column() == looked && board.looked == std::array{Looked::no, Looked::no});
    case softRole: return cell(board, i, index.column()) == QString(QChar(0x2013));
    default: return {};
  }
}

QVariant RackModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || section < 0 || section >= columnCountOf) return {};
  static constexpr std::array titles{"Tag",     "Species", "Quarters", "Length",    "Width",
                                     "Thick",   "bf",      "Grade",    "Moisture",  "Price / bf",
                                     "Value",   "Bay",     "Marks",    "Looked at", "Clear A",
                                     "Clear B", "State"};
  if (role == Qt::DisplayRole) return QString(titles[static_cast<std::size_t>(section)]);
  if (role == Qt::TextAlignmentRole) {
    switch (section) {
      case tag:
      case species:
      case grade:
      case bay:
      case looked:
      case state: return QVariant::fromValue(int(Qt::AlignLeft | Qt::AlignVCenter));
      default: return QVariant::fromValue(int(Qt::AlignRight | Qt::AlignVCenter));
    }
  }
  return {};
}

void RackModel::sort(int column, Qt::SortOrder order) {
  emit layoutAboutToBeChanged();
  const QModelIndexList before = persistentIndexList();
  std::vector<BoardId> kept;
  for (const QModelIndex& index : before) kept.push_back(at(index.row()).id);
  sortColumn_ = column;
  order_ = order;
  oldest_ = false;
  show();
  QModelIndexList after;
  for (qsizetype i = 0; i < before.size(); ++i) {
    const int row = rowOf(kept[static_cast<std::size_t>(i)]);
    after.push_back(row < 0 ? QModelIndex() : index(row, before[i].column()));
  }
  changePersistentIndexList(before, after);
  emit layoutChanged();
}

void RackModel::show() {
  // What is typed half is no tag and no length yet: then nothing is shown, and why is told.
  std::function<bool(const Board&)> wanted = [](const Board&) { return false; };
  complaint_.clear();
  try {
    wanted = desk::rackFilter(words_.toStdString(), unit_);
  } catch (const Refusal& refusal) {
    complaint_ = q(refusal.complaints().front().sentence);
  }
  shown_.clear();
  for (std::size_t i = 0; i < boards_.size(); ++i) {
    const Board& board = boards_[i];
    if (!wanted(board) || (!log_.isEmpty() && q(board.log) != log_)) continue;
    if (state_ == 1 && (board.reservedFor || board.keptBack)) continue;
    if (state_ == 2 && !board.reservedFor) continue;
    if (state_ == 3 && !board.keptBack) continue;
    shown_.push_back(i);
  }
  if (!log_.isEmpty()) {
    std::stable_sort(shown_.begin(), shown_.end(), [&](std::size_t a, std::size_t b) {
      return boards_[a].placeInLog < boards_[b].placeInLog;
    });
  } else if (!oldest_) {  // they stand in the order they came
    sortShown();
  }
}

void RackModel::sortShown() {
  const auto figure = [this](std::size_t i) -> std::int64_t {
    const Board& board = boards_[i];
    switch (sortColumn_) {
      case tag: return board.tag ? board.tag->serial : 0;
      case quarters: return board.nominal.length().nm();
      case length: return board.length().nm();
      case width: return board.widthAtTag().nm();
      case thick: return board.thickness.nm();
      case feet: return board.measuredFeet.thousandths;
      case moisture: return board.readings.empty() ? 0 : board.readings.back().tenthsPercent;
      case pricePerFoot:
        return board.measuredFeet.thousandths <= 0
                   ? 0
                   : board.cost.raw() * 1000 / board.measuredFeet.thousandths;
      case value: return board.cost.raw();
      case marks: return static_cast<std::int64_t>(board.defects.size());
      case clearA: return clear_[i][0];
      case clearB: return clear_[i][1];
      default: return 0;
    }
  };
  const bool down = order_ == Qt::DescendingOrder;
  const bool inWords = sortColumn_ == species || sortColumn_ == grade || sortColumn_ == bay ||
                       sortColumn_ == looked || sortColumn_ == state;
  // What is compared is made once for each board, not once for each comparison.
  if (inWords) {
    sortBy<QString>(shown_, down, [&](std::size_t i) { return cell(boards_[i], i, sortColumn_); });
  } else {
    sortBy<std::int64_t>(shown_, down, figure);
  }
}

}  // namespace flitch::desktop
