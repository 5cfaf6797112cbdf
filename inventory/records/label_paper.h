#pragma once
#include <cstdint>
#include <string>
#include <vector>

#include "inventory/wood/length.h"

namespace flitch {

/// A label stock of the maker's own, by its numbers. A roll has one label a page: columns and rows
/// 1, the page as large as the label.
struct LabelPaper {
  std::string name;
  Length pageWidth, pageHeight;
  Length labelWidth, labelHeight;
  int columns = 1, rows = 1;
  Length left, top;     ///< of the first label
  Length across, down;  ///< from one label to the next
  std::string care;     ///< what light, water and wax do to it
  friend bool operator==(const LabelPaper&, const LabelPaper&) = default;
};

/// How a printer lays its ink, against where it should lie.
struct PrinterAlignment {
  std::string name;
  std::int64_t right = 0, down = 0;  ///< nanometres to move the ink by, below zero: left, up
  int wide = 10'000, high = 10'000;  ///< ten-thousandths to stretch it by, from the top left corner
  friend bool operator==(const PrinterAlignment&, const PrinterAlignment&) = default;
};

/// Every reason why labels of these numbers cannot be printed on: labels off the page or on each
/// other, nothing of a size. Throws one Refusal with all of them. Name and sizes are needed.
void validate(const LabelPaper& paper);
/// Throws Refusal: no name, moved by more than 20 mm, stretched by more than 5 %.
void validate(const PrinterAlignment& printer);

}  // namespace flitch
