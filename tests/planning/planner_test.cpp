#include "inventory/planning/planner.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <chrono>
#include <thread>

#include "inventory/planning/plan_words.h"
#include "inventory/records/refusal.h"
#include "tests/planning/random_shop.h"

using namespace flitch;
using namespace flitch::planning;
using bench::brief;
using bench::in;
using bench::part;
using bench::plank;

namespace {

PlanRequest simple() {
  PlanRequest request;
  request.shop = startingProfile();
  request.job.name = "box";
  request.job.parts = {part(1, 2, in(20), in(2))};
  request.boards = {plank(1, in(50), in(6), in(6))};
  return request;
}

bool mentions(const std::string& text, const std::string& word) {
  return text.find(word) != std::string::npos;
}

/// The plan of a request and the reason why its only short part is short.
ShortPart onlyShort(const PlanRequest& request) {
  const PlanResult result = makePlan(request, brief());
  REQUIRE(result.plan.shorts.size() == 1);
  return result.plan.shorts[0];
}

}  // namespace

TEST_CASE("a small job is planned, judged and said in a sentence") {
  const PlanResult result = makePlan(simple(), brief());
  CHECK(check(result.plan, result.request).empty());
  CHECK(result.plan.shorts.empty());
  REQUIRE(result.plan.cuttings.size() == 1);
  CHECK(result.plan.bound <= result.plan.total());
  CHECK(result.plan.handRule >= result.plan.bound);
  CHECK(result.plan.carefulHand >= result.plan.bound);
  CHECK_FALSE(result.sentence.empty());
  CHECK_FALSE(result.claim.empty());
  CHECK_FALSE(result.why.empty());
  CHECK(result.unseenPermille == 0);
  CHECK(result.notes.empty());
}

TEST_CASE("made-up shops: no fault, counts right, money promised is money accounted") {
  int blanks = 0;
  int shorts = 0;
  for (unsigned seed = 1; seed <= 60; ++seed) {
    bench::RandomShop shop(seed);
    const PlanRequest request = shop.request(1 + shop.dice(7), 1 + shop.dice(6));
    INFO("seed " << seed);
    const Framing framing = frame(request);
    if (framing.problem.needs.empty()) continue;
    CHECK_NOTHROW(optimizer::validate(framing.problem));
    const PlanResult result = makePlan(request, bench::first());
    const CutPlan& plan = result.plan;
    CHECK(check(plan, request).empty());
    Money wood;
    for (const Cutting& c : plan.cuttings) {
      const auto board = std::find_if(request.boards.begin(), request.boards.end(),
                                      [&](const Board& b) { return b.id == c.board; });
      REQUIRE(board != request.boards.end());
      const Breakdown b = account(c, *board, request.job, request.shop, plan.tick);
      wood += b.woodCost;
      for (const Piece& p : c.pieces) blanks += p.kind == PieceKind::blank ? 1 : 0;
    }
    CHECK(wood == plan.woodCost);
    for (const Money hand : {plan.handRule, plan.carefulHand}) {
      CHECK(plan.savedOn(hand).value_or(Money()) >= Money());
    }
    const bool met = plan.boundKind != PlanBound::none && plan.bound == plan.total();
    CHECK((plan.ending == PlanEnding::closed) == met);
    CHECK(mentions(result.sentence, "cheapest") == (met && !plan.cuttings.empty()));
    const bool some = !plan.shorts.empty() && !plan.cuttings.empty();
    CHECK((result.sentence.rfind("Short ", 0) == 0) == some);
    for (const ShortPart& s : plan.shorts) {
      CHECK_FALSE(s.reason.empty());
      shorts += s.copies;
    }
  }
  CHECK(blanks > 150);
  CHECK(shorts > 0);
}

