#pragma once
#include "inventory/exchange/columns.h"
#include "inventory/records/shop.h"
#include "inventory/wood/species.h"

/// What a new book knows.
[[nodiscard]] inline flitch::exchange::ReadingRules newBookRules(
    flitch::Unit unit = flitch::Unit::inches) {
  flitch::exchange::ReadingRules rules;
  rules.unit = unit;
  for (const flitch::Species& s : flitch::knownSpecies()) rules.species.emplace_back(s.name);
  for (const auto& kind : flitch::startingDefectKinds()) rules.defectKinds.push_back(kind.name);
  for (const auto& demand : flitch::startingProfile().demands) {
    rules.demands.push_back(demand.name);
  }
  return rules;
}
