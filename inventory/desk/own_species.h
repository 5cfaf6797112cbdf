#pragma once
#include "inventory/records/table.h"
#include "inventory/store/book.h"

namespace flitch::desk {

/// Adds a species of the maker's own, or newer figures of one: what it leaves out the table or
/// zero says. Throws Refusal: no name, no figure at all, a figure without a source.
EntryId addSpecies(store::Book& book, const Species& species, const store::Hand& hand);

/// Every species by name, the maker's own figures in the place of the table's: name, botanical
/// name, whose, and each figure; one recalled from memory has a `?` behind it.
[[nodiscard]] Table speciesTable(const std::vector<Species>& own);
/// A row per figure of a species: figure, value, source, how far it may be trusted.
[[nodiscard]] Table figureTable(const Species& species);

/// A species of the table or the maker's own. Throws Refusal("unknown-species").
[[nodiscard]] Species speciesOf(const store::Snapshot& snapshot, const std::string& name);

}  // namespace flitch::desk
