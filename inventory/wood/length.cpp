#include "inventory/wood/length.h"

#include <algorithm>

#include "inventory/wood/unreadable.h"
#include "inventory/wood/writing.h"

namespace flitch {
namespace {

constexpr std::int64_t perFoot = 12 * nmPerInch;
constexpr std::int64_t perSixtyFourth = nmPerInch / 64;
constexpr std::int64_t perMillimetre = 1'000'000;
constexpr Length longest = Length::millimetres(100'000);

/// A figure without unit: 37, 37.5, 3/8, 37 3/8.
struct Figures {
  std::int64_t whole = 0;
  Wide part = 0;   ///< over `parts`
  Wide parts = 1;  ///< a power of ten or of two
  bool fraction = false;
  bool decimals = false;
  [[nodiscard]] bool isWhole() const { return !fraction && !decimals; }
};

/// Reads one text. The grammar, on the plain spelling:
///   length  = feet [join inches] | feet "-" inches (bare feet only) | figure [unit]
///   figure  = digits ["." digits] | "." digits | digits "/" digits | digits join digits "/" digits
///   join    = blank, "-" or both
class Reader {
 public:
  Reader(std::string_view asWritten, Bare bare)
      : asWritten_(asWritten), bare_(bare), text_(plain(asWritten)), rest_(text_) {}

  Length read() {
    if (rest_.empty()) fail("an empty cell is not a length");
    if (rest_.front() == '-') fail(inBackticks(asWritten_) + " is below zero");
    const Figures first = figure();
    blank();
    const std::int64_t unit = takeUnit();
    Wide nm = 0;
    if (unit == perFoot) {
      nm = inUnit(first, perFoot) + inchesAfterFeet(first);
    } else if (unit != 0) {
      nm = inUnit(first, unit);
    } else if (rest_.empty()) {
      nm = inUnit(first, bareUnit());
    } else if (rest_.front() == '-' && first.isWhole()) {
      if (bare_ != Bare::feet) {
        fail(inBackticks(asWritten_) +
             " looks like feet and inches, which are written with ' here");
      }
      nm = inUnit(first, perFoot) + inchesAfterFeet(first);
    } else {
      failAt();
    }
    if (!rest_.empty()) failAt();
    if (nm > longest.nm()) fail(inBackticks(asWritten_) + " is longer than 100 m");
    return Length::nanometres(static_cast<std::int64_t>(nm));
  }

 private:
  [[noreturn]] void fail(const std::string& sentence) const {
    throw Unreadable(sentence, shortened(asWritten_),
                     bare_ == Bare::feet     ? "10-6, 10' 6\", 126 in, 3200 mm"
                     : bare_ == Bare::inches ? "7 3/8, 7.375, 187.5 mm"
                                             : "187.5, 187.5 mm, 7 3/8 in");
  }
  [[noreturn]] void failAt() const {
    if (rest_.front() == ',') {
      fail(inBackticks(asWritten_) + " has a comma; decimals are written with a point");
    }
    fail(inBackticks(asWritten_) + " is not a length");
  }

  void blank() {
    if (!rest_.empty() && rest_.front() == ' ') rest_.remove_prefix(1);
  }
  bool take(std::string_view word) {
    if (!rest_.starts_with(word)) return false;
    rest_.remove_prefix(word.size());
    return true;
  }
  bool takeJoin() {
    const std::string_view before = rest_;
    blank();
    if (take("-")) blank();
    return rest_.size() != before.size();
  }

  std::string_view digits() {
    const auto end = std::find_if_not(rest_.begin(), rest_.end(), isDigit);
    const auto n = static_cast<std::size_t>(end - rest_.begin());
    const std::string_view taken = rest_.substr(0, n);
    rest_.remove_prefix(n);
    return taken;
  }
  std::int64_t number(std::string_view figures) const {
    if (figures.size() > 15) fail(inBackticks(asWritten_) + " has more figures than any length");
    std::int64_t n = 0;
    for (const char c : figures) n = n * 10 + (c - '0');
    return n;
  }

  Figures figure() {
    Figures f;
    const std::string_view first = digits();
    if (first.empty() && !rest_.starts_with(".")) {
      if (rest_.empty()) fail(inBackticks(asWritten_) + " ends too early");
      failAt();
    }
    if (take("/")) {
      fraction(f, first);
      return f;
    }
    f.whole = number(first);
    if (take(".")) {
      const std::string_view places = digits();
      if (places.empty()) fail(inBackticks(asWritten_) + " has no figure after the point");
      f.part = number(places);
      for (std::size_t i = 0; i < places.size(); ++i) f.parts *= 10;
      f.decimals = true;
      return f;
    }
    // `37 1/2` and `37-1/2`: only if a fraction follows; `10-6` is left to the caller.
    const std::string_view before = rest_;
    if (takeJoin()) {
      const std::string_view top = digits();
      if (!top.empty() && take("/")) {
        fraction(f, top);
      } else {
        rest_ = before;
      }
    }
    return f;
  }

  void fraction(Figures& f, std::string_view top) {
    const std::string_view bottom = digits();
    if (bottom.empty()) fail(inBackticks(asWritten_) + " has no bottom figure");
    f.part = number(top);
    f.parts = number(bottom);
    f.fraction = true;
    const bool binary = f.parts > 0 && f.parts <= 64 && (f.parts & (f.parts - 1)) == 0;
    if (!binary) {
      fail(inBackticks(asWritten_) + " has a bottom figure that is not 2, 4, 8, 16, 32 or 64");
    }
    if (f.part >= f.parts) {
      fail(inBackticks(asWritten_) + " has a top figure that is not below its bottom figure");
    }
  }

  /// Nanometres of the unit at the front, or 0.
  std::int64_t takeUnit() {
    struct Named {
      std::string_view word;
      std::int64_t nm;
    };
    static constexpr Named units[] = {
        {"millimetres", perMillimetre},
        {"millimeters", perMillimetre},
        {"mm", perMillimetre},
        {"cm", 10 * perMillimetre},
        {"m", 1000 * perMillimetre},
        {"inches", nmPerInch},
        {"inch", nmPerInch},
        {"in", nmPerInch},
        {"\"", nmPerInch},
        {"feet", perFoot},
        {"foot", perFoot},
        {"ft", perFoot},
        {"'", perFoot},
    };
    for (const Named& unit : units) {
      if (!take(unit.word)) continue;
      if (unit.word.front() >= 'a') take(".");  // "6 in."
      return unit.nm;
    }
    return 0;
  }
  [[nodiscard]] std::int64_t bareUnit() const {
    return bare_ == Bare::feet ? perFoot : bare_ == Bare::inches ? nmPerInch : perMillimetre;
  }

  [[nodiscard]] Wide inUnit(const Figures& f, std::int64_t unit) const {
    if (f.fraction && unit != nmPerInch && unit != perFoot) {
      fail(inBackticks(asWritten_) + " has a fraction; metric sizes are written with a point");
    }
    const Wide halfAway = (2 * f.part * unit + f.parts) / (2 * f.parts);
    return static_cast<Wide>(f.whole) * unit + halfAway;
  }

  Wide inchesAfterFeet(const Figures& feet) {
    if (rest_.empty()) return 0;
    takeJoin();
    if (rest_.empty()) fail(inBackticks(asWritten_) + " ends too early");
    if (!feet.isWhole()) fail(inBackticks(asWritten_) + " has inches after a part of a foot");
    const Figures inches = figure();
    if (inches.whole >= 12) fail(inBackticks(asWritten_) + " has 12 inches or more after the feet");
    blank();
    const std::int64_t unit = takeUnit();
    if (unit != 0 && unit != nmPerInch) failAt();
    return inUnit(inches, nmPerInch);
  }

  std::string_view asWritten_;
  Bare bare_;
  std::string text_;
  std::string_view rest_;
};

/// Sixty-fourths to the nearest, halves up; of a length that is not negative.
std::int64_t sixtyFourthsOf(std::int64_t nm) {
  return static_cast<std::int64_t>(nearest(nm, perSixtyFourth));
}

/// `37 1/2` for a count of 1/64 in.
std::string inchText(std::int64_t n64) {
  std::int64_t top = n64 % 64;
  std::int64_t bottom = 64;
  while (top != 0 && top % 2 == 0) {
    top /= 2;
    bottom /= 2;
  }
  const std::int64_t whole = n64 / 64;
  if (top == 0) return std::to_string(whole);
  const std::string part = std::to_string(top) + "/" + std::to_string(bottom);
  return whole == 0 ? part : std::to_string(whole) + " " + part;
}

}  // namespace

Length parseLength(std::string_view text, Bare bare) { return Reader(text, bare).read(); }

std::string lengthText(Length length, Unit unit) {
  return unit == Unit::inches ? text(length, LengthStyle::inches) + " in"
                              : text(length, LengthStyle::millimetres) + " mm";
}

std::int64_t stepsDown(Length length, Length step) {
  const std::int64_t n = length.nm();
  const std::int64_t s = step.nm();
  return n >= 0 ? n / s : -((-n + s - 1) / s);
}

std::int64_t stepsUp(Length length, Length step) { return -stepsDown(-length, step); }

std::string text(Length length, LengthStyle style) {
  const bool negative = length < Length();
  const std::int64_t nm = negative ? -length.nm() : length.nm();
  std::string out;
  bool isZero = false;
  if (style == LengthStyle::millimetres) {
    const auto tenths = static_cast<std::int64_t>(nearest(nm, perMillimetre / 10));
    isZero = tenths == 0;
    out = decimal(tenths, 1, "-");
  } else {
    const std::int64_t n64 = sixtyFourthsOf(nm);
    isZero = n64 == 0;
    if (style == LengthStyle::inches) {
      out = inchText(n64);
    } else {
      const std::int64_t feet = n64 / (12 * 64);
      const std::int64_t left = n64 % (12 * 64);
      if (feet != 0) out = std::to_string(feet) + "'";
      if (feet != 0 && left != 0) out += " ";
      if (feet == 0 || left != 0) out += inchText(left) + "\"";
    }
  }
  return negative && !isZero ? std::string(minusSign) + out : out;
}

std::string exactText(Length length) {
  if (length.nm() % perSixtyFourth == 0) {
    const std::int64_t n64 = length.nm() / perSixtyFourth;
    return n64 < 0 ? "-" + inchText(-n64) + " in" : inchText(n64) + " in";
  }
  return decimal(length.nm(), 6, "-") + " mm";
}

}  // namespace flitch
