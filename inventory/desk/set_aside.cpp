#include "inventory/desk/set_aside.h"

#include <algorithm>

#include "inventory/desk/names.h"
#include "inventory/store/writer.h"

namespace flitch::desk {

namespace {

/// Feet of the wood that the job has in boards, reserved or sawn.
Feet covered(const SetAside& wood, const std::vector<Board>& rack,
             const store::Snapshot& snapshot) {
  const auto same = [&](const Board& board) {
    return board.species == wood.species && board.nominal == wood.nominal;
  };
  Feet feet;
  for (const Board& board : rack) {
    if (board.reservedFor == wood.job && same(board)) feet += board.measuredFeet;
  }
  for (const store::DoneCutting& done : snapshot.doneCuttings(wood.job)) {
    if (same(done.board)) feet += done.board.measuredFeet;
  }
  return feet;
}

Feet openOf(const SetAside& wood, const std::vector<Board>& rack, const store::Snapshot& snapshot) {
  return std::max(Feet(), wood.feet - covered(wood, rack, snapshot));
}

}  // namespace

EntryId setAside(store::Book& book, const SetAside& wood, const store::Hand& hand) {
  constexpr Feet most{100'000'000};
  const store::Snapshot now = book.read();
  const Job job = jobIn(now, wood.job);
  const std::vector<std::string> known = now.species();
  if (std::find(known.begin(), known.end(), wood.species) == known.end()) {
    std::string all;
    for (const std::string& species : known) all += (all.empty() ? "" : ", ") + species;
    throw Refusal("unknown-species", Complaint{"", "The book has no " + wood.species, wood.species,
                                               all.empty() ? "a species of the book" : all});
  }
  if (wood.feet > most) {
    throw Refusal("too-many-feet", Complaint{"", text(wood.feet) + " bf are more than a shop holds",
                                             text(wood.feet), "up to " + text(most) + " bf"});
  }
  const std::string what =
      text(wood.feet) + " bf of " + wood.species + " " + text(wood.nominal) + ", " + job.name;
  return book.change({"set aside", wood.job, what, {}}, hand,
                     [&](store::Writer& writer) { writer.setAside(wood); });
}

std::vector<KeptWood> keptForOthers(const store::Snapshot& snapshot, JobId job,
                                    const std::vector<Board>& planned) {
  std::vector<KeptWood> all;
  const std::vector<SetAside> asides = snapshot.setAside();
  if (asides.empty()) return all;
  const std::vector<Board> rack = snapshot.rack();
  for (const SetAside& wood : asides) {
    if (wood.job == job) continue;
    const Feet open = openOf(wood, rack, snapshot);
    if (open == Feet()) continue;
    const std::string name = snapshot.job(wood.job).value().name;
    const auto known = std::find_if(all.begin(), all.end(), [&](const KeptWood& kept) {
      return kept.species == wood.species && kept.nominal == wood.nominal;
    });
    if (known != all.end()) {
      known->feet += open;
      known->jobs += ", " + name;
    } else {
      all.push_back({wood.species, wood.nominal, open, name, {}});
    }
  }
  for (KeptWood& kept : all) {
    for (const Board& board : rack) {
      const bool same = board.species == kept.species && board.nominal == kept.nominal;
      const bool there = std::any_of(planned.begin(), planned.end(),
                                     [&](const Board& b) { return b.id == board.id; });
      if (same && !there && !board.reservedFor) kept.elsewhere += board.measuredFeet;
    }
  }
  return all;
}

Table setAsideTable(const store::Snapshot& snapshot, JobId job) {
  Table table;
  table.title = "Set aside before its boards are chosen";
  table.columns = {{"species", "species", false},
                   {"nominal", "quarters", true},
                   {"feet", "bf", true},
                   {"in_boards", "in boards", true},
                   {"open", "still open", true}};
  const std::vector<Board> rack = snapshot.rack();
  for (const SetAside& wood : snapshot.setAside()) {
    if (wood.job != job) continue;
    table.rows.push_back({wood.species, text(wood.nominal), wood.feet,
                          covered(wood, rack, snapshot), openOf(wood, rack, snapshot)});
  }
  return table;
}

}  // namespace flitch::desk
