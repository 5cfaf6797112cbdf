#include "ui/cli/output.h"

#include <algorithm>
#include <fstream>

#include "inventory/exchange/csv.h"
#include "inventory/records/shown_table.h"

namespace flitch::cli {

namespace {

/// Columns a text takes on a terminal: its code points (all that we write are one column wide).
std::size_t columnsOf(const std::string& text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
  }));
}

std::string withoutEnd(std::string line) {
  line.erase(line.find_last_not_of(' ') + 1);
  return line;
}

}  // namespace

void Answer::show(const std::string& key, const Table& table) {
  show(table);
  put(key, table);
}

void Answer::show(const Table& table) {
  if (!text_.empty()) text_ += "\n";
  text_ += asText(table, unit_, sign_);
}

std::string Answer::document(const std::string& command) const {
  exchange::Fields fields = fields_;
  if (!warnings_.empty()) fields.emplace_back("warnings", warnings_);
  return exchange::document(command, fields, unit_);
}

std::string asText(const Table& exact, Unit unit, const std::string& sign) {
  const Table table = shown(exact);
  using Line = std::vector<std::string>;
  const auto lineOf = [&](const std::vector<CellValue>& cells) {
    Line line;
    for (const CellValue& cell : cells) line.push_back(flitch::text(cell, unit, sign));
    return line;
  };
  Line head;
  for (const Column& column : table.columns) head.push_back(column.title);
  std::vector<Line> lines;
  for (const auto& row : table.rows) lines.push_back(lineOf(row));
  const std::size_t rows = lines.size();
  if (!table.totals.empty()) lines.push_back(lineOf(table.totals));

  std::vector<std::size_t> wide(head.size(), 0);
  for (std::size_t c = 0; c < head.size(); ++c) {
    for (const Line& line : lines) wide[c] = std::max(wide[c], columnsOf(line[c]));
    if (wide[c] > 0) wide[c] = std::max(wide[c], columnsOf(head[c]));
  }
  std::size_t whole = 0;
  const auto write = [&](const Line& line) {
    std::string text;
    for (std::size_t c = 0; c < line.size(); ++c) {
      if (wide[c] == 0) continue;
      if (!text.empty()) text += "  ";
      const std::string gap(wide[c] - std::min(wide[c], columnsOf(line[c])), ' ');
      text += table.columns[c].right ? gap + line[c] : line[c] + gap;
    }
    whole = std::max(whole, columnsOf(text));
    return withoutEnd(text) + "\n";
  };
  std::string body;
  for (std::size_t r = 0; r < rows; ++r) body += write(lines[r]);
  const std::string top = write(head);
  std::string text = table.title.empty() ? "" : table.title + "\n";
  if (rows > 0) text += top + body;
  if (!table.totals.empty()) {
    const std::string totals = write(lines.back());
    if (rows > 0) text += std::string(whole, '-') + "\n";
    text += totals;
  }
  if (!table.note.empty()) text += table.note + "\n";
  return text;
}

std::string refusalDocument(const std::string& command, const Refusal& refusal) {
  return exchange::document(command, {{"refused", refusal}}, Unit::inches);
}

void writeFile(const std::string& path, const std::string& bytes) {
  std::ofstream file(path, std::ios::binary | std::ios::trunc);
  file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  file.close();
  if (!file) {
    throw Refusal("cannot-write", Complaint{"", path + " cannot be written", path,
                                            "a path in a folder that exists"});
  }
}

void writeRows(const std::string& path, const Table& table, Answer& answer) {
  if (path.empty()) return;
  writeFile(path, exchange::writeCsv(table));
  answer.put("csv", path);
}

std::string counted(std::size_t n, const std::string& one, const std::string& many) {
  return std::to_string(n) + " " + (n == 1 ? one : many);
}

}  // namespace flitch::cli
