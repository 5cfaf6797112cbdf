#include "optimizer/problem.h"

#include <algorithm>
#include <stdexcept>
#include <string>

#include "optimizer/wide.h"

namespace flitch::optimizer {
namespace {

constexpr Wide largestSum = Wide{1} << 62;
/// The bound by columns keeps eight bits behind the point.
constexpr Wide largestOfOne = Wide{1} << 52;
constexpr int largestClass = 63;

[[noreturn]] void refuse(const std::string& field, const std::string& why) {
  throw std::invalid_argument(field + ": " + why);
}

std::string at(const std::string& list, std::size_t index) {
  return list + "[" + std::to_string(index) + "]";
}

void require(bool holds, const std::string& field, const std::string& why) {
  if (!holds) refuse(field, why);
}

void checkRule(const KeepRule& rule, const std::string& field) {
  require(rule.leastLength >= 0, field + ".leastLength", "is below zero");
  require(rule.leastWidth >= 0, field + ".leastWidth", "is below zero");
  require(rule.cls >= noClass && rule.cls <= largestClass, field + ".cls", "must be -1 to 63");
  for (std::size_t b = 0; b < rule.bands.size(); ++b) {
    const std::string band = field + "." + at("bands", b);
    require(rule.bands[b].from >= 0, band + ".from", "is below zero");
    require(rule.bands[b].rate >= 0, band + ".rate", "is below zero");
    if (b == 0) continue;
    require(rule.bands[b - 1].from < rule.bands[b].from, band + ".from", "must rise");
    // A longer offcut can always be shortened, so it cannot be worth less a foot.
    require(rule.bands[b - 1].rate <= rule.bands[b].rate, band + ".rate",
            "must not fall with length");
  }
}

void checkStock(const Stock& stock, std::size_t items, const std::string& field) {
  require(stock.copies >= 0, field + ".copies", "is below zero");
  require(stock.cost >= 0, field + ".cost", "is below zero");
  require(stock.least >= 0 && stock.least <= stock.copies, field + ".least",
          "must be 0 to the number of copies");
  require(stock.profile.low.size() == stock.profile.high.size(), field + ".profile",
          "low and high differ in length");
  require(stock.profile.length() > 0, field + ".profile", "is empty");
  for (std::size_t x = 0; x < stock.profile.low.size(); ++x)
    require(stock.profile.low[x] >= 0 && stock.profile.high[x] >= 0, field + ".profile" + at("", x),
            "lies below zero");
  require(stock.itemClass.size() == items, field + ".itemClass", "needs one class for each item");
  for (std::size_t i = 0; i < items; ++i)
    require(stock.itemClass[i] >= noClass && stock.itemClass[i] <= largestClass,
            field + at(".itemClass", i), "must be -1 to 63");
  for (const std::vector<Zone>& zones : stock.zones)
    for (std::size_t z = 0; z < zones.size(); ++z)
      require(zones[z].where.dx >= 0 && zones[z].where.dy >= 0, field + at(".zones", z),
              "has a size below zero");
  checkRule(stock.offcuts, field + ".offcuts");
  require(stock.fixed.empty(), field + ".fixed",
          "pieces laid by hand are not planned around yet; leave this list empty");
}

/// Checks the recipes; returns more than they and what they use can cost.
Wide checkRecipes(const Problem& problem) {
  const auto isNeed = [&](int need) {
    return need >= 0 && static_cast<std::size_t>(need) < problem.needs.size();
  };
  std::vector<bool> used(problem.needs.size(), false);
  Wide sum = 0;
  for (std::size_t r = 0; r < problem.recipes.size(); ++r) {
    const Recipe& recipe = problem.recipes[r];
    const std::string field = at("recipes", r);
    require(recipe.cost >= 0, field + ".cost", "is below zero");
    require(isNeed(recipe.makes), field + ".makes", "is no index of a need");
    require(!recipe.uses.empty(), field + ".uses", "is empty");
    Wide each = recipe.cost;
    for (std::size_t u = 0; u < recipe.uses.size(); ++u) {
      const Supply& use = recipe.uses[u];
      const std::string name = field + "." + at("uses", u);
      require(isNeed(use.need), name + ".need", "is no index of a need");
      require(use.amount > 0, name + ".amount", "must be above zero");
      const auto n = static_cast<std::size_t>(use.need);
      require(!used[n], name + ".need", "is used by another recipe or twice");
      require(problem.needs[n].amount == 0, name + ".need", "is wanted for itself too");
      used[n] = true;
      each += Wide{use.amount} * problem.needs[n].shortage;
    }
    sum += each * problem.needs[static_cast<std::size_t>(recipe.makes)].amount;
    require(sum < largestSum, field, "takes the sum of all money past 2^62");
  }
  for (std::size_t r = 0; r < problem.recipes.size(); ++r)
    require(!used[static_cast<std::size_t>(problem.recipes[r].makes)], at("recipes", r) + ".makes",
            "is used by a recipe");
  return sum;
}

/// More than any pattern on one copy of this stock can cost or earn.
Wide largestWorth(const Stock& stock, const Problem& problem) {
  const Tick length = stock.profile.length(), width = stock.profile.width();
  const Wide cells = Wide{length} * std::max<Tick>(width, 1);
  Wide extra = 0;
  for (const Item& item : problem.items)
    extra = std::max(extra, Wide{item.extra < 0 ? -item.extra : item.extra});
  const Wide rate = stock.offcuts.bands.empty() ? 0 : stock.offcuts.bands.back().rate;
  const Wide offcuts = ((rate * cells) >> 30) + 1;
  // Every cut node holds at least one cell of its own, three depths of them.
  return stock.cost + offcuts + 3 * cells * (problem.saw.crosscut + problem.saw.rip + extra);
}

}  // namespace

Profile Profile::rectangle(Tick length, Tick width) {
  const auto columns = static_cast<std::size_t>(length);
  return {std::vector<Tick>(columns, 0), std::vector<Tick>(columns, width)};
}

Tick Profile::width() const {
  return high.empty() ? 0 : *std::max_element(high.begin(), high.end());
}

Worth KeepRule::worth(Tick l, Tick w) const {
  if (l < leastLength || w < leastWidth || l <= 0 || w <= 0) return 0;
  std::int64_t rate = 0;
  for (const Band& band : bands)
    if (band.from <= l) rate = band.rate;
  return static_cast<Worth>((Wide{rate} * l * w) >> 30);
}

bool allows(const Problem& problem, const Stock& stock, FirstCut first) {
  const auto admits = [first](FirstCut only) { return only == FirstCut::any || only == first; };
  return admits(problem.saw.first) && admits(stock.first);
}

void validate(const Problem& problem) {
  const Saw& saw = problem.saw;
  require(saw.kerfX >= 0, "saw.kerfX", "is below zero");
  require(saw.kerfY >= 0, "saw.kerfY", "is below zero");
  require(saw.crosscut >= 0, "saw.crosscut", "is below zero");
  require(saw.rip >= 0, "saw.rip", "is below zero");
  require(saw.stages == 2 || saw.stages == 3, "saw.stages", "must be 2 or 3");
  Wide sum = 0;
  for (std::size_t n = 0; n < problem.needs.size(); ++n) {
    const Need& need = problem.needs[n];
    require(need.amount >= 0, at("needs", n) + ".amount", "is below zero");
    require(need.shortage >= 0, at("needs", n) + ".shortage", "is below zero");
    sum += Wide{need.amount} * need.shortage;
    require(sum < largestSum, at("needs", n), "takes the sum of all money past 2^62");
  }
  sum += checkRecipes(problem);
  for (std::size_t i = 0; i < problem.items.size(); ++i) {
    const Item& item = problem.items[i];
    require(item.length > 0, at("items", i) + ".length", "must be above zero");
    require(item.width > 0, at("items", i) + ".width", "must be above zero");
    require(item.need >= 0 && static_cast<std::size_t>(item.need) < problem.needs.size(),
            at("items", i) + ".need", "is no index of a need");
    require(item.supplies > 0, at("items", i) + ".supplies", "must be above zero");
  }
  for (std::size_t s = 0; s < problem.stock.size(); ++s) {
    checkStock(problem.stock[s], problem.items.size(), at("stock", s));
    require(allows(problem, problem.stock[s], FirstCut::x) ||
                allows(problem, problem.stock[s], FirstCut::y),
            at("stock", s) + ".first", "is the order that the saw does not cut in");
    const Wide largest = largestWorth(problem.stock[s], problem);
    require(largest < largestOfOne, at("stock", s), "can cost or earn more than 2^52");
    sum += problem.stock[s].copies * largest;
    require(sum < largestSum, at("stock", s), "takes the sum of all money past 2^62");
  }
}

}  // namespace flitch::optimizer
