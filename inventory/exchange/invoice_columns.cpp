#include "inventory/exchange/cells.h"
#include "inventory/wood/writing.h"

namespace flitch::exchange {
namespace {

/// What a row of an invoice says: its boards, one of its other lines, or its total.
enum class What { boards, freight, tax, surfacing, discount, other, total };
constexpr std::array<std::string_view, 7> whatWords{"boards",   "freight", "tax",  "surfacing",
                                                    "discount", "other",   "total"};
constexpr std::array<std::string_view, 2> spreadWords{"feet", "value"};

struct InvoiceRow {
  int line = 0;
  What what = What::boards;
  std::string species, note;
  std::optional<Nominal> quarters, millimetres;
  std::optional<Feet> feet;
  std::optional<Money> amount;
  std::optional<Spread> spread;
};

constexpr auto invoiceFields = std::to_array<Field<InvoiceRow>>({
    {{"what", "", true, "boards, freight, tax, surfacing, discount, other or total"},
     Measure::none,
     [](const Cell& c, InvoiceRow& r) { r.what = static_cast<What>(wordOf(c, whatWords)); }},
    {{"species", "", false, "of boards: what the invoice claims of this species and thickness"},
     Measure::none,
     [](const Cell& c, InvoiceRow& r) { r.species = c.oneOf(c.rules.species, "species"); }},
    {{"quarters", "quarters", false, "of boards: nominal thickness: 4, 4/4, 12/4"},
     Measure::none,
     [](const Cell& c, InvoiceRow& r) { r.quarters = nominalCell(c, Unit::inches); }},
    {{"nominal_mm", "mm", false, "in place of quarters, for metric stock"},
     Measure::millimetres,
     [](const Cell& c, InvoiceRow& r) { r.millimetres = nominalCell(c, Unit::millimetres); }},
    {{"bf", "bf", false, "board feet claimed, of boards or in total"},
     Measure::boardFeet,
     [](const Cell& c, InvoiceRow& r) { r.feet = parseFeet(c.text); }},
    {{"amount", "money", false, "asked; what a discount takes off"},
     Measure::money,
     [](const Cell& c, InvoiceRow& r) { r.amount = c.price(); }},
    {{"spread", "", false,
      "feet or value; if empty tax and discount by value, all else by footage"},
     Measure::none,
     [](const Cell& c, InvoiceRow& r) { r.spread = static_cast<Spread>(wordOf(c, spreadWords)); }},
    {{"note", "", false, "anything worth remembering"},
     Measure::none,
     [](const Cell& c, InvoiceRow& r) { r.note = c.note(200); }},
});

/// Holds the cells of a row against each other and puts it where it belongs.
class Sorting {
 public:
  Sorting(Invoice& invoice, Complaints& complaints) : invoice_(invoice), complaints_(complaints) {}

  void take(const InvoiceRow& row) {
    if (row.what == What::boards) {
      boards(row);
    } else if (!row.species.empty() || row.quarters || row.millimetres) {
      complain(row, "species", "only rows of boards have a species and a thickness",
               "boards under what");
    } else if (row.what == What::total) {
      total(row);
    } else {
      extra(row);
    }
  }

 private:
  void complain(const InvoiceRow& row, std::string_view column, const std::string& sentence,
                const std::string& accepted) {
    complaints_.add(row.line, column, sentence, "", accepted);
  }

  /// True when the row says how much.
  bool amounts(const InvoiceRow& row) {
    if (!row.feet && !row.amount) {
      complain(row, "bf", "the row claims neither feet nor money", "a figure under bf or amount");
      return false;
    }
    if (row.spread) {
      complain(row, "spread", "what boards cost is not spread", "freight, tax, ... under what");
      return false;
    }
    return true;
  }

  void boards(const InvoiceRow& row) {
    if (row.species.empty()) {
      complain(row, "species", "a row of boards needs a species", "a species of the book");
      return;
    }
    if (row.quarters.has_value() == row.millimetres.has_value()) {
      complain(row, "quarters", "a row of boards needs one nominal thickness",
               "4/4 under quarters, or 27 under nominal_mm");
      return;
    }
    if (!amounts(row)) return;
    const Nominal nominal = row.quarters ? *row.quarters : *row.millimetres;
    invoice_.claims.push_back({row.line, row.species, nominal, row.feet, row.amount});
  }

  void total(const InvoiceRow& row) {
    if (!amounts(row)) return;
    for (const InvoiceClaim& claim : invoice_.claims) {
      if (claim.species.empty()) {
        complain(row, "what", "the invoice has a total on line " + std::to_string(claim.line),
                 "one total");
        return;
      }
    }
    invoice_.claims.push_back({row.line, {}, {}, row.feet, row.amount});
  }

  void extra(const InvoiceRow& row) {
    if (!row.amount || row.feet) {
      complain(row, "amount",
               std::string(whatWords.at(static_cast<std::size_t>(row.what))) +
                   " is an amount of money and no feet",
               "8.20, $8.20");
      return;
    }
    // Told apart from boards and total above; the words are in the order of the kinds.
    const auto kind = static_cast<InvoiceKind>(static_cast<int>(row.what) - 1);
    const Money amount = kind == InvoiceKind::discount ? -*row.amount : *row.amount;
    invoice_.extras.push_back(
        {row.line, kind, amount, row.spread.value_or(usualSpread(kind)), row.note});
  }

  Invoice& invoice_;
  Complaints& complaints_;
};

}  // namespace

std::span<const ImportColumn> invoiceColumns() {
  static const auto columns = columnsOf(invoiceFields);
  return columns;
}

Taken<Invoice> readInvoice(const CsvFile& file, const ReadingRules& rules) {
  Taken<Invoice> taken;
  taken.rows.resize(1);
  Complaints complaints(file);
  Sorting sorting(taken.rows.front(), complaints);
  for (const InvoiceRow& row : readRows(file, invoiceFields, rules, complaints, taken.warnings)) {
    sorting.take(row);
  }
  complaints.refuse("bad-cell");
  return taken;
}

}  // namespace flitch::exchange
