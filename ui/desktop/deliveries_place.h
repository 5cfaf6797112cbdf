#pragma once
#include <vector>

#include "ui/desktop/band.h"
#include "ui/desktop/controls.h"
#include "ui/desktop/invoice_grid.h"
#include "ui/desktop/load_view.h"
#include "ui/desktop/place.h"
#include "ui/desktop/report_list.h"
#include "ui/desktop/session.h"
#include "ui/desktop/tally_grid.h"

namespace flitch::desktop {

/// "14 Nov" of an ISO date; what is none, as it stands.
[[nodiscard]] QString shortDate(const std::string& iso);

/// Get a load into the book faster than onto paper: one grid, tag first, kept as it is typed, with
/// what was billed and measured beside it.
class DeliveriesPlace : public Place {
  Q_OBJECT
 public:
  DeliveriesPlace(Session& session, const Look& look, const Actions& actions, QWidget* parent);

  [[nodiscard]] std::array<TitleCell, 3> cells() const override;
  [[nodiscard]] Where where() const override { return inDeliveries; }
  [[nodiscard]] bool can(Act act) const override;
  void carryOut(Act act) override;
  void refresh() override;
  bool find(const QString& text) override;
  [[nodiscard]] std::vector<QWidget*> areas() const override;
  [[nodiscard]] bool canUndoTyping() const override { return !before_.empty(); }
  void undoTyping() override;
  [[nodiscard]] const desk::TallySheet& sheet() const { return sheet_; }
  [[nodiscard]] const desk::ReadTally& read() const { return read_; }
  /// A delivery in the book, or (none) the tally.
  void showLoad(DeliveryId delivery);
  [[nodiscard]] LoadView& load() { return load_; }

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  /// Does `change` to the sheet: undoable, read again, kept in the book.
  void edit(const std::function<void()>& change);
  void readAgain();
  void keepDraft();
  /// What to say of boards that look like less than was paid for them; empty where none does.
  [[nodiscard]] std::string shortOfGradeText(DeliveryId delivery) const;
  void typed(int line, desk::TallyCell cell, const QString& text);
  void typedInvoice(int line, desk::InvoiceCell cell, const QString& text);
  void newLine(int after);
  void cutForVan();
  void takeHead();
  void showHead();
  void receive();
  void readLoads();
  [[nodiscard]] ReportList::Row tallyRow() const;
  [[nodiscard]] std::string nextTag() const;
  [[nodiscard]] CountingRule rule() const;
  [[nodiscard]] int boards() const { return static_cast<int>(read_.figures.size()); }
  [[nodiscard]] QString fault() const;
  [[nodiscard]] QString caution() const;
  /// The tally is shown, not a delivery in the book.
  [[nodiscard]] bool tallying() const { return !shown_; }
  void paintFigures(QPainter& painter) const;
  void paintOver(QPainter& painter, int& y) const;
  void paintHint(QPainter& painter) const;
  void lay();

  static constexpr int listWidth = 168, factsWidth = 264, headHeight = 66, footHeight = 96,
                       invoiceHeight = 26 + 5 * 28;

  Session& session_;
  const Look& look_;
  desk::TallySheet sheet_;
  desk::ReadTally read_;
  std::vector<desk::TallySheet> before_;  ///< for undo, the newest last
  std::vector<DeliveryId> loads_;         ///< in the book, as the list has them under the tally
  DeliveryId shown_;                      ///< none: the tally
  bool invoiceShown_ = false;
  Field supplier_, reference_, came_, freight_;
  Choice rule_;
  ReportList list_;
  TallyGrid grid_;
  InvoiceGrid invoice_;
  LoadView load_;
  Button receive_, repeat_, remove_, invoiceKey_;
};

}  // namespace flitch::desktop
