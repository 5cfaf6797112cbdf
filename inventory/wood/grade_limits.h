#pragma once
#include <string>

#include "inventory/wood/grade.h"

namespace flitch {

/// The limits of FAS on one face beside its cuttings: pith, knots and holes, wane, end splits, the
/// first foot at both ends. Says the first that is broken, else nothing.
/// - Pith: lengths together, SM inches. Knots, holes and bark pockets, touching ones as one:
/// average
///   diameter, a third of SM inches. (The chart says knots; that the others count as well is from
///   memory, and fits the graded boards of the 1998 data bank.)
/// - Wane: half of the length, on either edge.
/// - End splits (those that reach an end): the greater of 2 SM and 12 inches, all together, unless
///   each is a foot or shorter (from memory); nor may one longer than a foot run out of line by
///   more than 1 in a foot. What is over whole feet of the board is not counted, since it may be
///   cut off.
/// - First foot at each end: a quarter of it unsound at most.
[[nodiscard]] std::string brokenLimit(const GradeBoard& board, int face, int surfaceMeasure);

/// Wane past half the length on either edge, or end splits past their limit: barred on both faces
/// of F1F and Selects too.
[[nodiscard]] std::string brokenEdge(const GradeBoard& board, int face, int surfaceMeasure);

}  // namespace flitch
