#pragma once
#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "inventory/records/board.h"
#include "inventory/records/job.h"
#include "inventory/records/layup.h"
#include "inventory/records/shop.h"
#include "inventory/wood/species.h"

namespace flitch {

/// A node of a cut tree. `cut`: divided further by parallel cuts; all others are leaves.
enum class PieceKind { cut, blank, offcut, kerf, endTrim, unusable };

struct Piece {
  int depth = 0;
  PieceKind kind = PieceKind::cut;
  Rect at;
  Face faceUp = Face::a;        ///< blanks: which face of the board is the part's face A
  Edge frontEdge = Edge::near;  ///< blanks: which edge of the board is the part's front edge
  int line = 0;                 ///< blanks: the part's line
  int copy = 0;  ///< blanks: 1, 2, ... within the line, chalked on it; the copy of the part that it
                 ///< becomes, unless the cutting's layups say what it helps to make
  friend bool operator==(const Piece&, const Piece&) = default;
};

/// How one board is cut: a tree in preorder.
/// - pieces[0], depth 0, is boundsOf(board), a `cut`. Its children, along x: an endTrim at each end
///   as bought (none where our saw made the end), and between them one `cut` at depth 1, the body.
/// - Below the body at most three levels of children (the stages), divided along x or y in turn;
///   the body may be divided along either.
/// - Children of a node tile it without gap or overlap: they have its full extent across their
///   direction and follow each other along it. Waste between pieces is `unusable`; of waste beside
///   a piece the kerf is a leaf of its own.
/// - A blank or an offcut is a leaf at depth 2 to 4.
struct Cutting {
  BoardId board;
  std::vector<Piece> pieces;
  std::vector<Layup> layups{};  ///< of its blanks that are not a whole part each
  friend bool operator==(const Cutting&, const Cutting&) = default;
};

/// A cutting of an earlier plan that stays as it is, the numbers on its blanks too.
struct Lock {
  Cutting cutting;
  bool byEye = true;  ///< false: a plan made again left it alone, to change as little as it could
  friend bool operator==(const Lock&, const Lock&) = default;
};

/// A whole blank of a part that the maker laid on a board.
struct LaidByHand {
  BoardId board;
  int line = 0;
  Rect at;
  Face faceUp = Face::a;
  Edge frontEdge = Edge::near;
  friend bool operator==(const LaidByHand&, const LaidByHand&) = default;
};

/// Boards the maker would rather see used. It sways the choice and is no part of any price.
struct Wish {
  std::string words;            ///< "offcuts first"
  std::vector<BoardId> boards;  ///< wished for
  Money each;                   ///< counted for every other board that is opened
  bool byItself = false;        ///< not the maker's: the book's own, for this plan alone
  friend bool operator==(const Wish&, const Wish&) = default;
};

/// What the maker's eye has settled before the plan.
struct Choices {
  bool trustUnseen = false;      ///< take faces nobody has looked at for clear
  std::vector<BoardId> keptOut;  ///< boards that may not be opened
  std::vector<BoardId> pins;     ///< boards that must give a blank at least
  std::vector<Lock> locks;
  std::vector<LaidByHand> laid;
  std::vector<Wish> wishes;
  friend bool operator==(const Choices&, const Choices&) = default;
};

/// Wood that other jobs have set aside, as far as they hold no boards of it yet.
struct KeptWood {
  std::string species;
  Nominal nominal;
  Feet feet;
  std::string jobs;  ///< "Sideboard, Hall bench"
  Feet elsewhere;    ///< of free boards that are none of the request: not dry, kept back
};

/// All that planning a job needs: a copy, since the book may change meanwhile.
struct PlanRequest {
  Job job;
  ShopProfile shop;
  std::vector<Board> boards;  ///< free for this job, ready, on the rack
  Choices choices;
  std::map<int, std::set<int>> made;  ///< per part line: the numbers on the blanks sawn already
  std::vector<LaidBefore> laid;       ///< and of those that are not a whole part, their places
  Unit unit = Unit::inches;
  std::string sign = "$";
  std::vector<Species> ownSpecies;  ///< the book's, for weights
  std::vector<KeptWood> keptForOthers;
};

/// How a solve came to its end.
enum class PlanEnding { closed, goodEnough, timeUp, effortSpent, stopped };
/// What kind of bound stands under the plan's cost.
enum class PlanBound { none, area, relaxed, exact };
[[nodiscard]] std::string_view word(PlanBound kind);

/// Copies of a part that the plan does not supply.
struct ShortPart {
  int line = 0;
  int copies = 0;
  bool unseenOnly = false;  ///< would be supplied if unseen faces were trusted
  std::string reason;       ///< a sentence: "the longest such run in cherry 4/4 is 41 in (T0044-B)"
  friend bool operator==(const ShortPart&, const ShortPart&) = default;
};

/// A plan for a job, in nanometres. What it promises in money is what account() posts when it is
/// sawn as planned.
struct CutPlan {
  PlanId id;
  JobId job;
  ProfileId profile;
  Choices choices;
  Length tick;  ///< grid step; offcut worth is counted on it
  std::vector<Cutting> cuttings;
  std::vector<ShortPart> shorts;
  std::vector<int> waiting;  ///< part lines whose recipe waits for a later landing
  Money woodCost;            ///< landed cost of the boards less worth of offcuts
  Money cutCost;             ///< pulling, squaring, cutting
  Money offcutWorth;
  Money shortageCost;  ///< price of what is short; counts in total() and bound
  Money bound;         ///< no plan within the claim costs less than this; wishes are counted out of
                       ///< it as this plan meets them: see wishCost()
  PlanBound boundKind = PlanBound::none;
  PlanEnding ending = PlanEnding::timeUp;
  /// What the hand rule's plan and a careful hand's come to, in the prices of total(). Zero where
  /// such a plan leaves other copies short than this one: they do not compare. A careful hand that
  /// had no time is finished by the hand rule.
  Money handRule;
  Money carefulHand;
  std::int64_t seed = 0;
  std::int64_t effort = 0;
  std::string program;
  [[nodiscard]] Money total() const { return woodCost + cutCost + shortageCost; }
  /// What this plan saves on handRule or carefulHand; none where they do not compare.
  [[nodiscard]] std::optional<Money> savedOn(Money other) const;
  friend bool operator==(const CutPlan&, const CutPlan&) = default;
};

/// The layups of a blank, by its index. O(layups).
[[nodiscard]] std::vector<Layup> layupsOf(const Cutting& cutting, std::size_t piece);

/// What blanks bring a copy of its part together: width of staves, thickness of laminae.
struct Brought {
  LayupKind kind = LayupKind::stave;
  Length sum;
  [[nodiscard]] bool completes(const Part& part) const {
    return sum >= (kind == LayupKind::lamina ? part.thickness : part.width);
  }
};
/// Adds a layup to what was brought to its copy.
void bring(std::map<int, Brought>& copies, const Layup& layup);

/// What was made of a part before: whole copies, and those that lack staves or laminae.
struct MadeBefore {
  std::set<int> copies;
  std::map<int, Brought> begun;  ///< by copy, above zero and not complete
};
[[nodiscard]] MadeBefore madeBefore(const Part& part, const PlanRequest& request);

/// Children of pieces[at], as indices, in order. O(subtree).
[[nodiscard]] std::vector<std::size_t> childrenOf(const Cutting& cutting, std::size_t at);

}  // namespace flitch
