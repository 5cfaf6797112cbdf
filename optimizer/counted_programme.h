#pragma once
#include <cstdint>
#include <deque>
#include <optional>
#include <span>
#include <vector>

#include "optimizer/best_pattern.h"
#include "optimizer/programme.h"

namespace flitch::optimizer {

/// The programme with limits inside the board: states carry how many copies of the limited items
/// they hold, and one state beats another only with no more of each. What the free programme says a
/// section can be worth at most cuts off nearly all of it.
class CountedProgramme {
 public:
  static constexpr std::size_t mostLimits = 8;
  static constexpr std::int64_t largestLimit = 127;

  struct Limit {
    int item = 0;
    std::int64_t cap = 0;
    Worth price = 0;  ///< on each copy; sharpens the bounds, changes no result
  };

  /// `programme` is used for its bounds. At most mostLimits limits, none above largestLimit.
  CountedProgramme(Programme& programme, std::span<const Limit> limits);

  /// The best pattern within the limits that is worth more than `floor`; other items are free.
  /// Prices on the limits are taken off the values for the bounds: a state and all that can follow
  /// it are worth no more than both at the lowered values plus the prices times the caps.
  /// Nothing when more than `states` states would be needed or the halt came.
  [[nodiscard]] std::optional<Filled> run(std::span<const Worth> values, Worth floor,
                                          std::size_t states, const Halt* halt);

 private:
  /// A count of up to 127 in each byte.
  using Counts = std::uint64_t;
  struct State {
    Worth value = 0;  ///< at the lowered values
    Counts counts = 0;
    const State* before = nullptr;  ///< what lies to the left, or below
    const State* inside = nullptr;  ///< the stack of a section, the chain of a strip
    int item = Cell::divided;
    Tick from = 0, to = 0;
  };
  using Front = std::vector<const State*>;  ///< none beats another

  [[nodiscard]] bool within(Counts counts) const;
  [[nodiscard]] Worth full(const State& state) const;  ///< at the full values
  /// No more of any limited item and, at the full values, worth no less.
  [[nodiscard]] bool beats(const State& a, const State& b) const;
  /// Adds the state unless the front has one as good; false: beaten.
  bool add(Front& front, State state);
  void carry(const Front& from, Front& to);
  [[nodiscard]] Counts countOf(int item) const;
  std::vector<Front> chain(const StripKind& kind, const StripKind::View& view, Tick u1);
  Front strip(std::size_t kind, int view, Tick u1, Tick u2);
  Front stack(Tick u1, Tick u2, Worth need);
  void sections(Tick u1, const Front& starts, std::vector<Front>& board);
  [[nodiscard]] Pattern build(const State& last);

  Programme& programme_;
  const Lay& lay_;
  Workspace* space_ = nullptr;
  std::vector<Limit> limits_;
  Counts caps_ = 0;
  std::deque<State> states_;
  std::size_t mostStates_ = 0;
  bool tooMany_ = false;
  const Halt* halt_ = nullptr;
  Worth floor_ = 0;
  std::vector<std::vector<std::vector<Front>>> chains_;  ///< by kind and view, of one u1
};

}  // namespace flitch::optimizer