TEST_CASE("what the solver says a plan costs is what account says") {
  for (unsigned seed = 100; seed < 140; ++seed) {
    bench::RandomShop shop(seed);
    const PlanRequest request = shop.request(4, 4);
    const Framing framing = frame(request);
    if (framing.problem.needs.empty()) continue;
    const optimizer::Solution s = optimizer::solve(framing.problem, bench::first());
    const CutPlan plan = unframe(s, framing, request);
    INFO("seed " << seed);
    // Copies beyond what is wanted are left out on the way back, with their cuts.
    CHECK(plan.total().raw() <= s.cost);
    std::vector<std::int64_t> units(framing.problem.needs.size(), 0);
    for (const optimizer::StockCut& c : s.cuts) {
      const std::vector<std::int64_t> more = optimizer::supplies(c.pattern, framing.problem);
      for (std::size_t n = 0; n < units.size(); ++n) units[n] += c.times * more[n];
    }
    bool exact = true;
    for (std::size_t n = 0; n < units.size(); ++n) {
      exact = exact && units[n] <= framing.problem.needs[n].amount;
    }
    if (exact) CHECK(plan.total().raw() == s.cost);
  }
}

TEST_CASE("shortages are told as a maker would say them") {
  PlanRequest request = simple();
  Part& p = request.job.parts[0];
  SECTION("no such wood") {
    p.species = {"walnut", "ash"};
    CHECK(onlyShort(request).reason == "no walnut or ash is free on the rack");
  }
  SECTION("too thick for anything") {
    p.thickness = in(3);
    p.recipe = "solid";
    CHECK(onlyShort(request).reason ==
          "it needs 3 1/16 in of thickness and the thickest cherry is 15/16 in (" +
              text(*request.boards[0].tag) + "); laminated, it could be made of thinner wood");
  }
  SECTION("too wide for anything") {
    p.width = in(8);
    CHECK(mentions(onlyShort(request).reason, "the widest cherry thick enough is 6 in"));
    CHECK(mentions(onlyShort(request).reason, "; glued, it could be made of narrower wood"));
  }
  SECTION("no board known to be straight") {
    p.straight = true;
    CHECK(onlyShort(request).reason ==
          "it must be of grain no steeper than 1 in 12, and no cherry thick enough is known to be; "
          "measure the grain slope of " +
              text(*request.boards[0].tag));
    request.boards[0].grain = GrainSlope{90};
    CHECK(onlyShort(request).reason ==
          "it must be of grain no steeper than 1 in 12, and no cherry thick enough is known to be");
  }
  SECTION("too long for anything") {
    p.length = in(60);
    // 50 in less 1 in at each end.
    CHECK(mentions(onlyShort(request).reason,
                   "it needs a run of 61 in and the longest such run "
                   "in cherry 4/4 is 48 in"));
  }
  SECTION("a check in the middle of the only board") {
    request.boards[0].defects = {{"check", DefectFace::through, bench::inRect(24, 0, 2, 6)}};
    p.length = in(30);
    // From 1 in to the margin before the check at 23 1/2; behind it 26 1/2 to 49.
    CHECK(mentions(onlyShort(request).reason, "the longest such run in cherry 4/4 is 22 1/2 in"));
  }
  SECTION("bowed too far") {
    request.boards[0].warp.cup = in(2);
    request.job.parts[0].width = in(4);
    CHECK(mentions(onlyShort(request).reason, "thick enough once flat"));
  }
  SECTION("more than the wood there is") {
    p.copies = 40;
    const ShortPart s = onlyShort(request);
    CHECK(s.copies > 30);
    CHECK(s.reason == "every place that would hold it is taken by other blanks of this job");
    CHECK_FALSE(s.unseenOnly);
  }
}

TEST_CASE("a claim names what is short") {
  PlanRequest request = simple();
  request.job.parts.push_back(part(2, 3, in(60), in(1)));
  const PlanResult result = makePlan(request, brief());
  REQUIRE(result.plan.boundKind != PlanBound::none);
  CHECK(mentions(result.claim, "supply the same parts. Short: 3 of B."));
}

