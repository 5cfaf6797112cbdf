#include <algorithm>
#include <map>
#include <stdexcept>

#include "labels/cut_sheet.h"
#include "labels/page.h"
#include "labels/sheet.h"

namespace flitch::pages {
namespace {

const Board& boardOf(const Cutting& cutting, const std::vector<Board>& boards) {
  const auto found = std::find_if(boards.begin(), boards.end(),
                                  [&](const Board& board) { return board.id == cutting.board; });
  if (found == boards.end()) throw std::invalid_argument("a cutting's board is not at hand");
  return *found;
}

QString blanksOf(const Cutting& cutting) {
  std::map<int, int> copies;
  for (const Piece& piece : cutting.pieces)
    if (piece.kind == PieceKind::blank) ++copies[piece.line];
  QStringList words;
  for (const auto& [line, count] : copies)
    words << QString::number(count) + " " + asText(partLetter(line));
  return words.join(", ");
}

std::string partName(const Job& job, int line) {
  for (const Part& part : job.parts)
    if (part.line == line) return part.name;
  return {};
}

/// The terms of the claim, without which its sentence says too much.
QString termsOf(const CutPlan& plan, Unit unit) {
  const LengthStyle style = unit == Unit::inches ? LengthStyle::inches : LengthStyle::millimetres;
  const QString step = asText(text(plan.tick, style)) + (unit == Unit::inches ? " in" : " mm");
  return "These cutting rules, a grid of " + step +
         ", this stock, defects as marked, the same parts supplied.";
}

class Summary {
 public:
  Summary(const CutPlan& plan, const std::vector<Board>& boards, const Job& job,
          const ShopProfile& shop, const CutSheetFacts& facts)
      : plan_(plan),
        boards_(boards),
        job_(job),
        shop_(shop),
        facts_(facts),
        sheet_(facts.letter, false) {}

  Page draw(const std::vector<std::string>& notes) {
    heading();
    paragraph(asText(facts_.sentence), 14, true);
    if (plan_.boundKind != PlanBound::none) paragraph(termsOf(plan_, facts_.unit), 11, false);
    y_ += 3;
    for (const std::string& note : notes) paragraph(asText(note), 11, false);
    shortages();
    costs();
    boards();
    titleBlock();
    return std::move(sheet_.page);
  }

 private:
  [[nodiscard]] QString money(Money amount) const { return asText(text(amount, facts_.sign)); }
  [[nodiscard]] double room() const { return sheet_.right() - sheet_.left(); }

  void heading() {
    y_ = Sheet::margin + 11;
    const QString name = asText(job_.name);
    const double end =
        sheet_.write(sheet_.left(), y_, name, fittingPoints(name, 24, true, room()), true);
    if (!job_.customer.empty() && end + 20 < sheet_.right())
      sheet_.write(end + 5, y_, "for " + asText(job_.customer), 13, false,
                   sheet_.right() - end - 5);
    sheet_.rule(y_ + 4);
    y_ += 13;
  }

  void paragraph(const QString& text, double points, bool bold) {
    for (const QString& line : wrapped(text, points, bold, room())) {
      sheet_.write(sheet_.left(), y_, line, points, bold);
      y_ += points * 0.3528 * 1.35;
    }
    y_ += 1.2;
  }

  void shortages() {
    if (plan_.shorts.empty() && plan_.waiting.empty()) return;
    y_ += 2;
    const double top = y_ - 5;
    std::vector<QString> lines;
    const auto add = [&](const std::string& sentence) {
      for (const QString& line : wrapped(asText(sentence), 11, false, room() - 15))
        lines.push_back(line);
    };
    for (const ShortPart& part : plan_.shorts)
      add("Short: " + std::to_string(part.copies) + " " + partName(job_, part.line) + " (" +
          partLetter(part.line) + ")" + (part.reason.empty() ? "." : ": " + part.reason + ".") +
          (part.unseenOnly ? " Trusting faces nobody has looked at would supply it." : ""));
    std::string waiting;
    for (const int line : plan_.waiting)
      waiting +=
          (waiting.empty() ? "" : ", ") + partName(job_, line) + " (" + partLetter(line) + ")";
    if (!waiting.empty())
      add("No wood is planned yet for " + waiting + ": their recipes are not known.");
    const double high = static_cast<double>(lines.size()) * 5.6 + 3.5;
    sheet_.box(QRectF(sheet_.left(), top, room(), high), 0.5);
    sheet_.filled(QRectF(sheet_.left(), top, 9, high), Tone::ink);
    sheet_.page.ink.emplace_back(Text{
        {sheet_.left() + 4.5, top + high / 2 + 2.6}, "!", 20, true, Qt::AlignHCenter, Tone::sheet});
    double base = top + 5.6;
    for (const QString& line : lines) {
      sheet_.write(sheet_.left() + 13, base, line, 11);
      base += 5.6;
    }
    y_ = top + high + 8;
  }

