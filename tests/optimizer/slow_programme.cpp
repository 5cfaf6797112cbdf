#include "tests/optimizer/slow_programme.h"

#include <algorithm>
#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/dag_shortest_paths.hpp>
#include <functional>
#include <limits>
#include <map>
#include <set>

#include "optimizer/index.h"

namespace flitch::optimizer::slow {
namespace {

/// The definition of a legal place, from the zones themselves.
class Rules {
 public:
  Rules(const Problem& problem, const Stock& stock) : problem_(problem), stock_(stock) {}

  [[nodiscard]] bool wood(const Rect& r) const {
    if (r.x < 0 || r.y < 0 || r.x + r.dx > stock_.profile.length()) return false;
    for (Tick x = r.x; x < r.x + r.dx; ++x)
      if (r.y < stock_.profile.low[index(x)] || r.y + r.dy > stock_.profile.high[index(x)])
        return false;
    return true;
  }
  [[nodiscard]] bool piece(int item, Tick x, Tick y) const {
    const Rect r{x, y, problem_.items[index(item)].length, problem_.items[index(item)].width};
    const int cls = stock_.itemClass[index(item)];
    if (cls == noClass || !wood(r)) return false;
    return std::any_of(stock_.zones.begin(), stock_.zones.end(), [&](const auto& zones) {
      return std::none_of(zones.begin(), zones.end(),
                          [&](const Zone& z) { return forbids(z, r, cls); });
    });
  }
  [[nodiscard]] bool offcut(const Rect& r) const {
    if (!wood(r)) return false;
    for (const auto& zones : stock_.zones)
      for (const Zone& z : zones)
        if (in(z.barred, stock_.offcuts.cls) && cellsMeet(z.where, r)) return false;
    return true;
  }

 private:
  static bool in(ClassSet set, int cls) { return cls >= 0 && ((set >> cls) & 1U) == 1U; }
  static bool cellsMeet(const Rect& a, const Rect& b) {
    for (Tick x = a.x; x < a.x + a.dx; ++x)
      for (Tick y = a.y; y < a.y + a.dy; ++y)
        if (x >= b.x && x < b.x + b.dx && y >= b.y && y < b.y + b.dy) return true;
    return false;
  }
  static bool lineMeets(const Rect& zone, const Rect& piece, Tick y) {
    if (y < zone.y || y > zone.y + zone.dy) return false;
    for (Tick x = piece.x; x < piece.x + piece.dx; ++x)
      if (x >= zone.x && x < zone.x + zone.dx) return true;
    return false;
  }
  static bool forbids(const Zone& z, const Rect& r, int cls) {
    return (in(z.barred, cls) && cellsMeet(z.where, r)) ||
           (in(z.nearEdge, cls) && lineMeets(z.where, r, r.y)) ||
           (in(z.farEdge, cls) && lineMeets(z.where, r, r.y + r.dy));
  }

  const Problem& problem_;
  const Stock& stock_;
};

/// A board in the direction of its first cut.
struct View {
  const Problem& problem;
  const Stock& stock;
  Rules rules;
  bool x;
  Tick nu, nv, ku, kv;
  Worth cu, cv;