TEST_CASE("parts short only for unseen faces say so, with both ways out") {
  PlanRequest request = simple();
  request.boards[0].looked = {Looked::no, Looked::no};
  const PlanResult result = makePlan(request, brief());
  REQUIRE(result.plan.shorts.size() == 1);
  CHECK(result.plan.shorts[0].unseenOnly);
  CHECK(result.sentence == "Nothing can be cut for this job before the wood is looked at.");
  REQUIRE(result.notes.size() == 1);
  CHECK(mentions(result.notes[0], "look at the faces"));
  CHECK(mentions(result.notes[0], "--trust-unseen"));
  CHECK(mentions(result.notes[0], text(*request.boards[0].tag)));

  request.choices.trustUnseen = true;
  const PlanResult trusted = makePlan(request, brief());
  CHECK(trusted.plan.shorts.empty());
  CHECK(trusted.unseenPermille == 1000);
  CHECK(trusted.unseen.size() == 2);
  CHECK(trusted.unseen[0] == "A1 on " + text(*request.boards[0].tag));
  REQUIRE(trusted.notes.size() == 1);
  CHECK(trusted.notes[0] == trustText({1000, trusted.unseen, {}}));
}

TEST_CASE("parts that wait are named and nothing is dropped silently") {
  PlanRequest request = simple();
  request.job.parts.push_back(part(2, 1, in(30), in(20)));
  request.job.parts[1].recipe = "steam bent";
  const PlanResult result = makePlan(request, brief());
  CHECK(result.plan.waiting == std::vector<int>{2});
  REQUIRE(result.notes.size() == 1);
  CHECK(mentions(result.notes[0], "part 2"));
  request.job.parts.erase(request.job.parts.begin());
  CHECK(makePlan(request, brief()).plan.cuttings.empty());
}

TEST_CASE("a request that cannot be planned at all is refused") {
  PlanRequest request = simple();
  request.boards.clear();
  CHECK_THROWS_AS(makePlan(request, brief()), Refusal);
  request = simple();
  request.job.parts.clear();
  CHECK_THROWS_AS(makePlan(request, brief()), Refusal);
  request = simple();
  request.made[1] = {1, 2};
  CHECK_THROWS_AS(makePlan(request, brief()), Refusal);
}

TEST_CASE("no copy is left short to save opening a board") {
  PlanRequest request = simple();
  request.job.parts = {part(1, 1, in(9), in(1))};
  request.boards = {plank(1, in(144), in(12), in(12), Money::units(400))};
  CHECK(makePlan(request, brief()).plan.shorts.empty());
}

TEST_CASE("a plan read from the book is told in the words it was made with") {
  PlanRequest request = simple();
  const PlanResult made = makePlan(request, brief());
  CHECK(headline(made.plan, request.sign) == made.sentence);
  CHECK(claimText(made.plan, request.sign) == made.claim);
  CHECK(endingText(made.plan, request.shop, request.sign) == made.why);
  CHECK(trustText(unseenShare(made.plan, request.boards, request.job, request.shop,
                              Unit::inches)) == "All show faces have been looked at.");

  request.job.parts = {part(1, 1, in(60), in(2))};
  CHECK(makePlan(request, brief()).sentence ==
        "Nothing can be cut for this job from the wood that is free.");
  CHECK(
      trustText({251, {"A1 on T", "A2 on T", "B1 on T", "B2 on T", "C1 on T", "C2 on T"}, {}}) ==
      "26 % of the show faces lie on faces nobody has looked at: A1 on T, A2 on T, B1 on T, B2 on "
      "T and 2 more, which you trust.");
}