  void costs() {
    const auto line = [&](const char* what, Money amount, bool bold = false) {
      sheet_.write(sheet_.left(), y_, QString::fromUtf8(what), 11, bold);
      sheet_.writeRight(sheet_.left() + 100, y_, money(amount), 11, bold);
      y_ += 5.8;
    };
    line("wood opened", plan_.woodCost + plan_.offcutWorth);
    line("offcuts kept", -plan_.offcutWorth);
    line("pulling, cutting, gluing", plan_.cutCost);
    if (plan_.shortageCost > Money()) line("price of what is short", plan_.shortageCost);
    sheet_.line(sheet_.left(), sheet_.left() + 100, y_ - 4.2, 0.3);
    y_ += 0.6;
    line("this plan", plan_.total(), true);
    if (plan_.boundKind != PlanBound::none) line("no plan costs less than", plan_.bound);
    if (plan_.handRule > Money()) line("the hand rule's plan", plan_.handRule);
    y_ += 5;
  }

  void boards() {
    constexpr double high = 6.6;
    const double x = sheet_.left();
    sheet_.write(x, y_,
                 QString::number(plan_.cuttings.size()) +
                     (plan_.cuttings.size() == 1 ? " board" : " boards") + " opened",
                 14, true);
    y_ += 6.5;
    const double columns[] = {x, x + 34, x + 76, x + 124, x + 140};
    const char* heads[] = {"Tag", "Wood", "Size", "Bay", "Blanks"};
    for (std::size_t n = 0; n < 5; ++n)
      sheet_.write(columns[n], y_, heads[n], 9, false, 0, Tone::soft);
    sheet_.writeRight(sheet_.right(), y_, "Cost", 9, false, 0, Tone::soft);
    sheet_.line(x, sheet_.right(), y_ + 1.8, 0.35);
    y_ += 7;
    std::size_t shown = 0;
    for (const Cutting& cutting : plan_.cuttings) {
      const bool last = y_ + 2 * high > sheet_.foot() - 2;
      if (last && shown + 1 < plan_.cuttings.size()) {
        sheet_.write(x, y_,
                     "and " + QString::number(plan_.cuttings.size() - shown) +
                         " more, each on its own sheet",
                     11);
        return;
      }
      const Board& board = boardOf(cutting, boards_);
      const QString cost = money(board.cost);
      if (board.tag) sheet_.write(x, y_, asText(text(*board.tag)), 12, true, 33);
      sheet_.write(columns[1], y_, asText(board.species + " " + text(board.nominal)), 11, false,
                   40);
      sheet_.write(columns[2], y_, asText(sizeText(board, facts_.unit)), 11, false, 47);
      sheet_.write(columns[3], y_, asText(board.bay), 11, false, 15);
      sheet_.write(columns[4], y_, blanksOf(cutting), 11, false,
                   sheet_.right() - columns[4] - textWidth(cost, 11, false) - 2);
      sheet_.writeRight(sheet_.right(), y_, cost, 11);
      sheet_.line(x, sheet_.right(), y_ + 2, 0.2, Tone::edge);
      y_ += high;
      ++shown;
    }
  }

  void titleBlock() {
    int cuts = 0;
    for (const Cutting& cutting : plan_.cuttings)
      for (const SawStep& step : sawSteps(cutting, boardOf(cutting, boards_), job_, shop_))
        cuts += step.number > 0;
    sheet_.titleBlock({{"Job", asText(job_.name), 0.36},
                       {"Boards",
                        QString::number(plan_.cuttings.size()) + " · " + QString::number(cuts) +
                            (cuts == 1 ? " cut" : " cuts"),
                        0.22},
                       {"Unit", facts_.unit == Unit::inches ? "inches" : "millimetres", 0.18},
                       {"Planned", asText(facts_.planned), 0.24}});
  }

  const CutPlan& plan_;
  const std::vector<Board>& boards_;
  const Job& job_;
  const ShopProfile& shop_;
  const CutSheetFacts& facts_;
  Sheet sheet_;
  double y_ = 0;
};

}  // namespace

Page planSummary(const CutPlan& plan, const std::vector<Board>& boards, const Job& job,
                 const ShopProfile& shop, const CutSheetFacts& facts,
                 const std::vector<std::string>& notes) {
  return Summary(plan, boards, job, shop, facts).draw(notes);
}

}  // namespace flitch::pages
