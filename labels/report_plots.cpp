#include "labels/report_plots.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

namespace flitch::pages {
namespace {

QString q(const std::string& text) { return QString::fromStdString(text); }

double number(Feet feet) { return static_cast<double>(feet.thousandths) / 1000; }
double number(Money money) { return static_cast<double>(money.raw()) / 10'000; }

double number(const CellValue& cell) {
  if (const auto* money = std::get_if<Money>(&cell)) return number(*money);
  if (const auto* feet = std::get_if<Feet>(&cell)) return number(*feet);
  if (const auto* count = std::get_if<std::int64_t>(&cell)) return static_cast<double>(*count);
  if (const auto* share = std::get_if<Permille>(&cell)) {
    return static_cast<double>(share->value) / 10;
  }
  return 0;
}

std::size_t columnAt(const Table& table, const char* key) {
  for (std::size_t c = 0; c < table.columns.size(); ++c)
    if (table.columns[c].key == key) return c;
  throw std::logic_error(std::string("no column ") + key);
}

QString figure(const CellValue& cell) { return q(text(cell, Unit::inches, "")); }

QString capital(QString word) {
  word[0] = word[0].toUpper();
  return word;
}

/// Where there are too many columns to be read, the highest stay and the rest become one.
void gatherRest(Plot& plot, bool sums, const std::string& sign) {
  constexpr std::size_t most = 14;
  if (plot.columns.size() <= most) return;
  std::stable_sort(plot.columns.begin(), plot.columns.end(),
                   [](const PlotColumn& a, const PlotColumn& b) {
                     return a.boxes.front().to > b.boxes.front().to;
                   });
  double sum = 0;
  for (std::size_t n = most - 1; sums && n < plot.columns.size(); ++n) {
    sum += plot.columns[n].boxes.front().to;
  }
  const std::size_t rest = plot.columns.size() - (most - 1);
  const Money money = Money::tenThousandths(std::llround(sum * 10'000));
  plot.columns.resize(most - 1);
  plot.columns.push_back({"others",
                          QString::number(rest) + " rows",
                          sums ? q(text(money, sign)) : QString(),
                          {{0, sum, PlotBox::Look::used}}});
}

/// Which columns of a report a plot shows, by their keys.
struct PlotColumns {
  const char* name;
  const char* second;  ///< under the name; empty: none
  const char* value;   ///< the column's height
  const char* under;   ///< after `second`; empty: none
  bool sums = true;    ///< false: values that do not add up, such as prices
};

Plot columnsOf(const Table& table, const PlotColumns& columns, Unit unit, const std::string& sign) {
  Plot plot;
  plot.unit = q(sign);
  const auto words = [&](const std::vector<CellValue>& row, const char* key) {
    return *key == '\0' ? QString() : q(text(row[columnAt(table, key)], unit, sign));
  };
  for (const auto& row : table.rows) {
    const CellValue& value = row[columnAt(table, columns.value)];
    if (std::holds_alternative<std::monostate>(value)) continue;
    QStringList under;
    for (const char* key : {columns.second, columns.under})
      if (const QString said = words(row, key); !said.isEmpty()) under << said;
    plot.columns.push_back({words(row, columns.name),
                            under.join(" · "),
                            words(row, columns.value),
                            {{0, number(value), PlotBox::Look::used}}});
  }
  gatherRest(plot, columns.sums, sign);
  return plot;
}

}  // namespace

ReportPlot waterfallOf(const Table& feet, const Table& money, const std::string& sign) {
  const auto bf = [&](const char* key) { return feet.totals[columnAt(feet, key)]; };
  const auto cost = [&](const char* key) {
    return q(text(money.totals[columnAt(money, key)], Unit::inches, sign));
  };
  if (feet.rows.empty()) return {};
  const double sawn = number(bf("sawn"));
  const auto share = [&](const char* key) {
    const double part = sawn > 0 ? number(bf(key)) / sawn * 1000 : 0;
    return figure(Permille{std::lround(part)});
  };
  ReportPlot made;
  Plot& plot = made.plot;
  plot.unit = "bf";
  plot.joined = true;
  double level = sawn;
  plot.columns.push_back(
      {"Boards sawn", cost("landed"), figure(bf("sawn")), {{0, level, PlotBox::Look::used}}, true});
  const auto fall = [&](const char* key, PlotBox::Look look) {
    const double to = level - number(bf(key));
    plot.columns.push_back({capital(q(feet.columns[columnAt(feet, key)].title)),
                            share(key) + " · " + cost(key),
                            QStringLiteral("−") + figure(bf(key)),
                            {{level, to, look}}});
    level = to;
  };
  for (const char* key : {"defects", "end_trim", "kerf", "unusable", "machining"})
    fall(key, PlotBox::Look::thrown);
  if (number(bf("spoiled")) > 0) fall("spoiled", PlotBox::Look::thrown);
  fall("offcuts", PlotBox::Look::kept);
  plot.columns.push_back({"Parts",
                          share("parts") + " · " + cost("parts"),
                          figure(bf("parts")),
                          {{0, std::max(level, 0.0), PlotBox::Look::used}},
                          true});
  made.said =
      QString("Of %1 board feet %2 are in parts.").arg(figure(bf("sawn")), figure(bf("parts")));
  return made;
}

ReportPlot clearPlot(const Table& clear, Unit unit, const std::string& sign) {
  return {columnsOf(clear, {"supplier", "grade", "cost_per_foot", "", false}, unit, sign),
          "What a board foot in parts cost, by supplier and grade."};
}

ReportPlot actualPlot(const Table& actual, Unit unit, const std::string& sign) {
  const std::string name = actual.columns.front().key;
  return {columnsOf(actual, {name.c_str(), "", "cost", "yield"}, unit, sign),
          "What the wood of each row cost as sawn."};
}

ReportPlot wastePlot(const Table& waste, Unit unit, const std::string& sign) {
  Table causes = waste;
  // A sum of the rows above it is no column beside them.
  std::erase_if(causes.rows, [](const std::vector<CellValue>& row) {
    return row.front() == CellValue{std::string("boards sawn")};
  });
  return {columnsOf(causes, {"cause", "", "cost", "share"}, unit, sign),
          "What the wood of the boards sawn cost, by where it went."};
}

ReportPlot stockPlot(const Table& stock, Unit unit, const std::string& sign) {
  return {columnsOf(stock, {"species", "nominal", "value", ""}, unit, sign),
          "Value of the stock by species and thickness."};
}

ReportPlot keptPlot(const Table& kept, const std::string& sign) {
  ReportPlot made{{}, q(kept.note)};
  Plot& plot = made.plot;
  plot.unit = q(sign);
  for (const auto& row : kept.rows) {
    const auto worth = [&](const char* key) { return number(row[columnAt(kept, key)]); };
    const double used = worth("used_worth"), gone = used + worth("gone_worth");
    const auto cell = [&](const char* key) {
      return q(text(row[columnAt(kept, key)], Unit::inches, sign));
    };
    plot.columns.push_back({cell("age"),
                            cell("used") + " of " + cell("offcuts") + " used",
                            cell("worth"),
                            {{0, used, PlotBox::Look::used},
                             {used, gone, PlotBox::Look::thrown},
                             {gone, worth("worth"), PlotBox::Look::kept}}});
  }
  return made;
}

ReportPlot agesPlot(const Table& boards, const std::string& sign) {
  struct Band {
    const char* name;
    std::int64_t months;
  };
  constexpr std::array bands{Band{"to 3 months", 3}, Band{"3 to 6", 6}, Band{"6 to 12", 12},
                             Band{"12 to 24", 24}, Band{"over 24", 1'000'000}};
  struct Sum {
    std::int64_t boards = 0;
    Money value;
  };
  std::array<Sum, bands.size()> sums{};
  for (const auto& row : boards.rows) {
    const auto months = std::get<std::int64_t>(row[columnAt(boards, "months")]);
    std::size_t at = 0;
    while (months >= bands[at].months) ++at;
    ++sums[at].boards;
    sums[at].value += std::get<Money>(row[columnAt(boards, "value")]);
  }
  if (boards.rows.empty()) return {};
  ReportPlot made{{}, "Value by how long it has lain on the rack."};
  Plot& plot = made.plot;
  plot.unit = q(sign);
  for (std::size_t n = 0; n < bands.size(); ++n) {
    const std::int64_t count = sums[n].boards;
    plot.columns.push_back({bands[n].name,
                            QString::number(count) + (count == 1 ? " board" : " boards"),
                            q(text(sums[n].value, sign)),
                            {{0, number(sums[n].value), PlotBox::Look::used}}});
  }
  return made;
}

ReportPlot learnedPlot(const Table& learned, Unit unit) {
  return {columnsOf(learned, {"supplier", "grade", "yield", "", false}, unit, "%"),
          "Share of the wood used up that is in parts, by supplier and grade."};
}

ReportPlot lostPlot(const Table& lengths, Unit unit) {
  return {columnsOf(lengths, {"length", "", "lost_share", "blanks", false}, unit, "%"),
          "Share of the blanks that came to nothing, by length of the part."};
}

}  // namespace flitch::pages
