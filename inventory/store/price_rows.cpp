#include "inventory/store/price_rows.h"

#include <algorithm>

#include "inventory/store/board_rows.h"
#include "inventory/store/codes.h"

namespace flitch::store {

std::vector<ReplacementPrice> readPrices(Database& database) {
  std::vector<ReplacementPrice> prices;
  database.each(
      "SELECT species, nominal, nominal_in, grade, per_foot, since, note FROM replacement_prices "
      "WHERE withdrawn = 0 ORDER BY id",
      [&](Row& row) {
        ReplacementPrice& price = prices.emplace_back();
        row >> price.species;
        const auto nominal = row.next<int>();
        price.nominal = nominalOf(nominal, row.next<std::string>());
        row >> price.grade >> price.perFoot.perOne >> price.since >> price.note;
      });
  return prices;
}

std::int64_t insertPrice(Database& database, const ReplacementPrice& price, EntryId entry) {
  database.run("INSERT INTO species (name) VALUES (?) ON CONFLICT DO NOTHING", price.species);
  const std::int64_t id = nextNumber(database, "price");
  database.run(
      "INSERT INTO replacement_prices (id, species, nominal, nominal_in, grade, per_foot, since, "
      "note, version) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
      id, price.species, price.nominal.value(), nominalCode(price.nominal), price.grade,
      price.perFoot.perOne, price.since, price.note, entry);
  return id;
}

std::vector<JobLine> readJobLines(Database& database, JobId job) {
  std::vector<JobLine> lines;
  database.each(
      "SELECT kind, name, thousandths, unit, price, length, note FROM job_lines WHERE bill = "
      "(SELECT max(id) FROM job_bills WHERE job = ? AND withdrawn = 0) ORDER BY line",
      [&](Row& row) {
        JobLine& line = lines.emplace_back();
        line.kind = decoded<JobLineKind>(row.next<std::string>());
        row >> line.name >> line.thousandths >> line.unit;
        line.price = row.next<std::optional<Money>>();
        row >> line.length >> line.note;
      },
      job);
  return lines;
}

std::int64_t insertJobLines(Database& database, JobId job, const std::vector<JobLine>& lines,
                            EntryId entry) {
  const std::int64_t id = nextNumber(database, "bill");
  database.run("INSERT INTO job_bills (id, job, version) VALUES (?, ?, ?)", id, job, entry);
  int number = 0;
  for (const JobLine& line : lines) {
    database.run(
        "INSERT INTO job_lines (bill, line, kind, name, thousandths, unit, price, length, note) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
        id, ++number, std::string(code(line.kind)), line.name, line.thousandths, line.unit,
        line.price, line.length, line.note);
  }
  return id;
}

std::vector<Quote> readQuotes(Database& database, JobId job) {
  std::vector<Quote> quotes;
  database.each(
      "SELECT id, job, number, given_on, valid_until, title, words, terms, price FROM quotes "
      "WHERE job = ? AND withdrawn = 0 ORDER BY id",
      [&](Row& row) {
        Quote& quote = quotes.emplace_back();
        row >> quote.id >> quote.job >> quote.number >> quote.givenOn >> quote.validUntil >>
            quote.title >> quote.words >> quote.terms >> quote.price;
      },
      job);
  return quotes;
}

Quote insertQuote(Database& database, const Quote& quote, EntryId entry) {
  Quote added = quote;
  added.id = nextNumber(database, "quote");
  const std::string number = std::to_string(added.id);
  added.number = "Q " + added.givenOn.substr(2, 2) + "-" +
                 std::string(3 - std::min<std::size_t>(3, number.size()), '0') + number;
  database.run(
      "INSERT INTO quotes (id, job, number, given_on, valid_until, title, words, terms, price, "
      "version) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
      added.id, added.job, added.number, added.givenOn, added.validUntil, added.title, added.words,
      added.terms, added.price, entry);
  return added;
}

}  // namespace flitch::store
