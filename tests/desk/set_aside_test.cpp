// Board feet kept for a job before its boards are chosen.
#include "inventory/desk/set_aside.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "inventory/desk/rack_work.h"
#include "inventory/records/set_aside.h"
#include "tests/desk/shop.h"

using namespace flitch;
using namespace flitch::desk;
using sample::in;
using sample::part;
using sample::plank;

namespace {

/// Three boards 96 x 6 of cherry 4/4, 4 bf each; a shelf that one board gives, and a bench.
struct Aside {
  sample::Shop shop;
  std::vector<Board> boards;
  JobId shelf, bench;

  Aside() {
    boards =
        shop.receive({plank(in(96), in(6)), plank(in(96), in(6)), plank(in(96), in(6))}).boards;
    shelf = add("Shelf");
    bench = add("Bench");
  }
  JobId add(const std::string& name) {
    Job job;
    job.name = name;
    job.parts = {part(1, 2, in(30), in(4))};
    return addJob(shop.book, job, shop.hand);
  }
  EntryId keepFor(JobId job, std::int64_t feet) {
    return setAside(shop.book, {job, "cherry", Nominal::quarters(4), Feet{feet * 1000}}, shop.hand);
  }
  [[nodiscard]] planning::PlanResult plan(JobId job) const {
    optimizer::Limits limits;
    limits.seconds = 0.3;
    return planning::makePlan(request(shop.book, job, {}), limits);
  }
  /// "feet, in boards, open" of each wood set aside for the job.
  [[nodiscard]] std::vector<std::vector<std::int64_t>> rows(JobId job) const {
    std::vector<std::vector<std::int64_t>> all;
    for (const auto& row : setAsideTable(shop.now(), job).rows) {
      all.emplace_back();
      for (const std::size_t cell : {2U, 3U, 4U}) {
        all.back().push_back(std::get<Feet>(row[cell]).thousandths);
      }
    }
    return all;
  }
};

bool saidAside(const planning::PlanResult& result) {
  return std::any_of(result.notes.begin(), result.notes.end(), [](const std::string& note) {
    return note.find("are set aside for Bench") != std::string::npos;
  });
}

}  // namespace

TEST_CASE("a plan that leaves too little for another job says so and cannot be reserved") {
  Aside a;
  REQUIRE(a.boards[0].measuredFeet == Feet{4000});
  a.keepFor(a.bench, 8);  // two of the three boards
  const planning::PlanResult one = a.plan(a.shelf);
  REQUIRE(one.plan.cuttings.size() == 1);
  CHECK_FALSE(saidAside(one));
  a.keepFor(a.bench, 9);
  const planning::PlanResult broken = a.plan(a.shelf);
  CHECK(saidAside(broken));
  CHECK(takenFromOthers(broken.plan, broken.request) ==
        std::vector<std::string>{
            "Of cherry 4/4 8.0 bf would be left free, and 9.0 bf are set aside for Bench"});
  const EntryId before = a.shop.now().lastEntry();
  CHECK_NOTHROW(keep(a.shop.book, broken, false, a.shop.hand));
  CHECK_THROWS_AS(keep(a.shop.book, broken, true, a.shop.hand), Refusal);
  // What was set aside since the plan was made counts too.
  CHECK_THROWS_AS(keep(a.shop.book, one, true, a.shop.hand), Refusal);
  CHECK(a.shop.now().lastEntry().value == before.value + 1);
  // What was reserved before more was set aside stays so, however the plan is kept again.
  a.keepFor(a.bench, 1);
  CHECK_NOTHROW(keep(a.shop.book, one, true, a.shop.hand));
  a.keepFor(a.bench, 12);
  CHECK_FALSE(saidAside(a.plan(a.shelf)));
  CHECK_NOTHROW(keep(a.shop.book, a.plan(a.shelf), true, a.shop.hand));
  // For its own job nothing is in the way.
  CHECK_FALSE(saidAside(a.plan(a.bench)));
  CHECK_NOTHROW(keep(a.shop.book, a.plan(a.bench), true, a.shop.hand));
  CHECK(a.shop.faults().empty());
}

TEST_CASE("what is set aside goes down as boards are reserved and sawn for the job") {
  Aside a;
  a.keepFor(a.bench, 8);
  CHECK(a.rows(a.bench) == std::vector<std::vector<std::int64_t>>{{8000, 0, 8000}});
  const planning::PlanResult result = a.plan(a.bench);
  keep(a.shop.book, result, true, a.shop.hand);
  CHECK(a.rows(a.bench) == std::vector<std::vector<std::int64_t>>{{8000, 4000, 4000}});
  sawAsPlanned(a.shop.book, a.bench, {}, a.shop.hand);
  CHECK(a.rows(a.bench) == std::vector<std::vector<std::int64_t>>{{8000, 4000, 4000}});
  CHECK(a.rows(a.shelf).empty());
  // One board is for the bench, the other free.
  CHECK_FALSE(saidAside(a.plan(a.shelf)));
}

TEST_CASE("set aside anew, given up, undone, and boards kept back still count as there") {
  Aside a;
  const EntryId first = a.keepFor(a.bench, 8);
  a.keepFor(a.bench, 2);
  CHECK(a.rows(a.bench)[0][0] == 2000);
  a.keepFor(a.bench, 0);
  CHECK(a.rows(a.bench).empty());
  (void)undo(a.shop.book, a.shop.hand);
  CHECK(a.rows(a.bench)[0][0] == 2000);
  (void)undo(a.shop.book, a.shop.hand);
  CHECK(a.rows(a.bench)[0][0] == 8000);
  CHECK(first.value > 0);
  keepBack(a.shop.book, {a.boards[2]}, true, a.shop.hand);
  CHECK_FALSE(saidAside(a.plan(a.shelf)));
  CHECK(a.shop.faults().empty());
}

TEST_CASE("wood the book never had, and too much of it, cannot be set aside") {
  Aside a;
  const auto refused = [&](const SetAside& wood) {
    try {
      setAside(a.shop.book, wood, a.shop.hand);
      return std::string();
    } catch (const Refusal& refusal) {
      return refusal.code();
    }
  };
  CHECK(refused({a.bench, "moonwood", Nominal::quarters(4), Feet{1000}}) == "unknown-species");
  CHECK(refused({a.bench, "cherry", Nominal::quarters(4), Feet{100'000'001}}) == "too-many-feet");
  CHECK(refused({JobId{99}, "cherry", Nominal::quarters(4), Feet{1000}}) == "unknown-job");
}