TEST_CASE("plans by hand are told in the prices of the plan") {
  PlanRequest request = simple();
  // Four of the five have room, and the price of one is far below that of opening a board.
  request.job.parts = {part(1, 5, in(20), in(2))};
  request.boards = {plank(1, in(50), in(6), in(6), Money::units(400))};
  Money told;
  const PlanResult result =
      makePlan(request, brief(), {}, [&](const PlanProgress& p) { told = p.cost; });
  REQUIRE(result.plan.shorts.size() == 1);
  REQUIRE(result.plan.shortageCost < Money::units(400));
  // The hand saws more; it is not charged for opening a board that is not there.
  for (const Money hand : {result.plan.handRule, result.plan.carefulHand}) {
    const std::optional<Money> saved = result.plan.savedOn(hand);
    REQUIRE(saved);
    CHECK(*saved >= Money());
    CHECK(*saved < Money::units(20));
  }
  CHECK(told == result.plan.total());
  CHECK(mentions(result.sentence, "Short 1 part. "));
}

TEST_CASE("a plan by hand that leaves more short is not compared") {
  PlanRequest request = simple();
  // The long part goes first and on the cheap wood, where it takes the only place of the wide one.
  request.job.parts = {part(1, 1, in(40), in(2)), part(2, 1, in(30), in(4))};
  request.boards = {plank(1, in(50), in(6), in(6), Money::units(20)),
                    plank(2, in(50), in(3), in(3), Money::units(90))};
  const PlanResult result = makePlan(request, brief());
  CHECK(result.plan.shorts.empty());
  CHECK(result.plan.handRule == Money());
  CHECK_FALSE(result.plan.savedOn(result.plan.handRule));
}

TEST_CASE("progress is told in money and a stop is answered") {
  PlanRequest request = simple();
  request.job.parts.push_back(part(2, 3, in(12), in(1)));
  int told = 0;
  Money last = Money::units(1'000'000);
  const PlanResult result = makePlan(request, brief(), {}, [&](const PlanProgress& p) {
    ++told;
    CHECK(p.cost <= last);
    CHECK(p.bound <= p.cost);
    CHECK_FALSE(p.sentence.empty());
    last = p.cost;
  });
  CHECK(told > 0);
  CHECK(result.plan.total() <= last);
  std::stop_source stopped;
  stopped.request_stop();
  const PlanResult early = makePlan(request, brief(), stopped.get_token());
  CHECK(check(early.plan, request).empty());
}

TEST_CASE("a stop is answered soon, wherever it finds the planner") {
  bench::RandomShop shop(7);
  PlanRequest request = shop.request(24, 12);
  optimizer::Limits limits;
  limits.seconds = 60;
  using Clock = std::chrono::steady_clock;
  for (const int wait : {0, 20, 200, 1000}) {
    std::stop_source source;
    Clock::time_point asked;
    const std::jthread stopper([&] {
      std::this_thread::sleep_for(std::chrono::milliseconds(wait));
      asked = Clock::now();
      source.request_stop();
    });
    const PlanResult result = makePlan(request, limits, source.get_token());
    const double late = std::chrono::duration<double>(Clock::now() - asked).count();
    INFO("stopped after " << wait << " ms, back " << late << " s later");
    CHECK(late < 3);  // generous: a debug build, and others share the machine
    CHECK(result.plan.ending == PlanEnding::stopped);
    CHECK_FALSE(result.plan.cuttings.empty());
  }
}

TEST_CASE("small blanks and heavy boards carry a caution") {
  PlanRequest request = simple();
  request.job.parts = {part(1, 1, in(6), in(2))};
  request.job.parts[0].thickness = in(0, 24);
  request.job.parts[0].recipe = "solid";  // else it would be ganged
  const PlanResult result = makePlan(request, brief());
  REQUIRE(result.notes.size() == 2);
  CHECK(mentions(result.notes[0], "shorter than your jointer's least, 12 in"));
  CHECK(mentions(result.notes[0], "manual and local rules"));
  CHECK(mentions(result.notes[1], "thinner than your planer's least, 1/2 in"));
}
