#pragma once
#include <string>
#include <vector>

#include "inventory/records/show_wood.h"
#include "inventory/store/book.h"

namespace flitch::desk {

/// What the maker settles before a plan, as typed.
struct Settled {
  bool trustUnseen = false;
  std::vector<std::string> pins, keepOut;  ///< tags
  std::vector<std::string> locks;          ///< tags of boards of the last plan, or "all"
  std::vector<std::string> lay;            ///< "C@T0042-F 12,1 1/2": see readLaid()
  std::vector<std::string> prefer;         ///< "offcuts", "oldest", "delivery 3"; a sum may follow
};
/// Reads it against the book. Where the job was changed since its last plan, "all" locks what can
/// stay as it was cut. Throws Refusal: unknown tag or part, a lock as lockOn() refuses it, a wish
/// it does not know.
[[nodiscard]] Choices choicesOf(const store::Book& book, JobId job, const Settled& settled);

/// The last plan's cutting of a board, to be kept. Throws Refusal when it cuts no such board, the
/// board was sawn since or the job asks for something else of it now.
[[nodiscard]] Lock lockOn(const store::Snapshot& snapshot, const Job& job, const Board& board);

/// "PART@TAG x,y", then ",B" for face B up and ",far" for the front edge at the board's far edge;
/// PART is a letter or a name, x and y the blank's corner nearest the tag end and the near edge.
[[nodiscard]] LaidByHand readLaid(const std::string& text, const store::Snapshot& snapshot,
                                  const Job& job, Unit unit);

}  // namespace flitch::desk
