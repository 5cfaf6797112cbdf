#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "inventory/records/cutting_check.h"
#include "inventory/records/recipe.h"

namespace flitch {

namespace {

/// A stave where it lies.
struct Stave {
  BoardId board;
  int piece = -1;
  Layup layup;
  Length width;  ///< as sawn
};

class LayupJudge {
 public:
  LayupJudge(const CutPlan& plan, const PlanRequest& request, std::vector<Fault>& faults)
      : plan_(plan), request_(request), faults_(faults) {}

  void judge() {
    for (const Cutting& cutting : plan_.cuttings) {
      for (const Layup& l : cutting.layups) take(cutting, l);
    }
    for (auto& [place, staves] : panels_) judgePanel(place.first, place.second, staves);
  }

 private:
  void fault(FaultKind kind, const Stave& at, std::string sentence) {
    faults_.push_back({kind, at.board, at.piece, std::move(sentence)});
  }
  [[nodiscard]] const Part* partOf(int line) const {
    const auto& parts = request_.job.parts;
    const auto at = std::find_if(parts.begin(), parts.end(),
                                 [line](const Part& part) { return part.line == line; });
    return at == parts.end() ? nullptr : &*at;
  }

  void take(const Cutting& cutting, const Layup& l) {
    const Stave at{cutting.board, l.piece, l, {}};
    const auto place = static_cast<std::size_t>(l.piece);
    if (l.piece < 0 || place >= cutting.pieces.size() ||
        cutting.pieces[place].kind != PieceKind::blank) {
      fault(FaultKind::badLayup, at, "a layup of no blank");
      return;
    }
    const Piece& piece = cutting.pieces[place];
    const Part* part = partOf(piece.line);
    if (part == nullptr) return;  // judged with the pieces
    if (!allowsRecipe(*part, RecipeKind::glued, request_.shop)) {
      fault(FaultKind::badLayup, at, part->name + " is not glued from staves");
      return;
    }
    if (layupsOf(cutting, place).size() > 1) {
      fault(FaultKind::badLayup, at, "a stave in two places");
    }
    if (l.slot < 1 || l.section < 1 || l.copy < 1) {
      fault(FaultKind::badLayup, at, "places in a panel count from 1");
    }
    if (l.gives <= Length() || l.gives > piece.at.dy - request_.shop.jointStave) {
      fault(FaultKind::notFilled, at, "a stave that brings more than is left of it once jointed");
    }
    panels_[{part, l.copy}].push_back({cutting.board, l.piece, l, piece.at.dy});
  }

  void judgePanel(const Part* part, int copy, std::vector<Stave>& staves) {
    const ShopProfile& shop = request_.shop;
    std::sort(staves.begin(), staves.end(),
              [](const Stave& a, const Stave& b) { return a.layup.slot < b.layup.slot; });
    const std::string name = part->name + " " + std::to_string(copy);
    Length given, filled;
    std::set<int> slots;
    int lastSection = 0;
    for (const LaidBefore& l : request_.laid) {
      if (l.line != part->line || l.layup.copy != copy) continue;
      given += l.layup.gives;
      filled += l.layup.gives;
      slots.insert(l.layup.slot);
      lastSection = std::max(lastSection, l.layup.section);
    }
    std::map<int, std::pair<Length, Length>> sections;  // what they bring and what they have
    for (const Stave& s : staves) {
      if (!slots.insert(s.layup.slot).second) {
        fault(FaultKind::badLayup, s, "two staves of " + name + " have one place");
      }
      if (s.layup.section < lastSection) {
        fault(FaultKind::badLayup, s, "the sections of " + name + " do not follow each other");
      }
      lastSection = std::max(lastSection, s.layup.section);
      given += s.layup.gives;
      filled += s.width - shop.jointStave;
      sections[s.layup.section].first += s.layup.gives;
      sections[s.layup.section].second += s.width - shop.jointStave;
    }
    if (given != part->width || filled < part->width + shop.glueTrim) {
      fault(FaultKind::notFilled, staves.back(), "the staves of " + name + " do not fill it");
    }
    for (const auto& [section, widths] : sections) {
      // Its outer edges are jointed after it is planed; the trim comes off the last one's.
      const Length trim = section == lastSection ? shop.glueTrim : Length();
      const Length planed =
          widths.first + shop.jointStave + std::min(trim, widths.second - widths.first);
      if (planed > shop.planerWidth) {
        fault(FaultKind::wideSection, staves.front(),
              "section " + std::to_string(section) + " of " + name + " is wider than the planer");
      }
    }
  }

  const CutPlan& plan_;
  const PlanRequest& request_;
  std::vector<Fault>& faults_;
  std::map<std::pair<const Part*, int>, std::vector<Stave>> panels_;
};

}  // namespace

void checkLayups(const CutPlan& plan, const PlanRequest& request, std::vector<Fault>& faults) {
  LayupJudge(plan, request, faults).judge();
}

std::map<int, std::set<int>> copiesPlanned(const CutPlan& plan, const PlanRequest& request) {
  std::map<int, std::set<int>> copies;
  std::map<std::pair<int, int>, Length> given;
  for (const Cutting& cutting : plan.cuttings) {
    std::set<std::size_t> staves;
    for (const Layup& l : cutting.layups) {
      const auto place = static_cast<std::size_t>(l.piece);
      if (l.piece < 0 || place >= cutting.pieces.size()) continue;
      staves.insert(place);
      given[{cutting.pieces[place].line, l.copy}] += l.gives;
    }
    for (std::size_t i = 0; i < cutting.pieces.size(); ++i) {
      const Piece& p = cutting.pieces[i];
      if (p.kind == PieceKind::blank && staves.count(i) == 0) copies[p.line].insert(p.copy);
    }
  }
  for (const Part& part : request.job.parts) {
    const MadeBefore before = madeBefore(part, request);
    for (const auto& [place, width] : given) {
      if (place.first != part.line) continue;
      const auto begun = before.begun.find(place.second);
      const Length had = begun == before.begun.end() ? Length() : begun->second;
      if (had + width >= part.width) copies[part.line].insert(place.second);
    }
  }
  return copies;
}

}  // namespace flitch
