#include "inventory/desk/reshape.h"

#include <algorithm>

#include "inventory/desk/names.h"
#include "inventory/store/writer.h"
#include "inventory/wood/measure.h"

namespace flitch::desk {

namespace {

std::string figureOrNone(Length length, Unit unit) {
  return length > Length() ? figure(length, unit) : std::string();
}

/// One or two figures for a straight near edge, else every point.
std::string outlineText(const Outline& outline, Unit unit) {
  const auto points = outline.points();
  if (points.size() == 2 && points[0].near == Length() && points[1].near == Length()) {
    const std::string tag = figure(points[0].far, unit), far = figure(points[1].far, unit);
    return tag == far ? tag : tag + " - " + far;
  }
  std::string all;
  for (const OutlinePoint& point : points) {
    const std::string x = point.x == outline.length() ? "end" : figure(point.x, unit);
    all += (all.empty() ? "" : "; ") + x + ":" + figure(point.near, unit) + "-" +
           figure(point.far, unit);
  }
  return all;
}

/// A row of a tally that says no more than the shape.
class ShapeRow {
 public:
  ShapeRow(const Board& board, Unit unit) {
    file_.name = "shape";
    file_.rows.emplace_back().line = 1;
    add("species", board.species);
    add(board.nominal.unit() == Unit::inches ? "quarters" : "nominal_mm", text(board.nominal));
    // In the exact unit, so that the length stays what it is.
    add("length", text(board.length(),
                       unit == Unit::inches ? LengthStyle::inches : LengthStyle::millimetres) +
                      (unit == Unit::inches ? " in" : " mm"));
  }
  void add(const std::string& column, const std::string& cell) {
    file_.head.push_back({column, 0});
    file_.rows.front().cells.push_back({cell, 1});
  }
  void addOutline(const std::string& column, const std::string& typed) {
    if (typed.find(':') != std::string::npos || typed.empty()) {
      add(column, typed);
      return;
    }
    const std::size_t dash = typed.find(" - ");
    const std::string tag = typed.substr(0, dash);
    const std::string far = dash == std::string::npos ? tag : typed.substr(dash + 3);
    add(column, "0:0-" + tag + "; end:0-" + far);
  }
  [[nodiscard]] TallyLine read(const exchange::ReadingRules& rules) const {
    return exchange::readTally(file_, rules).rows.at(0);
  }

 private:
  exchange::CsvFile file_;
};

bool bentNearEdge(const Outline& outline) {
  const auto points = outline.points();
  return std::any_of(points.begin(), points.end(),
                     [&](const OutlinePoint& p) { return p.near != points.front().near; });
}

}  // namespace

ShapeTyped shapeOf(const Board& board, Unit unit) {
  ShapeTyped typed;
  if (board.measured) typed.thickness = figure(board.thickness, unit);
  typed.outlineA = outlineText(board.outline[0], unit);
  if (board.outline[1] != board.outline[0]) typed.outlineB = outlineText(board.outline[1], unit);
  typed.bow = figureOrNone(board.warp.bow, unit);
  if (board.warp.bentAt) typed.bentAt = figure(*board.warp.bentAt, unit);
  typed.crook = figureOrNone(board.warp.crook, unit);
  typed.cup = figureOrNone(board.warp.cup, unit);
  typed.twist = figureOrNone(board.warp.twist, unit);
  if (board.grain) typed.grain = text(*board.grain);
  typed.hollow = board.warp.hollow;
  return typed;
}

Board reshaped(const Board& board, const ShapeTyped& typed, const exchange::ReadingRules& rules) {
  ShapeRow row(board, rules.unit);
  row.addOutline("outline_a", typed.outlineA);
  row.addOutline("outline_b", typed.outlineB);
  row.add("thickness", typed.thickness);
  row.add("bow", typed.bow);
  row.add("bent_at", typed.bentAt);
  row.add("crook", typed.crook);
  row.add("cup", typed.cup);
  row.add("twist", typed.twist);
  row.add("grain_slope", typed.grain);
  row.add("hollow", typed.hollow == Edge::near ? "near" : "far");
  const TallyLine read = row.read(rules);
  const ShapeTyped before = shapeOf(board, rules.unit);
  Board after = board;
  after.warp = read.warp;
  after.grain = read.grain;
  // What is shown is rounded to a 64th: figures left alone leave the board as it is.
  if (typed.outlineA != before.outlineA || typed.outlineB != before.outlineB) {
    after.outline = read.outline;
  }
  if (typed.thickness != before.thickness) {
    after.measured = read.thickness.has_value();
    after.thickness = read.thickness.value_or(board.thickness);
  }
  if (after.warp.crook > Length() && bentNearEdge(after.outline[0])) {
    throw Refusal("crook-twice",
                  Complaint{"crook",
                            "The outline's near edge is bent already; crook stands in the outline "
                            "or in the warp, never in both",
                            typed.crook, "no crook, or a straight near edge"});
  }
  for (const Defect& defect : after.defects) {
    if (!defect.depth || *defect.depth < after.thickness) continue;
    throw Refusal("mark-too-deep",
                  Complaint{"thickness",
                            "The " + defect.kind + " at " + figure(defect.where.x, rules.unit) +
                                " is deeper than that",
                            typed.thickness,
                            "more than " + figure(*defect.depth, rules.unit) +
                                ", or the mark measured again first"});
  }
  const Rect all = boundsOf(after);
  for (const Defect& defect : after.defects) {
    if (overlaps(defect.where, all) && (!defect.onB || overlaps(*defect.onB, all))) continue;
    throw Refusal("mark-off-board",
                  Complaint{"outline",
                            "The " + defect.kind + " at " + figure(defect.where.x, rules.unit) +
                                " would lie off the board",
                            typed.outlineA, "an outline that holds every mark"});
  }
  return after;
}

EntryId reshape(store::Book& book, Board board, const store::Hand& hand) {
  const store::Snapshot now = book.read();
  needOnRack(now, board);
  board.measuredFeet =
      feetOf(volume(board.outline[0].area(), board.outline[1].area(), board.nominal.length()));
  return book.change({"remeasured", {}, tagOf(board), {}}, hand,
                     [&](store::Writer& writer) { writer.updateBoard(board); });
}

}  // namespace flitch::desk
