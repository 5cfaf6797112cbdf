#include "inventory/records/job.h"

#include <stdexcept>
#include <string_view>

namespace flitch {

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
