#pragma once
#include <cstdint>
#include <vector>

#include "optimizer/problem.h"
#include "tests/optimizer/draw.h"

namespace flitch::bench {

/// A seeded shop of random boards and parts, for timing plans. Grid 1/8 in, kerf 1/8 in.
struct ShopSize {
  int boards = 15, types = 8, pieces = 40;
  /// The usual sizes: 15 boards (8 types, 40 pieces), 60 (20, 150), from 300 on (40, 500).
  [[nodiscard]] static ShopSize of(int boards);
};

/// Boards: species in turn (two up to 300 boards, else four), 70 % in 4/4 and 30 % in 8/4, 72 to
/// 144 in long, 4 to 14 in wide, three grades at 1, 0.74 and 0.52 of the species' price with 0-4,
/// 3-9 and 6-15 marks. Parts: 1 3/4 to 7 in wide, 10 to 46 in long and a fifth of them up to 80 in;
/// clear on two faces, on one, or sound; one in five needs thick stock; from 20 types on one or two
/// panels take staves of 2 to 5 in in quarter inches. Offcuts from 12 x 3 in on are worth 0.4 of
/// their area's share; a missing part costs six times its wood. A board costs $1 to pull, a cut 10
/// cents. All figures are made up.
[[nodiscard]] optimizer::Problem randomShop(const ShopSize& size, std::uint64_t seed);

inline constexpr optimizer::Tick inch = 8;
inline constexpr optimizer::Worth dollar = 10000;

/// What a part wants of its wood; the classes of all shops here.
enum Demand { clearBoth, clearOne, sound };
enum class MarkOn { faceA, faceB, through };

/// What a mark bars: unsound ones everything, sound ones the clear faces they show on. Cells
/// outside the board are left out.
void addMark(optimizer::Stock& stock, optimizer::Rect where, MarkOn on, bool isSound);

/// What an item asks of a board.
struct PartKind {
  int species, cls;
  bool thick;
};
/// Draws the parts of a shop; `price` holds one of a board foot for each species. Returns the kind
/// of each item.
std::vector<PartKind> addParts(optimizer::Draw& draw, optimizer::Problem& problem,
                               const ShopSize& size, const std::vector<optimizer::Worth>& price,
                               bool someThick);

/// Cost of a board whose square foot costs `foot`, and what its offcuts are worth.
void setPrice(optimizer::Stock& stock, optimizer::Worth foot);

/// Saw and money all shops share.
[[nodiscard]] optimizer::Problem emptyShop();

}  // namespace flitch::bench
