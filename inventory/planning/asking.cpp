#include "inventory/planning/asking.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <optional>
#include <set>
#include <utility>

#include "inventory/planning/staves.h"
#include "inventory/records/account.h"
#include "inventory/records/groups.h"
#include "inventory/records/show_wood.h"

namespace flitch::planning {

namespace {

/// Widths of unglued boards are counted in these; small enough that little is lost, and no part of
/// the grid.
constexpr Length fillStep = Length::sixtyFourths(4);

int laidOf(const Part& part, const PlanRequest& request) {
  const std::vector<LaidByHand>& laid = request.choices.laid;
  return static_cast<int>(std::count_if(laid.begin(), laid.end(),
                                        [&](const LaidByHand& l) { return l.line == part.line; }));
}

Refusal laidBadly(const Part& part, const std::string& why) {
  const std::string name = partLetter(part.line) + " " + part.name;
  return {"laid-badly", Complaint{"", name + ": " + why, name, "blanks laid where they can lie"}};
}

class Asker {
 public:
  explicit Asker(const PlanRequest& request) : request_(request), shop_(request.shop) {}

  void askPart(std::size_t index) {
    look(index);
    if (recipes_.empty()) return;
    const Copies copies = wantedCopies();
    if (copies.laid > 0) {
      askBeside(copies);
      return;
    }
    askCommissioned(copies);
    askSetUps(copies);
  }

  /// Parts of one group: indices into Job::parts.
  void askGroup(const std::vector<std::size_t>& members) {
    GroupWant group;
    std::vector<std::vector<RecipeKind>> choices;
    for (const std::size_t index : members) {
      look(index);
      choices.push_back(recipes_);
      const Copies copies = wantedCopies();
      const int count = recipes_.empty() ? 0 : copies.commissioned();
      if (count <= 0) continue;
      group.copies[index] = count;
      group.price += shortagePrice(*part_, request_) * count;
    }
    for (const std::size_t index : members) {
      look(index);
      if (recipes_.empty()) continue;
      Copies copies = wantedCopies();
      askSetUps(copies);
      if (copies.laid == 0) continue;
      // The item of what is laid, of which no more is asked here.
      copies.beside = std::min(copies.beside, 0);
      askBeside(copies);
    }
    if (group.copies.empty()) return;
    group.need = need(1, group.price);
    for (const std::set<BoardId>& source : sourcesOf(members)) {
      for (const std::vector<RecipeKind>& choice : combined(choices)) {
        askWay(group, members, choice, source);
      }
    }
    out_.framing.groups.push_back(std::move(group));
  }

  /// See ask() on wood marked for show.
  void offerOffShow() {
    if (!showWoodCounts(request_)) return;
    std::vector<optimizer::Item>& items = out_.framing.problem.items;
    const std::size_t all = items.size();
    out_.offShow.assign(all, false);
    for (std::size_t i = 0; i < all; ++i) {
      const LayupKind kind = out_.framing.forms[i].kind;
      if (kind == LayupKind::stave || kind == LayupKind::lamina) continue;
      if (!leavesShowWood(*out_.partOfItem[i], request_.job, shop_)) continue;
      out_.offShow[i] = true;
      items.push_back(items[i]);
      items.back().extra += usualWish.raw();
      out_.framing.blanks.push_back(out_.framing.blanks[i]);
      out_.framing.forms.push_back(out_.framing.forms[i]);
      out_.partOfItem.push_back(out_.partOfItem[i]);
      out_.source.push_back(out_.source[i]);
      out_.offShow.push_back(false);
    }
  }

  Asked done() { return std::move(out_); }

 private:
  /// Copies of a part still wanted.
  struct Copies {
    std::vector<std::pair<int, Brought>> begun;
    std::vector<int> untouched, setUps;
    int laid = 0;    ///< by hand, of these
    int beside = 0;  ///< where some are laid: all others
    [[nodiscard]] int commissioned() const {
      return laid > 0 ? beside : static_cast<int>(begun.size() + untouched.size());
    }
  };

  void look(std::size_t index) {
    part_ = &request_.job.parts[index];
    index_ = index;
    recipes_ = recipesOf(*part_, shop_);
  }

