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

}  // namespace

TEST_CASE("bound and plan enclose what two outside programs find, and meet it when closed") {
  const Folder folder;
  int closed = 0, same = 0;
  constexpr int shops = 100;
  for (int seed = 1; seed <= shops; ++seed) {
    Draw draw(static_cast<std::uint64_t>(seed) + 1100000);
    const Problem problem = smallShop(draw);
    const Solution solution = solve(problem, {.seconds = 20, .effort = 100000});
    const std::string file = folder.file("shop.mps");
    std::ofstream(file) << outside::mps(problem);
    const std::optional<Worth> first = outside::glpsol(file), second = outside::cbc(file);
    INFO("seed " << seed);
    CHECK(first.has_value());
    CHECK(second.has_value());
    if (!first || !second) continue;
    CHECK(*first == *second);
    CHECK(faultsOf(solution, problem) == std::vector<std::string>{});
    CHECK(solution.bound <= *first);
    CHECK(*first <= solution.cost);
    if (solution.bound == solution.cost) ++closed;
    if (solution.cost == *first) ++same;
  }
  WARN(closed << " of " << shops << " small shops closed, " << same << " planned at least cost");
  CHECK(closed > shops / 2);
}
