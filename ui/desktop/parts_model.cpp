#include "ui/desktop/parts_model.h"

#include <algorithm>
#include <array>

#include "inventory/records/recipe.h"
#include "ui/desktop/rack_model.h"

namespace flitch::desktop {

PartsModel::PartsModel(Unit unit, QObject* parent) : QAbstractTableModel(parent), unit_(unit) {}

void PartsModel::setJob(const Job& job, const ShopProfile& shop,
                        const std::vector<ShortPart>& shorts, const std::vector<Species>& own) {
  // A cell being typed outlasts what others write beside it.
  const bool same = job.id == job_ && job.parts == parts_;
  if (!same) beginResetModel();
  if (job.id != job_) new_.fill({});
  job_ = job.id;
  parts_ = job.parts;
  moves_ = movements(job, own, seasonOf(shop), unit_);
  blanks_.clear();
  recipes_.clear();
  short_.assign(parts_.size(), 0);
  for (std::size_t i = 0; i < parts_.size(); ++i) {
    const bool waiting = waits(parts_[i], shop);
    const bool solid = allowsRecipe(parts_[i], RecipeKind::solid, shop);
    blanks_.push_back(solid ? std::optional<Blank>(blankFor(parts_[i], shop)) : std::nullopt);
    QString recipe = q(recipeText(parts_[i], shop)) + (waiting ? ": waits" : "");
    if (parts_[i].woodFrom != WoodFrom::anyBoards) {
      recipe += ", " + q(std::string(word(parts_[i].woodFrom)));
      if (!parts_[i].group.empty()) recipe += " with all " + q(parts_[i].group);
    }
    recipes_.push_back(recipe);
    for (const ShortPart& s : shorts) {
      if (s.line == parts_[i].line) short_[i] += s.copies;
    }
  }
  if (!same)
    endResetModel();
  else if (!parts_.empty())
    emit dataChanged(index(0, 0), index(rowCount() - 1, columnCountOf - 1));
}

int PartsModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() || parts_.empty() ? 0 : static_cast<int>(parts_.size()) + 1;
}

int PartsModel::columnCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : columnCountOf;
}

QString PartsModel::secondLine(int row) const {
  const Part& p = part(row);
  QString said;
  for (const std::string& species : p.species) {
    if (!said.isEmpty()) said += " or ";
    said += q(species);
  }
  if (const PartMovement* m = moves(row); m != nullptr) {
    said += ", moves " + shortText(yearlyMovement(*m, unit_), unit_);
  }
  said += ", " + recipes_[row];
  static constexpr std::array names{"length", "width", "thickness"};
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (!p.typed[i].empty()) said += QString(", %1 = %2").arg(names[i], q(p.typed[i]));
  }
  return said;
}

const PartMovement* PartsModel::moves(int row) const {
  const auto at = std::find_if(moves_.begin(), moves_.end(),
                               [&](const PartMovement& m) { return m.line == part(row).line; });
  return at == moves_.end() ? nullptr : &*at;
}

QString PartsModel::movementSentence(int row) const {
  const PartMovement* m = moves(row);
  if (m == nullptr) return {};
  return QString(
             "Over the year it %1. Held in its middle: a gap of %2 at each edge, covered by "
             "more than %3.")
      .arg(q(movementText(*m, unit_)), q(lengthText(m->room.grows, unit_)),
           q(lengthText(m->room.shrinks, unit_)));
}

QString PartsModel::blankText(int row) const {
  const std::optional<Blank>& rough = blank(row);
  if (!rough) return {};
  QStringList reasons;
  for (const auto* list : {&rough->onLength, &rough->onWidth, &rough->onThickness}) {
    for (const Allowance& a : *list) {
      reasons.push_back(QString("%1 +%2").arg(q(a.reason), shortText(a.amount, unit_)));
    }
  }
  return QString("Blank %1 × %2: %3")
      .arg(shortText(rough->length, unit_), shortText(rough->width, unit_), reasons.join(", "));
}

QVariant PartsModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid()) return {};
  if (role == Qt::TextAlignmentRole) return headerData(index.column(), Qt::Horizontal, role);
  if (isNew(index.row())) {
    if (role == Qt::EditRole) return asTypedNew(index.column());
    if (role == Qt::AccessibleTextRole && index.column() == name && new_[name].isEmpty())
      return "Another part: type its name";
    const bool told = role == Qt::DisplayRole || role == Qt::AccessibleTextRole;
    return told ? new_[static_cast<std::size_t>(index.column())] : QVariant();
  }
  const Part& p = part(index.row());
  if (role == Qt::EditRole) return asTyped(p, index.column());
  if (role == Qt::AccessibleTextRole || role == Qt::ToolTipRole) {
    if (index.column() == asks) return asksText(p);
    if (index.column() != name && role == Qt::ToolTipRole) return blankText(index.row());
    if (index.column() == name) {
      const QString moves = movementSentence(index.row());
      return q(p.name) + ", " + secondLine(index.row()) +
             (shortOf(index.row()) > 0 ? QString(", %1 short").arg(shortOf(index.row()))
                                       : QString()) +
             (moves.isEmpty() ? QString() : ". " + moves);
    }
  } else if (role != Qt::DisplayRole) {
    return {};
  }
  switch (index.column()) {
    case letter: return q(partLetter(p.line));
    case name: return q(p.name);
    case count:
      return p.spares > 0 ? QString("%1 + %2").arg(p.copies).arg(p.spares)
                          : QString::number(p.copies);
    case length: return shortText(p.length, unit_);
    case width: return shortText(p.width, unit_);
    case thick: return shortText(p.thickness, unit_);
    default: return {};
  }
}

