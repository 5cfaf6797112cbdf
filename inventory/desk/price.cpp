#include "inventory/desk/price.h"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "inventory/store/writer.h"

namespace flitch::desk {

namespace {

std::string stockText(const ReplacementPrice& price) {
  return price.species + " " + text(price.nominal) + (price.grade.empty() ? "" : " " + price.grade);
}

Job jobOf(const store::Snapshot& snapshot, JobId id) {
  if (std::optional<Job> job = snapshot.job(id)) return *std::move(job);
  throw Refusal("unknown-job", Complaint{"", "There is no such job", "", "a job's name"});
}

/// Boards sawn for the job, then those of its newest plan that are not.
std::vector<UsedBoard> boardsOf(const store::Snapshot& snapshot, JobId job,
                                const std::optional<store::StoredPlan>& stored) {
  std::vector<UsedBoard> used;
  for (const store::DoneCutting& done : snapshot.doneCuttings(job)) {
    used.push_back({done.board, done.cutting, done.tick, snapshot.profile(done.profile).value()});
  }
  if (!stored) return used;
  const std::set<BoardId> sawn(stored->sawn.begin(), stored->sawn.end());
  for (const Cutting& cutting : stored->plan.cuttings) {
    if (sawn.contains(cutting.board)) continue;
    used.push_back({snapshot.board(cutting.board).value(), cutting, stored->plan.tick,
                    snapshot.profile(stored->plan.profile).value()});
  }
  return used;
}

Money moneyOf(const JobLine& line, const ShopProfile& shop) {
  return amountOf(line.price.value_or(shop.hourlyRate), line.thousandths);
}

void noteMissing(const CutPlan& plan, const Job& job, Estimate& estimate) {
  const auto nameOf = [&](int line) {
    const auto part = std::find_if(job.parts.begin(), job.parts.end(),
                                   [line](const Part& p) { return p.line == line; });
    return part->name + " (" + partLetter(line) + ")";
  };
  std::string missing;
  const auto add = [&](const std::string& what) {
    missing += (missing.empty() ? "" : ", ") + what;
  };
  for (const ShortPart& s : plan.shorts) add(std::to_string(s.copies) + " of " + nameOf(s.line));
  for (const int line : plan.waiting) add("all of " + nameOf(line));
  if (missing.empty()) return;
  estimate.notes.push_back("Not in this estimate, since the plan has no wood for it: " + missing +
                           ".");
}

}  // namespace

EntryId setPrices(store::Book& book, std::vector<ReplacementPrice> prices, const std::string& today,
                  const store::Hand& hand) {
  if (prices.empty()) {
    throw Refusal("no-prices",
                  Complaint{"", "There are no prices to take", "", "at least one row"});
  }
  std::set<std::tuple<std::string, Nominal, std::string, std::string>> seen;
  for (ReplacementPrice& price : prices) {
    if (price.since.empty()) price.since = today;
    if (!seen.insert({price.species, price.nominal, price.grade, price.since}).second) {
      throw Refusal("twice", Complaint{"", stockText(price) + " has two prices from " + price.since,
                                       stockText(price), "one row for each stock and day"});
    }
  }
  const std::string what =
      prices.size() == 1 ? stockText(prices[0]) : std::to_string(prices.size()) + " prices";
  return book.change({"prices set", {}, what, {}}, hand, [&](store::Writer& writer) {
    for (const ReplacementPrice& price : prices) writer.addPrice(price);
  });
}

Table priceTable(const std::vector<ReplacementPrice>& prices, const std::string& day) {
  std::map<std::tuple<std::string, Length, std::string>, const ReplacementPrice*> rows;
  for (const ReplacementPrice& price : prices) {
    const ReplacementPrice* holds = priceOn(prices, price.species, price.nominal, price.grade, day);
    if (holds == nullptr || holds->grade != price.grade) continue;
    rows[{price.species, price.nominal.length(), price.grade}] = holds;
  }
  Table table;
  table.columns = {{"species", "species", false}, {"quarters", "quarters", false},
                   {"grade", "grade", false},     {"price_per_bf", "a board foot", true},
                   {"since", "since", false},     {"note", "note", false}};
  for (const auto& [key, price] : rows) {
    table.rows.push_back({price->species, text(price->nominal), price->grade, price->perFoot.perOne,
                          price->since, price->note});
  }
  return table;
}

std::vector<BarBill> barBills(const std::vector<JobLine>& lines, const ShopProfile& shop) {
  std::vector<BarBill> bills;
  for (const JobLine& line : lines) {
    if (line.kind != JobLineKind::bar && line.kind != JobLineKind::cut) continue;
    auto bill = std::find_if(bills.begin(), bills.end(),
                             [&](const BarBill& b) { return b.name == line.name; });
    if (bill == bills.end()) bill = bills.insert(bill, BarBill{line.name, {}, {}, {}});
    if (line.kind == JobLineKind::bar) {
      bill->sold.push_back({line.length, line.price.value_or(Money())});
    } else {
      bill->pieces.push_back({line.length, static_cast<int>(line.thousandths / 1000)});
    }
  }
  for (BarBill& bill : bills) {
    bill.plan = planning::cutBars(bill.name, bill.sold, bill.pieces, shop.crosscutKerf);
  }
  return bills;
}

Table barTable(const std::vector<BarBill>& bills, Unit unit) {
  Table table;
  table.title = "Bars";
  table.columns = {{"name", "bar", false},         {"bars", "bars", true},
                   {"length", "of", true},         {"pieces", "cut into", false},
                   {"left", "left of each", true}, {"proof", "", false}};
  for (const BarBill& bill : bills) {
    for (const planning::BarCut& cut : bill.plan.cuts) {
      table.rows.push_back({bill.name, static_cast<std::int64_t>(cut.times),
                            bill.sold[cut.sold].length,
                            planning::piecesText(cut, bill.pieces, unit), cut.left,
                            std::string(bill.plan.proved ? "cheapest" : "not proved")});
    }
  }
  return table;
}

EntryId setJobLines(store::Book& book, JobId job, const std::vector<JobLine>& lines,
                    const store::Hand& hand) {
  const store::Snapshot snapshot = book.read();
  const Job found = jobOf(snapshot, job);
  (void)barBills(lines, snapshot.shop());
  return book.change({"bill set", job, found.name, {}}, hand,
                     [&](store::Writer& writer) { writer.setJobLines(job, lines); });
}

Table jobLineTable(const std::vector<JobLine>& lines, const std::vector<BarBill>& bars,
                   const ShopProfile& shop) {
  Table table;
  table.columns = {{"what", "what", false},    {"name", "name", false}, {"count", "count", true},
                   {"unit", "unit", false},    {"price", "each", true}, {"length", "length", true},
                   {"amount", "amount", true}, {"note", "note", false}};
  Money all;
  for (const JobLine& line : lines) {
    const bool bar = line.kind == JobLineKind::bar;
    const bool cut = line.kind == JobLineKind::cut;
    CellValue amount;
    CellValue count = countText(line);
    if (bar) {
      const auto bill = std::find_if(bars.begin(), bars.end(),
                                     [&](const BarBill& b) { return b.name == line.name; });
      const auto sold =
          std::find_if(bill->sold.begin(), bill->sold.end(), [&](const planning::BarSold& s) {
            return s.length == line.length && s.price == line.price.value_or(Money());
          });
      const int bought = bill->plan.bars[static_cast<std::size_t>(sold - bill->sold.begin())];
      count = std::to_string(bought);
      const Money sum = line.price.value_or(Money()) * bought;
      amount = sum;
      all += sum;
    } else if (!cut) {
      const Money sum = moneyOf(line, shop);
      amount = sum;
      all += sum;
    }
    const bool hours = line.kind == JobLineKind::hours;
    const CellValue each = cut ? CellValue{} : CellValue{line.price.value_or(shop.hourlyRate)};
    table.rows.push_back({std::string(word(line.kind)), line.name, count,
                          hours ? CellValue{std::string("h")} : CellValue{line.unit}, each,
                          line.length > Length() ? CellValue{line.length} : CellValue{}, amount,
                          line.note});
  }
  table.totals = {std::string("all"), {}, {}, {}, {}, {}, all, {}};
  return table;
}

Estimate estimate(const store::Snapshot& snapshot, JobId id, const std::string& day, Unit unit) {
  const Job job = jobOf(snapshot, id);
  const std::optional<store::StoredPlan> stored = snapshot.newestPlan(id);
  const ShopProfile shop = snapshot.shop();
  const std::vector<JobLine> lines = snapshot.jobLines(id);
  std::vector<BillLine> materials, work;
  for (const JobLine& line : lines) {
    if (line.kind == JobLineKind::bar || line.kind == JobLineKind::cut) continue;
    const bool hours = line.kind == JobLineKind::hours;
    (hours ? work : materials).push_back({line.name, quantityText(line), moneyOf(line, shop)});
  }
  for (const BarBill& bill : barBills(lines, shop)) {
    int bars = 0;
    for (const int count : bill.plan.bars) bars += count;
    materials.push_back(
        {bill.name + ", " + planning::barText(bill.plan, bill.sold, bill.pieces, unit),
         std::to_string(bars) + (bars == 1 ? " bar" : " bars"), bill.plan.cost});
  }
  Estimate found = estimateOf(job, shop.markupPermille, boardsOf(snapshot, id, stored),
                              snapshot.prices(), day, std::move(materials), std::move(work));
  if (stored) {
    noteMissing(stored->plan, job, found);
  } else {
    found.notes.emplace_back("No plan is kept: no lumber is in this estimate.");
  }
  return found;
}

Quote giveQuote(store::Book& book, const Asked& asked, const store::Hand& hand) {
  const store::Snapshot snapshot = book.read();
  Quote quote = asked.quote;
  const Job job = jobOf(snapshot, quote.job);
  if (quote.title.empty()) quote.title = job.name;
  if (!quote.validUntil.empty() && quote.validUntil < quote.givenOn) {
    throw Refusal("bad-date",
                  Complaint{"valid until",
                            quote.validUntil + " is before " + quote.givenOn + ", when it is given",
                            quote.validUntil, "a later day"});
  }
  if (!asked.price) {
    const Estimate worth = estimate(snapshot, quote.job, quote.givenOn, book.facts().unit);
    const std::optional<store::StoredPlan> stored = snapshot.newestPlan(quote.job);
    if (!stored || !stored->plan.shorts.empty() || !stored->plan.waiting.empty()) {
      throw Refusal(
          "not-whole",
          Complaint{"", worth.notes.empty() ? "The plan is not whole" : worth.notes.back(),
                    job.name, "a plan of all its parts, or a price named"});
    }
    quote.price = askedPrice(worth);
  }
  Quote given;
  book.change({"quoted", quote.job, job.name, {}}, hand,
              [&](store::Writer& writer) { given = writer.addQuote(quote); });
  return given;
}

}  // namespace flitch::desk
