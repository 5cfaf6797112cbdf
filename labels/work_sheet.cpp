#include <algorithm>

#include "labels/bench_sheets.h"
#include "labels/page.h"
#include "labels/sheet.h"

namespace flitch::pages {
namespace {

constexpr double chalkAt = 93;  ///< where chalk marks begin, mm from the left
constexpr double rowHeight = 7.4, headHeight = 13;

/// Lays stations one under another and begins a sheet when one is full.
class WorkSheets {
 public:
  WorkSheets(const WorkLists& lists, const BenchFacts& facts)
      : lists_(lists),
        facts_(facts),
        style_(facts.unit == Unit::inches ? LengthStyle::inches : LengthStyle::millimetres) {}

  std::vector<Page> draw() {
    begin();
    rough();
    settings("Face and plane, by finished thickness", "the flat face first", lists_.thicknesses);
    settings("Rips, by fence setting", "a straight edge runs against the fence; widest first",
             lists_.fences);
    settings("Rough lengths from strips, by stop", "", lists_.strips);
    settings("Final lengths, by stop", "chalk the hand mark again after planing", lists_.stops);
    cautionBox();
    otherwise();
    return finished();
  }

 private:
  [[nodiscard]] Sheet& sheet() { return sheets_.back(); }

  void begin() {
    sheets_.emplace_back(false, false);
    const double top = Sheet::margin;
    const double end = sheet().write(sheet().left(), top + 11, "Work list", 26, true);
    const double room = sheet().right() - end - 8;
    sheet().writeRight(sheet().right(), top + 6, asText(lists_.job), 15, true, room);
    sheet().writeRight(sheet().right(), top + 12.2,
                       QString::number(lists_.boards) + (lists_.boards == 1 ? " board" : " boards"),
                       13, false, room);
    sheet().rule(top + 16.5);
    y_ = top + 19;
  }

  [[nodiscard]] bool fits(double high) { return y_ + high <= sheet().foot() - 2; }

  void head(const QString& title, const QString& hint) {
    ++number_;
    title_ = title;
    hint_ = hint;
    if (!fits(headHeight + rowHeight)) begin();
    drawHead(title);
  }

  /// The station at hand again, on a new sheet.
  void head() {
    begin();
    drawHead(title_ + ", continued");
  }

  void drawHead(const QString& title) {
    const double x = sheet().left();
    y_ += headHeight;
    sheet().page.ink.emplace_back(Ellipse{QRectF(x, y_ - 9, 6.4, 6.4), 0, Tone::ink, true});
    sheet().page.ink.emplace_back(Text{
        {x + 3.2, y_ - 4.2}, QString::number(number_), 12, true, Qt::AlignHCenter, Tone::sheet});
    const double end = sheet().write(x + 10, y_ - 4.2, title, 14, true);
    sheet().writeRight(sheet().right(), y_ - 4.2, hint_, 10, false, sheet().right() - end - 4,
                       Tone::soft);
    sheet().line(x, sheet().right(), y_ - 1.4, 0.5);
  }

  void tickBox() { sheet().box(QRectF(sheet().left(), y_ + 1.2, 4.8, 4.8), 0.4); }

  void endRow(double high) {
    sheet().line(sheet().left(), sheet().right(), y_ + high - 0.4, 0.2, Tone::edge);
    y_ += high;
  }

  void rough() {
    head("Rough crosscuts, board by board", "chalk from the fresh end, tagged end last");
    for (const RoughCuts& board : lists_.rough) {
      const double x = sheet().left();
      const QString chalk = chalkOf(board);
      const double room = sheet().right() - x - chalkAt - 30;
      const std::vector<QString> lines = wrapped(chalk, 13, true, room);
      const double high = std::max(rowHeight, static_cast<double>(lines.size()) * 6.2 + 1.2);
      if (!fits(high)) head();
      tickBox();
      const double base = y_ + 5.6;
      sheet().write(sheet().left() + 7, base, asText(board.bay), 11, false, 9);
      sheet().write(x + 17, base, asText(board.tag), 13, true, 23);
      // Neither wood nor measure is ever cut short: they are set smaller.
      const QString wood = asText(board.wood);
      sheet().write(x + 41, base, wood, fittingPoints(wood, 10, false, 27), false);
      if (board.off > Length()) {
        const QString off = "off " + asText(text(board.off, style_));
        sheet().writeRight(x + chalkAt - 3, base, off, fittingPoints(off, 12, false, 21), false);
      }
      double line = base;
      for (const QString& words : lines) {
        sheet().write(x + chalkAt, line, words, 13, true);
        line += 6.2;
      }
      sheet().writeRight(sheet().right(), base, asText(board.rest), 11, false, 29);
      endRow(high);
    }
  }

