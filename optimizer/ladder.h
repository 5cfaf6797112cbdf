#pragma once
#include <bit>
#include <cstdint>
#include <vector>

#include "optimizer/problem.h"

namespace flitch::optimizer {

/// Places along a line with the best worth that reaches each, gone through in rising order. Places
/// may be reached while others are gone through, always behind the one at hand.
class Ladder {
 public:
  /// Nothing is reached of the places 0 to last.
  void start(Tick last) {
    words_.assign(static_cast<std::size_t>(last / 64 + 1), 0);
    if (values_.size() <= static_cast<std::size_t>(last))
      values_.resize(static_cast<std::size_t>(last) + 1);
  }
  /// False: it is reached already with no less.
  bool put(Tick at, Worth value) {
    const auto place = static_cast<std::size_t>(at);
    std::uint64_t& word = words_[place / 64];
    const std::uint64_t bit = std::uint64_t{1} << (place % 64);
    if ((word & bit) != 0 && values_[place] >= value) return false;
    word |= bit;
    values_[place] = value;
    return true;
  }
  /// First reached place from `from` on; none: -1.
  [[nodiscard]] Tick next(Tick from) const {
    auto word = static_cast<std::size_t>(from) / 64;
    if (word >= words_.size()) return -1;
    std::uint64_t bits = words_[word] & (~std::uint64_t{0} << (static_cast<unsigned>(from) % 64));
    while (bits == 0) {
      if (++word == words_.size()) return -1;
      bits = words_[word];
    }
    return static_cast<Tick>(word * 64) + static_cast<Tick>(std::countr_zero(bits));
  }
  /// Of a reached place.
  [[nodiscard]] Worth value(Tick at) const { return values_[static_cast<std::size_t>(at)]; }

 private:
  std::vector<std::uint64_t> words_;
  std::vector<Worth> values_;
};

}  // namespace flitch::optimizer
