#include "inventory/exchange/cells.h"
#include "inventory/records/zones.h"
#include "inventory/wood/writing.h"

namespace flitch::exchange {
namespace {

constexpr std::array<std::string_view, 5> faceWords{"A", "B", "through", "near", "far"};

/// A mark may reach over the board's end or edge, but not past the largest board.
Length placeOf(const Cell& cell, Length most) {
  const Length place = cell.length();
  if (place > most) {
    const bool metric = cell.rules.unit == Unit::millimetres;
    throw cell.unreadable(" is " +
                              (metric ? flitch::text(place, LengthStyle::millimetres) + " mm"
                                      : flitch::text(place, LengthStyle::feetInches)) +
                              ", past the largest board taken (60 ft by 5 ft)",
                          metric ? "300, 300 mm" : "a figure in inches: 12, 17 1/2, 10' 6\"");
  }
  return place;
}

std::optional<Length> placeOrEnd(const Cell& cell, Length most) {
  if (plain(cell.text) == "end") return std::nullopt;
  return placeOf(cell, most);
}

struct MarkRow {
  int line = 0;
  MarkLine mark;
  PlaceOnB& onB() { return mark.onB ? *mark.onB : mark.onB.emplace(); }
};

constexpr auto markFields = std::to_array<Field<MarkRow>>({
    {{"tag", "", false, "the board's tag, with its check character"},
     Measure::none,
     [](const Cell& c, MarkRow& r) { r.mark.tag = flitch::text(c.tag()); }},
    {{"line", "", false, "in place of the tag: 1, 2, ... for the boards of the newest tally"},
     Measure::none,
     [](const Cell& c, MarkRow& r) {
       r.mark.tallyLine = c.number(1, static_cast<int>(maxCsvRows) + 1);
     }},
    {{"kind", "", true,
      "sound knot, unsound knot, check, split, wane, ...; or good, show, plain, rift, quarter"},
     Measure::none,
     [](const Cell& c, MarkRow& r) { r.mark.kind = c.oneOf(c.rules.defectKinds, "kind of mark"); }},
    {{"face", "", false, "A, B, through, near or far; through if empty"},
     Measure::none,
     [](const Cell& c, MarkRow& r) {
       r.mark.face = static_cast<DefectFace>(wordOf(c, faceWords));
     }},
    {{"x_from", "in", true, "from the tag end, in inches (mm in a metric book)"},
     Measure::inchLength,
     [](const Cell& c, MarkRow& r) { r.mark.xFrom = placeOf(c, maxBoardLength); }},
    {{"x_to", "in", true, "as x_from, or end"},
     Measure::inchLength,
     [](const Cell& c, MarkRow& r) { r.mark.xTo = placeOrEnd(c, maxBoardLength); }},
    {{"y_from", "in", false,
      "from the straight line along the near edge (a hollow edge lies above it); if empty all, of "
      "near and far marks 1/2 in at that edge"},
     Measure::inchLength,
     [](const Cell& c, MarkRow& r) { r.mark.yFrom = placeOf(c, maxBoardWidth); }},
    {{"y_to", "in", false, "as y_from, or end: all of the wood to the far edge"},
     Measure::inchLength,
     [](const Cell& c, MarkRow& r) { r.mark.yTo = placeOrEnd(c, maxBoardWidth); }},
    {{"depth", "in", false,
      "how deep a mark on face A or B goes: no deeper than planing takes off, it does not count"},
     Measure::inchLength,
     [](const Cell& c, MarkRow& r) { r.mark.depth = placeOf(c, maxBoardThickness); }},
    {{"b_x_from", "in", false,
      "of a mark that goes through aslant: where it comes out on face B; as on A if empty"},
     Measure::inchLength,
     [](const Cell& c, MarkRow& r) { r.onB().xFrom = placeOf(c, maxBoardLength); }},
    {{"b_x_to", "in", false, "as b_x_from; as long as on A if empty"},
     Measure::inchLength,
     [](const Cell& c, MarkRow& r) { r.onB().xTo = placeOf(c, maxBoardLength); }},
    {{"b_y_from", "in", false, "as b_x_from, from the near edge"},
     Measure::inchLength,
     [](const Cell& c, MarkRow& r) { r.onB().yFrom = placeOf(c, maxBoardWidth); }},
    {{"b_y_to", "in", false, "as b_y_from; as wide as on A if empty"},
     Measure::inchLength,
     [](const Cell& c, MarkRow& r) { r.onB().yTo = placeOf(c, maxBoardWidth); }},
});

void checkMark(const MarkRow& row, Complaints& complaints) {
  const MarkLine& mark = row.mark;
  if (mark.tag.empty() == (mark.tallyLine == 0)) {
    complaints.add(row.line, "tag",
                   mark.tag.empty() ? "the row names no board" : "the row names a tag and a line",
                   "", "a tag, or a line of the tally");
  }
  if (mark.xTo && *mark.xTo <= mark.xFrom) {
    complaints.add(row.line, "x_to", exactText(*mark.xTo) + " is not farther than x_from", "",
                   "a place farther from the tag end, or end");
  }
  if (mark.yTo && *mark.yTo <= mark.yFrom.value_or(Length())) {
    complaints.add(row.line, "y_to", exactText(*mark.yTo) + " is not farther than y_from", "",
                   "a place farther from the near edge");
  }
  if (isZone(mark.kind) && (mark.depth || mark.onB)) {
    complaints.add(row.line, mark.depth ? "depth" : "b_x_from",
                   "only a defect has a depth or another place on face B", mark.kind,
                   "the zone on each face, a row each");
    return;
  }
  const bool oneFace = mark.face == DefectFace::a || mark.face == DefectFace::b;
  if (mark.depth && (!oneFace || *mark.depth == Length())) {
    complaints.add(row.line, "depth",
                   oneFace ? "a mark without any depth is no mark"
                           : "only a mark on face A or face B has a depth",
                   exactText(*mark.depth), oneFace ? "more than 0, or nothing" : "face A or B");
  }
  if (mark.onB && mark.face != DefectFace::through) {
    complaints.add(row.line, "b_x_from", "only a mark that goes through comes out on face B", "",
                   "face through, or nothing");
  }
}

/// A word or a letter before a quick mark; without one the wood there is bad: an unsound knot.
std::string quickKind(std::string_view word, const ReadingRules& rules) {
  if (word.empty()) return "unsound knot";
  if (word.size() == 1) {
    for (const DefectKind& kind : startingDefectKinds()) {
      const char lower = static_cast<char>(
          kind.letter >= 'A' && kind.letter <= 'Z' ? kind.letter - 'A' + 'a' : kind.letter);
      if (lower == word.front()) return kind.name;
    }
  }
  return Cell{word, rules, Measure::none, {}}.oneOf(rules.defectKinds, "kind of mark");
}

}  // namespace

std::span<const ImportColumn> markColumns() {
  static const auto columns = columnsOf(markFields);
  return columns;
}

Taken<MarkLine> readMarks(const CsvFile& file, const ReadingRules& rules) {
  Taken<MarkLine> taken;
  Complaints complaints(file);
  for (MarkRow& row : readRows(file, markFields, rules, complaints, taken.warnings)) {
    checkMark(row, complaints);
    row.mark.line = row.line;
    taken.rows.push_back(std::move(row.mark));
  }
  complaints.refuse("bad-cell");
  return taken;
}

std::vector<MarkLine> readQuickMarks(std::string_view text, const ReadingRules& rules) {
  std::vector<MarkLine> marks;
  for (const std::string_view part : parted(text, ",;")) {
    const std::string written = plain(part);
    // The kind ends where the first figure begins.
    const std::size_t figure = written.find_first_of("0123456789.-");
    const std::string_view all = written;
    const std::string_view word =
        trimmed(all.substr(0, figure == std::string::npos ? all.size() : figure));
    const LengthSpan span = readSpan(all.substr(figure == std::string::npos ? all.size() : figure),
                                     smallBare(rules.unit));
    MarkLine mark;
    mark.kind = quickKind(word, rules);
    mark.xFrom = span.from;
    mark.xTo = span.to;
    const Length farthest = span.to.value_or(span.from);
    if (farthest > maxBoardLength) {
      throw Unreadable(inBackticks(part) + " reaches past 60 ft, the longest board taken",
                       shortened(part), "12-17, 60-end, good 14-78, K 12-17");
    }
    marks.push_back(mark);
  }
  if (marks.empty()) {
    throw Unreadable(inBackticks(text) + " names no mark", shortened(text),
                     "12-17, 60-end, good 14-78, K 12-17");
  }
  return marks;
}

}  // namespace flitch::exchange