  [[nodiscard]] QString chalkOf(const RoughCuts& board) const {
    if (board.ripped) return "rip first";
    QStringList marks;
    // A mark's fraction stays with its inches when the line is broken.
    for (const ChalkMark& mark : board.chalk)
      marks << asText(text(mark.at, style_) + (mark.falls.empty() ? "" : " " + mark.falls))
                   .replace(' ', QChar::Nbsp);
    const QString gap(2, QChar::Nbsp);
    return marks.join(gap + ' ');
  }

  void settings(const QString& title, const QString& hint,
                const std::vector<MachineSetting>& settings) {
    if (settings.empty()) return;
    head(title, hint);
    for (const MachineSetting& setting : settings) {
      const double room = sheet().right() - sheet().left() - 40;
      const std::vector<QString> lines = wrapped(asText(setting.pieces), 12, false, room);
      const double high = std::max(rowHeight, static_cast<double>(lines.size()) * 5.6 + 1.8);
      if (!fits(high)) head();
      tickBox();
      sheet().writeRight(sheet().left() + 36, y_ + 5.8, asText(text(setting.measure, style_)), 15,
                         true);
      double base = y_ + 5.6;
      for (const QString& line : lines) {
        sheet().write(sheet().left() + 40, base, line, 12, false, room);
        base += 5.6;
      }
      endRow(high);
    }
  }

  void cautionBox() {
    std::vector<QString> lines;
    for (const std::string& caution : lists_.cautions)
      for (const QString& line :
           wrapped(asText(caution), 11, false, sheet().right() - sheet().left() - 17))
        lines.push_back(line);
    std::size_t next = 0;
    y_ += 4;
    while (next < lines.size()) {
      if (!fits(5.6 * static_cast<double>(std::min<std::size_t>(3, lines.size() - next)) + 4))
        begin();
      const double room = sheet().foot() - 4 - y_ - 4;
      const std::size_t taken = std::min(lines.size() - next, static_cast<std::size_t>(room / 5.6));
      const double high = static_cast<double>(taken) * 5.6 + 4;
      const QRectF box(sheet().left(), y_, sheet().right() - sheet().left(), high);
      sheet().filled(QRectF(box.left(), y_, 9, high), Tone::ink);
      sheet().page.ink.emplace_back(Text{
          {box.left() + 4.5, box.center().y() + 3}, "!", 20, true, Qt::AlignHCenter, Tone::sheet});
      sheet().box(box, 0.5);
      double base = y_ + 6;
      for (std::size_t n = 0; n < taken; ++n, base += 5.6)
        sheet().write(box.left() + 13, base, lines[next + n], 11);
      next += taken;
      y_ += high;
    }
  }

  /// Room for the pencil where some is left.
  void otherwise() {
    constexpr double lineGap = 9;
    y_ += 4;
    const double high = std::min(sheet().foot() - 3 - y_, 6 * lineGap);
    if (high < 3 * lineGap) return;
    const double x = sheet().left();
    sheet().box(QRectF(x, y_, sheet().right() - x, high), 0.4);
    const double end = sheet().write(x + 3, y_ + 5.6, "Only what went otherwise", 12, true);
    sheet().writeRight(sheet().right() - 3, y_ + 5.6, "B3 lost · knot 40-44 · keep 14", 10, false,
                       sheet().right() - end - 8, Tone::soft);
    for (double y = y_ + 6 + lineGap; y < y_ + high - 2; y += lineGap)
      sheet().line(x + 3, sheet().right() - 3, y, 0.2, Tone::edge);
  }

  std::vector<Page> finished() {
    std::vector<Page> pages;
    const QString job =
        asText(lists_.job + (facts_.customer.empty() ? "" : ", " + facts_.customer));
    for (std::size_t n = 0; n < sheets_.size(); ++n) {
      sheets_[n].titleBlock(
          {{"Job", job, 0.4},
           {"Unit", facts_.unit == Unit::inches ? "inches" : "millimetres", 0.2},
           {"Sheet", QString::number(n + 1) + " of " + QString::number(sheets_.size()), 0.16},
           {"Planned", asText(facts_.planned), 0.24}});
      pages.push_back(std::move(sheets_[n].page));
    }
    return pages;
  }

  const WorkLists& lists_;
  const BenchFacts& facts_;
  LengthStyle style_;
  std::vector<Sheet> sheets_;
  double y_ = 0;
  int number_ = 0;
  QString title_, hint_;
};

}  // namespace

std::vector<Page> workSheets(const WorkLists& lists, const BenchFacts& facts) {
  return WorkSheets(lists, facts).draw();
}

}  // namespace flitch::pages
