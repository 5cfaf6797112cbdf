#pragma once
#include <array>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "inventory/exchange/columns.h"

namespace flitch::desk {

/// The cells of an invoice's line as they are typed, in order.
enum class InvoiceCell { what, species, nominal, feet, amount, spread };
inline constexpr std::size_t invoiceCells = 6;

/// A line of an invoice as typed: boards claimed, freight, tax, surfacing, discount, other, total.
struct TypedInvoice {
  std::array<std::string, invoiceCells> cells;
  [[nodiscard]] const std::string& at(InvoiceCell cell) const {
    return cells[static_cast<std::size_t>(cell)];
  }
  [[nodiscard]] bool blank() const;
  friend bool operator==(const TypedInvoice&, const TypedInvoice&) = default;
};

/// An invoice as it was read: lines that cannot be read are left out and say why.
struct ReadInvoice {
  Invoice invoice;
  std::vector<std::vector<std::pair<InvoiceCell, Complaint>>> faults;  ///< of each line typed
  [[nodiscard]] bool ready() const;
};
/// Read as the import reads a file: same words, same sentences.
[[nodiscard]] ReadInvoice readInvoice(std::span<const TypedInvoice> lines,
                                      const exchange::ReadingRules& rules);

}  // namespace flitch::desk
