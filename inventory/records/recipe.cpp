#include "inventory/records/recipe.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <stdexcept>
#include <utility>

#include "inventory/records/blank.h"
#include "inventory/wood/writing.h"

namespace flitch {

namespace {

constexpr std::array kinds{RecipeKind::solid,       RecipeKind::glued,  RecipeKind::laminated,
                           RecipeKind::ganged,      RecipeKind::turned, RecipeKind::resawn,
                           RecipeKind::randomWidths};

std::vector<RecipeKind> byRule(const Part& part, const ShopProfile& shop) {
  if (part.width > shop.widestSolid) return {RecipeKind::glued};
  std::vector<RecipeKind> all{tooSmallAlone(part, shop) ? RecipeKind::ganged : RecipeKind::solid};
  if (part.thickness > shop.thickestSolid) all.push_back(RecipeKind::laminated);
  return all;
}

}  // namespace

std::string_view word(RecipeKind kind) {
  switch (kind) {
    case RecipeKind::solid: return "solid";
    case RecipeKind::glued: return "glued";
    case RecipeKind::laminated: return "laminated";
    case RecipeKind::ganged: return "ganged";
    case RecipeKind::turned: return "turned";
    case RecipeKind::randomWidths: return "random widths";
    case RecipeKind::resawn: return "resawn";
  }
  throw std::logic_error("no such recipe");
}

std::string recipeWords() {
  std::string all;
  for (const RecipeKind kind : kinds) all += (all.empty() ? "" : ", ") + std::string(word(kind));
  return all;
}

std::optional<RecipeKind> recipeNamed(std::string_view written) {
  if (written == "edge-glued") return RecipeKind::glued;
  const auto at =
      std::find_if(kinds.begin(), kinds.end(), [&](RecipeKind k) { return word(k) == written; });
  return at == kinds.end() ? std::nullopt : std::optional(*at);
}

std::pair<int, int> GrainRun::placeOf(int copy) const {
  int index = copy - 1;
  if (sizes.empty()) return {0, index};
  if (sizes.size() == 1) return {index / sizes[0], index % sizes[0]};
  const auto runs = static_cast<int>(sizes.size());
  for (int run = 0; run < runs; ++run) {
    const int size = sizes[static_cast<std::size_t>(run)];
    if (index < size) return {run, index};
    index -= size;
  }
  return {runs + index, 0};
}

std::optional<GrainRun> runOf(const Part& part) {
  constexpr int most = 64;
  GrainRun run;
  using Lie = GrainRun::Lie;
  std::string_view rest = trimmed(part.run);
  if (rest == "pairs") return GrainRun{Lie::pair, {2}};
  if (rest == "bookmatched") return GrainRun{Lie::leaves, {2}};
  for (const auto& [name, lie] :
       {std::pair("along", Lie::along), std::pair("across", Lie::across)}) {
    if (!rest.starts_with(name)) continue;
    run.lie = lie;
    rest.remove_prefix(std::string_view(name).size());
    rest = trimmed(rest);
    if (rest.empty()) return run;
    for (const std::string_view written : divided(rest, ',')) {
      int size = 0;
      const auto read = std::from_chars(written.data(), written.data() + written.size(), size);
      const bool whole = read.ec == std::errc() && read.ptr == written.data() + written.size();
      if (!whole || size < 1 || size > most) return std::nullopt;
      run.sizes.push_back(size);
    }
    return run;
  }
  return std::nullopt;
}

std::vector<RecipeKind> recipesOf(const Part& part, const ShopProfile& shop) {
  if (const std::optional<GrainRun> run = runOf(part)) {
    if (run->lie == GrainRun::Lie::leaves) return {RecipeKind::resawn};
    if (run->lie == GrainRun::Lie::pair) return {RecipeKind::ganged, RecipeKind::resawn};
    return {RecipeKind::ganged};
  }
  if (part.recipe.empty()) return byRule(part, shop);
  std::vector<RecipeKind> all;
  for (const std::string_view written : divided(part.recipe, '|')) {
    const std::optional<RecipeKind> kind = recipeNamed(trimmed(written));
    if (!kind) return {};
    if (std::find(all.begin(), all.end(), *kind) == all.end()) all.push_back(*kind);
  }
  return all;
}

bool waits(const Part& part, const ShopProfile& shop) { return recipesOf(part, shop).empty(); }

bool allowsRecipe(const Part& part, RecipeKind kind, const ShopProfile& shop) {
  const std::vector<RecipeKind> all = recipesOf(part, shop);
  return std::find(all.begin(), all.end(), kind) != all.end();
}

RecipeKind recipeOf(const std::vector<Layup>& layups) {
  if (layups.empty()) return RecipeKind::solid;
  const Layup& l = layups.front();
  switch (l.kind) {
    case LayupKind::lamina: return RecipeKind::laminated;
    case LayupKind::gang: return RecipeKind::ganged;
    case LayupKind::stave:
      if (l.turned) return RecipeKind::turned;
      return l.section > 0 ? RecipeKind::glued : RecipeKind::randomWidths;
    case LayupKind::whole: break;
  }
  if (l.turned) return RecipeKind::turned;
  return layups.size() > 1 ? RecipeKind::resawn : RecipeKind::solid;
}

std::string recipeText(const Part& part, const ShopProfile& shop) {
  if (runOf(part)) return "run " + part.run;
  std::string words;
  for (const RecipeKind kind : recipesOf(part, shop)) {
    words += (words.empty() ? "" : " or ") + std::string(word(kind));
  }
  return words.empty() ? part.recipe : words;
}

bool ofOneLog(const Board& a, const Board& b) {
  if (a.id == b.id) return true;
  const bool delivered = a.delivery && b.delivery;
  return !a.log.empty() && a.log == b.log && a.species == b.species &&
         (!delivered || a.delivery == b.delivery);
}

namespace {

using Boards = std::vector<const Board*>;

std::set<BoardId> idsOf(const Boards& boards) {
  std::set<BoardId> ids;
  for (const Board* board : boards) ids.insert(board->id);
  return ids;
}

/// The rows of neighbours among boards of one log.
std::set<std::set<BoardId>> rowsOf(Boards log) {
  std::sort(log.begin(), log.end(),
            [](const Board* a, const Board* b) { return a->placeInLog < b->placeInLog; });
  std::set<std::set<BoardId>> rows;
  Boards row;
  for (const Board* board : log) {
    if (!row.empty() && board->placeInLog > row.back()->placeInLog + 1) {
      rows.insert(idsOf(row));
      row.clear();
    }
    row.push_back(board);
  }
  if (!row.empty()) rows.insert(idsOf(row));
  return rows;
}

/// The sets of one log that a board belongs to: an offcut of no known delivery to one for each.
std::set<std::set<BoardId>> logsOf(const Board& first, const Boards& boards, WoodFrom from) {
  Boards together;
  std::set<DeliveryId> deliveries;
  for (const Board* board : boards) {
    if (!ofOneLog(first, *board)) continue;
    together.push_back(board);
    if (board->delivery) deliveries.insert(board->delivery);
  }
  if (deliveries.empty()) deliveries.insert(DeliveryId{});
  std::set<std::set<BoardId>> sets;
  for (const DeliveryId delivery : deliveries) {
    Boards log;
    for (const Board* board : together) {
      if (!board->delivery || board->delivery == delivery) log.push_back(board);
    }
    if (from == WoodFrom::oneLog) {
      sets.insert(idsOf(log));
    } else {
      sets.merge(rowsOf(std::move(log)));
    }
  }
  return sets;
}

}  // namespace

std::set<std::set<BoardId>> sourcesOf(const std::vector<Board>& boards, WoodFrom from) {
  Boards all;
  for (const Board& board : boards) all.push_back(&board);
  std::set<std::set<BoardId>> sources;
  if (from == WoodFrom::anyBoards) {
    sources.insert(idsOf(all));
    return sources;
  }
  Boards placed = all;
  if (from == WoodFrom::sisters) {
    std::erase_if(placed, [](const Board* board) { return board->placeInLog == 0; });
  }
  for (const Board* board : all) {
    const bool alone = from == WoodFrom::oneBoard || board->log.empty() ||
                       (from == WoodFrom::sisters && board->placeInLog == 0);
    if (alone) {
      sources.insert({board->id});
    } else {
      sources.merge(logsOf(*board, placed, from));
    }
  }
  return sources;
}

StaveRange staveRange(const Part& part, const ShopProfile& shop) {
  const bool own = part.stavesTo > Length();
  const Length most = std::min(own ? part.stavesTo : shop.widestStave, shop.planerWidth);
  return {std::min(own ? part.stavesFrom : shop.narrowestStave, most), most};
}

}  // namespace flitch
