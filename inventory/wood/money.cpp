#include "inventory/wood/money.h"

#include "inventory/wood/unreadable.h"
#include "inventory/wood/writing.h"

namespace flitch {
namespace {

/// Digits in threes: 1199 is `1,199`.
std::string grouped(std::string digits) {
  for (std::size_t i = digits.size(); i > 3; i -= 3) digits.insert(i - 3, ",");
  return digits;
}

std::string withSign(bool negative, std::string_view sign, const std::string& figure) {
  return (negative ? std::string(minusSign) : std::string()) + std::string(sign) + figure;
}

/// `1,199.40` or `1199.4` in ten-thousandths; -1 when it is nothing of the kind.
std::int64_t figure(std::string_view text) {
  const std::size_t point = text.find('.');
  const std::string_view whole = text.substr(0, point);
  const bool commas = whole.find(',') != std::string_view::npos;
  std::int64_t n = 0;
  int digits = 0;
  int sinceComma = 0;
  bool commaSeen = false;
  for (const char c : whole) {
    if (c == ',') {
      // Thousands: one to three figures, then threes.
      if (commaSeen ? sinceComma != 3 : (digits < 1 || digits > 3)) return -1;
      commaSeen = true;
      sinceComma = 0;
      continue;
    }
    if (!isDigit(c) || ++digits > 12) return -1;
    ++sinceComma;
    n = n * 10 + (c - '0');
  }
  if (commas && sinceComma != 3) return -1;
  if (digits == 0) return -1;
  if (point == std::string_view::npos) return n * 10'000;
  const std::string_view places = text.substr(point + 1);
  if (places.empty() || places.size() > 4) return -1;
  std::int64_t part = 0;
  for (const char c : places) {
    if (!isDigit(c)) return -1;
    part = part * 10 + (c - '0');
  }
  for (std::size_t i = places.size(); i < 4; ++i) part *= 10;
  return n * 10'000 + part;
}

}  // namespace

Money cost(Rate rate, Feet feet) {
  return Money::tenThousandths(
      narrow(nearest(static_cast<Wide>(rate.perOne.raw()) * feet.thousandths, 1000)));
}

Money costPerCubicMetre(Rate rate, CubicMillimetres volume) {
  return Money::tenThousandths(
      narrow(nearest(static_cast<Wide>(rate.perOne.raw()) * volume.value, 1'000'000'000)));
}

Money costPerRunningFoot(Rate rate, Length length) {
  return Money::tenThousandths(
      narrow(nearest(static_cast<Wide>(rate.perOne.raw()) * length.nm(), Length::feet(1).nm())));
}

Money parseMoney(std::string_view asWritten, std::string_view sign, bool mayBeNegative) {
  const std::string currency = plain(sign);
  const std::string written = plain(asWritten);
  std::string_view rest = written;
  const auto takeFront = [&rest](std::string_view word) {
    if (word.empty() || !rest.starts_with(word)) return false;
    rest = trimmed(rest.substr(word.size()));
    return true;
  };
  bool negative = takeFront("-");
  const bool signSeen = takeFront(currency);
  if (!negative) negative = takeFront("-");
  if (!signSeen && !currency.empty() && rest.ends_with(currency)) {
    rest = trimmed(rest.substr(0, rest.size() - currency.size()));
  }
  const std::int64_t raw = figure(rest);
  const std::string accepted = "8.20, " + std::string(sign) + "8.20, 1,199.40";
  if (raw < 0) {
    throw Unreadable(inBackticks(asWritten) + " is not an amount in " + std::string(sign),
                     shortened(asWritten), accepted);
  }
  if (negative && raw != 0 && !mayBeNegative) {
    throw Unreadable(inBackticks(asWritten) + " is below zero", shortened(asWritten), accepted);
  }
  return Money::tenThousandths(negative ? -raw : raw);
}

std::string text(Money amount, std::string_view sign) {
  const bool negative = amount < Money();
  const Wide magnitude = negative ? -static_cast<Wide>(amount.raw()) : amount.raw();
  const std::int64_t cents = narrow(nearest(magnitude, 100));
  const std::string places = std::to_string(cents % 100);
  return withSign(negative && cents != 0, sign,
                  grouped(std::to_string(cents / 100)) + (cents % 100 < 10 ? ".0" : ".") + places);
}

std::string wholeText(Money amount, std::string_view sign) {
  const std::int64_t toward = amount.raw() / 10'000;  // toward zero: up for what is below zero
  const std::int64_t up = amount.raw() % 10'000 > 0 ? toward + 1 : toward;
  return withSign(up < 0, sign, grouped(std::to_string(up < 0 ? -up : up)));
}

std::string exactText(Money amount) { return decimal(amount.raw(), 4, "-"); }

}  // namespace flitch