  [[nodiscard]] Copies wantedCopies() const {
    Copies copies;
    const MadeBefore before = madeBefore(*part_, request_);
    int wanted = part_->wanted() - static_cast<int>(before.copies.size());
    copies.laid = laidOf(*part_, request_);
    if (copies.laid > 0) {
      copies.beside = wanted - copies.laid;
      return copies;
    }
    for (int copy = 1; wanted > 0; ++copy) {
      if (before.copies.count(copy) > 0) continue;
      --wanted;
      const auto begun = before.begun.find(copy);
      if (begun != before.begun.end()) {
        copies.begun.push_back(*begun);
      } else {
        (part_->isSetUp(copy) ? copies.setUps : copies.untouched).push_back(copy);
      }
    }
    return copies;
  }

  void askCommissioned(const Copies& copies) {
    for (const auto& [copy, brought] : copies.begun) askRest(copy, brought);
    askUntouched(copies.untouched);
  }

  void askSetUps(const Copies& copies) {
    if (copies.setUps.empty()) return;
    part_ = &out_.setUps.emplace_back(asSetUp(*part_));
    askUntouched(copies.setUps);
  }

  /// The sources of a group that hold all that is locked or laid of it.
  [[nodiscard]] std::set<std::set<BoardId>> sourcesOf(
      const std::vector<std::size_t>& members) const {
    const Part& first = request_.job.parts[members.front()];
    Groups locked;
    for (const Lock& lock : request_.choices.locks) {
      addGroupBlanks(lock.cutting, request_.job, locked);
    }
    std::set<BoardId> bound = locked[first.group].boards;
    std::set<int> lines;
    for (const std::size_t index : members) lines.insert(request_.job.parts[index].line);
    for (const LaidByHand& laid : request_.choices.laid) {
      if (lines.count(laid.line) > 0) bound.insert(laid.board);
    }
    std::set<std::set<BoardId>> sources = flitch::sourcesOf(request_.boards, first.woodFrom);
    std::erase_if(sources, [&](const std::set<BoardId>& source) {
      return !std::includes(source.begin(), source.end(), bound.begin(), bound.end());
    });
    if (sources.empty()) {
      throw Refusal("mixed-wood",
                    Complaint{"",
                              "What is locked or laid of the group " + first.group + " is not of " +
                                  std::string(word(first.woodFrom)),
                              first.group, "blanks of the group on boards that go together"});
    }
    return sources;
  }

  /// A recipe for each member, in every combination while these are few.
  [[nodiscard]] static std::vector<std::vector<RecipeKind>> combined(
      const std::vector<std::vector<RecipeKind>>& choices) {
    constexpr std::size_t most = 4;
    std::vector<std::vector<RecipeKind>> all{{}};
    for (const std::vector<RecipeKind>& allowed : choices) {
      if (allowed.empty()) continue;  // the part waits
      const std::size_t taken = all.size() * allowed.size() <= most ? allowed.size() : 1;
      std::vector<std::vector<RecipeKind>> longer;
      for (const std::vector<RecipeKind>& begun : all) {
        for (std::size_t r = 0; r < taken; ++r) {
          longer.push_back(begun);
          longer.back().push_back(allowed[r]);
        }
      }
      all = std::move(longer);
    }
    return all;
  }

  /// One way to make a group whole, left out again where the source cannot be enough.
  void askWay(GroupWant& group, const std::vector<std::size_t>& members,
              const std::vector<RecipeKind>& choice, const std::set<BoardId>& source) {
    const std::size_t needs = out_.framing.problem.needs.size(), wants = out_.framing.wants.size(),
                      items = out_.framing.problem.items.size();
    inSource(source);
    inWay_ = true;
    wayCost_ = 0;
    std::size_t chosen = 0;
    for (const std::size_t index : members) {
      look(index);
      if (recipes_.empty()) continue;
      recipes_ = {choice[chosen++]};
      const Copies copies = wantedCopies();
      if (copies.laid == 0) {
        askCommissioned(copies);
      } else if (copies.beside > 0) {
        askBeside(copies);
      }
    }
    std::vector<optimizer::Supply> uses = usesOf(wants);
    if (mayBeEnough(uses, items)) {
      out_.framing.problem.recipes.push_back({wayCost_, std::move(uses), group.need});
      group.ways.emplace_back(out_.framing.wants.size() - wants);
      std::iota(group.ways.back().begin(), group.ways.back().end(), wants);
    } else {
      out_.framing.problem.needs.resize(needs);
      out_.framing.wants.resize(wants);
      out_.framing.problem.items.resize(items);
      out_.framing.blanks.resize(items);
      out_.framing.forms.resize(items);
      out_.partOfItem.resize(items);
      out_.source.resize(items);
    }
    inWay_ = false;
    anywhere();
  }

