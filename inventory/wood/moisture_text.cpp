#include <charconv>

#include "inventory/wood/moisture.h"
#include "inventory/wood/unreadable.h"
#include "inventory/wood/writing.h"

namespace flitch {

int parseMoisture(std::string_view asWritten) {
  const auto unreadable = [asWritten](const std::string& what) {
    return Unreadable(inBackticks(asWritten) + what, shortened(asWritten), "8, 8.5, 8.5 %");
  };
  std::string_view text = trimmed(asWritten);
  if (text.ends_with('%')) text = trimmed(text.substr(0, text.size() - 1));
  const std::size_t point = text.find('.');
  const std::string_view whole = text.substr(0, point);
  const std::string_view places =
      point == std::string_view::npos ? std::string_view("0") : text.substr(point + 1);
  const auto digits = [](std::string_view part, std::size_t most) {
    return !part.empty() && part.size() <= most &&
           part.find_first_not_of("0123456789") == std::string_view::npos;
  };
  if (!digits(whole, 3) || !digits(places, 1)) throw unreadable(" is not a moisture in percent");
  int percent = 0;
  std::from_chars(whole.data(), whole.data() + whole.size(), percent);
  const int tenths = percent * 10 + (places.front() - '0');
  // Green wood of light species holds over twice its own weight of water.
  if (tenths > 3000) throw unreadable(" is past 300 %");
  return tenths;
}

std::string moistureText(int tenthsPercent) { return decimal(tenthsPercent, 1, minusSign) + " %"; }

}  // namespace flitch
