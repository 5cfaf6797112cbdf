#include "inventory/records/tally_cautions.h"

#include <algorithm>

namespace flitch {
namespace {

std::string said(Length length, Unit unit, LengthStyle inInches) {
  return unit == Unit::inches
             ? text(length, inInches) + (inInches == LengthStyle::inches ? " in" : "")
             : text(length, LengthStyle::millimetres) + " mm";
}

void sizeCautions(const Outline& outline, BoardKind kind, Unit unit,
                  std::vector<std::string>& all) {
  const Length length = outline.length();
  const auto inFeet = [&] { return said(length, unit, LengthStyle::feetInches); };
  const bool offcut = kind == BoardKind::offcut;
  if (length > Length::feet(20)) all.push_back(inFeet() + " is very long for a board");
  if (length < Length::feet(1) && !offcut) all.push_back(inFeet() + " is very short for a board");
  Length widest, narrowest = maxBoardWidth;
  for (const OutlinePoint& point : outline.points()) {
    widest = std::max(widest, point.far - point.near);
    narrowest = std::min(narrowest, point.far - point.near);
  }
  const auto inInches = [&](Length width) { return said(width, unit, LengthStyle::inches); };
  if (widest > Length::inches(24) && kind != BoardKind::slab)
    all.push_back(inInches(widest) + " is very wide for anything but a slab");
  if (widest < Length::inches(2) && !offcut)
    all.push_back(inInches(widest) + " is very narrow for a board");
  if (narrowest * 2 < widest)
    all.push_back("from " + inInches(widest) + " to " + inInches(narrowest) +
                  " is much taper for a board");
}

/// Dearest of one foot, board, cubic metre, running foot or lot, in units of money.
std::int64_t dearest(PriceBasis basis) {
  switch (basis) {
    case PriceBasis::perFoot:
    case PriceBasis::perRunningFoot: return 150;
    case PriceBasis::each: return 5'000;
    case PriceBasis::perCubicMetre: return 60'000;
    case PriceBasis::lot: return 100'000;
  }
  return 0;
}

}  // namespace

std::vector<std::string> cautions(const TallyLine& line, Unit unit) {
  std::vector<std::string> all;
  sizeCautions(line.outline[0], line.kind, unit, all);
  const Length nominal = line.nominal.length();
  if (line.thickness && (*line.thickness * 2 < nominal || *line.thickness * 2 > nominal * 3))
    all.push_back(said(*line.thickness, unit, LengthStyle::inches) + " thick is far from " +
                  text(line.nominal));
  if (line.price > Money::units(dearest(line.basis)))
    all.push_back("a price of " + text(line.price, "") + " is very dear");
  if (line.count > 200) all.push_back(std::to_string(line.count) + " equal boards are very many");
  return all;
}

}  // namespace flitch
