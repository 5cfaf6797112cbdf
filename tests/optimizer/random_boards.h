#pragma once
#include <algorithm>

#include "optimizer/problem.h"
#include "tests/optimizer/draw.h"

namespace flitch::optimizer {

struct BoardSize {
  int length = 10, width = 6, items = 3;
};

/// A random board with all that can happen to one: outline, zones and edge zones for each
/// orientation, kerfs, cut costs, offcuts in bands.
[[nodiscard]] inline Stock randomStock(Draw& draw, const BoardSize& size, std::size_t items) {
  Stock stock;
  const Tick l = draw(2, size.length), w = draw(1, size.width);
  stock.profile = Profile::rectangle(l, w);
  stock.cost = draw(0, 200);
  if (draw.oneIn(2))
    for (std::size_t x = 0; x < stock.profile.low.size(); ++x) {
      if (draw.oneIn(3)) stock.profile.low[x] = draw(0, w / 2);
      if (draw.oneIn(3)) stock.profile.high[x] = draw(w / 2, w);
    }
  for (std::size_t i = 0; i < items; ++i)
    stock.itemClass.push_back(draw(0, 9) == 0 ? noClass : draw(0, 2));
  const auto zone = [&] {
    Zone z;
    z.where.x = draw(0, l - 1);
    z.where.y = draw(0, w - 1);
    z.where.dx = draw(1, std::max(1, l / 3));
    z.where.dy = draw(draw.oneIn(5) ? 0 : 1, std::max(1, w / 3));
    if (!draw.oneIn(4)) z.barred = static_cast<ClassSet>(draw(0, 15));
    if (draw.oneIn(3)) z.nearEdge = static_cast<ClassSet>(draw(0, 15));
    if (draw.oneIn(3)) z.farEdge = static_cast<ClassSet>(draw(0, 15));
    return z;
  };
  for (int n = draw(0, 3); n > 0; --n) {
    const Zone z = zone();
    for (auto& zones : stock.zones) zones.push_back(z);
  }
  for (auto& zones : stock.zones)
    if (draw.oneIn(3)) zones.push_back(zone());
  if (!draw.oneIn(3)) {
    stock.offcuts.leastLength = draw(0, 4);
    stock.offcuts.leastWidth = draw(0, 2);
    stock.offcuts.cls = draw.oneIn(4) ? noClass : 3;
    Tick from = draw(0, 2);
    std::int64_t rate = draw(0, 1) == 0 ? (std::int64_t{draw(1, 8)} << 30)
                                        : (std::int64_t{draw(1, 8)} << 30) + draw(0, 1 << 30);
    for (int b = draw(1, 2); b > 0; --b) {
      stock.offcuts.bands.push_back({from, rate});
      from += draw(1, 4);
      rate += std::int64_t{draw(0, 3)} << 29;
    }
  }
  return stock;
}

[[nodiscard]] inline Problem randomBoard(Draw& draw, const BoardSize& size) {
  Problem problem;
  problem.saw.kerfX = draw(0, 2);
  problem.saw.kerfY = draw(0, 2);
  if (draw.oneIn(2)) {
    problem.saw.crosscut = draw(0, 6);
    problem.saw.rip = draw(0, 6);
  }
  problem.saw.first = static_cast<FirstCut>(draw(0, 2));
  const int items = draw(1, size.items);
  problem.needs.resize(static_cast<std::size_t>(items), {10, 100});
  for (int i = 0; i < items; ++i)
    problem.items.push_back({draw(1, size.length * 2 / 3), draw(1, size.width * 2 / 3), i});
  problem.stock.push_back(randomStock(draw, size, problem.items.size()));
  return problem;
}

struct ShopSize {
  BoardSize board;
  int boards = 3, amount = 3;
};

[[nodiscard]] inline Problem randomShop(Draw& draw, const ShopSize& size) {
  Problem problem = randomBoard(draw, size.board);
  for (int b = draw(0, size.boards - 1); b > 0; --b)
    problem.stock.push_back(randomStock(draw, size.board, problem.items.size()));
  for (Stock& stock : problem.stock) {
    stock.copies = draw.oneIn(4) ? 2 : 1;
    if (draw.oneIn(6)) stock.least = 1;
  }
  for (std::size_t i = 0; i < problem.items.size(); ++i) {
    problem.needs[i].amount = draw(0, size.amount);
    problem.needs[i].shortage = draw(0, 30) * problem.items[i].length * problem.items[i].width;
    if (draw.oneIn(3)) problem.items[i].extra = draw(-3, 8);
  }
  return problem;
}

/// Blanks that pay by themselves may be cut beyond their need, which slow::bestShop does not list.
inline void dropGifts(Problem& problem) {
  for (Item& item : problem.items) item.extra = std::max<Worth>(0, item.extra);
}

/// Up to three boards, four kinds of blank, some of them for the same need and some worth two.
[[nodiscard]] inline Problem smallShop(Draw& draw) {
  Problem problem = randomShop(draw, {{10, 6, 4}, 3, 1});
  for (Stock& stock : problem.stock) {
    stock.offcuts.bands.clear();
    stock.cost = draw(0, 60);
  }
  for (std::size_t n = 0; n < problem.needs.size(); ++n) {
    const Item& item = problem.items[n];
    problem.needs[n] = {draw(1, 4), draw(5, 40) * item.length * item.width};
  }
  for (std::size_t i = 1; i < problem.items.size(); ++i) {
    if (draw.oneIn(3)) problem.items[i].need = problem.items[i - 1].need;
    if (draw.oneIn(4)) problem.items[i].supplies = 2;
  }
  return problem;
}

/// The same with recipes: what an item supplied it may now supply for one, by the piece or by
/// width, sawn in two at a price; and a need may be met by itself or by either of two recipes.
[[nodiscard]] inline Problem shopWithRecipes(Draw& draw) {
  Problem problem = smallShop(draw);
  const int needs = static_cast<int>(problem.needs.size());
  for (std::size_t i = 1; i < problem.items.size(); ++i) {
    Item& item = problem.items[i];
    if (draw.oneIn(3)) continue;
    const Worth each = problem.needs[static_cast<std::size_t>(item.need)].shortage;
    const int uses = draw(1, 6), made = draw(0, needs - 1);
    problem.recipes.push_back(
        {draw(0, 20), {{static_cast<int>(problem.needs.size()), uses}}, made});
    item.need = static_cast<int>(problem.needs.size());
    item.supplies = draw.oneIn(2) ? item.width : draw(1, 2);
    item.extra = draw(0, 10);
    problem.needs.push_back({0, draw.oneIn(2) ? each : each / uses});
    if (draw.oneIn(4)) {  // a second kind of piece for the recipe
      problem.recipes.back().uses.push_back({static_cast<int>(problem.needs.size()), 1});
      problem.needs.push_back({0, each / 2});
    }
  }
  return problem;
}

}  // namespace flitch::optimizer
