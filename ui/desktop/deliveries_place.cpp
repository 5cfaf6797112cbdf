#include "ui/desktop/deliveries_place.h"

#include <QDate>
#include <QFileDialog>
#include <QPainter>
#include <QSignalBlocker>
#include <algorithm>
#include <iterator>

#include "inventory/desk/receive.h"
#include "inventory/wood/tag_code.h"

namespace flitch::desktop {

using desk::TallyCell;

namespace {

constexpr std::size_t mostUndo = 500;

}  // namespace

DeliveriesPlace::DeliveriesPlace(Session& session, const Look& look, const Actions& actions,
                                 QWidget* parent)
    : Place(parent),
      session_(session),
      look_(look),
      supplier_(look, "Supplier", "who sold it", "", this),
      reference_(look, "Their paper", "number", "", this),
      came_(look, "Came", "2026-05-31", "", this),
      freight_(look, "Freight, by value", "none", "", this),
      rule_(look, "They count by", "", this),
      list_(look, {{"New delivery", ""}}, this),
      grid_(look, session.facts().unit, session.facts().sign, this),
      invoice_(look, session.facts().unit, this),
      load_(session, look, actions, this),
      receive_(look, actions.at(Act::receiveLoad), this),
      repeat_(look, actions.at(Act::repeatLine), this),
      remove_(look, actions.at(Act::removeLine), this),
      invoiceKey_(look, actions.at(Act::invoice), this) {
  setAccessibleName("Deliveries");
  setFocusProxy(&grid_);
  list_.setAccessibleName("Deliveries, newest first");
  receive_.setPrimary(true);
  for (const CountingRule rule : countingRules) rule_.addItem(q(std::string(word(rule))));
  for (Field* field : {&supplier_, &reference_, &came_, &freight_}) {
    connect(field, &QLineEdit::editingFinished, this, &DeliveriesPlace::takeHead);
    connect(field, &QLineEdit::returnPressed, this, [this] { grid_.editor().setFocus(); });
  }
  connect(&rule_, &QComboBox::activated, this, [this](int r) {
    edit([&] { sheet_.rule = countingRules[static_cast<std::size_t>(r)]; });
  });
  connect(&grid_, &TallyGrid::typed, this, &DeliveriesPlace::typed);
  connect(&grid_, &TallyGrid::pasted, this, [this](int line, TallyCell cell, const QString& rows) {
    edit([&] {
      desk::paste(sheet_, static_cast<std::size_t>(line), cell, rows.toStdString(),
                  session_.facts().unit, [this] { return nextTag(); });
    });
    grid_.goTo(line, cell);
  });
  connect(&grid_, &TallyGrid::lineDone, this, &DeliveriesPlace::newLine);
  connect(&invoice_, &InvoiceGrid::typed, this, &DeliveriesPlace::typedInvoice);
  connect(&invoice_, &InvoiceGrid::left, this, [this] { grid_.editor().setFocus(); });
  connect(&invoice_, &InvoiceGrid::moved, this, qOverload<>(&QWidget::update));
  connect(&list_, &ReportList::chosen, this, [this](int row) {
    showLoad(row < 1 ? DeliveryId{} : loads_[static_cast<std::size_t>(row - 1)]);
  });
  connect(&load_, &LoadView::said, this, &DeliveriesPlace::said);
  connect(&load_, &LoadView::leaveWanted, this, [this] { list_.setFocus(); });
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
  session_.attempt([&] {
    sheet_ = desk::readSheet(session_.book().draft(desk::tallyDraft, session_.hand().station));
  });
  refresh();
  (sheet_.supplier.empty() ? static_cast<QWidget*>(&supplier_) : &grid_.editor())->setFocus();
}

CountingRule DeliveriesPlace::rule() const {
  return desk::countingRule(session_.book(), sheet_.supplier);
}

std::string DeliveriesPlace::nextTag() const {
  std::int64_t last = 0;
  for (const desk::TypedLine& line : sheet_.lines) {
    const TagReading reading = readTag(line.at(TallyCell::tag));
    if (reading.verdict == TagReading::Verdict::right) last = std::max(last, reading.code.serial);
  }
  const std::optional<TagCode> next = session_.book().read().blankTagAfter(last);
  return next ? text(*next) : "";
}

void DeliveriesPlace::refresh() {
  session_.attempt([&] {
    if (sheet_.receivedOn.empty()) {
      sheet_.receivedOn = QDate::currentDate().toString(Qt::ISODate).toStdString();
    }
    if (sheet_.lines.empty()) sheet_.lines.emplace_back();
    // Tags may have been printed or taken since.
    if (desk::TypedLine& last = sheet_.lines.back(); last.blank()) {
      last.cells[0].clear();
      last.cells[0] = nextTag();
      last.carried[0] = true;
    }
    readAgain();
    readLoads();
    if (shown_) load_.setLoad(shown_);
  });
  showHead();
  lay();
}

ReportList::Row DeliveriesPlace::tallyRow() const {
  return {sheet_.supplier.empty() ? QString("New delivery") : q(sheet_.supplier),
          QString("tallying, %1").arg(boards())};
}

void DeliveriesPlace::readLoads() {
  const store::Snapshot now = session_.book().read();
  std::vector<ReportList::Row> rows{tallyRow()};
  loads_.clear();
  const std::vector<DeliveryId> ids = now.deliveries();
  for (auto id = ids.rbegin(); id != ids.rend() && loads_.size() < 40; ++id) {
    const std::optional<DeliveryDraft> load = now.delivery(*id);
    if (!load) continue;
    const std::size_t count = now.boardsOf(*id).size();
    rows.push_back(
        {q(load->supplier), (count == 1 ? QString("1 board") : QString("%1 boards").arg(count)) +
                                ", " + shortDate(load->receivedOn)});
    loads_.push_back(*id);
  }
  const auto at = std::find(loads_.begin(), loads_.end(), shown_);
  if (at == loads_.end()) shown_ = {};
  list_.setRows(std::move(rows));
  list_.setCurrent(shown_ ? static_cast<int>(at - loads_.begin()) + 1 : 0);
}

void DeliveriesPlace::showLoad(DeliveryId delivery) {
  shown_ = delivery;
  if (shown_) load_.setLoad(shown_);
  readLoads();
  lay();
  emit cellsChanged();
}

void DeliveriesPlace::readAgain() {
  read_ = desk::readTally(sheet_, rule(), session_.readingRules());
  grid_.setTally(&sheet_, &read_);
  invoice_.setInvoice(&sheet_.invoice, &read_.invoice);
  receive_.setLabel(boards() == 1  ? QString("Receive 1 board")
                    : boards() > 1 ? QString("Receive %1 boards").arg(boards())
                                   : QString());
  std::vector<ReportList::Row> rows = list_.rows();
  rows.front() = tallyRow();
  list_.setRows(std::move(rows));
  update();
  emit cellsChanged();
}

void DeliveriesPlace::keepDraft() {
  session_.attempt([&] {
    session_.book().saveDraft(desk::tallyDraft, session_.hand().station, desk::written(sheet_));
  });
}

void DeliveriesPlace::edit(const std::function<void()>& change) {
  const desk::TallySheet before = sheet_;
  change();
  if (sheet_ == before) return;
  before_.push_back(before);
  if (before_.size() > mostUndo) before_.erase(before_.begin());
  session_.attempt([&] { readAgain(); });
  keepDraft();
}

void DeliveriesPlace::undoTyping() {
  sheet_ = before_.back();
  before_.pop_back();
  session_.attempt([&] { readAgain(); });
  showHead();
  keepDraft();
}

void DeliveriesPlace::typed(int line, TallyCell cell, const QString& text) {
  edit([&] {
    desk::TypedLine& typed = sheet_.lines[static_cast<std::size_t>(line)];
    typed.cells[static_cast<std::size_t>(cell)] = text.toStdString();
    typed.carried[static_cast<std::size_t>(cell)] = false;
  });
}

void DeliveriesPlace::typedInvoice(int line, desk::InvoiceCell cell, const QString& text) {
  edit([&] {
    const auto l = static_cast<std::size_t>(line);
    if (l == sheet_.invoice.size()) sheet_.invoice.emplace_back();
    sheet_.invoice[l].cells[static_cast<std::size_t>(cell)] = text.toStdString();
    while (!sheet_.invoice.empty() && sheet_.invoice.back().blank()) sheet_.invoice.pop_back();
  });
}

void DeliveriesPlace::newLine(int after) {
  auto above = static_cast<std::size_t>(after);
  if (sheet_.lines[above].blank()) return;
  edit([&] { above += desk::spreadEqual(sheet_, above, [this] { return nextTag(); }) - 1; });
  if (above + 1 == sheet_.lines.size()) {
    edit([&] { sheet_.lines.push_back(desk::lineAfter(sheet_.lines[above], nextTag())); });
  }
  grid_.goTo(static_cast<int>(above) + 1, TallyCell::length);
  // The first line of a book says what it is before how long it is.
  if (sheet_.lines[above + 1].at(TallyCell::species).empty()) {
    grid_.goTo(static_cast<int>(above) + 1, TallyCell::species);
  }
}

void DeliveriesPlace::cutForVan() {
  grid_.goTo(grid_.line(), grid_.cell());
  const auto line = static_cast<std::size_t>(grid_.line());
  if (sheet_.lines[line].blank()) return;
  edit([&] { desk::cutForTheVan(sheet_, line, nextTag()); });
  grid_.goTo(static_cast<int>(line) + 1, TallyCell::length);
  grid_.editor().setFocus();
}

void DeliveriesPlace::showHead() {
  const QSignalBlocker quiet(&rule_);
  supplier_.setText(q(sheet_.supplier));
  reference_.setText(q(sheet_.reference));
  came_.setText(q(sheet_.receivedOn));
  freight_.setText(q(sheet_.freight));
  rule_.setCurrentIndex(static_cast<int>(sheet_.rule.value_or(rule())));
}

void DeliveriesPlace::takeHead() {
  edit([&] {
    sheet_.supplier = supplier_.text().trimmed().toStdString();
    sheet_.reference = reference_.text().trimmed().toStdString();
    sheet_.receivedOn = came_.text().trimmed().toStdString();
    sheet_.freight = freight_.text().trimmed().toStdString();
  });
  showHead();
  came_.setTrouble(!QDate::fromString(came_.text(), Qt::ISODate).isValid());
}

bool DeliveriesPlace::can(Act act) const {
  switch (act) {
    case Act::takeTally:
    case Act::newDelivery: return true;
    case Act::claimSheet: return !tallying() && !load_.claim().rows.empty();
    case Act::returnBoard: return !tallying() && load_.chosen().has_value();
    default: break;
  }
  if (!tallying()) return false;
  switch (act) {
    case Act::receiveLoad: return boards() > 0;
    case Act::invoice:
    case Act::moreCells: return true;
    case Act::cutForVan:
      return !sheet_.lines.empty() && !sheet_.lines[static_cast<std::size_t>(grid_.line())].blank();
    case Act::repeatLine: return !sheet_.lines.empty() && !sheet_.lines.back().blank();
    case Act::removeLine: return sheet_.lines.size() > 1 || !sheet_.lines.front().blank();
    default: return false;
  }
}

void DeliveriesPlace::carryOut(Act act) {
  const auto line = static_cast<std::size_t>(grid_.line());
  switch (act) {
    case Act::receiveLoad: receive(); break;
    case Act::newDelivery:
      showLoad({});
      grid_.editor().setFocus();
      break;
    case Act::invoice:
      invoiceShown_ = !invoiceShown_ || !invoice_.editor().hasFocus();
      lay();
      (invoiceShown_ ? invoice_.editor() : grid_.editor()).setFocus();
      break;
    case Act::moreCells: grid_.turnCells(); break;
    case Act::cutForVan: cutForVan(); break;
    case Act::claimSheet:
      load_.writeClaim(QFileDialog::getSaveFileName(this, "Claim sheet", "claim.pdf",
                                                    "PDF (*.pdf);;CSV (*.csv)"));
      break;
    case Act::returnBoard: load_.returnBoard(); break;
    case Act::repeatLine:
      edit([&] {
        desk::TypedLine again = sheet_.lines.back();
        again.cells[0] = nextTag();
        again.carried[0] = true;
        again.cells[static_cast<std::size_t>(TallyCell::marks)].clear();
        sheet_.lines.push_back(again);
      });
      grid_.goTo(static_cast<int>(sheet_.lines.size()) - 1, TallyCell::length);
      break;
    case Act::removeLine:
      edit([&] {
        sheet_.lines.erase(sheet_.lines.begin() + static_cast<std::ptrdiff_t>(line));
        if (sheet_.lines.empty()) sheet_.lines.emplace_back();
      });
      grid_.goTo(std::max(0, static_cast<int>(line) - 1), TallyCell::length);
      break;
    default: break;
  }
}

bool DeliveriesPlace::find(const QString& /*text*/) { return false; }

void DeliveriesPlace::resizeEvent(QResizeEvent*) { lay(); }

}  // namespace flitch::desktop
