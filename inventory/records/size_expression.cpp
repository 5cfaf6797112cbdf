#include "inventory/records/size_expression.h"

#include <algorithm>
#include <array>
#include <numeric>
#include <optional>

#include "inventory/wood/unreadable.h"
#include "inventory/wood/writing.h"

namespace flitch {

namespace {

constexpr std::int64_t perMillimetre = 1'000'000;
const char* const shapes = "24, 37 1/2, width - 2*stile, (height - 1 in)/3";

struct UnitWord {
  std::string_view word;
  std::int64_t nm;  ///< of one; 1: a count
};
constexpr auto unitWords = std::to_array<UnitWord>({{"in", nmPerInch},
                                                    {"\"", nmPerInch},
                                                    {"ft", 304'800'000},
                                                    {"'", 304'800'000},
                                                    {"mm", perMillimetre},
                                                    {"cm", 10 * perMillimetre},
                                                    {"m", 1000 * perMillimetre},
                                                    {"pcs", 1}});

const UnitWord* unitNamed(std::string_view word) {
  const auto at = std::find_if(unitWords.begin(), unitWords.end(),
                               [&](const UnitWord& unit) { return unit.word == word; });
  return at == unitWords.end() ? nullptr : &*at;
}

bool isLetter(char c) { return (c >= 'a' && c <= 'z') || c == '_'; }

[[noreturn]] void fail(std::string_view expression, const std::string& what) {
  throw Unreadable(inBackticks(expression) + " " + what, shortened(expression), shapes);
}

/// Products that stay below 2^120, else a sentence.
Wide times(Wide a, Wide b, std::string_view expression) {
  Wide product = 0;
  constexpr Wide most = Wide{1} << 120;
  if (__builtin_mul_overflow(a, b, &product) || product > most || product < -most) {
    fail(expression, "comes to figures too large to keep exact");
  }
  return product;
}

Wide divisor(Wide a, Wide b) {
  a = a < 0 ? -a : a;
  while (b != 0) {
    const Wide rest = a % b;
    a = b;
    b = rest;
  }
  return a == 0 ? 1 : a;
}

Quantity lowest(Quantity q) {
  const Wide shared = divisor(q.over, q.under);
  q.over /= shared;
  q.under /= shared;
  if (q.under < 0) {
    q.over = -q.over;
    q.under = -q.under;
  }
  return q;
}

/// One reading of an expression, left to right:
///   sum = product { ("+" | "-") product } ; product = signed { ("*" | "/") signed }
///   signed = ["-"] one ; one = figure [unit] | name | "(" sum ")"
class SizeReader {
 public:
  SizeReader(std::string_view asWritten, Bare bare, const Quantities* names)
      : asWritten_(asWritten), bare_(bare), names_(names), text_(plain(asWritten)) {}

  Quantity read() {
    const Quantity all = sum();
    blank();
    if (at_ < text_.size()) failHere();
    return all;
  }

  /// In order, each once.
  std::vector<std::string> used;

 private:
  [[nodiscard]] char peek() const { return at_ < text_.size() ? text_[at_] : '\0'; }
  void blank() {
    while (peek() == ' ') ++at_;
  }
  bool take(char c) {
    blank();
    if (peek() != c) return false;
    ++at_;
    return true;
  }
  [[noreturn]] void failHere() const {
    if (at_ >= text_.size()) fail(asWritten_, "ends before it is complete");
    fail(asWritten_, "cannot be read from `" + text_.substr(at_, 12) + "` on");
  }

  Quantity sum() {
    Quantity left = product();
    for (;;) {
      if (take('+')) {
        left = added(left, product(), 1);
      } else if (take('-')) {
        left = added(left, product(), -1);
      } else {
        return left;
      }
    }
  }

