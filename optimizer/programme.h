#pragma once
#include <cstdint>
#include <span>
#include <vector>

#include "optimizer/clear_board.h"
#include "optimizer/halt.h"
#include "optimizer/lay.h"
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

/// The programme for one board and one order of cutting under given values: positions along the
/// first cut from left to right, a stack of strips in every section that can still pay, a chain of
/// pieces in every strip. Only positions at which the best value rises are gone on from: a section,
/// strip or chain that starts later sees less of the board. A section is skipped when the best
/// before it, a bound on itself and a bound on what is left to its right do not beat the best
/// known. The bound counts, column by column, the dearest stack of pieces that can lie over it.
/// Gilmore and Gomory 1965 (staged programme); Hahn 1968 (marks).
class Programme {
 public:
  /// `lay` outlives the programme.
  Programme(const Lay& lay, const Saw& saw) : lay_(lay), saw_(saw), clear_(lay, saw) {}

  /// values: of each item of the problem; not above zero: not cut. Only patterns worth more than
  /// `floor` are looked for. Adds to work. Halted: the best so far, upperBound from the columns.
  [[nodiscard]] Filled run(std::span<const Worth> values, Reach reach, Worth floor,
                           std::uint64_t& work, const Halt* halt = nullptr);
  /// A bound on the value of any pattern, cheap.
  [[nodiscard]] Worth columnBound(std::span<const Worth> values);

 private:
  friend class CountedProgramme;

  /// A state of a chain along a strip: what ends before `next`.
  struct Link {
    Tick next = 0;
    Worth value = 0;
    int before = -1;
    int item = -1;  ///< the piece that ends here; -1: none
    Tick at = 0;
    Tick offcutFrom = 0, offcutTo = 0;  ///< an offcut just before the piece; equal: none
    Worth slack = 0;  ///< greatest value - next x worth of a column of offcut, up to this link
  };
  using Chain = std::vector<Link>;
  struct Trail {  ///< the offcut that ends a chain
    int after = -1;
    Tick from = 0, to = 0;
  };
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
  struct Reached {
    Tick before = -1;
    bool beforeIsOffcut = false;
    Tick from = 0, to = 0;
    bool offcut = false;
  };

  void prepare(std::span<const Worth> values);
  [[nodiscard]] Chain chain(const StripKind& kind, const StripKind::View& view, Tick u1);
  void layPieces(Chain& links, std::size_t l, const StripKind& kind, const StripKind::View& view);
  void layOffcuts(Chain& links, std::size_t l, const StripKind& kind, const StripKind::View& view,
                  const Chain& pieces);
  Worth worthOf(const Chain& chain, const StripKind& kind, const StripKind::View& view, Tick u2,
                Trail* trail) const;
  Worth single(const StripKind& kind, const StripKind::View& view, Tick u1, Tick u2, int* item,
               Tick* at) const;
  [[nodiscard]] Worth stripWorth(std::size_t kind, int view, Tick u1, Tick u2);
  /// Fills fromRow_: what the rows from v on can be worth at most; exact without offcuts.
  void boundRows(Tick u1, Tick u2, bool offcuts);
  /// Worth of the best stack, its section's cut not taken off. Where that does not pass `need`: no
  /// less than it, and no more than `need`. With `strips`: the stack itself, `need` below its
  /// worth.
  Worth stack(Tick u1, Tick u2, Worth need, std::vector<Strip>* strips);
  Worth offcutsIn(const Runs& runs, Tick u1, Tick u2, Tick dv, std::vector<Run>* where) const;
  /// Worth of the offcuts that fill rows v1 to v2 of a section, their strip's cut not taken off.
  Worth offcutRow(Tick u1, Tick u2, Tick v1, Tick v2, std::vector<Run>* where) const;
  void sections(Tick u1, Tick beyond, Worth base, bool afterOffcut, Reach reach);
  void between(Tick u1, Tick lo, Tick hi, Worth most, Worth base, bool afterOffcut);
  Worth section(Tick u1, Tick u2, Worth base, bool afterOffcut);
  void reach(Tick at, Worth value, const Reached& how);
  /// Bound on all that lies from u on.
  [[nodiscard]] Worth rest(Tick u) const { return rest_[static_cast<std::size_t>(u)]; }
  /// Bound on a section, its own cut not taken off.
  [[nodiscard]] Worth sectionBound(Tick u1, Tick u2);
  [[nodiscard]] Worth columns(Tick u1, Tick u2) const;
  /// Sharpens rest_ by what sections of a clear board are worth. O(length² + length · width ·
  /// kinds).
  void sharpen();
  /// The same once more with what sections can be worth given the marks: the rows' bound of
  /// stretches between places of a coarse grid, which no section within exceeds.
  void sharpenByMarks();
  void boundRest();
  [[nodiscard]] Worth needed(Tick u2, Worth base) const;
  [[nodiscard]] Pattern build();
  void buildSection(Tick u1, Tick u2, Pattern& pattern);
  void buildStrip(const Strip& strip, Tick u1, Tick u2, Pattern& pattern);
  [[nodiscard]] Tick plainUntil(Tick u) const;
  void findBreaks();

  static constexpr int fraction = 8;  ///< bits behind the point in the column bound

  const Lay& lay_;
  const Saw& saw_;
  std::vector<Worth> net_;                         ///< values with the piece's own cut taken off
  std::vector<std::vector<int>> live_;             ///< for each kind, places in items worth cutting
  std::vector<std::vector<std::size_t>> changes_;  ///< kinds whose view changes at a row
  std::vector<std::size_t> kindsInUse_;            ///< rising in width
  Tick widest_ = 0;
  std::vector<Worth> fromRow_;
  ClearBoard clear_;
  std::vector<Worth> toEnd_;   ///< bound on columns [0, u)
  std::vector<Worth> rest_;    ///< bound on all from u on
  std::vector<Worth> values_;  ///< that the bounds are for
  bool sharp_ = false;
  Tick stretch_ = 0;               ///< step of the coarse grid; 0: not worked out
  std::vector<Worth> between_;     ///< by first and last place of the grid
  std::vector<Tick> breaks_;       ///< ends of the ranges in which a longer section is worth more
  std::vector<Tick> freshStarts_;  ///< just behind hard cells
  std::vector<std::vector<Chain>> chains_;
  std::vector<std::vector<bool>> known_;
  std::vector<std::vector<Worth>> stripWorth_;  ///< of the section at hand; -1: not yet
  std::vector<Worth> best_, bestAfterOffcut_;
  std::vector<Reached> reached_, reachedByOffcut_;
  Worth incumbent_ = 0;
  Tick horizon_ = 0;  ///< no section from the place at hand that ends later can pay
  const Halt* halt_ = nullptr;
  bool halted_ = false;
  bool quick_ = false;  ///< offcuts only up to marks and to the end of their strip or stack
  std::uint64_t work_ = 0;
};

}  // namespace flitch::optimizer
