#pragma once
#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "inventory/records/cut_plan.h"

namespace flitch {

/// Where the wood of a sawn board goes. Where areas overlap, the first of kerf, end trim, defect,
/// unusable takes them. Machining: a blank's volume less the finished volume it becomes, of a stave
/// its share of the panel.
enum class Cause { parts, offcuts, kerf, endTrim, defect, machining, unusable };
inline constexpr std::size_t causeCount = 7;
[[nodiscard]] std::string_view word(Cause cause);

/// What one leaf of a cut tree takes of its board.
struct Share {
  int piece = -1;  ///< index into Cutting::pieces
  Cause cause = Cause::unusable;
  CubicMillimetres volume;
  Money cost;
};

/// A board's volume and cost by cause. Sums are those of the board, exactly.
struct Breakdown {
  std::vector<Share> shares;  ///< in piece order; a blank has parts and machining, waste may have
                              ///< defect and unusable
  std::array<CubicMillimetres, causeCount> volume{};
  std::array<Money, causeCount> cost{};
  std::array<Feet, causeCount> feet{};  ///< the board's measured feet, split by plan area
  Money offcutWorth;                    ///< = cost[offcuts]
  Money woodCost;                       ///< landed less offcut worth: what the job takes
  Money cutCost;                        ///< pulling, squaring, cuts (labour; never on the ledger)
};

/// Accounts one cutting: shared by plan, checker and ledger, so a plan sawn as planned posts
/// exactly the wood cost it promised. Volume is shared by exact area (mean of both faces) by
/// split(); an offcut carries offcutWorth(), nothing where the shop's offcuts stand at zero; the
/// rest of the landed cost falls on the other causes by volume. A sawn board without any blank
/// posts its cost to waste likewise.
[[nodiscard]] Breakdown account(const Cutting& cutting, const Board& board, const Job& job,
                                const ShopProfile& shop, Length tick);

/// Fixed-point worth of one grid cell of an offcut of this board, 2^-30 ten-thousandths per tick²:
/// floor(2^30 x band's share x landed cost x tick² / area of the board).
[[nodiscard]] std::int64_t offcutRate(const Board& board, const KeepBand& band, Length tick);
inline constexpr int offcutRateShift = 30;
/// floor(rate x l x w / 2^30), l and w in whole ticks (rounded down). The rate is that of the
/// longest band the offcut reaches; zero below the keeping rule, and where offcuts stand at zero.
/// The one integer function of offcut worth: the optimizer uses the same rates and the same floor.
[[nodiscard]] Money offcutWorth(const Board& board, const ShopProfile& shop, Length tick, Length l,
                                Length w);

/// The part of an offcut that is counted: the grid rectangle within `at` that lies inside both
/// lying outlines with the reference edge off, all rounding inward. The real remainder may be
/// larger (an offcut sawn as a whole section keeps its rough edges). dx or dy zero: none.
[[nodiscard]] Rect offcutCore(const Board& board, const ShopProfile& shop, Length tick,
                              const Rect& at);

/// What of `at` is counted is clear of marks that bar an offcut, and `length` x `width` or more.
[[nodiscard]] bool isClear(const Board& board, const ShopProfile& shop, Length tick, const Rect& at,
                           Length length, Length width);
/// The same by the keeping rule.
[[nodiscard]] bool isOffcut(const Board& board, const ShopProfile& shop, Length tick,
                            const Rect& at);

/// Cost of taking a board from the rack and squaring it: minutes of a pull, one crosscut an end
/// trimmed, one rip for the reference edge.
[[nodiscard]] Money openingCost(const Board& board, const ShopProfile& shop);
/// One cut for every `cut`, blank and offcut node below the body and every leaf but one of a resawn
/// blank, each at the shop's minutes a cut. Where offcuts stand at zero none is cut for: what falls
/// anyway is kept. Cutting to finished length or width is not counted, so
/// neither is cutting a gang apart. Staves and laminae that are glued count the minutes of gluing.
[[nodiscard]] Money cuttingCost(const Cutting& cutting, const ShopProfile& shop);
/// Staves and laminae of the cutting that are glued; loose boards of random widths are not.
[[nodiscard]] std::int64_t gluedOf(const Cutting& cutting);
/// Price of a missing copy: its blank, as if it were one, in board feet at the least nominal
/// thickness that gives it, at the dearest landed foot among boards of an allowed species (else of
/// all boards, else 10 money units), times the shop's factor. In proportion to the wood, so that it
/// measures parts against each other; it does not decide whether a board is opened (see makePlan).
[[nodiscard]] Money shortagePrice(const Part& part, const PlanRequest& request);

/// Board feet of the offcuts among the shares, in their order: feet[offcuts] shared by volume.
[[nodiscard]] std::vector<Feet> offcutFeet(const Breakdown& breakdown);

/// An account of the ledger.
enum class AccountKind {
  board,
  bought,
  opening,
  found,
  returned,
  credit,
  parts,
  kerf,
  endTrim,
  defect,
  machining,
  unusable,
  lost,
  missing,
  retired,
  sold,
  priceDifference,
  remeasured,
  byHand,  ///< used up without a plan
  bin      ///< untagged shorts
};
[[nodiscard]] std::string_view word(AccountKind kind);
[[nodiscard]] AccountKind accountOf(Cause cause);  ///< not for offcuts

/// Takes wood and money out of one account and puts them into another: every entry balances by its
/// shape. `source`, `target` name a board when the kind is `board`. A bin holds wood without money.
struct Move {
  AccountKind source = AccountKind::bought;
  BoardId sourceBoard;
  AccountKind target = AccountKind::parts;
  BoardId targetBoard;
  CubicMillimetres volume;
  Money cost;
  int piece = -1;  ///< of the cutting that caused it, -1 for none
  BinId bin;       ///< where source or target is a bin
};

}  // namespace flitch
