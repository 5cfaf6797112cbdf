#include "ui/desktop/plan_facts.h"

#include <QPainter>
#include <algorithm>
#include <numeric>

#include "inventory/wood/air.h"
#include "inventory/wood/weight.h"
#include "ui/desktop/rack_model.h"

namespace flitch::desktop {

PlanFacts::PlanFacts(const Look& look, Unit unit, const std::string& sign, QWidget* parent)
    : QWidget(parent), look_(look), unit_(unit), sign_(sign) {
  setAccessibleName("The plan in figures");
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
}

void PlanFacts::setSheet(const PlanSheet* sheet) {
  sheet_ = sheet;
  update();
}

void PlanFacts::setYear(JobYear year) {
  year_ = std::move(year);
  update();
}

int PlanFacts::paintTable(QPainter& painter, int y, const QString& title,
                          const std::vector<int>& widths, const std::vector<Row>& rows) const {
  const Colours& c = look_.colours();
  const int left = 24, all = std::accumulate(widths.begin(), widths.end(), 0);
  drawText(painter, left, y + 18, title, 17, true, c.ink);
  y += 30;
  for (std::size_t r = 0; r < rows.size(); ++r) {
    int x = left;
    const bool head = r == 0;
    for (std::size_t i = 0; i < widths.size(); ++i) {
      const bool bold = rows[r].bold || (!head && i == 1);
      const int pixels = head ? 12 : 13;
      const QString shown = elided(rows[r].cells[i], pixels, bold, widths[i] - 12);
      drawText(painter, i == 0 ? x + 8 : x + widths[i] - 8, y + 19, shown, pixels, bold,
               head ? c.soft : c.ink, i == 0 ? Qt::AlignLeft : Qt::AlignRight);
      x += widths[i];
    }
    y += 29;
    const bool ink = head || (r + 2 == rows.size() && rows.back().bold);
    drawRule(painter, left, y - 1, left + all, y - 1, ink ? c.ink : c.rule);
  }
  return y + 30;
}

void PlanFacts::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.sheet);
  drawRule(painter, 0, 0, 0, height(), c.edge);
  if (sheet_ == nullptr) return;
  const CutPlan& plan = sheet_->plan;
  const int w = width() - 48;
  const auto money = [&](Money m) { return q(text(m, "")); };
  int y = 22;
  std::vector<Row> costs{{{"", "this plan", "differs"}, false}};
  costs.push_back({{"This plan", money(plan.total()), ""}, false});
  for (const auto& [name, cost] : {std::pair(QString("A careful hand"), plan.carefulHand),
                                   std::pair(QString("The hand rule"), plan.handRule)}) {
    const std::optional<Money> saved = plan.savedOn(cost);
    costs.push_back({{name, saved ? money(cost) : QString("other parts short"),
                      saved ? money(*saved) : QString()},
                     false});
  }
  costs.front().cells = {"", "cost", "more"};
  y = paintTable(painter, y, "Against the hand", {w - 220, 110, 110}, costs);

  std::vector<Row> parts{{{"", "cost", ""}, false}};
  parts.push_back({{"Boards opened", money(plan.woodCost + plan.offcutWorth), ""}, false});
  parts.push_back({{"Worth of offcuts kept", money(-plan.offcutWorth), ""}, false});
  parts.push_back({{"Pulling, cutting, gluing", money(plan.cutCost), ""}, false});
  if (plan.shortageCost > Money{}) {
    parts.push_back({{"Parts short, as if bought dear", money(plan.shortageCost), ""}, false});
  }
  parts.push_back({{"Sum", money(plan.total()), ""}, true});
  y = paintTable(painter, y, "What it costs", {w - 110, 110, 0}, parts);

  std::array<Feet, causeCount> feet{};
  std::array<Money, causeCount> cost{};
  std::int64_t whole = 0;
  for (const OpenedBoard& b : sheet_->boards) {
    for (std::size_t i = 0; i < causeCount; ++i) {
      feet[i] += b.account.feet[i];
      cost[i] += b.account.cost[i];
      whole += b.account.feet[i].thousandths;
    }
  }
  std::vector<Row> causes{{{"", "board feet", "share", "cost"}, false}};
  for (std::size_t i = 0; i < causeCount; ++i) {
    QString name = q(std::string(word(static_cast<Cause>(i))));
    name[0] = name[0].toUpper();
    const QString share =
        whole > 0 ? QString("%1 %").arg(100.0 * static_cast<double>(feet[i].thousandths) /
                                            static_cast<double>(whole),
                                        0, 'f', 1)
                  : QString();
    causes.push_back({{name, q(text(feet[i])), share, money(cost[i])}, false});
  }
  y = paintTable(painter, y, "Where the wood goes", {w - 300, 100, 90, 110}, causes);

  const std::string dry = percentText(year_.season.driest);
  std::vector<Row> moves{{{q(dry + " to " + percentText(year_.season.wettest)) + ", made at " +
                               q(percentText(year_.season.made)),
                           "summer", "winter", "gap"},
                          false}};
  for (const PartMovement& m : year_.moves) {
    const auto part = std::find_if(sheet_->job.parts.begin(), sheet_->job.parts.end(),
                                   [&](const Part& one) { return one.line == m.line; });
    if (part == sheet_->job.parts.end()) continue;
    const auto signedText = [&](Length change) {
      const Length step =
          unit_ == Unit::inches ? Length::sixtyFourths(2) : Length::micrometres(500);
      const Length size = stepsUp(std::max(change, -change), step) * step;
      return QString(change < Length() ? "−" : "+") + shortText(size, unit_);
    };
    moves.push_back({{q(partLetter(m.line) + "  " + part->name + ", " + m.species),
                      signedText(m.toWettest.change), signedText(m.toDriest.change),
                      shortText(m.room.grows, unit_)},
                     false});
  }
  moves.push_back(
      {{"Finished piece, about " + q(weightText(year_.kilograms, unit_)), "", "", ""}, false});
  y = paintTable(painter, y, "What the year does to wide parts", {w - 240, 80, 80, 80}, moves);

  std::vector<Row> offcuts{{{"", "size", "worth"}, false}};
  for (const OpenedBoard& b : sheet_->boards) {
    for (const Share& share : b.account.shares) {
      if (share.cause != Cause::offcuts || share.piece < 0) continue;
      const Piece& piece = b.cutting.pieces[static_cast<std::size_t>(share.piece)];
      offcuts.push_back({{tagText(b.board) + ", " + q(b.board.species),
                          shortText(piece.at.dx, unit_) + " × " + shortText(piece.at.dy, unit_),
                          money(share.cost)},
                         false});
    }
  }
  if (offcuts.size() > 1) paintTable(painter, y, "Offcuts kept", {w - 260, 150, 110}, offcuts);
}

}  // namespace flitch::desktop