  /// What all copies of the wants from this one on use, each made in the one way that has items.
  /// Empty: some want has none.
  std::vector<optimizer::Supply> usesOf(std::size_t from) {
    std::set<int> supplied;
    for (const optimizer::Item& item : out_.framing.problem.items) supplied.insert(item.need);
    std::vector<optimizer::Supply> uses;
    for (std::size_t w = from; w < out_.framing.wants.size(); ++w) {
      Want& want = out_.framing.wants[w];
      std::erase_if(want.makings, [&](const Making& m) { return supplied.count(m.need) == 0; });
      if (want.makings.size() != 1) return {};
      const Making& making = want.makings.front();
      uses.push_back({making.need, making.units * static_cast<std::int64_t>(want.copies.size())});
    }
    return uses;
  }

  /// Whether the source's boards might hold these uses of the items from this one on: each lies on
  /// some board, and all of it is no larger than all boards together.
  [[nodiscard]] bool mayBeEnough(const std::vector<optimizer::Supply>& uses,
                                 std::size_t items) const {
    const auto area = [](Length l, Length w) { return (l.nm() / 1000) * (w.nm() / 1000); };
    const Framing& asked = out_.framing;
    std::int64_t room = 0;  // square micrometres
    for (const Board& board : within_->boards) {
      room += area(board.length() + Length::micrometres(1),
                   greatestWidth(board) + Length::micrometres(1));
    }
    for (const optimizer::Supply& use : uses) {
      std::optional<std::int64_t> least;  // to a unit
      for (std::size_t i = items; i < asked.blanks.size(); ++i) {
        if (asked.problem.items[i].need != use.need || !liesSomewhere(i)) continue;
        const std::int64_t unit =
            area(asked.blanks[i].length, asked.blanks[i].width) / asked.problem.items[i].supplies;
        least = std::min(least.value_or(unit), unit);
      }
      if (!least) return false;
      room -= *least * use.amount;
    }
    return !uses.empty() && room >= 0;
  }
  [[nodiscard]] bool liesSomewhere(std::size_t item) const {
    const Blank& blank = out_.framing.blanks[item];
    const auto& species = out_.partOfItem[item]->species;
    return std::any_of(within_->boards.begin(), within_->boards.end(), [&](const Board& board) {
      return std::find(species.begin(), species.end(), board.species) != species.end() &&
             board.length() >= blank.length && greatestWidth(board) >= blank.width &&
             board.thickness >= blank.thickness;
    });
  }

  void inSource(const std::set<BoardId>& source) {
    within_.emplace();
    within_->shop = shop_;
    within_->unit = request_.unit;
    for (const Board& board : request_.boards) {
      if (source.count(board.id) > 0) within_->boards.push_back(board);
    }
    source_ = std::make_shared<const std::set<BoardId>>(source);
  }
  void anywhere() {
    within_.reset();
    source_.reset();
  }

  [[nodiscard]] bool allowed(RecipeKind kind) const {
    return std::find(recipes_.begin(), recipes_.end(), kind) != recipes_.end();
  }

  /// What is wanted of a part beside the blanks laid by hand; their item is there all the same.
  void askBeside(const Copies& all) {
    const int wanted = all.beside;
    const bool oneBlank = recipes_.size() == 1 && recipes_.front() == RecipeKind::solid;
    if (!oneBlank || runOf(*part_) || part_->setUps > 0) {
      throw laidBadly(*part_, "only a part that is one blank is laid by hand");
    }
    if (wanted < 0) {
      throw laidBadly(*part_, "more are laid by hand than are wanted");
    }
    std::vector<int> copies(static_cast<std::size_t>(wanted));
    std::iota(copies.begin(), copies.end(), 1);
    want(std::move(copies));
    making(now().need, 1, false);
    askSolid();
  }

