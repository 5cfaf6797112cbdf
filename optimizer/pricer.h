#pragma once
#include <limits>
#include <optional>
#include <vector>

#include "optimizer/best_pattern.h"
#include "optimizer/counted_programme.h"
#include "optimizer/programme.h"

namespace flitch::optimizer {

/// bestPattern for one board asked again and again: what the board's marks and outline forbid is
/// worked out once. Not for use by two threads at a time.
class Pricer {
 public:
  struct Ask {
    Caps caps = Caps::keep;
    Reach reach = Reach::all;
    std::size_t states = 4000000;  ///< most states for counting copies; past it the bound is open
    Worth floor = 0;  ///< patterns worth no more are of no use; upperBound is then at least this
    /// Only patterns that keep to OffcutRule count, as those of plans do.
    bool ruled = false;
    const Halt* halt = nullptr;  ///< none: to the end
    /// Most work of one run of the programme; past it the bound is what columns allow.
    std::uint64_t most = std::numeric_limits<std::uint64_t>::max();
  };

  /// Problem and stock outlive the pricer.
  Pricer(const Problem& problem, const Stock& stock);
  Pricer(const Pricer&) = delete;
  Pricer(Pricer&&) = default;
  Pricer& operator=(const Pricer&) = delete;
  Pricer& operator=(Pricer&&) = delete;

  [[nodiscard]] Best best(std::span<const Priced> priced, const Ask& ask);
  /// The board along each first cut the saw allows.
  [[nodiscard]] const std::vector<Lay>& lays() const { return lays_; }
  /// A bar: keeping caps costs no more than dropping them.
  [[nodiscard]] bool isBar() const;
  /// No pattern is worth more, caps dropped. Cheap.
  [[nodiscard]] Worth bound(std::span<const Priced> priced);

 private:
  [[nodiscard]] Best free(std::span<const Worth> values, const Ask& ask);
  [[nodiscard]] Best capped(std::span<const Priced> priced, std::vector<Worth> values,
                            const Ask& ask, Best relaxed);
  void count(std::span<const Priced> priced, std::span<const Worth> values, const Ask& ask,
             std::vector<CountedProgramme::Limit> limits, Best& best);
  [[nodiscard]] std::vector<Worth> valuesOf(std::span<const Priced> priced) const;

  static constexpr int rounds = 6;       ///< of prices on broken limits
  static constexpr int quickRounds = 2;  ///< with Reach::quick

  const Problem& problem_;
  const Stock& stock_;
  std::vector<Lay> lays_;
  std::vector<Programme> programmes_;
};

/// The pattern without the pieces that pass their caps (later ones go first) and without nodes left
/// empty.
[[nodiscard]] Pattern withinCaps(const Pattern& pattern, std::span<const Priced> priced);

/// What a pattern is worth under the prices: items + offcuts - cuts.
[[nodiscard]] Worth worthOf(const Pattern& pattern, std::span<const Worth> values,
                            const Problem& problem, const Stock& stock);

}  // namespace flitch::optimizer
