#include "inventory/records/glue_up.h"

#include <algorithm>
#include <tuple>

namespace flitch {

std::vector<GlueUp> glueUpsOf(const CutPlan& plan) {
  std::vector<Glued> all;
  for (const Cutting& cutting : plan.cuttings) {
    for (const Layup& l : cutting.layups) {
      if (l.kind != LayupKind::stave && l.kind != LayupKind::lamina) continue;
      all.push_back({cutting.board, cutting.pieces.at(static_cast<std::size_t>(l.piece)), l});
    }
  }
  std::stable_sort(all.begin(), all.end(), [](const Glued& a, const Glued& b) {
    return std::tie(a.blank.line, a.layup.copy, a.layup.section, a.layup.slot) <
           std::tie(b.blank.line, b.layup.copy, b.layup.section, b.layup.slot);
  });
  std::vector<GlueUp> ups;
  int section = 0;
  for (Glued& glued : all) {
    const bool same =
        !ups.empty() && ups.back().line == glued.blank.line && ups.back().copy == glued.layup.copy;
    if (!same) {
      const bool loose = glued.layup.kind == LayupKind::stave && glued.layup.section == 0;
      ups.push_back({glued.blank.line, glued.layup.copy, glued.layup.kind, !loose, {}});
    }
    if (!same || section != glued.layup.section) ups.back().sections.emplace_back();
    section = glued.layup.section;
    ups.back().sections.back().push_back(glued);
  }
  return ups;
}

std::vector<Parted> partedOf(const Cutting& cutting, const Job& job, const ShopProfile& shop,
                             Length tick) {
  std::vector<Parted> all;
  for (std::size_t i = 0; i < cutting.pieces.size(); ++i) {
    const Piece& piece = cutting.pieces[i];
    if (piece.kind != PieceKind::blank) continue;
    const auto part = std::find_if(job.parts.begin(), job.parts.end(),
                                   [&](const Part& p) { return p.line == piece.line; });
    if (part == job.parts.end()) continue;
    std::vector<Layup> becomes = layupsOf(cutting, i);
    Blank rough = blankAsLaid(*part, becomes, piece.at, shop, tick);
    const bool several = rough.along * rough.across > 1 || rough.showing == Showing::sawnToo;
    if (several) all.push_back({cutting.board, piece, std::move(rough), std::move(becomes)});
  }
  return all;
}

std::vector<Parted> partedOf(const CutPlan& plan, const Job& job, const ShopProfile& shop) {
  std::vector<Parted> all;
  for (const Cutting& cutting : plan.cuttings) {
    for (Parted& parted : partedOf(cutting, job, shop, plan.tick)) all.push_back(std::move(parted));
  }
  std::stable_sort(all.begin(), all.end(), [](const Parted& a, const Parted& b) {
    return std::pair(a.blank.line, a.blank.copy) < std::pair(b.blank.line, b.blank.copy);
  });
  return all;
}

std::string partingText(const Parted& parted, const Part& part, Unit unit) {
  if (parted.resawn()) return "resawn into " + std::to_string(parted.becomes.size());
  const bool along = parted.rough.along > 1;
  const int pieces = along ? parted.rough.along : parted.rough.across;
  return "after planing " + std::string(along ? "crosscut" : "ripped") + " into " +
         std::to_string(pieces) + " of " + lengthText(along ? part.length : part.width, unit);
}

namespace {

Length either(Unit unit, std::int64_t inches, std::int64_t millimetres) {
  return unit == Unit::inches ? Length::inches(inches) : Length::millimetres(millimetres);
}

/// So many even steps from `inset` to as far from the other end.
std::vector<Length> evenly(Length length, Length inset, std::int64_t steps) {
  std::vector<Length> places;
  const Length span = length - 2 * inset;
  for (std::int64_t s = 0; s <= steps; ++s) places.push_back(inset + span * s / steps);
  return places;
}

}  // namespace

std::vector<Length> alignmentMarks(Length length, Unit unit) {
  const Length inset = either(unit, 3, 75), apart = either(unit, 7, 175);
  const Length span = length - 2 * inset;
  if (span < apart / 2) return {length / 2};
  return evenly(length, inset, std::max<std::int64_t>(1, stepsDown(span + apart / 2, apart)));
}

std::vector<Length> clampPlaces(Length length, Unit unit) {
  const Length inset = std::min(either(unit, 3, 75), length / 4);
  return evenly(length, inset,
                std::max<std::int64_t>(1, stepsUp(length - 2 * inset, either(unit, 10, 250))));
}

}  // namespace flitch
