#pragma once
#include <array>
#include <compare>
#include <cstdint>
#include <string>
#include <string_view>

#include "inventory/wood/length.h"
#include "inventory/wood/wide.h"

namespace flitch {

/// Twice an area, in nm²: twice, since half of a trapezoid's sum of sides is not always whole.
struct Area {
  Wide doubled = 0;
  friend constexpr bool operator==(Area, Area) = default;
  friend constexpr Area operator+(Area a, Area b) { return {a.doubled + b.doubled}; }
  friend constexpr Area operator-(Area a, Area b) { return {a.doubled - b.doubled}; }
};
[[nodiscard]] constexpr Area rectangle(Length dx, Length dy) {
  return {2 * static_cast<Wide>(dx.nm()) * dy.nm()};
}

/// Wood as the book keeps it: whole cubic millimetres, shared out by split() so that sums are
/// exact.
struct CubicMillimetres {
  std::int64_t value = 0;
  auto operator<=>(const CubicMillimetres&) const = default;
  constexpr CubicMillimetres& operator+=(CubicMillimetres b) {
    value += b.value;
    return *this;
  }
  friend constexpr CubicMillimetres operator+(CubicMillimetres a, CubicMillimetres b) {
    return {a.value + b.value};
  }
  friend constexpr CubicMillimetres operator-(CubicMillimetres a, CubicMillimetres b) {
    return {a.value - b.value};
  }
};

/// Mean of the two faces' areas times a thickness, to the nearest mm³, halves up.
[[nodiscard]] CubicMillimetres volume(Area faceA, Area faceB, Length thickness);

/// Board feet as thousandths: how wood is billed and reported, never how it is accounted.
struct Feet {
  std::int64_t thousandths = 0;
  auto operator<=>(const Feet&) const = default;
  constexpr Feet& operator+=(Feet b) {
    thousandths += b.thousandths;
    return *this;
  }
  friend constexpr Feet operator+(Feet a, Feet b) { return {a.thousandths + b.thousandths}; }
  friend constexpr Feet operator-(Feet a, Feet b) { return {a.thousandths - b.thousandths}; }
};

/// Reads `7`, `7.4`, `7.375`: board feet, zero or more. Throws Unreadable.
[[nodiscard]] Feet parseFeet(std::string_view text);
/// `7.4`: one place, halves up.
[[nodiscard]] std::string text(Feet feet);
/// Exact, three places at most: `7.375`.
[[nodiscard]] std::string exactText(Feet feet);

/// Nominal thickness: in quarters of an inch (`4/4`, `8/4`) or, for metric stock, in millimetres.
class Nominal {
 public:
  constexpr Nominal() = default;
  [[nodiscard]] static constexpr Nominal quarters(int n) { return Nominal(n, Unit::inches); }
  [[nodiscard]] static constexpr Nominal millimetres(int n) {
    return Nominal(n, Unit::millimetres);
  }
  [[nodiscard]] constexpr Unit unit() const { return unit_; }
  [[nodiscard]] constexpr int value() const { return value_; }
  [[nodiscard]] constexpr Length length() const {
    return unit_ == Unit::inches ? Length::sixtyFourths(16 * value_) : Length::millimetres(value_);
  }
  constexpr auto operator<=>(const Nominal&) const = default;

