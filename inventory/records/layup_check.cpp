#include <algorithm>
#include <iterator>
#include <map>
#include <optional>
#include <set>
#include <utility>

#include "inventory/records/choices.h"
#include "inventory/records/cutting_check.h"
#include "inventory/records/groups.h"
#include "inventory/records/recipe.h"

namespace flitch {

namespace {

/// A blank's place in a copy.
struct Place {
  BoardId board;
  int piece = -1;
  Layup layup;
  Length useful;  ///< what it could bring of the part's width, of a lamina its thickness, at most
};

class LayupJudge {
 public:
  LayupJudge(const CutPlan& plan, const PlanRequest& request, std::vector<Fault>& faults)
      : plan_(plan), request_(request), faults_(faults) {}

  void judge() {
    for (const Cutting& cutting : plan_.cuttings) {
      for (const Layup& l : cutting.layups) take(cutting, l);
    }
    for (auto& [of, places] : copies_) {
      const std::string name = of.first->name + " " + std::to_string(of.second);
      const std::vector<LaidBefore> before = laidBefore(*of.first, of.second);
      judgeOneWay(name, places, before);
      judgeSum(*of.first, name, places, before);
      judgeWood(*of.first, name, places);
      if (places.front().layup.section > 0) judgePanel(*of.first, name, places, before);
    }
    judgeGroups();
  }

 private:
  void fault(FaultKind kind, const Place& at, std::string sentence) {
    faults_.push_back({kind, at.board, at.piece, std::move(sentence)});
  }
  [[nodiscard]] const Part* partOf(int line) const {
    const auto& parts = request_.job.parts;
    const auto at = std::find_if(parts.begin(), parts.end(),
                                 [line](const Part& part) { return part.line == line; });
    return at == parts.end() ? nullptr : &*at;
  }
  [[nodiscard]] const Board* boardOf(BoardId id) const {
    const auto board = std::find_if(request_.boards.begin(), request_.boards.end(),
                                    [id](const Board& b) { return b.id == id; });
    return board == request_.boards.end() ? nullptr : &*board;
  }
  [[nodiscard]] std::vector<LaidBefore> laidBefore(const Part& part, int copy) const {
    std::vector<LaidBefore> before;
    for (const LaidBefore& l : request_.laid) {
      if (l.line == part.line && l.layup.copy == copy) before.push_back(l);
    }
    return before;
  }

  void take(const Cutting& cutting, const Layup& l) {
    const auto place = static_cast<std::size_t>(l.piece);
    Place at{cutting.board, l.piece, l, {}};
    if (l.piece < 0 || place >= cutting.pieces.size() ||
        cutting.pieces[place].kind != PieceKind::blank) {
      fault(FaultKind::badLayup, at, "a layup of no blank");
      return;
    }
    const Part* part = partOf(cutting.pieces[place].line);
    if (part == nullptr) return;  // judged with the pieces
    const std::vector<Layup> all = layupsOf(cutting, place);
    judgeBlank(*part, at, all);
    if (l == all.front()) judgeRun(*part, at, all);
    at.useful = usefulOf(*part, cutting.board, cutting.pieces[place], l);
    if (l.gives <= Length() || l.gives > at.useful) {
      fault(FaultKind::notFilled, at,
            "a blank that brings more to " + part->name + " than is left of it once milled");
    }
    copies_[{part, l.copy}].push_back(at);
  }

  /// A layup beside the others of its blank.
  void judgeBlank(const Part& part, const Place& at, const std::vector<Layup>& all) {
    const Layup& l = at.layup;
    const RecipeKind recipe = recipeOf(all);
    // What is left over of a resawn part may be a blank of one.
    const bool lone =
        recipe == RecipeKind::solid && allowsRecipe(part, RecipeKind::resawn, request_.shop);
    if (!lone && !allowsRecipe(part, recipe, request_.shop)) {
      fault(FaultKind::badLayup, at, part.name + " is not " + std::string(word(recipe)));
    }
    const bool sectionless = l.kind != LayupKind::stave || recipe == RecipeKind::randomWidths;
    const bool strip = l.kind == LayupKind::stave || l.kind == LayupKind::whole;
    if (l.turned && !strip) {
      fault(FaultKind::badLayup, at, part.name + " has no blank laid on its side");
    }
    if (l.slot < 1 || l.copy < 1 || (sectionless ? l.section != 0 : l.section < 1)) {
      fault(FaultKind::badLayup, at, "places in " + part.name + " count from 1");
    }
    std::set<std::pair<int, int>> places;
    for (const Layup& other : all) {
      if (other.kind != l.kind || other.turned != l.turned) {
        fault(FaultKind::badLayup, at, "a blank that is two things at once");
      }
      if (!places.emplace(other.copy, other.slot).second) {
        fault(FaultKind::badLayup, at, "a blank twice in one place");
      }
    }
    if (all.size() > 1 && (l.kind == LayupKind::stave || l.turned)) {
      fault(FaultKind::badLayup, at, "a stave in two places");
    }
  }

