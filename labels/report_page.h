#pragma once
#include <string>
#include <vector>

#include "inventory/records/table.h"
#include "labels/page.h"
#include "labels/photo.h"
#include "labels/report_plots.h"

namespace flitch::pages {

struct ReportFacts {
  std::string book;     ///< the shop's name
  std::string printed;  ///< date
  Unit unit = Unit::inches;
  std::string sign = "$";
};

/// Tables under one another on A4, upright, or lying where one is too wide; heads are repeated on
/// every sheet, texts too long for their column end in dots, figures never do. Columns without any
/// entry are left out. A plot with columns stands above the first table, its sentence over it.
[[nodiscard]] std::vector<Page> reportPages(const std::vector<Table>& tables,
                                            const ReportFacts& facts, const ReportPlot& plot = {});

/// What is wrong with a load, its photos on sheets of their own behind it.
[[nodiscard]] std::vector<Page> claimPages(const Table& claim,
                                           const std::vector<PhotoPrint>& photos,
                                           const ReportFacts& facts);

}  // namespace flitch::pages
