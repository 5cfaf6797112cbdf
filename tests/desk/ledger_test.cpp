#include "inventory/desk/ledger_reports.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

#include "inventory/desk/bench.h"
#include "inventory/desk/family.h"
#include "inventory/desk/learned.h"
#include "inventory/desk/reports.h"
#include "inventory/desk/saw_otherwise.h"
#include "inventory/desk/ticks.h"
#include "inventory/planning/lessons.h"
#include "inventory/records/refusal.h"
#include "tests/desk/shop.h"

using namespace flitch;
using namespace flitch::desk;
using sample::in;
using sample::part;
using sample::plank;
using sample::Shop;

namespace {

/// One blank from the tag end.
Cutting cut(const Board& board, Length length, Length width, int line, int copy) {
  return sample::cutInOrder(board, {{length, width, line, copy}});
}

Received receive(Shop& shop, const std::string& supplier, const std::string& day,
                 std::vector<TallyLine> lines) {
  DeliveryDraft draft;
  draft.supplier = supplier;
  draft.reference = "7";
  draft.receivedOn = day;
  draft.lines = std::move(lines);
  int number = 1;
  for (TallyLine& line : draft.lines) line.line = ++number;
  return desk::receive(shop.book, draft, shop.hand);
}

TallyLine graded(const std::string& grade, std::int64_t price, Length length = in(96),
                 Length width = in(8)) {
  TallyLine line = plank(length, width);
  line.grade = grade;
  line.price = Money::units(price);
  line.log = "3";
  line.placeInLog = 2;
  line.moistureTenths = 75;
  return line;
}

// Three boards worked by hand. Cubic inches are square inches, boards are 1 in thick.
//   A  96 x 8, FAS from the Yard, 5 bf billed at $6: $30. Part 60 x 6 x 7/8 (blank 61 x 6 1/4), the
//      rest kept: offcut 32 7/8 x 8.                         measured 96 x 8 / 144 = 5.333 bf
//      part area 60 x 6 = 360 of 768: 2.500 bf; offcut 263 of 768: 1.826 bf
//      offcut worth 0.4 x $30 x (263 x 63 / 64) / 768 = $4.0451; the job takes $25.9549
//   B  the same, No. 1 Common from the Mill at $3: $15; worth kept $2.0225, the job takes $12.9775
//   C  the offcut of A: part 30 x 6 x 7/8 (blank 31 x 6 1/4); 1 3/4 of its length is too short to
//      keep, so the job takes all of its $4.0451.            part area 180 of 263: 1.250 of 1.826
//      bf
struct Three {
  Shop shop;
  Board a, b, c;
  JobId shelf, stool;

  Three() {
    a = receive(shop, "Yard", "2025-03-10", {graded("FAS", 6)}).boards[0];
    b = receive(shop, "Mill", "2025-11-02", {graded("No. 1 Common", 3)}).boards[0];
    Job job;
    job.name = "Shelf";
    job.customer = "Ida";
    job.parts = {part(1, 2, in(60), in(6))};
    shelf = addJob(shop.book, job, shop.hand);
    job.name = "Stool";
    job.parts = {part(1, 1, in(30), in(6))};
    stool = addJob(shop.book, job, shop.hand);
    saw(shelf, {cut(a, in(61), in(6, 16), 1, 1), cut(b, in(61), in(6, 16), 1, 2)});
    c = child(a);
    saw(stool, {cut(c, in(31), in(6, 16), 1, 1)});
  }
  void saw(JobId job, const std::vector<Cutting>& cuttings) {
    keep(shop.book, shop.planned(job, cuttings), false, shop.hand);
    sawAsPlanned(shop.book, job, {}, shop.hand);
  }
  [[nodiscard]] Board child(const Board& parent) const {
    return shop.now().board(shop.now().childrenOf(parent.id).at(0)).value();
  }
  [[nodiscard]] std::vector<YieldGroup> by(By what) const {
    return grouped(sawnBoards(shop.now()), what);
  }
};

std::size_t at(Cause cause) { return static_cast<std::size_t>(cause); }

template <class T>
T cell(const Table& table, std::size_t row, const std::string& key) {
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    if (table.columns[c].key == key) {
      return std::get<T>(row < table.rows.size() ? table.rows[row][c] : table.totals[c]);
    }
  }
  throw std::logic_error("no column " + key);
}

constexpr std::size_t total = 1'000'000;

}  // namespace

