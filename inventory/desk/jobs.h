#pragma once
#include "inventory/planning/planner.h"
#include "inventory/store/book.h"

namespace flitch::desk {

using store::Book;
using store::Hand;

/// Adds a job with its parts, sizes worked out. Throws Refusal: name taken, no parts, sizes that
/// planning::resolveSizes() refuses.
JobId addJob(Book& book, const Job& job, const Hand& hand);

/// What a copy of a job has of its own.
struct Copying {
  std::string name, customer;    ///< customer empty: the same
  int times = 1;                 ///< counts and spares are multiplied
  std::vector<NamedSize> sizes;  ///< in place of those of the same name
};
/// Adds a copy of a job under another name, its sizes worked out anew, with its other materials and
/// hours, amounts multiplied. Throws what addJob() throws, and Refusal for a size it has not.
JobId copyJob(Book& book, JobId from, const Copying& copying, const Hand& hand);

/// Gives a job other parts and sizes (id and version as read): a part of line 0 is new and gets the
/// next, one whose line is gone is wanted no more. Its materials, hours, quotes and what is set
/// aside stay, boards held for it stay held until the next plan; plans of what it asked before are
/// its plans no more. None: nothing is different. Throws Refusal: what addJob() throws, and where a
/// part changes of which something is sawn; Stale.
EntryId changeJob(Book& book, const Job& changed, const Hand& hand);
/// Gives parts read anew the lines of those of the same name, each line once.
void keepLines(std::vector<Part>& parts, const Job& before);

/// A board may be planned when its newest reading says so; one without a reading counts as ready.
[[nodiscard]] bool dryEnough(const Board& board);

/// A copy of all that planning the job needs: the shop's newest settings (the plan names them and
/// is sawn by them, whatever is set later), boards on the rack, free or reserved for it, ready (a
/// board whose newest reading is wet or resting stays out), kept back only where the choices pin,
/// lock or lay something on it. Throws Refusal when a board so named is not free.
[[nodiscard]] PlanRequest request(const Book& book, JobId job, const Choices& choices);

/// `made`, or the job's newest plan where that supplies no less and is the cheaper, or costs the
/// same and is proved further: planning again for a moment never loses a better plan. It must hold
/// on today's boards and settings. The better of both bounds stays under it where both are known to
/// hold: nothing was written since the older plan, or else the newer bound alone. A plan that
/// stands in the book unchanged keeps its id. O(its check).
[[nodiscard]] planning::PlanResult better(const Book& book, planning::PlanResult made);

struct Kept {
  PlanId plan;
  EntryId entry;  ///< none when nothing had to be written
};
/// Keeps a plan, one with an id as it stands in the book; `reserve` holds its boards for the job
/// and frees those held by its older plans. Looks again at every board and at the copies made:
/// throws Stale when one changed, or more was sawn of the job, since the request (a change undone
/// since is none), Refusal when a board is gone or held for another job.
Kept keep(Book& book, const planning::PlanResult& result, bool reserve, const Hand& hand);

/// "T0042-F was changed since the plan was kept (entry 7): plan again."
[[nodiscard]] Stale changed(const Board& board, EntryId entry, const std::string& since);

/// The setting of that key. Throws Refusal for an unknown one, naming those there are.
[[nodiscard]] const Setting& settingNamed(const std::string& key);

/// A setting by its key and the value it gets.
using SettingValue = std::pair<std::string, std::string>;
/// `flitch shop KEY VALUE`: a new profile with these settings, in one entry. Throws Refusal for an
/// unknown key or a value out of its range.
EntryId setShop(Book& book, const std::vector<SettingValue>& values, const Hand& hand);
EntryId setShop(Book& book, const std::string& key, const std::string& value, const Hand& hand);

}  // namespace flitch::desk
