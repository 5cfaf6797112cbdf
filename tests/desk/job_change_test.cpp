// A job that asks for something else since it was added.
#include <algorithm>
#include <catch2/catch.hpp>

#include "inventory/desk/choices.h"
#include "inventory/records/choices.h"
#include "inventory/store/writer.h"
#include "tests/desk/life.h"

using namespace flitch;
using namespace flitch::desk;
using sample::in;
using sample::Life;
using sample::part;

namespace {

Job asked(const Life& life) { return life.shop.now().job(life.job).value(); }

Part second() {
  Part more = part(0, 2, in(20), in(3));
  more.name = "second";
  return more;
}

}  // namespace

TEST_CASE("a changed job has no plan until it is planned again, and undone its plan is back") {
  Life life(true);
  REQUIRE(life.shop.now().newestPlan(life.job)->plan.id == life.kept.plan);
  const Job before = asked(life);
  Job job = before;
  job.parts[0].copies = 3;
  job.parts[0].width = in(5, 32);
  job.parts.push_back(second());
  const EntryId entry = changeJob(life.shop.book, job, life.shop.hand);
  REQUIRE(entry);
  const Job after = asked(life);
  CHECK(after.name == before.name);
  REQUIRE(after.parts.size() == 2);
  CHECK(after.parts[0].copies == 3);
  CHECK(after.parts[0].width == in(5, 32));
  CHECK(after.parts[1].line == 2);
  CHECK(after.parts[1].name == "second");
  CHECK_FALSE(life.shop.now().newestPlan(life.job));
  CHECK(life.shop.now().plans(life.job).empty());
  CHECK(life.now(life.board.id).reservedFor == life.job);  // still held
  CHECK(life.shop.faults().empty());

  // The same again is no change.
  CHECK_FALSE(changeJob(life.shop.book, after, life.shop.hand));
  CHECK(life.shop.now().lastEntry() == entry);
  // What was read before the change is out of date.
  CHECK_THROWS_AS(changeJob(life.shop.book, job, life.shop.hand), Stale);

  undo(life.shop.book, life.shop.hand);
  CHECK(asked(life).parts == before.parts);
  CHECK(life.shop.now().newestPlan(life.job)->plan.id == life.kept.plan);
  CHECK(life.shop.faults().empty());
}

TEST_CASE("sizes a job names are worked out anew") {
  Life life;
  Job job = asked(life);
  job.sizes = {{"width", "6", {}}};
  job.parts[0].typed[1] = "width - 1/2";
  changeJob(life.shop.book, job, life.shop.hand);
  CHECK(asked(life).parts[0].width == in(5, 32));
  job = asked(life);
  job.sizes[0].expression = "width2";
  const EntryId before = life.shop.now().lastEntry();
  CHECK(life.code([&] { changeJob(life.shop.book, job, life.shop.hand); }) == "bad-size");
  job.parts.clear();
  CHECK(life.code([&] { changeJob(life.shop.book, job, life.shop.hand); }) == "no-parts");
  CHECK(life.shop.now().lastEntry() == before);
}

TEST_CASE("a part stays as it is once some of it is sawn, others may come and go") {
  Life life;
  sawAsPlanned(life.shop.book, life.job, {}, life.shop.hand);
  Job job = asked(life);
  job.parts[0].copies = 2;
  CHECK(life.code([&] { changeJob(life.shop.book, job, life.shop.hand); }) == "part-sawn");
  job = asked(life);
  job.parts[0] = second();
  CHECK(life.code([&] { changeJob(life.shop.book, job, life.shop.hand); }) == "part-sawn");
  job = asked(life);
  job.parts.push_back(second());
  CHECK(changeJob(life.shop.book, job, life.shop.hand));
  job = asked(life);
  REQUIRE(job.parts.size() == 2);
  CHECK(request(life.shop.book, life.job, {}).made.size() == 1);  // the sawn one counts
  job.parts.pop_back();
  CHECK(changeJob(life.shop.book, job, life.shop.hand));
  CHECK(life.shop.faults().empty());
}

TEST_CASE("a change that was planned for is not undone while that plan stands") {
  Life life;
  Job job = asked(life);
  job.parts[0].note = "quartersawn";
  const EntryId entry = changeJob(life.shop.book, job, life.shop.hand);
  const planning::PlanResult plan = life.shop.planned(life.job, {sample::cuttingOf(life.board.id)});
  const Kept kept = keep(life.shop.book, plan, false, life.shop.hand);
  CHECK(life.code([&] {
    life.shop.book.change({"undone", {}, "", entry}, life.shop.hand,
                          [&](store::Writer& writer) { writer.reverse(entry); });
  }) == "stands-on-it");
  CHECK(undo(life.shop.book, life.shop.hand).reversed == kept.entry);
  CHECK(undo(life.shop.book, life.shop.hand).reversed == entry);
  CHECK(asked(life).parts[0].note.empty());
  CHECK(life.shop.now().newestPlan(life.job)->plan.id == life.kept.plan);
}

