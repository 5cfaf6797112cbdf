#include "inventory/desk/jobs.h"

#include <algorithm>
#include <map>
#include <set>

#include "inventory/desk/names.h"
#include "inventory/desk/set_aside.h"
#include "inventory/planning/sizes.h"
#include "inventory/records/choices.h"
#include "inventory/records/set_aside.h"
#include "inventory/records/show_wood.h"
#include "inventory/store/writer.h"
#include "inventory/wood/unreadable.h"

namespace flitch::desk {

namespace {

std::string nameOf(const Board& board) { return board.tag ? text(*board.tag) : "a board"; }

/// Why a board may not be planned for the job; empty where it may.
std::string whyNotFree(const Board& board, JobId job) {
  if (board.withdrawn) return "was withdrawn";
  if (board.reservedFor && board.reservedFor != job) return "is held for " + board.reservedName;
  if (!dryEnough(board)) return "is not dry enough yet";
  return {};
}

Refusal notFree(const Board& board, const std::string& why) {
  return {"not-free", Complaint{"", nameOf(board) + " " + why, nameOf(board),
                                "a board that is free and ready for the job"}};
}

/// Boards the maker named for the job: kept back or not.
std::set<BoardId> askedFor(const Choices& choices) {
  std::set<BoardId> boards(choices.pins.begin(), choices.pins.end());
  for (const Lock& lock : choices.locks) boards.insert(lock.cutting.board);
  for (const LaidByHand& laid : choices.laid) boards.insert(laid.board);
  return boards;
}

std::string knownKeys() {
  std::string keys;
  for (const Setting& setting : settings()) {
    keys += (keys.empty() ? "" : ", ") + std::string(setting.key);
  }
  return keys;
}

/// Copies short, by part line.
std::map<int, int> shortCopies(const CutPlan& plan) {
  std::map<int, int> copies;
  for (const ShortPart& s : plan.shorts) copies[s.line] += s.copies;
  return copies;
}

/// The older plan in place of the newer `made`, with what is known of it today; none where it is no
/// better or cannot be compared. `unchanged`: nothing was written in the book since it was kept.
std::optional<CutPlan> olderIfBetter(CutPlan older, const CutPlan& made, const PlanRequest& request,
                                     bool unchanged) {
  const std::map<int, int> before = shortCopies(older), after = shortCopies(made);
  for (const auto& [line, copies] : before) {
    const auto found = after.find(line);
    if (found == after.end() || found->second < copies) return std::nullopt;
  }
  const bool sameParts = before == after;
  if (!unchanged) {
    // What is missing is priced by the wood of the day.
    if (!sameParts && !before.empty()) return std::nullopt;
    older.shortageCost = sameParts ? made.shortageCost : Money{};
    older.handRule = sameParts ? made.handRule : Money{};
    older.carefulHand = sameParts ? made.carefulHand : Money{};
    older.seed = made.seed;
    older.effort = made.effort;
    older.program = made.program;
    older.id = {};
    older.bound = {};
    older.boundKind = PlanBound::none;
    older.ending = made.ending;
  }
  // The bound in this plan's prices: each meets the wishes in its own way.
  const Money wishes = allWishes(made, request), olderWishes = allWishes(older, request);
  const Money bound = made.bound + wishes - olderWishes;
  const bool higher = sameParts && made.boundKind != PlanBound::none &&
                      (older.boundKind == PlanBound::none || bound > older.bound);
  if (sameParts) {
    const Money was = older.total() + olderWishes, now = made.total() + wishes;
    if (was > now) return std::nullopt;
    if (was == now && (higher || !unchanged)) return std::nullopt;
  }
  if (higher) {
    older.bound = bound;
    older.boundKind = made.boundKind;
    older.ending = older.total() == bound ? PlanEnding::closed : made.ending;
    older.id = {};
  }
  return older;
}

}  // namespace

Stale changed(const Board& board, EntryId entry, const std::string& since) {
  return Stale({"",
                nameOf(board) + " was changed since " + since + " (entry " +
                    std::to_string(entry.value) + "): plan again",
                nameOf(board), ""});
}

namespace {

/// The job as it can be added: whole, with its sizes worked out.
Job addable(const Job& asked, Unit unit) {
  if (asked.name.empty())
    throw Refusal("no-name", Complaint{"", "A job needs a name", "", "a name"});
  if (asked.parts.empty()) {
    throw Refusal("no-parts", Complaint{"", asked.name + " has no parts", asked.name,
                                        "at least one row under the head"});
  }
  Job job = asked;
  planning::resolveSizes(job, unit);
  return job;
}

/// One of the job's named sizes takes another expression.
void setSize(Job& job, const NamedSize& size) {
  const auto at = std::find_if(job.sizes.begin(), job.sizes.end(),
                               [&](const NamedSize& each) { return each.name == size.name; });
  if (at == job.sizes.end()) {
    std::string names;
    for (const NamedSize& each : job.sizes) names += (names.empty() ? "" : ", ") + each.name;
    throw Refusal("unknown-size",
                  Complaint{"", job.name + " has no size named " + size.name, size.name,
                            names.empty() ? "a job whose parts name sizes" : names});
  }
  at->expression = size.expression;
}

}  // namespace

JobId addJob(Book& book, const Job& asked, const Hand& hand) {
  const Job job = addable(asked, book.facts().unit);
  JobId id;
  book.change({"job added", {}, job.name, {}}, hand,
              [&](store::Writer& writer) { id = writer.addJob(job); });
  return id;
}

JobId copyJob(Book& book, JobId from, const Copying& copying, const Hand& hand) {
  const store::Snapshot snapshot = book.read();
  Job copy = snapshot.job(from).value();
  for (const NamedSize& size : copying.sizes) setSize(copy, size);
  copy.name = copying.name;
  if (!copying.customer.empty()) copy.customer = copying.customer;
  for (Part& part : copy.parts) {
    part.copies *= copying.times;
    part.spares *= copying.times;
  }
  copy = addable(copy, book.facts().unit);
  std::vector<JobLine> lines = snapshot.jobLines(from);
  for (JobLine& line : lines) {
    if (line.kind != JobLineKind::bar) line.thousandths *= copying.times;
  }
  JobId id;
  book.change({"job added", {}, copy.name, {}}, hand, [&](store::Writer& writer) {
    id = writer.addJob(copy);
    if (!lines.empty()) writer.setJobLines(id, lines);
  });
  return id;
}

namespace {

/// Parts of which something is sawn stay as they are: their wood is accounted by them.
void refuseChangingSawn(const Job& before, const Job& changed, const store::Snapshot& now) {
  std::set<int> sawn;
  for (const store::DoneCutting& done : now.doneCuttings(before.id))
    for (const Piece& piece : done.cutting.pieces)
      if (piece.kind == PieceKind::blank) sawn.insert(piece.line);
  std::vector<Complaint> complaints;
  for (const Part& part : before.parts) {
    if (sawn.count(part.line) == 0) continue;
    const auto kept = std::find_if(changed.parts.begin(), changed.parts.end(),
                                   [&](const Part& p) { return p.line == part.line; });
    if (kept != changed.parts.end() && *kept == part) continue;
    complaints.push_back({"", part.name + " stays as it is: some of it is sawn", part.name,
                          "a part of another name for more of it or for another size"});
  }
  if (!complaints.empty()) throw Refusal("part-sawn", std::move(complaints));
}

}  // namespace

EntryId changeJob(Book& book, const Job& asked, const Hand& hand) {
  const store::Snapshot snapshot = book.read();
  const std::optional<Job> before = snapshot.job(asked.id);
  if (!before)
    throw Refusal("unknown-job", Complaint{"", "There is no such job", "", "a job's name"});
  Job job = asked;
  int last = 0;
  for (const Part& part : before->parts) last = std::max(last, part.line);
  for (Part& part : job.parts)
    if (part.line == 0) part.line = ++last;
  std::stable_sort(job.parts.begin(), job.parts.end(),
                   [](const Part& a, const Part& b) { return a.line < b.line; });
  job = addable(job, book.facts().unit);
  if (job == *before) return {};
  refuseChangingSawn(*before, job, snapshot);
  return book.change({"job changed", job.id, job.name, {}}, hand,
                     [&](store::Writer& writer) { writer.changeJob(job); });
}

void keepLines(std::vector<Part>& parts, const Job& before) {
  std::set<int> taken;
  for (Part& part : parts) {
    const auto same = std::find_if(
        before.parts.begin(), before.parts.end(),
        [&](const Part& known) { return known.name == part.name && taken.count(known.line) == 0; });
    part.line = same == before.parts.end() ? 0 : same->line;
    if (part.line > 0) taken.insert(part.line);
  }
}

bool dryEnough(const Board& board) {
  return board.readings.empty() || board.readings.back().state == MoistureState::ready;
}

PlanRequest request(const Book& book, JobId job, const Choices& choices) {
  const store::Snapshot snapshot = book.read();
  const std::optional<Job> found = snapshot.job(job);
  if (!found)
    throw Refusal("unknown-job", Complaint{"", "There is no such job", "", "a job's name"});
  PlanRequest request;
  request.job = *found;
  request.shop = snapshot.shop();
  request.ownSpecies = snapshot.ownSpecies();
  const std::set<BoardId> asked = askedFor(choices);
  for (Board& board : snapshot.rack()) {
    const bool named = asked.count(board.id) > 0;
    const std::string held = whyNotFree(board, job);
    if (named && !held.empty()) throw notFree(board, held);
    if (held.empty() && (named || !board.keptBack)) request.boards.push_back(std::move(board));
  }
  request.choices = choices;
  request.made = snapshot.made(job);
  request.laid = snapshot.laid(job);
  request.keptForOthers = keptForOthers(snapshot, job, request.boards);
  const store::BookFacts facts = book.facts();
  request.unit = facts.unit;
  request.sign = facts.sign;
  return request;
}

namespace {

/// Nothing since that entry changed the stock, the settings or the parts of a job.
bool nothingToPlanSince(const store::Snapshot& snapshot, EntryId kept) {
  constexpr int most = 100;
  if (snapshot.lastEntry().value - kept.value > most) return false;
  const std::vector<store::EntryLine> lines = snapshot.entries(most);
  return std::all_of(lines.begin(), lines.end(), [&](const store::EntryLine& line) {
    return line.id <= kept || line.event == "job added" || line.event == "tags reserved";
  });
}

}  // namespace

planning::PlanResult better(const Book& book, planning::PlanResult made) {
  const store::Snapshot snapshot = book.read();
  const std::optional<store::StoredPlan> stored = snapshot.newestPlan(made.request.job.id);
  if (!stored || stored->plan.profile != made.request.shop.id) return made;
  const bool unchanged =
      nothingToPlanSince(snapshot, stored->kept) && stored->plan.choices == made.request.choices;
  CutPlan standing = stored->plan;
  standing.choices = made.request.choices;
  if (!check(standing, made.request).empty()) return made;
  std::optional<CutPlan> older =
      olderIfBetter(std::move(standing), made.plan, made.request, unchanged);
  if (!older) return made;
  const std::string found = text(made.plan.total(), made.request.sign);
  made.plan = std::move(*older);
  planning::tellPlan(made);
  made.notes.push_back("The plan kept before stays: the one just found costs " + found +
                       " and is no better.");
  return made;
}

namespace {

/// As it stands now: what was planned may have been set aside since.
void refuseTakingFromOthers(const CutPlan& plan, PlanRequest request, const store::Snapshot& now) {
  request.keptForOthers = keptForOthers(now, request.job.id, request.boards);
  const std::vector<std::string> taken = takenFromOthers(plan, request);
  if (taken.empty()) return;
  std::vector<Complaint> complaints;
  for (const std::string& sentence : taken) {
    complaints.push_back({"", sentence, request.job.name,
                          "a plan that opens fewer of these boards, or less set aside"});
  }
  throw Refusal("set-aside", std::move(complaints));
}

}  // namespace

Kept keep(Book& book, const planning::PlanResult& result, bool reserve, const Hand& hand) {
  const PlanRequest& seen = result.request;
  Kept kept{result.plan.id, {}};
  const bool stands = static_cast<bool>(kept.plan);
  if (stands && !reserve) return kept;
  kept.entry =
      book.change({"plan kept", seen.job.id, seen.job.name, {}}, hand, [&](store::Writer& writer) {
        if (writer.now().made(seen.job.id) != seen.made) throw Stale(seen.job.name);
        for (const Cutting& cutting : result.plan.cuttings) {
          const auto then = std::find_if(seen.boards.begin(), seen.boards.end(),
                                         [&](const Board& b) { return b.id == cutting.board; });
          if (then == seen.boards.end()) throw std::logic_error("a plan cuts a board it never saw");
          const std::optional<Board> board = writer.now().board(cutting.board);
          if (!board) throw std::logic_error("the book lost a board");
          if (const auto entry = writer.now().changedSince(board->id, then->version)) {
            throw changed(*then, *entry, "it was planned");
          }
          needOnRack(writer.now(), *board, "a plan made again");
          if (board->reservedFor && board->reservedFor != seen.job.id) {
            throw Refusal(
                "reserved",
                Complaint{"", nameOf(*board) + " is held for " + board->reservedName + " now",
                          nameOf(*board), "a plan made again"});
          }
        }
        CutPlan plan = result.plan;
        plan.job = seen.job.id;
        plan.profile = seen.shop.id;
        plan.choices = seen.choices;
        if (!stands) kept.plan = writer.addPlan(plan);
        if (!reserve) return;
        refuseTakingFromOthers(plan, seen, writer.now());
        // What an older plan of the job holds and this one leaves alone is free again.
        for (const Board& board : writer.now().rack()) {
          if (board.reservedFor == seen.job.id) writer.release(board.id);
        }
        for (const Cutting& cutting : plan.cuttings) {
          writer.hold(cutting.board, seen.job.id, kept.plan);
        }
      });
  return kept;
}

const Setting& settingNamed(const std::string& key) {
  const Setting* setting = findSetting(key);
  if (setting == nullptr) {
    throw Refusal("unknown-setting", Complaint{"", "There is no setting " + key, key, knownKeys()});
  }
  return *setting;
}

EntryId setShop(Book& book, const std::vector<SettingValue>& values, const Hand& hand) {
  const Unit unit = book.facts().unit;
  std::string note;
  for (const auto& [key, value] : values) note += (note.empty() ? "" : ", ") + key + " " + value;
  return book.change({"shop set", {}, note, {}}, hand, [&](store::Writer& writer) {
    ShopProfile shop = writer.now().shop();
    for (const auto& [key, value] : values) {
      try {
        settingNamed(key).set(shop, value, unit);
      } catch (const Unreadable& error) {
        throw Refusal("bad-setting",
                      Complaint{key, "\"" + value + "\" is not a value this setting takes", value,
                                error.accepted});
      }
    }
    writer.addProfile(shop);
  });
}

EntryId setShop(Book& book, const std::string& key, const std::string& value, const Hand& hand) {
  return setShop(book, {{key, value}}, hand);
}

}  // namespace flitch::desk
