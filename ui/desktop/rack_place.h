#pragma once
#include "ui/desktop/board_facts.h"
#include "ui/desktop/board_view.h"
#include "ui/desktop/controls.h"
#include "ui/desktop/empty_rack.h"
#include "ui/desktop/grade_work.h"
#include "ui/desktop/mark_bar.h"
#include "ui/desktop/place.h"
#include "ui/desktop/rack_model.h"
#include "ui/desktop/session.h"
#include "ui/desktop/sheet_table.h"

namespace flitch::desktop {

/// Find a board, know a board: one filter field, the table of the rack, the chosen board to scale
/// on both faces with its marks.
class RackPlace : public Place {
  Q_OBJECT
 public:
  RackPlace(Session& session, const Look& look, const Actions& actions, QWidget* parent);

  [[nodiscard]] std::array<TitleCell, 3> cells() const override;
  [[nodiscard]] Where where() const override { return inRack; }
  [[nodiscard]] bool can(Act act) const override;
  void carryOut(Act act) override;
  void refresh() override;
  bool find(const QString& text) override;
  [[nodiscard]] std::vector<QWidget*> areas() const override;
  void open(BoardId board);
  /// Writes the tags of the boards shown as PDF.
  void writeTags(const QString& path);
  /// Keeps photos of the chosen board; what is wrong with one is told.
  void keepPhotos(const QStringList& paths);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  void lay();
  void chooseRow();
  void keep(const Board& board);
  void showBoard(const std::optional<Board>& board);
  void showNotes();
  void nothingFound();
  void printTags();
  void showPhotos();
  [[nodiscard]] bool empty() const { return model_.boards().empty(); }

  Session& session_;
  const Look& look_;
  ShopProfile shop_;
  BoardId chosen_;
  int taller_ = 0;  ///< pixels the board has more than its share
  bool keeping_ = false;
  std::vector<Species> own_;
  bool cuttings_ = false;  ///< drawn
  RackModel model_;
  Field filter_;
  Choice state_;
  Button tags_;
  SheetTable table_;
  BoardView view_;
  BoardFacts facts_;
  MarkBar bar_;
  EmptyRack nothing_;
  QString noMatch_;
  GradeWork grades_;
};

}  // namespace flitch::desktop
