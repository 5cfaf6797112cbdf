#include "inventory/planning/shortage_reasons.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <tuple>

#include "inventory/planning/asking.h"
#include "inventory/planning/board_frame.h"
#include "inventory/records/choices.h"
#include "inventory/records/recipe.h"

namespace flitch::planning {

namespace {

using optimizer::noClass;
using optimizer::Profile;
using optimizer::Tick;
using optimizer::Zone;
using Zones = std::array<std::vector<Zone>, optimizer::orientations>;

/// Longest stretch in which no cell is taken. O(cells).
Tick longestFree(const std::vector<char>& taken) {
  Tick best = 0;
  Tick run = 0;
  for (const char t : taken) {
    run = t != 0 ? 0 : run + 1;
    best = std::max(best, run);
  }
  return best;
}

/// Rows at which a strip may begin that lies as low as it can: nothing is missed by trying these.
std::set<Tick> lowestRows(const Profile& wood, const std::vector<Zone>& zones, Tick width) {
  std::set<Tick> rows(wood.low.begin(), wood.low.end());
  for (const Zone& z : zones) {
    rows.insert(z.where.y + z.where.dy);
    rows.insert(z.where.y + z.where.dy + 1);
    rows.insert(z.where.y + z.where.dy + 1 - width);
  }
  return rows;
}

/// Longest run of that width the class may lie in, in ticks; one of `enough` ends the search.
Tick longestRun(const Profile& wood, const Zones& zones, int cls, Tick width, Tick enough) {
  if (cls == noClass) return 0;
  const optimizer::ClassSet bit = optimizer::ClassSet{1} << cls;
  const Tick length = wood.length();
  const Tick highest = wood.width();
  Tick best = 0;
  for (const std::vector<Zone>& lying : zones) {
    for (const Tick y : lowestRows(wood, lying, width)) {
      if (y < 0 || y + width > highest) continue;
      std::vector<char> taken(wood.low.size(), 0);
      for (std::size_t x = 0; x < taken.size(); ++x) {
        taken[x] = wood.low[x] > y || wood.high[x] < y + width ? 1 : 0;
      }
      for (const Zone& z : lying) {
        const Tick low = z.where.y;
        const Tick high = z.where.y + z.where.dy;
        const bool onFace = (z.barred & bit) != 0 && low < y + width && y < high;
        const bool onNear = (z.nearEdge & bit) != 0 && low <= y && y <= high;
        const bool onFar = (z.farEdge & bit) != 0 && low <= y + width && y + width <= high;
        if (!onFace && !onNear && !onFar) continue;
        const Tick from = std::clamp(z.where.x, 0, length);
        const Tick to = std::clamp(z.where.x + z.where.dx, 0, length);
        std::fill(taken.begin() + from, taken.begin() + to, 1);
      }
      best = std::max(best, longestFree(taken));
      if (best >= enough) return best;
    }
  }
  return best;
}

std::string joined(const std::vector<std::string>& words, const std::string& last) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) out += i + 1 == words.size() ? last : ", ";
    out += words[i];
  }
  return out;
}

/// Neither kept out nor locked, so that more could be cut from it.
bool free(const PlanRequest& request, const Board& board) {
  return !isKeptOut(request.choices, board.id) && lockOn(request.choices, board.id) == nullptr;
}

class Explainer {
 public:
  Explainer(const CutPlan& plan, const PlanRequest& request) : plan_(plan), request_(request) {}

  void explain(ShortPart& missing, const Part& part) {
    const Blank blank = leastBlank(part);
    const std::string wood = joined(part.species, " or ");
    std::vector<const Board*> boards;
    for (const Board& b : request_.boards) {
      if (!free(request_, b)) continue;
      if (std::find(part.species.begin(), part.species.end(), b.species) != part.species.end()) {
        boards.push_back(&b);
      }
    }
    if (boards.empty()) {
      missing.reason = "no " + wood + " is free on the rack";
      return;
    }
    const Board* thickest = *std::max_element(
        boards.begin(), boards.end(),
        [](const Board* a, const Board* b) { return a->thickness < b->thickness; });
    if (thickest->thickness < blank.thickness) {
      missing.reason = "it needs " + said(blank.thickness) + " of thickness and the thickest " +
                       wood + " is " + said(thickest->thickness) + " (" + named(*thickest) + ")" +
                       orElse(part, RecipeKind::laminated, "thinner");
      return;
    }
    std::erase_if(boards, [&](const Board* b) { return b->thickness < blank.thickness; });
    if (part.straight && explainGrain(missing, boards, wood)) return;
    const auto edge = [&](const Board* b) { return edgeTaken(*b, request_.shop); };
    const auto full = [](const Board* b) {
      return std::min(b->outline[0].highest() - b->outline[0].lowest(),
                      b->outline[1].highest() - b->outline[1].lowest());
    };
    const auto width = [&](const Board* b) { return full(b) - edge(b); };
    const Board* widest =
        *std::max_element(boards.begin(), boards.end(),
                          [&](const Board* a, const Board* b) { return width(a) < width(b); });
    if (width(widest) < blank.width) {
      const bool taken = edge(widest) > Length();
      missing.reason = "it needs " + said(blank.width + edge(widest)) + " of width" +
                       (taken ? " with the reference edge" : "") + ", and the widest " + wood +
                       " thick enough is " + said(full(widest)) + " (" + named(*widest) + ")" +
                       orElse(part, RecipeKind::glued, "narrower");
      return;
    }
    explainPlaces(missing, part, blank, boards, wood);
  }

