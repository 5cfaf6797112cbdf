#include "inventory/records/estimate.h"

#include <algorithm>
#include <map>
#include <tuple>

#include "inventory/wood/split.h"
#include "inventory/wood/writing.h"

namespace flitch {

namespace {

constexpr auto kept = static_cast<std::size_t>(Cause::offcuts);

/// One board counted at both costs.
struct Counted {
  Breakdown landed, today;
  std::optional<Money> replacement;
};

Counted countedAt(const UsedBoard& opened, const Job& job, std::optional<Money> replacement) {
  Counted both;
  both.replacement = replacement;
  both.landed = account(opened.cutting, opened.board, job, opened.shop, opened.tick);
  Board again = opened.board;
  if (replacement) again.cost = *replacement;
  both.today = account(opened.cutting, again, job, opened.shop, opened.tick);
  return both;
}

class Counting {
 public:
  Counting(const Job& job, std::span<const ReplacementPrice> prices) : job_(job), prices_(prices) {}

  void add(const UsedBoard& opened, Estimate& estimate) {
    const Board& board = opened.board;
    const Counted both = countedAt(opened, job_, replacementOf(board, prices_, estimate.day));
    addWood(board, both, estimate);
    ++estimate.boards;
    estimate.offcuts += static_cast<int>(std::count_if(
        both.landed.shares.begin(), both.landed.shares.end(),
        [](const Share& share) { return share.cause == Cause::offcuts && share.cost > Money(); }));
    estimate.cutting += both.landed.cutCost;
    estimate.kept += {both.landed.cost[kept], both.today.cost[kept]};
    Sharing& sharing = species_[board.species];
    sharing.cost += {both.landed.woodCost, both.today.woodCost};
    for (const Share& share : both.landed.shares) {
      if (share.cause != Cause::parts) continue;
      const int line = opened.cutting.pieces[static_cast<std::size_t>(share.piece)].line;
      sharing.finished[line].value += share.volume.value;
    }
  }

  /// Shares each species' wood among its parts.
  [[nodiscard]] std::vector<PartCost> parts() const {
    std::map<int, PartCost> byLine;
    for (const auto& [name, sharing] : species_) {
      std::vector<Wide> weights;
      for (const auto& [line, volume] : sharing.finished) weights.emplace_back(volume.value);
      const auto fallsOn = [&](Money all) {
        return weights.empty() ? std::vector<std::int64_t>{} : split(all.raw(), weights);
      };
      const auto landed = fallsOn(sharing.cost.landed);
      const auto today = fallsOn(sharing.cost.today);
      std::size_t at = 0;
      for (const auto& [line, volume] : sharing.finished) {
        PartCost& part = byLine[line];
        part.line = line;
        part.finished.value += volume.value;
        part.cost += {Money::tenThousandths(landed[at]), Money::tenThousandths(today[at])};
        ++at;
      }
    }
    std::vector<PartCost> all;
    all.reserve(byLine.size());
    for (const auto& [line, part] : byLine) all.push_back(part);
    return all;
  }

 private:
  struct Sharing {
    TwoCosts cost;
    std::map<int, CubicMillimetres> finished;  ///< by part line
  };

  void addWood(const Board& board, const Counted& both, Estimate& estimate) {
    auto line = std::find_if(estimate.wood.begin(), estimate.wood.end(), [&](const WoodLine& w) {
      return w.species == board.species && w.nominal == board.nominal && w.grade == board.grade;
    });
    if (line == estimate.wood.end()) {
      WoodLine added;
      added.species = board.species;
      added.nominal = board.nominal;
      added.grade = board.grade;
      line = estimate.wood.insert(line, added);
    }
    ++line->boards;
    line->feet.thousandths +=
        board.billed.thousandths > 0 ? board.billed.thousandths : board.measuredFeet.thousandths;
    line->cost += {board.cost, both.replacement.value_or(board.cost)};
    if (!both.replacement) {
      ++line->unpriced;
      return;
    }
    line->since = priceOn(prices_, board.species, board.nominal, board.grade, estimate.day)->since;
  }

