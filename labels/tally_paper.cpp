#include "labels/tally_paper.h"

#include <algorithm>
#include <array>

#include "labels/sheet.h"

namespace flitch::pages {
namespace {

constexpr double firstLine = 50.2, lineHeight = 9.35;
constexpr double headRule = 40.4;

QString q(const std::string& text) { return QString::fromStdString(text); }

/// A column of the tally; its cell begins at `x`, mm from the sheet's left.
struct Column {
  const char *inches, *millimetres;
  double x;
};
constexpr std::array<Column, 9> columns{{{"tag", "tag", 12},
                                         {"species", "species", 41},
                                         {"qtr", "thick", 64},
                                         {"length", "length", 76},
                                         {"width", "width", 97},
                                         {"far width", "far width", 116},
                                         {"grade", "grade", 134},
                                         {"looked", "looked", 147},
                                         {"marks", "marks", 163}}};
constexpr double boxesAt = 149;

class TallySheets {
 public:
  TallySheets(const std::vector<TagCode>& tags, Unit unit) : tags_(tags), unit_(unit) {}

  [[nodiscard]] Page sheet(std::size_t number, std::size_t of) const {
    const std::size_t from = number * tallySheetLines;
    const std::size_t to = std::min(tags_.size(), from + tallySheetLines);
    Sheet sheet(false, false);
    heading(sheet);
    head(sheet);
    double y = firstLine;
    for (std::size_t i = from; i < to; ++i) {
      line(sheet, y, q(text(tags_[i])));
      y += lineHeight;
      // Every fifth line heavier, so that the eye keeps its line.
      const bool heavy = (i + 1 - from) % 5 == 0 || i + 1 == to;
      sheet.line(sheet.left(), sheet.right(), y, heavy ? 0.4 : 0.25,
                 heavy ? Tone::ink : Tone::edge);
    }
    for (std::size_t c = 1; c < columns.size(); ++c)
      sheet.page.ink.emplace_back(
          Line{{{columns[c].x, firstLine}, {columns[c].x, y}}, 0.2, Dash::solid, Tone::edge});
    foot(sheet, y);
    sheet.titleBlock({{"Tags", q(text(tags_[from])) + " to " + q(text(tags_[to - 1])), 0.36},
                      {"Sheet", QString("%1 of %2").arg(number + 1).arg(of), 0.16},
                      {"Lengths", inches() ? "feet-inches" : "mm", 0.22},
                      {"Widths", inches() ? "inches" : "mm", 0.26}});
    return std::move(sheet.page);
  }

 private:
  [[nodiscard]] bool inches() const { return unit_ == Unit::inches; }

  static void heading(Sheet& sheet) {
    sheet.write(sheet.left(), 22, "Tally sheet", 28, true);
    sheet.writeRight(sheet.right(), 16.6, "Delivery", 15, true);
    sheet.writeRight(sheet.right(), 23, "tag first, sizes after", 13);
    sheet.rule(27);
  }

  void head(Sheet& sheet) const {
    struct Blank {
      const char* what;
      double from, to;
    };
    for (const Blank& blank :
         {Blank{"supplier", 12, 75}, Blank{"their paper", 78, 115}, Blank{"date", 118, 149},
          Blank{"freight", 152, 175}, Blank{"bay", 178, 198}}) {
      sheet.write(blank.from + 1, 32, blank.what, 9, false, 0, Tone::soft);
      sheet.line(blank.from, blank.to, headRule, 0.3);
    }
    for (const Column& column : columns)
      sheet.write(column.x + 1.2, firstLine - 1.6, inches() ? column.inches : column.millimetres,
                  10, false, 0, Tone::soft);
    sheet.line(sheet.left(), sheet.right(), firstLine, 0.5);
  }

  static void line(Sheet& sheet, double top, const QString& tag) {
    const double room = columns[1].x - columns[0].x - 1;
    sheet.write(columns[0].x + 0.5, top + 6.7, tag, fittingPoints(tag, 15, true, room), true);
    double x = boxesAt;
    for (const char* face : {"A", "B"}) {
      sheet.box(QRectF(x, top + 2.6, 4.6, 4.6), 0.35);
      sheet.page.ink.emplace_back(
          Text{{x + 2.3, top + 6}, face, 8, false, Qt::AlignHCenter, Tone::soft});
      x += 7;
    }
  }

  void foot(Sheet& sheet, double y) const {
    const double room = sheet.right() - sheet.left();
    sheet.write(sheet.left(), y + 6,
                inches() ? "Leave empty what is the same as above. Length 10-6 is 10 ft 6 in; 8 is "
                           "8 ft. Width 7 3/8."
                         : "Leave empty what is the same as above. All lengths and widths in "
                           "millimetres.",
                11, false, room);
    sheet.write(sheet.left(), y + 11.6,
                inches()
                    ? "Tick A or B if that face was looked at. Marks: 12-17, 60-end, good 14-78, "
                      "in inches from the tag."
                    : "Tick A or B if that face was looked at. Marks: 300-430, 1500-end, good "
                      "350-2000, from the tag.",
                11, false, room);
    sheet.write(sheet.left(), y + 17.2,
                "A number written without its last character is shown with its board before it "
                "is taken.",
                11, false, room);
  }

  const std::vector<TagCode>& tags_;
  Unit unit_;
};

}  // namespace

std::vector<Page> tallyPaper(const std::vector<TagCode>& tags, Unit unit) {
  const TallySheets sheets(tags, unit);
  const std::size_t count = (tags.size() + tallySheetLines - 1) / tallySheetLines;
  std::vector<Page> pages;
  for (std::size_t number = 0; number < count; ++number)
    pages.push_back(sheets.sheet(number, count));
  return pages;
}

}  // namespace flitch::pages
