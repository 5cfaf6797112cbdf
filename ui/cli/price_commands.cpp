#include "inventory/desk/demands.h"
#include "inventory/desk/price.h"
#include "inventory/desk/receive.h"
#include "inventory/planning/plan_words.h"
#include "inventory/records/part_wood.h"
#include "labels/estimate_page.h"
#include "labels/quote_page.h"
#include "ui/cli/commands.h"
#include "ui/cli/paper.h"
#include "ui/cli/reading.h"

namespace flitch::cli {

namespace {

/// A file that cannot be written is refused before the book is changed.
void checkCsv(const std::string& path) {
  if (!path.empty()) writeFile(path, "");
}

/// How good the plan is whose boards are counted; empty without a plan.
std::string planSentence(const store::Snapshot& snapshot, JobId job, const Answer& answer) {
  const std::optional<store::StoredPlan> stored = snapshot.newestPlan(job);
  return stored ? planning::headline(stored->plan, answer.sign()) : std::string();
}

}  // namespace

Answer run(const Price& command, const Session& session) {
  const std::string day = dayOf(command.on);
  checkCsv(command.csv);
  store::Book book = command.file.empty() ? session.toRead() : session.toWrite();
  Answer answer = answerOf(book);
  if (!command.file.empty()) {
    exchange::Taken<ReplacementPrice> taken =
        exchange::readPrices(exchange::readCsvFile(command.file), desk::readingRules(book));
    for (const std::string& warning : taken.warnings) answer.warn(warning);
    const std::size_t count = taken.rows.size();
    desk::setPrices(book, std::move(taken.rows), day, session.hand);
    answer.say("Took " + counted(count, "price", "prices") + ".");
  }
  const Table table = desk::priceTable(book.read().prices(), day);
  if (table.rows.empty()) {
    answer.say("No prices yet.");
    answer.put("prices", table);
  } else {
    answer.show("prices", table);
  }
  writeRows(command.csv, table, answer);
  return answer;
}

Answer run(const Demands& command, const Session& session) {
  checkCsv(command.csv);
  store::Book book = command.file.empty() ? session.toRead() : session.toWrite();
  if (!command.file.empty()) {
    const std::vector<Demand> demands =
        exchange::readDemands(exchange::readCsvFile(command.file), desk::readingRules(book));
    desk::setDemands(book, demands, session.hand);
  }
  Answer answer = answerOf(book);
  const store::Snapshot snapshot = book.read();
  const Table table = desk::demandTable(snapshot.shop(), snapshot.defectKinds());
  answer.show("demands", table);
  writeRows(command.csv, table, answer);
  return answer;
}

Answer run(const JobLines& command, const Session& session) {
  checkCsv(command.csv);
  store::Book book = command.file.empty() ? session.toRead() : session.toWrite();
  const Job job = jobNamed(book.read(), command.job);
  Answer answer = answerOf(book);
  if (!command.file.empty()) {
    const exchange::Taken<JobLine> taken =
        exchange::readJobLines(exchange::readCsvFile(command.file), desk::readingRules(book));
    for (const std::string& warning : taken.warnings) answer.warn(warning);
    desk::setJobLines(book, job.id, taken.rows, session.hand);
  }
  const store::Snapshot snapshot = book.read();
  const std::vector<JobLine> lines = snapshot.jobLines(job.id);
  const std::vector<desk::BarBill> bars = desk::barBills(lines, snapshot.shop());
  const Table table = desk::jobLineTable(lines, bars, snapshot.shop());
  const Table cut = desk::barTable(bars, answer.unit());
  answer.put("job", job.name);
  if (lines.empty()) {
    answer.say("Nothing beside its lumber is said of " + job.name + ".");
    answer.put("lines", table);
  } else {
    answer.show("lines", table);
  }
  answer.put("bars", cut);
  if (!cut.rows.empty()) answer.show(cut);
  writeRows(command.csv, table, answer);
  return answer;
}

Answer run(const JobEstimate& command, const Session& session) {
  const std::string day = dayOf(command.on);
  checkCsv(command.csv);
  checkPaper(command.paper);
  const store::Book book = session.toRead();
  const store::Snapshot snapshot = book.read();
  const Job job = jobNamed(snapshot, command.job);
  Answer answer = answerOf(book);
  const Estimate estimate = desk::estimate(snapshot, job.id, day, answer.unit());
  const std::string sentence = planSentence(snapshot, job.id, answer);
  const Table table = estimateTable(estimate);
  const Table parts = partCostTable(estimate, job);
  answer.say(job.name + (job.customer.empty() ? "" : ", for " + job.customer) +
             ": estimate at the prices of " + day);
  answer.put("job", job.name);
  answer.put("day", day);
  answer.show("estimate", table);
  answer.put("parts", parts);
  if (!parts.rows.empty()) answer.show(parts);
  answer.put("sum_as_it_cost", estimate.sum.landed);
  answer.put("sum_bought_today", estimate.sum.today);
  answer.put("notes", estimate.notes);
  for (const std::string& note : estimate.notes) answer.say(note);
  if (!sentence.empty()) answer.say(sentence);
  writeRows(command.csv, table, answer);
  if (command.paper.any()) {
    writePages(pages::estimatePages(estimate, job, {sentence, answer.sign()}), command.paper,
               job.name, answer);
  }
  return answer;
}

Answer run(const JobQuote& command, const Session& session) {
  checkPaper(command.paper);
  store::Book book = command.again ? session.toRead() : session.toWrite();
  const Job job = jobNamed(book.read(), command.job);
  Answer answer = answerOf(book);
  Quote quote;
  if (command.again) {
    const std::vector<Quote> given = book.read().quotes(job.id);
    if (given.empty()) {
      throw Refusal("no-quote", Complaint{"", "No quote was given for " + job.name, job.name,
                                          "flitch job quote without --again"});
    }
    quote = given.back();
  } else {
    desk::Asked asked;
    asked.quote.job = job.id;
    asked.quote.givenOn = dayOf(command.on);
    if (!command.validUntil.empty()) {
      asked.quote.validUntil = dayOf(command.validUntil, "--valid-until");
    }
    asked.quote.title = command.title;
    asked.quote.words = command.words;
    asked.quote.terms = command.terms;
    asked.price = !command.price.empty();
    if (asked.price) {
      asked.quote.price =
          argument("price", [&] { return parseMoney(command.price, answer.sign()); });
    }
    quote = desk::giveQuote(book, asked, session.hand);
  }
  answer.say(quote.number + ", " + quote.givenOn + ": " + quote.title + ", " +
             answer.money(quote.price) +
             (quote.validUntil.empty() ? "" : ", valid until " + quote.validUntil) + ".");
  answer.put("job", job.name);
  answer.put("number", quote.number);
  answer.put("given_on", quote.givenOn);
  answer.put("valid_until", quote.validUntil);
  answer.put("title", quote.title);
  answer.put("text", quote.words);
  answer.put("terms", quote.terms);
  answer.put("price", quote.price);
  if (command.paper.any()) {
    const store::Snapshot snapshot = book.read();
    const bool moves =
        !movements(job, snapshot.ownSpecies(), seasonOf(snapshot.shop()), answer.unit()).empty();
    writePages(pages::quotePages(quote, {book.facts().name, job.customer, answer.sign(), moves}),
               command.paper, quote.number, answer);
  }
  return answer;
}

}  // namespace flitch::cli