  const Job& job_;
  std::span<const ReplacementPrice> prices_;
  std::map<std::string, Sharing> species_;
};

void tellUnpriced(Estimate& estimate) {
  std::string names;
  for (const WoodLine& line : estimate.wood) {
    if (line.unpriced == 0) continue;
    names += (names.empty() ? "" : "; ") + line.species + " " + text(line.nominal) +
             (line.grade.empty() ? "" : " " + line.grade);
  }
  if (names.empty()) return;
  estimate.notes.push_back("No price in the table, taken at landed cost: " + names + ".");
}

}  // namespace

Estimate estimateOf(const Job& job, int markupPermille, std::span<const UsedBoard> opened,
                    std::span<const ReplacementPrice> prices, const std::string& day,
                    std::vector<BillLine> materials, std::vector<BillLine> work) {
  Estimate estimate;
  estimate.day = day;
  Counting counting(job, prices);
  for (const UsedBoard& board : opened) counting.add(board, estimate);
  std::sort(estimate.wood.begin(), estimate.wood.end(), [](const WoodLine& a, const WoodLine& b) {
    return std::tuple(a.species, a.nominal.length(), a.grade) <
           std::tuple(b.species, b.nominal.length(), b.grade);
  });
  estimate.parts = counting.parts();
  for (const WoodLine& line : estimate.wood) estimate.lumber += line.cost;
  estimate.lumber +=
      {estimate.cutting - estimate.kept.landed, estimate.cutting - estimate.kept.today};
  estimate.materials = std::move(materials);
  estimate.work = std::move(work);
  estimate.allMaterials = estimate.lumber;
  for (const BillLine& line : estimate.materials) {
    estimate.allMaterials += {line.cost, line.cost};
  }
  for (const BillLine& line : estimate.work) estimate.allWork += line.cost;
  estimate.markupPermille = markupPermille;
  estimate.markup = {amountOf(estimate.allMaterials.landed, markupPermille),
                     amountOf(estimate.allMaterials.today, markupPermille)};
  estimate.sum = {estimate.allMaterials.landed + estimate.markup.landed + estimate.allWork,
                  estimate.allMaterials.today + estimate.markup.today + estimate.allWork};
  tellUnpriced(estimate);
  return estimate;
}

std::string woodText(const WoodLine& line) {
  return line.species + " " + text(line.nominal) + (line.grade.empty() ? "" : " " + line.grade) +
         ", " + std::to_string(line.boards) + (line.boards == 1 ? " board" : " boards");
}

std::string markupText(const Estimate& estimate) {
  return "Markup on materials, " + decimal(estimate.markupPermille, 1, "-") + " %";
}

Table estimateTable(const Estimate& estimate) {
  Table table;
  table.columns = {{"section", "", false},          {"what", "what", false},
                   {"quantity", "quantity", true},  {"landed", "as it cost", true},
                   {"today", "bought today", true}, {"price_since", "price of", false}};
  const auto row = [&](const char* section, const std::string& what, CellValue quantity,
                       const TwoCosts& cost, const std::string& since = {}) {
    table.rows.push_back({std::string(section), what, std::move(quantity), cost.landed, cost.today,
                          since.empty() ? CellValue{} : CellValue{since}});
  };
  for (const WoodLine& line : estimate.wood) {
    row("lumber", woodText(line), line.feet, line.cost, line.since);
  }
  const auto count = static_cast<std::int64_t>(estimate.boards);
  row("lumber", "boards pulled and cut", count, {estimate.cutting, estimate.cutting});
  row("lumber", "offcuts kept, value given back", static_cast<std::int64_t>(estimate.offcuts),
      {-estimate.kept.landed, -estimate.kept.today});
  row("sum", "Lumber", {}, estimate.lumber);
  for (const BillLine& line : estimate.materials) {
    row("materials", line.what, line.quantity, {line.cost, line.cost});
  }
  for (const BillLine& line : estimate.work) {
    row("work", line.what, line.quantity, {line.cost, line.cost});
  }
  row("sum", "Materials", {}, estimate.allMaterials);
  row("sum", markupText(estimate), {}, estimate.markup);
  row("sum", "Work", {}, {estimate.allWork, estimate.allWork});
  row("sum", "Sum", {}, estimate.sum);
  return table;
}

Table partCostTable(const Estimate& estimate, const Job& job) {
  Table table;
  table.title = "Wood by part";
  table.columns = {{"letter", "", false},
                   {"part", "part", false},
                   {"finished", "finished wood", true},
                   {"landed", "as it cost", true},
                   {"today", "bought today", true}};
  for (const PartCost& part : estimate.parts) {
    const auto found = std::find_if(job.parts.begin(), job.parts.end(),
                                    [&](const Part& p) { return p.line == part.line; });
    table.rows.push_back({partLetter(part.line), found == job.parts.end() ? "" : found->name,
                          part.finished, part.cost.landed, part.cost.today});
  }
  table.note = std::string(wasteRule);
  return table;
}

Money askedPrice(const Estimate& estimate) {
  return Money::units(narrow(nearest(estimate.sum.today.raw(), 10'000)));
}

}  // namespace flitch
