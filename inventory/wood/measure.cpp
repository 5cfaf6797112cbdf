#include "inventory/wood/measure.h"

#include <algorithm>
#include <optional>

#include "inventory/wood/unreadable.h"
#include "inventory/wood/writing.h"

namespace flitch {
namespace {

/// A whole number below 10^9 made of nothing but digits.
std::optional<std::int64_t> digitsOnly(std::string_view text) {
  if (text.empty() || text.size() > 9) return std::nullopt;
  std::int64_t n = 0;
  for (const char c : text) {
    if (c < '0' || c > '9') return std::nullopt;
    n = n * 10 + (c - '0');
  }
  return n;
}

/// Nominal thickness for counting: not below 1 in (reference row BM19).
Length counted(Nominal nominal) { return std::max(nominal.length(), Length::inches(1)); }

}  // namespace

std::string_view word(CountingRule rule) {
  switch (rule) {
    case CountingRule::surfaceMeasure: return "surface measure";
    case CountingRule::volume: return "volume";
    case CountingRule::volumeTenths: return "volume to 0.1";
    case CountingRule::halfInch: return "width to the half inch";
    case CountingRule::grossGreen: return "gross green tally";
  }
  return "";
}

CubicMillimetres volume(Area faceA, Area faceB, Length thickness) {
  // Doubled areas of two faces: a fourth of their sum is the mean.
  constexpr Wide perCubicMillimetre = static_cast<Wide>(1'000'000'000) * 1'000'000'000;
  return {
      narrow(nearest((faceA.doubled + faceB.doubled) * thickness.nm(), 4 * perCubicMillimetre))};
}

Feet parseFeet(std::string_view asWritten) {
  const auto fail = [asWritten](const std::string& what) {
    throw Unreadable(inBackticks(asWritten) + what, shortened(asWritten), "7, 7.4, 7.375");
  };
  std::string written = plain(asWritten);
  std::string_view rest = written;
  if (rest.ends_with("bf")) rest = trimmed(rest.substr(0, rest.size() - 2));
  if (rest.starts_with('-')) fail(" is below zero");
  const std::size_t point = rest.find('.');
  const auto whole = digitsOnly(rest.substr(0, point));
  if (!whole) fail(" is not a number of board feet");
  std::int64_t thousandths = *whole * 1000;
  if (point != std::string_view::npos) {
    const std::string_view places = rest.substr(point + 1);
    const auto part = digitsOnly(places);
    if (!part) fail(" is not a number of board feet");
    if (places.size() > 3) fail(" has more than three places");
    thousandths += *part * (places.size() == 1 ? 100 : places.size() == 2 ? 10 : 1);
  }
  if (thousandths > 1'000'000'000) fail(" is more than a million board feet");
  return {thousandths};
}

std::string text(Feet feet) {
  const auto tenths = static_cast<std::int64_t>(nearest(feet.thousandths, 100));
  std::string out = decimal(tenths, 1, minusSign);
  return tenths % 10 == 0 ? out + ".0" : out;
}

std::string exactText(Feet feet) { return decimal(feet.thousandths, 3, "-"); }

Nominal parseNominal(std::string_view asWritten) {
  const auto fail = [asWritten](const std::string& what) {
    throw Unreadable(inBackticks(asWritten) + what, shortened(asWritten), "4/4, 8/4, 8, 27 mm");
  };
  const std::string written = plain(asWritten);
  std::string_view rest = written;
  const bool metric = rest.ends_with("mm");
  if (metric) {
    rest = trimmed(rest.substr(0, rest.size() - 2));
  } else if (rest.ends_with("/4")) {
    rest = rest.substr(0, rest.size() - 2);
  }
  const auto n = digitsOnly(rest);
  if (!n) fail(" is not a nominal thickness");
  if (metric) {
    if (*n < 5 || *n > 200) fail(" is outside 5 to 200 mm");
    return Nominal::millimetres(static_cast<int>(*n));
  }
  if (*n < 1 || *n > 32) fail(" is outside 1/4 to 32/4");
  return Nominal::quarters(static_cast<int>(*n));
}

std::string text(Nominal nominal) {
  return std::to_string(nominal.value()) + (nominal.unit() == Unit::inches ? "/4" : " mm");
}

Length tallyWidth(Length widthAtOneEnd, Length widthAtOther) {
  const Length narrow = std::min(widthAtOneEnd, widthAtOther);
  return narrow + (std::max(widthAtOneEnd, widthAtOther) - narrow) / 3;
}

SurfaceMeasure surfaceMeasure(Length width, Length length, Half onHalf) {
  const std::int64_t wholeFeet = length / Length::feet(1);
  const Wide raw = static_cast<Wide>(width.nm()) * wholeFeet;  // over 12 in = one foot, in nm
  const Wide per = 12 * nmPerInch;
  const auto below = static_cast<int>(raw / per);
  const Wide left = raw % per;
  if (2 * left == per) {
    const Half half = onHalf == Half::down ? Half::down : Half::up;
    return {half == Half::up ? below + 1 : below, half};
  }
  return {2 * left > per ? below + 1 : below, Half::none};
}

Feet surfaceTally(SurfaceMeasure measure, Nominal nominal) {
  return {
      narrow(nearest(static_cast<Wide>(measure.value) * 1000 * counted(nominal).nm(), nmPerInch))};
}

Feet packTally(std::int64_t surfaceMeasures, Nominal nominal) {
  return {1000 *
          narrow(nearest(static_cast<Wide>(surfaceMeasures) * counted(nominal).nm(), nmPerInch))};
}

BundleTally bundleTally(Length width, Length length, Half onHalf) {
  const std::int64_t whole = width / Length::inches(1);
  const Length left = width - whole * Length::inches(1);
  BundleTally tally{static_cast<int>(whole), static_cast<int>(length / Length::feet(1)),
                    Half::none};
  if (2 * left == Length::inches(1)) tally.half = onHalf == Half::down ? Half::down : Half::up;
  if (2 * left > Length::inches(1) || tally.half == Half::up) ++tally.inches;
  return tally;
}

HalfInchTally halfInchTally(Nominal nominal, Length width, Length length, Half onHalf) {
  constexpr Length step = Length::sixtyFourths(32);
  std::int64_t halves = width / step;
  const Length left = width - halves * step;
  HalfInchTally tally;
  if (2 * left == step) tally.half = onHalf == Half::down ? Half::down : Half::up;
  if (2 * left > step || tally.half == Half::up) ++halves;
  const std::int64_t wholeFeet = length / Length::feet(1);
  tally.feet = {narrow(nearest(static_cast<Wide>(halves) * wholeFeet * counted(nominal).nm() * 1000,
                               24 * nmPerInch))};
  return tally;
}

NetFeet netOfGross(Feet gross) {
  const auto over = [&](int percent) {
    return Feet{narrow(nearest(static_cast<Wide>(gross.thousandths) * 100, 100 + percent))};
  };
  return {over(7), over(6)};
}

Feet grossOfNet(Feet net) {
  return {narrow(nearest(static_cast<Wide>(net.thousandths) * 1065, 1000))};
}

Feet toTenths(Feet feet) { return {100 * narrow(nearest(feet.thousandths, 100))}; }

Feet volumeTally(Nominal nominal, Length width, Length length) {
  constexpr Wide perFoot = static_cast<Wide>(144) * nmPerInch * nmPerInch * nmPerInch;
  const Wide thousandfold = static_cast<Wide>(counted(nominal).nm()) * width.nm() * length.nm();
  return {narrow(nearest(thousandfold * 1000, perFoot))};
}

Feet feetOf(CubicMillimetres volume) {
  // 2 359 737.216 mm³ a board foot, so 2359.737216 a thousandth.
  return {narrow(nearest(static_cast<Wide>(volume.value) * 1'000'000, 2'359'737'216))};
}

}  // namespace flitch