 private:
  /// Leaves the boards that are straight enough; true where there are none, and says so.
  bool explainGrain(ShortPart& missing, std::vector<const Board*>& boards,
                    const std::string& wood) const {
    std::vector<const Board*> straight, unknown;
    for (const Board* board : boards) {
      if (!board->grain) unknown.push_back(board);
      if (isStraight(*board, request_.shop)) straight.push_back(board);
    }
    if (!straight.empty()) {
      boards = std::move(straight);
      return false;
    }
    missing.reason = "it must be of grain no steeper than " + text(request_.shop.straightGrain) +
                     ", and no " + wood + " thick enough is known to be";
    if (!unknown.empty()) {
      missing.reason += "; measure the grain slope of " + named(*unknown.front()) +
                        (unknown.size() > 1 ? " and others" : "");
    }
    return true;
  }

  /// What would help where the part does not allow it yet.
  [[nodiscard]] std::string orElse(const Part& part, RecipeKind recipe,
                                   const std::string& wood) const {
    if (allowsRecipe(part, recipe, request_.shop)) return "";
    return "; " + std::string(word(recipe)) + ", it could be made of " + wood + " wood";
  }

  /// Of all blanks that could help to make the part the thinnest, of these the narrowest; of a
  /// recipe that no stock serves the part's own.
  [[nodiscard]] Blank leastBlank(const Part& part) const {
    PlanRequest alone = request_;
    alone.job.parts = {part};
    alone.job.parts[0].woodFrom = WoodFrom::anyBoards;
    alone.job.parts[0].group.clear();
    std::vector<Blank> blanks = ask(alone).framing.blanks;
    if (blanks.empty()) return blankFor(part, request_.shop);
    return *std::min_element(blanks.begin(), blanks.end(), [](const Blank& a, const Blank& b) {
      return std::tie(a.thickness, a.width, a.length) < std::tie(b.thickness, b.width, b.length);
    });
  }

  void explainPlaces(ShortPart& missing, const Part& part, const Blank& blank,
                     const std::vector<const Board*>& boards, const std::string& wood) {
    const Tick wanted = ticksUp(blank.length, plan_.tick);
    const Board* best = nullptr;
    Tick longest = 0;
    std::vector<std::string> unseen;
    for (const Board* board : boards) {
      const Tick seen = run(*board, part, blank, request_.choices.trustUnseen);
      if (seen > longest) {
        longest = seen;
        best = board;
      }
      if (request_.choices.trustUnseen || seen >= wanted) continue;
      if (run(*board, part, blank, true) >= wanted) unseen.push_back(named(*board));
    }
    if (!unseen.empty()) {
      missing.unseenOnly = true;
      if (unseen.size() > 4) unseen.resize(4);
      missing.reason = "the wood that could carry it has faces nobody has looked at (" +
                       joined(unseen, ", ") + ")";
    } else if (best == nullptr) {
      missing.reason = "no " + wood + " has a place " + said(blank.width) +
                       " wide that is thick enough once flat and clear of marks";
    } else if (longest < wanted) {
      missing.reason = "it needs a run of " + said(blank.length) + " and the longest such run in " +
                       best->species + " " + text(best->nominal) + " is " +
                       said(longest * plan_.tick) + " (" + named(*best) + ")";
    } else if (!part.group.empty()) {
      missing.reason = "not all of the group " + part.group + " can come from " +
                       std::string(word(part.woodFrom));
    } else if (part.woodFrom != WoodFrom::anyBoards) {
      missing.reason = "not all of it can come from " + std::string(word(part.woodFrom));
    } else {
      missing.reason = "every place that would hold it is taken by other blanks of this job";
    }
  }

  /// Longest run on the board that the part's blank may lie in, its width given; a run as long as
  /// the blank is not told from a longer one.
  [[nodiscard]] Tick run(const Board& board, const Part& part, const Blank& blank,
                         bool trustUnseen) {
    auto at = wood_.find(board.id);
    if (at == wood_.end()) {
      at = wood_.emplace(board.id, usableWood(board, request_.shop, plan_.tick)).first;
    }
    const UsableWood& wood = at->second;
    const Barring barred =
        barring(board, wood, {&part}, {blank}, request_.shop, trustUnseen, plan_.tick);
    return longestRun(wood.profile, barred.zones, barred.partClass[0],
                      ticksUp(blank.width, plan_.tick), ticksUp(blank.length, plan_.tick));
  }
  [[nodiscard]] std::string said(Length length) const { return lengthText(length, request_.unit); }
  [[nodiscard]] std::string named(const Board& board) const {
    return boardName(board, request_.unit);
  }

  const CutPlan& plan_;
  const PlanRequest& request_;
  std::map<BoardId, UsableWood> wood_;  ///< of boards asked about so far
};

}  // namespace

bool hasPlace(const optimizer::Problem& problem, std::size_t item) {
  const optimizer::Item& wanted = problem.items[item];
  return std::any_of(problem.stock.begin(), problem.stock.end(),
                     [&](const optimizer::Stock& stock) {
                       return longestRun(stock.profile, stock.zones, stock.itemClass[item],
                                         wanted.width, wanted.length) >= wanted.length;
                     });
}

std::string boardName(const Board& board, Unit unit) {
  return board.tag ? text(*board.tag) : board.species + " " + sizeText(board, unit);
}

void explainShorts(CutPlan& planned, const PlanRequest& request) {
  Explainer explainer(planned, request);
  for (ShortPart& missing : planned.shorts) {
    for (const Part& part : request.job.parts) {
      if (part.line == missing.line) explainer.explain(missing, part);
    }
  }
}

}  // namespace flitch::planning
