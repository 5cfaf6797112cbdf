#pragma once
#include <limits>

#include <deque>

#include "optimizer/clear_board.h"
#include "optimizer/listing.h"
#include "optimizer/offcut_rule.h"

namespace flitch::optimizer {

/// The listing of one board for one order of cutting; serves one call.
class ListingSide {
 public:
  ListingSide(const Lay& lay, const Problem& problem, const Lister::Ask& ask);

  /// No way is worth more, by the bounds alone.
  [[nodiscard]] Worth most();
  /// Adds the ways worth more than the floor. False: given up (labels, halt).
  bool run(Worth floor, std::vector<Listed>& ways);
  /// Worth of the best way by one value, or 0 when that is not above the floor; and what the last
  /// run took.
  [[nodiscard]] Worth best() const { return best_; }
  [[nodiscard]] std::size_t labels() const { return labels_.size(); }
  /// Not given up.
  [[nodiscard]] bool fits() const { return !tooMany_; }
  [[nodiscard]] std::uint64_t work() const { return work_; }

 private:
  struct Label {
    Units units;
    Worth rest = 0;                 ///< offcuts - cuts - extras
    Worth value = 0;                ///< the same + units at their worth
    Worth low = 0;                  ///< the same + units at their steepest worth less prices
    const Label* before = nullptr;  ///< to the left, or below
    const Label* inside = nullptr;  ///< the stack of a section, the chain of a strip
    int item = Cell::divided;
    Tick from = 0, to = 0;
  };
  using Front = std::vector<const Label*>;  ///< none beats another
  struct Piece {                            ///< an item, as the labels see it
    int item = 0, place = 0;                ///< place in its kind's items
    Tick size = 0;
    Label label;    ///< of one alone
    Worth low = 0;  ///< all it supplies counted, at the steepest worth less prices
  };
  struct Kind {
    const StripKind* kind = nullptr;
    std::size_t number = 0;
    std::vector<Piece> pieces;
    std::vector<Tick> changes;  ///< rows where its view changes
  };
  struct Link {  ///< of a chain with one value
    Tick next = 0;
    Worth low = 0;  ///< lifted: in 2^-fraction
  };
  struct Place {
    Tick next = 0;
    const Label* label = nullptr;
  };
  struct Section {
    Tick from = 0, to = 0;
    bool offcuts = false;
    Worth low = -1;  ///< at most; -1: not worked out
  };

  // Labels (listing_labels.cpp)
  [[nodiscard]] bool beats(const Label& a, const Label& b) const;
  [[nodiscard]] Label joined(const Label& base, const Label& more) const;
  /// Adds it unless one of the front beats it. Null: beaten.
  const Label* keep(Front& front, const Label& label);
  void weigh(Label& label) const;

  // One value (listing_bounds.cpp)
  void findPlaces();
  /// Puts prices on the units wanted so that no piece is worth more than `level` a cell.
  void levelTo(double level);
  /// All that follows from the prices.
  void weighAll();
  /// The level at which the pieces wanted would fill the board.
  [[nodiscard]] double fillingLevel() const;
  void boundByStretches();
  [[nodiscard]] Worth sectionBound(Tick u1, Tick u2);
  /// A chain of pieces from u1 on: places rising, each worth more than all before. Lifted: the
  /// worth of the cells they take, were these offcut, taken off.
  const std::vector<Link>& linksOf(std::size_t k, std::size_t view, Tick u1, bool lifted);
  [[nodiscard]] Worth stripWorth(std::size_t k, std::size_t view, Tick u1, Tick u2, bool offcuts);
  void forget();
  /// Fills above_: what the rows from each on are worth at most.
  void boundRows(Tick u1, Tick u2, bool offcuts);
  /// All sections that may begin at u1.
  std::vector<Section>& sectionsFrom(Tick u1);
  bool boundBoard();

  // Chains, stacks, the board (listing.cpp)
  const std::vector<Place>& chain(std::size_t k, std::size_t view, Tick u1, bool offcuts);
  [[nodiscard]] Front strip(std::size_t k, std::size_t view, const Section& section);
  [[nodiscard]] Front stack(const Section& section, Worth need);
  [[nodiscard]] std::vector<Run> offcutsIn(const Section& section, Tick v1, Tick v2) const;
  [[nodiscard]] Label offcutRow(const Section& section, Tick v1, Tick v2) const;
  [[nodiscard]] Pattern build(const Label& last) const;
  void buildStrip(const Label& strip, const Label& section, Pattern& pattern) const;
  [[nodiscard]] bool givenUp();

  const Lay& lay_;
  const Problem& problem_;
  const Lister::Ask& ask_;
  OffcutRule rule_;
  std::vector<int> lane_;  ///< of each need; -1: plays no part here
  struct Table {
    std::size_t lane, need;
    std::size_t row = 1;       ///< of `ahead`
    std::vector<Worth> ahead;  ///< UnitWorths::ahead by many and few, less the steepest worth of
                               ///< each unit more
  };
  std::vector<Table> tables_;  ///< lanes whose units are not worth the same each
  std::vector<Worth> unit_;    ///< steepest worth
  std::vector<Worth> price_;   ///< on a unit of each lane, none above its steepest worth
  Units wanted_;
  Worth back_ = 0;   ///< what units can be worth more than in low values, at most
  Worth floor_ = 0;  ///< for low values
  std::vector<Kind> kinds_;

  Pricing pricing_;
  ClearBoard clear_;
  Tick stretch_ = 0, stretches_ = 0;
  std::vector<Worth> between_;
  std::vector<Worth> restBound_;                ///< on all from a place on, by the bounds alone
  std::vector<Worth> upTo_, rest_;              ///< best low value before a place, from a place on
  std::vector<std::vector<Section>> all_;       ///< by place; empty: not found yet
  std::vector<std::vector<Section>> sections_;  ///< by place, those that may pay
  std::vector<std::vector<std::vector<Link>>> links_[2];  ///< pieces; pieces less what they lie on
  std::vector<std::vector<char>> linked_[2];
  struct Strips {
    Tick last;  ///< row they may start at
    const int* viewAt;
    const Worth* worth;
    const Worth* behind;
  };
  std::vector<Worth> above_, running_, rowWorth_;
  std::vector<Tick> rowClear_;
  std::vector<std::vector<Worth>> worths_;  ///< by kind and view
  std::vector<Strips> strips_;
  std::vector<char> reached_;
  std::vector<std::vector<std::vector<Place>>> chains_[2];
  std::deque<Label> labels_;
  bool tooMany_ = false;
  Worth best_ = 0;
  std::uint64_t work_ = 0, looked_ = 0;
};

}  // namespace flitch::optimizer