  void askUntouched(std::vector<int> copies) {
    if (copies.empty()) return;
    if (const std::optional<GrainRun> run = runOf(*part_)) {
      askRuns(*run, copies);
    } else if (allowed(RecipeKind::randomWidths)) {
      for (const int copy : copies) askCopies({copy});
    } else {
      askCopies(std::move(copies));
    }
  }

  /// Runs of one length together: each blank takes the next so many copies.
  void askRuns(const GrainRun& run, const std::vector<int>& copies) {
    std::map<int, std::vector<int>> runs;  // copies of each
    for (const int copy : copies) runs[run.placeOf(copy).first].push_back(copy);
    std::map<std::size_t, std::vector<int>> sizes;
    for (const auto& [number, list] : runs) {
      std::vector<int>& all = sizes[list.size()];
      all.insert(all.end(), list.begin(), list.end());
    }
    for (auto& [size, list] : sizes) {
      const auto pieces = static_cast<int>(size);
      want(std::move(list));
      making(now().need, 1, false);
      using Lie = GrainRun::Lie;
      const auto ganged = [&](Lie lie) {
        if (!run.may(lie)) return;
        item(runFor(*part_, pieces, lie == Lie::across, shop_), now().need, pieces,
             {LayupKind::gang, pieces, false, part_->width});
      };
      ganged(Lie::along);
      if (run.lie == Lie::pair && pieces == 1) continue;  // alone it lies one way
      ganged(Lie::across);
      if (run.may(Lie::leaves)) askLeaf(pieces);
    }
  }

  /// What a copy lacks, in the way it was begun.
  void askRest(int copy, const Brought& brought) {
    const bool laminated = brought.kind == LayupKind::lamina;
    const Length left = (laminated ? part_->thickness : part_->width) - brought.sum;
    want({copy});
    (laminated ? now().thick : now().left) = left;
    const bool strips = begunTurned(copy);
    forSources(copy, [&] {
      if (laminated) {
        askLaminae(left, 1);
      } else if (strips) {
        askStrips(left, 1);
      } else if (allowed(RecipeKind::randomWidths) && !allowed(RecipeKind::glued)) {
        askWidths(left);
      } else {
        askPanels(left);
      }
    });
  }
  [[nodiscard]] bool begunTurned(int copy) const {
    return std::any_of(request_.laid.begin(), request_.laid.end(), [&](const LaidBefore& l) {
      return l.line == part_->line && l.layup.copy == copy && l.layup.turned;
    });
  }

  void askCopies(std::vector<int> copies) {
    const int count = static_cast<int>(copies.size());
    want(std::move(copies));
    making(now().need, 1, false);
    for (const RecipeKind recipe : recipes_) {
      switch (recipe) {
        case RecipeKind::solid: askSolid(); break;
        case RecipeKind::ganged: askGangs(count); break;
        case RecipeKind::resawn: askLeaves(count); break;
        case RecipeKind::turned: askTurned(); break;
        case RecipeKind::glued: forSources(0, [this] { askPanels(part_->width); }); break;
        case RecipeKind::laminated:
          forSources(0, [this] { askLaminae(part_->thickness, 2); });
          break;
        case RecipeKind::randomWidths: forSources(0, [this] { askWidths(part_->width); }); break;
      }
    }
  }

  /// Asks once for any boards, or once for each log or board that a copy of the part may come from
  /// whole. `copy`: one begun before; 0: one not begun.
  template <class Ask>
  void forSources(int copy, Ask askOnce) {
    if (inWay_ || part_->woodFrom == WoodFrom::anyBoards) {
      askOnce();
      return;
    }
    for (const std::set<BoardId>& source : sourcesFor(copy)) {
      inSource(source);
      if (enough(within_->boards)) askOnce();
    }
    anywhere();
  }

