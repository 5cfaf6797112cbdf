#include "inventory/desk/sawn_boards.h"

#include <algorithm>
#include <stdexcept>

#include "inventory/desk/bench.h"
#include "inventory/records/pull_list.h"
#include "inventory/wood/split.h"
#include "inventory/wood/writing.h"

namespace flitch::desk {

namespace {

/// The fate an account of the ledger stands for: a board's is that of offcuts.
std::size_t fateOf(AccountKind kind) {
  if (kind == AccountKind::board) return static_cast<std::size_t>(Cause::offcuts);
  if (kind == AccountKind::bin) return binFate;
  for (std::size_t c = 0; c < causeCount; ++c) {
    const auto cause = static_cast<Cause>(c);
    if (cause != Cause::offcuts && accountOf(cause) == kind) return c;
  }
  throw std::logic_error("a cutting posted to an account that is no cause");
}

/// Of the feet of a board's parts what its spoiled ones take, by volume.
Feet feetLost(const Breakdown& breakdown, CuttingId cutting,
              const std::vector<store::SpoiledPiece>& spoiled) {
  std::vector<Wide> volumes;
  std::vector<int> pieces;
  for (const Share& share : breakdown.shares) {
    if (share.cause != Cause::parts) continue;
    volumes.push_back(share.volume.value);
    pieces.push_back(share.piece);
  }
  Feet lost;
  if (volumes.empty()) return lost;
  const std::vector<std::int64_t> feet =
      split(breakdown.feet[static_cast<std::size_t>(Cause::parts)].thousandths, volumes);
  for (const store::SpoiledPiece& piece : spoiled)
    for (std::size_t p = 0; p < pieces.size(); ++p)
      if (piece.cutting == cutting && piece.piece == pieces[p]) lost.thousandths += feet[p];
  return lost;
}

/// Takes the feet of shorts in a bin out of those of the offcuts.
void takeBinned(SawnBoard& sawn, const Breakdown& breakdown) {
  const std::vector<Feet> feet = offcutFeet(breakdown);
  std::size_t offcut = 0;
  for (const Share& share : breakdown.shares) {
    if (share.cause != Cause::offcuts) continue;
    if (sawn.done.binned.contains(share.piece)) sawn.feet[binFate] += feet[offcut];
    ++offcut;
  }
  Feet& tagged = sawn.feet[static_cast<std::size_t>(Cause::offcuts)];
  tagged = tagged - sawn.feet[binFate];
}

/// Takes what was spoiled since out of the parts.
void takeSpoiled(SawnBoard& sawn, const Breakdown& breakdown,
                 const std::vector<store::SpoiledPiece>& spoiled) {
  constexpr auto parts = static_cast<std::size_t>(Cause::parts);
  for (const store::SpoiledPiece& piece : spoiled) {
    if (piece.cutting != sawn.done.id) continue;
    sawn.volume[spoiledFate] += piece.volume;
    sawn.cost[spoiledFate] += piece.cost;
  }
  sawn.feet[spoiledFate] = feetLost(breakdown, sawn.done.id, spoiled);
  sawn.volume[parts].value -= sawn.volume[spoiledFate].value;
  sawn.cost[parts] -= sawn.cost[spoiledFate];
  sawn.feet[parts] = sawn.feet[parts] - sawn.feet[spoiledFate];
}

}  // namespace

std::string_view fateWord(std::size_t fate) {
  if (fate == spoiledFate) return "spoiled";
  return fate == binFate ? "bin" : word(static_cast<Cause>(fate));
}

Permille permille(std::int64_t part, std::int64_t whole) {
  if (whole <= 0) return {};
  return {narrow(nearest(static_cast<Wide>(part) * 1000, whole))};
}

CellValue perFoot(Money money, Feet feet) {
  if (feet.thousandths <= 0) return {};
  return Money::tenThousandths(
      narrow(nearest(static_cast<Wide>(money.raw()) * 1000, feet.thousandths)));
}

const Board& Origins::of(const Board& board) {
  const Board* at = &board;
  while (at->parent) {
    auto known = known_.find(at->parent);
    if (known == known_.end()) {
      known = known_.emplace(at->parent, snapshot_.board(at->parent).value()).first;
    }
    at = &known->second;
  }
  return *at;
}

const std::string& Origins::delivery(const Board& origin) {
  const auto [at, fresh] = deliveries_.try_emplace(origin.delivery, "no delivery");
  if (fresh && origin.delivery) {
    if (const auto draft = snapshot_.delivery(origin.delivery)) {
      at->second = draft->receivedOn + " " + draft->supplier +
                   (draft->reference.empty() ? "" : ", " + draft->reference);
    }
  }
  return at->second;
}

std::vector<SawnBoard> sawnBoards(const store::Snapshot& snapshot, std::optional<JobId> only) {
  std::map<CuttingId, std::vector<store::LedgerSum>> sums = snapshot.cuttingSums();
  std::map<JobId, Job> jobs;
  std::map<ProfileId, ShopProfile> profiles;
  std::map<EntryId, std::string> days;
  Origins origins(snapshot);
  const std::vector<store::SpoiledPiece> spoiled = snapshot.spoiled(only);
  std::vector<SawnBoard> boards;
  for (store::DoneCutting& done : snapshot.doneCuttings(only)) {
    SawnBoard& sawn = boards.emplace_back();
    if (!jobs.contains(done.job)) jobs[done.job] = snapshot.job(done.job).value();
    if (!profiles.contains(done.profile)) {
      profiles[done.profile] = snapshot.profile(done.profile).value();
    }
    if (!days.contains(done.entry)) {
      days[done.entry] = dayAt(snapshot.entry(done.entry).value().at);
    }
    const Job& job = jobs[done.job];
    const Breakdown breakdown =
        account(done.cutting, done.board, job, profiles[done.profile], done.tick);
    std::copy(breakdown.feet.begin(), breakdown.feet.end(), sawn.feet.begin());
    for (const store::LedgerSum& sum : sums[done.id]) {
      const std::size_t c = fateOf(sum.target);
      sawn.volume[c] += sum.volume;
      sawn.cost[c] += sum.cost;
    }
    const Board& origin = origins.of(done.board);
    sawn.names = {
        job.name,
        done.board.species,
        text(done.board.nominal),
        !origin.grade.empty()              ? origin.grade
        : origin.kind == BoardKind::offcut ? "offcut"
                                           : "ungraded",
        origin.supplier.empty() ? "no supplier" : origin.supplier,
        origins.delivery(origin),
        days[done.entry].substr(0, 7),
        done.board.tag ? text(*done.board.tag) : "board " + std::to_string(done.board.id.value)};
    sawn.done = std::move(done);
    takeSpoiled(sawn, breakdown, spoiled);
    takeBinned(sawn, breakdown);
  }
  return boards;
}

Promised Promises::of(const SawnBoard& board) {
  const store::DoneCutting& done = board.done;
  auto plan = plans_.find(done.plan);
  if (plan == plans_.end()) {
    plan = plans_.emplace(done.plan, snapshot_.plan(done.plan).value()).first;
  }
  for (const Cutting& cutting : plan->second.plan.cuttings) {
    if (cutting.board != done.board.id) continue;
    const Breakdown said = account(cutting, done.board, snapshot_.job(done.job).value(),
                                   snapshot_.profile(done.profile).value(), done.tick);
    return {said.feet[static_cast<std::size_t>(Cause::parts)], said.woodCost};
  }
  return {};
}

void YieldGroup::add(const SawnBoard& board) {
  boards.push_back(board.done.board.id);
  sawn += board.done.board.measuredFeet;
  wood += board.done.board.wood;
  landed += board.done.board.cost;
  for (std::size_t c = 0; c < fateCount; ++c) {
    volume[c] += board.volume[c];
    cost[c] += board.cost[c];
    feet[c] += board.feet[c];
  }
}

std::vector<YieldGroup> grouped(const std::vector<SawnBoard>& boards, By by) {
  std::map<std::string, YieldGroup> byName;
  for (const SawnBoard& board : boards) byName[board.name(by)].add(board);
  std::vector<YieldGroup> groups;
  for (auto& [name, group] : byName) {
    group.name = name;
    groups.push_back(std::move(group));
  }
  std::stable_sort(groups.begin(), groups.end(), [](const YieldGroup& a, const YieldGroup& b) {
    return naturallyBefore(a.name, b.name);
  });
  return groups;
}

YieldGroup together(const std::vector<SawnBoard>& boards) {
  YieldGroup all;
  all.name = "all";
  for (const SawnBoard& board : boards) all.add(board);
  return all;
}

}  // namespace flitch::desk
