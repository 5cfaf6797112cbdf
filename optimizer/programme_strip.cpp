// What a strip can be worth: a chain of pieces and offcuts along it.
#include "optimizer/programme.h"

#include <algorithm>

namespace flitch::optimizer {
namespace {

std::size_t index(int value) { return static_cast<std::size_t>(value); }

bool holds(const Runs& runs, Tick place) { return nextPlace(runs, place) == place; }

/// Worth of the best link that ends by `next`.
template <class Link>
Worth valueAt(const std::vector<Link>& chain, Tick next) {
  const auto after = std::upper_bound(chain.begin(), chain.end(), next,
                                      [](Tick n, const Link& l) { return n < l.next; });
  return (after - 1)->value;
}

/// Puts a link in its place unless an earlier one is worth as much; drops those it beats. Links up
/// to `done` are already gone on from; all others end later.
template <class Link>
void put(std::vector<Link>& chain, Link link) {
  auto after = std::upper_bound(chain.begin(), chain.end(), link.next,
                                [](Tick next, const Link& l) { return next < l.next; });
  const auto before = after - 1;  // the start of the chain always stands before
  if (before->value >= link.value) return;
  auto end = after;
  while (end != chain.end() && end->value <= link.value) ++end;
  if (before->next == link.next) {
    *before = link;
    chain.erase(after, end);
  } else if (after != end) {
    *after = link;
    chain.erase(after + 1, end);
  } else {
    chain.insert(after, link);
  }
}

}  // namespace

Programme::Chain Programme::chain(const StripKind& kind, const StripKind::View& view, Tick u1) {
  Chain links;
  links.push_back({u1, 0, -1, -1, u1, 0, 0, 0});
  for (std::size_t l = 0; l < links.size(); ++l) layPieces(links, l, kind, view);
  if (kind.offcutWorth.empty()) return links;

  // The same again with offcuts; what pieces alone reach beats many of them at once.
  const Chain pieces = std::move(links);
  links.clear();
  links.push_back(pieces.front());
  for (std::size_t l = 0; l < links.size(); ++l) {
    layPieces(links, l, kind, view);
    layOffcuts(links, l, kind, view, pieces);
  }
  const Worth cell = lay_.cellWorth(0) * kind.width;
  for (std::size_t l = 0; l < links.size(); ++l) {
    links[l].slack = links[l].value - cell * links[l].next;
    if (l > 0) links[l].slack = std::max(links[l].slack, links[l - 1].slack);
  }
  return links;
}

void Programme::layPieces(Chain& links, std::size_t l, const StripKind& kind,
                          const StripKind::View& view) {
  const std::vector<int>& live = live_[static_cast<std::size_t>(&kind - lay_.kinds.data())];
  work_ += live.size();
  const Tick next = links[l].next;
  const Worth value = links[l].value;
  for (const int j : live) {
    const int item = kind.items[index(j)];
    const Tick at = nextPlace(view.starts[index(j)], next);
    if (at < 0 || at + lay_.itemLength[index(item)] > horizon_) continue;
    put(links, {at + lay_.itemLength[index(item)] + lay_.kerfU, value + net_[index(item)],
                static_cast<int>(l), item, at, 0, 0, 0});
  }
}

void Programme::layOffcuts(Chain& links, std::size_t l, const StripKind& kind,
                           const StripKind::View& view, const Chain& pieces) {
  const Link from = links[l];
  const Tick kerf = lay_.kerfU;
  const std::vector<Worth>& worth = kind.offcutWorth;
  const auto beaten = [&](Tick next, Worth value) {
    ++work_;
    return valueAt(pieces, next) >= value || valueAt(links, next) >= value;
  };
  for (const Run& clear : view.clear) {
    const Tick a = std::max(clear.from, from.next), end = clear.to + 1;
    if (a >= horizon_) break;
    if (end - a < lay_.leastU()) continue;
    const Worth base = from.value - lay_.cutU;
    // Up to the mark, or a little less where the mark is thinner than a kerf.
    for (Tick b = std::max(a + lay_.leastU(), end - kerf); b <= end; ++b)
      if (const Worth value = base + worth[index(b - a)]; !beaten(b + kerf, value))
        put(links, {b + kerf, value, static_cast<int>(l), -1, b, a, b, 0});
    if (quick_) continue;
    // Up to a piece. If the piece could lie at a and all between is clear, the two may change
    // places, so the offcut comes later and nothing is lost.
    for (const int j : live_[static_cast<std::size_t>(&kind - lay_.kinds.data())]) {
      const int item = kind.items[index(j)];
      const Tick size = lay_.itemLength[index(item)];
      const Worth both = base + net_[index(item)];
      Tick least = a + lay_.leastU() + kerf;
      if (holds(view.starts[index(j)], a)) least = std::max(least, end - size + 1);
      // All places lo to hi, halved until the last is worth no more than what ends before the
      // first.
      const auto all = [&](const auto& self, Tick lo, Tick hi) -> void {
        if (lo > hi || beaten(lo + size + kerf, both + worth[index(hi - kerf - a)])) return;
        if (lo == hi)
          return put(links, {lo + size + kerf, both + worth[index(lo - kerf - a)],
                             static_cast<int>(l), item, lo, a, lo - kerf, 0});
        const Tick middle = lo + (hi - lo) / 2;
        self(self, lo, middle);
        self(self, middle + 1, hi);
      };
      for (const Run& run : view.starts[index(j)])
        all(all, std::max(run.from, least), std::min({run.to, end + kerf, horizon_ - size}));
    }
  }
}

Worth Programme::worthOf(const Chain& links, const StripKind& kind, const StripKind::View& view,
                         Tick u2, Trail* trail) const {
  auto last = std::upper_bound(links.begin(), links.end(), u2 + lay_.kerfU,
                               [](Tick next, const Link& l) { return next < l.next; });
  --last;
  Worth most = last->value;
  if (trail != nullptr) *trail = {static_cast<int>(last - links.begin()), 0, 0};
  if (kind.offcutWorth.empty()) return most;
  const Worth reach = lay_.cellWorth(0) * kind.width * u2 - lay_.cutU;
  for (auto link = last + 1; link != links.begin();) {
    --link;
    if (link->slack + reach <= most) break;  // no link from here back can gain enough
    if (link->next >= u2) continue;
    for (const Run& clear : view.clear) {
      const Tick a = std::max(clear.from, link->next), b = std::min(u2, clear.to + 1);
      if (b - a < lay_.leastU()) continue;
      const Worth worth = link->value + kind.offcutWorth[index(b - a)] - lay_.cutU;
      if (worth <= most) continue;
      most = worth;
      if (trail != nullptr) *trail = {static_cast<int>(link - links.begin()), a, b};
    }
  }
  return most;
}

Worth Programme::single(const StripKind& kind, const StripKind::View& view, Tick u1, Tick u2,
                        int* item, Tick* at) const {
  Worth most = 0;
  for (const int j : live_[static_cast<std::size_t>(&kind - lay_.kinds.data())]) {
    const int i = kind.items[index(j)];
    const Tick size = lay_.itemLength[index(i)];
    if (net_[index(i)] + lay_.cutV <= most) continue;
    const Tick place = nextPlace(view.starts[index(j)], u1);
    if (place < 0 || place + size > u2) continue;
    if (!saw_.trim && (place != u1 || size != u2 - u1)) continue;
    most = net_[index(i)] + lay_.cutV;  // the strip's cut is the piece's own
    if (item != nullptr) {
      *item = i;
      *at = place;
    }
  }
  return most;
}

Worth Programme::stripWorth(std::size_t k, int v, Tick u1, Tick u2) {
  Worth& worth = stripWorth_[k][index(v)];
  if (worth >= 0) return worth;
  const StripKind& kind = lay_.kinds[k];
  const StripKind::View& view = kind.views[index(v)];
  if (saw_.stages == 2) {
    worth = single(kind, view, u1, u2, nullptr, nullptr);
  } else {
    if (!known_[k][index(v)]) {
      chains_[k][index(v)] = chain(kind, view, u1);
      known_[k][index(v)] = true;
    }
    worth = worthOf(chains_[k][index(v)], kind, view, u2, nullptr);
  }
  return worth;
}

}  // namespace flitch::optimizer