  /// The copies of a run follow each other in one blank, none of those still wanted left out.
  void judgeRun(const Part& part, const Place& at, std::vector<Layup> all) {
    const std::optional<GrainRun> run = runOf(part);
    if (!run) return;
    std::sort(all.begin(), all.end(),
              [](const Layup& a, const Layup& b) { return a.slot < b.slot; });
    std::vector<int> wanted;
    const std::set<int> made = madeBefore(part, request_).copies;
    for (int copy = 1; copy <= part.wanted(); ++copy) {
      const bool here = run->placeOf(copy).first == run->placeOf(all.front().copy).first;
      if (here && part.isSetUp(copy) == part.isSetUp(all.front().copy) && made.count(copy) == 0) {
        wanted.push_back(copy);
      }
    }
    const bool inOrder = std::equal(all.begin(), all.end(), wanted.begin(), wanted.end(),
                                    [](const Layup& l, int copy) { return l.copy == copy; });
    if (!inOrder) {
      fault(FaultKind::badLayup, at, "the run of " + part.name + " is broken or out of order");
    }
  }

  /// Once faces or edges are cleaned.
  [[nodiscard]] Length usefulOf(const Part& part, BoardId id, const Piece& piece,
                                const Layup& l) const {
    const bool wide = l.kind == LayupKind::gang || (l.kind == LayupKind::whole && !l.turned);
    if (wide) return part.width;
    if (l.kind == LayupKind::stave && !l.turned) return piece.at.dy - request_.shop.jointStave;
    const Board* board = boardOf(id);
    if (board == nullptr) return l.gives;  // judged with the cuttings
    const std::optional<Length>& bend = board->warp.bentAt;
    const bool crosses = bend && piece.at.x < *bend && *bend < piece.at.right();
    return thicknessOver(*board, piece.at.dx, piece.at.dy, crosses) - 2 * request_.shop.addPerFace;
  }

  /// All of a copy goes together in one way, each blank in a place of its own.
  void judgeOneWay(const std::string& name, const std::vector<Place>& places,
                   const std::vector<LaidBefore>& before) {
    const Layup& first = places.front().layup;
    const auto same = [&](const Layup& l) {
      return l.kind == first.kind && l.turned == first.turned &&
             (l.section > 0) == (first.section > 0);
    };
    const bool alone = first.kind == LayupKind::gang || first.kind == LayupKind::whole;
    std::set<int> slots;
    for (const LaidBefore& l : before) {
      slots.insert(l.layup.slot);
      if (!same(l.layup)) fault(FaultKind::badLayup, places.front(), name + " was begun otherwise");
    }
    for (const Place& p : places) {
      if (!same(p.layup)) fault(FaultKind::badLayup, p, name + " is made in two ways");
      if (!slots.insert(p.layup.slot).second || (alone && places.size() + before.size() > 1)) {
        fault(FaultKind::badLayup, p, "two blanks of " + name + " have one place");
      }
    }
  }

  /// By how much the blanks of a copy miss the part: below zero where they bring too much.
  [[nodiscard]] static Length missing(const Part& part, const std::vector<Place>& places,
                                      const std::vector<LaidBefore>& before) {
    const bool laminated = places.front().layup.kind == LayupKind::lamina;
    Length left = laminated ? part.thickness : part.width;
    for (const LaidBefore& l : before) left -= l.layup.gives;
    for (const Place& p : places) left -= p.layup.gives;
    return left;
  }
  [[nodiscard]] bool allLocked(const std::vector<Place>& places) const {
    return std::all_of(places.begin(), places.end(), [&](const Place& p) {
      return lockOn(request_.choices, p.board) != nullptr;
    });
  }
  /// What is locked may lack the rest of its copy, which is short then.
  [[nodiscard]] bool mayLack(const Part& part, const std::vector<Place>& places,
                             const std::vector<LaidBefore>& before) const {
    return missing(part, places, before) > Length() && allLocked(places);
  }

  /// What its blanks bring is the part.
  void judgeSum(const Part& part, const std::string& name, const std::vector<Place>& places,
                const std::vector<LaidBefore>& before) {
    if (missing(part, places, before) != Length() && !mayLack(part, places, before)) {
      fault(FaultKind::notFilled, places.back(), "the blanks of " + name + " do not fill it");
    }
  }

  /// Of the blanks of this plan: where those sawn before came from is not known here.
  void judgeWood(const Part& part, const std::string& name, const std::vector<Place>& places) {
    std::set<BoardId> boards;
    for (const Place& p : places) boards.insert(p.board);
    if (together(boards, part.woodFrom)) return;
    fault(FaultKind::mixedWood, places.back(),
          name + " is not of " + std::string(word(part.woodFrom)));
  }

