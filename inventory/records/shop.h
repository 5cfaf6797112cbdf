#pragma once
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "inventory/records/ids.h"
#include "inventory/wood/grain_slope.h"
#include "inventory/wood/length.h"
#include "inventory/wood/money.h"
#include "inventory/wood/season.h"

namespace flitch {

struct Board;
struct Defect;

/// The largest mark of an allowed kind.
struct MarkLimit {
  std::string kind;
  Length largest;  ///< the longer side of its place
  friend bool operator==(const MarkLimit&, const MarkLimit&) = default;
};

/// What a face or an edge must be. A row of a table that the shop owns.
struct Demand {
  std::string name;                  ///< "heart only", "clear", "sound", "hidden"
  std::vector<std::string> allowed;  ///< kinds of mark that may lie on it; all others are barred
  bool unseen = false;               ///< may lie on a face nobody has looked at
  bool outsideGood = false;          ///< may lie outside a `good` zone
  std::vector<MarkLimit> limits{};   ///< of allowed kinds; one without may be of any size
  friend bool operator==(const Demand&, const Demand&) = default;
};

/// Share of its cost share an offcut keeps, from a length on.
struct KeepBand {
  Length from;
  int permille = 0;  ///< 0 to 1000
  friend bool operator==(const KeepBand&, const KeepBand&) = default;
};

/// Air of a season as the settings keep it.
struct SeasonAir {
  int tenthsCelsius = 0;
  int humidity = 0;  ///< relative, percent
  [[nodiscard]] Air air() const { return {tenthsCelsius / 10.0, static_cast<double>(humidity)}; }
  friend bool operator==(const SeasonAir&, const SeasonAir&) = default;
};

/// The shop's settings. Immutable once stored: a kept plan finds the profile it used.
struct ShopProfile {
  ProfileId id;
  Length addLength = Length::inches(1);
  Length addWidth = Length::sixtyFourths(16);
  Length addPerFace = Length::sixtyFourths(2);     ///< clean-up a face
  Length referenceEdge = Length::sixtyFourths(8);  ///< off the near edge before any rip
  /// The near edge of an offcut serves as it is where our own saw ripped it.
  bool sawnEdgeServes = false;
  /// Steepest grain of parts that must be straight (common practice, no source).
  GrainSlope straightGrain{120};
  Length markMargin = Length::sixtyFourths(32);  ///< kept clear round every barred mark
  Length endTrim = Length::inches(1);            ///< off each end as bought
  Length crosscutKerf = Length::sixtyFourths(8);
  Length ripKerf = Length::sixtyFourths(8);
  Length keepLength = Length::inches(12);  ///< least offcut worth a tag
  Length keepWidth = Length::inches(3);
  std::vector<KeepBand> keepBands{{Length::inches(12), 400}};  ///< rising from keepLength
  /// Offcuts carry nothing of their board's cost: the job pays it whole.
  bool offcutsAtZero = false;
  Length shortLength = Length::inches(6);        ///< least short worth a bin
  Length shortWidth = Length::sixtyFourths(96);  ///< 1 1/2 in
  Money hourlyRate = Money::units(60);
  int pullMinutes = 5;
  int cutMinutes = 1;
  int glueMinutes = 0;     ///< to joint a stave or lamina, spread its glue and clamp its share
  int shortageFactor = 3;  ///< a missing blank costs its wood at the dearest foot, times this
  Length planerWidth = Length::sixtyFourths(800);  ///< 12 1/2 in
  Length jointerWidth = Length::inches(8);
  Length jointerShortest = Length::inches(12);
  Length planerThinnest = Length::sixtyFourths(32);
  Length widestSolid = Length::inches(8);  ///< wider parts are glued where no recipe is typed
  Length narrowestStave = Length::inches(2);
  Length widestStave = Length::inches(6);
  Length jointStave = Length::sixtyFourths(8);       ///< off a stave's two edges before it is glued
  Length glueTrim = Length::sixtyFourths(32);        ///< off a panel's width once it is glued
  Length narrowestPiece = Length::inches(1);         ///< narrower blanks are not milled alone
  Length thickestSolid = Length::sixtyFourths(112);  ///< thicker parts may be laminated
  Length laminaTrim = Length::sixtyFourths(8);  ///< off a laminated part's width once it is glued
  Length resawKerf = Length::sixtyFourths(4);
  Length resawHeight = Length::inches(6);        ///< widest blank that is resawn
  Length addSawnFace = Length::sixtyFourths(4);  ///< clean-up of a resawn face
  std::vector<Demand> demands;                   ///< hidden, sound, clear, heart only at first
  Money stopWhenBelow = Money::units(5);  ///< a plan stops by itself when no more can be saved than
  int stopPermille = 10;                  ///< the smaller of this sum and this share of its cost
  /// Rooms that pieces live in, at the driest and the wettest of the year: 70 F, 75 F.
  SeasonAir winter{211, 30}, summer{239, 60};
  int madePermille = 80;     ///< moisture wood is made up at
  int markupPermille = 150;  ///< on the materials of an estimate
  friend bool operator==(const ShopProfile&, const ShopProfile&) = default;
};

/// True for a board whose grain is known to be straight enough.
[[nodiscard]] bool isStraight(const Board& board, const ShopProfile& shop);
/// The profile a new book starts with: defaults above, in a metric book the whole millimetres next
/// to them (common practice, no source), and the starting demand table.
[[nodiscard]] ShopProfile startingProfile(Unit unit = Unit::inches);
/// Moistures between which the shop's pieces are made and live.
[[nodiscard]] Season seasonOf(const ShopProfile& shop);
/// Null when the table has no such row.
[[nodiscard]] const Demand* findDemand(const ShopProfile& shop, std::string_view name);
/// Whether a mark of that kind may lie on such a face or edge. Gum counts as stain, a kind that no
/// book starts with as an unsound knot; `good` and `show` are no defects.
[[nodiscard]] bool allows(const Demand& demand, std::string_view kind);
/// The same of one mark: of an allowed kind, and no larger than the limit of that kind.
[[nodiscard]] bool allows(const Demand& demand, const Defect& mark);
/// Marks that no offcut may carry: all that make wood unsafe to keep blind (check, split, wane,
/// hole, bark pocket, unsound knot, unknown kinds). Sound knots and colour may stay in it.
[[nodiscard]] bool barsOffcut(std::string_view kind);

/// One setting: feeds validation, `flitch shop`, dialog and manual.
struct Setting {
  std::string_view key;     ///< "kerf", "end-trim"
  std::string_view text;    ///< one sentence
  std::string_view range;   ///< "1/64 to 1 in"
  std::string_view source;  ///< a published source, or "common practice, no source"
  /// The value as text; lengths in `unit`.
  std::string (*get)(const ShopProfile&, Unit unit);
  /// Throws Unreadable or Refusal with the range; `value` as typed, bare lengths in `unit`.
  void (*set)(ShopProfile&, std::string_view value, Unit unit);
};
[[nodiscard]] std::span<const Setting> settings();
[[nodiscard]] const Setting* findSetting(std::string_view key);

/// Off a board's near edge to make it straight: nothing where its sawn edge serves. O(points).
[[nodiscard]] Length edgeTaken(const Board& board, const ShopProfile& shop);

/// Cost of `minutes` at the hourly rate, rounded up.
[[nodiscard]] Money labour(const ShopProfile& shop, int minutes);

}  // namespace flitch
