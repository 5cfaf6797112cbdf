#include "inventory/desk/invoice_sheet.h"

#include <algorithm>
#include <charconv>

namespace flitch::desk {

namespace {

std::array<std::string_view, invoiceCells> columnsOf(Unit unit) {
  return {"what", "species", unit == Unit::inches ? "quarters" : "nominal_mm",
          "bf",   "amount",  "spread"};
}

InvoiceCell cellOf(const Complaint& complaint, Unit unit) {
  const auto columns = columnsOf(unit);
  const std::string column = complaint.place.substr(complaint.place.rfind(':') + 1);
  const auto at = std::find(columns.begin(), columns.end(), column);
  return at == columns.end() ? InvoiceCell::what : static_cast<InvoiceCell>(at - columns.begin());
}

/// The line of a place: 3 of "invoice:3:amount"; 0 of what counts complaints left out.
std::size_t lineOf(const Complaint& complaint) {
  const std::size_t colon = complaint.place.find(':');
  std::size_t line = 0;
  if (colon != std::string::npos) {
    std::from_chars(complaint.place.data() + colon + 1,
                    complaint.place.data() + complaint.place.size(), line);
  }
  return line;
}

}  // namespace

bool TypedInvoice::blank() const {
  return std::all_of(cells.begin(), cells.end(), [](const std::string& c) { return c.empty(); });
}

bool ReadInvoice::ready() const {
  return std::all_of(faults.begin(), faults.end(), [](const auto& line) { return line.empty(); });
}

ReadInvoice readInvoice(std::span<const TypedInvoice> lines, const exchange::ReadingRules& rules) {
  ReadInvoice read;
  read.faults.resize(lines.size());
  exchange::CsvFile file;
  file.name = "invoice";
  for (const std::string_view column : columnsOf(rules.unit)) {
    file.head.push_back({std::string(column), 0});
  }
  const auto rows = [&] {
    file.rows.clear();
    for (std::size_t l = 0; l < lines.size(); ++l) {
      if (lines[l].blank() || !read.faults[l].empty()) continue;
      exchange::CsvRow& row = file.rows.emplace_back();
      row.line = static_cast<int>(l + 1);
      for (const std::string& cell : lines[l].cells) row.cells.push_back({cell, row.line});
    }
    return !file.rows.empty();
  };
  // Lines with a fault are left out and the rest is read again: it stands by itself, since one line
  // never mends another.
  while (rows()) {
    try {
      read.invoice = exchange::readInvoice(file, rules).rows.at(0);
      return read;
    } catch (const Refusal& refusal) {
      for (const Complaint& complaint : refusal.complaints()) {
        const std::size_t line = lineOf(complaint);
        if (line < 1 || line > lines.size()) continue;
        read.faults[line - 1].emplace_back(cellOf(complaint, rules.unit), complaint);
      }
    }
  }
  return read;
}

}  // namespace flitch::desk
