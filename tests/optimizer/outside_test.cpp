// Whole small shops against independent solvers, run as programs on a written file.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "optimizer/solve.h"
#include "tests/optimizer/plain_mip.h"
#include "tests/optimizer/plan_faults.h"
#include "tests/optimizer/random_boards.h"

using namespace flitch::optimizer;

namespace {

/// A folder of its own for the files, gone afterwards.
class Folder {
 public:
  Folder() {
    std::string name = (std::filesystem::temp_directory_path() / "optimizer-XXXXXX").string();
    if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
    path_ = name;
  }
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  [[nodiscard]] std::string file(const std::string& name) const { return (path_ / name).string(); }

 private:
  std::filesystem::path path_;
};

/// Up to three boards, four kinds of blank, some of them for the same need and some worth two.
Problem smallShop(Draw& draw) {
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
Problem shopWithRecipes(Draw& draw) {
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

/// Solves `shops` shops and asks both programs about each.
void compare(int shops, std::uint64_t first, Problem (*shop)(Draw&)) {
  const Folder folder;
  int answered = 0, closed = 0, same = 0, made = 0;
  for (int seed = 1; seed <= shops; ++seed) {
    Draw draw(static_cast<std::uint64_t>(seed) + first);
    const Problem problem = shop(draw);
    const Solution solution = solve(problem, {.seconds = 20, .effort = 100000});
    const std::string file = folder.file("shop.mps");
    std::ofstream(file) << outside::mps(problem);
    const std::optional<Worth> one = outside::glpsol(file), other = outside::cbc(file);
    INFO("seed " << seed);
    if (!one || !other) continue;  // out of time
    ++answered;
    CHECK(*one == *other);
    CHECK(faultsOf(solution, problem) == std::vector<std::string>{});
    CHECK(solution.bound <= *one);
    CHECK(*one <= solution.cost);
    if (solution.bound == solution.cost) ++closed;
    if (solution.cost == *one) ++same;
    if (!solution.recipes.empty()) ++made;
  }
  WARN(closed << " of " << shops << " small shops closed, " << same << " planned at least cost, "
              << made << " with recipes made");
  CHECK(answered > shops * 9 / 10);
  CHECK(closed > shops / 2);
  if (shop == shopWithRecipes) CHECK(made > shops / 5);
}

}  // namespace

TEST_CASE("bound and plan enclose what two outside programs find, and meet it when closed") {
  compare(100, 1100000, smallShop);
}

TEST_CASE("with recipes too, bound and plan enclose what two outside programs find") {
  compare(100, 1400000, shopWithRecipes);
}
