#include "inventory/planning/plan_notes.h"

#include <algorithm>
#include <map>
#include <optional>
#include <set>

#include "inventory/planning/plan_words.h"
#include "inventory/planning/shortage_reasons.h"
#include "inventory/records/board_weight.h"
#include "inventory/records/groups.h"
#include "inventory/records/planed_away.h"
#include "inventory/records/set_aside.h"
#include "inventory/records/show_wood.h"

namespace flitch::planning {

namespace {

constexpr std::string_view deferred = " Your machine's manual and local rules come first.";

class Notes {
 public:
  explicit Notes(PlanResult& result) : result_(result), request_(result.request) {}

  void add() {
    addWaiting();
    addTrust();
    addWaysOut();
    for (std::string& sentence : otherRecipesText(result_.others, result_.plan, request_)) {
      note(std::move(sentence));
    }
    addGroups();
    addShowWood();
    for (const std::string& taken : takenFromOthers(result_.plan, request_)) {
      note("Set aside: " + taken + ". This plan cannot be reserved as it is.");
    }
    addSmallBlanks();
    addTwoPasses();
    addDeepPlaning();
    addHeavyBoards();
  }

 private:
  void note(std::string sentence) { result_.notes.push_back(std::move(sentence)); }

  [[nodiscard]] const Part* partOf(int line) const {
    for (const Part& p : request_.job.parts) {
      if (p.line == line) return &p;
    }
    return nullptr;
  }
  [[nodiscard]] const Board* boardOf(BoardId id) const {
    for (const Board& b : request_.boards) {
      if (b.id == id) return &b;
    }
    return nullptr;
  }

  void addWaiting() {
    for (const int line : result_.plan.waiting) {
      const Part* part = partOf(line);
      if (part == nullptr) continue;
      note("Waiting: " + part->name + " (" + partLetter(line) + "), " +
           std::to_string(part->wanted()) + " wanted. The recipe \"" + part->recipe +
           "\" is none of these: " + recipeWords() + "; this plan holds no wood for it.");
    }
  }

  void addTrust() {
    const UnseenShare share =
        unseenShare(result_.plan, request_.boards, request_.job, request_.shop, request_.unit);
    result_.unseenPermille = share.permille;
    result_.unseen = share.names;
    if (share.permille > 0) note(trustText(share));
  }

  void addWaysOut() {
    for (const ShortPart& s : result_.plan.shorts) {
      const Part* part = partOf(s.line);
      if (!s.unseenOnly || part == nullptr) continue;
      note(part->name + ": " + s.reason +
           ". Two ways out: look at the faces and mark what you find, or plan with "
           "--trust-unseen.");
    }
  }

  /// What lies on wood marked for show though it would leave it to others.
  void addShowWood() {
    std::string blanks;
    for (const auto& [id, piece] : onOthersShowWood(result_.plan, request_)) {
      const Board* board = boardOf(id);
      if (board == nullptr) continue;
      blanks += (blanks.empty() ? "" : ", ") + handMark(piece.line, piece.copy) + " on " +
                boardName(*board, request_.unit);
    }
    if (!blanks.empty()) {
      note("On wood marked for show, though it shows less than others: " + blanks +
           ". Each counted " + text(usualWish, request_.sign) +
           " against this choice, and nothing in the price.");
    }
  }

  /// Where the parts of each group come from together.
  void addGroups() {
    Groups groups;
    for (const Cutting& cutting : result_.plan.cuttings) {
      addGroupBlanks(cutting, request_.job, groups);
    }
    for (const auto& [name, made] : groups) {
      std::string letters, boards;
      for (const int line : made.lines) letters += (letters.empty() ? "" : ", ") + partLetter(line);
      for (const BoardId id : made.boards) {
        const Board* board = boardOf(id);
        if (board == nullptr) continue;
        boards += (boards.empty() ? "" : ", ") + boardName(*board, request_.unit);
      }
      note("Group " + name + " (" + letters + "): all from " +
           std::string(word(partOf(*made.lines.begin())->woodFrom)) + ", " + boards + ".");
    }
  }

