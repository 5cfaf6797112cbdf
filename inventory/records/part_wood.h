#pragma once
#include <span>
#include <string>
#include <vector>

#include "inventory/records/job.h"
#include "inventory/wood/moisture.h"

namespace flitch {

/// How far a part's width moves over a season, as flatsawn wood does.
struct PartMovement {
  int line = 0;
  std::string species;  ///< of those it may be made of, the one that moves most
  Movement toWettest, toDriest;
  Room room;  ///< held in the middle of its width
};

/// Change of width over the year from which a part counts as wide: 1/8 in, 3 mm.
[[nodiscard]] Length wideMovement(Unit unit);

/// The parts of a job that move by wideMovement() or more from the driest to the wettest of the
/// year, in order. A part none of whose species has figures is left out. O(parts x species).
[[nodiscard]] std::vector<PartMovement> movements(const Job& job, std::span<const Species> own,
                                                  const Season& season, Unit unit);
/// From the driest to the wettest of the year, up to the next 1/32 in (0.5 mm).
[[nodiscard]] Length yearlyMovement(const PartMovement& movement, Unit unit);
/// "swells 1/32 in, shrinks 1/16 in", up to the next 1/32 in (0.5 mm).
[[nodiscard]] std::string movementText(const PartMovement& movement, Unit unit);

/// Kilograms of all finished pieces of a job, spares left out, at `moisture` percent; each part of
/// the first of its species, one without a figure taken for a heavy wood.
[[nodiscard]] double finishedKilograms(const Job& job, std::span<const Species> own,
                                       double moisture);

}  // namespace flitch
