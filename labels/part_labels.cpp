#include "labels/part_labels.h"

#include <algorithm>
#include <stdexcept>
#include <tuple>

#include "labels/board_drawing.h"
#include "labels/facing.h"

namespace flitch::pages {
namespace {

/// True when two rectangles share more than a corner.
bool touch(const Rect& a, const Rect& b) {
  const Length wide = std::min(a.right(), b.right()) - std::max(a.x, b.x);
  const Length high = std::min(a.top(), b.top()) - std::max(a.y, b.y);
  return wide >= Length() && high >= Length() && (wide > Length() || high > Length());
}

/// Number of the last cut along the blank, 0 when nothing is cut off: from then on it is free.
int freedBy(const Piece& blank, const std::vector<SawStep>& steps) {
  int number = 0;
  for (const SawStep& step : steps)
    if (step.number > 0 && touch(step.at, blank.at)) number = std::max(number, step.number);
  return number;
}

const Part& partOf(const Job& job, int line) {
  const auto found = std::find_if(job.parts.begin(), job.parts.end(),
                                  [line](const Part& part) { return part.line == line; });
  if (found == job.parts.end()) throw std::invalid_argument("a blank of no part of the job");
  return *found;
}

/// Of a blank that is not the part itself: what it becomes, in place of a finished size.
std::string placeOf(const std::vector<Layup>& layups) {
  const Layup& first = layups.front();
  const std::string copies =
      layups.size() == 1 ? std::to_string(first.copy)
                         : std::to_string(first.copy) + " to " + std::to_string(layups.back().copy);
  switch (first.kind) {
    case LayupKind::stave:
      if (first.section == 0) {
        return "copy " + copies + ", board " + std::to_string(first.slot) + ", not glued";
      }
      return "panel " + copies + ", section " + std::to_string(first.section) + ", stave " +
             std::to_string(first.slot);
    case LayupKind::lamina: return "copy " + copies + ", lamina " + std::to_string(first.slot);
    case LayupKind::gang:
      return "cut apart later: " + std::to_string(layups.size()) + ", copy " + copies;
    case LayupKind::whole:
      return (first.turned         ? "laid on its side, copy "
              : layups.size() == 1 ? "copy "
                                   : "resawn, copy ") +
             copies;
  }
  return {};
}
std::string nextFor(const Layup& layup) {
  switch (layup.kind) {
    case LayupKind::stave:
      return layup.section == 0 ? "next: plane, rip to fit" : "next: joint and glue";
    case LayupKind::lamina: return "next: plane and glue";
    case LayupKind::gang: return "next: plane, then cut apart";
    case LayupKind::whole: return "next: rough over, let it rest";
  }
  return {};
}

PartLabel labelOf(const Piece& blank, const std::vector<Layup>& layups, int cut, const Board& board,
                  const Job& job, Unit unit) {
  const LengthStyle style = unit == Unit::inches ? LengthStyle::inches : LengthStyle::millimetres;
  const Part& part = partOf(job, blank.line);
  const std::string thick = text(part.thickness, style);
  PartLabel label;
  label.handMark = handMark(blank.line, blank.copy);
  label.part = part.name;
  label.job = job.name;
  label.rough = text(blank.at.dx, style) + " × " + text(blank.at.dy, style) + " rough";
  label.finished = text(part.length, style) + " × " + text(part.width, style) + " × " + thick;
  label.show = blank.faceUp == Face::a ? "show A" : "show B";
  if (hasFront(blank, job))
    label.front = blank.frontEdge == Edge::near ? "front: edge V" : "front: far edge";
  label.next = part.thickness < board.thickness ? "next: plane to " + thick : "next: cut to size";
  if (part.leftLong) label.next = "left long until the dry fit";
  if (!layups.empty()) {
    label.finished = placeOf(layups);
    const bool opened = layups.front().turned || layups.size() > 1;
    if (layups.front().kind != LayupKind::whole || opened) label.next = nextFor(layups.front());
  }
  if (board.tag) {
    label.board = *board.tag;
    label.from = text(*board.tag);
  }
  if (cut > 0) label.from += (label.from.empty() ? "cut " : " cut ") + std::to_string(cut);
  return label;
}

}  // namespace

std::vector<PartLabel> partLabels(const CutPlan& plan, const std::vector<Board>& boards,
                                  const Job& job, const ShopProfile& shop, Unit unit) {
  std::vector<PartLabel> labels;
  for (const Cutting& cutting : plan.cuttings) {
    const auto board = std::find_if(boards.begin(), boards.end(),
                                    [&](const Board& each) { return each.id == cutting.board; });
    if (board == boards.end()) throw std::invalid_argument("a cutting's board is not at hand");
    const std::vector<SawStep> steps = sawSteps(cutting, *board, job, shop);
    struct Freed {
      int cut;
      const Piece* blank;
    };
    std::vector<Freed> order;
    for (const Piece& piece : cutting.pieces)
      if (piece.kind == PieceKind::blank) order.push_back({freedBy(piece, steps), &piece});
    // One cut may free two: the nearer to edge V first, then from the fresh end on.
    std::sort(order.begin(), order.end(), [](const Freed& a, const Freed& b) {
      return std::tie(a.cut, a.blank->at.y, b.blank->at.x) <
             std::tie(b.cut, b.blank->at.y, a.blank->at.x);
    });
    for (const Freed& freed : order) {
      const auto place = static_cast<std::size_t>(freed.blank - cutting.pieces.data());
      labels.push_back(
          labelOf(*freed.blank, layupsOf(cutting, place), freed.cut, *board, job, unit));
    }
  }
  return labels;
}

}  // namespace flitch::pages
