#include "inventory/records/part_wood.h"

#include <algorithm>
#include <optional>

#include "inventory/wood/weight.h"

namespace flitch {
namespace {

Length yearly(const PartMovement& movement) {
  return movement.toWettest.change - movement.toDriest.change;
}

Length rounded(Length change, Unit unit) {
  const Length step = unit == Unit::inches ? Length::sixtyFourths(2) : Length::micrometres(500);
  return stepsUp(std::max(change, Length()), step) * step;
}

std::optional<PartMovement> movementOf(const Part& part, const std::string& name,
                                       std::span<const Species> own, const Season& season,
                                       Unit unit) {
  const auto species = speciesNamed(name, own);
  if (!species) return std::nullopt;
  const auto wet = movement(*species, part.width, Sawn::flat, season.made, season.wettest);
  const auto dry = movement(*species, part.width, Sawn::flat, season.made, season.driest);
  if (!wet || !dry) return std::nullopt;
  return PartMovement{part.line, species->name, *wet, *dry,
                      roomFor(*wet, *dry, Fixing::centre, unit)};
}

}  // namespace

Length wideMovement(Unit unit) {
  return unit == Unit::inches ? Length::sixtyFourths(8) : Length::millimetres(3);
}

std::vector<PartMovement> movements(const Job& job, std::span<const Species> own,
                                    const Season& season, Unit unit) {
  std::vector<PartMovement> wide;
  for (const Part& part : job.parts) {
    std::optional<PartMovement> most;
    for (const std::string& name : part.species) {
      auto moves = movementOf(part, name, own, season, unit);
      if (moves && (!most || yearly(*moves) > yearly(*most))) most = std::move(moves);
    }
    if (most && yearly(*most) >= wideMovement(unit)) wide.push_back(std::move(*most));
  }
  return wide;
}

Length yearlyMovement(const PartMovement& movement, Unit unit) {
  return rounded(yearly(movement), unit);
}

std::string movementText(const PartMovement& movement, Unit unit) {
  return "swells " + lengthText(rounded(movement.toWettest.change, unit), unit) + ", shrinks " +
         lengthText(rounded(-movement.toDriest.change, unit), unit);
}

double finishedKilograms(const Job& job, std::span<const Species> own, double moisture) {
  double all = 0;
  for (const Part& part : job.parts) {
    const auto species =
        part.species.empty() ? std::nullopt : speciesNamed(part.species.front(), own);
    const Area face = rectangle(part.length, part.width);
    all += part.copies *
           kilograms(volume(face, face, part.thickness), species ? &*species : nullptr, moisture);
  }
  return all;
}

}  // namespace flitch
