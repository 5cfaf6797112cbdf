#pragma once
#include <QWidget>
#include <vector>

#include "labels/board_drawing.h"
#include "ui/desktop/look.h"
#include "ui/desktop/plan_sheet.h"

namespace flitch::desktop {

/// One board at the saw: the cut at hand as the largest thing on the screen, the board drawn as it
/// lies with the cuts made ticked, the cuts that follow, and the cautions. Steps of a cutting
/// without the remainder, which is no cut.
class SawSheet : public QWidget {
  Q_OBJECT
 public:
  SawSheet(const Look& look, Unit unit, QWidget* parent);
  /// `opened` outlives what is shown; null: nothing, `why` says why.
  void setBoard(const PlanSheet* sheet, const OpenedBoard* opened,
                std::vector<std::string> cautions, const QString& why = {});
  /// Marks that the saw showed, drawn though they are not in the book yet.
  void setFound(std::vector<Defect> found);
  /// How many steps are made.
  void setMade(int made);
  [[nodiscard]] int made() const { return made_; }
  /// Number of the last cut made, as the cut sheet has it; 0: none.
  [[nodiscard]] int lastCut() const;
  [[nodiscard]] int steps() const { return static_cast<int>(steps_.size()); }
  /// The step at hand in words, as a screen reader says it; empty when all are made.
  [[nodiscard]] QString sentence() const;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  [[nodiscard]] const SawStep* atHand() const;
  void paintStep(QPainter& painter) const;
  int paintBoard(QPainter& painter, int top) const;
  int paintNext(QPainter& painter, int top, int foot) const;
  [[nodiscard]] int heightOf(const std::string& caution) const;
  [[nodiscard]] int cautionsHeight() const;
  void paintCautions(QPainter& painter, int top) const;

  const Look& look_;
  Unit unit_;
  const PlanSheet* sheet_ = nullptr;
  const OpenedBoard* opened_ = nullptr;
  std::vector<SawStep> steps_;
  std::vector<std::string> cautions_;
  std::vector<Defect> found_;
  QString why_;
  int made_ = 0;
};

}  // namespace flitch::desktop
