#pragma once
#include <string>
#include <vector>

#include "inventory/store/book.h"

namespace flitch::desk {

/// The board a typed or scanned tag names. Throws Refusal: wrong check character, unknown,
/// withdrawn, replaced (names the tag that took its place). A number without check character is
/// taken here: whoever shows species and size.
[[nodiscard]] Board boardNamed(const store::Snapshot& snapshot, const std::string& tag);

/// The same for a change: a number without its check character is refused with species, size and
/// bay of the board it would be, unless `sure`.
[[nodiscard]] Board boardToChange(const store::Snapshot& snapshot, const std::string& tag,
                                  bool sure, Unit unit);
/// All of them, each once, on the rack. Throws one Refusal with every complaint.
[[nodiscard]] std::vector<Board> boardsToChange(const store::Snapshot& snapshot,
                                                const std::vector<std::string>& tags, bool sure,
                                                Unit unit);

/// A bay by its name, case folded, or by its tag's code. Throws Refusal naming the bays there are.
[[nodiscard]] std::string bayNamed(const store::Snapshot& snapshot, const std::string& bay);

/// The same where boards are put: what is neither a bay's name nor a tag is the name of a new bay.
[[nodiscard]] std::string bayOrNew(const store::Snapshot& snapshot, const std::string& bay);

/// A job by its number. Throws Refusal "unknown-job".
[[nodiscard]] Job jobIn(const store::Snapshot& snapshot, JobId id);

/// A length as the book's people read it: inches alone, or millimetres.
[[nodiscard]] std::string figure(Length length, Unit unit);

/// What a sentence calls a board: its tag, or "a board without a tag".
[[nodiscard]] std::string tagOf(const Board& board);

/// Throws Refusal "not-on-rack" that says where the board went, when it is not on the rack.
void needOnRack(const store::Snapshot& snapshot, const Board& board,
                const std::string& accepted = "a board on the rack");

/// Where a board that is off the rack went, for people: "sawn", "returned", "missing", "retired".
[[nodiscard]] std::string wentText(const store::Snapshot& snapshot, const Board& board);

}  // namespace flitch::desk
