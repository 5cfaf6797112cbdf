#include "ui/desktop/deliveries_place.h"

#include <QDate>
#include <QPainter>
#include <QSignalBlocker>
#include <algorithm>
#include <iterator>

#include "inventory/desk/receive.h"
#include "inventory/desk/short_of_grade.h"
#include "inventory/wood/tag_code.h"

namespace flitch::desktop {

using desk::TallyCell;

namespace {

constexpr const char* draftOf = "tally";
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
      grid_(look, session.facts().unit, session.facts().sign, this),
      receive_(look, actions.at(Act::receiveLoad), this),
      repeat_(look, actions.at(Act::repeatLine), this),
      remove_(look, actions.at(Act::removeLine), this) {
  setAccessibleName("Deliveries");
  setFocusProxy(&grid_);
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
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
  session_.attempt(
      [&] { sheet_ = desk::readSheet(session_.book().draft(draftOf, session_.hand().station)); });
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
    readLoads();
    readAgain();
  });
  showHead();
  update();
}

void DeliveriesPlace::readLoads() {
  loads_.clear();
  const store::Snapshot now = session_.book().read();
  const std::vector<DeliveryId> ids = now.deliveries();
  for (auto id = ids.rbegin(); id != ids.rend() && loads_.size() < 40; ++id) {
    const std::optional<DeliveryDraft> load = now.delivery(*id);
    if (!load) continue;
    const std::size_t count = now.boardsOf(*id).size();
    loads_.push_back({q(load->supplier),
                      count == 1 ? QString("1 board") : QString("%1 boards").arg(count),
                      shortDate(load->receivedOn)});
  }
}

void DeliveriesPlace::readAgain() {
  read_ = desk::readTally(sheet_, rule(), session_.readingRules());
  grid_.setTally(&sheet_, &read_);
  receive_.setLabel(boards() == 1  ? QString("Receive 1 board")
                    : boards() > 1 ? QString("Receive %1 boards").arg(boards())
                                   : QString());
  update();
  emit cellsChanged();
}

void DeliveriesPlace::keepDraft() {
  session_.attempt(
      [&] { session_.book().saveDraft(draftOf, session_.hand().station, desk::written(sheet_)); });
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

void DeliveriesPlace::newLine(int after) {
  const auto above = static_cast<std::size_t>(after);
  if (sheet_.lines[above].blank()) return;
  if (above + 1 == sheet_.lines.size()) {
    edit([&] { sheet_.lines.push_back(desk::lineAfter(sheet_.lines[above], nextTag())); });
  }
  grid_.goTo(after + 1, TallyCell::length);
  // The first line of a book says what it is before how long it is.
  if (sheet_.lines[above + 1].at(TallyCell::species).empty()) {
    grid_.goTo(after + 1, TallyCell::species);
  }
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

void DeliveriesPlace::receive() {
  // What stands in the field counts, Enter or not.
  grid_.goTo(grid_.line(), grid_.cell());
  if (!read_.ready()) {
    emit said(read_.troubles.empty() ? QString("Nothing is tallied yet.")
                                     : q(read_.troubles.front()) + ".",
              true);
    return;
  }
  DeliveryDraft draft = read_.draft;
  const std::vector<exchange::MarkLine> marks = read_.marks;
  desk::Received received;
  const bool done =
      session_.attempt([&] { received = desk::receive(session_.book(), draft, session_.hand()); });
  if (!done) return;
  if (!marks.empty()) {
    session_.attempt([&] { desk::mark(session_.book(), marks, "tally", session_.hand()); });
  }
  sheet_ = {};
  before_.clear();
  session_.attempt([&] { session_.book().saveDraft(draftOf, session_.hand().station, ""); });
  refresh();
  session_.look();
  const std::size_t count = received.boards.size();
  QString told = QString("%1 received from %2")
                     .arg(count == 1 ? QString("1 board") : QString("%1 boards").arg(count),
                          q(draft.supplier));
  const QString shorts = q(shortOfGradeText(received.delivery));
  if (!shorts.isEmpty()) told += ". " + shorts;
  emit said(told, false);
}

std::string DeliveriesPlace::shortOfGradeText(DeliveryId delivery) const {
  const store::Snapshot now = session_.book().read();
  const std::vector<Board> rack = now.rack();
  std::vector<Board> came;
  std::copy_if(rack.begin(), rack.end(), std::back_inserter(came),
               [&](const Board& board) { return board.delivery == delivery; });
  // So few looks at each that the window does not wait.
  constexpr int aMoment = 20'000;
  return desk::sentence(desk::shortOfGrade(came, rack, aMoment), session_.facts().sign);
}

bool DeliveriesPlace::can(Act act) const {
  switch (act) {
    case Act::receiveLoad: return boards() > 0;
    case Act::takeTally: return true;
    case Act::repeatLine: return !sheet_.lines.empty() && !sheet_.lines.back().blank();
    case Act::removeLine: return sheet_.lines.size() > 1 || !sheet_.lines.front().blank();
    default: return false;
  }
}

void DeliveriesPlace::carryOut(Act act) {
  const auto line = static_cast<std::size_t>(grid_.line());
  switch (act) {
    case Act::receiveLoad: receive(); break;
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

std::vector<QWidget*> DeliveriesPlace::areas() const {
  auto* self = const_cast<DeliveriesPlace*>(this);
  return {&self->supplier_, &self->grid_, &self->receive_};
}

std::array<TitleCell, 3> DeliveriesPlace::cells() const {
  Feet billed, measured;
  Money landed;
  for (const TallyFigures& board : read_.figures) {
    billed += board.billed;
    measured += board.measured;
    landed += board.landed;
  }
  const QString name = sheet_.supplier.empty() ? QString("not named yet") : q(sheet_.supplier);
  return {TitleCell{"Delivery", name + ", " + shortDate(sheet_.receivedOn), 220, 320},
          TitleCell{"Billed · measured", q(text(billed)) + " bf · " + q(text(measured)) + " bf",
                    170, 240},
          TitleCell{"Landed", q(text(landed, session_.facts().sign)), 110, 160}};
}

void DeliveriesPlace::lay() {
  const int w = width(), h = height();
  const int left = listWidth + 14, right = w - factsWidth - 1;
  const int room = right - left - 12;
  int x = left;
  const std::array<std::pair<QWidget*, int>, 5> head{
      {{&supplier_, 26}, {&reference_, 14}, {&came_, 16}, {&rule_, 25}, {&freight_, 19}}};
  for (const auto& [field, share] : head) {
    const int wide = (room - 4 * 10) * share / 100;
    field->setGeometry(x, 27, wide, 28);
    x += wide + 10;
  }
  grid_.setGeometry(left, headHeight, room, std::max(60, h - headHeight - footHeight));
  const int facts = w - factsWidth + 12, wide = factsWidth - 28;
  receive_.setGeometry(facts, h - 44, wide, 30);
  repeat_.setGeometry(facts, h - 118, wide, 30);
  remove_.setGeometry(facts, h - 81, wide, 30);
  update();
}

void DeliveriesPlace::resizeEvent(QResizeEvent*) { lay(); }

}  // namespace flitch::desktop
