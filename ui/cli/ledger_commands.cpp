#include <QDate>
#include <QDateTime>

#include "inventory/desk/claim.h"
#include "inventory/desk/family.h"
#include "inventory/desk/learned.h"
#include "inventory/desk/ledger_reports.h"
#include "inventory/desk/receive.h"
#include "inventory/desk/reports.h"
#include "inventory/desk/returns.h"
#include "inventory/exchange/csv.h"
#include "inventory/wood/moisture.h"
#include "inventory/wood/unreadable.h"
#include "labels/passport_page.h"
#include "labels/photo.h"
#include "labels/report_page.h"
#include "labels/report_plots.h"
#include "ui/cli/commands.h"
#include "ui/cli/paper.h"

namespace flitch::cli {

namespace {

Table entryTable(const std::vector<store::EntryLine>& entries, const store::Snapshot& snapshot) {
  Table table;
  table.title = "Journal, newest first";
  table.columns = {{"entry", "entry", true},        {"at", "when", false}, {"hand", "by", false},
                   {"event", "what", false},        {"job", "job", false}, {"note", "note", false},
                   {"undone_by", "undone by", true}};
  for (const store::EntryLine& line : entries) {
    const std::optional<Job> job = line.job ? snapshot.job(line.job) : std::nullopt;
    table.rows.push_back({line.id.value, line.at, line.hand, line.event, job ? job->name : "",
                          line.note,
                          line.reversedBy ? CellValue{line.reversedBy.value} : CellValue{}});
  }
  return table;
}

constexpr int journalLines = 100;

/// The journal with the times of the shop's clock; the book keeps UTC to the millisecond.
Table inLocalTime(Table journal) {
  for (auto& row : journal.rows) {
    const QDateTime at = QDateTime::fromString(
        QString::fromStdString(std::get<std::string>(row[1])), Qt::ISODateWithMs);
    row[1] = at.toLocalTime().toString("yyyy-MM-dd HH:mm").toStdString();
  }
  return journal;
}

/// A report as it is told, and what else it has for files.
struct Told {
  std::vector<Table> tables;       ///< for people
  Table rows;                      ///< for CSV and JSON
  std::string nothing;             ///< said in place of tables, where there is nothing to report
  std::vector<pages::Page> pages;  ///< where it has pages of its own
  pages::ReportPlot plot;          ///< over the tables on paper
};

/// The day asked for, today where none is. Throws for what is no day.
std::string dayOf(const std::string& asked) {
  if (asked.empty()) return today();
  if (!QDate::fromString(QString::fromStdString(asked), Qt::ISODate).isValid()) {
    throw Refusal("bad-date", Complaint{"--on", asked + " is not a day", asked, "2026-05-31"});
  }
  return asked;
}

desk::By byOf(const std::string& name) {
  const auto at = std::find(desk::byWords.begin(), desk::byWords.end(), name);
  return static_cast<desk::By>(at - desk::byWords.begin());
}

Told told(Table table, pages::ReportPlot plot = {}) {
  Told one;
  one.tables = {table};
  one.rows = std::move(table);
  one.plot = std::move(plot);
  return one;
}

Told yieldOf(const std::vector<desk::SawnBoard>& boards, desk::By by, const std::string& sign) {
  desk::YieldTables tables = desk::yieldReport(boards, by);
  Told two;
  two.plot = pages::waterfallOf(tables.feet, tables.money, sign);
  two.tables = {std::move(tables.feet), std::move(tables.money)};
  two.rows = std::move(tables.rows);
  return two;
}

Told learnedOf(const std::vector<desk::SawnBoard>& boards, const store::Snapshot& snapshot,
               Unit unit) {
  desk::LearnedTables tables = desk::learnedReport(boards, snapshot);
  Told two;
  two.plot = pages::learnedPlot(tables.yield, unit);
  two.tables = {std::move(tables.yield), std::move(tables.lengths)};
  two.rows = std::move(tables.rows);
  return two;
}

Told passport(const Ledger& command, const store::Book& book, const store::Snapshot& snapshot) {
  const desk::Passport passport =
      desk::passportOf(snapshot, jobNamed(snapshot, command.names[0]).id, command.names[1]);
  Told one = told(desk::passportTable(passport, book.facts().unit));
  if (command.paper.any()) {
    one.pages = {pages::passportPage(one.rows, passport.wood, passport.piece,
                                     {passport.handMark, passport.part, passport.job,
                                      passport.customer, book.facts().name, today()})};
  }
  return one;
}

Table claimOf(const Ledger& command, const store::Snapshot& snapshot, Unit unit) {
  int wet = desk::wetAbove;
  try {
    if (!command.wetAbove.empty()) wet = parseMoisture(command.wetAbove);
  } catch (const Unreadable& error) {
    throw Refusal("bad-moisture",
                  Complaint{"--wet-above", error.what(), error.value, error.accepted});
  }
  DeliveryId delivery{command.delivery};
  const std::vector<DeliveryId> all = snapshot.deliveries();
  if (!delivery) {
    if (all.empty()) {
      throw Refusal("no-delivery", Complaint{"", "No delivery is in the book yet", "",
                                             "a delivery taken in with flitch receive"});
    }
    delivery = all.back();
  }
  return desk::claimSheet(snapshot, delivery, unit, wet);
}

Told claim(const Ledger& command, const store::Book& book, const store::Snapshot& snapshot) {
  Told one = told(claimOf(command, snapshot, book.facts().unit));
  if (one.rows.rows.empty()) {
    one.nothing = "Nothing is wrong with this load, as far as the book knows.";
    return one;
  }
  if (!command.paper.any()) return one;
  const store::BookFacts facts = book.facts();
  std::vector<pages::PhotoPrint> photos;
  for (const desk::ClaimedPhoto& claimed : desk::claimedPhotos(snapshot, one.rows)) {
    photos.push_back(pages::photoPrint(snapshot.photoBytes(claimed.photo.id), claimed.caption));
  }
  one.pages = pages::claimPages(one.rows, photos, {facts.name, today(), facts.unit, facts.sign});
  return one;
}

/// Reports on boards sawn, of one job or of all.
Told onSawn(const Ledger& command, const store::Book& book, const store::Snapshot& snapshot,
            std::optional<JobId> job) {
  const auto [unit, sign] = std::pair(book.facts().unit, book.facts().sign);
  const std::vector<desk::SawnBoard> boards = desk::sawnBoards(snapshot, job);
  const desk::By by = byOf(command.by);
  const auto plotted = [&](Table table, const auto& plot) {
    pages::ReportPlot drawn = plot(table, unit, sign);
    return told(std::move(table), std::move(drawn));
  };
  Told report;
  switch (command.report) {
    case Report::yield: report = yieldOf(boards, by, sign); break;
    case Report::clear: report = plotted(desk::clearReport(boards), pages::clearPlot); break;
    case Report::actual:
      report = plotted(desk::actualReport(boards, snapshot, by), pages::actualPlot);
      break;
    case Report::learned: report = learnedOf(boards, snapshot, unit); break;
    default: report = plotted(desk::wasteReport(snapshot, job), pages::wastePlot); break;
  }
  if (boards.empty()) {
    report.nothing = job ? "No board is sawn for " + snapshot.job(*job)->name + " yet."
                         : "No board is sawn yet.";
  }
  return report;
}

Told report(const Ledger& command, const store::Book& book, const store::Snapshot& snapshot) {
  const std::string sign = book.facts().sign;
  std::optional<JobId> job;
  if (!command.job.empty()) job = jobNamed(snapshot, command.job).id;
  switch (command.report) {
    case Report::waste:
    case Report::yield:
    case Report::clear:
    case Report::actual:
    case Report::learned: return onSawn(command, book, snapshot, job);
    case Report::offcuts: {
      Table offcuts = desk::offcutReport(snapshot, today(), job);
      pages::ReportPlot ages = pages::agesPlot(offcuts, sign);
      return told(std::move(offcuts), std::move(ages));
    }
    case Report::stock: {
      Table stock = command.on.empty() ? desk::stockReport(snapshot, job)
                                       : desk::stockOn(snapshot, dayOf(command.on));
      pages::ReportPlot worth = pages::stockPlot(stock, book.facts().unit, sign);
      return told(std::move(stock), std::move(worth));
    }
    case Report::kept: {
      Table kept = desk::keptReport(snapshot, dayOf(command.on));
      pages::ReportPlot fates = pages::keptPlot(kept, sign);
      return told(std::move(kept), std::move(fates));
    }
    case Report::old: {
      const std::string day = dayOf(command.on);
      return told(desk::oldReport(snapshot, day, command.months),
                  pages::agesPlot(desk::oldReport(snapshot, day, 0), sign));
    }
    case Report::family: {
      const Board board = desk::boardNamed(snapshot, command.names[0]);
      return told(desk::familyTable(desk::familyOf(snapshot, board, book.facts().unit), board.id));
    }
    case Report::passport: return passport(command, book, snapshot);
    case Report::returns: return told(desk::returnReport(snapshot));
    case Report::claim: return claim(command, book, snapshot);
    case Report::entries: {
      const Table journal = entryTable(snapshot.entries(journalLines), snapshot);
      Told both = told(journal);
      both.tables = {inLocalTime(journal)};
      return both;
    }
  }
  throw std::logic_error("no such report");
}

}  // namespace

Answer run(const Ledger& command, const Session& session) {
  checkPaper(command.paper);
  const store::Book book = session.toRead();
  const store::Snapshot snapshot = book.read();
  Answer answer = answerOf(book);
  Told report = flitch::cli::report(command, book, snapshot);
  if (report.nothing.empty()) {
    for (const Table& table : report.tables) answer.show(table);
  } else {
    answer.say(report.nothing);
  }
  answer.put("report", report.rows);
  if (!command.csv.empty()) {
    writeFile(command.csv, exchange::writeCsv(report.rows));
    answer.put("csv", command.csv);
  }
  if (command.paper.any()) {
    const store::BookFacts facts = book.facts();
    if (report.pages.empty()) {
      report.pages = pages::reportPages(report.tables,
                                        {facts.name, today(), facts.unit, facts.sign}, report.plot);
    }
    writePages(report.pages, command.paper, report.rows.title, answer);
  }
  return answer;
}

}  // namespace flitch::cli
