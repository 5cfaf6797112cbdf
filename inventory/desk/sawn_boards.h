#pragma once
#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "inventory/store/book.h"

namespace flitch::desk {

/// What sawn boards are counted by. The wood of an offcut counts under the grade, supplier and
/// delivery of the board it came from first.
enum class By { job, species, thickness, grade, supplier, delivery, month, board };
inline constexpr std::array<std::string_view, 8> byWords{
    "job", "species", "thickness", "grade", "supplier", "delivery", "month", "board"};
[[nodiscard]] inline std::string_view word(By by) {
  return byWords.at(static_cast<std::size_t>(by));
}

/// Where wood of a sawn board went: a cause of account(), a part that was spoiled since, or a short
/// that went to a bin.
inline constexpr std::size_t fateCount = causeCount + 2;
inline constexpr std::size_t spoiledFate = causeCount;
inline constexpr std::size_t binFate = causeCount + 1;
[[nodiscard]] std::string_view fateWord(std::size_t fate);

/// A board as sawn, with where its wood and money went.
struct SawnBoard {
  store::DoneCutting done;
  std::array<CubicMillimetres, fateCount> volume{};  ///< as posted
  std::array<Money, fateCount> cost{};               ///< as posted
  std::array<Feet, fateCount> feet{};  ///< the board's measured feet, shared by account()
  std::array<std::string, byWords.size()> names;
  [[nodiscard]] const std::string& name(By by) const {
    return names.at(static_cast<std::size_t>(by));
  }
};

/// All boards whose sawing stands, or those of one job, oldest first. O(cuttings x pieces).
[[nodiscard]] std::vector<SawnBoard> sawnBoards(const store::Snapshot& snapshot,
                                                std::optional<JobId> job = std::nullopt);

/// Traces boards to what was first received.
class Origins {
 public:
  explicit Origins(const store::Snapshot& snapshot) : snapshot_(snapshot) {}
  /// The board itself where it has no parent.
  [[nodiscard]] const Board& of(const Board& board);
  /// "2026-05-31 Quillmere Sawyers, Q-118"; "no delivery" for stock the book opened with.
  [[nodiscard]] const std::string& delivery(const Board& origin);

 private:
  const store::Snapshot& snapshot_;
  std::map<BoardId, Board> known_;
  std::map<DeliveryId, std::string> deliveries_;
};

/// What a plan said of one board.
struct Promised {
  Feet parts;
  Money cost;
  Promised& operator+=(const Promised& more) {
    parts += more.parts;
    cost += more.cost;
    return *this;
  }
};

/// Reads what the plans promised of boards sawn, each plan once.
class Promises {
 public:
  explicit Promises(const store::Snapshot& snapshot) : snapshot_(snapshot) {}
  /// Nothing of a board that its plan did not open.
  [[nodiscard]] Promised of(const SawnBoard& board);

 private:
  const store::Snapshot& snapshot_;
  std::map<PlanId, store::StoredPlan> plans_;
};

/// What was sawn under one name.
struct YieldGroup {
  std::string name;
  std::vector<BoardId> boards;
  Feet sawn;
  CubicMillimetres wood;
  Money landed;
  std::array<CubicMillimetres, fateCount> volume{};
  std::array<Money, fateCount> cost{};
  std::array<Feet, fateCount> feet{};
  void add(const SawnBoard& board);
  [[nodiscard]] Feet partFeet() const { return feet[static_cast<std::size_t>(Cause::parts)]; }
  /// What the jobs took: landed less what the offcuts carry on.
  [[nodiscard]] Money net() const {
    return landed - cost[static_cast<std::size_t>(Cause::offcuts)];
  }
};
/// By name, figures in it as numbers.
[[nodiscard]] std::vector<YieldGroup> grouped(const std::vector<SawnBoard>& boards, By by);
[[nodiscard]] YieldGroup together(const std::vector<SawnBoard>& boards);

/// Nearest thousandth; zero of nothing.
[[nodiscard]] Permille permille(std::int64_t part, std::int64_t whole);
/// Money for one board foot, to the nearest ten-thousandth; empty where there are no feet.
[[nodiscard]] CellValue perFoot(Money money, Feet feet);

}  // namespace flitch::desk
