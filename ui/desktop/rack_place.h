#pragma once
#include "ui/desktop/bins_view.h"
#include "ui/desktop/board_facts.h"
#include "ui/desktop/board_line.h"
#include "ui/desktop/board_view.h"
#include "ui/desktop/controls.h"
#include "ui/desktop/count_view.h"
#include "ui/desktop/empty_rack.h"
#include "ui/desktop/grade_work.h"
#include "ui/desktop/mark_bar.h"
#include "ui/desktop/photo_corners.h"
#include "ui/desktop/place.h"
#include "ui/desktop/rack_model.h"
#include "ui/desktop/session.h"
#include "ui/desktop/shape_bar.h"
#include "ui/desktop/sheet_table.h"
#include "ui/desktop/tag_print.h"

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
  /// Takes a scanned code where it has a meaning of its own: any while a bay is counted, a bay's
  /// while it is said what was done to the boards chosen. Returns whether it was taken.
  bool takeCode(const QString& code);
  [[nodiscard]] std::vector<QWidget*> areas() const override;
  void beforeUndo() override { shownBefore_ = view_.board(); }
  void afterUndo() override;
  [[nodiscard]] bool canUndoTyping() const override { return counting() && count_.canPost(); }
  void undoTyping() override { count_.takeBack(); }
  [[nodiscard]] bool canRedo() const override;
  void redo() override;
  void open(BoardId board);
  /// Writes the tags of the boards shown as PDF, on the paper chosen last.
  void writeTags(const QString& path);
  /// The boards of the rows chosen, in the order shown.
  [[nodiscard]] std::vector<Board> selected() const;
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
  void askToPrint(std::vector<Board> boards);
  [[nodiscard]] std::vector<Board> shown() const;
  void showPhotos();
  void pullCorners(bool open);
  void keepCorners(PhotoId photo, Face face, const PhotoCorners& corners);
  void measureAgain(bool open);
  void keepShape(const Board& board);
  void showSisters();
  [[nodiscard]] bool empty() const { return model_.boards().empty(); }
  /// Shows one of the views over the rack in its place, or the boards again.
  void showOver(QWidget* view);
  [[nodiscard]] bool binning() const { return over_ == &bins_; }
  [[nodiscard]] bool counting() const { return over_ == &count_; }
  /// The line for what was done to the boards chosen, in place of the marks' bar.
  void openLine(bool open);
  void doTo(const BoardWords& words);
  /// "T0042-F", "3 boards".
  [[nodiscard]] QString chosenText() const;

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
  ShapeBar shape_;
  CornerView corners_;
  EmptyRack nothing_;
  BinsView bins_;
  CountView count_;
  QWidget* over_ = nullptr;  ///< bins_, count_, or the boards
  BoardLine line_;
  bool shaping_ = false, pulling_ = false, saying_ = false;
  TagPaper paper_;
  std::optional<Board> shownBefore_;  ///< the board drawn before an undo
  std::vector<Board> undone_;         ///< as boards stood before each undo, the newest last
  QString noMatch_;
  GradeWork grades_;
};

}  // namespace flitch::desktop
