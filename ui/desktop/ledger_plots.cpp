#include "ui/desktop/ledger_plots.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

#include "ui/desktop/look.h"

namespace flitch::desktop {
namespace {

using pages::PlotBox;
using pages::PlotColumn;

double number(Feet feet) { return static_cast<double>(feet.thousandths) / 1000; }
double number(Money money) { return static_cast<double>(money.raw()) / 10'000; }

double number(const CellValue& cell) {
  if (const auto* money = std::get_if<Money>(&cell)) return number(*money);
  if (const auto* feet = std::get_if<Feet>(&cell)) return number(*feet);
  if (const auto* count = std::get_if<std::int64_t>(&cell)) return static_cast<double>(*count);
  return 0;
}

std::size_t columnAt(const Table& table, const char* key) {
  for (std::size_t c = 0; c < table.columns.size(); ++c)
    if (table.columns[c].key == key) return c;
  throw std::logic_error(std::string("no column ") + key);
}

QString capital(QString word) {
  word[0] = word[0].toUpper();
  return word;
}

/// Where there are too many columns to be read, the highest stay and the rest become one.
void gatherRest(pages::Plot& plot, bool sums, const std::string& sign) {
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

QString shareText(Feet part, Feet whole) {
  return q(text(CellValue{desk::permille(part.thousandths, whole.thousandths)}, Unit::inches, ""));
}

}  // namespace

pages::Plot waterfallOf(const desk::YieldGroup& all, const std::string& sign) {
  pages::Plot plot;
  if (all.boards.empty()) return plot;
  plot.unit = "bf";
  plot.joined = true;
  double level = number(all.sawn);
  const auto add = [&](const QString& name, Feet feet, Money cost, PlotBox box, bool whole) {
    const QString figure = (whole ? "" : q(std::string("−"))) + q(text(feet));
    QString under = q(text(cost, sign));
    if (name != "Boards sawn") under = shareText(feet, all.sawn) + " · " + under;
    plot.columns.push_back({name, under, figure, {box}, whole});
  };
  add("Boards sawn", all.sawn, all.landed, {0, level, PlotBox::Look::used}, true);
  constexpr std::array order{Cause::defect, Cause::endTrim, Cause::kerf, Cause::unusable,
                             Cause::machining};
  const auto fall = [&](std::size_t fate, PlotBox::Look look) {
    const double to = level - number(all.feet[fate]);
    add(capital(q(std::string(desk::fateWord(fate)))), all.feet[fate], all.cost[fate],
        {level, to, look}, false);
    level = to;
  };
  for (const Cause cause : order) fall(static_cast<std::size_t>(cause), PlotBox::Look::thrown);
  if (all.volume[desk::spoiledFate].value > 0) fall(desk::spoiledFate, PlotBox::Look::thrown);
  fall(static_cast<std::size_t>(Cause::offcuts), PlotBox::Look::kept);
  add("Parts", all.partFeet(), all.cost[static_cast<std::size_t>(Cause::parts)],
      {0, std::max(level, 0.0), PlotBox::Look::used}, true);
  return plot;
}

pages::Plot columnsOf(const Table& table, const PlotColumns& columns, Unit unit,
                      const std::string& sign) {
  pages::Plot plot;
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

pages::Plot keptPlot(const Table& kept, const std::string& sign) {
  pages::Plot plot;
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
  return plot;
}

pages::Plot agesOf(const Table& old, const std::string& sign) {
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
  for (const auto& row : old.rows) {
    const auto months = std::get<std::int64_t>(row[columnAt(old, "months")]);
    std::size_t at = 0;
    while (months >= bands[at].months) ++at;
    ++sums[at].boards;
    sums[at].value += std::get<Money>(row[columnAt(old, "value")]);
  }
  pages::Plot plot;
  if (old.rows.empty()) return plot;
  plot.unit = q(sign);
  for (std::size_t n = 0; n < bands.size(); ++n) {
    const std::int64_t boards = sums[n].boards;
    plot.columns.push_back({bands[n].name,
                            QString::number(boards) + (boards == 1 ? " board" : " boards"),
                            q(text(sums[n].value, sign)),
                            {{0, number(sums[n].value), PlotBox::Look::used}}});
  }
  return plot;
}

}  // namespace flitch::desktop