  /// All copies of the parts of each group, set-up pieces apart.
  void judgeGroups() {
    Groups groups;
    for (const Cutting& cutting : plan_.cuttings) addGroupBlanks(cutting, request_.job, groups);
    for (const auto& [name, group] : groups) {
      const WoodFrom from = partOf(*group.lines.begin())->woodFrom;
      if (together(group.boards, from)) continue;
      fault(FaultKind::mixedWood, {group.lastBoard, group.lastPiece, {}, {}},
            "the group " + name + " is not all of " + std::string(word(from)));
    }
  }

  /// Boards that are not of this request are judged with their cuttings.
  [[nodiscard]] bool together(std::set<BoardId> boards, WoodFrom from) {
    if (boards.size() < 2 || from == WoodFrom::anyBoards) return true;
    std::erase_if(boards, [&](BoardId id) { return boardOf(id) == nullptr; });
    auto known = sources_.find(from);
    if (known == sources_.end()) {
      known = sources_.emplace(from, sourcesOf(request_.boards, from)).first;
    }
    return std::any_of(known->second.begin(), known->second.end(), [&](const auto& source) {
      return std::includes(source.begin(), source.end(), boards.begin(), boards.end());
    });
  }

  /// A glued panel: sections in order, each within the planer, the trim left on.
  void judgePanel(const Part& part, const std::string& name, std::vector<Place>& staves,
                  const std::vector<LaidBefore>& before) {
    const ShopProfile& shop = request_.shop;
    std::sort(staves.begin(), staves.end(),
              [](const Place& a, const Place& b) { return a.layup.slot < b.layup.slot; });
    Length filled;
    int lastSection = 0;
    std::map<int, int> sectionAt;  // by slot: boards of a panel are sawn in any order
    for (const LaidBefore& l : before) {
      filled += l.layup.gives;
      lastSection = std::max(lastSection, l.layup.section);
      sectionAt[l.layup.slot] = l.layup.section;
    }
    std::map<int, std::pair<Length, Length>> sections;  // what they bring and what they have
    for (const Place& s : staves) {
      const auto next = sectionAt.upper_bound(s.layup.slot);
      const bool tooLate = next != sectionAt.end() && next->second < s.layup.section;
      if (tooLate || (next != sectionAt.begin() && s.layup.section < std::prev(next)->second)) {
        fault(FaultKind::badLayup, s, "the sections of " + name + " do not follow each other");
      }
      sectionAt[s.layup.slot] = s.layup.section;
      lastSection = std::max(lastSection, s.layup.section);
      filled += s.useful;
      sections[s.layup.section].first += s.layup.gives;
      sections[s.layup.section].second += s.useful;
    }
    // The stave with the trim on may be among those sawn, of which only what they give is known:
    // the plan that these locks are of was judged whole.
    const bool judged = !before.empty() && allLocked(staves);
    if (!judged && !mayLack(part, staves, before) && filled < part.width + shop.glueTrim) {
      fault(FaultKind::notFilled, staves.back(),
            "the staves of " + name + " leave nothing to trim");
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
  std::map<std::pair<const Part*, int>, std::vector<Place>> copies_;
  std::map<WoodFrom, std::set<std::set<BoardId>>> sources_;  ///< of those asked about
};

}  // namespace

void checkLayups(const CutPlan& plan, const PlanRequest& request, std::vector<Fault>& faults) {
  LayupJudge(plan, request, faults).judge();
}

std::map<int, std::set<int>> copiesPlanned(const CutPlan& plan, const PlanRequest& request) {
  std::map<int, std::set<int>> copies;
  std::map<int, std::map<int, Brought>> brought;  // by line and copy
  for (const Cutting& cutting : plan.cuttings) {
    std::set<std::size_t> laid;
    for (const Layup& l : cutting.layups) {
      const auto place = static_cast<std::size_t>(l.piece);
      if (l.piece < 0 || place >= cutting.pieces.size()) continue;
      laid.insert(place);
      bring(brought[cutting.pieces[place].line], l);
    }
    for (std::size_t i = 0; i < cutting.pieces.size(); ++i) {
      const Piece& p = cutting.pieces[i];
      if (p.kind == PieceKind::blank && laid.count(i) == 0) copies[p.line].insert(p.copy);
    }
  }
  for (const Part& part : request.job.parts) {
    const MadeBefore before = madeBefore(part, request);
    for (auto [copy, what] : brought[part.line]) {
      const auto begun = before.begun.find(copy);
      if (begun != before.begun.end()) what.sum += begun->second.sum;
      if (what.completes(part)) copies[part.line].insert(copy);
    }
  }
  return copies;
}

}  // namespace flitch
