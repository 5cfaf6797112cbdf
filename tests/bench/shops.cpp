#include "tests/bench/shops.h"

#include <algorithm>
#include <random>

namespace flitch::bench {
namespace {

using optimizer::Rect;
using optimizer::Stock;
using optimizer::Tick;
using optimizer::Worth;

constexpr Tick inch = 8;
constexpr Worth dollar = 10000;
constexpr int clearBoth = 0, clearOne = 1, sound = 2;

class Draw {
 public:
  explicit Draw(std::uint64_t seed) : engine_(seed) {}
  int operator()(int low, int high) {
    return low + static_cast<int>(engine_() % static_cast<std::uint64_t>(high - low + 1));
  }

 private:
  std::mt19937_64 engine_;
};

enum class Where { faceA, faceB, through };

/// What a mark bars: unsound ones everything, sound ones the clear faces they show on.
void mark(Stock& stock, Rect where, Where on, bool isSound) {
  const Tick l = stock.profile.length(), w = stock.profile.width();
  const Tick x0 = std::max<Tick>(0, where.x), y0 = std::max<Tick>(0, where.y);
  const Tick x1 = std::min(l, where.x + where.dx), y1 = std::min(w, where.y + where.dy);
  if (x0 >= x1 || y0 >= y1) return;
  for (std::size_t o = 0; o < stock.zones.size(); ++o) {
    const bool faceBUp = o >= 2;
    optimizer::ClassSet barred = 1U << clearBoth;
    if (on == Where::through || (on == Where::faceB) == faceBUp) barred |= 1U << clearOne;
    if (!isSound) barred |= (1U << clearOne) | (1U << sound);
    stock.zones[o].push_back({{x0, y0, x1 - x0, y1 - y0}, barred, 0, 0});
  }
}

void addMarks(Draw& draw, Stock& stock, int count) {
  const Tick l = stock.profile.length(), w = stock.profile.width();
  for (int n = 0; n < count; ++n) {
    const int kind = draw(1, 10);
    if (kind <= 6) {  // sound knot
      const Tick size = draw(4, 16);
      mark(stock, {draw(0, l - 1), draw(0, w - 1), size, size}, static_cast<Where>(draw(0, 2)),
           true);
    } else if (kind <= 7) {  // hole
      const Tick size = draw(2, 8);
      mark(stock, {draw(0, l - 1), draw(0, w - 1), size, size}, Where::through, false);
    } else if (kind <= 8) {  // split from an end
      const Tick long_ = draw(2 * inch, 8 * inch);
      mark(stock, {draw(0, 1) == 0 ? 0 : l - long_, draw(0, w - 1), long_, draw(1, 4)},
           Where::through, false);
    } else {  // wane along an edge
      const Tick long_ = draw(12 * inch, 40 * inch), deep = draw(2, 8);
      mark(stock, {draw(0, l - 1), draw(0, 1) == 0 ? 0 : w - deep, long_, deep}, Where::through,
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

optimizer::Problem randomShop(const ShopSize& size, std::uint64_t seed) {
  Draw draw(seed);
  optimizer::Problem problem;
  problem.saw.kerfX = problem.saw.kerfY = 1;
  problem.saw.crosscut = problem.saw.rip = dollar / 10;
  const int species = size.boards <= 60 ? 2 : 4;
  std::vector<Worth> price;  // a board foot
  for (int s = 0; s < species; ++s) price.push_back(draw(4, 12) * dollar);
  const auto perCell = [&](int s, bool thick) {
    return price[static_cast<std::size_t>(s)] * (thick ? 2 : 1) / (144 * inch * inch);
  };

  struct Kind {
    int species, cls;
    bool thick;
  };
  std::vector<Kind> kinds;  // of each item
  int left = size.pieces;
  for (int t = 0; t < size.types; ++t) {
    const Kind kind{t % species, draw(0, 2), draw(1, 5) == 1};
    const Tick length = draw(1, 5) == 1 ? draw(46 * 4, 80 * 4) * 2 : draw(10 * 4, 46 * 4) * 2;
    const Worth cell = 6 * perCell(kind.species, kind.thick);
    const int need = static_cast<int>(problem.needs.size());
    const bool panel = size.types >= 20 && t >= size.types - 2;
    const int types = size.types - t;
    const int amount =
        types == 1 ? left : std::max(1, draw(left / types / 2, 3 * left / types / 2));
    left = std::max(1, left - amount);
    if (panel) {
      problem.needs.push_back({draw(24, 60) * inch, cell * length});
      for (Tick w = 2 * inch; w <= 5 * inch; w += inch / 4) {
        problem.items.push_back({length, w, need, w, 0});
        kinds.push_back(kind);
      }
    } else {
      const Tick width = draw(7, 28) * inch / 4;
      problem.needs.push_back({amount, cell * length * width});
      problem.items.push_back({length, width, need, 1, 0});
      kinds.push_back(kind);
    }
  }

  constexpr int gradePermille[] = {1000, 740, 520};
  constexpr int leastMarks[] = {0, 3, 6}, mostMarks[] = {4, 9, 15};
  for (int b = 0; b < size.boards; ++b) {
    const int own = b % species, grade = draw(0, 2);
    const bool thick = draw(1, 10) > 7;
    Stock stock;
    stock.profile = optimizer::Profile::rectangle(draw(72 * 8, 144 * 8), draw(4 * 8, 14 * 8));
    const Worth cell = perCell(own, thick) * gradePermille[grade] / 1000;
    stock.cost = cell * stock.profile.length() * stock.profile.width() + dollar;
    stock.offcuts.leastLength = 12 * inch;
    stock.offcuts.leastWidth = 3 * inch;
    stock.offcuts.bands = {{0, (cell << 30) / 10 * 4}};
    stock.offcuts.cls = sound;
    addMarks(draw, stock, draw(leastMarks[grade], mostMarks[grade]));
    for (const Kind& kind : kinds) {
      const bool fits = kind.species == own && (thick || !kind.thick);
      stock.itemClass.push_back(fits ? kind.cls : optimizer::noClass);
    }
    problem.stock.push_back(std::move(stock));
  }
  return problem;
}

}  // namespace flitch::bench
