#pragma once
#include <QLabel>
#include <array>
#include <vector>

#include "inventory/exchange/columns.h"
#include "inventory/records/board.h"
#include "ui/desktop/controls.h"

namespace flitch::desktop {

/// Marks as spoken, on a board: `end` and whole widths resolved. Throws Unreadable, or Refusal when
/// a mark lies past the board's end.
[[nodiscard]] std::vector<Defect> quickMarks(const QString& text, const Board& board,
                                             const exchange::ReadingRules& rules);
/// How marks were understood: "unsound knot from 12 to 17 in, whole width, both faces".
[[nodiscard]] QString readingOf(const std::vector<Defect>& marks, Unit unit);
/// "1/16 deep" of a mark on one face, "on B at 47, 6" of one aslant; else empty.
[[nodiscard]] QString depthText(const Defect& mark, Unit unit);

/// Under the board: the quick field with its reading, what was looked at on A and B, a key for each
/// kind of mark, and the chosen mark's place and size as figures.
class MarkBar : public QWidget {
  Q_OBJECT
 public:
  static constexpr int barHeight = 72;
  MarkBar(const Look& look, Unit unit, QWidget* parent);
  void setRules(exchange::ReadingRules rules) { rules_ = std::move(rules); }
  void setBoard(const std::optional<Board>& board, int chosen);
  void setKind(const QString& kind);
  void focusQuick();
  void focusFigures();
  [[nodiscard]] QWidget* first() { return &quick_; }

 signals:
  void edited(const Board& board);
  void preview(const std::vector<Defect>& marks);
  void kindWanted(const QString& kind);
  void leaveWanted();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  void read();
  void keepQuick();
  void keepFigures();
  /// Reads the last field into a mark; false where it cannot be.
  [[nodiscard]] bool readDetail(Defect& mark) const;
  void keepLooked();

  const Look& look_;
  Unit unit_;
  exchange::ReadingRules rules_;
  std::optional<Board> board_;
  int chosen_ = -1;
  bool filling_ = false;
  QString reading_;
  bool unreadable_ = false;
  Field quick_;
  std::array<Choice*, 2> looked_{};
  std::vector<MarkKey*> keys_;
  std::array<Field*, 4> figures_{};  ///< at x, y, size along, across
  Choice face_;
  Field detail_;  ///< how deep a mark on one face goes; where one that goes through comes out on B
};

}  // namespace flitch::desktop
