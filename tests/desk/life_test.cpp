#include <catch2/catch.hpp>
#include <numeric>

#include "inventory/desk/proof.h"
#include "inventory/desk/reports.h"
#include "inventory/store/writer.h"
#include "tests/desk/life.h"

using namespace flitch;
using namespace flitch::desk;
using sample::box;
using sample::cuttingOf;
using sample::in;
using sample::Life;
using sample::part;
using sample::piece;
using sample::plank;
using sample::Shop;
using K = PieceKind;

namespace {

constexpr double cubicInch = 16387.064;  // mm³, exactly
/// Cubic inches of each cause: 768 in all.
constexpr double parts = 60 * 6 * 0.875;             // 315
constexpr double machining = 61 * 6.25 - parts;      // 381.25 - 315 = 66.25
constexpr double kerf = 2 * 61 * 0.125 + 0.125 * 8;  // 16.25
constexpr double endTrim = 2 * 8;                    // 16
constexpr double offcut = 32.875 * 8;                // 263
constexpr double defects = 2 * 1;                    // 2
constexpr double unusable = 61 * 1.5 - 2;            // 89.5

}  // namespace

TEST_CASE("a board received has the yard's figures and ours") {
  const Life life;
  // Surface measure 8 x 8 / 12 = 5.33: 5; billed 5 bf at $6. Measured 96 x 8 / 144 = 5.333 bf.
  CHECK(life.board.billed == Feet{5'000});
  CHECK(life.board.measuredFeet == Feet{5'333});
  CHECK(life.board.price == Money::units(30));
  CHECK(life.board.cost == Money::units(30));
  CHECK(life.board.wood.value == 12'585'265);  // 768 x 16 387.064 = 12 585 265.15
  CHECK(life.board.supplier == "Yard");
  CHECK(text(*life.board.tag) == "T0001-X");
  CHECK(
      life.now(life.board.id).defects ==
      std::vector<Defect>{{"sound knot", DefectFace::through, box(in(10), in(7), in(12), in(8))}});
}

TEST_CASE("a plan sawn as planned posts exactly the wood cost it promised") {
  Life life;
  // 40 % of $30 x (263 x 63 / 64) / 768, the reference edge off the 8 in: $4.04516..., cut off.
  CHECK(life.plan.plan.offcutWorth == Money::tenThousandths(40'451));
  CHECK(life.plan.plan.woodCost == Money::tenThousandths(259'549));
  const Sawn sawn = sawAsPlanned(life.shop.book, life.job, {}, life.shop.hand);
  CHECK(sawn.woodCost == life.plan.plan.woodCost);
  CHECK(sawn.boards == std::vector{life.board.id});

  const auto sums = life.shop.now().sawnSums(life.job);
  Money posted;
  std::map<AccountKind, store::LedgerSum> by;
  for (const store::LedgerSum& sum : sums) {
    by[sum.target] = sum;
    if (sum.target != AccountKind::board) posted += sum.cost;
  }
  CHECK(posted == life.plan.plan.woodCost);
  const auto holds = [&](AccountKind kind, double inches) {
    INFO(word(kind));
    CHECK(std::abs(static_cast<double>(by[kind].volume.value) - inches * cubicInch) <= 1.5);
    if (kind == AccountKind::board) return;
    // $25.9549 falls on the 505 in³ that are no offcut, by volume.
    const double money = 259'549 * inches / 505;
    CHECK(std::abs(static_cast<double>(by[kind].cost.raw()) - money) <= 1);
  };
  holds(AccountKind::parts, parts);
  holds(AccountKind::machining, machining);
  holds(AccountKind::kerf, kerf);
  holds(AccountKind::endTrim, endTrim);
  holds(AccountKind::defect, defects);
  holds(AccountKind::unusable, unusable);
  holds(AccountKind::board, offcut);
  CHECK(by[AccountKind::board].cost == Money::tenThousandths(40'451));

  const Board gone = life.now(life.board.id);
  CHECK_FALSE(gone.onRack());
  CHECK(gone.cost == Money{});
  CHECK(life.shop.now().made(life.job) == std::map<int, std::set<int>>{{1, {1}}});
  CHECK(life.shop.faults().empty());
}

TEST_CASE("the offcut is a tagged board with its share of wood, feet and cost") {
  Life life;
  const Sawn sawn = sawAsPlanned(life.shop.book, life.job, {life.board.id}, life.shop.hand);
  REQUIRE(sawn.offcuts.size() == 1);
  const Board& left = sawn.offcuts.front();
  REQUIRE(left.tag);
  CHECK(text(*left.tag) == "T0002-V");
  CHECK(left.kind == BoardKind::offcut);
  CHECK(left.parent == life.board.id);
  CHECK(left.length() == in(32, 56));
  CHECK(left.widthAtTag() == in(8));
  CHECK(left.sawnEnd == std::array{true, true});
  CHECK(left.cost == Money::tenThousandths(40'451));
  CHECK(left.looked == life.board.looked);
  CHECK(left.defects.empty());
  // 5.333 bf x 263 / 768 = 1.826.
  CHECK(left.measuredFeet == Feet{1'826});
  CHECK(std::abs(static_cast<double>(left.wood.value) - offcut * cubicInch) <= 1.5);
  CHECK(boardNamed(life.shop.now(), "t0002v").id == left.id);
}

TEST_CASE("the waste report sums to the boards sawn, to the last unit") {
  Life life;
  sawAsPlanned(life.shop.book, life.job, {}, life.shop.hand);
  for (const std::optional<JobId> job : {std::optional<JobId>{}, std::optional{life.job}}) {
    const Table table = wasteReport(life.shop.now(), job);
    REQUIRE(table.rows.size() == causeCount);
    CubicMillimetres volume;
    Feet feet;
    Money cost;
    for (const auto& row : table.rows) {
      volume += std::get<CubicMillimetres>(row[1]);
      feet += std::get<Feet>(row[2]);
      cost += std::get<Money>(row[3]);
    }
    CHECK(volume == life.board.wood);
    CHECK(feet == life.board.measuredFeet);
    CHECK(cost == life.board.cost);
    CHECK(std::get<CubicMillimetres>(table.totals[1]) == volume);
    CHECK(std::get<Feet>(table.totals[2]) == feet);
    CHECK(std::get<Money>(table.totals[3]) == cost);
    // Volume and money are the ledger's own; the accounts that sawing went by say the same.
    const Breakdown again = account(cuttingOf(life.board.id), life.plan.request.boards.front(),
                                    life.plan.request.job, life.plan.request.shop, in(0, 8));
    for (const store::LedgerSum& sum : life.shop.now().sawnSums(job)) {
      const auto c = static_cast<std::size_t>([&] {
        for (std::size_t i = 0; i < causeCount; ++i) {
          const auto cause = static_cast<Cause>(i);
          if (cause != Cause::offcuts && accountOf(cause) == sum.target) return cause;
        }
        return Cause::offcuts;
      }());
      INFO(word(sum.target));
      CHECK(std::get<CubicMillimetres>(table.rows[c][1]) == sum.volume);
      CHECK(std::get<Money>(table.rows[c][3]) == sum.cost);
      CHECK(again.volume[c] == sum.volume);
      CHECK(again.cost[c] == sum.cost);
    }
    // Parts are 315 of 768 in³: 41.0 %.
    CHECK(std::get<std::string>(table.rows[0][0]) == "parts");
    CHECK(std::get<Permille>(table.rows[0][4]).value == 410);
  }
}

TEST_CASE("the reports on offcuts and stock") {
  Life life;
  sawAsPlanned(life.shop.book, life.job, {}, life.shop.hand);
  const Table offcuts = offcutReport(life.shop.now(), "2026-05-31");
  REQUIRE(offcuts.rows.size() == 1);
  CHECK(std::get<std::string>(offcuts.rows[0][0]) == "T0002-V");
  CHECK(std::get<Money>(offcuts.rows[0][6]) == Money::tenThousandths(40'451));
  CHECK(std::get<std::string>(offcuts.rows[0][7]) == "T0001-X");
  CHECK(std::get<std::string>(offcuts.rows[0][8]) == "Shelf");
  const Table stock = stockReport(life.shop.now());
  REQUIRE(stock.rows.size() == 1);
  CHECK(std::get<std::int64_t>(stock.totals[2]) == 1);
  CHECK(std::get<Money>(stock.totals[4]) == Money::tenThousandths(40'451));
}

TEST_CASE("the reports of one job") {
  Life life;
  Job asked;
  asked.name = "Other";
  asked.parts = {part(1, 1, in(60), in(6))};
  const JobId other = addJob(life.shop.book, asked, life.shop.hand);
  const Board second = life.shop.receive({plank(in(96), in(8))}).boards.front();
  keep(life.shop.book, life.shop.planned(other, {cuttingOf(second.id)}), true, life.shop.hand);
  sawAsPlanned(life.shop.book, life.job, {}, life.shop.hand);
  const store::Snapshot now = life.shop.now();
  CHECK(offcutReport(now, "2026-05-31").rows.size() == 1);
  CHECK(offcutReport(now, "2026-05-31", life.job).rows.size() == 1);
  CHECK(offcutReport(now, "2026-05-31", life.job).title == "Offcuts on the rack from Shelf");
  CHECK(offcutReport(now, "2026-05-31", other).rows.empty());
  CHECK(std::get<std::int64_t>(stockReport(now).totals[2]) == 2);
  CHECK(std::get<std::int64_t>(stockReport(now, other).totals[2]) == 1);
  CHECK(std::get<std::int64_t>(stockReport(now, life.job).totals[2]) == 0);
}

TEST_CASE("proving the book cuts its kept plans again") {
  Life life;
  CHECK(prove(life.shop.book).empty());
  CutPlan bent = life.plan.plan;
  bent.job = life.job;
  bent.profile = life.shop.now().shop().id;
  Piece& blank = bent.cuttings.at(0).pieces.at(5);
  blank.at.dx += in(0, 8);
  life.shop.book.change({"plan kept", life.job, "", {}}, life.shop.hand,
                        [&](store::Writer& writer) { writer.addPlan(bent); });
  const std::vector<store::Unsound> found = prove(life.shop.book);
  REQUIRE_FALSE(found.empty());
  CHECK(found.front().sentence.rfind("Plan 2 of Shelf on T0001-X: ", 0) == 0);
  // A board marked since is no longer what the plan was cut on.
  Board changed = life.now(life.board.id);
  changed.defects.push_back({"check", DefectFace::a, box(in(0), in(0), in(4), in(1))});
  survey(life.shop.book, changed, life.shop.hand);
  CHECK(prove(life.shop.book).empty());
}

TEST_CASE("an offcut is planned and sawn in its turn, and its account empties") {
  Life life;
  const Board left = sawAsPlanned(life.shop.book, life.job, {}, life.shop.hand).offcuts.front();
  Job asked;
  asked.name = "Box";
  asked.parts = {part(1, 2, in(30), in(3))};
  const JobId job = addJob(life.shop.book, asked, life.shop.hand);
  Cutting cutting;
  cutting.board = left.id;
  // Both ends are ours: no trim. 32 7/8 x 8: one blank 31 x 3 1/4 and an offcut beside it.
  const Length end = in(32, 56);
  cutting.pieces = {piece(0, K::cut, box(in(0), in(0), end, in(8))),
                    piece(1, K::cut, box(in(0), in(0), end, in(8))),
                    piece(2, K::kerf, box(in(0), in(0), end, in(0, 8))),
                    piece(2, K::cut, box(in(0), in(0, 8), end, in(3, 24))),
                    piece(3, K::blank, box(in(0), in(0, 8), in(31), in(3, 24)), 1, 1),
                    piece(3, K::kerf, box(in(31), in(0, 8), in(31, 8), in(3, 24))),
                    piece(3, K::unusable, box(in(31, 8), in(0, 8), end, in(3, 24))),
                    piece(2, K::kerf, box(in(0), in(3, 24), end, in(3, 32))),
                    piece(2, K::offcut, box(in(0), in(3, 32), end, in(8)))};
  const planning::PlanResult plan = life.shop.planned(job, {cutting});
  keep(life.shop.book, plan, false, life.shop.hand);
  const Sawn sawn = sawAsPlanned(life.shop.book, job, {}, life.shop.hand);
  CHECK(sawn.woodCost == plan.plan.woodCost);
  CHECK(sawn.woodCost + sawn.offcuts.front().cost == left.cost);
  CHECK(life.now(left.id).wood.value == 0);
  CHECK(life.shop.faults().empty());
  // The first board's sawing now has something standing on it; the newest entry goes first.
  CHECK(undo(life.shop.book, life.shop.hand).reversed == sawn.entry);
  CHECK(life.now(left.id).cost == left.cost);
  CHECK(life.shop.faults().empty());
}

TEST_CASE("undo goes back step by step until nothing is left") {
  Life life(true);
  CHECK(life.now(life.board.id).reservedName == "Shelf");
  const Board before = life.now(life.board.id);
  const Sawn sawn = sawAsPlanned(life.shop.book, life.job, {}, life.shop.hand);
  const BoardId left = sawn.offcuts.front().id;

  const Undone saw = undo(life.shop.book, life.shop.hand);
  CHECK(saw.reversed == sawn.entry);
  CHECK(saw.what == "sawn, 1 board of Shelf");
  const Board back = life.now(life.board.id);
  CHECK(back.wood == before.wood);
  CHECK(back.cost == before.cost);
  CHECK(back.reservedName == "Shelf");
  CHECK_FALSE(life.now(left).onRack());
  CHECK(life.now(left).withdrawn);
  CHECK(life.shop.now().made(life.job).empty());
  CHECK(life.shop.faults().empty());
  CHECK(life.code([&] { static_cast<void>(boardNamed(life.shop.now(), "T0002-V")); }) != "");

  CHECK(undo(life.shop.book, life.shop.hand).reversed == life.kept.entry);
  CHECK_FALSE(life.shop.now().newestPlan(life.job));
  CHECK(undo(life.shop.book, life.shop.hand).what == "job added, Shelf");
  CHECK(undo(life.shop.book, life.shop.hand).what == "marked, 1 mark on 1 board");
  CHECK(life.now(life.board.id).defects.empty());
  CHECK(undo(life.shop.book, life.shop.hand).what == "received, 1 board from Yard");
  CHECK(life.shop.now().rack().empty());
  CHECK(life.code([&] { undo(life.shop.book, life.shop.hand); }) == "nothing-to-undo");
  CHECK(life.shop.faults().empty());
}

TEST_CASE("sawing again after an undo gives the same again") {
  Life life;
  const Sawn first = sawAsPlanned(life.shop.book, life.job, {}, life.shop.hand);
  undo(life.shop.book, life.shop.hand);
  const Sawn second = sawAsPlanned(life.shop.book, life.job, {}, life.shop.hand);
  CHECK(second.woodCost == first.woodCost);
  CHECK(second.offcuts.front().wood == first.offcuts.front().wood);
  CHECK(life.shop.faults().empty());
}

TEST_CASE("sawing is refused where the book is not as the plan saw it") {
  Life life;
  const auto saw = [&](const std::vector<BoardId>& boards) {
    return life.code([&] { sawAsPlanned(life.shop.book, life.job, boards, life.shop.hand); });
  };
  const Board other = life.shop.receive({plank(in(96), in(8))}).boards.front();
  CHECK(saw({other.id}) == "not-in-plan");
  CHECK(life.code([&] { static_cast<void>(jobOf(life.shop.now(), other.id)); }) == "not-in-plan");
  CHECK(jobOf(life.shop.now(), life.board.id) == life.job);

  SECTION("sawn already") {
    CHECK(saw({}) == "");
    CHECK(saw({life.board.id}) == "sawn-already");
    CHECK(saw({}) == "nothing-to-saw");
  }
  SECTION("marked since") {
    Board changed = life.now(life.board.id);
    changed.defects.push_back({"check", DefectFace::a, box(in(0), in(0), in(4), in(1))});
    const EntryId entry = survey(life.shop.book, changed, life.shop.hand);
    CHECK(saw({}) == "stale");
    CHECK_THROWS_WITH(sawAsPlanned(life.shop.book, life.job, {}, life.shop.hand),
                      "T0001-X was changed since the plan was kept (entry " +
                          std::to_string(entry.value) + "): plan again.");
  }
  SECTION("marked and unmarked since: it is as the plan saw it") {
    const Board whole = life.now(life.board.id);
    Board changed = whole;
    changed.defects.push_back({"check", DefectFace::a, box(in(0), in(0), in(4), in(1))});
    survey(life.shop.book, changed, life.shop.hand);
    undo(life.shop.book, life.shop.hand);
    CHECK(saw({}) == "");
  }
  SECTION("no plan") {
    Job asked;
    asked.name = "Other";
    asked.parts = {part(1, 1, in(60), in(6))};
    const JobId none = addJob(life.shop.book, asked, life.shop.hand);
    CHECK(life.code([&] { sawAsPlanned(life.shop.book, none, {}, life.shop.hand); }) == "no-plan");
    // A board in two plans names no job of itself.
    keep(life.shop.book, life.shop.planned(none, {cuttingOf(life.board.id)}), false,
         life.shop.hand);
    CHECK(life.code([&] { static_cast<void>(jobOf(life.shop.now(), life.board.id)); }) ==
          "several-jobs");
  }
  CHECK(life.shop.faults().empty());
}

TEST_CASE("copies sawn out of their order are not numbered again") {
  Shop shop;
  const std::vector<Board> boards =
      shop.receive({plank(in(31), in(8)), plank(in(31), in(8))}).boards;
  Job asked;
  asked.name = "Rails";
  asked.parts = {part(1, 4, in(28), in(3))};
  const JobId job = addJob(shop.book, asked, shop.hand);
  const auto plan = [&] {
    const planning::PlanResult made = planning::makePlan(request(shop.book, job, {}), {});
    keep(shop.book, made, false, shop.hand);
    return made.plan;
  };
  const CutPlan first = plan();
  REQUIRE(first.cuttings.size() == 2);
  sawAsPlanned(shop.book, job, {first.cuttings[1].board}, shop.hand);
  CHECK(shop.now().made(job) == std::map<int, std::set<int>>{{1, {3, 4}}});
  plan();
  sawAsPlanned(shop.book, job, {}, shop.hand);
  CHECK(shop.now().made(job) == std::map<int, std::set<int>>{{1, {1, 2, 3, 4}}});
}

TEST_CASE("keeping a plan looks again at every board") {
  Life life;
  const planning::PlanResult result = life.shop.planned(life.job, {cuttingOf(life.board.id)});
  SECTION("changed since") {
    Board changed = life.now(life.board.id);
    changed.note = "a staple";
    survey(life.shop.book, changed, life.shop.hand);
    CHECK(life.code([&] { keep(life.shop.book, result, false, life.shop.hand); }) == "stale");
  }
  SECTION("changed and changed back since") {
    Board changed = life.now(life.board.id);
    changed.note = "a staple";
    survey(life.shop.book, changed, life.shop.hand);
    undo(life.shop.book, life.shop.hand);
    CHECK(life.code([&] { keep(life.shop.book, result, false, life.shop.hand); }) == "");
  }
  SECTION("held for another job since") {
    Job asked;
    asked.name = "Other";
    asked.parts = {part(1, 1, in(60), in(6))};
    const JobId other = addJob(life.shop.book, asked, life.shop.hand);
    keep(life.shop.book, life.shop.planned(other, {cuttingOf(life.board.id)}), true,
         life.shop.hand);
    CHECK(life.code([&] { keep(life.shop.book, result, false, life.shop.hand); }) == "reserved");
    CHECK(request(life.shop.book, life.job, {}).boards.empty());
    CHECK(request(life.shop.book, other, {}).boards.size() == 1);
  }
  SECTION("more of the job was sawn since") {
    const Board second = life.shop.receive({plank(in(96), in(8))}).boards.front();
    const planning::PlanResult late = life.shop.planned(life.job, {cuttingOf(second.id)});
    sawAsPlanned(life.shop.book, life.job, {}, life.shop.hand);
    CHECK(life.code([&] { keep(life.shop.book, late, false, life.shop.hand); }) == "stale");
    CHECK(life.shop.now().newestPlan(life.job)->sawn.size() == 1);
  }
  SECTION("a newer plan frees what it leaves alone") {
    const Board second = life.shop.receive({plank(in(96), in(8))}).boards.front();
    keep(life.shop.book, result, true, life.shop.hand);
    keep(life.shop.book, life.shop.planned(life.job, {cuttingOf(second.id)}), true, life.shop.hand);
    CHECK_FALSE(life.now(life.board.id).reservedFor);
    CHECK(life.now(second.id).reservedFor == life.job);
  }
}

TEST_CASE("planning again keeps the better plan") {
  Life life;
  const CutPlan old = life.shop.now().newestPlan(life.job)->plan;
  // Another board of the same size at twice the price.
  TallyLine dear = plank(in(96), in(8));
  dear.price = Money::units(12);
  const Board second = life.shop.receive({dear}).boards.front();
  planning::PlanResult dearer = life.shop.planned(life.job, {cuttingOf(second.id)});
  REQUIRE(dearer.plan.total() > old.total());

  SECTION("the dearer new one goes, its bound on today's stock stays") {
    dearer.plan.bound = Money::units(4);
    dearer.plan.boundKind = PlanBound::exact;
    dearer.plan.ending = PlanEnding::stopped;
    const planning::PlanResult stands = better(life.shop.book, dearer);
    CHECK(stands.plan.cuttings == old.cuttings);
    CHECK(stands.plan.total() == old.total());
    CHECK(stands.plan.bound == Money::units(4));
    CHECK(stands.plan.ending == PlanEnding::stopped);
    CHECK(stands.notes.back().find("stays") != std::string::npos);
    CHECK(keep(life.shop.book, stands, false, life.shop.hand).plan != old.id);
    // Nothing was written since: now the plan stands as it is, with the bound it had.
    dearer.plan.bound = Money::units(3);
    const planning::PlanResult again = better(life.shop.book, dearer);
    CHECK(again.plan == life.shop.now().newestPlan(life.job)->plan);
    const EntryId before = life.shop.now().lastEntry();
    CHECK(keep(life.shop.book, again, false, life.shop.hand).plan == again.plan.id);
    CHECK(life.shop.now().lastEntry() == before);
    // Its boards may still be held by it.
    const Kept held = keep(life.shop.book, again, true, life.shop.hand);
    CHECK(held.plan == again.plan.id);
    CHECK(life.now(life.board.id).reservedFor == life.job);
    CHECK(life.shop.now().plans(life.job).size() == 2);
  }
  SECTION("a bound that reaches the older plan proves it") {
    dearer.plan.bound = old.total();
    dearer.plan.boundKind = PlanBound::exact;
    const planning::PlanResult stands = better(life.shop.book, dearer);
    CHECK(stands.plan.cuttings == old.cuttings);
    CHECK(stands.plan.ending == PlanEnding::closed);
    CHECK(stands.sentence.find("cheapest") != std::string::npos);
  }
  SECTION("a cheaper new one is taken") {
    keep(life.shop.book, dearer, false, life.shop.hand);
    const planning::PlanResult cheaper = life.shop.planned(life.job, {cuttingOf(life.board.id)});
    CHECK(better(life.shop.book, cheaper).plan == cheaper.plan);
  }
  SECTION("one that supplies less does not stand for its price") {
    keep(life.shop.book, life.shop.planned(life.job, {}), false, life.shop.hand);
    CHECK(better(life.shop.book, dearer).plan == dearer.plan);
  }
  SECTION("a plan of a board that changed does not stand") {
    exchange::MarkLine knot;
    knot.tag = text(*life.board.tag);
    knot.kind = "hole";
    knot.xFrom = in(20);
    knot.xTo = in(22);
    mark(life.shop.book, {knot}, "marks.csv", life.shop.hand);
    const planning::PlanResult now = life.shop.planned(life.job, {cuttingOf(second.id)});
    CHECK(better(life.shop.book, now).plan == now.plan);
  }
  SECTION("nor one made by other settings") {
    setShop(life.shop.book, "hourly-rate", "30", life.shop.hand);
    const planning::PlanResult now = life.shop.planned(life.job, {cuttingOf(second.id)});
    CHECK(better(life.shop.book, now).plan == now.plan);
  }
  CHECK(life.shop.faults().empty());
}
