#include "optimizer/listing.h"

#include <algorithm>
#include <cmath>

#include "optimizer/index.h"
#include "optimizer/listing_side.h"

namespace flitch::optimizer {
namespace {

/// Ways that no other makes needless, the cheaper first of equals.
void prune(std::vector<Listed>& ways, const Lister::Ask& ask) {
  const auto rest = [&](const Listed& way) { return way.value - ask.worths.of(way.units); };
  std::stable_sort(ways.begin(), ways.end(),
                   [](const Listed& a, const Listed& b) { return a.value > b.value; });
  std::vector<Listed> kept;
  std::vector<Worth> rests;
  for (Listed& way : ways) {
    const Worth own = rest(way);
    bool needless = false;
    for (std::size_t k = 0; k < kept.size() && !needless; ++k)
      needless = rests[k] >= own && std::equal(kept[k].units.begin(), kept[k].units.end(),
                                               way.units.begin(), std::greater_equal<>());
    if (needless) continue;
    kept.push_back(std::move(way));
    rests.push_back(own);
  }
  ways = std::move(kept);
}

}  // namespace

Listing Lister::list(const Ask& ask) const {
  Listing listing;
  if (problem_.saw.stages != 3 || problem_.saw.trim) return listing;
  std::vector<ListingSide> sides;
  Worth most = ask.floor;
  for (const Lay& lay : lays_) {
    sides.emplace_back(lay, problem_, ask);
    most = std::max(most, sides.back().most());
  }
  // Down from what is possible at all until the first programme finds a way, then by steps that
  // grow as long as few labels are made.
  Worth floor = most, step = std::max<Worth>(1, most / 50);
  bool found = false;
  while (floor > ask.floor && listing.ways.size() < ask.enough) {
    floor = std::max(ask.floor, floor - step);
    std::vector<Listed> ways;
    std::size_t labels = 0;
    Worth best = 0;
    bool whole = true;
    for (ListingSide& side : sides) {
      whole = whole && side.run(floor, ways);
      best = std::max(best, side.best());
      labels = std::max(labels, side.labels());
    }
    if (!whole) break;
    if (!found && best > floor) {
      found = true;
      step = std::max<Worth>(1, (best - floor) / 2 + best / 100);
    } else if (labels < ask.labels / 8) {
      step *= 2;
    }
    prune(ways, ask);
    listing.ways = std::move(ways);
    listing.above = floor;
  }
  if (most <= ask.floor &&
      std::all_of(sides.begin(), sides.end(), [](const ListingSide& side) { return side.fits(); }))
    listing.above = ask.floor;
  for (const ListingSide& side : sides) listing.work += side.work();
  return listing;
}

bool Lister::lists(std::span<const std::int64_t> wanted) const {
  if (problem_.saw.stages != 3 || problem_.saw.trim) return false;
  std::vector<bool> counted(wanted.size(), false);
  for (std::size_t i = 0; i < problem_.items.size(); ++i) {
    const auto need = index(problem_.items[i].need);
    if (wanted[need] > Units::largest) return false;
    if (wanted[need] > 0 && std::any_of(lays_.begin(), lays_.end(),
                                        [&](const Lay& lay) { return lay.itemLength[i] > 0; }))
      counted[need] = true;
  }
  return static_cast<std::size_t>(std::count(counted.begin(), counted.end(), true)) <= Units::lanes;
}

// ---- labels ------------------------------------------------------------------------------------

ListingSide::ListingSide(const Lay& lay, const Problem& problem, const Lister::Ask& ask)
    : lay_(lay), problem_(problem), ask_(ask), rule_(lay) {
  lane_.assign(problem.needs.size(), -1);
  std::vector<bool> wanted(problem.needs.size(), false);
  for (std::size_t i = 0; i < problem.items.size(); ++i) {
    const auto need = index(problem.items[i].need);
    if (lay.itemLength[i] > 0 && ask.worths.wanted(need) > 0) wanted[need] = true;
  }
  for (std::size_t n = 0; n < wanted.size(); ++n) {
    if (!wanted[n]) continue;
    if (unit_.size() == Units::lanes || ask.worths.wanted(n) > Units::largest) {
      tooMany_ = true;
      return;
    }
    const std::size_t lane = unit_.size();
    lane_[n] = static_cast<int>(lane);
    wanted_.n[lane] = static_cast<std::int16_t>(ask.worths.wanted(n));
    unit_.push_back(ask.worths.steepest(n));
    price_.push_back(0);
    if (!ask.worths.isTable(n)) continue;
    Table table{lane, n, index(static_cast<int>(ask.worths.wanted(n))) + 1, {}};
    for (std::int64_t many = 0; many <= ask.worths.wanted(n); ++many)
      for (std::int64_t few = 0; few <= ask.worths.wanted(n); ++few)
        table.ahead.push_back(ask.worths.ahead(n, many, few) -
                              unit_[lane] * std::max<std::int64_t>(0, many - few));
    tables_.push_back(std::move(table));
  }
  for (std::size_t k = 0; k < lay.kinds.size(); ++k) {
    Kind kind{&lay.kinds[k], k, {}, {}};
    for (std::size_t j = 0; j < kind.kind->items.size(); ++j) {
      const int i = kind.kind->items[j];
      const Item& item = problem.items[index(i)];
      const int lane = lane_[index(item.need)];
      if (lane < 0) continue;
      Piece piece{i, static_cast<int>(j), lay.itemLength[index(i)], {}, 0};
      piece.label.units.n[index(lane)] =
          static_cast<std::int16_t>(std::min(item.supplies, ask.worths.wanted(index(item.need))));
      piece.label.rest = -lay.cutU - item.extra;
      piece.label.item = i;
      kind.pieces.push_back(piece);
    }
    if (kind.pieces.empty()) continue;
    kinds_.push_back(std::move(kind));
  }
  for (auto& byView : links_) byView.resize(kinds_.size());
  for (auto& byView : linked_) byView.resize(kinds_.size());
  for (auto& byView : chains_) byView.resize(kinds_.size());
  worths_.resize(kinds_.size());
  all_.resize(index(lay.length));
  for (std::size_t k = 0; k < kinds_.size(); ++k) {
    for (auto& byView : links_) byView[k].resize(kinds_[k].kind->views.size());
    for (auto& byView : chains_) byView[k].resize(kinds_[k].kind->views.size());
    worths_[k].resize(kinds_[k].kind->views.size());
  }
  findPlaces();
}

bool ListingSide::givenUp() {
  tooMany_ = tooMany_ || labels_.size() > ask_.labels ||
             (ask_.halt != nullptr && (++looked_ & 15U) == 0 && ask_.halt->now());
  return tooMany_;
}

void ListingSide::weigh(Label& label) const {
  label.value = label.low = label.rest;
  for (std::size_t n = 0; n < unit_.size(); ++n) {
    label.value += unit_[n] * label.units.n[n];
    label.low += (unit_[n] - price_[n]) * label.units.n[n];
  }
  for (const Table& table : tables_) {
    const int units = label.units.n[table.lane];
    label.value += ask_.worths.of(table.need, units) - unit_[table.lane] * units;
  }
}

bool ListingSide::beats(const Label& a, const Label& b) const {
  if (ask_.all) return a.rest >= b.rest && a.units.covers(b.units);
  // What follows b may bring the more units wanted, as many as a has more of already.
  if (a.value < b.value) return false;
  Worth ahead = 0;
  for (std::size_t n = 0; n < unit_.size(); ++n)
    if (const int more = a.units.n[n] - b.units.n[n]; more > 0) ahead += unit_[n] * more;
  for (const Table& table : tables_)
    ahead += table.ahead[index(a.units.n[table.lane]) * table.row + index(b.units.n[table.lane])];
  return a.value - ahead >= b.value;
}

ListingSide::Label ListingSide::joined(const Label& base, const Label& more) const {
  Label sum;
  bool cut = false;
  sum.units = base.units.plus(more.units, wanted_, cut);
  sum.rest = base.rest + more.rest;
  sum.value = base.value + more.value;
  sum.low = base.low + more.low;
  if (cut || !tables_.empty()) weigh(sum);
  sum.before = &base;
  return sum;
}

const ListingSide::Label* ListingSide::keep(Front& front, const Label& label) {
  work_ += front.size() + 1;
  for (const Label* other : front)
    if (beats(*other, label)) return nullptr;
  std::erase_if(front, [&](const Label* other) { return beats(label, *other); });
  labels_.push_back(label);
  front.push_back(&labels_.back());
  return front.back();
}

// ---- along a strip -----------------------------------------------------------------------------

const std::vector<ListingSide::Place>& ListingSide::chain(std::size_t k, std::size_t view, Tick u1,
                                                          bool offcuts) {
  std::vector<Place>& places = chains_[offcuts ? 1 : 0][k][view];
  if (!places.empty()) return places;
  const StripKind& kind = *kinds_[k].kind;
  const StripKind::View& seen = kind.views[view];
  labels_.push_back({});
  places.push_back({u1, &labels_.back()});
  const auto put = [&](Tick next, const Label& label) {
    auto after = places.begin();
    for (; after != places.end() && after->next <= next; ++after)
      if (beats(*after->label, label)) return;
    labels_.push_back(label);
    after = places.insert(after, {next, &labels_.back()});
    places.erase(std::remove_if(after + 1, places.end(),
                                [&](const Place& p) { return beats(label, *p.label); }),
                 places.end());
  };
  const auto laid = [&](const Label& base, const Piece& piece, Tick at) {
    Label label = joined(base, piece.label);
    label.item = piece.item;
    label.from = at;
    label.to = at + piece.size;
    return label;
  };
  for (std::size_t p = 0; p < places.size() && !givenUp(); ++p) {
    const Place from = places[p];
    for (const Piece& piece : kinds_[k].pieces)
      if (const Tick at = nextPlace(seen.starts[index(piece.place)], from.next); at >= 0)
        put(at + piece.size + lay_.kerfU, laid(*from.label, piece, at));
    if (!offcuts || kind.offcutWorth.empty()) continue;
    const auto offcut = [&](Tick a, Tick b) {
      Label label = *from.label;
      const Worth worth = kind.offcutWorth[index(b - a)] - lay_.cutU;
      label.rest += worth;
      label.value += worth;
      label.low += worth;
      label.before = from.label;
      label.item = Cell::offcut;
      label.from = a;
      label.to = b;
      return label;
    };
    for (const Run& clear : seen.clear) {
      const Tick a = std::max(clear.from, from.next), end = clear.to + 1;
      if (end - a < lay_.leastU()) continue;
      for (Tick b = std::max(a + lay_.leastU(), end - lay_.kerfU); b <= end; ++b)
        put(b + lay_.kerfU, offcut(a, b));
      for (const Piece& piece : kinds_[k].pieces)
        for (const Run& run : seen.starts[index(piece.place)]) {
          const Tick b = run.from - lay_.kerfU;
          if (b - a < lay_.leastU() || b > end) continue;
          labels_.push_back(offcut(a, b));
          put(run.from + piece.size + lay_.kerfU, laid(labels_.back(), piece, run.from));
        }
    }
  }
  return places;
}

ListingSide::Front ListingSide::strip(std::size_t k, std::size_t view, const Section& section) {
  Front front;
  const StripKind& kind = *kinds_[k].kind;
  const std::vector<Place>& places = chain(k, view, section.from, section.offcuts);
  const auto put = [&](const Label& label) {
    if (label.before != nullptr) keep(front, label);
  };
  for (const Place& place : places) {
    if (place.next > section.to + lay_.kerfU) break;
    put(*place.label);
    if (!section.offcuts || kind.offcutWorth.empty()) continue;
    for (const Run& clear : kind.views[view].clear) {
      const Tick a = std::max(clear.from, place.next), b = std::min(section.to, clear.to + 1);
      if (b - a < lay_.leastU()) continue;
      Label label = *place.label;
      const Worth worth = kind.offcutWorth[index(b - a)] - lay_.cutU;
      if (worth <= 0) continue;
      label.rest += worth;
      label.value += worth;
      label.low += worth;
      label.before = place.label;
      label.item = Cell::offcut;
      label.from = a;
      label.to = b;
      put(label);
    }
  }
  return front;
}

// ---- in a section ------------------------------------------------------------------------------

std::vector<Run> ListingSide::offcutsIn(const Section& section, Tick v1, Tick v2) const {
  Runs clear{{section.from, section.to - 1}};
  for (const Rect& r : lay_.hard) {
    if (r.y >= v2 || v1 >= r.y + r.dy || r.x >= section.to || section.from >= r.x + r.dx) continue;
    Runs left;
    for (const Run& run : clear) {
      if (run.from < r.x) left.push_back({run.from, std::min(run.to, r.x - 1)});
      if (run.to >= r.x + r.dx) left.push_back({std::max(run.from, r.x + r.dx), run.to});
    }
    clear = std::move(left);
  }
  if (clear.size() == 1 && clear[0].to - clear[0].from + 1 == section.to - section.from)
    return clear;
  // Each an offcut or none; where two lie closer than a kerf, the one may end early or the other
  // begin late.
  struct State {
    Tick next;
    Worth worth;
    std::vector<Run> runs;
  };
  std::vector<State> states{{section.from, 0, {}}};
  for (std::size_t r = 0; r < clear.size(); ++r) {
    const Tick end = clear[r].to + 1;
    const bool close = r + 1 < clear.size() && clear[r + 1].from < end + lay_.kerfU;
    const std::size_t known = states.size();
    for (std::size_t s = 0; s < known; ++s) {
      const Tick a = std::max(clear[r].from, states[s].next);
      for (Tick b = std::max(a + lay_.leastU(), close ? end - lay_.kerfU : end); b <= end; ++b) {
        const Worth more = lay_.offcutWorth(b - a, v2 - v1) - lay_.cutU;
        if (more <= 0) continue;
        State made = states[s];
        made.next = b + lay_.kerfU;
        made.worth += more;
        made.runs.push_back({a, b - 1});
        states.push_back(std::move(made));
      }
    }
    if (close) continue;
    const auto best =
        std::max_element(states.begin(), states.end(),
                         [](const State& a, const State& b) { return a.worth < b.worth; });
    states = {State(*best)};
  }
  return std::max_element(states.begin(), states.end(),
                          [](const State& a, const State& b) { return a.worth < b.worth; })
      ->runs;
}

ListingSide::Label ListingSide::offcutRow(const Section& section, Tick v1, Tick v2) const {
  Label row;
  row.item = Cell::offcut;
  row.from = v1;
  row.to = v2;
  for (const Run& run : offcutsIn(section, v1, v2)) {
    const bool whole = run.from == section.from && run.to == section.to - 1;
    row.rest += lay_.offcutWorth(run.to + 1 - run.from, v2 - v1) - (whole ? 0 : lay_.cutU);
  }
  row.rest -= lay_.cutV;
  row.value = row.low = row.rest;
  return row;
}

ListingSide::Front ListingSide::stack(const Section& section, Worth need) {
  const Tick width = lay_.width, kerf = lay_.kerfV;
  boundRows(section.from, section.to, section.offcuts);
  const std::vector<Worth> above = above_;
  std::vector<Front> arrivals(index(width + kerf) + 1);
  labels_.push_back({});
  arrivals[0].push_back(&labels_.back());
  Front all;  // of all rows so far
  std::vector<std::vector<Front>> strips(kinds_.size());
  std::vector<std::vector<char>> known(kinds_.size());
  for (std::size_t k = 0; k < kinds_.size(); ++k) {
    strips[k].resize(kinds_[k].kind->views.size());
    known[k].assign(kinds_[k].kind->views.size(), 0);
  }
  const auto arrive = [&](Label label, Tick from, Tick to) {
    if (label.low + above[index(std::min(to + kerf, width + kerf))] <= need) return;
    label.from = from;
    label.to = to;
    keep(arrivals[index(to + kerf)], label);
  };
  const auto lay = [&](std::size_t k, Tick v, const Label& base) {
    const StripKind& kind = *kinds_[k].kind;
    const Tick end = v + kind.width;
    if (end > width) return;
    const auto view = index(kind.viewAt[index(v)]);
    if (known[k][view] == 0) {
      known[k][view] = 1;
      strips[k][view] = strip(k, view, section);
    }
    for (const Label* inside : strips[k][view]) {
      if (base.low + inside->low - lay_.cutV + above[index(end + kerf)] <= need) continue;
      Label label = joined(base, *inside);
      label.rest -= lay_.cutV;
      label.value -= lay_.cutV;
      label.low -= lay_.cutV;
      label.inside = inside;
      label.item = Cell::divided;
      arrive(label, v, end);
    }
  };
  std::vector<Tick> ends;  // of rows of offcut
  std::vector<char> fresh(index(width) + 1, 0);
  if (section.offcuts && lay_.leastV() <= width) {
    ends.push_back(width);
    for (const Rect& r : lay_.hard)
      if (r.x < section.to && section.from < r.x + r.dx) {
        if (r.y > 0 && r.y < width) ends.push_back(r.y);
        if (r.y + r.dy > 0 && r.y + r.dy < width) fresh[index(r.y + r.dy)] = 1;
      }
    for (const std::vector<Tick>* rows : {&rule_.changes, &rule_.lateRows})
      for (const Tick row : *rows)
        if (row > kerf) ends.push_back(row - kerf);
    std::sort(ends.begin(), ends.end());
    ends.erase(std::unique(ends.begin(), ends.end()), ends.end());
  }
  for (Tick v = 0; v < width && !givenUp(); ++v) {
    Front active;
    for (const Label* label : arrivals[index(v)])
      if (std::none_of(all.begin(), all.end(),
                       [&](const Label* other) { return beats(*other, *label); })) {
        std::erase_if(all, [&](const Label* other) { return beats(*label, *other); });
        all.push_back(label);
        active.push_back(label);
      }
    for (const Label* label : active)
      for (std::size_t k = 0; k < kinds_.size(); ++k) lay(k, v, *label);
    const bool isFresh = fresh[index(v)] != 0;
    for (std::size_t k = 0; k < kinds_.size(); ++k) {
      if (!std::binary_search(kinds_[k].changes.begin(), kinds_[k].changes.end(), v)) continue;
      for (const Label* label : all)
        if (std::find(active.begin(), active.end(), label) == active.end()) lay(k, v, *label);
    }
    if (ends.empty() || (active.empty() && !isFresh)) continue;
    for (const Tick end : ends) {
      if (end - v < lay_.leastV()) continue;
      const Label row = offcutRow(section, v, end);
      if (row.rest <= 0) continue;
      for (const Label* base : isFresh ? all : active) {
        Label label = joined(*base, row);
        label.item = Cell::offcut;
        arrive(label, v, end);
      }
    }
  }
  for (Tick v = width; v <= width + kerf; ++v)
    for (const Label* label : arrivals[index(v)])
      if (std::none_of(all.begin(), all.end(),
                       [&](const Label* other) { return beats(*other, *label); })) {
        std::erase_if(all, [&](const Label* other) { return beats(*label, *other); });
        all.push_back(label);
      }
  std::erase_if(all,
                [&](const Label* label) { return label->before == nullptr || label->low <= need; });
  return all;
}

// ---- the board ---------------------------------------------------------------------------------

Worth ListingSide::most() {
  if (tooMany_) return 0;
  const auto bounded = [&] {
    boundByStretches();
    return tooMany_ ? std::numeric_limits<Worth>::max() / 4 : restBound_[0] + back_;
  };
  if (!ask_.prices.empty()) {
    for (std::size_t n = 0; n < lane_.size(); ++n)
      if (lane_[n] >= 0) price_[index(lane_[n])] = ask_.prices[n];
    weighAll();
    return bounded();
  }
  const auto bound = [&](double level) {
    levelTo(level);
    return bounded();
  };
  const double start = fillingLevel();
  double level = std::numeric_limits<double>::infinity();
  Worth least = bound(level);
  // The bound is nearly convex in the level: down from where the pieces wanted fill the board, or
  // up from there, until it has twice brought nothing.
  const auto search = [&](double from, double factor) {
    int failed = 0;
    for (double next = from; failed < 2 && next > 0 && least > ask_.floor && !tooMany_;
         next *= factor) {
      const Worth found = bound(next);
      failed = found < least ? 0 : failed + 1;
      if (found >= least) continue;
      least = found;
      level = next;
    }
  };
  constexpr double factor = 0.75;
  search(start, factor);
  if (level == start || std::isinf(level)) search(start / factor, 1 / factor);
  if (least > ask_.floor) least = bound(level);
  return least;
}

bool ListingSide::run(Worth floor, std::vector<Listed>& ways) {
  if (tooMany_) return false;
  floor_ = floor - back_;
  forget();
  labels_.clear();
  best_ = 0;
  const bool pays = boundBoard();
  if (tooMany_) return false;
  if (!pays) return true;
  best_ = rest_[0] + back_;
  if (tooMany_) return false;
  const Tick length = lay_.length, kerf = lay_.kerfU;
  std::vector<Front> arrivals(index(length + kerf) + 1);
  labels_.push_back({});
  weigh(labels_.back());
  arrivals[0].push_back(&labels_.back());
  Front all;
  const auto arrive = [&](Label label, Tick from, Tick to) {
    if (label.low + rest_[index(to + kerf)] <= floor_) return;
    label.from = from;
    label.to = to;
    keep(arrivals[index(to + kerf)], label);
  };
  const auto receive = [&](Tick u, Front& active) {
    for (const Label* label : arrivals[index(u)])
      if (std::none_of(all.begin(), all.end(),
                       [&](const Label* other) { return beats(*other, *label); })) {
        std::erase_if(all, [&](const Label* other) { return beats(*label, *other); });
        all.push_back(label);
        active.push_back(label);
      }
  };
  Front active;
  for (Tick u = 0; u < length; ++u) {
    if (givenUp()) return false;
    active.clear();
    receive(u, active);
    const bool isFresh = std::binary_search(rule_.fresh.begin(), rule_.fresh.end(), u);
    if (active.empty() && !isFresh) continue;
    forget();
    for (const Section& section : sections_[index(u)]) {
      const Front& bases = isFresh && section.offcuts ? all : active;
      Worth most = std::numeric_limits<Worth>::min() / 2;
      for (const Label* base : bases) most = std::max(most, base->low);
      const Worth need = floor_ - most - rest_[index(section.to + kerf)] + lay_.cutU;
      if (section.low <= need) continue;
      for (const Label* inside : stack(section, need))
        for (const Label* base : bases) {
          if (base->low + inside->low - lay_.cutU + rest_[index(section.to + kerf)] <= floor_)
            continue;
          Label label = joined(*base, *inside);
          label.rest -= lay_.cutU;
          label.value -= lay_.cutU;
          label.low -= lay_.cutU;
          label.inside = inside;
          label.item = Cell::divided;
          arrive(label, section.from, section.to);
        }
    }
    for (const Run& run : rule_.whole) {
      if (u < run.from || u > run.to) continue;
      const auto offcut = [&](Tick end) {
        if (end - u < lay_.leastU()) return;
        Label own;
        own.rest = own.value = own.low = lay_.offcutWorth(end - u, lay_.width) - lay_.cutU;
        if (own.rest <= 0) return;
        for (const Label* base : u == run.from ? all : active) {
          Label label = joined(*base, own);
          label.item = Cell::offcut;
          arrive(label, u, end);
        }
      };
      offcut(run.to + 1);
      for (const std::vector<Tick>* ends : {&rule_.fresh, &rule_.late})
        for (const Tick f : *ends)
          if (f - kerf > u && f - kerf <= run.to) offcut(f - kerf);
    }
  }
  for (Tick u = length; u <= length + kerf; ++u) receive(u, active);
  if (givenUp()) return false;
  for (const Label* label : all) {
    if (label->value <= floor) continue;
    Listed way{std::vector<std::int64_t>(problem_.needs.size(), 0), label->value, build(*label)};
    for (std::size_t n = 0; n < lane_.size(); ++n)
      if (lane_[n] >= 0) way.units[n] = label->units.n[index(lane_[n])];
    ways.push_back(std::move(way));
  }
  return true;
}

void ListingSide::buildStrip(const Label& strip, const Label& section, Pattern& pattern) const {
  const auto cell = [&](int depth, Tick u, Tick v, Tick du, Tick dv, int item) {
    Cell made{depth, lay_.onBoard(u, v, du, dv), item, 0};
    if (item >= 0) made.orientation = lay_.orientationAt(item, u, v);
    pattern.cells.push_back(made);
  };
  const Tick u1 = section.from, du = section.to - section.from, v = strip.from,
             dv = strip.to - strip.from;
  if (strip.item == Cell::offcut) {
    const std::vector<Run> runs =
        offcutsIn({section.from, section.to, true, 0}, strip.from, strip.to);
    const bool whole = runs.size() == 1 && runs[0].to + 1 - runs[0].from == du;
    cell(2, u1, v, du, dv, whole ? Cell::offcut : Cell::divided);
    if (!whole)
      for (const Run& run : runs) cell(3, run.from, v, run.to + 1 - run.from, dv, Cell::offcut);
    return;
  }
  cell(2, u1, v, du, dv, Cell::divided);
  std::vector<const Label*> path;
  for (const Label* label = strip.inside; label->before != nullptr; label = label->before)
    path.push_back(label);
  for (auto part = path.rbegin(); part != path.rend(); ++part)
    cell(3, (*part)->from, v, (*part)->to - (*part)->from, dv, (*part)->item);
}

Pattern ListingSide::build(const Label& last) const {
  Pattern pattern{lay_.first, {}};
  std::vector<const Label*> sections;
  for (const Label* label = &last; label->before != nullptr; label = label->before)
    sections.push_back(label);
  for (auto section = sections.rbegin(); section != sections.rend(); ++section) {
    const Label& own = **section;
    const bool offcut = own.item == Cell::offcut;
    pattern.cells.push_back({1, lay_.onBoard(own.from, 0, own.to - own.from, lay_.width),
                             offcut ? Cell::offcut : Cell::divided, 0});
    if (offcut) continue;
    std::vector<const Label*> strips;
    for (const Label* strip = own.inside; strip->before != nullptr; strip = strip->before)
      strips.push_back(strip);
    for (auto strip = strips.rbegin(); strip != strips.rend(); ++strip)
      buildStrip(**strip, own, pattern);
  }
  return pattern;
}

}  // namespace flitch::optimizer
