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