TEST_CASE("three boards by supplier and grade, by the figures worked by hand") {
  const Three three;
  const std::vector<YieldGroup> suppliers = three.by(By::supplier);
  REQUIRE(suppliers.size() == 2);
  const YieldGroup& mill = suppliers[0];
  CHECK(mill.name == "Mill");
  CHECK(mill.boards == std::vector{three.b.id});
  CHECK(mill.landed == Money::units(15));
  CHECK(mill.cost[at(Cause::offcuts)] == Money::tenThousandths(20'225));
  CHECK(mill.net() == Money::tenThousandths(129'775));
  CHECK(mill.partFeet() == Feet{2'500});
  const YieldGroup& yard = suppliers[1];
  CHECK(yard.name == "Yard");
  // The offcut counts under the supplier of the board it came from.
  CHECK(yard.boards == std::vector{three.a.id, three.c.id});
  CHECK(yard.landed == Money::tenThousandths(340'451));
  CHECK(yard.net() == Money::units(30));
  CHECK(yard.sawn == Feet{5'333 + 1'826});
  CHECK(yard.partFeet() == Feet{2'500 + 1'250});

  const Table clear = clearReport(sawnBoards(three.shop.now()));
  REQUIRE(clear.rows.size() == 2);
  CHECK(cell<std::string>(clear, 0, "grade") == "No. 1 Common");
  CHECK(cell<Money>(clear, 0, "cost_per_foot") == Money::tenThousandths(51'910));  // 12.9775 / 2.5
  CHECK(cell<Money>(clear, 0, "landed_per_foot") == Money::tenThousandths(28'127));  // 15 / 5.333
  CHECK(cell<std::string>(clear, 1, "grade") == "FAS");
  CHECK(cell<Money>(clear, 1, "cost_per_foot") == Money::units(8));  // 30 / 3.75
  CHECK(cell<Money>(clear, total, "net") == Money::tenThousandths(429'775));

  const std::vector<YieldGroup> grades = three.by(By::grade);
  CHECK(grades[0].name == "FAS");
  CHECK(grades[0].boards == yard.boards);
  CHECK(three.by(By::thickness).size() == 1);
  CHECK(three.by(By::species)[0].name == "cherry");
  CHECK(three.by(By::delivery)[0].name == "2025-03-10 Yard, 7");
  CHECK(three.by(By::job)[1].name == "Stool");
  CHECK(three.by(By::board).size() == 3);

  const Table feet = yieldReport(sawnBoards(three.shop.now()), By::job).feet;
  // 2.5 of 5.333 bf is 46.9 %; 1.25 of 1.826 is 68.5 %.
  CHECK(cell<Permille>(feet, 0, "yield") == Permille{469});
  CHECK(cell<Permille>(feet, 1, "yield") == Permille{685});
  CHECK(feet.boards[1] == std::vector{three.c.id});
  CHECK(three.shop.faults().empty());
}

TEST_CASE(
    "a plan sawn as planned shows no difference between planned and sawn, a spoiled part does") {
  Three three;
  const auto report = [&] {
    return actualReport(sawnBoards(three.shop.now()), three.shop.now(), By::job);
  };
  CHECK(cell<Money>(report(), total, "difference") == Money());
  CHECK(cell<Feet>(report(), 0, "planned_parts") == Feet{5'000});
  CHECK(cell<Feet>(report(), 0, "parts") == Feet{5'000});
  spoil(three.shop.book, three.shelf, {"A2"}, "split", three.shop.hand);
  CHECK(cell<Feet>(report(), 0, "planned_parts") == Feet{5'000});
  CHECK(cell<Feet>(report(), 0, "parts") == Feet{2'500});
  const YieldTables yield = yieldReport(sawnBoards(three.shop.now()), By::supplier);
  CHECK(cell<Feet>(yield.feet, 0, "spoiled") == Feet{2'500});
  CHECK(cell<Feet>(yield.feet, 0, "parts") == Feet{});
  CHECK(cell<std::monostate>(clearReport(sawnBoards(three.shop.now())), 0, "cost_per_foot") ==
        std::monostate{});
}

TEST_CASE("what sawing taught: wood used up, what is in parts of it, blanks lost by length") {
  Three three;
  const auto learned = [&] {
    return learnedReport(sawnBoards(three.shop.now()), three.shop.now());
  };
  {
    // The Mill's board: 5.333 bf less the offcut's 1.826 is 3.507 used up, 2.5 in parts: 71.3 %.
    // The Yard's: 5.333 of the first and all of its offcut, 3.75 in parts: 70.3 %.
    const Table yield = learned().yield;
    REQUIRE(yield.rows.size() == 2);
    CHECK(cell<std::string>(yield, 0, "supplier") == "Mill");
    CHECK(cell<Feet>(yield, 0, "used") == Feet{3'507});
    CHECK(cell<Permille>(yield, 0, "promised_yield") == Permille{713});
    CHECK(cell<Permille>(yield, 0, "yield") == Permille{713});
    CHECK(cell<Feet>(yield, 1, "used") == Feet{5'333});
    CHECK(cell<Permille>(yield, 1, "yield") == Permille{703});
    CHECK(cell<std::int64_t>(yield, total, "lost") == 0);
  }
  spoil(three.shop.book, three.shelf, {"A2"}, "split", three.shop.hand);
  const LearnedTables tables = learned();
  CHECK(cell<Permille>(tables.yield, 0, "promised_yield") == Permille{713});
  CHECK(cell<Permille>(tables.yield, 0, "yield") == Permille{0});
  CHECK(cell<Permille>(tables.yield, 0, "lost_share") == Permille{1000});
  CHECK(cell<std::int64_t>(tables.yield, 1, "lost") == 0);
  REQUIRE(tables.lengths.rows.size() == 2);
  CHECK(cell<std::string>(tables.lengths, 0, "length") == "24 to 48 in");
  CHECK(cell<std::int64_t>(tables.lengths, 0, "blanks") == 1);
  CHECK(cell<std::string>(tables.lengths, 1, "length") == "48 to 72 in");
  CHECK(cell<Permille>(tables.lengths, 1, "lost_share") == Permille{500});
  CHECK(tables.rows.rows.size() == 4);
  // One part 60 x 6 is short again: 2.5 bf in parts. 8.84 bf were used up for 3.75 in parts, so it
  // takes 2.5 x 8.84 / 3.75 = 5.893, up to 6 bf.
  planning::PlanResult plan;
  plan.request = request(three.shop.book, three.shelf, {});
  plan.plan.shorts = {{1, 1, false, ""}};
  addLessons(plan, three.shop.now());
  CHECK(plan.notes == std::vector<std::string>{
                          "Short of cherry 4/4: buy about 6 bf (2.5 bf in parts; of what the saw "
                          "used up so far 42.4 % is in parts)."});
  plan.plan.shorts[0].unseenOnly = true;
  plan.notes.clear();
  addLessons(plan, three.shop.now());
  CHECK(plan.notes.empty());
}

TEST_CASE("blanks on faces nobody looked at are counted by supplier, and what was lost of them") {
  Learned learned;
  learned.unseen["Yard"] = {23, 2};
  learned.unseen["Mill"] = {8, 0};
  CHECK(planning::unseenLesson(learned, "Yard", 12) ==
        "Of 23 blanks sawn from faces of Yard that nobody had looked at 2 were lost: of these 12 "
        "count on losing 2.");
  CHECK(planning::unseenLesson(learned, "Mill", 3) ==
        "Of 8 blanks sawn from faces of Mill that nobody had looked at none was lost: of these 3 "
        "count on losing none.");
  CHECK(planning::unseenLesson(learned, "Hobbs", 3).empty());
  Shop shop;
  TallyLine line = graded("FAS", 6);
  line.looked = {Looked::no, Looked::no};
  const Board board = receive(shop, "Yard", "2025-03-10", {line}).boards[0];
  Job job;
  job.name = "Shelf";
  job.parts = {part(1, 2, in(30), in(6))};
  const JobId shelf = addJob(shop.book, job, shop.hand);
  planning::PlanResult plan = sample::planOf(
      shop.book, shelf,
      {sample::cutInOrder(board, {{in(31), in(6, 16), 1, 1}, {in(31), in(6, 16), 1, 2}})});
  plan.request.choices.trustUnseen = true;
  REQUIRE(check(plan.plan, plan.request).empty());
  keep(shop.book, plan, false, shop.hand);
  sawAsPlanned(shop.book, shelf, {}, shop.hand, {{"A2"}, "a knot inside"});
  const BlankCount count = learnedFrom(sawnBoards(shop.now()), shop.now()).unseen.at("Yard");
  CHECK(count.sawn == 2);
  CHECK(count.lost == 1);
}

TEST_CASE("ticks of a pull list outlast the program and a plan made again, until forgotten") {
  Shop shop;
  const std::vector<Board> boards =
      receive(shop, "Yard", "2025-03-10", {graded("FAS", 6), graded("FAS", 6)}).boards;
  PullList list;
  list.jobId = JobId{7};
  list.lines.resize(2);
  list.lines[0].board = boards[0];
  list.lines[1].board = boards[1];
  list.lines[1].here = true;
  keepTicks(shop.book, list);
  PullList later = list;
  later.lines[1].here = false;
  std::swap(later.lines[0], later.lines[1]);
  const Book again = Book::open(shop.book.path(), store::Access::read);
  recallTicks(again, later);
  CHECK(later.lines[0].here);
  CHECK_FALSE(later.lines[1].here);
  forgetTicks(shop.book, JobId{7});
  later.lines[0].here = false;
  recallTicks(again, later);
  CHECK(later.left() == 2);
}

TEST_CASE("of two offcuts kept one was used, by age and by worth") {
  const Three three;
  const std::string today = cameOn(three.shop.now(), three.c);
  const Table kept = keptReport(three.shop.now(), today);
  REQUIRE(kept.rows.size() == 1);
  CHECK(cell<std::string>(kept, 0, "age") == "to 3 months");
  CHECK(cell<std::int64_t>(kept, 0, "offcuts") == 2);
  CHECK(cell<Money>(kept, 0, "worth") == Money::tenThousandths(40'451 + 20'225));
  CHECK(cell<std::int64_t>(kept, 0, "used") == 1);
  CHECK(cell<Money>(kept, 0, "used_worth") == Money::tenThousandths(40'451));
  CHECK(cell<Money>(kept, 0, "here_worth") == Money::tenThousandths(20'225));
  CHECK(cell<std::int64_t>(kept, 0, "gone") == 0);
  CHECK(cell<Permille>(kept, total, "used_share") == Permille{667});  // 4.0451 of 6.0676
  const Table later = keptReport(three.shop.now(), "2099-01-01");
  CHECK(cell<std::string>(later, 0, "age") == "over 12");
}

TEST_CASE("months are counted as a calendar does") {
  CHECK(monthsBetween("2025-03-10", "2025-03-10") == 0);
  CHECK(monthsBetween("2025-03-10", "2025-04-09") == 0);
  CHECK(monthsBetween("2025-03-10", "2025-04-10") == 1);
  CHECK(monthsBetween("2025-01-31", "2025-02-28") == 1);
  CHECK(monthsBetween("2024-11-30", "2026-11-29") == 23);
  CHECK(monthsBetween("2026-01-01", "2025-01-01") == 0);
  CHECK(monthsBetween("", "2025-01-01") == 0);
}

TEST_CASE("boards that lie long: by their delivery's day, an offcut by the day it was sawn") {
  Shop shop;
  receive(shop, "Yard", "2025-03-10", {graded("FAS", 6)});
  receive(shop, "Yard", "2026-02-28", {graded("FAS", 6), graded("FAS", 6)});
  const Table old = oldReport(shop.now(), "2026-03-28", 12);
  REQUIRE(old.rows.size() == 1);
  CHECK(cell<std::string>(old, 0, "since") == "2025-03-10");
  CHECK(cell<std::int64_t>(old, 0, "months") == 12);
  CHECK(oldReport(shop.now(), "2026-03-28", 1).rows.size() == 3);
  CHECK(oldReport(shop.now(), "2026-03-27", 1).rows.size() == 1);
  const Three three;
  const Table offcut = oldReport(three.shop.now(), "2099-01-01", 1);
  CHECK(cell<std::string>(offcut, 0, "since") == cameOn(three.shop.now(), three.c));
}

TEST_CASE("the family of a board adds up, generation by generation") {
  Three three;
  spoil(three.shop.book, three.shelf, {"A1"}, "split", three.shop.hand);
  const Family family = familyOf(three.shop.now(), three.c, Unit::inches);
  CHECK(family.delivery == "2025-03-10 Yard, 7");
  CHECK(family.log == "log 3, place 2");
  REQUIRE(!family.lines.empty());
  CHECK(family.lines[0].board == three.a.id);
  CHECK(family.lines[0].cost == Money::units(30));
  // Every board's pieces add up to it.
  for (std::size_t n = 0; n < family.lines.size(); ++n) {
    const FamilyLine& board = family.lines[n];
    if (board.kind != FamilyLine::Kind::board) continue;
    CubicMillimetres volume;
    Money cost;
    for (std::size_t p = n + 1; p < family.lines.size() && family.lines[p].depth > board.depth;
         ++p) {
      if (family.lines[p].depth != board.depth + 1) continue;
      volume += family.lines[p].volume;
      cost += family.lines[p].cost;
    }
    CHECK(volume == board.volume);
    CHECK(cost == board.cost);
  }
  std::vector<std::string> parts;
  for (const FamilyLine& line : family.lines) {
    if (line.kind == FamilyLine::Kind::part || line.kind == FamilyLine::Kind::spoiled) {
      parts.push_back(line.name + " " + line.where);
    }
  }
  CHECK(parts == std::vector<std::string>{"A1 Shelf, spoiled since", "A1 Stool"});
  // A board used up by hand leaves what is left of it in the family.
  const UsedByHand used =
      useByHand(three.shop.book, three.child(three.b).id, {}, in(20), "", three.shop.hand);
  const Family mill = familyOf(three.shop.now(), used.left.value(), Unit::inches);
  CHECK(mill.lines.front().board == three.b.id);
  const auto lineOf = [&](BoardId board) {
    const auto found = std::find_if(mill.lines.begin(), mill.lines.end(),
                                    [&](const FamilyLine& line) { return line.board == board; });
    REQUIRE(found != mill.lines.end());
    return *found;
  };
  CHECK(lineOf(used.left->id).where == "on the rack");
  CHECK(lineOf(used.left->id).depth == 2);
  CHECK(lineOf(used.board.id).where == "by hand");
  CHECK(lineOf(used.board.id).cost == Money::tenThousandths(20'225));
}

TEST_CASE("a part's passport leads back to board, delivery and log, and names no money") {
  const Three three;
  const Passport passport = passportOf(three.shop.now(), three.stool, "a1");
  CHECK(passport.part == "part 1");
  CHECK(passport.customer == "Ida");
  CHECK(passport.board == text(*three.c.tag));
  CHECK(passport.parents == std::vector{text(*three.a.tag)});
  CHECK(passport.delivery == "2025-03-10 Yard, 7");
  CHECK(passport.log == "3, place 2");
  CHECK(passport.grade == "FAS");
  REQUIRE(passport.moisture);
  CHECK(passport.moisture->tenthsPercent == 75);
  const Table table = passportTable(passport, Unit::inches);
  for (const auto& row : table.rows) {
    for (const CellValue& value : row) {
      CHECK(std::holds_alternative<std::string>(value));
      CHECK(text(value, Unit::inches, "$").find('$') == std::string::npos);
    }
  }
  const auto code = [&](JobId job, const char* mark) -> std::string {
    try {
      (void)passportOf(three.shop.now(), job, mark);
    } catch (const Refusal& refusal) {
      return refusal.code();
    }
    return "";
  };
  CHECK(code(three.stool, "A2") == "unknown-mark");
  CHECK(code(three.shelf, "A2").empty());
}

TEST_CASE("over random shops every report adds up to the ledger, every past stock is replayed") {
  std::map<std::string, int> done;
  for (unsigned seed = 1; seed <= 6; ++seed) {
    std::mt19937 random(seed);
    const auto below = [&](int n) { return std::uniform_int_distribution<int>(0, n - 1)(random); };
    Shop shop;
    std::vector<JobId> jobs;
    for (const char* name : {"Chest", "Bench"}) {
      Job job;
      job.name = name;
      job.parts = {part(1, 40, in(20), in(4)), part(2, 40, in(30), in(5))};
      jobs.push_back(addJob(shop.book, job, shop.hand));
    }
    std::map<EntryId, std::map<BoardId, store::Balance>> stocks;
    for (int step = 0; step < 40; ++step) {
      const int dice = below(10);
      const JobId job = jobs[static_cast<std::size_t>(below(2))];
      const std::vector<Board> rack = shop.now().rack();
      try {
        if (dice < 3 || rack.empty()) {
          receive(
              shop, below(2) ? "Yard" : "Mill", "2025-0" + std::to_string(1 + below(9)) + "-01",
              {graded(below(2) ? "FAS" : "", 3 + below(9), in(50 + below(60)), in(6 + below(4)))});
          ++done["received"];
        } else if (dice < 8) {
          const Board board = rack[static_cast<std::size_t>(below(static_cast<int>(rack.size())))];
          const int line = 1 + below(2);
          const Length length = line == 1 ? in(21) : in(31);
          if (board.length() < length + in(4)) continue;
          const std::set<int> made = shop.now().made(job)[line];
          int copy = 1;
          while (made.contains(copy)) ++copy;
          keep(shop.book,
               shop.planned(job,
                            {cut(board, length, line == 1 ? in(4, 16) : in(5, 16), line, copy)}),
               false, shop.hand);
          sawAsPlanned(shop.book, job, {board.id}, shop.hand);
          ++done["sawn"];
        } else if (dice < 9) {
          const std::map<int, std::set<int>> made = shop.now().made(job);
          if (made.empty()) continue;
          spoil(shop.book, job, {handMark(made.begin()->first, *made.begin()->second.begin())}, "",
                shop.hand);
          ++done["spoiled"];
        } else {
          undo(shop.book, shop.hand);
          ++done["undone"];
        }
      } catch (const Refusal&) {
        ++done["refused"];
      }
      const store::Snapshot now = shop.now();
      std::map<BoardId, store::Balance>& stock = stocks[now.lastEntry()];
      stock.clear();
      for (const Board& board : now.rack()) stock[board.id] = {board.wood, board.cost};

      const std::vector<SawnBoard> boards = sawnBoards(now);
      const YieldGroup all = together(boards);
      std::map<AccountKind, store::LedgerSum> posted;
      CubicMillimetres volume;
      Money cost;
      for (const store::LedgerSum& sum : now.sawnSums(std::nullopt)) {
        posted[sum.target] = sum;
        volume += sum.volume;
        cost += sum.cost;
      }
      CHECK(all.wood == volume);
      CHECK(all.landed == cost);
      for (std::size_t fate = 0; fate < fateCount; ++fate) {
        const AccountKind kind = fate == spoiledFate          ? AccountKind::lost
                                 : fate == binFate            ? AccountKind::bin
                                 : fate == at(Cause::offcuts) ? AccountKind::board
                                                              : accountOf(static_cast<Cause>(fate));
        CHECK(all.volume[fate] == posted[kind].volume);
        CHECK(all.cost[fate] == posted[kind].cost);
      }
      Feet feet;
      for (const Feet part : all.feet) feet += part;
      CHECK(feet == all.sawn);
      CHECK(cell<Money>(keptReport(now, "2099-01-01"), total, "worth") ==
            posted[AccountKind::board].cost);
      for (std::size_t by = 0; by < byWords.size(); ++by) {
        YieldGroup sum;
        std::size_t count = 0;
        for (const YieldGroup& group : grouped(boards, static_cast<By>(by))) {
          count += group.boards.size();
          sum.sawn += group.sawn;
          sum.wood += group.wood;
          sum.landed += group.landed;
          for (std::size_t fate = 0; fate < fateCount; ++fate) {
            sum.volume[fate] += group.volume[fate];
            sum.cost[fate] += group.cost[fate];
            sum.feet[fate] += group.feet[fate];
          }
        }
        CHECK(count == boards.size());
        CHECK(sum.sawn == all.sawn);
        CHECK(sum.wood == all.wood);
        CHECK(sum.landed == all.landed);
        CHECK(sum.volume == all.volume);
        CHECK(sum.cost == all.cost);
        CHECK(sum.feet == all.feet);
      }
      const Table old = oldReport(now, "2099-01-01", 1);
      CHECK(cell<Money>(old, total, "value") == cell<Money>(stockReport(now), total, "value"));
    }
    for (const auto& [entry, stock] : stocks) CHECK(shop.now().balancesAt(entry) == stock);
    const std::string today = dayAt(shop.now().entry(shop.now().lastEntry())->at);
    CHECK(cell<Money>(stockOn(shop.now(), today), total, "value") ==
          cell<Money>(stockReport(shop.now()), total, "value"));
    CHECK(stockOn(shop.now(), "2001-01-01").rows.empty());
    CHECK(shop.faults().empty());
  }
  for (const char* verb : {"received", "sawn", "spoiled", "undone"}) {
    INFO(verb);
    CHECK(done[verb] > 5);
  }
}
