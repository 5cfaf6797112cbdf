#pragma once
#include <optional>
#include <string>

#include "optimizer/problem.h"

namespace flitch::optimizer::outside {

/// The whole problem as one integer programme in fixed MPS, from the definition of the cutting
/// rules alone: for each stock and first cut a flow over its positions whose arcs are sections; in
/// each section a flow of strips; in each strip a flow of pieces. An inner flow is as strong as the
/// arc it lies in, so it falls apart into one row of strips (or pieces) for each. Three stages, no
/// trim, offcuts worth nothing; recipes are whole columns; anything else throws
/// std::invalid_argument.
///
/// Shown able to fail: on the 100 shops of the test the programs disagreed with solve() on 15 with
/// the kerf between strips left out, on 4 without edge zones, on 2 with one orientation only.
[[nodiscard]] std::string mps(const Problem& problem);

/// What an outside program says is the least value of the programme in the file; empty when it does
/// not say that it is optimal.
[[nodiscard]] std::optional<Worth> glpsol(const std::string& file);
[[nodiscard]] std::optional<Worth> cbc(const std::string& file);

}  // namespace flitch::optimizer::outside
