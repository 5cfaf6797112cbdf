#pragma once
#include <span>
#include <string>
#include <vector>

#include "inventory/records/account.h"
#include "inventory/records/job_line.h"
#include "inventory/records/price.h"
#include "inventory/records/table.h"

namespace flitch {

/// One sum, as the boards cost and as they would cost to buy again.
struct TwoCosts {
  Money landed, today;
  TwoCosts& operator+=(const TwoCosts& more) {
    landed += more.landed;
    today += more.today;
    return *this;
  }
  friend bool operator==(const TwoCosts&, const TwoCosts&) = default;
};

/// A board that a job opens or opened, and how.
struct UsedBoard {
  Board board;  ///< with the cost and wood it had before it was sawn
  Cutting cutting;
  Length tick;
  ShopProfile shop;  ///< settings it is cut by, whatever was set since
};

/// Boards of one species, thickness and grade.
struct WoodLine {
  std::string species;
  Nominal nominal;
  std::string grade;  ///< empty: not known, or offcuts
  int boards = 0;
  Feet feet;  ///< billed; of offcuts measured
  TwoCosts cost;
  int unpriced = 0;   ///< boards no price of the table fits: today's cost is the landed one
  std::string since;  ///< day of the price used
};

/// What was bought beside the lumber, or done.
struct BillLine {
  std::string what, quantity;
  Money cost;
};

/// What the wood of one part comes to, waste and offcuts shared.
struct PartCost {
  int line = 0;
  CubicMillimetres finished;
  TwoCosts cost;
};

/// What a job costs: its lumber, other materials, work. All sums are exact.
struct Estimate {
  std::string day;
  std::vector<WoodLine> wood;
  int boards = 0, offcuts = 0;
  Money cutting;    ///< pulling, squaring, cutting
  TwoCosts kept;    ///< worth of the offcuts, given back
  TwoCosts lumber;  ///< wood + cutting - kept
  std::vector<BillLine> materials, work;
  TwoCosts allMaterials;  ///< lumber and materials
  Money allWork;
  int markupPermille = 0;
  TwoCosts markup;  ///< on all materials, to the nearest ten-thousandth
  TwoCosts sum;
  std::vector<PartCost> parts;  ///< in order of line; their costs add up to lumber less cutting
  std::vector<std::string> notes;
};

/// `materials` and `work` as billed. The lumber of `opened` is counted twice over by account(): at
/// landed cost, and with each board's replacement price of `day` in its place, so that offcuts keep
/// their share of either. Waste is shared among the parts of a species by their finished volume,
/// with split(). O(pieces).
[[nodiscard]] Estimate estimateOf(const Job& job, int markupPermille,
                                  std::span<const UsedBoard> opened,
                                  std::span<const ReplacementPrice> prices, const std::string& day,
                                  std::vector<BillLine> materials, std::vector<BillLine> work);

/// "cherry 4/4 FAS, 6 boards".
[[nodiscard]] std::string woodText(const WoodLine& line);
/// "Markup on materials, 15 %".
[[nodiscard]] std::string markupText(const Estimate& estimate);
/// A row per line and sum: section, what, quantity, at landed cost, at today's prices.
[[nodiscard]] Table estimateTable(const Estimate& estimate);
/// A row per part: letter, name, wood at landed cost, at today's prices.
[[nodiscard]] Table partCostTable(const Estimate& estimate, const Job& job);
/// Sentence under both: how waste is shared.
inline constexpr std::string_view wasteRule =
    "Waste is shared among the parts of a species by their volume.";

/// What a customer is asked: the sum at today's prices to the nearest whole unit, halves up.
[[nodiscard]] Money askedPrice(const Estimate& estimate);

}  // namespace flitch
