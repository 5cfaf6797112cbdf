#include "optimizer/order.h"

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/strong_components.hpp>
#include <boost/graph/topological_sort.hpp>
#include <iterator>

namespace flitch::optimizer {

namespace {

using Graph = boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS>;

/// Nodes of the first component that is a circle: of several nodes, or of one that needs itself.
std::vector<int> circleOf(const Graph& graph) {
  std::vector<int> component(num_vertices(graph));
  const int components = boost::strong_components(graph, component.data());
  for (int c = 0; c < components; ++c) {
    std::vector<int> nodes;
    for (std::size_t v = 0; v < component.size(); ++v) {
      if (component[v] == c) nodes.push_back(static_cast<int>(v));
    }
    if (nodes.size() > 1) return nodes;
    const auto v = static_cast<Graph::vertex_descriptor>(nodes.front());
    if (edge(v, v, graph).second) return nodes;
  }
  return {};
}

}  // namespace

Order orderOf(int count, std::span<const std::pair<int, int>> needs) {
  Graph graph(static_cast<std::size_t>(count));
  for (const auto& [node, needed] : needs) {
    add_edge(static_cast<Graph::vertex_descriptor>(node),
             static_cast<Graph::vertex_descriptor>(needed), graph);
  }
  Order order;
  order.circle = circleOf(graph);
  if (!order.circle.empty()) return order;
  std::vector<Graph::vertex_descriptor> sorted;
  // What a node points to comes before it.
  boost::topological_sort(graph, std::back_inserter(sorted));
  for (const auto v : sorted) order.nodes.push_back(static_cast<int>(v));
  return order;
}

}  // namespace flitch::optimizer
