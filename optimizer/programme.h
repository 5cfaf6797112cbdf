#pragma once
#include <cstdint>
#include <limits>
#include <span>
#include <vector>

#include "optimizer/halt.h"
#include "optimizer/lay.h"
#include "optimizer/offcut_rule.h"
#include "optimizer/offcuts_in.h"
#include "optimizer/pattern.h"

namespace flitch::optimizer {

/// How many section lengths are tried.
enum class Reach {
  all,   ///< every one: exact
  quick  ///< lengths of single items, offcuts only where they are bounded: good patterns in a
         ///< fraction of the time, no proof
};

/// A pattern of one board seen along one first cut, and what is known of the best.
struct Filled {
  Pattern pattern;
  Worth value = 0;       ///< item values + offcut worth - cuts; 0: empty
  Worth upperBound = 0;  ///< at least the best value; equal to it with Reach::all, unless below
                         ///< the floor asked for
};

struct Workspace;

/// The programme for one board and one order of cutting under given values: positions along the
/// first cut from left to right, a stack of strips in every section that can still pay, a chain of
/// pieces in every strip. Only positions at which the best value rises are gone on from: a section,
/// strip or chain that starts later sees less of the board. A section is skipped when the best
/// before it, a bound on itself and a bound on what is left to its right do not beat the best
/// known. Gilmore and Gomory 1965 (staged programme); Hahn 1968 (marks).
class Programme {
 public:
  /// `lay` outlives the programme.
  Programme(const Lay& lay, const Saw& saw);

  /// values: of each item of the problem; not above zero: not cut. Only patterns worth more than
  /// `floor` are looked for. Adds to work. Halted, or past `most` work: the best so far, upperBound
  /// from the columns.
  /// `ruled`: the bound need only hold for patterns that keep to OffcutRule.
  [[nodiscard]] Filled run(std::span<const Worth> values, Reach reach, Worth floor,
                           std::uint64_t& work, const Halt* halt = nullptr,
                           std::uint64_t most = std::numeric_limits<std::uint64_t>::max(),
                           bool ruled = false);
  /// Bounds kept from earlier calls are forgotten: what follows does not depend on them.
  void forget();
  /// A bound on the value of any pattern, cheap.
  [[nodiscard]] Worth columnBound(std::span<const Worth> values);

 private:
  friend class CountedProgramme;

  struct Reached {
    Tick before = -1;
    bool beforeIsOffcut = false;
    Tick from = 0, to = 0;
    bool offcut = false;
    Worth worth = 0;                          ///< of a section
    OffcutsIn offcuts = OffcutsIn::anywhere;  ///< in it
  };
  friend struct Workspace;

  Workspace& prepare(std::span<const Worth> values);
  void sharpen(Workspace& w);
  void sections(Workspace& w, Tick u1, Tick beyond, Worth base, bool afterOffcut, Reach reach);
  void between(Workspace& w, Tick u1, Tick lo, Tick hi, Worth most, Worth base, bool afterOffcut);
  Worth section(Workspace& w, Tick u1, Tick u2, Worth base, bool afterOffcut);
  /// Sections that may hold offcuts by the rule, and those that hold none. Of the former each
  /// length is asked by itself, at every place: what they hold does not grow with them. An offcut
  /// of rows or over all rows is worth most where it goes on to the next place at which one may
  /// end, so no gap is left behind it.
  void ruledSections(Workspace& w, Tick u1, Worth base, bool afterOffcut);
  void bareSections(Workspace& w, Tick u1, Worth base, bool afterOffcut);
  void wholeOffcuts(Workspace& w, Tick u, bool rises);
  void build(Workspace& w, Filled& filled);
  [[nodiscard]] Tick plainUntil(Tick u) const;

  const Lay& lay_;
  const Saw& saw_;
  OffcutRule rule_;
  std::vector<Tick> ruledRows_;  ///< before which rows of offcut may end
  std::vector<Tick> ruledEnds_;  ///< before which a whole offcut may end
  bool ruled_ = false;           ///< the run at hand
  std::uint64_t id_;             ///< tells whose figures a workspace holds
};

}  // namespace flitch::optimizer