  /// Of the blanks planned for a part the shortest length and the greatest width; none: no blank.
  [[nodiscard]] std::optional<Rect> extremes(int line) const {
    std::optional<Rect> found;
    for (const Cutting& c : result_.plan.cuttings) {
      for (const Piece& p : c.pieces) {
        if (p.kind != PieceKind::blank || p.line != line) continue;
        if (!found) found = p.at;
        found->dx = std::min(found->dx, p.at.dx);
        found->dy = std::max(found->dy, p.at.dy);
      }
    }
    return found;
  }

  void addSmallBlanks() {
    const ShopProfile& shop = request_.shop;
    for (const Part& part : request_.job.parts) {
      const std::optional<Rect> blank = extremes(part.line);
      if (!blank) continue;
      const auto caution = [&](const std::string& what, Length size, const std::string& limit,
                               Length machine) {
        note("Caution: " + part.name + " (" + partLetter(part.line) + ") is " +
             lengthText(size, request_.unit) + " " + what + ", " + limit + " " +
             lengthText(machine, request_.unit) + "." + std::string(deferred));
      };
      if (blank->dx < shop.jointerShortest) {
        caution("long as a blank", blank->dx, "shorter than your jointer's least,",
                shop.jointerShortest);
      }
      if (part.thickness < shop.planerThinnest) {
        caution("thick when finished", part.thickness, "thinner than your planer's least,",
                shop.planerThinnest);
      }
      if (blank->dy > shop.planerWidth) {
        caution("wide as a blank", blank->dy, "wider than your planer,", shop.planerWidth);
      } else if (blank->dy > shop.jointerWidth) {
        caution("wide as a blank", blank->dy, "wider than your jointer,", shop.jointerWidth);
      }
    }
  }

  /// Wood that lay inside a thick board moves once it is opened.
  void addTwoPasses() {
    std::set<int> lines;
    for (const Cutting& cutting : result_.plan.cuttings) {
      for (const Layup& l : cutting.layups) {
        const bool opened = l.kind == LayupKind::whole && (l.turned || l.slot > 1);
        if (opened || (l.kind == LayupKind::stave && l.turned)) {
          lines.insert(cutting.pieces.at(static_cast<std::size_t>(l.piece)).line);
        }
      }
    }
    for (const int line : lines) {
      const Part* part = partOf(line);
      if (part == nullptr) continue;
      note(part->name + " (" + partLetter(line) +
           ") is sawn out of thick stock: mill it in two passes, rough over, rest a day or more, "
           "then to size (common practice).");
    }
  }

  /// Much of a blank's thickness turned to chips: wood, and an hour at the planer.
  void addDeepPlaning() {
    std::map<int, std::pair<Length, std::string>> deepest;  // by line: how much, of which board
    for (const Cutting& cutting : result_.plan.cuttings) {
      const Board* board = boardOf(cutting.board);
      for (std::size_t p = 0; board != nullptr && p < cutting.pieces.size(); ++p) {
        const Piece& piece = cutting.pieces[p];
        const Part* part = piece.kind == PieceKind::blank ? partOf(piece.line) : nullptr;
        if (part == nullptr) continue;
        const Length away = planedAway(cutting, p, *board, *part, request_.shop);
        if (away <= muchPlanedAway || away <= deepest[piece.line].first) continue;
        deepest[piece.line] = {away, boardName(*board, request_.unit)};
      }
    }
    for (const auto& [line, worst] : deepest) {
      if (worst.first <= muchPlanedAway) continue;
      note("Caution: " + partOf(line)->name + " (" + partLetter(line) + ") loses " +
           lengthText(worst.first, request_.unit) + " of " + worst.second +
           " to the planer: resaw it first, or take light passes off both faces in turn." +
           std::string(deferred));
    }
  }

  void addHeavyBoards() {
    for (const Cutting& cutting : result_.plan.cuttings) {
      const Board* board = boardOf(cutting.board);
      if (board == nullptr) continue;
      const Lifting lift = lifting(kilogramsOf(*board, request_.ownSpecies));
      if (lift == Lifting::alone) continue;
      note("Caution: " + boardName(*board, request_.unit) + " weighs " +
           weightText(*board, request_.ownSpecies, Unit::inches) + " (" +
           weightText(kilogramsOf(*board, request_.ownSpecies), Unit::millimetres) + ")" +
           (lift == Lifting::caution ? "." : "; two people lift it."));
    }
  }

  PlanResult& result_;
  const PlanRequest& request_;
};

}  // namespace

void addNotes(PlanResult& result) { Notes(result).add(); }

}  // namespace flitch::planning