 private:
  constexpr Nominal(int n, Unit u) : unit_(u), value_(n) {}
  Unit unit_ = Unit::inches;
  int value_ = 4;
};

/// Reads `4`, `4/4`, `12/4`, `27 mm`. Quarters from 1 to 32, millimetres from 5 to 200.
/// Throws Unreadable.
[[nodiscard]] Nominal parseNominal(std::string_view text);
/// `4/4`, `27 mm`.
[[nodiscard]] std::string text(Nominal nominal);

/// How a yard counts board feet: surface measure x nominal thickness; volume to the thousandth;
/// volume to the tenth of a foot a board; width to the half inch x whole feet x nominal thickness;
/// the tally made green of what is measured dry.
enum class CountingRule { surfaceMeasure, volume, volumeTenths, halfInch, grossGreen };
inline constexpr std::array countingRules{CountingRule::surfaceMeasure, CountingRule::volume,
                                          CountingRule::volumeTenths, CountingRule::halfInch,
                                          CountingRule::grossGreen};
/// For people: "surface measure", "volume", "volume to 0.1", ...
[[nodiscard]] std::string_view word(CountingRule rule);

/// Which way an exact half of a surface measure went; kept with the board, so that counting again
/// changes nothing. The first exact half of a delivery goes up, then in turn
/// (C. A. King, Elements of Woodwork, 1911; the rule book's own wording is not at hand).
enum class Half { none, up, down };

struct SurfaceMeasure {
  int value = 0;           ///< square feet, whole
  Half half = Half::none;  ///< none unless the raw figure was an exact half
};

/// Where the width of a tapering board is measured for its surface measure: a third of its length
/// from the narrow end (NHLA Measurement and Tally, from memory).
[[nodiscard]] Length tallyWidth(Length widthAtOneEnd, Length widthAtOther);

/// Surface measure: width with its fraction x length in whole feet (cut down) / 12, to the nearest
/// whole number; an exact half goes as `onHalf` says (up or down). Source: AHEC grading guide,
/// Measurement page; NHLA introduction as restated (reference rows BM01 to BM06).
[[nodiscard]] SurfaceMeasure surfaceMeasure(Length width, Length length, Half onHalf);

/// Surface measure x nominal thickness in inches, at least 1 in (reference row BM19).
[[nodiscard]] Feet surfaceTally(SurfaceMeasure measure, Nominal nominal);

/// Board feet of a pack of one nominal thickness: surface measures summed, multiplied once, the
/// total to the nearest board foot, halves up (hardwood terminology sheet, goodwoodcorp.com).
[[nodiscard]] Feet packTally(std::int64_t surfaceMeasures, Nominal nominal);

/// Bundle (end) tally for export: width to the nearest whole inch, an exact half as `onHalf` says
/// and then in turn; length down to whole feet (AHEC grading guide, Measurement page; row BM07).
struct BundleTally {
  int inches = 0, feet = 0;
  Half half = Half::none;
};
[[nodiscard]] BundleTally bundleTally(Length width, Length length, Half onHalf);

/// Width to the nearest half inch (an exact quarter as `onHalf` says, and then in turn), length cut
/// down to whole feet, times nominal thickness, to the nearest thousandth. Common practice, no
/// source.
struct HalfInchTally {
  Feet feet;
  Half half = Half::none;
};
[[nodiscard]] HalfInchTally halfInchTally(Nominal nominal, Length width, Length length,
                                          Half onHalf);

/// What a tally made green comes to once kiln dried. Hardwood measured dry is sold net, nothing
/// added for shrinkage (National Conference on Weights and Measures, 1977-07-21); a gross tally
/// runs 6 to 7 % above it (G. Wengert, R. Hill; 9 % was seen too).
struct NetFeet {
  Feet least, most;
};
[[nodiscard]] NetFeet netOfGross(Feet gross);
/// The gross tally expected of boards measured dry: 6.5 % more, the middle of those 6 to 7 %, to
/// the nearest thousandth, halves up.
[[nodiscard]] Feet grossOfNet(Feet net);

/// Thickness x width x length / 144 in inches, nominal thickness not below 1 in, to the nearest
/// thousandth, halves up.
[[nodiscard]] Feet volumeTally(Nominal nominal, Length width, Length length);
/// To the nearest tenth of a board foot, halves up.
[[nodiscard]] Feet toTenths(Feet feet);

/// A volume of wood in board feet (144 cubic inches = 2 359 737.216 mm³), to the nearest
/// thousandth.
[[nodiscard]] Feet feetOf(CubicMillimetres volume);

}  // namespace flitch
