#include "optimizer/strips.h"

#include <algorithm>

#include "optimizer/index.h"

namespace flitch::optimizer {
namespace {

bool holds(const Runs& runs, Tick place) { return nextPlace(runs, place) == place; }

}  // namespace

void Strips::price(const Pricing& pricing, const ClearBoard& clear) {
  pricing_ = &pricing;
  clear_ = &clear;
  if (sight_.size() >= pricing.views) return;
  sight_.resize(pricing.views);
  pieces_.resize(pricing.views);
  lifted_.resize(pricing.views);
  found_.resize(pricing.views);
}

void Strips::start(Tick u1, Tick horizon) {
  u1_ = u1;
  horizon_ = horizon;
  ++start_;
  rungs_.clear();
  for (const std::size_t k : pricing_->kinds) {
    const std::vector<StripKind::View>& views = pricing_->lay->kinds[k].views;
    std::size_t* sight = sight_.data() + pricing_->firstView[k];
    for (std::size_t v = 0; v < views.size(); ++v)
      sight[v] = views[v].like >= 0 && views[v].likeFrom <= u1 ? sight[views[v].like]
                                                               : pricing_->firstView[k] + v;
  }
}

void Strips::end(Tick u2, OffcutsIn offcuts) {
  u2_ = u2;
  offcuts_ = offcuts;
  loose_ = false;
  ++section_;
}

const StripKind::View& Strips::viewOf(std::size_t kind, std::size_t sight) const {
  return pricing_->lay->kinds[kind].views[sight - pricing_->firstView[kind]];
}

// ---- bounds ----------------------------------------------------------------------------------

void Strips::climb(std::size_t kind, const StripKind::View& view, bool lifted, Chain& chain) {
  chain.start = start_;
  chain.from = rungs_.size();
  const Lay& lay = *pricing_->lay;
  const std::vector<Pricing::Live>& live = pricing_->live[kind];
  const Worth tick = pricing_->cell * lay.kinds[kind].width;
  const Tick room = horizon_ + lay.kerfU - u1_;
  cursor_.assign(live.size(), 0);
  ladder_.start(room);
  ladder_.put(0, 0);
  Worth most = -1;
  for (Tick p = 0; p >= 0; p = ladder_.next(p + 1)) {
    const Worth value = ladder_.value(p);
    if (value <= most) continue;
    most = value;
    rungs_.push_back({u1_ + p, value});
    work += live.size();
    for (std::size_t j = 0; j < live.size(); ++j) {
      const Pricing::Live& piece = live[j];
      const Worth more =
          lifted ? (piece.net << fraction) - tick * (piece.size - lay.kerfU) : piece.net;
      if (more <= 0) continue;
      const Runs& starts = view.starts[piece.place];
      std::size_t& c = cursor_[j];
      while (c < starts.size() && starts[c].to < u1_ + p) ++c;
      if (c == starts.size()) continue;
      const Tick end = std::max(starts[c].from, u1_ + p) + piece.size - u1_;
      if (end <= room) ladder_.put(end, value + more);
    }
  }
  chain.to = rungs_.size();
}

Worth Strips::reached(const Chain& chain) const {
  const auto from = rungs_.begin() + static_cast<std::ptrdiff_t>(chain.from);
  const auto to = rungs_.begin() + static_cast<std::ptrdiff_t>(chain.to);
  const auto after = std::upper_bound(from, to, u2_ + pricing_->lay->kerfU,
                                      [](Tick next, const Rung& r) { return next < r.next; });
  return (after - 1)->value;  // the start always stands before
}

Worth Strips::single(std::size_t kind, const StripKind::View& view, int* item, Tick* at) const {
  const Lay& lay = *pricing_->lay;
  Worth most = 0;
  for (const Pricing::Live& piece : pricing_->live[kind]) {
    const Tick size = piece.size - lay.kerfU;
    if (piece.net + lay.cutV <= most) continue;
    const Tick place = nextPlace(view.starts[piece.place], u1_);
    if (place < 0 || place + size > u2_) continue;
    if (!pricing_->saw->trim && (place != u1_ || size != u2_ - u1_)) continue;
    most = piece.net + lay.cutV;  // the strip's cut is the piece's own
    if (item != nullptr) {
      *item = piece.item;
      *at = place;
    }
  }
  return most;
}

Worth Strips::bound(std::size_t kind, int viewNumber) {
  const std::size_t seen = sight(kind, viewNumber);
  Found& found = found_[seen];
  if (found.section == section_) return found.most;
  found.section = section_;
  const StripKind::View& view = viewOf(kind, seen);
  if (pricing_->saw->stages == 2)
    return found.pieces = found.most = single(kind, view, nullptr, nullptr);
  const Lay& lay = *pricing_->lay;
  if (pieces_[seen].start != start_) climb(kind, view, false, pieces_[seen]);
  found.pieces = found.most = reached(pieces_[seen]);
  if (offcuts_ == OffcutsIn::nowhere || lay.kinds[kind].offcutWorth.empty() ||
      u2_ - u1_ < lay.leastU())
    return found.most;
  Tick cells = 0, longest = 0;
  for (const Run& run : view.clear) {
    if (run.from >= u2_) break;
    const Tick own = std::min(run.to + 1, u2_) - std::max(run.from, u1_);
    cells += std::max(0, own);
    longest = std::max(longest, own);
  }
  if (longest < lay.leastU()) return found.most;
  if (!view.apart) cells = u2_ - u1_;
  if (lifted_[seen].start != start_) climb(kind, view, true, lifted_[seen]);
  const Worth tick = pricing_->cell * lay.kinds[kind].width;
  const Worth with = ((tick * cells + reached(lifted_[seen])) >> fraction) - lay.cutU;
  if (with <= found.most) return found.most;
  loose_ = true;
  return found.most = with;
}

// ---- the worth itself ------------------------------------------------------------------------

Worth Strips::worth(std::size_t kind, int viewNumber, Worth need) {
  if (bound(kind, viewNumber) <= need) return found_[sight(kind, viewNumber)].most;
  const std::size_t seen = sight(kind, viewNumber);
  Found& found = found_[seen];
  if (found.most == found.pieces) return found.most;
  Path path;
  const Worth passed = std::max(need, found.pieces);
  const Worth worth = search(kind, viewOf(kind, seen), passed, path);
  found.most = worth;
  if (worth > passed) found.pieces = worth;  // known for good
  return worth;
}

void Strips::put(const Link& link, Worth need) {
  const Tick left = std::max(0, u2_ - link.next);
  if (link.value + ahead_[left] <= need) return;
  const Tick place = link.next - u1_;
  if (ladder_.put(place, link.value)) arrivals_[index(place)] = link;
}

Worth Strips::search(std::size_t kind, const StripKind::View& view, Worth need, Path& path) {
  const Lay& lay = *pricing_->lay;
  const Tick room = u2_ - u1_ + lay.kerfU;
  ahead_ = clear_->strip(kind);
  if (arrivals_.size() <= index(room)) arrivals_.resize(index(room) + 1);
  links_.clear();
  ladder_.start(room);
  put({u1_, 0}, need);
  Worth most = need, highest = -1;
  for (Tick p = ladder_.next(0); p >= 0; p = ladder_.next(p + 1)) {
    const Worth value = ladder_.value(p);
    if (value <= highest) continue;
    highest = value;
    const int here = static_cast<int>(links_.size());
    links_.push_back(arrivals_[index(p)]);
    if (value > most) {
      most = value;
      path = {here, 0, 0};
    }
    const Tick next = u1_ + p;
    if (value + ahead_[std::max(0, u2_ - next)] <= most) continue;
    work += pricing_->live[kind].size();
    for (const Pricing::Live& piece : pricing_->live[kind]) {
      const Tick at = nextPlace(view.starts[piece.place], next);
      if (at >= 0 && at + piece.size - lay.kerfU <= u2_)
        put({at + piece.size, value + piece.net, here, piece.item, at}, need);
    }
    if (offcuts_ != OffcutsIn::nowhere && !lay.kinds[kind].offcutWorth.empty())
      offcutsBefore(kind, view, here, need, most, path);
  }
  return most;
}

void Strips::offcutsBefore(std::size_t kind, const StripKind::View& view, int from, Worth need,
                           Worth& most, Path& path) {
  const Lay& lay = *pricing_->lay;
  const Link here = links_[index(from)];
  const Tick kerf = lay.kerfU;
  const Worth* worth = lay.kinds[kind].offcutWorth.data();
  const Worth base = here.value - lay.cutU;
  const auto hopeless = [&](Tick next, Worth value) {
    ++work;
    return value + ahead_[std::max(0, u2_ - next)] <= need;
  };
  for (const Run& clear : view.clear) {
    const Tick a = std::max(clear.from, here.next), end = std::min(clear.to + 1, u2_);
    if (a >= u2_) break;
    if (end - a < lay.leastU()) continue;
    if (const Worth value = base + worth[end - a]; value > most) {
      most = value;
      path = {from, a, end};
    }
    // Up to the mark, or a little less where the mark is thinner than a kerf.
    if (end == clear.to + 1)
      for (Tick b = std::max(a + lay.leastU(), end - kerf); b <= end; ++b)
        put({b + kerf, base + worth[b - a], from, -1, b, a, b}, need);
    if (offcuts_ == OffcutsIn::bounded) continue;
    if (offcuts_ == OffcutsIn::ruled) {
      for (const Pricing::Live& piece : pricing_->live[kind])
        for (const Run& run : view.starts[piece.place]) {
          const Tick at = run.from;
          if (at < a + lay.leastU() + kerf) continue;
          if (at > std::min(end + kerf, u2_ - (piece.size - kerf))) break;
          put({at + piece.size, base + piece.net + worth[at - kerf - a], from, piece.item, at, a,
               at - kerf},
              need);
        }
      continue;
    }
    // Up to a piece. If the piece could lie at a and all between is clear, the two may change
    // places, so the offcut comes later and nothing is lost.
    for (const Pricing::Live& piece : pricing_->live[kind]) {
      const Tick size = piece.size - kerf;
      const Worth both = base + piece.net;
      Tick least = a + lay.leastU() + kerf;
      if (holds(view.starts[piece.place], a)) least = std::max(least, end - size + 1);
      // All places lo to hi, halved until they cannot lead to what is asked for.
      const auto all = [&](const auto& self, Tick lo, Tick hi) -> void {
        if (lo > hi || hopeless(lo + piece.size, both + worth[hi - kerf - a])) return;
        if (lo == hi)
          return put(
              {lo + piece.size, both + worth[lo - kerf - a], from, piece.item, lo, a, lo - kerf},
              need);
        const Tick middle = lo + (hi - lo) / 2;
        self(self, lo, middle);
        self(self, middle + 1, hi);
      };
      for (const Run& run : view.starts[piece.place])
        all(all, std::max(run.from, least), std::min({run.to, end + kerf, u2_ - size}));
    }
  }
}

void Strips::build(std::size_t kind, int viewNumber, Tick at, Pattern& pattern) {
  const Lay& lay = *pricing_->lay;
  const Tick width = lay.kinds[kind].width;
  const auto cell = [&](int depth, Tick u, Tick v, Tick du, Tick dv, int item) {
    pattern.cells.push_back({depth, lay.onBoard(u, v, du, dv), item, 0});
    if (item >= 0) pattern.cells.back().orientation = lay.orientationAt(item, u, v);
  };
  const StripKind::View& view = viewOf(kind, sight(kind, viewNumber));
  if (pricing_->saw->stages == 2) {
    int item = -1;
    Tick u = u1_;
    single(kind, view, &item, &u);
    return cell(2, u, at, lay.itemLength[index(item)], width, item);
  }
  cell(2, u1_, at, u2_ - u1_, width, Cell::divided);
  Path path;
  search(kind, view, worth(kind, viewNumber, -1) - 1, path);
  std::vector<Link> order;
  for (int l = path.last; l > 0; l = links_[index(l)].before) order.push_back(links_[index(l)]);
  for (auto link = order.rbegin(); link != order.rend(); ++link) {
    if (link->offcutFrom < link->offcutTo)
      cell(3, link->offcutFrom, at, link->offcutTo - link->offcutFrom, width, Cell::offcut);
    if (link->item < 0) continue;
    Tick side = 0;  // where strips may be wider than pieces, the nearest place across
    while (lay.orientationAt(link->item, link->at, at + side) < 0) ++side;
    cell(3, link->at, at + side, lay.itemLength[index(link->item)],
         lay.itemWidth[index(link->item)], link->item);
  }
  if (path.from < path.to) cell(3, path.from, at, path.to - path.from, width, Cell::offcut);
}

}  // namespace flitch::optimizer