  View(const Problem& p, const Stock& s, bool crosscutFirst)
      : problem(p), stock(s), rules(p, s), x(crosscutFirst) {
    const Tick l = s.profile.length(), w = s.profile.width();
    nu = x ? l : w;
    nv = x ? w : l;
    ku = x ? p.saw.kerfX : p.saw.kerfY;
    kv = x ? p.saw.kerfY : p.saw.kerfX;
    cu = x ? p.saw.crosscut : p.saw.rip;
    cv = x ? p.saw.rip : p.saw.crosscut;
  }
  [[nodiscard]] Tick du(int i) const {
    return x ? problem.items[index(i)].length : problem.items[index(i)].width;
  }
  [[nodiscard]] Tick dv(int i) const {
    return x ? problem.items[index(i)].width : problem.items[index(i)].length;
  }
  [[nodiscard]] bool piece(int i, Tick u, Tick v) const {
    return x ? rules.piece(i, u, v) : rules.piece(i, v, u);
  }
  /// Worth of an offcut there; -1: not clear, or worth nothing.
  [[nodiscard]] Worth offcut(Tick u, Tick v, Tick lu, Tick lv) const {
    const Rect r = x ? Rect{u, v, lu, lv} : Rect{v, u, lv, lu};
    if (r.dx < stock.offcuts.leastLength || r.dy < stock.offcuts.leastWidth) return -1;
    std::int64_t rate = -1;
    for (const KeepRule::Band& band : stock.offcuts.bands)
      if (band.from <= r.dx) rate = band.rate;
    if (rate < 0 || !rules.offcut(r)) return -1;
    return rate * r.dx * r.dy / (std::int64_t{1} << 30);
  }
};

/// Longest path from the first to the last vertex; arcs lead from lower to higher numbers.
class Longest {
 public:
  explicit Longest(Tick places) : graph_(index(places) + 1) {
    for (std::size_t v = 1; v < boost::num_vertices(graph_); ++v) arc(v - 1, v, 0);
  }
  void arc(std::size_t from, std::size_t to, Worth gain) {
    boost::add_edge(from, to, Weight(-gain), graph_);
  }
  [[nodiscard]] Worth value() const {
    std::vector<Worth> distance(boost::num_vertices(graph_));
    boost::dag_shortest_paths(graph_, boost::vertex(0, graph_),
                              boost::distance_map(distance.data()));
    return -distance.back();
  }

 private:
  using Weight = boost::property<boost::edge_weight_t, Worth>;
  boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS, boost::no_property, Weight>
      graph_;
};

Worth strip(const View& view, std::span<const Priced> priced, Tick u1, Tick u2, Tick v, Tick dv) {
  Longest path(u2 - u1 + view.ku);
  for (const Priced& p : priced) {
    const bool narrower = view.problem.saw.trim && view.dv(p.item) < dv;
    if (view.dv(p.item) != dv && !narrower) continue;
    for (Tick u = u1; u + view.du(p.item) <= u2; ++u) {
      bool legal = false;
      for (Tick side = v; side + view.dv(p.item) <= v + dv; ++side)
        legal = legal || view.piece(p.item, u, side);
      if (legal)
        path.arc(index(u - u1), index(u - u1 + view.du(p.item) + view.ku), p.value - view.cu);
    }
  }
  for (Tick a = u1; a < u2; ++a)
    for (Tick b = a + 1; b <= u2; ++b)
      if (const Worth worth = view.offcut(a, v, b - a, dv); worth >= 0)
        path.arc(index(a - u1), index(b - u1 + view.ku), worth - view.cu);
  return path.value();
}

Worth section(const View& view, std::span<const Priced> priced, Tick u1, Tick u2) {
  Longest path(view.nv + view.kv);
  for (Tick v1 = 0; v1 < view.nv; ++v1)
    for (Tick v2 = v1 + 1; v2 <= view.nv; ++v2) {
      Worth worth = view.offcut(u1, v1, u2 - u1, v2 - v1);
      if (view.problem.saw.stages == 3) {
        worth = std::max(worth, strip(view, priced, u1, u2, v1, v2 - v1));
      } else {
        for (const Priced& p : priced) {
          if (view.dv(p.item) != v2 - v1) continue;
          if (!view.problem.saw.trim && view.du(p.item) != u2 - u1) continue;
          for (Tick u = u1; u + view.du(p.item) <= u2; ++u)
            if (view.piece(p.item, u, v1)) worth = std::max(worth, p.value);
        }
      }
      if (worth > 0) path.arc(index(v1), index(v2 + view.kv), worth - view.cv);
    }
  return path.value();
}

// ---- where an offcut may end -----------------------------------------------------------------

/// optimizer/offcut_rule.h once more, from the zones themselves.
struct EndRule {
  std::vector<Rect> hard, marks;  ///< x along u, y along v
  std::set<Tick> lengths, edges, fresh, changes, late, lateRows;
  Tick least = 0;

