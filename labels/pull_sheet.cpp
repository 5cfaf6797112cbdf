#include <algorithm>

#include "inventory/records/board_weight.h"
#include "labels/bench_sheets.h"
#include "labels/page.h"
#include "labels/sheet.h"
#include "labels/symbol.h"

namespace flitch::pages {
namespace {

constexpr double mmPerInch = 25.4;
constexpr double lineHeight = 14.2;
constexpr double boxLeft = 24, tagLeft = 36, sizeLeft = 76, weightRight = 146;

bool unseen(const Board& board) {
  return board.looked[0] == Looked::no || board.looked[1] == Looked::no;
}

class PullSheets {
 public:
  PullSheets(const PullList& list, const BenchFacts& facts) : list_(list), facts_(facts) {}

  std::vector<Page> draw() {
    std::size_t next = 0;
    do {
      sheets_.emplace_back(false, false);
      Sheet& sheet = sheets_.back();
      y_ = Sheet::margin + 23;
      if (sheets_.size() == 1) heading(sheet);
      const std::string* bay = nullptr;
      while (next < list_.lines.size() && y_ + lineHeight < sheet.foot() - notesHeight) {
        const PullLine& line = list_.lines[next];
        const bool begins = bay == nullptr || *bay != line.board.bay;
        if (begins) beginBay(sheet, line.board.bay, bay == nullptr);
        bay = &line.board.bay;
        draw(sheet, line, !begins);
        ++next;
      }
      sheet.line(sheet.left(), sheet.right(), y_, 0.35);
      notes(sheet);
    } while (next < list_.lines.size());
    return finished();
  }

 private:
  static constexpr double notesHeight = 16;

  void heading(Sheet& sheet) {
    const double top = Sheet::margin;
    const double end = sheet.write(sheet.left(), top + 11, "Pull list", 26, true);
    const double room = sheet.right() - end - 8;
    sheet.writeRight(sheet.right(), top + 6, asText(list_.job), 15, true, room);
    sheet.writeRight(sheet.right(), top + 12.2, counted() + ", " + asText(text(list_.feet)) + " bf",
                     13, false, room);
    sheet.rule(top + 16.5);
  }

  [[nodiscard]] QString counted() const {
    return QString::number(list_.lines.size()) + (list_.lines.size() == 1 ? " board" : " boards");
  }

  void beginBay(Sheet& sheet, const std::string& bay, bool first) const {
    if (!first) sheet.line(sheet.left(), sheet.right(), y_, 0.35);
    const QString name = bay.empty() ? QString("no bay") : asText(bay);
    const double room = boxLeft + Sheet::margin - sheet.left() - 13;
    sheet.write(sheet.left(), y_ + 9.4, name,
                fittingPoints(name, bay.empty() ? 11 : 22, true, room), !bay.empty(), room);
  }

  void draw(Sheet& sheet, const PullLine& line, bool parted) {
    const double x = sheet.left();
    const Board& board = line.board;
    if (parted) sheet.line(x + boxLeft - 6, sheet.right(), y_, 0.2, Tone::edge);
    tickBox(sheet, x + boxLeft - 6, line.here);
    if (board.tag) {
      const std::string symbol = symbolText(*board.tag);
      const double module = 3 * mmPerInch / 300;
      const double wide = (code128(symbol).columns + 2 * quietCode128) * module;
      sheet.write(x + tagLeft - 6, y_ + 6, asText(text(*board.tag)), 15, true, sizeLeft - tagLeft);
      sheet.page.ink.emplace_back(
          Symbol{Symbol::Kind::code128, symbol,
                 QRectF(sheet.right() + quietCode128 * module - wide, y_ + 2.4, wide, 9.4)});
    }
    sheet.write(x + tagLeft - 6, y_ + 11.4, asText(board.species + " " + text(board.nominal)), 11,
                false, sizeLeft - tagLeft);
    const double sizeRoom = weightRight - sizeLeft - 24;
    sheet.write(x + sizeLeft - 6, y_ + 6, asText(sizeText(board, facts_.unit)), 13, false,
                sizeRoom);
    sheet.writeRight(x + weightRight - 6, y_ + 6, asText(weightText(line.kilograms, facts_.unit)),
                     13, line.lifting != Lifting::alone);
    const double said = sheet.write(x + sizeLeft - 6, y_ + 11.4, remark(line), 11,
                                    !line.trouble.empty(), line.trouble.empty() ? 44 : 68);
    if (line.lifting != Lifting::alone && line.trouble.empty())
      sheet.writeRight(x + weightRight - 6, y_ + 11.4,
                       "! " + asText(std::string(advice(line.lifting))), 11, true,
                       x + weightRight - 6 - said - 2);
    y_ += lineHeight;
  }

  [[nodiscard]] static QString remark(const PullLine& line) {
    if (!line.trouble.empty()) return "! " + asText(line.trouble);
    return asText(text(line.board.measuredFeet)) + " bf" +
           (unseen(line.board) ? "   look first" : "");
  }

  void tickBox(Sheet& sheet, double x, bool ticked) const {
    const QRectF box(x, y_ + 3, 7.6, 7.6);
    sheet.box(box, 0.5);
    if (ticked)
      sheet.page.ink.emplace_back(
          Line{{box.topLeft() + QPointF(1.4, 4), box.topLeft() + QPointF(3.2, 6),
                box.topLeft() + QPointF(6.4, 1.4)},
               0.9,
               Dash::solid,
               Tone::ink});
  }

  void notes(Sheet& sheet) const {
    sheet.write(
        sheet.left(), y_ + 6.4,
        "Tick each board, or scan it: a wrong one is refused and the right one's bay named.", 11,
        false, sheet.right() - sheet.left());
    sheet.write(sheet.left(), y_ + 11.8, asText(std::string(liftingRules)), 10, false,
                sheet.right() - sheet.left());
  }

  std::vector<Page> finished() {
    std::vector<Page> pages;
    const QString job = asText(list_.job + (facts_.customer.empty() ? "" : ", " + facts_.customer));
    for (std::size_t n = 0; n < sheets_.size(); ++n) {
      if (n > 0) heading(sheets_[n]);
      sheets_[n].titleBlock(
          {{"Job", job, 0.36},
           {"Weight in all", "about " + asText(weightText(list_.kilograms, facts_.unit)), 0.24},
           {"Sheet", QString::number(n + 1) + " of " + QString::number(sheets_.size()), 0.16},
           {"Planned", asText(facts_.planned), 0.24}});
      pages.push_back(std::move(sheets_[n].page));
    }
    return pages;
  }

  const PullList& list_;
  const BenchFacts& facts_;
  std::vector<Sheet> sheets_;
  double y_ = 0;
};

}  // namespace

std::vector<Page> pullSheets(const PullList& list, const BenchFacts& facts) {
  return PullSheets(list, facts).draw();
}

}  // namespace flitch::pages
