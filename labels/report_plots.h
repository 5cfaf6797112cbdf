#pragma once
#include <string>

#include "inventory/records/table.h"
#include "labels/plot.h"

/// Reports of the ledger as plots, each from the report's own table: for window and paper alike.
namespace flitch::pages {

struct ReportPlot {
  Plot plot;     ///< without columns where there is nothing to draw
  QString said;  ///< what it shows, a sentence
};

/// From the boards sawn down to what is in parts, in board feet, with share and money under it: by
/// the totals of a yield report's two tables.
[[nodiscard]] ReportPlot waterfallOf(const Table& feet, const Table& money,
                                     const std::string& sign);
/// Of the report on clear wood, on planned and sawn, on waste, on stock: a column a row; beyond
/// fourteen the lesser become one, without a figure where they do not add up.
[[nodiscard]] ReportPlot clearPlot(const Table& clear, Unit unit, const std::string& sign);
[[nodiscard]] ReportPlot actualPlot(const Table& actual, Unit unit, const std::string& sign);
[[nodiscard]] ReportPlot wastePlot(const Table& waste, Unit unit, const std::string& sign);
[[nodiscard]] ReportPlot stockPlot(const Table& stock, Unit unit, const std::string& sign);
/// What was kept by age: used, left otherwise, on the rack still.
[[nodiscard]] ReportPlot keptPlot(const Table& kept, const std::string& sign);
/// Worth of boards by how long they have lain on the rack, from a table of months and value.
[[nodiscard]] ReportPlot agesPlot(const Table& boards, const std::string& sign);
/// What of the wood used up is in parts, in per cent, by supplier and grade.
[[nodiscard]] ReportPlot learnedPlot(const Table& learned, Unit unit);
/// Share of blanks lost, by length of the part.
[[nodiscard]] ReportPlot lostPlot(const Table& lengths, Unit unit);

}  // namespace flitch::pages
