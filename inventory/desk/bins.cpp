#include "inventory/desk/bins.h"

#include <algorithm>

#include "inventory/records/refusal.h"
#include "inventory/store/writer.h"
#include "inventory/wood/species.h"
#include "inventory/wood/split.h"
#include "inventory/wood/writing.h"

namespace flitch::desk {

namespace {

/// A board foot is 144 in³: 2 359 737 216 mm³ in a thousand feet of a thousandth each.
constexpr std::int64_t cubicOfFeet = 2'359'737'216;
constexpr std::int64_t feetOfCubic = 1'000'000;

CubicMillimetres woodOf(Feet feet) { return {mulDiv(feet.thousandths, cubicOfFeet, feetOfCubic)}; }

const char* wordOf(BinWork work) {
  switch (work) {
    case BinWork::put: return "put in";
    case BinWork::used: return "used";
    case BinWork::thrown: return "thrown away";
    case BinWork::holds: return "estimated anew";
  }
  throw std::logic_error("no such work on a bin");
}

Bin binWith(const store::Snapshot& snapshot, BinId id) {
  for (Bin& bin : snapshot.bins()) {
    if (bin.id == id) return std::move(bin);
  }
  throw std::logic_error("a bin that is not in the book");
}

Move moveOf(const Bin& bin, BinWork work, CubicMillimetres wood) {
  Move move;
  move.bin = bin.id;
  move.source = AccountKind::bin;
  move.volume = wood;
  switch (work) {
    case BinWork::put: move.source = AccountKind::found; break;
    case BinWork::used: move.target = AccountKind::byHand; break;
    case BinWork::thrown: move.target = AccountKind::retired; break;
    case BinWork::holds: {
      const bool more = wood > bin.wood;
      move.volume = more ? wood - bin.wood : bin.wood - wood;
      move.target = AccountKind::remeasured;
      if (more) move.source = AccountKind::remeasured;
      break;
    }
  }
  if (move.source != AccountKind::bin) move.target = AccountKind::bin;
  return move;
}

}  // namespace

Feet estimatedFeet(CubicMillimetres wood) {
  return {narrow(nearest(static_cast<Wide>(wood.value) * feetOfCubic, cubicOfFeet))};
}

Bin binOf(const store::Snapshot& snapshot, const std::string& species) {
  for (Bin& bin : snapshot.bins()) {
    if (bin.species == species) return std::move(bin);
  }
  throw Refusal("no-bin", Complaint{"", "No bin holds " + species, species,
                                    "a bin made with flitch bin NAME --species " + species});
}

Bin binNamed(const store::Snapshot& snapshot, const std::string& name) {
  std::string names;
  for (Bin& bin : snapshot.bins()) {
    if (plain(bin.name) == plain(name) || plain(bin.species) == plain(name)) return std::move(bin);
    names += (names.empty() ? "" : ", ") + bin.name;
  }
  throw Refusal("unknown-bin", Complaint{"", "There is no bin " + name, name,
                                         names.empty() ? "a new one, with --species" : names});
}

EntryId addBin(Book& book, const Bin& bin, const Hand& hand) {
  if (trimmed(bin.name).empty()) {
    throw Refusal("no-name", Complaint{"", "A bin needs a name", "", "a name: Cherry shorts"});
  }
  const std::vector<std::string> known = book.read().species();
  if (std::find(known.begin(), known.end(), bin.species) == known.end()) {
    std::string names;
    for (const std::string& name : known) names += (names.empty() ? "" : ", ") + name;
    throw Refusal("unknown-species",
                  Complaint{"", "The book knows no species " + bin.species, bin.species, names});
  }
  return book.change({"bin added", {}, bin.name + " for " + bin.species, {}}, hand,
                     [&](store::Writer& writer) { writer.addBin(bin); });
}

EntryId changeBin(Book& book, BinId id, BinWork work, Feet feet, std::optional<JobId> job,
                  const std::string& why, const Hand& hand) {
  const CubicMillimetres wood = woodOf(feet);
  const std::string note = binWith(book.read(), id).name + ": " + text(feet) + " bf " +
                           wordOf(work) + (why.empty() ? "" : ", " + why);
  return book.change(
      {"bin changed", job.value_or(JobId{}), note, {}}, hand, [&](store::Writer& writer) {
        const Bin bin = binWith(writer.now(), id);
        const Move move = moveOf(bin, work, wood);
        const bool same = work == BinWork::holds && estimatedFeet(bin.wood) == feet;
        if (move.volume.value <= 0 || same) {
          throw Refusal("nothing", Complaint{"", "That changes nothing in " + bin.name, text(feet),
                                             "board feet that do"});
        }
        if (move.source == AccountKind::bin && move.volume > bin.wood) {
          throw Refusal(
              "not-so-much",
              Complaint{"",
                        bin.name + " holds " + text(estimatedFeet(bin.wood)) + " bf by the book",
                        text(feet), "no more than that, or --holds first"});
        }
        writer.post(move);
      });
}

Table binTable(const store::Snapshot& snapshot) {
  Table table;
  table.title = "Bins of untagged shorts";
  table.columns = {{"bin", "bin", false},
                   {"species", "species", false},
                   {"board_feet", "board feet", true},
                   {"volume", "volume", true},
                   {"note", "note", false}};
  Feet feet;
  CubicMillimetres wood;
  for (const Bin& bin : snapshot.bins()) {
    table.rows.push_back({bin.name, bin.species, estimatedFeet(bin.wood), bin.wood, bin.note});
    wood += bin.wood;
  }
  feet = estimatedFeet(wood);
  table.totals = {std::string("all"), {}, feet, wood, {}};
  table.note =
      "Board feet by estimate, 144 in³ each. Shorts carry no money: the job they fell from has "
      "paid "
      "for them.";
  return table;
}

}  // namespace flitch::desk
