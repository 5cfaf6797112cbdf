#pragma once
#include <cstdint>
#include <span>

#include "optimizer/programme.h"

namespace flitch::optimizer {

/// True where a board is a rectangle without marks on which offcuts are worth nothing: what a
/// section is worth then depends on its length alone.
[[nodiscard]] bool isPlain(const Lay& lay);

/// The programme on such a board: a knapsack of pieces for every strip width, one of strips for
/// every section length that pieces can fill exactly, one of sections. Time O(lengths · width ·
/// kinds) at worst; lengths whose strips cannot beat shorter sections are skipped by their dearest
/// strip. Gilmore and Gomory 1965.
[[nodiscard]] Filled plainBest(const Lay& lay, const Saw& saw, std::span<const Worth> values,
                               std::uint64_t& work, const Halt* halt);

}  // namespace flitch::optimizer
