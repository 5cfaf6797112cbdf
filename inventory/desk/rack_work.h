#pragma once
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "inventory/store/book.h"

namespace flitch::store {
class Writer;
}

namespace flitch::desk {

using store::Book;
using store::Hand;

/// What is done to boards on the rack besides sawing. Each is one entry and can be undone; each
/// looks at the boards again and throws Stale when one changed since it was read.

/// Puts boards into a bay; a new name makes a new bay.
EntryId moveTo(Book& book, const std::vector<Board>& boards, const std::string& bay,
               const Hand& hand);
/// Adds to their notes, or takes the notes away when `note` is empty.
EntryId note(Book& book, const std::vector<Board>& boards, const std::string& note,
             const Hand& hand);
/// Keeps boards back, or lets them go.
EntryId keepBack(Book& book, const std::vector<Board>& boards, bool keep, const Hand& hand);
/// A reading of moisture; one of the same day takes the place of the older.
EntryId takeReading(Book& book, const std::vector<Board>& boards, const Reading& reading,
                    const Hand& hand);
/// Takes boards off the rack for good, with a reason. Throws Refusal: reserved, no reason.
EntryId retire(Book& book, const std::vector<Board>& boards, const std::string& reason,
               const Hand& hand);

/// Another tag for a board that lost its own, or whose tag is worn: `tag`, else the next.
struct Retagged {
  EntryId entry;
  TagCode tag;
};
Retagged replaceTag(Book& book, const Board& board, std::optional<TagCode> tag, const Hand& hand);

/// A tag for each bay that has none; the tags of all of them in order. No entry when all have one.
std::vector<TagCode> tagBays(Book& book, const std::vector<std::string>& bays, const Hand& hand);

/// What lies in a bay, for its tag: "cherry 4/4 · ash 8/4", most boards first.
[[nodiscard]] std::string bayContents(const std::vector<Board>& rack, const std::string& bay);

/// Moves all wood and cost of boards to `to` in one entry, `also` beside it. Throws Refusal: not on
/// the rack, reserved for a job, no reason.
EntryId takeOff(Book& book, const std::vector<Board>& boards, AccountKind to,
                const std::string& reason, const Hand& hand,
                const std::function<void(store::Writer&)>& also);

}  // namespace flitch::desk
