#pragma once
#include "inventory/desk/count.h"
#include "ui/desktop/said_line.h"
#include "ui/desktop/session.h"
#include "ui/desktop/sheet_table.h"
#include "ui/desktop/table_model.h"

namespace flitch::desktop {

/// What a maker says while counting a bay, as typed or scanned.
struct CountWords {
  enum class What { code, takeOut, untagged, drop };
  What what = What::code;
  std::string code;  ///< of a bay or a board
  int untagged = 0;  ///< pieces without a tag, of all there are
};
/// Reads `T0042-F`, `42`, `not T0042-F`, `untagged 2`, `drop`. Throws Unreadable.
[[nodiscard]] CountWords readCountWords(const std::string& text);

/// Counts a bay by scanning, over the rack: three lists of boards fill (still to be seen, here,
/// not expected), one line takes what is typed. Nothing is written before post(); a count left
/// half-way is there again as long as the window is.
class CountView : public QWidget {
  Q_OBJECT
 public:
  CountView(Session& session, const Look& look, QWidget* parent);
  /// Reads the book again; what was scanned stays, codes that mean nothing any more excepted.
  void refresh();
  /// The bay's tag first, then its boards'; what is wrong with a code is told here.
  void take(const QString& code);
  [[nodiscard]] bool canPost() const { return !counted_.bay.empty(); }
  /// One entry; asks for the next bay after it.
  void post();
  /// The newest code, in the end the bay's own.
  void takeBack();
  /// No bay before one was scanned.
  [[nodiscard]] const desk::Counted& counted() const { return counted_; }

 signals:
  void said(const QString& sentence, bool trouble);
  void changed();
  void leaveWanted();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  struct List {
    List(const Look& look, const Session& session, const QString& name, QWidget* parent);
    TableModel model;
    SheetTable table;
  };

  void read();
  void enter();
  void start(const std::string& bay);
  void add(const std::string& code);
  void takeOut(const std::string& code);
  void setUntagged(int pieces);
  void drop();
  /// Holds the codes against the book and shows the lists.
  void compareAgain();
  [[nodiscard]] desk::Counted comparedTo(const std::vector<std::string>& codes) const;
  /// "T0042-F, cherry 4/4, 8' 0\" x 7\""
  [[nodiscard]] QString boardText(const std::string& code) const;
  void fill();

  Session& session_;
  const Look& look_;
  desk::Counted counted_;
  std::vector<std::string> codes_;  ///< in the order they were scanned
  List missing_, here_, strange_;
  SaidLine line_;
};

}  // namespace flitch::desktop
