#pragma once
#include <cstdint>
#include <vector>

#include "optimizer/strips.h"

namespace flitch::optimizer {

/// What sections of a board can be worth: a stack of strips and rows of offcuts. Asked for one
/// start after another, and for each for one end after another. First a bound: strips at their
/// bounds, gone up from row to row, all rows that none of them takes counted as offcut; a state
/// that cannot pass what is asked for, with what a clear board would allow beyond it, is dropped.
/// Only where that does not settle it are strips and rows of offcuts worked out exactly.
class Sections {
 public:
  void price(const Pricing& pricing, const ClearBoard& clear);
  /// Sections from u1 on, none of which ends behind `horizon`.
  void start(Tick u1, Tick horizon, OffcutsIn offcuts);
  /// In the sections at hand.
  [[nodiscard]] OffcutsIn allowed() const { return offcuts_; }
  /// Rows before which offcuts may end, for OffcutsIn::ruled.
  void rule(const std::vector<Tick>* rowEnds) { rowEnds_ = rowEnds; }
  /// The most that section u1 to u2 can be worth, its own cut not taken off, or `need` if that is
  /// more. Cheap.
  Worth bound(Tick u2, Worth need);
  /// The worth of the best stack, its section's cut not taken off, where it passes `need`; else a
  /// figure from the worth up to `need`.
  Worth worth(Tick u2, Worth need);
  /// Adds the cells of the best stack of the section u1 to u2, which is worth `worth` or more, and
  /// returns its worth.
  Worth build(Tick u1, Tick u2, Worth worth, OffcutsIn offcuts, Pattern& pattern);

  /// What rows from v on can be worth at most in the section last bounded, as far as it helps to
  /// pass what was asked for.
  const std::vector<Worth>& fromRow();
  /// Worth of the offcuts that fill rows v1 to v2 of a section, their strip's cut not taken off.
  Worth offcutRow(Tick u1, Tick u2, Tick v1, Tick v2, std::vector<Run>* where);
  void buildOffcutRow(Tick u1, Tick u2, Tick v1, Tick v2, Pattern& pattern);

  Strips strips;
  std::uint64_t work = 0;

 private:
  /// A strip of a section: a kind at row `at`, or offcuts over `at` to `to` (kind -1).
  struct Strip {
    int kind = -1;
    Tick at = 0, to = 0;
  };
  struct Step {  ///< how a row is reached
    Tick before = -1;
    bool beforeIsOffcut = false;
    Strip strip;
  };
  struct Entry {  ///< a kind as the section at hand sees it
    std::size_t kind;
    Tick size;    ///< rows, with a kerf
    Worth taken;  ///< worth in offcut of the rows it takes, 2^-fraction
    Worth clear;  ///< what it adds at most, these rows taken off
  };
  struct Rung {
    Tick at;  ///< rows from the top, with a kerf
    Worth value;
  };
  struct Event {  ///< a view becomes another
    Tick at;      ///< rows above a strip that starts there
    Tick row;
    std::size_t kind;
  };

  [[nodiscard]] Worth rowWorth() const;
  void findEntries();
  void put(const Entry& entry, Tick row, Worth have, Worth need);
  [[nodiscard]] bool hopeless(Worth have, Tick at, Worth need) const;
  Worth exactly(Worth need, std::vector<Strip>* stack);
  void look();
  void lay(std::size_t kind, Tick v, Worth base, Tick before, bool beforeIsOffcut, Worth need);
  void offcutsFrom(Tick v1, Worth base, Tick before, bool beforeIsOffcut, Worth need);
  [[nodiscard]] Tick plainUntil(Tick v) const;
  void clearOf(Tick v1, Tick v2, Runs& runs);
  Worth offcutsIn(const Runs& runs, Tick dv, std::vector<Run>* where) const;

  const Pricing* pricing_ = nullptr;
  const ClearBoard* clear_ = nullptr;
  Tick u1_ = 0, u2_ = 0;
  OffcutsIn offcuts_ = OffcutsIn::anywhere;
  const std::vector<Tick>* rowEnds_ = nullptr;
  std::vector<Event> events_;
  std::vector<Entry> entries_;
  std::vector<std::size_t> entryOf_;  ///< by kind
  Ladder ladder_;
  std::vector<Rung> rungs_;
  Worth perRow_ = 0;              ///< a row of offcut is worth at most this, 2^-fraction
  const Worth* below_ = nullptr;  ///< by rows, what they may hold at most
  std::vector<Worth> fromRow_;
  std::vector<Rect> hard_, marks_;  ///< those the section meets
  std::vector<char> border_, ends_;
  std::vector<Worth> row_, afterOffcut_;  ///< by row; the latter ends with an offcut cut short
  std::vector<Step> how_, howOffcut_;
  std::vector<Tick> plainEnd_;
  std::vector<char> stepping_;
  Runs runs_, left_;
};

}  // namespace flitch::optimizer
