#pragma once
#include <cstdint>
#include <vector>

#include "optimizer/halt.h"
#include "optimizer/sections.h"

namespace flitch::optimizer {

/// What columns of a board can be worth at most: column by column the dearest stack of pieces that
/// can lie over it, then by what whole sections can be worth.
class Rest {
 public:
  /// By columns alone. O(blocks of columns · width · kinds).
  void price(const Pricing& pricing);
  /// Sharper by what sections of a clear board are worth. O(length · levels).
  void sharpen(const ClearBoard& clear);
  /// The same once more with what sections can be worth given the marks: that of stretches between
  /// places of a coarse grid, which no section within exceeds.
  void sharpenByMarks(Sections& sections, const Halt* halt);

  /// Bound on all that lies from u on.
  [[nodiscard]] Worth from(Tick u) const { return rest_[static_cast<std::size_t>(u)]; }
  /// Bound on a section, its own cut not taken off.
  [[nodiscard]] Worth section(Tick u1, Tick u2) const;
  /// Since it was made.
  [[nodiscard]] std::uint64_t work() const { return work_; }

 private:
  void findDensities(Tick block, std::size_t blocks);
  /// Rows hard all over the columns u1 to u2.
  void findHard(Tick u1, Tick u2);
  /// The dearest stack over the columns of a block, for each column.
  Worth stack(const Worth* density);
  [[nodiscard]] Worth columns(Tick u1, Tick u2) const;
  void boundRest();

  struct Strip {
    Tick last;          ///< row it may start at
    const int* viewAt;  ///< by row
    const Worth* worth;
    Worth* behind;  ///< row behind a strip, by row
  };

  const Pricing* pricing_ = nullptr;
  const ClearBoard* clear_ = nullptr;
  std::vector<Worth> toEnd_;  ///< bound on columns [0, u), 2^-fraction
  std::vector<Worth> rest_;
  Tick stretch_ = 0;            ///< step of the coarse grid; 0: not worked out
  std::vector<Worth> between_;  ///< by first and last place of the grid
  std::vector<Worth> density_;  ///< by block and view: the dearest piece, per column
  std::vector<Worth> row_;
  std::vector<char> hard_, hardBefore_;
  std::vector<Strip> strips_;
  std::uint64_t work_ = 0;
};

}  // namespace flitch::optimizer
