#pragma once
#include <QImage>
#include <QWidget>
#include <array>
#include <map>
#include <vector>

#include "inventory/records/glue_up.h"
#include "inventory/records/restave.h"
#include "ui/desktop/look.h"
#include "ui/desktop/plan_sheet.h"
#include "ui/desktop/session.h"

namespace flitch::desktop {

/// The panels of a plan as they will lie in the clamps: staves side by side to scale, the front
/// edge below, face A up, each with its board's photo where one lies to scale, else as it is drawn.
/// Staves are moved within their panel and turned as far as the checker lets them; nothing is
/// written before keep().
class GlueView : public QWidget {
  Q_OBJECT
 public:
  GlueView(Session& session, const Look& look, QWidget* parent);
  /// Borrowed; none: no plan. What was changed and not kept is gone when the plan is another.
  void setSheet(const PlanSheet* sheet);
  /// Panels of staves that are still to be sawn.
  [[nodiscard]] bool any() const { return !panels_.empty(); }
  [[nodiscard]] bool changed() const { return !before_.empty(); }
  void takeBack();
  /// Keeps the plan with its staves as they lie now, its boards held as they were.
  void keep();
  [[nodiscard]] const CutPlan& plan() const { return plan_; }
  [[nodiscard]] std::size_t panel() const { return panel_; }
  /// The place of the stave chosen, counted from the front edge.
  [[nodiscard]] int slot() const { return slot_; }

 signals:
  void said(const QString& sentence, bool trouble);
  void changedOrKept();
  void leaveWanted();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;

 private:
  /// A stave as drawn, from the front edge on.
  struct Row {
    Glued stave;
    QRectF box;
  };
  void readPanels();
  [[nodiscard]] std::vector<Row> rows() const;
  [[nodiscard]] const Board* boardOf(BoardId id) const;
  [[nodiscard]] const Part& part() const;
  [[nodiscard]] StavePlace chosen() const;
  /// Takes the changed plan where it is still right; else says what is wrong with it.
  bool attempt(CutPlan next);
  void choose(int place);
  void move(int to);
  void turnTo(std::size_t panel);
  [[nodiscard]] int placeAt(QPointF at) const;
  const std::array<QImage, 2>& photosOf(const Board& board);
  void describe();
  void paintStave(QPainter& painter, const Row& row, bool chosen);
  void paintSections(QPainter& painter, const std::vector<Row>& rows) const;

  Session& session_;
  const Look& look_;
  const PlanSheet* sheet_ = nullptr;
  PlanId of_;
  CutPlan plan_;
  std::vector<CutPlan> before_;  ///< as it was before each change, the newest last
  std::vector<GlueUp> panels_;
  std::size_t panel_ = 0;
  int slot_ = 1;
  std::map<BoardId, std::array<QImage, 2>> photos_;
};

}  // namespace flitch::desktop
