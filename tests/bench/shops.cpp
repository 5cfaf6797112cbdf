#include "tests/bench/shops.h"

#include <algorithm>

namespace flitch::bench {
namespace {

using optimizer::Draw;
using optimizer::Rect;
using optimizer::Stock;
using optimizer::Tick;
using optimizer::Worth;

constexpr Worth squareFoot = Worth{144} * inch * inch;  // in cells

void addMarks(Draw& draw, Stock& stock, int count) {
  const Tick l = stock.profile.length(), w = stock.profile.width();
  for (int n = 0; n < count; ++n) {
    const int kind = draw(1, 10);
    if (kind <= 6) {  // sound knot
      const Tick size = draw(4, 16);
      const auto on = static_cast<MarkOn>(draw(0, 2));
      addMark(stock, {draw(0, l - 1), draw(0, w - 1), size, size}, on, true);
    } else if (kind <= 7) {  // hole
      const Tick size = draw(2, 8);
      addMark(stock, {draw(0, l - 1), draw(0, w - 1), size, size}, MarkOn::through, false);
    } else if (kind <= 8) {  // split from an end
      const Tick long_ = draw(2 * inch, 8 * inch);
      addMark(stock, {draw(0, 1) == 0 ? 0 : l - long_, draw(0, w - 1), long_, draw(1, 4)},
              MarkOn::through, false);
    } else {  // wane along an edge
      const Tick long_ = draw(12 * inch, 40 * inch), deep = draw(2, 8);
      addMark(stock, {draw(0, l - 1), draw(0, 1) == 0 ? 0 : w - deep, long_, deep}, MarkOn::through,
              false);
    }
  }
}

}  // namespace

ShopSize ShopSize::of(int boards) {
  if (boards < 60) return {boards, 8, 40};
  if (boards < 300) return {boards, 20, 150};
  return {boards, 40, 500};
}

void addMark(Stock& stock, Rect where, MarkOn on, bool isSound) {
  const Tick l = stock.profile.length(), w = stock.profile.width();
  const Tick x0 = std::max<Tick>(0, where.x), y0 = std::max<Tick>(0, where.y);
  const Tick x1 = std::min(l, where.x + where.dx), y1 = std::min(w, where.y + where.dy);
  if (x0 >= x1 || y0 >= y1) return;
  for (std::size_t o = 0; o < stock.zones.size(); ++o) {
    const bool faceBUp = o >= 2;
    optimizer::ClassSet barred = 1U << clearBoth;
    if (on == MarkOn::through || (on == MarkOn::faceB) == faceBUp) barred |= 1U << clearOne;
    if (!isSound) barred |= (1U << clearOne) | (1U << sound);
    stock.zones[o].push_back({{x0, y0, x1 - x0, y1 - y0}, barred, 0, 0});
  }
}

std::vector<PartKind> addParts(Draw& draw, optimizer::Problem& problem, const ShopSize& size,
                               const std::vector<Worth>& price, bool someThick) {
  const int species = static_cast<int>(price.size());
  const int panels = size.types >= 20 ? draw(1, 2) : 0;
  std::vector<PartKind> kinds;
  int left = size.pieces;
  for (int t = 0; t < size.types; ++t) {
    PartKind kind{t % species, draw(0, 2), draw(1, 5) == 1};
    kind.thick = kind.thick && someThick;
    const Tick length = draw(1, 5) == 1 ? draw(46 * 4, 80 * 4) * 2 : draw(10 * 4, 46 * 4) * 2;
    const Worth missing =
        6 * price[static_cast<std::size_t>(kind.species)] * (kind.thick ? 2 : 1) * length;
    const int need = static_cast<int>(problem.needs.size());
    const int types = size.types - t;
    const int amount =
        types == 1 ? left : std::max(1, draw(left / types / 2, 3 * left / types / 2));
    left = std::max(1, left - amount);
    if (t >= size.types - panels) {
      problem.needs.push_back({draw(24, 60) * inch, missing / squareFoot});
      for (Tick w = 2 * inch; w <= 5 * inch; w += inch / 4) {
        problem.items.push_back({length, w, need, w, 0});
        kinds.push_back(kind);
      }
    } else {
      const Tick width = draw(7, 28) * inch / 4;
      problem.needs.push_back({amount, missing * width / squareFoot});
      problem.items.push_back({length, width, need, 1, 0});
      kinds.push_back(kind);
    }
  }
  return kinds;
}

void setPrice(Stock& stock, Worth foot) {
  stock.cost = foot * stock.profile.length() * stock.profile.width() / squareFoot + dollar;
  stock.offcuts.leastLength = 12 * inch;
  stock.offcuts.leastWidth = 3 * inch;
  stock.offcuts.bands = {{0, (foot << 30) / squareFoot * 4 / 10}};
  stock.offcuts.cls = sound;
}

optimizer::Problem emptyShop() {
  optimizer::Problem problem;
  problem.saw.kerfX = problem.saw.kerfY = 1;
  problem.saw.crosscut = problem.saw.rip = dollar / 10;
  return problem;
}

optimizer::Problem randomShop(const ShopSize& size, std::uint64_t seed) {
  Draw draw(seed);
  optimizer::Problem problem = emptyShop();
  const int species = size.boards <= 300 ? 2 : 4;
  std::vector<Worth> price;  // a board foot
  for (int s = 0; s < species; ++s) price.push_back(draw(4, 12) * dollar);
  const std::vector<PartKind> kinds = addParts(draw, problem, size, price, true);

  constexpr int gradePermille[] = {1000, 740, 520};
  constexpr int leastMarks[] = {0, 3, 6}, mostMarks[] = {4, 9, 15};
  for (int b = 0; b < size.boards; ++b) {
    const int own = b % species, grade = draw(0, 2);
    const bool thick = draw(1, 10) > 7;
    Stock stock;
    const Tick length = draw(72 * inch, 144 * inch), width = draw(4 * inch, 14 * inch);
    stock.profile = optimizer::Profile::rectangle(length, width);
    setPrice(stock,
             price[static_cast<std::size_t>(own)] * (thick ? 2 : 1) * gradePermille[grade] / 1000);
    addMarks(draw, stock, draw(leastMarks[grade], mostMarks[grade]));
    for (const PartKind& kind : kinds) {
      const bool fits = kind.species == own && (thick || !kind.thick);
      stock.itemClass.push_back(fits ? kind.cls : optimizer::noClass);
    }
    problem.stock.push_back(std::move(stock));
  }
  return problem;
}

}  // namespace flitch::bench
