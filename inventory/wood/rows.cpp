#include "inventory/wood/rows.h"

#include <algorithm>

namespace flitch {
namespace {

std::vector<std::string> cellsOf(std::string_view line) {
  std::vector<std::string> cells(1);
  bool quoted = false;
  for (const char c : line) {
    if (c == '"') {
      quoted = !quoted;
    } else if (c == ',' && !quoted) {
      cells.emplace_back();
    } else if (c != '\r') {
      cells.back() += c;
    }
  }
  return cells;
}

}  // namespace

std::vector<PublishedRow> publishedRows(std::string_view csv) {
  std::vector<std::string> head;
  std::vector<PublishedRow> rows;
  while (!csv.empty()) {
    const std::string_view line = csv.substr(0, csv.find('\n'));
    csv.remove_prefix(std::min(csv.size(), line.size() + 1));
    if (line.empty()) continue;
    std::vector<std::string> cells = cellsOf(line);
    if (head.empty()) {
      head = std::move(cells);
      continue;
    }
    PublishedRow& row = rows.emplace_back();
    for (std::size_t i = 0; i < std::min(head.size(), cells.size()); ++i) row[head[i]] = cells[i];
  }
  return rows;
}

}  // namespace flitch
