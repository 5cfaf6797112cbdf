// pricebench BOARDS SEED [PERCENT] [FIRST COUNT]
// Prices every board of a shop (or COUNT of them from FIRST on) once, parts at PERCENT (125) of the
// wood in them, with the floor column generation uses; prints work and time. For profilers.
#include <chrono>
#include <iostream>
#include <string>

#include "optimizer/bound.h"
#include "tests/bench/shops.h"

int main(int argc, char** argv) {
  using namespace flitch;
  using Clock = std::chrono::steady_clock;
  if (argc < 3) {
    std::cerr << "usage: pricebench BOARDS SEED [PERCENT] [FIRST COUNT]\n";
    return 2;
  }
  const auto word = [&](int at, int otherwise) {
    return argc > at ? std::stoi(argv[at]) : otherwise;
  };
  const optimizer::Problem problem = bench::randomShop(bench::ShopSize::of(std::stoi(argv[1])),
                                                       static_cast<std::uint64_t>(word(2, 1)));
  std::vector<optimizer::Worth> unit;
  for (const optimizer::Need& need : problem.needs)
    unit.push_back(need.shortage / 6 * word(3, 125) / 100);
  const std::vector<optimizer::Priced> prices = optimizer::pricesAt(problem, unit);
  const auto first = static_cast<std::size_t>(word(4, 0));
  const std::size_t last =
      argc > 5 ? first + static_cast<std::size_t>(word(5, 1)) : problem.stock.size();
  double total = 0, worst = 0;
  std::uint64_t work = 0;
  optimizer::Worth values = 0;
  int paying = 0, dismissed = 0;
  for (std::size_t s = first; s < last; ++s) {
    const optimizer::Stock& stock = problem.stock[s];
    optimizer::Pricer pricer(problem, stock);
    const Clock::time_point start = Clock::now();
    const optimizer::Worth bound = pricer.bound(prices);
    const optimizer::Best best =
        pricer.best(prices, {.caps = optimizer::Caps::drop, .floor = stock.cost / 10 * 9});
    const double seconds = std::chrono::duration<double>(Clock::now() - start).count();
    std::cout << s << ": " << stock.profile.length() << " x " << stock.profile.width() << ", "
              << stock.zones[0].size() << " marks, cost " << stock.cost << ", columns " << bound
              << ", value " << best.value << ", bound " << best.upperBound << ", work " << best.work
              << ", " << seconds * 1000 << " ms\n";
    total += seconds;
    worst = std::max(worst, seconds);
    work += best.work;
    values += best.value;
    if (best.value > stock.cost) ++paying;
    if (bound <= stock.cost / 10 * 9) ++dismissed;
  }
  std::cout << last - first << " boards, " << paying << " pay, " << dismissed
            << " dismissed by their columns; sum of values " << values << ", work " << work
            << ", mean " << total * 1000 / static_cast<double>(last - first) << " ms, worst "
            << worst * 1000 << " ms\n";
}
