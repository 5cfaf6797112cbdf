#pragma once
#include <vector>

#include "optimizer/ladder.h"
#include "optimizer/pricing.h"

namespace flitch::optimizer {

/// What a section of a board would be worth if no mark lay in it: a bound on every real section as
/// long, tighter than columns alone since pieces do not come in fractions. Two offcuts that no mark
/// parts are worth no more than one as large as both, so one for each strip and stack is enough.
class ClearBoard {
 public:
  /// Lengths above the one of the level before, up to and with `length`.
  struct Level {
    Tick length = 0;
    Worth worth = 0;       ///< of a section at most, its own cut not taken off
    std::size_t rows = 0;  ///< where its rows begin
  };

  /// O(kinds · length · items + levels · width · kinds); levels some dozens.
  void price(const Pricing& pricing);
  /// Worth of a section so long at most, its own cut not taken off.
  [[nodiscard]] Worth section(Tick length) const { return levels_[levelOf(length)].worth; }
  /// In a section so long: the most that so many rows, a kerf behind every strip included, can be
  /// worth, those that no strip takes counted as offcut. By that number.
  [[nodiscard]] const Worth* rows(Tick length) const {
    return rows_.data() + levels_[levelOf(length)].rows;
  }
  /// Worth of a strip at most, by its length. Only for kinds in use.
  [[nodiscard]] const Worth* strip(std::size_t kind) const {
    return strips_.data() + kind * stripsEach_;
  }
  /// Rising in length; the last is the board's.
  [[nodiscard]] const std::vector<Level>& levels() const { return levels_; }
  /// Since it was made.
  [[nodiscard]] std::uint64_t work() const { return work_; }

 private:
  void fillStrips(std::size_t kind);
  void findLevels();
  Level stack(Tick length);
  [[nodiscard]] std::size_t levelOf(Tick length) const {
    return levelOf_[static_cast<std::size_t>(length)];
  }

  const Pricing* pricing_ = nullptr;
  std::size_t stripsEach_ = 0, rowsEach_ = 0;
  std::vector<Worth> strips_, rows_, chain_;
  struct Entry {
    Tick size;
    Worth worth;
  };
  std::vector<Entry> entries_;  ///< strips of a stack, a kerf behind each
  std::vector<Level> levels_;
  std::vector<std::size_t> levelOf_;  ///< by length
  Ladder ladder_;
  std::uint64_t work_ = 0;
};

}  // namespace flitch::optimizer