  explicit EndRule(const View& view) {
    const auto turned = [&](const Rect& r) { return view.x ? r : Rect{r.y, r.x, r.dy, r.dx}; };
    const Profile& profile = view.stock.profile;
    const Tick width = profile.width();
    for (Tick x = 0; x < profile.length();) {
      Tick end = x + 1;
      const Tick low = profile.low[index(x)], high = profile.high[index(x)];
      while (end < profile.length() && profile.low[index(end)] == low &&
             profile.high[index(end)] == high)
        ++end;
      if (low >= high)
        hard.push_back(turned({x, 0, end - x, width}));
      else if (low > 0)
        hard.push_back(turned({x, 0, end - x, low}));
      if (low < high && high < width) hard.push_back(turned({x, high, end - x, width - high}));
      x = end;
    }
    marks = hard;
    const int cls = view.stock.offcuts.cls;
    for (const auto& zones : view.stock.zones)
      for (const Zone& z : zones) {
        marks.push_back(turned(z.where));
        if (cls >= 0 && ((z.barred >> cls) & 1U) == 1U && z.where.dx > 0 && z.where.dy > 0)
          hard.push_back(turned(z.where));
      }
    edges.insert(view.nu);
    for (const Rect& r : hard) edges.insert(r.x);
    for (const Rect& r : marks)
      if (r.x + r.dx > 0 && r.x + r.dx < view.nu) fresh.insert(r.x + r.dx);
    std::set<Tick> widths;
    const auto& items = view.problem.items;
    for (int i = 0; i < static_cast<int>(items.size()); ++i)
      if (view.stock.itemClass[index(i)] != noClass && view.du(i) <= view.nu &&
          view.dv(i) <= view.nv) {
        lengths.insert(view.du(i));
        widths.insert(view.dv(i));
      }
    for (const Tick edge : edges)
      for (const Tick length : lengths)
        if (length < edge && edge <= view.nu) late.insert(edge - length);
    for (const Tick w : widths) lateRows.insert(view.nv - w);
    const KeepRule& keep = view.stock.offcuts;
    const Tick leastV = std::max<Tick>(1, view.x ? keep.leastWidth : keep.leastLength);
    least = std::max<Tick>(1, view.x ? keep.leastLength : keep.leastWidth);
    for (const Tick w : widths)
      for (Tick v = 1; v + w <= view.nv; ++v) {
        bool same = true;
        for (int i = 0; i < static_cast<int>(items.size()); ++i)
          if (view.stock.itemClass[index(i)] != noClass && view.dv(i) == w)
            for (Tick u = 0; u + view.du(i) <= view.nu; ++u)
              same = same && view.piece(i, u, v) == view.piece(i, u, v - 1);
        if (w >= leastV && least <= view.nu)
          for (Tick u = 0; u < view.nu; ++u) same = same && isHard(u, v, w) == isHard(u, v - 1, w);
        if (!same) changes.insert(v);
      }
  }
  [[nodiscard]] bool isHard(Tick u, Tick v, Tick dv) const {
    return std::any_of(hard.begin(), hard.end(), [&](const Rect& r) {
      return r.x <= u && u < r.x + r.dx && r.y < v + dv && v < r.y + r.dy;
    });
  }
  [[nodiscard]] bool section(Tick u1, Tick u2) const {
    return u2 - u1 >= least && (lengths.count(u2 - u1) > 0 || edges.count(u2) > 0);
  }
  /// Rows of a section that end at v2, in front of barred cells or a change.
  [[nodiscard]] bool rows(Tick u1, Tick u2, Tick v2, Tick nv, Tick kerf) const {
    return v2 == nv || changes.count(v2 + kerf) > 0 || lateRows.count(v2 + kerf) > 0 ||
           std::any_of(hard.begin(), hard.end(),
                       [&](const Rect& r) { return r.y == v2 && r.x < u2 && u1 < r.x + r.dx; });
  }
  /// Cells behind b, up to a kerf further, are barred in these rows.
  [[nodiscard]] bool beforeHard(Tick b, Tick v, Tick dv, Tick kerf, Tick nu) const {
    for (Tick u = b; u <= b + kerf && u < nu; ++u)
      if (isHard(u, v, dv)) return true;
    return b + kerf >= nu;
  }
};

// ---- listing ---------------------------------------------------------------------------------

using Counts = std::vector<std::int64_t>;
using List = std::map<Counts, Worth>;  ///< best worth for each attainable set of counts

class Lister {
 public:
  Lister(const View& view, std::span<const Priced> priced, bool ruled)
      : view_(view), priced_(priced), ruled_(ruled), rule_(view) {}

