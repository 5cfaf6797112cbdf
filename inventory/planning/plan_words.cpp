#include "inventory/planning/plan_words.h"

#include <algorithm>
#include <stdexcept>

#include "inventory/planning/settled.h"
#include "inventory/planning/shortage_reasons.h"
#include "optimizer/solution.h"

namespace flitch::planning {

namespace {

optimizer::BoundKind kindOf(PlanBound bound) {
  switch (bound) {
    case PlanBound::none: return optimizer::BoundKind::none;
    case PlanBound::area: return optimizer::BoundKind::area;
    case PlanBound::relaxed: return optimizer::BoundKind::relaxed;
    case PlanBound::exact: return optimizer::BoundKind::exact;
  }
  throw std::logic_error("no such bound");
}

Money openOf(const CutPlan& plan) { return std::max(Money{}, plan.total() - plan.bound); }

}  // namespace

std::string shortFirst(std::int64_t copies) {
  if (copies == 0) return {};
  return "Short " + std::to_string(copies) + (copies == 1 ? " part. " : " parts. ");
}

int copiesShort(const CutPlan& plan) {
  int copies = 0;
  for (const ShortPart& s : plan.shorts) copies += s.copies;
  return copies;
}

std::string headline(const CutPlan& plan, const std::string& sign) {
  if (plan.cuttings.empty() && !plan.shorts.empty()) {
    const bool looking = std::all_of(plan.shorts.begin(), plan.shorts.end(),
                                     [](const ShortPart& s) { return s.unseenOnly; });
    return looking ? "Nothing can be cut for this job before the wood is looked at."
                   : "Nothing can be cut for this job from the wood that is free.";
  }
  if (plan.cuttings.empty() && !plan.waiting.empty()) {
    return "Nothing is planned: what is left of this job waits for its recipes.";
  }
  return shortFirst(copiesShort(plan)) +
         optimizer::sentence(plan.total().raw(), plan.bound.raw(), kindOf(plan.boundKind),
                             text(plan.total(), sign), wholeText(openOf(plan), sign)) +
         standsText(plan.choices);
}

std::string claimText(const CutPlan& plan, const std::string& sign) {
  std::string claim = optimizer::claim(plan.total().raw(), plan.bound.raw(), kindOf(plan.boundKind),
                                       wholeText(openOf(plan), sign));
  if (plan.boundKind == PlanBound::none) return claim;
  if (const std::string terms = termsText(plan.choices); !terms.empty()) {
    claim += " This is said of plans " + terms + ".";
  }
  if (plan.shorts.empty()) return claim;
  claim += " This is said of plans that supply the same parts. Short:";
  for (const ShortPart& s : plan.shorts) {
    claim += (&s == &plan.shorts.front() ? " " : ", ") + std::to_string(s.copies) + " of " +
             partLetter(s.line);
  }
  return claim + ".";
}

std::string endingText(const CutPlan& plan, const ShopProfile& shop, const std::string& sign) {
  switch (plan.ending) {
    case PlanEnding::closed: return "Nothing cheaper is possible.";
    case PlanEnding::goodEnough:
      return "What can still be saved is below " + text(shop.stopWhenBelow, sign) +
             " and below the share your shop stops at.";
    case PlanEnding::timeUp: return "The time allowed was up.";
    case PlanEnding::effortSpent: return "The effort allowed was spent.";
    case PlanEnding::stopped: return "Stopped by hand; this is the best plan found until then.";
  }
  throw std::logic_error("no such ending");
}

UnseenShare unseenShare(const CutPlan& plan, std::span<const Board> boards, const Job& job,
                        const ShopProfile& shop, Unit unit) {
  UnseenShare share;
  Wide asked = 0, trusted = 0;
  for (const Cutting& cutting : plan.cuttings) {
    const auto board = std::find_if(boards.begin(), boards.end(),
                                    [&](const Board& b) { return b.id == cutting.board; });
    if (board == boards.end()) continue;
    for (const Piece& p : cutting.pieces) {
      if (p.kind != PieceKind::blank) continue;
      const auto part = std::find_if(job.parts.begin(), job.parts.end(),
                                     [&](const Part& made) { return made.line == p.line; });
      if (part == job.parts.end()) continue;
      bool rests = false;
      for (const Face face : {Face::a, Face::b}) {
        const Demand* demand = findDemand(shop, face == p.faceUp ? part->faceA : part->faceB);
        if (demand == nullptr || demand->unseen) continue;
        const Wide area = rectangle(p.at.dx, p.at.dy).doubled;
        asked += area;
        if (board->looked[static_cast<std::size_t>(face)] != Looked::no) continue;
        trusted += area;
        rests = true;
      }
      if (!rests) continue;
      share.names.push_back(handMark(p.line, p.copy) + " on " + boardName(*board, unit));
      ++share.bySupplier[board->supplier];
    }
  }
  if (asked > 0) share.permille = static_cast<int>((trusted * 1000 + asked - 1) / asked);
  return share;
}

std::string trustText(const UnseenShare& share) {
  constexpr std::size_t named = 4;
  if (share.permille == 0) return "All show faces have been looked at.";
  std::string names;
  for (std::size_t i = 0; i < share.names.size() && i < named; ++i) {
    names += (i == 0 ? "" : ", ") + share.names[i];
  }
  if (share.names.size() > named) {
    names += " and " + std::to_string(share.names.size() - named) + " more";
  }
  return std::to_string((share.permille + 9) / 10) +
         " % of the show faces lie on faces nobody has looked at: " + names + ", which you trust.";
}

}  // namespace flitch::planning
