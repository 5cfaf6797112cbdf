#pragma once
#include <QStackedWidget>
#include <QWidget>
#include <memory>
#include <vector>

#include "ui/desktop/band.h"
#include "ui/desktop/deliveries_place.h"
#include "ui/desktop/jobs_place.h"
#include "ui/desktop/key_sheet.h"
#include "ui/desktop/ledger_place.h"
#include "ui/desktop/rack_place.h"
#include "ui/desktop/saw_place.h"
#include "ui/desktop/session.h"
#include "ui/desktop/title_block.h"

namespace flitch::desktop {

/// The window of one book: places in a strip on top, the title block along the foot.
class Window : public QWidget {
  Q_OBJECT
 public:
  Window(std::unique_ptr<Session> session, Look& look);
  ~Window() override;

  [[nodiscard]] Session& session() { return *session_; }
  [[nodiscard]] DeliveriesPlace& deliveries() { return *deliveries_; }
  [[nodiscard]] RackPlace& rack() { return *rack_; }
  [[nodiscard]] JobsPlace& jobs() { return *jobs_; }
  [[nodiscard]] LedgerPlace& ledger() { return *ledger_; }
  [[nodiscard]] SawPlace& saw() { return *saw_; }
  [[nodiscard]] const TitleBlock& titleBlock() const { return *title_; }
  [[nodiscard]] const Band& band() const { return *band_; }
  void toPlace(Act place);
  /// Reads the tags of pictures that were dropped here: one board is opened, several are listed.
  void readPictures(const QStringList& paths);
  void trigger(Act act) { actions_.at(act)->trigger(); }
  [[nodiscard]] const Actions& actions() const { return actions_; }

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void dragEnterEvent(QDragEnterEvent* event) override;
  void dropEvent(QDropEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  struct Tab {
    Act to;
    int number;
    Place* place;
    PlaceTab* tab = nullptr;
  };

  void makeActions();
  void takeLook();
  void carryOut(Act act);
  void undo();
  void openBook();
  void copyBook();
  /// Receives a delivery from a CSV file that is asked for.
  void takeTally();
  void showMenu();
  void findTyped();
  void openCode(const QString& code);
  void tellCodes(const QStringList& codes, const QStringList& troubles);
  void nextArea(int way);
  void say(const QString& sentence, bool trouble);
  void refreshState();
  void lay();
  [[nodiscard]] Place& place() const;
  [[nodiscard]] const Tab& tabOf(const Place& place) const;
  /// Where the place's actions are live, the drawing of Rack included.
  [[nodiscard]] unsigned here() const;

  Look& look_;
  std::unique_ptr<Session> session_;
  Actions actions_;
  /// The places in the order of their tabs.
  std::vector<Tab> tabs_;
  Field* find_ = nullptr;
  Button* menu_ = nullptr;
  QStackedWidget* stack_ = nullptr;
  DeliveriesPlace* deliveries_ = nullptr;
  RackPlace* rack_ = nullptr;
  JobsPlace* jobs_ = nullptr;
  SawPlace* saw_ = nullptr;
  LedgerPlace* ledger_ = nullptr;
  Band* band_ = nullptr;
  TitleBlock* title_ = nullptr;
  KeySheet* keySheet_ = nullptr;
  QString message_;  ///< said since the last entry, shown in the title block
  bool atWork_ = false;
};

/// Opens a book in a window of its own. Throws Refusal or StoreError.
[[nodiscard]] std::unique_ptr<Window> openWindow(const std::string& path, Look& look);

}  // namespace flitch::desktop
