#include "labels/estimate_page.h"

#include <algorithm>

#include "inventory/wood/writing.h"
#include "labels/page.h"
#include "labels/sheet.h"

namespace flitch::pages {
namespace {

/// Writes rows of words, a quantity and two sums, sheet after sheet.
class Writing {
 public:
  Writing(const Job& job, const std::string& sign) : job_(job), sign_(sign) { begin(); }

  void section(const QString& title) {
    if (!fits(3 * row)) begin();
    y_ += 10;
    sheet().write(sheet().left(), y_, title, 14, true);
    y_ += 3;
    sheet().line(sheet().left(), sheet().right(), y_, 0.3);
  }

  void line(const QString& what, const QString& quantity, const TwoCosts& cost, bool bold = false) {
    const double points = bold ? 12 : 11;
    if (!fits(row)) begin();
    y_ += row;
    const double end = quantityRight() - (quantity.isEmpty() ? 0 : textWidth(quantity, 11, false));
    double x = sheet().left();
    const double room = end - x - 4;
    const std::vector<QString> words = wrapped(what, points, bold, room);
    for (std::size_t n = 0; n < words.size(); ++n) {
      if (n > 0) y_ += 5.2;
      sheet().write(x, y_, words[n], points, bold, room);
      if (n > 0) continue;
      if (!quantity.isEmpty()) {
        sheet().writeRight(quantityRight(), y_, quantity, 11, false, 0, Tone::soft);
      }
      sheet().writeRight(landedRight(), y_, money(cost.landed), points, bold);
      sheet().writeRight(sheet().right(), y_, money(cost.today), points, bold);
    }
  }

  void sum(const QString& what, const TwoCosts& cost) {
    const bool fitted = fits(row + 2);
    if (!fitted) begin();
    y_ += 2;
    sheet().line(landedRight() - sumWidth, sheet().right(), y_, 0.3);
    y_ -= 0.5;
    line(what, {}, cost, true);
  }

  void note(const std::string& words) {
    for (const QString& text :
         wrapped(asText(words), 10, false, sheet().right() - sheet().left())) {
      if (!fits(5)) begin();
      y_ += 5;
      sheet().write(sheet().left(), y_, text, 10, false);
    }
  }

  void space(double mm) { y_ += mm; }

  std::vector<Page> end(const std::string& day) {
    std::vector<Page> pages;
    for (std::size_t n = 0; n < sheets_.size(); ++n) {
      sheets_[n].titleBlock(
          {{"Job", asText(job_.name), 0.36},
           {"For", "the shop only", 0.24},
           {"Sheet", QString::number(n + 1) + " of " + QString::number(sheets_.size()), 0.16},
           {"Date", asText(day), 0.24}});
      pages.push_back(std::move(sheets_[n].page));
    }
    return pages;
  }

 private:
  static constexpr double row = 6.6, sumWidth = 28;

  [[nodiscard]] Sheet& sheet() { return sheets_.back(); }
  [[nodiscard]] double landedRight() const { return sheets_.back().right() - sumWidth - 6; }
  [[nodiscard]] double quantityRight() const { return landedRight() - sumWidth - 2; }
  [[nodiscard]] bool fits(double high) { return y_ + high <= sheet().foot() - 3; }
  [[nodiscard]] QString money(Money amount) const { return asText(text(amount, "")); }

  void begin() {
    sheets_.emplace_back(false, false);
    const double top = Sheet::margin;
    sheet().write(sheet().left(), top + 9, "Estimate", 28, true);
    const double half = (sheet().right() - sheet().left()) / 2;
    sheet().writeRight(sheet().right(), top + 5, asText(job_.name), 15, true, half);
    sheet().writeRight(sheet().right(), top + 11, asText(job_.customer), 12, false, half);
    sheet().rule(top + 14);
    y_ = top + 20;
    sheet().writeRight(landedRight(), y_, "as it cost, " + asText(sign_), 9, false, 0, Tone::soft);
    sheet().writeRight(sheet().right(), y_, "bought today, " + asText(sign_), 9, false, 0,
                       Tone::soft);
  }

  const Job& job_;
  std::string sign_;
  std::vector<Sheet> sheets_;
  double y_ = 0;
};

void writeLumber(const Estimate& estimate, Writing& writing) {
  writing.section("Lumber");
  for (const WoodLine& line : estimate.wood) {
    writing.line(asText(woodText(line)), asText(text(line.feet) + " bf"), line.cost);
  }
  writing.line(
      asText(std::to_string(estimate.boards) + (estimate.boards == 1 ? " board" : " boards") +
             " pulled, squared and cut; gluing"),
      {}, {estimate.cutting, estimate.cutting});
  if (estimate.offcuts > 0) {
    writing.line("offcuts kept, value given back",
                 QString::number(estimate.offcuts) + (estimate.offcuts == 1 ? " piece" : " pieces"),
                 {-estimate.kept.landed, -estimate.kept.today});
  }
  writing.sum("Lumber", estimate.lumber);
}

void writeBill(const char* title, const std::vector<BillLine>& lines, Writing& writing) {
  if (lines.empty()) return;
  writing.section(title);
  for (const BillLine& line : lines) {
    writing.line(asText(line.what), asText(line.quantity), {line.cost, line.cost});
  }
}

void writeTogether(const Estimate& estimate, Writing& writing) {
  writing.section("Together");
  writing.line("Materials", {}, estimate.allMaterials);
  writing.line(asText(markupText(estimate)), {}, estimate.markup);
  writing.line("Work", {}, {estimate.allWork, estimate.allWork});
  writing.sum("Sum", estimate.sum);
}

}  // namespace

std::vector<Page> estimatePages(const Estimate& estimate, const Job& job,
                                const EstimateFacts& facts) {
  Writing writing(job, facts.sign);
  writeLumber(estimate, writing);
  writeBill("Other materials", estimate.materials, writing);
  writeBill("Work", estimate.work, writing);
  writeTogether(estimate, writing);
  writing.space(4);
  for (const std::string& note : estimate.notes) writing.note(note);
  if (!facts.sentence.empty()) writing.note(facts.sentence);
  if (!estimate.parts.empty()) {
    writing.section("Wood by part");
    for (const PartCost& cost : estimate.parts) {
      const auto part = std::find_if(job.parts.begin(), job.parts.end(),
                                     [&](const Part& p) { return p.line == cost.line; });
      const std::string name = part == job.parts.end() ? "" : part->name;
      writing.line(asText(partLetter(cost.line) + "  " + name), {}, cost.cost);
    }
    writing.space(3);
    writing.note(std::string(wasteRule));
  }
  return writing.end(estimate.day);
}

}  // namespace flitch::pages
