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

std::string sentenceOf(const PlanRequest& request, Money cost, Money bound,
                       optimizer::BoundKind kind) {
  return optimizer::sentence(cost.raw(), bound.raw(), kind, text(cost, request.sign),
                             wholeText(cost - bound, request.sign));
}

void refuseWhatCannotBePlanned(const PlanRequest& request, const Framing& framing) {
  if (request.job.parts.empty()) {
    throw Refusal("no-part", Complaint{request.job.name, "the job has no part", "", ""});
  }
  const bool waits = std::any_of(request.job.parts.begin(), request.job.parts.end(),
                                 [](const Part& p) { return !p.solid(); });
  if (framing.problem.needs.empty() && !waits) {
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
  const Found found =
      search(framing, request, limits, std::move(stop), [&](const optimizer::Progress& p) {
        if (!progress) return;
        const Money cost = moneyOf(p.cost);
        const Money bound = moneyOf(p.bound);
        progress({p.seconds, p.plan, cost, bound, boundKindOf(p.boundKind),
                  sentenceOf(request, cost, bound, p.boundKind)});
      });

  PlanResult result;
  result.request = request;
  result.statistics = found.solution.statistics;
  CutPlan& plan = result.plan;
  plan = unframe(found.solution, framing, request);
  plan.seed = limits.seed;
  plan.program = "Flitchbook " FLITCHBOOK_VERSION;
  plan.handRule = moneyOf(found.handRule);
  plan.carefulHand = moneyOf(found.carefulHand);
  explainShorts(plan, request);
  insistOnSound(plan, request);

  result.sentence = headline(plan, request.sign);
  result.claim = claimText(plan, request.sign);
  result.why = endingText(plan, request.shop, request.sign);
  addNotes(result);
  return result;
}

}  // namespace flitch::planning
