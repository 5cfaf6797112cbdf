#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "inventory/wood/measure.h"
#include "inventory/wood/money.h"

namespace flitch {

/// What an invoice asks besides its boards. `difference`: what its total is over or under its
/// lines.
enum class InvoiceKind { freight, tax, surfacing, discount, other, difference };
[[nodiscard]] std::string_view word(InvoiceKind kind);

/// What a line is spread over the boards by: their billed feet or their price.
enum class Spread { feet, value };
/// Freight, surfacing and other by footage, tax, discount and difference by value.
[[nodiscard]] Spread usualSpread(InvoiceKind kind);

struct InvoiceLine {
  int line = 0;  ///< of the file, for messages
  InvoiceKind kind = InvoiceKind::freight;
  Money amount;  ///< a discount is below zero
  Spread spread = Spread::feet;
  std::string note;
};

/// What an invoice claims of one species and thickness, or of its whole load (`species` empty).
struct InvoiceClaim {
  int line = 0;
  std::string species;
  Nominal nominal;
  std::optional<Feet> feet;
  std::optional<Money> amount;
};

/// An invoice as read: what its lines ask, and what it claims.
struct Invoice {
  std::vector<InvoiceLine> extras;
  std::vector<InvoiceClaim> claims;
};

/// A board as an invoice's lines are spread over it.
struct Billed {
  Feet feet;
  Money price;
};
/// What each board cost with its shares of all lines. By footage a board of no billed feet takes no
/// share; where no board has any, or none has a price, they share alike. The sum is that of prices
/// and amounts, exactly. Throws Refusal when a board would cost less than nothing.
[[nodiscard]] std::vector<Money> landed(const std::vector<Billed>& boards,
                                        const std::vector<InvoiceLine>& lines);

}  // namespace flitch
