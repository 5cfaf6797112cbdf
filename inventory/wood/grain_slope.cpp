#include "inventory/wood/grain_slope.h"

#include <charconv>

#include "inventory/wood/unreadable.h"
#include "inventory/wood/writing.h"

namespace flitch {

std::string text(const GrainSlope& slope) {
  if (slope.runTenths == 0) return "straight";
  std::string run = std::to_string(slope.runTenths / 10);
  if (slope.runTenths % 10 != 0) run += "." + std::to_string(slope.runTenths % 10);
  return "1 in " + run;
}

GrainSlope parseGrainSlope(std::string_view asWritten) {
  constexpr int least = 10, most = 10'000;
  const Unreadable unreadable(inBackticks(asWritten) + " is not a slope of the grain",
                              shortened(asWritten), "1 in 12, straight; the run from 1 to 1000");
  const std::string written = plain(asWritten);
  if (written == "straight") return {};
  std::string_view run = written;
  for (const std::string_view rise : {"1 in ", "1:", "1 : "}) {
    if (run.starts_with(rise)) run = trimmed(run.substr(rise.size()));
  }
  const std::size_t point = run.find('.');
  const std::string_view whole = run.substr(0, point);
  const std::string_view tenth = point == std::string_view::npos ? "0" : run.substr(point + 1);
  if (whole.empty() || whole.size() > 4 || tenth.size() != 1 || !isDigit(tenth.front()))
    throw unreadable;
  for (const char digit : whole) {
    if (!isDigit(digit)) throw unreadable;
  }
  int tenths = 0;
  std::from_chars(whole.data(), whole.data() + whole.size(), tenths);
  tenths = 10 * tenths + (tenth.front() - '0');
  if (tenths < least || tenths > most) throw unreadable;
  return {tenths};
}

}  // namespace flitch