  /// Each set of boards that go together and hold what is locked of the copy.
  [[nodiscard]] std::set<std::set<BoardId>> sourcesFor(int copy) const {
    std::set<std::set<BoardId>> sources = flitch::sourcesOf(request_.boards, part_->woodFrom);
    const std::vector<BoardId> locked = lockedFor(copy);
    std::erase_if(sources, [&](const std::set<BoardId>& source) {
      return std::any_of(locked.begin(), locked.end(),
                         [&](BoardId board) { return source.count(board) == 0; });
    });
    return sources;
  }
  /// The locked boards that blanks of the copy lie on.
  [[nodiscard]] std::vector<BoardId> lockedFor(int copy) const {
    std::vector<BoardId> boards;
    for (const Lock& lock : request_.choices.locks) {
      for (const Layup& l : lock.cutting.layups) {
        const Piece& piece = lock.cutting.pieces[static_cast<std::size_t>(l.piece)];
        if (piece.line == part_->line && l.copy == copy) boards.push_back(lock.cutting.board);
      }
    }
    return boards;
  }
  /// That the boards may hold the part's faces at all: what they cannot, no division makes them.
  [[nodiscard]] bool enough(const std::vector<Board>& boards) const {
    if (std::any_of(request_.laid.begin(), request_.laid.end(),
                    [&](const LaidBefore& l) { return l.line == part_->line; })) {
      return true;
    }
    Length width;
    for (const Board& board : boards) {
      const auto& species = part_->species;
      if (std::find(species.begin(), species.end(), board.species) == species.end()) continue;
      const bool turned = allowed(RecipeKind::turned);
      const Length across = turned ? part_->width : greatestWidth(board);
      width += across * stepsDown(board.length(), part_->length);
    }
    return width >= part_->width;
  }

  void askSolid() {
    BlankForm form;
    // Numbers on blanks are copies only where no other blanks of the part are numbered too.
    form.bare = recipes_.size() == 1 && part_->setUps == 0;
    form.gives = part_->width;
    item(blankFor(*part_, shop_), now().need, 1, form);
  }

  void askGangs(int count) {
    for (const int pieces : gangSizes(*part_, count, shop_)) {
      item(gangFor(*part_, pieces, shop_), now().need, pieces,
           {LayupKind::gang, pieces, false, part_->width});
    }
  }

  void askLeaves(int count) {
    // Wider than the band saw resaws, each comes out of a blank of its own.
    const int most = part_->width + shop_.addWidth > shop_.resawHeight ? 1 : count;
    for (int leaves = allowed(RecipeKind::solid) ? 2 : 1; leaves <= most; ++leaves) {
      if (!askLeaf(leaves)) break;
    }
  }
  /// A blank resawn into so many; false where no stock is that thick.
  bool askLeaf(int leaves) {
    const Length width = part_->width + shop_.addWidth;
    Blank blank = resawnFor(*part_, leaves, shop_);
    Length thickest;
    for (const Length t : thicknesses(width)) thickest = std::max(thickest, t);
    if (leaves > 1 && (blank.thickness > thickest || width > shop_.resawHeight)) return false;
    const Money cut = labour(shop_, shop_.cutMinutes);
    item(std::move(blank), now().need, leaves, {LayupKind::whole, leaves, false, part_->width},
         (leaves - 1) * cut.raw());
    return true;
  }

  /// A strip as wide as the part where some stock is that thick; else strips glued to a panel.
  void askTurned() {
    const std::vector<Length> thick = thicknesses(part_->thickness + shop_.jointStave);
    const bool oneStrip = std::any_of(thick.begin(), thick.end(), [&](Length t) {
      return t >= part_->width + 2 * shop_.addPerFace;
    });
    if (!oneStrip) {
      forSources(0, [this] { askStrips(part_->width, 2); });
      return;
    }
    item(turnedFor(*part_, part_->width, shop_), now().need, 1,
         {LayupKind::whole, 1, true, part_->width});
  }
  void askStrips(Length width, int least) {
    const Length filled = width + shop_.glueTrim;
    const Length rip = part_->thickness + shop_.jointStave;
    for (const int strips :
         fewest(layersOf(filled, 2 * shop_.addPerFace, least, thicknesses(rip)))) {
      const Length gives = shared(filled, strips);
      const int need = usedFor(strips);
      making(need, strips, false);
      item(turnedFor(*part_, gives, shop_), need, 1, {LayupKind::stave, 1, true, gives}, gluing(1));
    }
  }

