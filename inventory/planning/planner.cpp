#include "inventory/planning/planner.h"

#include <algorithm>
#include <stdexcept>

#include "inventory/planning/plan_notes.h"
#include "inventory/planning/plan_words.h"
#include "inventory/planning/search.h"
#include "inventory/planning/shortage_reasons.h"
#include "inventory/records/refusal.h"

namespace flitch::planning {

namespace {

Money moneyOf(optimizer::Worth worth) { return Money::tenThousandths(worth); }

/// The found plan and what the plans by hand come to beside it: zero where they leave other copies
/// short. On the way back copies nobody wants are dropped with their cuts, so a plan by hand may
/// only now turn out the cheaper one; then its cuts are taken.
CutPlan bestOf(const Found& found, const Framing& framing, const PlanRequest& request) {
  CutPlan best = unframe(found.solution, framing, request);
  const auto beside = [&](const optimizer::Solution& byHand) -> Money {
    const CutPlan hand = unframe(byHand, framing, request);
    if (hand.shorts != best.shorts) return {};
    if (hand.total() < best.total()) {
      optimizer::Solution taken = found.solution;
      taken.cuts = byHand.cuts;
      best = unframe(taken, framing, request);
    }
    return hand.total();
  };
  const Money handRule = beside(found.handRule);
  const Money carefulHand = beside(found.carefulHand);
  best.handRule = handRule;
  best.carefulHand = carefulHand;
  return best;
}

void refuseWhatCannotBePlanned(const PlanRequest& request, const Framing& framing) {
  if (request.job.parts.empty()) {
    throw Refusal("no-part", Complaint{request.job.name, "the job has no part", "", ""});
  }
  const bool some = std::any_of(request.job.parts.begin(), request.job.parts.end(),
                                [&](const Part& p) { return waits(p, request.shop); });
  if (framing.problem.needs.empty() && !some) {
    throw Refusal("nothing-to-cut",
                  Complaint{request.job.name, "every part of the job is sawn already", "", ""});
  }
  if (!framing.problem.needs.empty() && request.boards.empty()) {
    throw Refusal(
        "no-stock",
        Complaint{request.job.name, "no board on the rack is free and ready for the job", "", ""});
  }
}

void insistOnSound(const CutPlan& plan, const PlanRequest& request) {
  const std::vector<Fault> faults = check(plan, request);
  if (faults.empty()) return;
  std::string all = "the checker rejects the plan:";
  for (const Fault& f : faults) {
    all += "\n  " + std::string(word(f.kind)) + ", board " + std::to_string(f.board.value) +
           ", piece " + std::to_string(f.piece) + ": " + f.sentence;
  }
  throw std::logic_error(all);
}

}  // namespace

PlanResult makePlan(const PlanRequest& request, const optimizer::Limits& limits,
                    std::stop_token stop,
                    const std::function<void(const PlanProgress&)>& progress) {
  Framing framing = frame(request);
  refuseWhatCannotBePlanned(request, framing);
  const Found found = search(framing, request, limits, stop, [&](const optimizer::Progress& p) {
    if (!progress) return;
    const Money raised = raisedBy(p.shortages, framing);
    PlanProgress now;
    now.seconds = p.seconds;
    now.plan = p.plan;
    now.cost = moneyOf(p.cost) - raised;
    now.bound = std::max(Money(), moneyOf(p.bound) - raised);
    now.boundKind = now.bound > Money() ? boundKindOf(p.boundKind) : PlanBound::none;
    std::int64_t copies = 0;
    for (const optimizer::Shortage& s : p.shortages) copies += s.amount;
    now.sentence = shortFirst(copies) +
                   optimizer::sentence(
                       now.cost.raw(), now.bound.raw(),
                       now.boundKind == PlanBound::none ? optimizer::BoundKind::none : p.boundKind,
                       text(now.cost, request.sign), wholeText(now.cost - now.bound, request.sign));
    progress(now);
  });

  PlanResult result;
  result.request = request;
  result.statistics = found.solution.statistics;
  CutPlan& plan = result.plan;
  plan = bestOf(found, framing, request);
  plan.seed = limits.seed;
  plan.program = "Flitchbook " FLITCHBOOK_VERSION;
  explainShorts(plan, request);
  insistOnSound(plan, request);
  result.others = otherRecipes(plan, request, limits, stop);
  tellPlan(result);
  return result;
}

void tellPlan(PlanResult& result) {
  const PlanRequest& request = result.request;
  result.sentence = headline(result.plan, request.sign);
  result.claim = claimText(result.plan, request.sign);
  result.why = endingText(result.plan, request.shop, request.sign);
  result.unseenPermille = 0;
  result.unseen.clear();
  result.notes.clear();
  addNotes(result);
}

}  // namespace flitch::planning
