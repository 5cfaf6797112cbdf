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

bool bars(const Defect& defect, const Demand& demand) {
  if (defect.kind == "show") return false;
  if (defect.kind == "good") return !demand.outsideGood;
  return std::find(demand.allowed.begin(), demand.allowed.end(), defect.kind) ==
         demand.allowed.end();
}

bool shows(const Defect& defect, Face face) {
  return defect.face == DefectFace::through ||
         defect.face == (face == Face::a ? DefectFace::a : DefectFace::b);
}

/// Rectangles no blank of the demand may lie on; outside every `good` zone likewise.
std::vector<Rect> barredOn(const Board& board, Face face, const Demand& demand, Length margin) {
  std::vector<Rect> barred;
  std::vector<Rect> good;
  for (const Defect& defect : board.defects) {
    if (!shows(defect, face) || !bars(defect, demand)) continue;
    const Rect& w = defect.where;
    if (defect.kind == "good") {
      good.push_back(w);
    } else {
      barred.push_back({w.x - margin, w.y - margin, w.dx + 2 * margin, w.dy + 2 * margin});
    }
  }
  if (good.empty()) return barred;
  const Rect all = boundsOf(board);
  std::sort(good.begin(), good.end(), [](const Rect& a, const Rect& b) { return a.x < b.x; });
  Length x = all.x;
  for (const Rect& g : good) {
    if (g.x > x) barred.push_back({x, all.y, g.x - x, all.dy});
    x = std::max(x, g.right());
  }
  if (x < all.right()) barred.push_back({x, all.y, all.right() - x, all.dy});
  return barred;
}

bool seen(const Board& board, Face face) {
  return board.looked[static_cast<std::size_t>(face)] != Looked::no;
}

}  // namespace

int clearPermille(const Board& board, Face face, const Demand& demand) {
  if (!seen(board, face)) return -1;
  const Outline& outline = board.outline[static_cast<std::size_t>(face)];
  const std::vector<Rect> barred = barredOn(board, face, demand, Length{});
  std::vector<Length> xs{Length{}, outline.length()};
  for (const Rect& r : barred) {
    xs.push_back(std::clamp(r.x, Length{}, outline.length()));
    xs.push_back(std::clamp(r.right(), Length{}, outline.length()));
  }
  std::sort(xs.begin(), xs.end());
  double lost = 0;
  for (std::size_t i = 0; i + 1 < xs.size(); ++i) {
    if (xs[i] == xs[i + 1]) continue;
    std::vector<std::pair<Length, Length>> spans;
    for (const Rect& r : barred) {
      if (r.x <= xs[i] && xs[i + 1] <= r.right()) spans.emplace_back(r.y, r.top());
    }
    std::sort(spans.begin(), spans.end());
    const Length middle = xs[i] + (xs[i + 1] - xs[i]) / 2;
    Length y = outline.nearAt(middle);
    const Length far = outline.farAt(middle);
    for (const auto& [low, high] : spans) {
      const Length from = std::max(y, low), to = std::min(far, high);
      if (to > from) {
        lost +=
            static_cast<double>((xs[i + 1] - xs[i]).nm()) * static_cast<double>((to - from).nm());
        y = to;
      }
    }
  }
  double whole = 0;
  const auto points = outline.points();
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    const double w0 = static_cast<double>((points[i].far - points[i].near).nm());
    const double w1 = static_cast<double>((points[i + 1].far - points[i + 1].near).nm());
    whole += (w0 + w1) / 2 * static_cast<double>((points[i + 1].x - points[i].x).nm());
  }
  return whole <= 0 ? 0
                    : std::clamp(static_cast<int>(std::lround(1000 * (1 - lost / whole))), 0, 1000);
}

std::vector<Rect> clearPlaces(const Board& board, Face face, const Demand& demand, Length margin,
                              std::size_t count) {
  if (!seen(board, face) && !demand.unseen) return {};
  const Outline& outline = board.outline[static_cast<std::size_t>(face)];
  const std::vector<Rect> barred = barredOn(board, face, demand, margin);
  std::vector<Length> xs{Length{}, outline.length()};
  for (const OutlinePoint& p : outline.points()) xs.push_back(p.x);
  for (const Rect& r : barred) {
    xs.push_back(std::clamp(r.x, Length{}, outline.length()));
    xs.push_back(std::clamp(r.right(), Length{}, outline.length()));
  }
  std::sort(xs.begin(), xs.end());
  xs.erase(std::unique(xs.begin(), xs.end()), xs.end());
  std::vector<Rect> best;  // widest for each span of x
  for (std::size_t i = 0; i < xs.size(); ++i) {
    for (std::size_t j = i + 1; j < xs.size(); ++j) {
      const Outline::Span span = outline.clearSpan(xs[i], xs[j]);
      std::vector<std::pair<Length, Length>> taken;
      for (const Rect& r : barred) {
        if (r.x < xs[j] && xs[i] < r.right()) taken.emplace_back(r.y, r.top());
      }
      std::sort(taken.begin(), taken.end());
      taken.emplace_back(span.far, span.far);
      Length y = span.near;
      Rect widest{xs[i], y, xs[j] - xs[i], Length{}};
      for (const auto& [low, high] : taken) {
        const Length to = std::min(low, span.far);
        if (to - y > widest.dy) widest = {xs[i], y, xs[j] - xs[i], to - y};
        y = std::max(y, high);
      }
      if (widest.dy > Length{}) best.push_back(widest);
    }
  }
  std::sort(best.begin(), best.end(), [](const Rect& a, const Rect& b) {
    return std::tie(b.dx, b.dy, a.x, a.y) < std::tie(a.dx, a.dy, b.x, b.y);
  });
  std::vector<Rect> front;  // none at least as long and as wide before it
  for (const Rect& r : best) {
    if (front.empty() || r.dy > front.back().dy) front.push_back(r);
  }
  if (front.size() <= count || count < 2) return front;
  std::vector<Rect> spread;
  for (std::size_t i = 0; i < count; ++i) {
    spread.push_back(front[i * (front.size() - 1) / (count - 1)]);
  }
  return spread;
}

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
    if (!wanted(board)) continue;
    if (state_ == 1 && (board.reservedFor || board.keptBack)) continue;
    if (state_ == 2 && !board.reservedFor) continue;
    if (state_ == 3 && !board.keptBack) continue;
    shown_.push_back(i);
  }
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
  const bool inWords = sortColumn_ == species || sortColumn_ == grade || sortColumn_ == bay ||
                       sortColumn_ == looked || sortColumn_ == state;
  std::stable_sort(shown_.begin(), shown_.end(), [&](std::size_t a, std::size_t b) {
    const bool down = order_ == Qt::DescendingOrder;
    const std::size_t first = down ? b : a, second = down ? a : b;
    if (!inWords) return figure(first) < figure(second);
    return cell(boards_[first], first, sortColumn_) < cell(boards_[second], second, sortColumn_);
  });
}

}  // namespace flitch::desktop