  void askPanels(Length width) {
    const std::vector<Division> divisions = divisionsOf(*part_, width, stock());
    std::int64_t units = 1;
    for (const Division& d : divisions) units = std::lcm(units, std::int64_t{d.staves});
    const int need = usedFor(units);
    making(need, units, true);
    for (const Division& d : divisions) {
      item(staveFor(*part_, d.width, shop_), need, units / d.staves,
           {LayupKind::stave, 1, false, d.width - shop_.jointStave}, gluing(1));
    }
  }

  void askLaminae(Length thickness, int least) {
    const Length width = laminaFor(*part_, thickness, 1, shop_).width;
    std::vector<int> numbers =
        fewest(layersOf(thickness, 2 * shop_.addPerFace, least, thicknesses(width)));
    if (part_->laminae > 0 && least > 1) numbers = {part_->laminae};
    const auto copies = static_cast<int>(now().copies.size());
    for (const int layers : numbers) {
      const Length gives = shared(thickness, layers);
      // To the copy, since places of a gang may stay empty.
      const int need = usedFor(layers, gluing(layers));
      making(need, layers, false);
      for (const int pieces : laminaSizes(copies)) {
        item(laminaFor(*part_, gives, pieces, shop_), need, pieces,
             {LayupKind::lamina, pieces, false, gives});
      }
    }
  }
  [[nodiscard]] std::vector<int> laminaSizes(int copies) const {
    if (!tooSmallAlone(*part_, shop_)) return {1};
    return gangSizes(*part_, copies, shop_);
  }

  /// What the gluing of so many staves or laminae counts.
  [[nodiscard]] optimizer::Worth gluing(int pieces) const {
    return labour(shop_, shop_.glueMinutes).raw() * pieces;
  }

  /// One way to make a group has one number of layers.
  [[nodiscard]] std::vector<int> fewest(std::vector<int> numbers) const {
    if (inWay_ && numbers.size() > 1) numbers.resize(1);
    return numbers;
  }

  void askWidths(Length width) {
    const StaveRange range = staveRange(*part_, shop_);
    const std::int64_t units = stepsUp(width, fillStep);
    const int need = usedFor(units);
    making(need, units, false);
    constexpr int kinds = 7;
    std::set<Length> widths;
    const Length step = fillStep * 2;
    for (int k = 0; k < kinds; ++k) {
      const Length at = range.least + (range.most - range.least) * k / (kinds - 1);
      widths.insert(std::max(range.least, stepsDown(at, step) * step));
    }
    for (const Length w : widths) {
      const Length gives = w - shop_.jointStave;
      const std::int64_t supplies = stepsDown(gives, fillStep);
      if (supplies < 1) continue;
      item(staveFor(*part_, w, shop_), need, std::min(supplies, units),
           {LayupKind::stave, 1, false, gives, true});
    }
  }

  /// Of the stock the part may come from, once a blank of it that wide is flat.
  [[nodiscard]] std::vector<Length> thicknesses(Length width) const {
    std::vector<Length> all;
    for (const Board& board : stock().boards) {
      const auto& species = part_->species;
      if (std::find(species.begin(), species.end(), board.species) == species.end()) continue;
      const Length length = part_->length + shop_.addLength;
      if (board.length() < length || greatestWidth(board) < width) continue;
      all.push_back(thicknessOver(board, length, width, false));
    }
    return all;
  }
  /// The request, or its shop with the boards of the source asked of.
  [[nodiscard]] const PlanRequest& stock() const { return within_ ? *within_ : request_; }
  /// A share of `whole`, never too little.
  [[nodiscard]] static Length shared(Length whole, int shares) {
    const Length least = Length::nanometres(1);
    return stepsUp(whole, shares * least) * least;
  }