  List board() {
    std::vector<List> at(index(view_.nu + view_.ku) + 1), ends(at.size());
    at[0] = ends[0] = none();
    for (Tick u1 = 0; u1 < view_.nu + view_.ku; ++u1) {
      merge(at[index(u1) + 1], at[index(u1)], none(), 0);
      if (u1 >= view_.nu) continue;
      for (Tick u2 = u1 + 1; u2 <= view_.nu; ++u2) {
        const auto lay = [&](const List& from, const List& more, Worth gain) {
          merge(at[index(u2 + view_.ku)], from, more, gain);
          merge(ends[index(u2 + view_.ku)], from, more, gain);
        };
        lay(at[index(u1)], section(u1, u2, !ruled_), -view_.cu);
        if (ruled_ && rule_.section(u1, u2))
          lay(rule_.fresh.count(u1) > 0 ? at[index(u1)] : ends[index(u1)], section(u1, u2, true),
              -view_.cu);
        const Tick next = u2 + view_.ku;
        if (ruled_ && rule_.edges.count(u2) == 0 && rule_.fresh.count(next) == 0 &&
            rule_.late.count(next) == 0)
          continue;
        if (const Worth worth = view_.offcut(u1, 0, u2 - u1, view_.nv); worth >= 0)
          lay(at[index(u1)], none(), worth - view_.cu);
      }
    }
    return at.back();
  }

 private:
  [[nodiscard]] List none() const { return {{Counts(priced_.size(), 0), 0}}; }

  void merge(List& into, const List& a, const List& b, Worth more) const {
    for (const auto& [ca, va] : a)
      for (const auto& [cb, vb] : b) {
        Counts sum(priced_.size());
        bool kept = true;
        for (std::size_t p = 0; p < priced_.size(); ++p) {
          sum[p] = ca[p] + cb[p];
          kept = kept && sum[p] <= priced_[p].cap;
        }
        if (!kept) continue;
        const Worth value = va + vb + more;
        const auto [place, fresh] = into.try_emplace(sum, value);
        if (!fresh) place->second = std::max(place->second, value);
      }
  }

  List section(Tick u1, Tick u2, bool offcuts) {
    std::vector<List> at(index(view_.nv + view_.kv) + 1);
    at[0] = none();
    for (Tick v1 = 0; v1 < view_.nv + view_.kv; ++v1) {
      merge(at[index(v1) + 1], at[index(v1)], none(), 0);
      if (v1 >= view_.nv) continue;
      for (Tick v2 = v1 + 1; v2 <= view_.nv; ++v2) {
        List& next = at[index(v2 + view_.kv)];
        const bool ends = rule_.rows(u1, u2, v2, view_.nv, view_.kv);
        if (!ruled_ || isKind(v2 - v1) || (offcuts && ends))
          merge(next, at[index(v1)], strip(u1, u2, v1, v2 - v1, offcuts), -view_.cv);
        if (!offcuts || (ruled_ && !ends)) continue;
        if (const Worth worth = view_.offcut(u1, v1, u2 - u1, v2 - v1); worth >= 0)
          merge(next, at[index(v1)], none(), worth - view_.cv);
      }
    }
    return at.back();
  }

  /// Pieces of the programme have strips so wide.
  [[nodiscard]] bool isKind(Tick dv) const {
    for (std::size_t i = 0; i < view_.problem.items.size(); ++i)
      if (view_.stock.itemClass[i] != noClass && view_.dv(static_cast<int>(i)) == dv &&
          view_.du(static_cast<int>(i)) <= view_.nu)
        return true;
    return false;
  }

