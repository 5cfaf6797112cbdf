#include "inventory/records/board_readiness.h"

#include <algorithm>

#include "inventory/wood/air.h"

namespace flitch {
namespace {

std::string cautionOf(double moisture) {
  switch (meterSpan(moisture)) {
    case MeterSpan::inside: return {};
    case MeterSpan::dielectricOnly: return "A meter with pins reads from 6 % up.";
    case MeterSpan::outside: return "Meters read 4 to 30 %: beyond that they tell no figure.";
  }
  return {};
}

}  // namespace

BoardReadiness readinessOf(const Board& board, Climate climate) {
  BoardReadiness result;
  const auto newest = std::find_if(board.readings.rbegin(), board.readings.rend(),
                                   [](const Reading& r) { return r.tenthsPercent > 0; });
  if (newest == board.readings.rend()) {
    result.line = "no reading yet: measure it";
    return result;
  }
  result.reading = *newest;
  const double moisture = newest->tenthsPercent / 10.0;
  result.readiness = readiness(moisture, climate);
  result.caution = cautionOf(moisture);
  const char* const says = result.readiness == Readiness::ready    ? "ready for "
                           : result.readiness == Readiness::tooWet ? "too wet for "
                                                                   : "too dry for ";
  const std::string driest = percentText(climate.driest);
  result.line = percentText(moisture) + " on " + newest->takenOn + ": " + says +
                driest.substr(0, driest.size() - 2) + " to " + percentText(climate.wettest);
  return result;
}

}  // namespace flitch
