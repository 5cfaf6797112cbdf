#pragma once
#include <string>

#include "inventory/desk/sawn_boards.h"
#include "inventory/records/table.h"
#include "labels/plot.h"

namespace flitch::desktop {

/// From the boards sawn down to what is in parts, in board feet, with money and share under it.
[[nodiscard]] pages::Plot waterfallOf(const desk::YieldGroup& all, const std::string& sign);

/// Which columns of a report a plot shows, by their keys.
struct PlotColumns {
  const char* name;
  const char* second;  ///< under the name; empty: none
  const char* value;   ///< the column's height
  const char* under;   ///< after `second`; empty: none
  bool sums = true;    ///< false: values that do not add up, such as prices
};
/// A column for each row of a report whose value is money; beyond fourteen the lesser
/// become one, without a figure where they do not add up.
[[nodiscard]] pages::Plot columnsOf(const Table& table, const PlotColumns& columns, Unit unit,
                                    const std::string& sign);
/// What was kept by age: used, left otherwise, on the rack still.
[[nodiscard]] pages::Plot keptPlot(const Table& kept, const std::string& sign);
/// Worth of the rack by how long it has lain there: bands of the months in an old-boards report.
[[nodiscard]] pages::Plot agesOf(const Table& old, const std::string& sign);

}  // namespace flitch::desktop
