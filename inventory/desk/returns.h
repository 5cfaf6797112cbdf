#pragma once
#include <optional>
#include <string>

#include "inventory/records/table.h"
#include "inventory/store/book.h"

namespace flitch::desk {

using store::Book;
using store::Hand;

/// Sends a board back to its supplier: its wood and cost go to `returned`. `expected`: the credit
/// asked, else what the board cost. Throws Refusal: not on the rack, reserved for a job, from no
/// supplier, no reason.
EntryId sendBack(Book& book, const Board& board, const std::string& reason,
                 std::optional<Money> expected, const Hand& hand);

/// The credit that came for a board sent back. It goes against what the board cost; what is over or
/// under is a price difference. Throws Refusal: not sent back, a credit came already.
EntryId credit(Book& book, const Board& board, Money amount, const std::string& receivedOn,
               const Hand& hand);

/// Boards sent back: supplier, reason, cost, credit expected and received.
[[nodiscard]] Table returnReport(const store::Snapshot& snapshot);

}  // namespace flitch::desk
