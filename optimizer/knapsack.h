#pragma once
#include <cstdint>
#include <span>
#include <vector>

#include "optimizer/halt.h"
#include "optimizer/problem.h"

namespace flitch::optimizer {

/// Something that may be packed up to `most` times.
struct Packable {
  std::int64_t size = 0;  ///< above 0
  Worth worth = 0;        ///< of one, above 0
  std::int64_t most = 0;
};

/// The bounded knapsack of every room up to one, by dynamic programming, copies in powers of two.
class Packing {
 public:
  /// O(room x items x log copies). False when halted: nothing is known then.
  bool fill(std::span<const Packable> items, std::size_t room, const Halt* halt = nullptr);
  /// What the best packing of that room is worth.
  [[nodiscard]] Worth most(std::size_t room) const { return most_[room]; }
  /// Copies of each item in a packing worth most(room).
  [[nodiscard]] std::vector<std::int64_t> copies(std::size_t room) const;
  [[nodiscard]] std::uint64_t work() const { return work_; }  ///< cells written by fill()

 private:
  /// Some copies of an item, taken together or not at all.
  struct Bundle {
    std::size_t item;
    std::int64_t copies;
    std::size_t size;
    Worth worth;
  };

  std::size_t items_ = 0;
  std::vector<Bundle> bundles_;
  std::vector<Worth> most_;
  std::vector<std::vector<bool>> takes_;  ///< of each bundle, by room
  std::uint64_t work_ = 0;
};

/// A packing found by search.
struct FoundPacking {
  bool whole = false;  ///< searched to the end
  Worth worth = 0;
  Worth bound = 0;  ///< if whole: no packing is worth more; at most a 2^30th above `worth`
  std::vector<std::int64_t> copies;
  std::uint64_t steps = 0;
};
/// The bounded knapsack of one room, items worth most for their size first and cut off where the
/// rest of the room could not bring more: quick where few copies fill the room. Gives up after
/// `most` steps.
[[nodiscard]] FoundPacking searchPacking(std::span<const Packable> items, std::int64_t room,
                                         std::uint64_t most);

}  // namespace flitch::optimizer
