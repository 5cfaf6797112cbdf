#include "inventory/desk/buying.h"

#include <algorithm>
#include <map>
#include <utility>

#include "inventory/desk/jobs.h"
#include "inventory/desk/learned.h"
#include "inventory/desk/receive.h"
#include "inventory/planning/plan_words.h"
#include "inventory/records/blank.h"
#include "inventory/wood/split.h"
#include "inventory/wood/thickness.h"

namespace flitch::desk {

namespace {

const Board* boardOf(const std::vector<Board>& boards, BoardId id) {
  const auto at =
      std::find_if(boards.begin(), boards.end(), [id](const Board& b) { return b.id == id; });
  return at == boards.end() ? nullptr : &*at;
}

/// Feet used up and in parts of a plan, as if it were sawn.
Learned yieldOfPlan(const CutPlan& plan, const PlanRequest& request) {
  Learned learned;
  for (const Cutting& cutting : plan.cuttings) {
    const Board* board = boardOf(request.boards, cutting.board);
    if (board == nullptr) continue;
    const Breakdown shares = account(cutting, *board, request.job, request.shop, plan.tick);
    const auto feet = [&](Cause cause) { return shares.feet[static_cast<std::size_t>(cause)]; };
    learned.yields[{board->species, board->nominal}] +=
        {Feet{board->measuredFeet.thousandths - feet(Cause::offcuts).thousandths},
         feet(Cause::parts)};
  }
  return learned;
}

/// A yield for every stock, and what it is that of.
std::pair<Learned, std::string> yieldToBuyAt(const CutPlan& plan, const PlanRequest& request,
                                             const store::Snapshot& snapshot) {
  Learned planned = yieldOfPlan(plan, request);
  if (!planned.yields.empty()) return {std::move(planned), "this plan"};
  Learned sawn = learnedFrom(sawnBoards(snapshot), snapshot);
  if (!sawn.yields.empty()) return {std::move(sawn), "all sawn so far"};
  Learned half;
  half.yields[{}] = {Feet{2}, Feet{1}};
  return {std::move(half), "common practice, no source"};
}

}  // namespace

std::vector<ToBuy> toBuy(const CutPlan& plan, const PlanRequest& request,
                         const store::Snapshot& snapshot, const std::string& day) {
  const auto [learned, yieldOf] = yieldToBuyAt(plan, request, snapshot);
  const std::vector<ReplacementPrice> prices = snapshot.prices();
  std::vector<ToBuy> rows;
  for (planning::ToBuy& wood : planning::toBuy(plan.shorts, request, learned)) {
    ToBuy& row = rows.emplace_back();
    row.wood = std::move(wood);
    row.yieldOf = yieldOf;
    if (const auto* price = priceOn(prices, row.wood.species, row.wood.nominal, "", day)) {
      row.cost = cost(price->perFoot, row.wood.feet);
    }
  }
  return rows;
}

Table toBuyTable(const std::vector<ToBuy>& rows) {
  Table table;
  table.title = "To buy";
  table.columns = {{"species", "species", false},  {"quarters", "quarters", false},
                   {"feet", "to buy", true},       {"cost", "today", true},
                   {"in_parts", "in parts", true}, {"yield", "yield", true},
                   {"yield_of", "that of", false}, {"parts", "for", false}};
  for (const ToBuy& row : rows) {
    const planning::ToBuy& wood = row.wood;
    table.rows.push_back({wood.species, text(wood.nominal), wood.feet,
                          row.cost ? CellValue{*row.cost} : CellValue{}, wood.inParts,
                          permille(wood.learned.parts.thousandths, wood.learned.used.thousandths),
                          row.yieldOf, wood.parts});
  }
  return table;
}

std::optional<Money> Offer::saved() const {
  const auto copies = [](const CutPlan& plan) {
    std::map<int, int> all;
    for (const ShortPart& s : plan.shorts) all[s.line] += s.copies;
    return all;
  };
  if (copies(without.plan) != copies(with.plan)) return std::nullopt;
  return without.plan.total() - with.plan.total();
}

Offer weighOffer(const PlanRequest& request, const DeliveryDraft& offered,
                 const optimizer::Limits& limits, std::stop_token stop) {
  Offer offer;
  offer.without = planning::makePlan(request, limits, stop);
  PlanRequest more = request;
  std::int64_t last = 0;
  for (const Board& board : request.boards) last = std::max(last, board.id.value);
  const std::vector<Board> boards = boardsOffered(offered, last + 1);
  more.boards.insert(more.boards.end(), boards.begin(), boards.end());
  offer.with = planning::makePlan(more, limits, stop);
  for (const Cutting& cutting : offer.with.plan.cuttings) {
    const Board* board = boardOf(boards, cutting.board);
    if (board == nullptr) continue;
    offer.bought.push_back(*board);
    offer.price += board->cost;
  }
  return offer;
}

Table offerTable(const Offer& offer, const DeliveryDraft& offered, Unit unit) {
  // The boards of a line follow each other, in the order of the tally.
  const std::vector<TallyFigures> all = figures(offered);
  std::int64_t first = 0;
  for (const Board& board : offer.with.request.boards) first = std::max(first, board.id.value);
  first -= static_cast<std::int64_t>(all.size()) - 1;
  Table table;
  table.title = "Boards of the offer to buy";
  table.columns = {{"line", "line", true},          {"species", "species", false},
                   {"quarters", "quarters", false}, {"grade", "grade", false},
                   {"size", "size", false},         {"feet", "billed", true},
                   {"price", "price", true}};
  Feet feet;
  for (const Board& board : offer.bought) {
    const std::size_t at = static_cast<std::size_t>(board.id.value - first);
    table.rows.push_back({static_cast<std::int64_t>(offered.lines[all[at].line].line),
                          board.species, text(board.nominal), board.grade, sizeText(board, unit),
                          board.billed, board.cost});
    feet.thousandths += board.billed.thousandths;
  }
  table.totals = {{}, std::string("all"), {}, {}, {}, feet, offer.price};
  return table;
}

namespace {

/// Boards the book has seen, with what they cost and held when they came: on the rack, or sawn.
std::vector<Board> boardsSeen(const store::Snapshot& snapshot) {
  std::vector<Board> seen = snapshot.rack();
  for (const store::DoneCutting& done : snapshot.doneCuttings(std::nullopt)) {
    seen.push_back(done.board);
  }
  std::erase_if(seen, [](const Board& b) {
    return b.kind == BoardKind::offcut || b.grade.empty() || b.looked[0] == Looked::no ||
           b.looked[1] == Looked::no;
  });
  return seen;
}

/// Stock of one species and grade such as the book has seen: its boards over and over until there
/// is `feet` of each thickness, free, ready, at the day's price.
std::vector<Board> typicalStock(const std::vector<const Board*>& seen, Feet feet,
                                const std::vector<ReplacementPrice>& prices,
                                const std::string& day) {
  constexpr std::size_t most = 120;
  std::map<Length, std::int64_t> has;
  std::vector<Board> stock;
  for (bool added = true; added && stock.size() < most;) {
    added = false;
    for (const Board* board : seen) {
      std::int64_t& there = has[board->nominal.length()];
      if (there >= feet.thousandths || stock.size() == most) continue;
      Board copy = *board;
      // Typical of the grade: grain nobody looked at is taken for straight.
      if (!copy.grain) copy.grain = GrainSlope{};
      copy.id = BoardId{static_cast<std::int64_t>(stock.size()) + 1};
      copy.tag.reset();
      copy.keptBack = false;
      copy.reservedFor = {};
      copy.readings.clear();
      if (const auto today = replacementOf(*board, prices, day)) copy.cost = *today;
      there += std::max<std::int64_t>(1, copy.measuredFeet.thousandths);
      stock.push_back(std::move(copy));
      added = true;
    }
  }
  return stock;
}

/// The job with the parts alone whose first wish is that species, and no other species.
Job onlyOf(const Job& job, const std::string& species) {
  Job some = job;
  std::erase_if(some.parts, [&](const Part& p) { return p.species.front() != species; });
  for (Part& part : some.parts) part.species = {species};
  return some;
}

Feet blankFeet(const Job& job, const ShopProfile& shop) {
  Feet feet;
  for (const Part& part : job.parts) {
    const Blank blank = blankFor(part, shop);
    feet.thousandths +=
        volumeTally(leastNominal(blank.thickness), blank.width, blank.length).thousandths *
        part.wanted();
  }
  return feet;
}

GradeBill billOf(const planning::PlanResult& made) {
  GradeBill bill;
  for (const Cutting& cutting : made.plan.cuttings) {
    const Board* board = boardOf(made.request.boards, cutting.board);
    ++bill.boards;
    bill.feet.thousandths +=
        board->billed.thousandths > 0 ? board->billed.thousandths : board->measuredFeet.thousandths;
  }
  bill.wood = made.plan.woodCost;
  bill.work = made.plan.cutCost;
  bill.missing = planning::copiesShort(made.plan);
  return bill;
}

}  // namespace

std::vector<GradeBill> weighGrades(const store::Book& book, JobId job, const std::string& day,
                                   const optimizer::Limits& limits, std::stop_token stop) {
  const store::Snapshot snapshot = book.read();
  const std::vector<Board> seen = boardsSeen(snapshot);
  const std::vector<ReplacementPrice> prices = snapshot.prices();
  const PlanRequest base = request(book, job, {});
  std::map<std::pair<std::string, std::string>, std::vector<const Board*>> kinds;
  for (const Board& board : seen) kinds[{board.species, board.grade}].push_back(&board);
  std::vector<GradeBill> bills;
  for (const auto& [kind, boards] : kinds) {
    if (boards.size() < 2) continue;
    PlanRequest asked = base;
    asked.job = onlyOf(base.job, kind.first);
    if (asked.job.parts.empty()) continue;
    asked.made.clear();
    asked.laid.clear();
    // Three times the wood of the blanks leaves the plan a choice.
    const Feet feet{3 * blankFeet(asked.job, asked.shop).thousandths};
    asked.boards = typicalStock(boards, feet, prices, day);
    GradeBill bill = billOf(planning::makePlan(asked, limits, stop));
    bill.species = kind.first;
    bill.grade = kind.second;
    bill.seen = static_cast<int>(boards.size());
    bills.push_back(std::move(bill));
  }
  return bills;
}

Table gradeTable(const std::vector<GradeBill>& bills) {
  Table table;
  table.title = "Grades, on stock such as the book has seen";
  table.columns = {
      {"species", "species", false}, {"grade", "grade", false}, {"seen", "seen", true},
      {"boards", "boards", true},    {"feet", "feet", true},    {"wood", "wood", true},
      {"work", "cutting", true},     {"all", "together", true}, {"missing", "copies short", true}};
  for (const GradeBill& bill : bills) {
    table.rows.push_back(
        {bill.species, bill.grade, static_cast<std::int64_t>(bill.seen),
         static_cast<std::int64_t>(bill.boards), bill.feet, bill.wood, bill.work,
         bill.wood + bill.work,
         bill.missing == 0 ? CellValue{} : CellValue{static_cast<std::int64_t>(bill.missing)}});
  }
  return table;
}

}  // namespace flitch::desk
