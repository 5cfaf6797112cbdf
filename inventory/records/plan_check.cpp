#include "inventory/records/plan_check.h"

#include <algorithm>
#include <map>
#include <set>
#include <stdexcept>

#include "inventory/records/account.h"
#include "inventory/records/cutting_check.h"
#include "inventory/records/recipe.h"

namespace flitch {

namespace {

const Board* findBoard(const PlanRequest& request, BoardId id) {
  const auto at = std::find_if(request.boards.begin(), request.boards.end(),
                               [&](const Board& b) { return b.id == id; });
  return at == request.boards.end() ? nullptr : &*at;
}

/// Copies of every part: made, planned and short together are what is wanted, each number once.
void checkCounts(const CutPlan& plan, const PlanRequest& request, std::vector<Fault>& faults) {
  const auto wrong = [&](FaultKind kind, std::string sentence) {
    faults.push_back({kind, {}, -1, std::move(sentence)});
  };
  std::map<int, int> missing;
  for (const ShortPart& s : plan.shorts) {
    if (s.copies <= 0) wrong(FaultKind::wrongCount, "a shortage of no copy");
    missing[s.line] += s.copies;
  }
  std::map<int, std::set<int>> numbers;
  for (const Cutting& cutting : plan.cuttings) {
    for (const Piece& p : cutting.pieces) {
      if (p.kind != PieceKind::blank) continue;
      const auto sawn = request.made.find(p.line);
      const bool before = sawn != request.made.end() && sawn->second.count(p.copy) > 0;
      if (p.copy < 1 || before || !numbers[p.line].insert(p.copy).second) {
        wrong(FaultKind::wrongCount, "number " + std::to_string(p.copy) + " of line " +
                                         std::to_string(p.line) + " stands on two blanks");
      }
    }
  }
  std::map<int, std::set<int>> planned = copiesPlanned(plan, request);
  for (const Part& part : request.job.parts) {
    const bool waiting =
        std::find(plan.waiting.begin(), plan.waiting.end(), part.line) != plan.waiting.end();
    const bool mustWait = waits(part, request.shop);
    if (mustWait && !waiting) {
      wrong(FaultKind::wrongCount, part.name + " waits, but the plan does not say so");
    }
    // A plan kept before a recipe could be planned holds no wood for its part.
    if (mustWait || (waiting && planned[part.line].empty())) continue;
    const std::set<int> made = madeBefore(part, request).copies;
    const std::set<int>& copies = planned[part.line];
    const int given = static_cast<int>(copies.size()) + missing[part.line];
    if (given != std::max(0, part.wanted() - static_cast<int>(made.size()))) {
      wrong(FaultKind::wrongCount, part.name + ": " + std::to_string(part.wanted()) + " wanted, " +
                                       std::to_string(made.size()) + " made, " +
                                       std::to_string(copies.size()) + " planned, " +
                                       std::to_string(missing[part.line]) + " short");
    }
    const bool again =
        std::any_of(copies.begin(), copies.end(), [&](int copy) { return made.count(copy) > 0; });
    if (again || (!copies.empty() && (*copies.begin() < 1 || *copies.rbegin() > part.wanted()))) {
      wrong(FaultKind::wrongCount, part.name + ": a copy outside those still wanted");
    }
    missing.erase(part.line);
  }
  for (const auto& [line, copies] : missing) {
    wrong(FaultKind::unknownPart,
          "line " + std::to_string(line) + " is short, but is no part that can be planned");
  }
}

/// What the plan promises is what account() posts.
void checkMoney(const CutPlan& plan, const PlanRequest& request, std::vector<Fault>& faults) {
  const auto compare = [&](const char* what, Money promised, Money found) {
    if (promised == found) return;
    faults.push_back(
        {FaultKind::wrongMoney,
         {},
         -1,
         std::string(what) + " is " + exactText(found) + ", not " + exactText(promised)});
  };
  Money wood, cuts, offcuts, shortage;
  for (const Cutting& cutting : plan.cuttings) {
    const Board* board = findBoard(request, cutting.board);
    if (board == nullptr) return;
    const Breakdown b = account(cutting, *board, request.job, request.shop, plan.tick);
    wood += b.woodCost;
    cuts += b.cutCost;
    offcuts += b.offcutWorth;
  }
  for (const ShortPart& s : plan.shorts) {
    for (const Part& part : request.job.parts) {
      if (part.line == s.line) shortage += shortagePrice(part, request) * s.copies;
    }
  }
  compare("wood cost", plan.woodCost, wood);
  compare("cost of cutting", plan.cutCost, cuts);
  compare("worth of offcuts", plan.offcutWorth, offcuts);
  compare("price of what is short", plan.shortageCost, shortage);
}

}  // namespace

std::vector<Fault> faultsOf(const CuttingCase& at) {
  std::vector<Fault> faults;
  checkTree(at, faults);
  checkPieces(at, faults);
  return faults;
}

std::vector<Fault> check(const CutPlan& plan, const PlanRequest& request) {
  std::vector<Fault> faults;
  if (plan.tick <= Length()) {
    faults.push_back({FaultKind::offGrid, {}, -1, "the plan has no grid step"});
    return faults;
  }
  std::set<BoardId> cut;
  for (const Cutting& cutting : plan.cuttings) {
    if (!cut.insert(cutting.board).second) {
      faults.push_back({FaultKind::boardTwice, cutting.board, -1, "the board is cut twice"});
    }
    const Board* board = findBoard(request, cutting.board);
    if (board == nullptr) {
      faults.push_back(
          {FaultKind::unknownBoard, cutting.board, -1, "no such board is free for the job"});
      continue;
    }
    const std::vector<Fault> own = faultsOf({cutting, *board, request, plan.tick});
    faults.insert(faults.end(), own.begin(), own.end());
  }
  checkChoices(plan, request.choices, faults);
  if (!(plan.choices == request.choices)) checkChoices(plan, plan.choices, faults);
  checkLayups(plan, request, faults);
  checkCounts(plan, request, faults);
  checkMoney(plan, request, faults);
  if (plan.bound > plan.total()) {
    faults.push_back({FaultKind::wrongBound, {}, -1, "the bound is above the plan's cost"});
  }
  return faults;
}

std::string_view word(FaultKind kind) {
  switch (kind) {
    case FaultKind::unknownBoard: return "unknown board";
    case FaultKind::boardTwice: return "board twice";
    case FaultKind::boardKeptOut: return "board kept out";
    case FaultKind::pinUnused: return "pinned board unused";
    case FaultKind::lockBroken: return "lock broken";
    case FaultKind::laidMoved: return "laid blank moved";
    case FaultKind::badTree: return "bad tree";
    case FaultKind::notGuillotine: return "not guillotine";
    case FaultKind::tooManyStages: return "too many stages";
    case FaultKind::gap: return "gap";
    case FaultKind::overlap: return "overlap";
    case FaultKind::missedKerf: return "missed kerf";
    case FaultKind::endTrimMissing: return "end trim missing";
    case FaultKind::outsideOutline: return "outside the outline";
    case FaultKind::onMark: return "on a mark";
    case FaultKind::unseenFace: return "unseen face";
    case FaultKind::steepGrain: return "grain too steep";
    case FaultKind::tooThin: return "too thin";
    case FaultKind::wrongSpecies: return "wrong species";
    case FaultKind::wrongSize: return "wrong size";
    case FaultKind::unknownPart: return "unknown part";
    case FaultKind::wrongCount: return "wrong count";
    case FaultKind::badLayup: return "bad layup";
    case FaultKind::notFilled: return "part not filled";
    case FaultKind::mixedWood: return "mixed wood";
    case FaultKind::wideSection: return "section too wide";
    case FaultKind::badOffcut: return "bad offcut";
    case FaultKind::offGrid: return "off the grid";
    case FaultKind::wrongMoney: return "wrong money";
    case FaultKind::wrongBound: return "wrong bound";
  }
  throw std::logic_error("no such fault");
}

}  // namespace flitch
