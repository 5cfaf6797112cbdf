#include "inventory/planning/planner.h"

#include <algorithm>
#include <chrono>
#include <map>
#include <optional>
#include <set>
#include <stdexcept>

#include "inventory/planning/plan_notes.h"
#include "inventory/planning/plan_words.h"
#include "inventory/planning/search.h"
#include "inventory/planning/settled.h"
#include "inventory/planning/shortage_reasons.h"
#include "inventory/records/choices.h"
#include "inventory/records/refusal.h"
#include "inventory/records/show_wood.h"

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
    const Money wishes = allWishes(hand, request);
    if (hand.total() + wishes < best.total() + allWishes(best, request)) {
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
  if (framing.problem.needs.empty() && !some && request.choices.locks.empty()) {
    throw Refusal("nothing-to-cut",
                  Complaint{request.job.name, "every part of the job is sawn already", "", ""});
  }
  if (!framing.problem.needs.empty() && request.boards.empty()) {
    throw Refusal(
        "no-stock",
        Complaint{request.job.name, "no board on the rack is free and ready for the job", "", ""});
  }
}

/// The request without what is laid by hand: its copies, the last of each part, count as made.
PlanRequest withoutLaid(PlanRequest request) {
  const std::map<int, std::set<int>> made = besideLocks(request).made;
  for (const LaidByHand& laid : request.choices.laid) {
    const auto part = std::find_if(request.job.parts.begin(), request.job.parts.end(),
                                   [&](const Part& p) { return p.line == laid.line; });
    const auto before = made.find(laid.line);
    int copy = part->wanted();
    while (copy > 0 && ((before != made.end() && before->second.count(copy) > 0) ||
                        !request.made[laid.line].insert(copy).second)) {
      --copy;
    }
  }
  request.choices.laid.clear();
  return request;
}

/// The request with nothing wanted but one copy of a part.
PlanRequest oneCopyOf(const Part& wanted, PlanRequest request) {
  for (const Part& part : request.job.parts) {
    std::set<int>& made = request.made[part.line];
    int spared = part.line == wanted.line ? 1 : 0;
    for (int copy = 1; copy <= part.wanted(); ++copy) {
      if (made.count(copy) > 0 || spared-- > 0) continue;
      made.insert(copy);
    }
  }
  return request;
}

/// One board's cutting for what is wanted, all others kept out: none where it gives nothing.
std::optional<Cutting> cutAlone(const Board& board, PlanRequest request,
                                const optimizer::Limits& limits, const std::stop_token& stop) {
  request.choices.pins.clear();
  request.choices.keptOut.clear();
  for (const Board& other : request.boards) {
    if (other.id == board.id || lockOn(request.choices, other.id) != nullptr) continue;
    request.choices.keptOut.push_back(other.id);
  }
  Framing framing = frame(request);
  if (framing.problem.stock.empty()) return std::nullopt;
  const Found found = search(framing, request, limits, stop, {});
  for (Cutting& cutting : bestOf(found, framing, request).cuttings) {
    if (cutting.board == board.id) return std::move(cutting);
  }
  return std::nullopt;
}

/// A pinned board by itself: as much as it gives, or where others are pinned too and must be left
/// something, a single copy.
Cutting cutPin(const Board& board, const PlanRequest& whole, const optimizer::Limits& limits,
               const std::stop_token& stop) {
  const PlanRequest request = withoutLaid(whole);
  std::optional<Cutting> cutting;
  if (request.choices.pins.size() == 1) {
    cutting = cutAlone(board, request, limits, stop);
  } else {
    const PlanRequest beside = besideLocks(request);
    for (const Part& part : request.job.parts) {
      PlanRequest one = request;
      one.made = oneCopyOf(part, beside).made;
      if (!cutting) cutting = cutAlone(board, one, limits, stop);
    }
  }
  if (!cutting) throw uselessPin(board, request);
  return *std::move(cutting);
}

