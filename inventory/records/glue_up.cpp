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
  return all;
}

std::string partingText(const Parted& parted, const Part& part, Unit unit) {
  if (parted.resawn()) return "resawn into " + std::to_string(parted.becomes.size());
  const bool along = parted.rough.along > 1;
  const int pieces = along ? parted.rough.along : parted.rough.across;
  return "after planing " + std::string(along ? "crosscut" : "ripped") + " into " +
         std::to_string(pieces) + " of " + lengthText(along ? part.length : part.width, unit);
}

}  // namespace flitch
