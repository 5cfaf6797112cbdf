#include "inventory/desk/board_grade.h"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "inventory/records/zones.h"
#include "inventory/wood/species.h"

namespace flitch::desk {
namespace {

constexpr Length cell = Length::sixtyFourths(16);

int down(Length length) { return static_cast<int>(stepsDown(length, cell)); }
int up(Length length) { return static_cast<int>(stepsUp(length, cell)); }

Blemish blemishOf(const std::string& kind) {
  static constexpr std::array<std::pair<std::string_view, Blemish>, 11> kinds{
      {{"sound knot", Blemish::soundKnot},
       {"unsound knot", Blemish::unsoundKnot},
       {"check", Blemish::check},
       {"split", Blemish::split},
       {"wane", Blemish::wane},
       {"hole", Blemish::hole},
       {"stain", Blemish::stain},
       {"gum", Blemish::stain},
       {"sapwood", Blemish::sapwood},
       {"pith", Blemish::pith},
       {"bark pocket", Blemish::barkPocket}}};
  for (const auto& [name, blemish] : kinds) {
    if (kind == name) return blemish;
  }
  return Blemish::other;
}

/// The row of cells that the graded rectangle begins with.
int lowestOf(const std::array<Outline, 2>& wood) {
  return down(std::min(wood[0].lowest(), wood[1].lowest()));
}

GradeBoard gradeBoardOf(const Board& board) {
  const std::array<Outline, 2> wood{lying(board, Face::a), lying(board, Face::b)};
  const int lowest = lowestOf(wood);
  GradeBoard graded;
  graded.length = down(board.length());
  graded.width = up(std::max(wood[0].highest(), wood[1].highest())) - lowest;
  for (int x = 0; x < graded.length; ++x) {
    int near = 0, far = graded.width;
    for (const Outline& face : wood) {
      const Outline::Span span = face.clearSpan(cell * x, cell * (x + 1));
      near = std::max(near, up(span.near) - lowest);
      far = std::min(far, down(span.far) - lowest);
    }
    graded.near.push_back(near);
    graded.far.push_back(std::max(near, far));
  }
  graded.measuredLength = board.length();
  const auto widthAt = [&](Length x) {
    return std::min(wood[0].farAt(x) - wood[0].nearAt(x), wood[1].farAt(x) - wood[1].nearAt(x));
  };
  graded.measuredWidth = std::min(widthAt(board.length() / 3), widthAt(board.length() * 2 / 3));
  for (const Defect& mark : board.defects) {
    if (isZone(mark.kind) && mark.kind != "good") continue;
    const std::array<bool, 2> shows{mark.face != DefectFace::b, mark.face != DefectFace::a};
    const auto add = [&](const Rect& at, const std::array<bool, 2>& on) {
      const int x = down(at.x), y = down(at.y);
      graded.marks.push_back(
          {blemishOf(mark.kind), on, {x, y - lowest, up(at.right()) - x, up(at.top()) - y}});
    };
    if (mark.onB) {
      add(mark.where, {true, false});
      add(*mark.onB, {false, true});
    } else {
      add(mark.where, shows);
    }
  }
  return graded;
}

/// Empty when nothing stands against an estimate.
std::string reasonAgainst(const Board& board) {
  const auto named = [&](std::string_view part) {
    return board.species.find(part) != std::string::npos;
  };
  if (named("cherry") || named("walnut")) {
    return "no estimate: the grading rules make exceptions for " + board.species;
  }
  const Species* species = findSpecies(board.species);
  if (species == nullptr) {
    return "no estimate: no table says whether " + board.species + " is a hardwood";
  }
  if (species->softwood) return "no estimate: the rules are for hardwoods";
  if (board.kind != BoardKind::plank) return "no estimate: only planks are graded";
  if (board.looked[0] == Looked::no || board.looked[1] == Looked::no) {
    return "no estimate: look at both faces first";
  }
  if (std::any_of(board.defects.begin(), board.defects.end(),
                  [](const Defect& mark) { return mark.kind == "good"; })) {
    return "no estimate: only its good wood is marked";
  }
  return board.length() < cell ? "no estimate: too short" : "";
}

}  // namespace

BoardGrade gradeOf(const Board& board, CuttingEffort effort) {
  BoardGrade result;
  result.line = reasonAgainst(board);
  if (!result.line.empty()) return result;
  result.estimate = estimateGrade(gradeBoardOf(board), effort);
  result.line = "looks like about " + std::string(word(result.estimate->grade));
  if (!result.estimate->exact) result.line += " or better";
  if (!board.grade.empty()) result.line += "; paid as " + board.grade;
  return result;
}

std::vector<Rect> cuttingsOf(const Board& board, const GradeEstimate& estimate) {
  const int lowest = lowestOf({lying(board, Face::a), lying(board, Face::b)});
  std::vector<Rect> places;
  for (const Cells& c : estimate.trial.set.cuttings) {
    places.push_back({cell * c.x, cell * (c.y + lowest), cell * c.length, cell * c.width});
  }
  return places;
}

}  // namespace flitch::desk
