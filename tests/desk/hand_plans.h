#pragma once
#include <vector>

#include "inventory/desk/jobs.h"

/// Plans laid out by hand, for the tests of the desk.
namespace flitch::desk::sample {

/// A leaf of a cut tree.
[[nodiscard]] Piece piece(int depth, PieceKind kind, const Rect& at, int line = 0, int copy = 0);

/// A blank to be sawn: its size, and the part it is for.
struct Wanted {
  Length length, width;
  int line = 0, copy = 0;
};
/// The blanks one behind the other from the tag end, each beside the reference edge of 1/8 in, with
/// kerfs of 1/8 in; what is left at the far end is kept where it is a foot long or more. Ends as
/// bought are trimmed by 1 in.
[[nodiscard]] Cutting cutInOrder(const Board& board, const std::vector<Wanted>& blanks);

/// A plan of these cuttings as makePlan() would hand it over, not looked at by the checker: money
/// from account(), the rest of the parts short.
[[nodiscard]] planning::PlanResult planOf(const Book& book, JobId job,
                                          const std::vector<Cutting>& cuttings);

}  // namespace flitch::desk::sample
