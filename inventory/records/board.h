#pragma once
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "inventory/records/ids.h"
#include "inventory/wood/grain_slope.h"
#include "inventory/wood/measure.h"
#include "inventory/wood/money.h"
#include "inventory/wood/shape.h"
#include "inventory/wood/tag_code.h"

namespace flitch {

enum class BoardKind { plank, slab, offcut };
/// How a board is priced. A lot is several boards at one price.
enum class PriceBasis { perFoot, each, perCubicMetre, perRunningFoot, lot };
enum class Face { a = 0, b = 1 };
/// The near edge is y = 0 with the tag end left and face A up.
enum class Edge { near = 0, far = 1 };

/// What is known of a face. Unmarked is not clear: a mark never makes a face looked at.
enum class Looked { no, rough, planed };

/// Where a defect shows. `near` and `far`: on that edge only.
enum class DefectFace { a, b, through, near, far };

/// A mark: a kind of the book's table (`defect_kinds`) at a place. Kinds known from the start:
/// sound knot, unsound knot, check, split, wane, hole, stain, sapwood, pith, bark pocket, gum; and
/// two that are no defects: `good` (bars all outside it to every demand but hidden) and `show`.
struct Defect {
  std::string kind;
  DefectFace face = DefectFace::through;
  Rect where;  ///< may reach over the outline; dx, dy above zero
  /// Of a mark on face A or B: how deep it goes, where it was measured; such a mark may plane out.
  std::optional<Length> depth{};
  /// Of a mark that goes through the board aslant: where it comes out on face B.
  std::optional<Rect> onB{};
  friend bool operator==(const Defect&, const Defect&) = default;
};

/// Where a mark shows on a face of the board as it is; both, and all the wood between.
[[nodiscard]] const Rect& placeOn(const Defect& defect, Face face);
[[nodiscard]] Rect wholeOf(const Defect& defect);
/// Where it may show once the face is planed, the same taken off both faces: from there to half
/// way through.
[[nodiscard]] Rect planedPlaceOn(const Defect& defect, Face face);

/// Drops what such a mark does not have: a depth unless it is of one face, a place on face B unless
/// it goes through; a zone has neither.
void settle(Defect& defect);

/// Deviations measured with a straightedge over the whole board; all zero or more.
struct Warp {
  Length bow;    ///< along the length, out of the plane
  Length crook;  ///< along the length, in the plane; in the outline or here, never both
  Length cup;    ///< across the width
  Length twist;  ///< a corner lifted
  std::optional<Length> bentAt;  ///< x of a kink: the bow sits there
  Edge hollow = Edge::near;      ///< the edge that is hollow where crook is above zero
  friend bool operator==(const Warp&, const Warp&) = default;
};

enum class MoistureState { wet, resting, ready };
struct Reading {
  std::string takenOn;  ///< ISO date
  int tenthsPercent = 0;
  MoistureState state = MoistureState::ready;
  friend bool operator==(const Reading&, const Reading&) = default;
};

/// Any tagged piece of stock. A plain value, read whole from a Snapshot.
struct Board {
  BoardId id;
  /// None: the tag was lost. Of a sawn board whose tag hangs on its remainder, its name all the
  /// same.
  std::optional<TagCode> tag;
  BoardKind kind = BoardKind::plank;
  std::string species;
  std::string grade;  ///< as bought; "offcut" has none
  Nominal nominal;
  Length thickness;                ///< at its thinnest
  bool measured = false;           ///< false: assumed nominal less kiln scant
  std::array<Outline, 2> outline;  ///< face A, face B; crook not laid in (see lying())
  std::array<Looked, 2> looked{Looked::no, Looked::no};
  std::vector<Defect> defects;
  Warp warp;
  std::optional<GrainSlope> grain{};  ///< none: not looked at
  std::string log;
  int placeInLog = 0;
  std::vector<Reading> readings;  ///< oldest first
  DeliveryId delivery;
  std::string supplier;
  Feet billed;
  Feet measuredFeet;
  Money price;  ///< what the yard charged for it
  /// How that price came about, and the price of one foot, metre, lot; none where it is not known.
  std::optional<PriceBasis> priceBasis;
  Money unitPrice;
  BoardId billedWith;     ///< the first of the boards that share one price; none: alone, or first
  Money cost;             ///< landed; what stands on its account now, zero once sawn
  CubicMillimetres wood;  ///< on its account now, zero once sawn
  std::string bay;
  bool keptBack = false;
  JobId reservedFor;
  std::string reservedName;  ///< the job's name, empty when free
  BoardId parent;
  /// An end our own saw made needs no end trim: tag end, far end.
  std::array<bool, 2> sawnEnd{false, false};
  Rect inParent;  ///< where it lay, in the parent's coordinates
  std::string note;
  bool withdrawn = false;  ///< its insertion was undone
  Version version;

