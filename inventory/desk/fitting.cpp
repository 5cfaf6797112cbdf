#include "inventory/desk/fitting.h"

#include <algorithm>

#include "inventory/desk/jobs.h"
#include "inventory/planning/plan_words.h"
#include "inventory/planning/planner.h"
#include "inventory/records/account.h"
#include "inventory/records/recipe.h"

namespace flitch::desk {

namespace {

/// One board, one part: no more search than that takes, counted.
optimizer::Limits brief() {
  optimizer::Limits limits;
  limits.effort = 2'000'000;
  return limits;
}

std::int64_t blanksOf(const CutPlan& plan) {
  std::int64_t blanks = 0;
  for (const Cutting& cutting : plan.cuttings) {
    blanks += std::count_if(cutting.pieces.begin(), cutting.pieces.end(),
                            [](const Piece& p) { return p.kind == PieceKind::blank; });
  }
  return blanks;
}

/// The request for one part of it alone, from one board alone.
PlanRequest narrowed(const PlanRequest& request, const Part& part, const Board& board) {
  PlanRequest one = request;
  one.job.parts = {part};
  one.boards = {board};
  one.boards[0].reservedFor = {};
  return one;
}

}  // namespace

std::vector<Served> partsServed(const store::Book& book, const Board& board) {
  std::vector<Served> all;
  for (const Job& job : book.read().jobs()) {
    const PlanRequest request = desk::request(book, job.id, {});
    for (const Part& part : job.parts) {
      const int wanted = part.wanted() - static_cast<int>(madeBefore(part, request).copies.size());
      if (wanted <= 0 || waits(part, request.shop)) continue;
      const planning::PlanResult made = planning::makePlan(narrowed(request, part, board), brief());
      const int gives = wanted - planning::copiesShort(made.plan);
      if (gives > 0) all.push_back({job.id, job.name, part, wanted, gives});
    }
  }
  return all;
}

Table servedTable(const std::vector<Served>& served) {
  Table table;
  table.columns = {{"job", "job", false},      {"letter", "", false},
                   {"part", "part", false},    {"length", "length", true},
                   {"width", "width", true},   {"thickness", "thick", true},
                   {"wanted", "wanted", true}, {"gives", "it gives", true}};
  for (const Served& s : served) {
    table.rows.push_back({s.jobName, partLetter(s.part.line), s.part.name, s.part.length,
                          s.part.width, s.part.thickness, static_cast<std::int64_t>(s.wanted),
                          static_cast<std::int64_t>(s.gives)});
  }
  return table;
}

std::vector<Giver> boardsGiving(const store::Book& book, const Part& part) {
  const store::Snapshot snapshot = book.read();
  PlanRequest request;
  request.shop = snapshot.shop();
  request.unit = book.facts().unit;
  request.sign = book.facts().sign;
  std::vector<Giver> givers;
  for (const Board& board : snapshot.rack()) {
    if (board.reservedFor || board.keptBack || board.withdrawn || !dryEnough(board)) continue;
    const auto& names = part.species;
    if (std::find(names.begin(), names.end(), board.species) == names.end()) continue;
    const planning::PlanResult made = planning::makePlan(narrowed(request, part, board), brief());
    if (planning::copiesShort(made.plan) > 0 || blanksOf(made.plan) == 0) continue;
    const Cutting& cutting = made.plan.cuttings.front();
    const Breakdown shares =
        account(cutting, board, made.request.job, made.request.shop, made.plan.tick);
    const auto volume = [&](Cause cause) {
      return shares.volume[static_cast<std::size_t>(cause)].value;
    };
    const std::int64_t used =
        volume(Cause::parts) + volume(Cause::machining) + volume(Cause::offcuts);
    const auto loss = static_cast<int>((board.wood.value - used) * 1000 / board.wood.value);
    givers.push_back({board, shares.woodCost, loss, cutting});
  }
  std::stable_sort(givers.begin(), givers.end(), [](const Giver& a, const Giver& b) {
    return std::pair(a.lossPermille, a.cost) < std::pair(b.lossPermille, b.cost);
  });
  return givers;
}

Table giverTable(const std::vector<Giver>& givers, Unit unit) {
  Table table;
  table.columns = {{"tag", "tag", false},           {"species", "species", false},
                   {"quarters", "quarters", false}, {"size", "size", false},
                   {"bay", "bay", false},           {"loss", "lost", true},
                   {"cost", "wood cost", true}};
  for (const Giver& giver : givers) {
    const Board& board = giver.board;
    table.rows.push_back({board.tagText(), board.species, text(board.nominal),
                          sizeText(board, unit), board.bay, Permille{giver.lossPermille},
                          giver.cost});
    table.boards.push_back({board.id});
  }
  return table;
}

}  // namespace flitch::desk
