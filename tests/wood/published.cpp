#include "tests/wood/published.h"

#include <fstream>
#include <stdexcept>

namespace {

/// Cells of one line; the files hold no line break inside quotes.
std::vector<std::string> cellsOf(const std::string& line) {
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

std::vector<PublishedRow> published(const std::string& file) {
  std::ifstream in(std::string(FLITCHBOOK_TEST_DATA) + "/" + file);
  std::string line;
  if (!std::getline(in, line)) throw std::runtime_error("no such file: " + file);
  const std::vector<std::string> head = cellsOf(line);
  std::vector<PublishedRow> rows;
  while (std::getline(in, line)) {
    const std::vector<std::string> cells = cellsOf(line);
    PublishedRow row;
    for (std::size_t i = 0; i < head.size() && i < cells.size(); ++i) row[head[i]] = cells[i];
    rows.push_back(row);
  }
  return rows;
}
