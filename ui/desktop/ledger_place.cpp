#include "ui/desktop/ledger_place.h"

#include <QDate>
#include <QFileDialog>
#include <QPainter>
#include <QSaveFile>
#include <QSignalBlocker>
#include <algorithm>

#include "inventory/desk/family.h"
#include "inventory/desk/learned.h"
#include "inventory/desk/ledger_reports.h"
#include "inventory/desk/receive.h"
#include "inventory/desk/reports.h"
#include "inventory/exchange/csv.h"
#include "inventory/records/refusal.h"
#include "labels/report_page.h"
#include "labels/report_plots.h"

namespace flitch::desktop {
namespace {

constexpr int headHeight = 72;

std::vector<ReportList::Row> reports() {
  return {{"Where the wood went", "bought to used, by cause"},
          {"What clear wood cost", "by supplier and grade"},
          {"Planned and sawn", "what the plans promised"},
          {"What sawing taught", "yield by supplier and grade"},
          {"Blanks lost", "by length of the part"},
          {"Offcuts", "on the rack, how long"},
          {"Keeping", "kept, and ever used?"},
          {"Stock value", "today or on a past day"},
          {"Old boards", "lying longer than …"}};
}

}  // namespace

LedgerPlace::LedgerPlace(Session& session, const Look& look, const Actions& actions,
                         QWidget* parent)
    : Place(parent),
      session_(session),
      look_(look),
      list_(look, reports(), this),
      by_(look, "Rows of the report", "by", this),
      in_(look, "Figures of the report", "in", this),
      months_(look, "Age of the boards", "from", this),
      on_(look, "Day of the stock", "today, or 2026-05-31", "", this),
      csv_(look, actions.at(Act::reportCsv), this, "CSV"),
      pdf_(look, actions.at(Act::reportPdf), this, "PDF"),
      up_(look, actions.at(Act::goUp), this),
      plot_(look, this),
      model_(session.facts().unit, session.facts().sign, this),
      table_(look, "Report", this) {
  setAccessibleName("Ledger");
  setFocusProxy(&list_);
  {
    const QSignalBlocker quiet(&by_), still(&months_), silent(&in_);
    in_.addItems({"board feet", "money"});
    for (const std::string_view word : desk::byWords) by_.addItem(q(std::string(word)));
    by_.setCurrentIndex(static_cast<int>(desk::By::supplier));
    for (const int months : {1, 3, 6, 12, 24}) {
      months_.addItem(QString::number(months) + (months == 1 ? " month" : " months"), months);
    }
    months_.setCurrentIndex(3);
  }
  table_.setModel(&model_);
  connect(&list_, &ReportList::chosen, this, [this](int row) { show(static_cast<Shown>(row)); });
  connect(&by_, &QComboBox::activated, this, &LedgerPlace::read);
  connect(&in_, &QComboBox::activated, this, &LedgerPlace::read);
  connect(&months_, &QComboBox::activated, this, &LedgerPlace::read);
  connect(&on_, &QLineEdit::returnPressed, this, &LedgerPlace::takeDay);
  connect(&on_, &Field::left, this, [this] { table_.setFocus(); });
  connect(&table_, &SheetTable::entered, this, &LedgerPlace::goDown);
  connect(&table_, &SheetTable::left, this, [this] { list_.setFocus(); });
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
}

void LedgerPlace::refresh() {
  stale_ = true;
  if (isVisible()) read();
}

void LedgerPlace::showEvent(QShowEvent* event) {
  Place::showEvent(event);
  if (stale_) read();
}

void LedgerPlace::show(Shown report) {
  report_ = report;
  list_.setCurrent(static_cast<int>(report));
  read();
}

void LedgerPlace::read() {
  stale_ = false;
  session_.attempt([&] { readReport(session_.book().read()); });
  showTable();
}

void LedgerPlace::readReport(const store::Snapshot& now) {
  const std::string& sign = session_.facts().sign;
  const Unit unit = session_.facts().unit;
  const auto by = static_cast<desk::By>(std::max(0, by_.currentIndex()));
  const QString unsawn = "No board is sawn yet: saw a plan, and its wood is accounted for here.";
  Table table;
  pages::ReportPlot plot;
  QString nothing = unsawn;
  switch (report_) {
    case Shown::wood: {
      desk::YieldTables tables = desk::yieldReport(desk::sawnBoards(now), by);
      plot = pages::waterfallOf(tables.feet, tables.money, sign);
      table = in_.currentIndex() == 1 ? std::move(tables.money) : std::move(tables.feet);
      break;
    }
    case Shown::clear:
      table = desk::clearReport(desk::sawnBoards(now));
      plot = pages::clearPlot(table, unit, sign);
      break;
    case Shown::actual:
      table = desk::actualReport(desk::sawnBoards(now), now, by);
      plot = pages::actualPlot(table, unit, sign);
      break;
    case Shown::learned:
      table = desk::learnedReport(desk::sawnBoards(now), now).yield;
      plot = pages::learnedPlot(table, unit);
      break;
    case Shown::lost:
      table = desk::learnedReport(desk::sawnBoards(now), now).lengths;
      plot = pages::lostPlot(table, unit);
      break;
    case Shown::offcuts:
      table = desk::offcutReport(now, today());
      plot = pages::agesPlot(table, sign);
      nothing = "No offcut is on the rack.";
      break;
    case Shown::kept:
      table = desk::keptReport(now, today());
      plot = pages::keptPlot(table, sign);
      nothing = "No offcut is kept yet.";
      break;
    case Shown::stock:
      table = desk::stockOn(now, day_.isEmpty() ? today() : day_.toStdString());
      plot = pages::stockPlot(table, unit, sign);
      nothing = "Nothing was on the rack that day.";
      break;
    case Shown::old:
      table = desk::oldReport(now, today(), months_.currentData().toInt());
      plot = pages::agesPlot(desk::oldReport(now, today(), 0), sign);
      nothing = "Nothing is on the rack.";
      break;
  }
  path_ = {std::move(table)};
  told_ = std::move(plot);
  plot_.setPlot(told_.plot, told_.said, nothing);
}

void LedgerPlace::showTable() {
  if (path_.empty()) path_.emplace_back();
  model_.setTable(path_.back());
  table_.horizontalHeader()->setSortIndicator(-1, Qt::AscendingOrder);
  if (model_.rowCount() > 0) table_.selectRow(0);
  lay();
  update();
  emit cellsChanged();
}

void LedgerPlace::goDown() {
  const std::vector<BoardId> boards = model_.boards(table_.currentIndex().row());
  if (boards.empty()) return;
  session_.attempt([&] {
    const store::Snapshot now = session_.book().read();
    // A row of one board that is shown as such already: its family.
    const bool single = boards.size() == 1 && path_.back().columns.front().key == "tag";
    if (single) {
      const Board board = now.board(boards.front()).value();
      path_.push_back(
          desk::familyTable(desk::familyOf(now, board, session_.facts().unit), board.id));
      return;
    }
    if (path_.back().columns.front().key == "piece") return;
    Table behind = desk::boardsBehind(now, boards);
    const QString name = model_.index(table_.currentIndex().row(), 0).data().toString();
    behind.title = "Boards of " + name.toStdString();
    path_.push_back(std::move(behind));
  });
  showTable();
  table_.setFocus();
}

void LedgerPlace::goUp() {
  if (path_.size() < 2) return;
  path_.pop_back();
  showTable();
}

void LedgerPlace::takeDay() {
  const QString typed = on_.text().trimmed();
  const bool right = typed.isEmpty() || QDate::fromString(typed, Qt::ISODate).isValid();
  on_.setTrouble(!right);
  if (!right) {
    emit said("\"" + typed + "\" is not a day. Accepted: 2026-05-31, or nothing for today.", true);
    return;
  }
  day_ = typed;
  read();
}

bool LedgerPlace::find(const QString& text) {
  return session_.attempt([&] {
    const store::Snapshot now = session_.book().read();
    const Board board = desk::boardNamed(now, text.toStdString());
    if (stale_ || path_.empty()) readReport(now);
    path_.resize(1);
    path_.push_back(desk::familyTable(desk::familyOf(now, board, session_.facts().unit), board.id));
    showTable();
  });
}

bool LedgerPlace::can(Act act) const {
  switch (act) {
    case Act::goUp: return path_.size() > 1;
    case Act::goDown: return !model_.boards(table_.currentIndex().row()).empty();
    case Act::reportCsv:
    case Act::reportPdf: return !path_.empty();
    default: return false;
  }
}

void LedgerPlace::carryOut(Act act) {
  const auto path = [&](const char* ending, const char* kind) {
    return QFileDialog::getSaveFileName(this, "Write the report", QString("report.") + ending,
                                        kind);
  };
  switch (act) {
    case Act::goUp: goUp(); break;
    case Act::goDown: goDown(); break;
    case Act::reportCsv: writeCsvTo(path("csv", "CSV (*.csv)")); break;
    case Act::reportPdf: writePdfTo(path("pdf", "PDF (*.pdf)")); break;
    default: break;
  }
}

void LedgerPlace::writeCsvTo(const QString& path) {
  if (path.isEmpty()) return;
  const bool done = session_.attempt([&] {
    QSaveFile file(path);
    const std::string bytes = exchange::writeCsv(model_.table());
    const bool written = file.open(QIODevice::WriteOnly) &&
                         file.write(bytes.data(), static_cast<qint64>(bytes.size())) ==
                             static_cast<qint64>(bytes.size()) &&
                         file.commit();
    if (!written) {
      throw Refusal("cannot-write",
                    Complaint{"", path.toStdString() + " cannot be written", path.toStdString(),
                              "a path in a folder to write in"});
    }
  });
  if (done) emit said("Written to " + path, false);
}

void LedgerPlace::writePdfTo(const QString& path) {
  if (path.isEmpty()) return;
  const store::BookFacts& facts = session_.facts();
  const bool done = session_.attempt([&] {
    pages::writePdf(
        pages::reportPages({model_.table()}, {facts.name, today(), facts.unit, facts.sign},
                           path_.size() == 1 ? told_ : pages::ReportPlot{}),
        path.toStdString(), q(model_.table().title));
  });
  if (done) emit said("Written to " + path, false);
}

std::vector<QWidget*> LedgerPlace::areas() const {
  return {const_cast<ReportList*>(&list_), const_cast<SheetTable*>(&table_)};
}

QString LedgerPlace::subtitle() const {
  if (path_.empty()) return {};
  const Table& table = path_.back();
  if (path_.size() == 1 && !table.note.empty()) return q(table.note);
  if (path_.size() > 1) return "Backspace goes back.";
  return {};
}

std::array<TitleCell, 3> LedgerPlace::cells() const {
  const QString report = list_.rows()[static_cast<std::size_t>(report_)].name;
  const QString rows = path_.empty() ? QString("none") : QString::number(path_.back().rows.size());
  return {
      TitleCell{"Report", report, 234, 320},
      TitleCell{"Day", report_ == Shown::stock && !day_.isEmpty() ? day_ : q(today()), 130, 180},
      TitleCell{"Rows", rows, 130, 180}};
}

void LedgerPlace::lay() {
  const int w = width(), h = height();
  list_.setGeometry(16, 50, listWidth - 32,
                    static_cast<int>(list_.rows().size()) * ReportList::rowHeight);
  const bool root = path_.size() < 2;
  by_.setVisible(root && (report_ == Shown::wood || report_ == Shown::actual));
  in_.setVisible(root && report_ == Shown::wood);
  months_.setVisible(root && report_ == Shown::old);
  on_.setVisible(root && report_ == Shown::stock);
  up_.setVisible(!root);
  int right = w - 16;
  const auto place = [&](QWidget& control, int wide) {
    if (control.isHidden()) return;
    control.setGeometry(right - wide, 14, wide, 30);
    right -= wide + 8;
  };
  place(pdf_, pdf_.sizeHint().width());
  place(csv_, csv_.sizeHint().width());
  place(up_, up_.sizeHint().width());
  place(in_, 150);
  place(by_, 150);
  place(months_, 170);
  place(on_, 190);
  const int plotHeight = root ? std::clamp(h * 45 / 100, 220, 520) : 0;
  plot_.setVisible(root);
  plot_.setGeometry(listWidth + 1, headHeight, w - listWidth - 1, plotHeight);
  const bool rows = model_.rowCount() > 0 && !model_.table().rows.empty();
  table_.setVisible(rows);
  std::vector<int> widths = model_.widths(420);
  int sum = 12;
  const int room = w - listWidth - 8 - 16;
  for (const int wide : widths) sum += wide;
  const int more =
      widths.empty() ? 0 : std::clamp((room - sum) / static_cast<int>(widths.size()), 0, 40);
  for (int& wide : widths) wide += more;
  sum += more * static_cast<int>(widths.size());
  const int top = headHeight + plotHeight + (root ? 9 : 0);
  const int wanted = SheetTable::headHeight + model_.rowCount() * SheetTable::rowHeight + 2;
  table_.setGeometry(listWidth + 8, top, std::min(room, sum), std::min(wanted, h - top - 8));
  table_.setWidths(widths);
}

void LedgerPlace::resizeEvent(QResizeEvent*) { lay(); }

void LedgerPlace::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.sheet);
  painter.fillRect(0, 0, listWidth, height(), c.ground);
  drawText(painter, 16, 32, "Ledger", 17, true, c.ink);
  drawRule(painter, listWidth, 0, listWidth, height(), c.edge);
  const int left = listWidth + 24;
  int controls = csv_.x();
  for (const QWidget* each :
       {static_cast<const QWidget*>(&by_), static_cast<const QWidget*>(&in_),
        static_cast<const QWidget*>(&months_), static_cast<const QWidget*>(&on_),
        static_cast<const QWidget*>(&up_)}) {
    if (!each->isHidden()) controls = std::min(controls, each->x());
  }
  const QString title = path_.empty() ? QString() : q(path_.back().title);
  drawText(painter, left, 36, elided(title, 22, true, controls - left - 16), 22, true, c.ink);
  drawText(painter, left, 60, elided(subtitle(), 12, false, width() - left - 16), 12, false,
           c.soft);
  if (plot_.isVisible()) {
    const int y = plot_.geometry().bottom() + 4;
    drawRule(painter, listWidth, y, width(), y, c.edge);
  }
}

}  // namespace flitch::desktop