TEST_CASE("parts read anew keep the line of their name, each once") {
  Job before;
  before.parts = {part(1, 1, in(60), in(6)), part(4, 1, in(20), in(3))};
  before.parts[0].name = "shelf";
  before.parts[1].name = "rail";
  std::vector<Part> parts(4);
  parts[0].name = "rail";
  parts[1].name = "back";
  parts[2].name = "shelf";
  parts[3].name = "rail";
  for (Part& each : parts) each.line = 9;
  keepLines(parts, before);
  CHECK(parts[0].line == 4);
  CHECK(parts[1].line == 0);
  CHECK(parts[2].line == 1);
  CHECK(parts[3].line == 0);
}

TEST_CASE("a lock is carried over a change that leaves its parts as they were") {
  Life life;
  const auto locks = [&](const std::vector<std::string>& tags) {
    Settled settled;
    settled.locks = tags;
    return choicesOf(life.shop.book, life.job, settled).locks;
  };
  const std::string tag = text(*life.board.tag);
  Job job = asked(life);
  job.parts[0].copies = 3;
  job.parts[0].name = "long shelf";
  job.parts.push_back(second());
  changeJob(life.shop.book, job, life.shop.hand);
  REQUIRE_FALSE(life.shop.now().newestPlan(life.job));
  for (const std::string& typed : {tag, std::string("all")}) {
    REQUIRE(locks({typed}).size() == 1);
    CHECK(locks({typed}).front().cutting == sample::cuttingOf(life.board.id));
  }
  job = asked(life);
  job.parts[0].length = in(59);
  changeJob(life.shop.book, job, life.shop.hand);
  CHECK(locks({"all"}).empty());
  CHECK(life.code([&] { static_cast<void>(locks({tag})); }) == "lock-broken");
  // As it was two changes ago.
  undo(life.shop.book, life.shop.hand);
  CHECK(locks({"all"}).size() == 1);
}

TEST_CASE("what is cut is still wanted while its parts ask the same") {
  Job before;
  before.parts = {part(1, 4, in(60), in(6)), part(2, 2, in(20), in(3))};
  const Cutting cutting = sample::cuttingOf(BoardId{1});  // copy 1 of line 1
  const auto wanted = [&](const auto& change) {
    Job now = before;
    change(now);
    return stillWanted(cutting, before, now);
  };
  CHECK(wanted([](Job&) {}));
  CHECK(wanted([](Job& now) { now.parts[0].copies = 1; }));
  CHECK(wanted([](Job& now) { now.parts[0].note = "the best"; }));
  CHECK(wanted([](Job& now) { now.parts.pop_back(); }));
  CHECK(wanted([](Job& now) { now.parts[1].width = in(2); }));
  CHECK_FALSE(wanted([](Job& now) { now.parts[0].copies = 0; }));
  CHECK_FALSE(wanted([](Job& now) { now.parts[0].faceB = "clear"; }));
  CHECK_FALSE(wanted([](Job& now) { now.parts[0].recipe = "glued"; }));
  CHECK_FALSE(wanted([](Job& now) { now.parts.erase(now.parts.begin()); }));
  // Copies of a run, and set-up pieces behind them, hang together.
  before.parts[0].run = "along";
  CHECK_FALSE(wanted([](Job& now) { now.parts[0].copies = 5; }));
  CHECK(wanted([](Job& now) { now.parts[0].name = "shelf"; }));
  before.parts[0].run.clear();
  before.parts[0].setUps = 1;
  CHECK_FALSE(wanted([](Job& now) { now.parts[0].spares = 1; }));
  // A stave is wanted for its panel: copy 3 of it here.
  before.parts[0].setUps = 0;
  Cutting staves = cutting;
  staves.layups.push_back({5, LayupKind::stave, 3, 1, 0, false, in(6)});
  Job now = before;
  CHECK(stillWanted(staves, before, now));
  now.parts[0].copies = 2;
  CHECK_FALSE(stillWanted(staves, before, now));
  CHECK(stillWanted(cutting, before, now));

  Choices choices;
  choices.locks = {{cutting}, {staves}};
  choices.pins = {BoardId{4}};
  choices.laid = {{BoardId{5}, 1, {}}, {BoardId{5}, 2, {}}};
  now.parts[1].length = in(21);
  const Choices kept = stillWanted(choices, before, now);
  REQUIRE(kept.locks.size() == 1);
  CHECK(kept.locks[0].cutting == cutting);
  CHECK(kept.pins == choices.pins);
  REQUIRE(kept.laid.size() == 1);
  CHECK(kept.laid[0].line == 1);
}