  Quantity added(Quantity a, Quantity b, int sign) const {
    if (a.length != b.length) (a.length ? b : a) = inBareUnit(a.length ? b : a);
    const Wide left = times(a.over, b.under, asWritten_);
    const Wide right = times(b.over, a.under, asWritten_);
    return lowest({left + sign * right, times(a.under, b.under, asWritten_), a.length});
  }

  [[nodiscard]] Quantity inBareUnit(const Quantity& number) const {
    const std::int64_t one = bare_ == Bare::millimetres ? perMillimetre : nmPerInch;
    return lowest({times(number.over, one, asWritten_), number.under, true});
  }

  Quantity product() {
    Quantity left = withSign();
    for (;;) {
      if (take('*')) {
        const Quantity right = withSign();
        if (left.length && right.length) {
          fail(asWritten_, "multiplies a length by a length, which is no size");
        }
        left = lowest({times(left.over, right.over, asWritten_),
                       times(left.under, right.under, asWritten_), left.length || right.length});
      } else if (take('/')) {
        left = divided(left, withSign());
      } else {
        return left;
      }
    }
  }

  [[nodiscard]] Quantity divided(const Quantity& a, const Quantity& b) const {
    if (b.over == 0) fail(asWritten_, "divides by nothing");
    if (b.length && !a.length) {
      fail(asWritten_, "divides a number by a length, which is no size");
    }
    return lowest({times(a.over, b.under, asWritten_), times(a.under, b.over, asWritten_),
                   a.length && !b.length});
  }

  Quantity withSign() {
    if (!take('-')) return one();
    Quantity q = one();
    q.over = -q.over;
    return q;
  }

  Quantity one() {
    blank();
    if (take('(')) {
      const Quantity inside = sum();
      if (!take(')')) fail(asWritten_, "opens a bracket and does not close it");
      return inside;
    }
    if (isDigit(peek()) || peek() == '.') return figure();
    if (isLetter(peek())) return named();
    failHere();
  }

  Quantity named() {
    const std::size_t from = at_;
    while (isLetter(peek()) || isDigit(peek())) ++at_;
    const std::string name = text_.substr(from, at_ - from);
    if (unitNamed(name) != nullptr) {
      at_ = from;
      failHere();
    }
    if (std::find(used.begin(), used.end(), name) == used.end()) used.push_back(name);
    if (names_ == nullptr) return {0, 1, true};
    const auto known = names_->find(name);
    if (known == names_->end()) fail(asWritten_, "names " + name + ", which is no size here");
    return known->second;
  }

  Wide digits(int most) {
    Wide n = 0;
    int count = 0;
    while (isDigit(peek())) {
      if (++count > most) fail(asWritten_, "has a figure too long to be meant");
      n = n * 10 + (text_[at_++] - '0');
    }
    return n;
  }

