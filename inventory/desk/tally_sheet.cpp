#include "inventory/desk/tally_sheet.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <algorithm>
#include <cctype>
#include <sstream>

#include "inventory/desk/tally_cells.h"

namespace flitch::desk {

namespace {

QString q(const std::string& text) { return QString::fromStdString(text); }

}  // namespace

std::array<std::string_view, tallyCells> tallyColumnsOf(Unit unit) {
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
          "count",
          "outline_a",
          "outline_b",
          "thickness",
          "cut_from",
          "moisture",
          "note"};
}

std::string trimmed(const std::string& text) {
  const std::size_t from = text.find_first_not_of(" \r"), to = text.find_last_not_of(" \r");
  return from == std::string::npos ? "" : text.substr(from, to - from + 1);
}

Multiplied multiplied(const std::string& cell) {
  std::size_t digits = 0;
  while (digits < cell.size() && std::isdigit(static_cast<unsigned char>(cell[digits])) != 0) {
    ++digits;
  }
  std::size_t sign = cell.find_first_not_of(' ', digits);
  if (digits == 0 || digits > 2 || sign == std::string::npos) return {1, cell};
  if (cell[sign] == 'x' || cell[sign] == 'X') {
    sign += 1;
  } else if (cell.compare(sign, 2, "×") == 0) {
    sign += 2;
  } else {
    return {1, cell};
  }
  const std::string length = trimmed(cell.substr(sign));
  const std::size_t boards = std::stoul(cell.substr(0, digits));
  if (boards < 1 || length.empty()) return {1, cell};
  return {boards, length};
}

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
  QJsonArray invoice;
  for (const TypedInvoice& line : sheet.invoice) {
    QJsonArray cells;
    for (const std::string& cell : line.cells) cells.append(q(cell));
    invoice.append(cells);
  }
  QJsonObject body{{"supplier", q(sheet.supplier)},
                   {"reference", q(sheet.reference)},
                   {"received_on", q(sheet.receivedOn)},
                   {"freight", q(sheet.freight)},
                   {"lines", lines},
                   {"invoice", invoice}};
  if (sheet.rule) body["rule"] = q(std::string(word(*sheet.rule)));
  return QJsonDocument(body).toJson(QJsonDocument::Compact).toStdString();
}

TallySheet readSheet(const std::string& body) {
  const QJsonObject from = QJsonDocument::fromJson(QByteArray::fromStdString(body)).object();
  const auto text = [&](const char* key) {
    return from[QLatin1String(key)].toString().toStdString();
  };
  TallySheet sheet{
      text("supplier"), text("reference"), text("received_on"), text("freight"), {}, {}, {}};
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
  for (const QJsonValue& value : from[QLatin1String("invoice")].toArray()) {
    TypedInvoice& line = sheet.invoice.emplace_back();
    const QJsonArray cells = value.toArray();
    for (std::size_t c = 0; c < invoiceCells; ++c) {
      line.cells[c] = cells.at(static_cast<qsizetype>(c)).toString().toStdString();
    }
  }
  return sheet;
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

std::size_t spreadEqual(TallySheet& sheet, std::size_t line,
                        const std::function<std::string()>& nextTag) {
  const auto [boards, length] = multiplied(sheet.lines.at(line).at(TallyCell::length));
  if (boards == 1 && length == sheet.lines[line].at(TallyCell::length)) return 1;
  sheet.lines[line].cells[index(TallyCell::length)] = length;
  for (std::size_t more = 1; more < boards; ++more) {
    TypedLine equal = sheet.lines[line];
    equal.carried.fill(false);
    equal.cells[index(TallyCell::tag)] = nextTag();
    sheet.lines.insert(sheet.lines.begin() + static_cast<std::ptrdiff_t>(line + more), equal);
  }
  return boards;
}

void cutForTheVan(TallySheet& sheet, std::size_t line, const std::string& tag) {
  TypedLine& first = sheet.lines.at(line);
  std::string& name = first.cells[index(TallyCell::cutFrom)];
  if (name.empty()) {
    const std::string& own = first.at(TallyCell::tag);
    name = own.empty() ? "line " + std::to_string(line + 1) : own;
  }
  TypedLine second = first;
  second.cells[index(TallyCell::tag)] = tag;
  for (const TallyCell cell :
       {TallyCell::length, TallyCell::marks, TallyCell::outlineA, TallyCell::outlineB}) {
    second.cells[index(cell)].clear();
  }
  sheet.lines.insert(sheet.lines.begin() + static_cast<std::ptrdiff_t>(line + 1), second);
}

namespace {

using PastedRow = std::vector<std::string>;

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
  const auto columns = tallyColumnsOf(unit);
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
