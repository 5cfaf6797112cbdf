#pragma once
#include <QAbstractTableModel>
#include <QPainter>
#include <array>
#include <vector>

#include "inventory/records/blank.h"
#include "inventory/records/cut_plan.h"
#include "inventory/records/part_wood.h"
#include "inventory/records/shop.h"
#include "ui/desktop/look.h"

namespace flitch::desktop {

/// The parts of a job: letter, name, count with spares, sizes, what they ask. All but the letter
/// may be typed over, and a row below the last part waits for another to be typed; what is typed is
/// only told, the book keeps the parts.
class PartsModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Column { letter, name, count, length, width, thick, asks, columnCountOf };
  using Cells = std::array<QString, columnCountOf>;

  PartsModel(Unit unit, QObject* parent);
  void setJob(const Job& job, const ShopProfile& shop, const std::vector<ShortPart>& shorts,
              const std::vector<Species>& own = {});
  [[nodiscard]] const Part& part(int row) const { return parts_[static_cast<std::size_t>(row)]; }
  /// The rough piece of a solid part, none for one that waits.
  [[nodiscard]] const std::optional<Blank>& blank(int row) const {
    return blanks_[static_cast<std::size_t>(row)];
  }
  [[nodiscard]] int shortOf(int row) const { return short_[static_cast<std::size_t>(row)]; }
  /// Species, how far the year moves a part that is wide by movements(), recipe.
  [[nodiscard]] QString secondLine(int row) const;
  /// What the year does to a wide part and what that asks, in a sentence; empty for others.
  [[nodiscard]] QString movementSentence(int row) const;
  /// The blank with the reason for each inch added; empty for a part that waits.
  [[nodiscard]] QString blankText(int row) const;
  [[nodiscard]] Unit unit() const { return unit_; }
  /// The row below the last part.
  [[nodiscard]] bool isNew(int row) const { return row == static_cast<int>(parts_.size()); }
  /// What is typed there so far; empty: not yet.
  [[nodiscard]] const Cells& typedNew() const { return new_; }
  void clearNew();
  /// Whether the width is typed and shown with the thickness, "3 1/2 × 3/4".
  void setThickInWidth(bool thickInWidth) { thickInWidth_ = thickInWidth; }

  [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
  [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
  [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
  [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                    int role) const override;
  [[nodiscard]] Qt::ItemFlags flags(const QModelIndex& index) const override;
  bool setData(const QModelIndex& index, const QVariant& value, int role) override;

 signals:
  void typedOver(int line, int column, const QString& text);
  void newTyped(int column);

 private:
  /// As a cell is typed: arithmetic where the size is that.
  [[nodiscard]] QString asTyped(const Part& part, int column) const;
  /// As it is typed in the new part's row, to begin with by the part above.
  [[nodiscard]] QString asTypedNew(int column) const;

  Unit unit_;
  JobId job_;
  bool thickInWidth_ = false;
  std::vector<Part> parts_;
  Cells new_;
  std::vector<std::optional<Blank>> blanks_;
  QStringList recipes_;
  std::vector<int> short_;
  std::vector<PartMovement> moves_;
  [[nodiscard]] const PartMovement* moves(int row) const;
};

/// The sign of what a part asks, seen from its end: top bar face A, bottom face B, left the front
/// edge, right the other. Two heavy lines: heart only; one heavy: clear; thin: sound; dots: hidden.
void drawAsks(QPainter& painter, const QRectF& box, const Part& part, const Colours& colours);
/// The same in words, for the screen reader.
[[nodiscard]] QString asksText(const Part& part);

}  // namespace flitch::desktop