/// A pinned board without a blank in the plan.
const Board* idlePin(const CutPlan& plan, const PlanRequest& request) {
  for (const BoardId pin : request.choices.pins) {
    const bool used = std::any_of(plan.cuttings.begin(), plan.cuttings.end(),
                                  [pin](const Cutting& c) { return c.board == pin; });
    if (used) continue;
    return &*std::find_if(request.boards.begin(), request.boards.end(),
                          [pin](const Board& b) { return b.id == pin; });
  }
  return nullptr;
}

class Planning {
 public:
  Planning(const PlanRequest& request, const optimizer::Limits& limits, std::stop_token stop,
           const std::function<void(const PlanProgress&)>& progress)
      : request_(request), limits_(limits), stop_(std::move(stop)), progress_(progress) {}

  CutPlan run(optimizer::Statistics& statistics) {
    CutPlan first = once(request_, statistics);
    CutPlan plan = first;
    PlanRequest fuller = request_;
    while (const Board* idle = idlePin(plan, request_)) {
      optimizer::Statistics more;
      fuller.choices.locks.push_back({cutPin(*idle, fuller, limitsLeft(), stop_), true});
      plan = once(fuller, more);
      plan.choices = request_.choices;
      plan.bound = {};
      plan.boundKind = PlanBound::none;
      plan.handRule = plan.carefulHand = {};
      if (first.boundKind == PlanBound::none || plan.shorts != first.shorts) continue;
      plan.bound = first.bound + allWishes(first, request_) - allWishes(plan, request_);
      plan.boundKind = first.boundKind;
    }
    return plan;
  }

 private:
  [[nodiscard]] optimizer::Limits limitsLeft() const {
    optimizer::Limits limits = limits_;
    const double gone = std::chrono::duration<double>(Clock::now() - start_).count();
    constexpr double least = 0.2;
    limits.seconds = std::max(std::min(least, limits.seconds), limits.seconds - gone);
    return limits;
  }

  CutPlan once(const PlanRequest& request, optimizer::Statistics& statistics) {
    Framing framing = frame(request);
    refuseWhatCannotBePlanned(request, framing);
    const Found found = search(framing, request, limitsLeft(), stop_,
                               [&](const optimizer::Progress& p) { tell(p, framing); });
    statistics = found.solution.statistics;
    return bestOf(found, framing, request);
  }

  void tell(const optimizer::Progress& p, const Framing& framing) const {
    if (!progress_) return;
    const Money raised = raisedBy(p.shortages, framing) - framing.beside;
    PlanProgress now;
    now.seconds = p.seconds;
    now.plan = p.plan;
    now.cost = moneyOf(p.cost) - raised;
    now.bound = std::max(Money(), moneyOf(p.bound) - raised);
    now.boundKind = now.bound > Money() ? boundKindOf(p.boundKind) : PlanBound::none;
    std::int64_t copies = 0;
    for (const optimizer::Shortage& s : p.shortages) copies += s.amount;
    const bool none = now.boundKind == PlanBound::none;
    now.sentence =
        shortFirst(copies) + optimizer::sentence(now.cost.raw(), now.bound.raw(),
                                                 none ? optimizer::BoundKind::none : p.boundKind,
                                                 text(now.cost, request_.sign),
                                                 wholeText(now.cost - now.bound, request_.sign));
    progress_(now);
  }

  using Clock = std::chrono::steady_clock;
  const PlanRequest& request_;
  const optimizer::Limits& limits_;
  std::stop_token stop_;
  const std::function<void(const PlanProgress&)>& progress_;
  Clock::time_point start_ = Clock::now();
};

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
  refuseUnsettled(request);
  PlanResult result;
  result.request = request;
  CutPlan& plan = result.plan;
  plan = Planning(request, limits, stop, progress).run(result.statistics);
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
  if (result.plan.boundKind != PlanBound::none && showWoodCounts(request)) {
    result.claim += " Wood marked for show is left to the parts that show most, " +
                    text(usualWish, request.sign) + " counted for each other blank on it.";
  }
  result.why = endingText(result.plan, request.shop, request.sign);
  result.unseenPermille = 0;
  result.unseen.clear();
  result.notes.clear();
  addNotes(result);
}

}  // namespace flitch::planning