  /// `24`, `37.5`, `1 1/2`, `3/4` (a quotient like any other), then a unit.
  Quantity figure() {
    Quantity q{digits(9), 1, false};
    if (peek() == '.') {
      ++at_;
      if (!isDigit(peek())) failHere();
      while (isDigit(peek())) {
        if (q.under > 1'000'000'000) fail(asWritten_, "has a figure too long to be meant");
        q.over = q.over * 10 + (text_[at_++] - '0');
        q.under *= 10;
      }
    } else {
      refuseDoubtfulDash();
      mixed(q);
    }
    return unitAfter(lowest(q));
  }

  /// Whether digits, a slash and digits stand at `at`.
  [[nodiscard]] bool fractionAt(std::size_t at) const {
    const std::size_t from = at;
    while (at < text_.size() && isDigit(text_[at])) ++at;
    return at > from && at + 1 < text_.size() && text_[at] == '/' && isDigit(text_[at + 1]);
  }

  void refuseDoubtfulDash() const {
    if (peek() == '-' && fractionAt(at_ + 1)) {
      fail(asWritten_,
           "may hold a whole and its fraction, or a difference: write 1 1/2 or 1 - 1/2");
    }
  }

  void mixed(Quantity& q) {
    std::size_t at = at_;
    while (at < text_.size() && text_[at] == ' ') ++at;
    if (at == at_ || !fractionAt(at)) return;
    at_ = at;
    const Wide part = digits(9);
    ++at_;
    const Wide parts = digits(9);
    if (parts == 0) fail(asWritten_, "divides by nothing");
    q.over = q.over * parts + part;
    q.under = parts;
  }

  Quantity unitAfter(Quantity q) {
    // `3/4 in`: the unit belongs to the fraction, not to its bottom figure.
    if (q.under == 1 && peek() == '/' && fractionEnds()) {
      ++at_;
      const Wide parts = digits(9);
      if (parts == 0) fail(asWritten_, "divides by nothing");
      q = lowest({q.over, parts, false});
    }
    const std::size_t figureEnd = at_;
    blank();
    const UnitWord* unit = unitHere();
    if (unit == nullptr) {
      at_ = figureEnd;
      return q;
    }
    at_ += unit->word.size();
    if (unit->nm == 1) return q;
    return lowest({times(q.over, unit->nm, asWritten_), q.under, true});
  }

  [[nodiscard]] bool fractionEnds() const {
    return at_ + 1 < text_.size() && isDigit(text_[at_ + 1]);
  }

  [[nodiscard]] const UnitWord* unitHere() const {
    if (peek() == '"' || peek() == '\'') return unitNamed(text_.substr(at_, 1));
    std::size_t end = at_;
    while (end < text_.size() && (isLetter(text_[end]) || isDigit(text_[end]))) ++end;
    return unitNamed(std::string_view(text_).substr(at_, end - at_));
  }

  std::string_view asWritten_;
  Bare bare_;
  const Quantities* names_;
  std::string text_;
  std::size_t at_ = 0;
};

}  // namespace

Quantity evaluate(std::string_view expression, Bare bare, const Quantities& names) {
  return SizeReader(expression, bare, &names).read();
}

std::vector<std::string> namesIn(std::string_view expression) {
  // Every name is taken for a length of nothing: what that makes of the figures is not looked at.
  SizeReader reading(expression, Bare::inches, nullptr);
  try {
    (void)reading.read();
  } catch (const Unreadable&) {
    if (reading.used.empty()) throw;
  }
  return reading.used;
}

bool isArithmetic(std::string_view text) {
  const std::string written = plain(text);
  if (written.find_first_of("*+()") != std::string::npos) return true;
  std::string word;
  for (const char c : written + " ") {
    if (isLetter(c) || (isDigit(c) && !word.empty())) {
      word.push_back(c);
    } else {
      if (isSizeName(word)) return true;
      word.clear();
    }
  }
  return false;
}

bool isSizeName(std::string_view name) {
  return !name.empty() && name.size() <= 40 && isLetter(name.front()) && name.front() != '_' &&
         unitNamed(name) == nullptr &&
         std::all_of(name.begin(), name.end(), [](char c) { return isLetter(c) || isDigit(c); });
}

Length lengthOf(const Quantity& quantity, std::string_view expression, Bare bare) {
  const std::int64_t one = bare == Bare::millimetres ? perMillimetre : nmPerInch;
  const Wide over = quantity.length ? quantity.over : times(quantity.over, one, expression);
  const Wide nm = nearest(over, quantity.under);
  if (nm <= 0) fail(expression, "comes to nothing or less");
  if (nm > Length::millimetres(100'000).nm()) fail(expression, "comes to more than 100 m");
  return Length::nanometres(static_cast<std::int64_t>(nm));
}

Quantity namedQuantity(std::string_view expression, Bare bare, const Quantities& names) {
  const Quantity q = evaluate(expression, bare, names);
  const std::string written = plain(expression);
  if (q.length || written.ends_with("pcs")) return q;
  const std::int64_t one = bare == Bare::millimetres ? perMillimetre : nmPerInch;
  return lowest({times(q.over, one, expression), q.under, true});
}

}  // namespace flitch