void PartsModel::clearNew() {
  new_.fill({});
  const int row = static_cast<int>(parts_.size());
  emit dataChanged(index(row, 0), index(row, columnCountOf - 1));
}

QString PartsModel::asTypedNew(int column) const {
  const QString& typed = new_[static_cast<std::size_t>(column)];
  if (!typed.isEmpty()) return typed;
  switch (column) {
    case count: return "1";
    case thick: return asTyped(parts_.back(), thick);
    case asks: return asTyped(Part(), asks);
    default: return {};
  }
}

QString PartsModel::asTyped(const Part& part, int column) const {
  const auto size = [&](std::size_t which, Length plain) {
    return part.typed[which].empty() ? q(lengthText(plain, unit_)) : q(part.typed[which]);
  };
  switch (column) {
    case name: return q(part.name);
    case count:
      return part.spares > 0 ? QString("%1 + %2").arg(part.copies).arg(part.spares)
                             : QString::number(part.copies);
    case length: return size(0, part.length);
    case width:
      return size(1, part.width) + (thickInWidth_ ? " × " + size(2, part.thickness) : QString());
    case thick: return size(2, part.thickness);
    case asks: {
      const QString edges =
          part.edges[0] == part.edges[1]
              ? q(part.edges[0])
              : QString("front %1, back %2").arg(q(part.edges[0]), q(part.edges[1]));
      return QString("%1, %2; %3").arg(q(part.faceA), q(part.faceB), edges);
    }
    default: return {};
  }
}

Qt::ItemFlags PartsModel::flags(const QModelIndex& index) const {
  const Qt::ItemFlags plain = QAbstractTableModel::flags(index);
  const bool typed = index.column() >= name && index.column() <= asks;
  return typed ? plain | Qt::ItemIsEditable : plain;
}

bool PartsModel::setData(const QModelIndex& index, const QVariant& value, int role) {
  if (role != Qt::EditRole || !index.isValid()) return false;
  const QString text = value.toString().trimmed();
  if (isNew(index.row())) {
    new_[static_cast<std::size_t>(index.column())] = text;
    emit dataChanged(index.siblingAtColumn(0), index.siblingAtColumn(columnCountOf - 1));
    emit newTyped(index.column());
    return true;
  }
  const Part& typed = part(index.row());
  if (text == asTyped(typed, index.column())) return false;
  emit typedOver(typed.line, index.column(), text);
  return true;
}

QVariant PartsModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || section < 0 || section >= columnCountOf) return {};
  static constexpr std::array titles{"", "Part", "Count", "Length", "Width", "Thick", "Asks"};
  if (role == Qt::DisplayRole) return QString(titles[static_cast<std::size_t>(section)]);
  if (role == Qt::TextAlignmentRole) {
    const bool left = section == letter || section == name;
    const int align = section == asks ? Qt::AlignHCenter : left ? Qt::AlignLeft : Qt::AlignRight;
    return QVariant::fromValue(align | int(Qt::AlignVCenter));
  }
  return {};
}

void drawAsks(QPainter& painter, const QRectF& box, const Part& part, const Colours& colours) {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  // `in` points from the side into the sign, so that the bars lie inside its box.
  const auto bar = [&](const std::string& demand, QPointF a, QPointF b, QPointF in) {
    const auto line = [&](double inset, double width, bool dotted) {
      QPen pen(colours.ink, width, Qt::SolidLine, Qt::FlatCap);
      if (dotted) pen.setDashPattern({1.0, 1.6});
      painter.setPen(pen);
      painter.drawLine(a + in * inset, b + in * inset);
    };
    if (demand == "hidden") {
      line(1, 1.6, true);
    } else if (demand == "clear") {
      line(1.9, 3.8, false);
    } else if (demand == "heart only") {
      line(0.9, 1.9, false);
      line(4.1, 1.9, false);
    } else {
      line(0.6, 1.25, false);
    }
  };
  bar(part.edges[0], box.topLeft(), box.bottomLeft(), {1, 0});
  bar(part.edges[1], box.topRight(), box.bottomRight(), {-1, 0});
  bar(part.faceA, box.topLeft(), box.topRight(), {0, 1});
  bar(part.faceB, box.bottomLeft(), box.bottomRight(), {0, -1});
  painter.restore();
}

QString asksText(const Part& part) {
  return QString("face A %1, face B %2, front edge %3, other edge %4")
      .arg(q(part.faceA), q(part.faceB), q(part.edges[0]), q(part.edges[1]));
}

}  // namespace flitch::desktop