  Want& now() { return out_.framing.wants.back(); }
  void want(std::vector<int> copies) {
    Want made;
    made.part = index_;
    made.need = need(inWay_ ? 0 : static_cast<std::int64_t>(copies.size()),
                     shortagePrice(*part_, request_));
    made.price = Money::tenThousandths(out_.framing.problem.needs.back().shortage);
    made.copies = std::move(copies);
    made.left = part_->width;
    made.thick = part_->thickness;
    out_.framing.wants.push_back(std::move(made));
  }
  void making(int need, std::int64_t units, bool divided) {
    now().makings.push_back({need, units, divided});
  }
  /// A need of which a recipe takes `units` to make a copy. Buying a unit is never worth it.
  int usedFor(std::int64_t units, optimizer::Worth cost = 0) {
    const int used = need(0, now().price);
    if (inWay_) {
      wayCost_ += cost * static_cast<std::int64_t>(now().copies.size());
    } else {
      out_.framing.problem.recipes.push_back({cost, {{used, units}}, now().need});
    }
    return used;
  }
  int need(std::int64_t amount, Money price) {
    out_.framing.problem.needs.push_back({amount, price.raw()});
    return static_cast<int>(out_.framing.problem.needs.size()) - 1;
  }
  void item(Blank blank, int need, std::int64_t supplies, const BlankForm& form,
            optimizer::Worth extra = 0) {
    optimizer::Item item;
    item.need = need;
    item.supplies = supplies;
    item.extra = extra;
    out_.framing.problem.items.push_back(item);
    out_.framing.blanks.push_back(std::move(blank));
    out_.framing.forms.push_back(form);
    out_.partOfItem.push_back(part_);
    out_.source.push_back(source_);
  }

  const PlanRequest& request_;
  const ShopProfile& shop_;
  Asked out_;
  const Part* part_ = nullptr;
  std::size_t index_ = 0;
  std::vector<RecipeKind> recipes_;
  std::optional<PlanRequest> within_;  ///< of the log or board asked of
  std::shared_ptr<const std::set<BoardId>> source_;
  bool inWay_ = false;  ///< a way to make a group is asked for, whose recipe is its own
  optimizer::Worth wayCost_ = 0;
};

}  // namespace

Asked ask(const PlanRequest& request) {
  Asker asker(request);
  const std::vector<Part>& parts = request.job.parts;
  std::map<std::string, std::vector<std::size_t>> groups;
  for (std::size_t p = 0; p < parts.size(); ++p) {
    if (parts[p].group.empty()) {
      asker.askPart(p);
    } else {
      groups[parts[p].group].push_back(p);
    }
  }
  for (const auto& [name, members] : groups) asker.askGroup(members);
  asker.offerOffShow();
  return asker.done();
}

std::vector<int> gangSizes(const Part& part, int wanted, const ShopProfile& shop) {
  constexpr int most = 64;
  const Length longest = 6 * shop.jointerShortest;
  const auto widened = [&](int pieces) {
    const Blank blank = gangFor(part, pieces, shop);
    const Blank next = gangFor(part, pieces + 1, shop);
    // A blank at its least grows by less than a piece and its kerf.
    return next.across == 1 ? next.length - blank.length < part.length + shop.crosscutKerf
                            : next.width - blank.width < part.width + shop.ripKerf;
  };
  int least = 1;
  while (least < std::min(wanted, most) && widened(least)) ++least;
  // A part of its own accord ganged though it is large enough is paired at least.
  if (least == 1) least = std::min(2, wanted);
  std::set<int> sizes;
  for (int n = least; n < std::max(2 * least, least + 2) && n <= wanted; ++n) sizes.insert(n);
  const Blank all = gangFor(part, wanted, shop);
  if (wanted <= most && all.length <= longest && all.width <= shop.jointerWidth) {
    sizes.insert(wanted);
  }
  return {sizes.begin(), sizes.end()};
}

std::vector<int> layersOf(Length whole, Length lost, int least,
                          const std::vector<Length>& thicknesses) {
  constexpr std::size_t most = 3;
  constexpr int thinnest = 24;
  std::set<int> numbers;
  for (const Length t : thicknesses) {
    if (t <= lost) continue;
    const std::int64_t layers = std::max<std::int64_t>(least, stepsUp(whole, t - lost));
    if (layers <= thinnest) numbers.insert(static_cast<int>(layers));
  }
  std::vector<int> few(numbers.begin(), numbers.end());
  if (few.size() > most) few.resize(most);
  return few;
}

}  // namespace flitch::planning
