#include <QFileDialog>

#include "inventory/desk/buying.h"
#include "inventory/desk/jobs.h"
#include "inventory/desk/price.h"
#include "labels/estimate_page.h"
#include "labels/quote_page.h"
#include "ui/desktop/jobs_place.h"
#include "ui/desktop/rack_model.h"

// What a job costs: the part of the jobs' place that reads and writes prices.
namespace flitch::desktop {

void JobsPlace::readPrice() {
  estimate_.reset();
  const Job* j = job();
  if (shown_ != Shown::price || j == nullptr) return;
  session_.attempt([&] {
    const store::Snapshot now = session_.book().read();
    const Unit unit = session_.facts().unit;
    const std::string day = today();
    estimate_ = desk::estimate(now, j->id, day, unit);
    Table costs = estimateTable(*estimate_);
    costs.title = "Estimate";
    std::vector<Table> tables{std::move(costs), partCostTable(*estimate_, *j)};
    if (sheet_ && !sheet_->plan.shorts.empty()) {
      tables.push_back(desk::toBuyTable(
          desk::toBuy(sheet_->plan, desk::request(session_.book(), j->id, {}), now, day)));
    }
    const std::vector<desk::BarBill> bars = desk::barBills(now.jobLines(j->id), shop_);
    if (!bars.empty()) tables.push_back(desk::barTable(bars, unit));
    price_.setPrice(*estimate_, std::move(tables));
  });
}

QString JobsPlace::pdfPath(const QString& title, const QString& name) {
  return QFileDialog::getSaveFileName(this, title, q(job()->name) + name + ".pdf",
                                      "Portable document (*.pdf)");
}

void JobsPlace::writeEstimate(const QString& path) {
  if (path.isEmpty()) return;
  session_.attempt([&] {
    const std::string& sign = session_.facts().sign;
    const std::string sentence = sheet_ ? sheet_->sentence : std::string();
    const auto pages = pages::estimatePages(*estimate_, *job(), {sentence, sign});
    pages::writePdf(pages, path.toStdString(), q(job()->name));
    emit said("Estimate written to " + path, false);
  });
}

void JobsPlace::askQuote() {
  const QString price = q(wholeText(askedPrice(*estimate_), session_.facts().sign));
  const QString sentence = QString("Give a quote of %1 for %2? It gets a number and is kept.")
                               .arg(price, q(job()->name));
  band_.ask(sentence, "Give the quote", [this] { writeQuote(pdfPath("Quote", " quote")); });
}

void JobsPlace::writeQuote(const QString& path) {
  if (path.isEmpty()) return;
  session_.attempt([&] {
    const Job quoted = *job();
    desk::Asked asked;
    asked.quote.job = quoted.id;
    asked.quote.givenOn = today();
    const Quote given = desk::giveQuote(session_.book(), asked, session_.hand());
    const store::BookFacts& facts = session_.facts();
    const std::vector<Species> own = session_.book().read().ownSpecies();
    const bool moves = !movements(quoted, own, seasonOf(shop_), facts.unit).empty();
    pages::writePdf(pages::quotePages(given, {facts.name, quoted.customer, facts.sign, moves}),
                    path.toStdString(), q(given.number));
    emit said(QString("%1 over %2 written to %3")
                  .arg(q(given.number), q(text(given.price, facts.sign)), path),
              false);
  });
}

void JobsPlace::takeLines(const QString& path) {
  if (path.isEmpty()) return;
  session_.attempt([&] {
    const auto taken =
        exchange::readJobLines(exchange::readCsvFile(path.toStdString()), session_.readingRules());
    desk::setJobLines(session_.book(), chosen_, taken.rows, session_.hand());
    for (const std::string& warning : taken.warnings) emit said(q(warning), false);
  });
}

}  // namespace flitch::desktop
