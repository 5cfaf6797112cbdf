#include "inventory/desk/tally_sheet.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <algorithm>
#include <cctype>
#include <sstream>

#include "inventory/desk/receive.h"
#include "inventory/records/tally_cautions.h"
#include "inventory/wood/unreadable.h"

namespace flitch::desk {

namespace {

std::size_t index(TallyCell cell) { return static_cast<std::size_t>(cell); }

/// The import's column for each cell; marks have one of their own.
std::array<std::string_view, tallyCells> columnsOf(Unit unit) {
  const bool inches = unit == Unit::inches;
  return {"tag",
          "species",
          inches ? "quarters" : "nominal_mm",
          "length",
          "width",
          "width_far",
          "grade",
          "looked",
          "",
          inches ? "price_per_bf" : "price_per_m3",
          "bay",
          "log",
          "count"};
}

QString q(const std::string& text) { return QString::fromStdString(text); }

/// The cell that a complaint's place names last: "tally:3:width".
std::optional<TallyCell> cellOf(const Complaint& complaint, Unit unit) {
  const std::string column = complaint.place.substr(complaint.place.rfind(':') + 1);
  const auto columns = columnsOf(unit);
  for (std::size_t c = 0; c < tallyCells; ++c) {
    if (!columns[c].empty() && columns[c] == column) return static_cast<TallyCell>(c);
  }
  return std::nullopt;
}

}  // namespace

bool TypedLine::blank() const {
  for (std::size_t c = 0; c < tallyCells; ++c) {
    if (!cells[c].empty() && !carried[c]) return false;
  }
  return true;
}

std::string written(const TallySheet& sheet) {
  QJsonArray lines;
  for (const TypedLine& line : sheet.lines) {
    QJsonArray cells, carried;
    for (std::size_t c = 0; c < tallyCells; ++c) {
      cells.append(q(line.cells[c]));
      if (line.carried[c]) carried.append(static_cast<int>(c));
    }
    lines.append(QJsonObject{{"cells", cells}, {"carried", carried}});
  }
  QJsonObject body{{"supplier", q(sheet.supplier)},
                   {"reference", q(sheet.reference)},
                   {"received_on", q(sheet.receivedOn)},
                   {"freight", q(sheet.freight)},
                   {"lines", lines}};
  if (sheet.rule) body["rule"] = q(std::string(word(*sheet.rule)));
  return QJsonDocument(body).toJson(QJsonDocument::Compact).toStdString();
}

TallySheet readSheet(const std::string& body) {
  const QJsonObject from = QJsonDocument::fromJson(QByteArray::fromStdString(body)).object();
  const auto text = [&](const char* key) {
    return from[QLatin1String(key)].toString().toStdString();
  };
  TallySheet sheet{
      text("supplier"), text("reference"), text("received_on"), text("freight"), {}, {}};
  for (const CountingRule rule : countingRules) {
    if (text("rule") == word(rule)) sheet.rule = rule;
  }
  for (const QJsonValue& value : from[QLatin1String("lines")].toArray()) {
    TypedLine& line = sheet.lines.emplace_back();
    const QJsonArray cells = value[QLatin1String("cells")].toArray();
    for (std::size_t c = 0; c < tallyCells; ++c) {
      line.cells[c] = cells.at(static_cast<qsizetype>(c)).toString().toStdString();
    }
    for (const QJsonValue& c : value[QLatin1String("carried")].toArray()) {
      const auto cell = static_cast<std::size_t>(c.toInt(-1));
      if (cell < tallyCells) line.carried[cell] = true;
    }
  }
  return sheet;
}

ReadLine readLine(const TypedLine& typed, int number, const exchange::ReadingRules& rules) {
  ReadLine read;
  exchange::CsvFile file;
  file.name = "tally";
  exchange::CsvRow row;
  row.line = number;
  const auto columns = columnsOf(rules.unit);
  for (std::size_t c = 0; c < tallyCells; ++c) {
    if (columns[c].empty()) continue;
    file.head.push_back({std::string(columns[c]), 0});
    row.cells.push_back({typed.cells[c], number});
  }
  file.rows.push_back(row);
  try {
    read.line = exchange::readTally(file, rules).rows.at(0);
    read.line->line = number;
    read.cautions = cautions(*read.line, rules.unit);
  } catch (const Refusal& refusal) {
    for (const Complaint& complaint : refusal.complaints()) {
      const TallyCell cell = cellOf(complaint, rules.unit).value_or(TallyCell::width);
      if (typed.at(cell).empty()) ++read.missing;
      read.faults.push_back({cell, complaint});
    }
  }
  if (!typed.at(TallyCell::marks).empty()) {
    try {
      read.marks = exchange::readQuickMarks(typed.at(TallyCell::marks), rules);
      for (exchange::MarkLine& mark : read.marks) mark.tallyLine = number;
      // A mark past the board's end would be refused when the load is in.
      if (read.line) {
        Board board;
        board.outline = read.line->outline;
        static_cast<void>(placed(board, read.marks, rules.unit));
      }
    } catch (const Refusal& refusal) {
      read.faults.push_back({TallyCell::marks, refusal.complaints().front()});
    } catch (const Unreadable& what) {
      read.faults.push_back({TallyCell::marks, {"", what.what(), what.value, what.accepted}});
    }
    if (!read.faults.empty()) read.line.reset();
  }
  return read;
}

ReadTally readTally(const TallySheet& sheet, CountingRule rule,
                    const exchange::ReadingRules& rules) {
  ReadTally tally;
  tally.draft.supplier = sheet.supplier;
  tally.draft.reference = sheet.reference;
  tally.draft.receivedOn = sheet.receivedOn;
  tally.draft.rule = sheet.rule.value_or(rule);
  int number = 0;
  for (const TypedLine& typed : sheet.lines) {
    if (typed.blank()) {
      tally.lines.emplace_back();
      continue;
    }
    tally.lines.push_back(readLine(typed, ++number, rules));
    const ReadLine& line = tally.lines.back();
    const std::string name = typed.at(TallyCell::tag).empty() ? "Line " + std::to_string(number)
                                                              : typed.at(TallyCell::tag);
    if (line.line) {
      tally.draft.lines.push_back(*line.line);
      tally.marks.insert(tally.marks.end(), line.marks.begin(), line.marks.end());
    } else if (!line.faults.empty()) {
      tally.troubles.push_back(name + ": " + line.faults.front().complaint.sentence);
    }
  }
  if (!sheet.freight.empty()) {
    try {
      tally.draft.extras.push_back(
          {0, InvoiceKind::freight, parseMoney(sheet.freight), Spread::value, ""});
    } catch (const Unreadable& what) {
      tally.troubles.push_back("Freight: " + std::string(what.what()));
    }
  }
  if (tally.draft.lines.empty()) return tally;
  if (sheet.supplier.empty()) tally.troubles.push_back("The supplier is not named yet");
  try {
    tally.figures = figures(tally.draft);
  } catch (const Refusal& refusal) {
    tally.troubles.push_back(refusal.complaints().front().sentence);
  }
  return tally;
}

TypedLine lineAfter(const TypedLine& above, const std::string& tag) {
  TypedLine line;
  for (const TallyCell cell :
       {TallyCell::species, TallyCell::nominal, TallyCell::grade, TallyCell::looked,
        TallyCell::price, TallyCell::bay, TallyCell::log}) {
    line.cells[index(cell)] = above.at(cell);
    line.carried[index(cell)] = true;
  }
  line.cells[index(TallyCell::tag)] = tag;
  line.carried[index(TallyCell::tag)] = true;
  return line;
}

namespace {

using PastedRow = std::vector<std::string>;

std::string trimmed(const std::string& text) {
  const std::size_t from = text.find_first_not_of(" \r"), to = text.find_last_not_of(" \r");
  return from == std::string::npos ? "" : text.substr(from, to - from + 1);
}

std::vector<PastedRow> pastedRows(const std::string& text) {
  std::vector<PastedRow> rows;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    PastedRow& row = rows.emplace_back();
    std::istringstream cells(line);
    for (std::string cell; std::getline(cells, cell, '\t');) row.push_back(trimmed(cell));
  }
  return rows;
}

/// The cell each column of a head row names; none when it is no head.
std::vector<std::optional<TallyCell>> headOf(const PastedRow& row, Unit unit) {
  std::vector<std::optional<TallyCell>> cells;
  const auto columns = columnsOf(unit);
  bool any = false;
  for (std::string name : row) {
    std::transform(name.begin(), name.end(), name.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    auto& cell = cells.emplace_back();
    if (name == "marks") cell = TallyCell::marks;
    for (std::size_t c = 0; c < tallyCells; ++c) {
      if (!columns[c].empty() && columns[c] == name) cell = static_cast<TallyCell>(c);
    }
    any = any || cell;
  }
  return any ? cells : std::vector<std::optional<TallyCell>>();
}

}  // namespace

void paste(TallySheet& sheet, std::size_t line, TallyCell cell, const std::string& text, Unit unit,
           const std::function<std::string()>& nextTag) {
  std::vector<PastedRow> rows = pastedRows(text);
  if (rows.empty()) return;
  std::vector<std::optional<TallyCell>> cells = headOf(rows.front(), unit);
  if (!cells.empty()) {
    rows.erase(rows.begin());
  } else {
    for (std::size_t c = index(cell); c < tallyCells; ++c) {
      cells.emplace_back(static_cast<TallyCell>(c));
    }
  }
  for (const PastedRow& row : rows) {
    if (std::all_of(row.begin(), row.end(), [](const std::string& c) { return c.empty(); })) {
      continue;
    }
    if (line >= sheet.lines.size()) {
      sheet.lines.push_back(sheet.lines.empty() ? TypedLine()
                                                : lineAfter(sheet.lines.back(), nextTag()));
    }
    TypedLine& typed = sheet.lines[line++];
    for (std::size_t c = 0; c < row.size() && c < cells.size(); ++c) {
      if (!cells[c] || (*cells[c] == TallyCell::tag && row[c].empty())) continue;
      typed.cells[index(*cells[c])] = row[c];
      typed.carried[index(*cells[c])] = false;
    }
  }
}

}  // namespace flitch::desk
