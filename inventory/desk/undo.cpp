#include <algorithm>

#include "inventory/desk/saw.h"
#include "inventory/store/writer.h"

namespace flitch::desk {

namespace {

/// What an entry was, for people.
std::string whatWas(const store::EntryLine& line, const store::Snapshot& snapshot) {
  std::string what = line.event;
  if (!line.note.empty()) what += ", " + line.note;
  if (line.job) {
    const std::optional<Job> job = snapshot.job(line.job);
    if (job && job->name != line.note) what += " of " + job->name;
  }
  return what;
}

}  // namespace

std::optional<store::EntryLine> undoable(const store::Snapshot& snapshot) {
  for (int newest = 100;; newest *= 8) {
    const std::vector<store::EntryLine> entries = snapshot.entries(newest);
    const auto found = std::find_if(
        entries.begin(), entries.end(),
        [](const store::EntryLine& line) { return !line.reverses && !line.reversedBy; });
    if (found != entries.end()) return *found;
    if (static_cast<int>(entries.size()) < newest) return std::nullopt;
  }
}

Undone undo(Book& book, const Hand& hand) {
  const store::Snapshot snapshot = book.read();
  const std::optional<store::EntryLine> last = undoable(snapshot);
  if (!last) throw Refusal("nothing-to-undo", Complaint{"", "There is nothing to undo", "", ""});
  Undone undone{};
  undone.reversed = last->id;
  undone.what = whatWas(*last, snapshot);
  undone.entry = book.change({"undone", last->job, last->event, last->id}, hand,
                             [&](store::Writer& writer) { writer.reverse(last->id); });
  return undone;
}

}  // namespace flitch::desk