  [[nodiscard]] Length length() const { return outline[0].length(); }
  /// Width at the tag end and at the far end, of face A.
  [[nodiscard]] Length widthAtTag() const;
  [[nodiscard]] Length widthAtFar() const;
  [[nodiscard]] bool onRack() const { return wood.value > 0; }
  /// Its tag as printed, "T0042-F"; empty without one.
  [[nodiscard]] std::string tagText() const { return tag ? text(*tag) : std::string(); }
  friend bool operator==(const Board&, const Board&) = default;
};

/// Largest board taken: 60 ft long, 5 ft wide, 16 in thick.
inline constexpr Length maxBoardLength = Length::feet(60);
inline constexpr Length maxBoardWidth = Length::feet(5);
inline constexpr Length maxBoardThickness = Length::inches(16);

/// The face's outline as it lies against a straight line, with crook laid in: the polyline through
/// 17 points of the parabola of depth `crook` moves both edges alike, so no wood is lost or made.
/// Frame, checker and account all work on this outline; without crook it is `outline[face]`. The
/// line is y = 0: the near edge touches it at its ends when hollow, else at its middle. Marks are
/// measured from that line too. O(points).
[[nodiscard]] Outline lying(const Board& board, Face face);

/// Bounds of both lying outlines: the rectangle a cut tree tiles.
[[nodiscard]] Rect boundsOf(const Board& board);

/// Greatest width of either face, straight across; what crook lifts makes no wood wider. O(points).
[[nodiscard]] Length greatestWidth(const Board& board);

/// Thickness left over a blank of length l and width w once it is flat, before any clean-up:
/// thickness - bow (l/L)² - cup (w/W)² - twist (l/L)(w/W), losses rounded up. A bow with a kink
/// (bentAt) takes its full depth in every blank that crosses it and nothing elsewhere.
/// The loss is total, taken once, not per face. Derivation: an even bow is a flat arc, its sagitta
/// falls with the square of the chord. L and W are the board's length and greatest width.
[[nodiscard]] Length thicknessOver(const Board& board, Length l, Length w, bool crossesBend);

/// An offcut whose near edge our own saw ripped: it lay inside the parent's near edge, and that
/// edge is straight on both faces. O(points).
[[nodiscard]] bool nearEdgeSawn(const Board& board);
/// Volume of the whole board: mean of the two face areas times thickness.
[[nodiscard]] CubicMillimetres volumeOf(const Board& board);

/// "10' 6\" × 8 3/4–8 1/4", or millimetres.
[[nodiscard]] std::string sizeText(const Board& board, Unit unit);

[[nodiscard]] std::string_view word(Looked looked);        ///< no, rough, planed
[[nodiscard]] std::string_view word(DefectFace face);      ///< A, B, through, near, far
[[nodiscard]] std::string_view word(MoistureState state);  ///< wet, resting, ready
[[nodiscard]] std::string_view word(BoardKind kind);
[[nodiscard]] std::string_view word(PriceBasis basis);  ///< foot, each, cubic metre, ...

/// A kind of mark: its name and the key and letter that stand for it.
struct DefectKind {
  std::string name;
  char letter = 0;
  bool sound = false;
};
/// The kinds every book starts with, in key order: K sound knot, U unsound knot, C check, S split,
/// W wane, H hole, T stain, L sapwood, P pith, B bark pocket, G gum; then good and show.
[[nodiscard]] const std::vector<DefectKind>& startingDefectKinds();

}  // namespace flitch
