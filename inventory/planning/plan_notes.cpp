#include "inventory/planning/plan_notes.h"

#include <algorithm>

#include "inventory/planning/plan_words.h"
#include "inventory/planning/shortage_reasons.h"
#include "inventory/records/blank.h"
#include "inventory/records/board_weight.h"
#include "inventory/records/recipe.h"

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
    addSmallBlanks();
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
           "\" cannot be planned yet; this plan holds no wood for it.");
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

  [[nodiscard]] bool planned(int line) const {
    for (const Cutting& c : result_.plan.cuttings) {
      for (const Piece& p : c.pieces) {
        if (p.kind == PieceKind::blank && p.line == line) return true;
      }
    }
    return false;
  }

  void addSmallBlanks() {
    const ShopProfile& shop = request_.shop;
    for (const Part& part : request_.job.parts) {
      if (waits(part, shop) || !planned(part.line)) continue;
      const bool glued = !allowsRecipe(part, RecipeKind::solid, shop);
      const Blank blank =
          glued ? staveFor(part, staveRange(part, shop).most, shop) : blankFor(part, shop);
      const auto caution = [&](const std::string& what, Length size, const std::string& limit,
                               Length machine) {
        note("Caution: " + part.name + " (" + partLetter(part.line) + ") is " +
             lengthText(size, request_.unit) + " " + what + ", " + limit + " " +
             lengthText(machine, request_.unit) + "." + std::string(deferred));
      };
      if (blank.length < shop.jointerShortest) {
        caution("long as a blank", blank.length, "shorter than your jointer's least,",
                shop.jointerShortest);
      }
      if (part.thickness < shop.planerThinnest) {
        caution("thick when finished", part.thickness, "thinner than your planer's least,",
                shop.planerThinnest);
      }
      if (blank.width > shop.planerWidth) {
        caution("wide as a blank", blank.width, "wider than your planer,", shop.planerWidth);
      } else if (blank.width > shop.jointerWidth) {
        caution("wide as a blank", blank.width, "wider than your jointer,", shop.jointerWidth);
      }
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