  List strip(Tick u1, Tick u2, Tick v, Tick dv, bool offcuts) {
    std::vector<List> at(index(u2 - u1 + view_.ku) + 1);
    at[0] = none();
    const auto piece = [&](std::size_t p, Tick a, const List& from) {
      const int item = priced_[p].item;
      const Tick end = a + view_.du(item);
      if (view_.dv(item) != dv || end > u2 || !view_.piece(item, a, v)) return;
      Counts count(priced_.size(), 0);
      count[p] = 1;
      merge(at[index(end + view_.ku - u1)], from, {{count, priced_[p].value}}, -view_.cu);
    };
    for (Tick a = u1; a < u2 + view_.ku; ++a) {
      merge(at[index(a - u1) + 1], at[index(a - u1)], none(), 0);
      if (a >= u2) continue;
      for (std::size_t p = 0; p < priced_.size(); ++p) piece(p, a, at[index(a - u1)]);
      for (Tick b = a + 1; offcuts && b <= u2; ++b) {
        const Worth worth = view_.offcut(a, v, b - a, dv);
        if (worth < 0) continue;
        if (!ruled_ || b == u2 || rule_.beforeHard(b, v, dv, view_.ku, view_.nu)) {
          merge(at[index(b + view_.ku - u1)], at[index(a - u1)], none(), worth - view_.cu);
          continue;
        }
        // A piece that begins just behind a mark.
        List with;
        merge(with, at[index(a - u1)], none(), worth - view_.cu);
        const Tick start = b + view_.ku;
        for (std::size_t p = 0; p < priced_.size(); ++p)
          if (start < u2 && !view_.piece(priced_[p].item, start - 1, v)) piece(p, start, with);
      }
    }
    return at.back();
  }

  const View& view_;
  std::span<const Priced> priced_;
  bool ruled_;
  EndRule rule_;
};

Worth overOrders(const Problem& problem, const Stock& stock,
                 const std::function<Worth(const View&)>& best) {
  Worth most = 0;
  if (problem.saw.first != FirstCut::y) most = std::max(most, best(View(problem, stock, true)));
  if (problem.saw.first != FirstCut::x) most = std::max(most, best(View(problem, stock, false)));
  return most;
}

}  // namespace

Worth bestByGraph(const Problem& problem, const Stock& stock, std::span<const Priced> priced) {
  return overOrders(problem, stock, [&](const View& view) {
    Longest path(view.nu + view.ku);
    for (Tick u1 = 0; u1 < view.nu; ++u1)
      for (Tick u2 = u1 + 1; u2 <= view.nu; ++u2) {
        const Worth worth =
            std::max(section(view, priced, u1, u2), view.offcut(u1, 0, u2 - u1, view.nv));
        if (worth > 0) path.arc(index(u1), index(u2 + view.ku), worth - view.cu);
      }
    return path.value();
  });
}

Worth bestByListing(const Problem& problem, const Stock& stock, std::span<const Priced> priced,
                    bool ruled) {
  return overOrders(problem, stock, [&](const View& view) {
    Worth most = 0;
    for (const auto& [counts, value] : Lister(view, priced, ruled).board())
      most = std::max(most, value);
    return most;
  });
}

Worth bestShop(const Problem& problem) {
  std::vector<Priced> priced;
  for (std::size_t i = 0; i < problem.items.size(); ++i)
    priced.push_back({static_cast<int>(i), -problem.items[i].extra, problem.needs[i].amount});
  // Least cost for every supply, surplus cut off.
  List costs{{Counts(priced.size(), 0), 0}};
  for (const Stock& stock : problem.stock) {
    List board;
    for (const bool crosscutFirst : {true, false}) {
      if (problem.saw.first == (crosscutFirst ? FirstCut::y : FirstCut::x)) continue;
      const View view(problem, stock, crosscutFirst);
      for (const auto& [counts, worth] : Lister(view, priced, true).board()) {
        const auto [place, fresh] = board.try_emplace(counts, worth);
        if (!fresh) place->second = std::max(place->second, worth);
      }
    }
    for (int copy = 0; copy < stock.copies; ++copy) {
      List next;
      if (copy >= stock.least) next = costs;
      for (const auto& [have, cost] : costs)
        for (const auto& [counts, worth] : board) {
          Counts sum(priced.size());
          for (std::size_t p = 0; p < priced.size(); ++p)
            sum[p] = std::min(have[p] + counts[p], problem.needs[p].amount);
          const Worth all = cost + stock.cost - worth;
          const auto [place, fresh] = next.try_emplace(sum, all);
          if (!fresh) place->second = std::min(place->second, all);
        }
      costs = std::move(next);
    }
  }
  Worth least = std::numeric_limits<Worth>::max();
  for (const auto& [have, cost] : costs) {
    Worth all = cost;
    for (std::size_t p = 0; p < priced.size(); ++p)
      all += (problem.needs[p].amount - have[p]) * problem.needs[p].shortage;
    least = std::min(least, all);
  }
  return least;
}

}  // namespace flitch::optimizer::slow
