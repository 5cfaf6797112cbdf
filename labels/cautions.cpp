#include <algorithm>

#include "inventory/records/blank.h"
#include "inventory/records/board_weight.h"
#include "inventory/records/planed_away.h"
#include "labels/cut_sheet.h"

namespace flitch::pages {
namespace {

// Figures and sentences: the shop's note on safety (its sources: HSE web pages on planers and rip
// saws, NIOSH on lifting, machine makers' manuals; saw habits are common practice, no source).
constexpr Length leastAtFence = Length::inches(12);
constexpr Length narrow = Length::inches(3);
constexpr Length longStock = Length::feet(8);
constexpr Length thickStock = Length::inches(2);

std::string listed(std::vector<std::string> names) {
  constexpr std::size_t most = 6;
  std::sort(names.begin(), names.end());
  names.erase(std::unique(names.begin(), names.end()), names.end());
  std::string text;
  for (std::size_t at = 0; at < std::min(most, names.size()); ++at)
    text += (at > 0 ? ", " : "") + names[at];
  if (names.size() > most) text += " and others";
  return text;
}

/// Hand marks of the blanks for which a question is true.
template <class Question>
std::string blanksThat(const Cutting& cutting, Question question) {
  std::vector<std::string> names;
  for (const Piece& piece : cutting.pieces)
    if (piece.kind == PieceKind::blank && question(piece))
      names.push_back(handMark(piece.line, piece.copy));
  return listed(std::move(names));
}

const Part* partOf(const Job& job, const Piece& piece) {
  for (const Part& part : job.parts)
    if (part.line == piece.line) return &part;
  return nullptr;
}

/// The trade's limit of a foot is given as 300 mm where work is metric.
std::string footIn(Unit unit) { return unit == Unit::inches ? "12 in" : "300 mm"; }

std::string inUnit(Length length, Unit unit) {
  return unit == Unit::inches ? text(length, LengthStyle::inches) + " in"
                              : text(length, LengthStyle::millimetres) + " mm";
}

}  // namespace

std::vector<std::string> cautions(const Cutting& cutting, const Board& board, const Job& job,
                                  const ShopProfile& shop, Unit unit,
                                  const std::vector<Species>& ownSpecies) {
  std::vector<std::string> all;
  const std::vector<SawStep> steps = sawSteps(cutting, board, job, shop);
  if (const Lifting lift = lifting(kilogramsOf(board, ownSpecies)); lift != Lifting::alone) {
    all.push_back("Heavy, " + weightText(board, ownSpecies, unit) + ": " +
                  std::string(advice(lift)) + ".");
  }
  if (board.warp.bow > Length())
    all.push_back("Bow " + inUnit(board.warp.bow, unit) +
                  ": crown against the fence at the blade, so that the kerf cannot close.");
  if (board.length() >= longStock || board.thickness >= thickStock)
    all.push_back(
        "Support both sides of a crosscut, so that the kerf opens and the piece falls "
        "free.");
  const bool ripped = std::any_of(steps.begin(), steps.end(), [](const SawStep& step) {
    return step.kind == SawStep::Kind::rip;
  });
  if (ripped) all.push_back("No rough edge runs against a rip fence.");
  const bool shortRip = std::any_of(steps.begin(), steps.end(), [](const SawStep& step) {
    return step.kind == SawStep::Kind::rip &&
           (step.at.dx < leastAtFence || step.at.dx < step.measure);
  });
  if (shortRip)
    all.push_back("Lengths under " + footIn(unit) +
                  " or shorter than they are wide are not ripped against a fence: use a sled.");
  const bool narrowRip = std::any_of(steps.begin(), steps.end(), [](const SawStep& step) {
    return step.kind == SawStep::Kind::rip && step.measure < narrow;
  });
  if (narrowRip)
    all.push_back("Narrow rips: push stick for the last " + footIn(unit) + " of the cut.");
  const std::string shortOnes =
      blanksThat(cutting, [&](const Piece& piece) { return piece.at.dx < shop.jointerShortest; });
  if (!shortOnes.empty())
    all.push_back(shortOnes + " under " + inUnit(shop.jointerShortest, unit) +
                  ": push block on the jointer, and think of another machine; not alone through "
                  "the planer.");
  const std::string thinOnes = blanksThat(cutting, [&](const Piece& piece) {
    const Part* part = partOf(job, piece);
    return part && part->thickness < shop.planerThinnest;
  });
  if (!thinOnes.empty())
    all.push_back(thinOnes + " under " + inUnit(shop.planerThinnest, unit) +
                  " thick: check what your planer takes.");
  const std::string deepOnes = blanksThat(cutting, [&](const Piece& piece) {
    const Part* part = partOf(job, piece);
    const auto place = static_cast<std::size_t>(&piece - cutting.pieces.data());
    return part && planedAway(cutting, place, board, *part, shop) > muchPlanedAway;
  });
  if (!deepOnes.empty())
    all.push_back(deepOnes + " lose more than " + inUnit(muchPlanedAway, unit) +
                  " to the planer: resaw them first, or take light passes off both faces in turn.");
  all.push_back("Staples and loose knots out first.");
  all.push_back("Your machine's manual and the local rules come first.");
  return all;
}

}  // namespace flitch::pages
