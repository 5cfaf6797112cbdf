#include "inventory/records/job.h"

#include <array>
#include <stdexcept>
#include <string_view>

namespace flitch {

namespace {

constexpr std::array<std::string_view, 4> sources{"", "one log", "one board", "sisters"};

}  // namespace

std::string_view word(WoodFrom from) { return sources.at(static_cast<std::size_t>(from)); }

std::optional<WoodFrom> woodFromNamed(std::string_view word) {
  for (std::size_t i = 0; i < sources.size(); ++i) {
    if (sources[i] == word) return static_cast<WoodFrom>(i);
  }
  return std::nullopt;
}

std::string partLetter(int line) {
  constexpr std::string_view letters = "ABCDEFGHJKLMNPQRSTUVWXYZ";
  constexpr int base = static_cast<int>(letters.size());
  if (line < 1) throw std::invalid_argument("part lines count from 1");
  std::string out;
  // Counting without a zero: after Z comes AA.
  for (int left = line; left > 0; left = (left - 1) / base) {
    out.insert(out.begin(), letters[static_cast<std::size_t>((left - 1) % base)]);
  }
  return out;
}

std::string handMark(int line, int copy) { return partLetter(line) + std::to_string(copy); }

}  // namespace flitch
