#include "optimizer/order.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

using flitch::optimizer::Order;
using flitch::optimizer::orderOf;

TEST_CASE("every node comes after those it needs, a circle is found where there is one") {
  std::mt19937 draw(7);
  int circles = 0;
  for (int round = 0; round < 300; ++round) {
    const int count = 2 + static_cast<int>(draw() % 9);
    std::vector<std::pair<int, int>> needs;
    for (int arc = 0; arc < count; ++arc) {
      const auto any = [&] { return static_cast<int>(draw() % static_cast<unsigned>(count)); };
      needs.emplace_back(any(), any());
    }
    const Order order = orderOf(count, needs);
    if (order.circle.empty()) {
      REQUIRE(order.nodes.size() == static_cast<std::size_t>(count));
      const auto place = [&](int node) {
        return std::find(order.nodes.begin(), order.nodes.end(), node) - order.nodes.begin();
      };
      for (const auto& [node, needed] : needs) CHECK(place(needed) < place(node));
      continue;
    }
    ++circles;
    // From each node of the circle an arc leads to another of it, or to itself.
    for (const int node : order.circle) {
      CHECK(std::any_of(needs.begin(), needs.end(), [&](const auto& arc) {
        return arc.first == node && std::find(order.circle.begin(), order.circle.end(),
                                              arc.second) != order.circle.end();
      }));
    }
  }
  CHECK(circles > 50);
  CHECK(circles < 290);
}
