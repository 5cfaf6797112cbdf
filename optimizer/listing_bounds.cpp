// What parts of a board are worth at most, by programmes with one value.
#include <algorithm>
#include <cmath>

#include "optimizer/index.h"
#include "optimizer/listing_side.h"

namespace flitch::optimizer {
void ListingSide::findPlaces() {
  for (Kind& kind : kinds_) {
    const std::vector<int>& at = kind.kind->viewAt;
    for (std::size_t v = 1; v < at.size(); ++v)
      if (at[v] != at[v - 1]) kind.changes.push_back(static_cast<Tick>(v));
  }
}

double ListingSide::fillingLevel() const {
  struct Share {
    double each;   ///< worth of a cell
    double cells;  ///< of all that is wanted
  };
  std::vector<Share> shares(unit_.size(), {0, 0});
  for (const Kind& kind : kinds_)
    for (const Piece& piece : kind.pieces) {
      const Item& item = problem_.items[index(piece.item)];
      const auto lane = index(lane_[index(item.need)]);
      const double cells = static_cast<double>(piece.size + lay_.kerfU) *
                           static_cast<double>(kind.kind->width + lay_.kerfV);
      const double each =
          static_cast<double>(unit_[lane] * item.supplies + piece.label.rest) / cells;
      if (each <= shares[lane].each) continue;
      shares[lane] = {each, cells * wanted_.n[lane] / static_cast<double>(item.supplies)};
    }
  std::sort(shares.begin(), shares.end(),
            [](const Share& a, const Share& b) { return a.each > b.each; });
  double left = static_cast<double>(lay_.length) * static_cast<double>(lay_.width);
  for (const Share& share : shares)
    if ((left -= share.cells) <= 0) return share.each;
  // All fit: what more they bring stands against offcuts
  return std::ldexp(static_cast<double>(lay_.cellWorth(fraction)), -fraction);
}

void ListingSide::levelTo(double level) {
  std::fill(price_.begin(), price_.end(), 0);
  for (const Kind& kind : kinds_)
    for (const Piece& piece : kind.pieces) {
      const Item& item = problem_.items[index(piece.item)];
      const auto lane = index(lane_[index(item.need)]);
      const double most = level * static_cast<double>(piece.size + lay_.kerfU) *
                          static_cast<double>(kind.kind->width + lay_.kerfV);
      const double over =
          static_cast<double>(unit_[lane] * item.supplies + piece.label.rest) - most;
      if (!(over > 0)) continue;
      price_[lane] =
          std::max(price_[lane], static_cast<Worth>(over / static_cast<double>(item.supplies)));
    }
  weighAll();
}

void ListingSide::weighAll() {
  back_ = 0;
  for (std::size_t n = 0; n < lane_.size(); ++n) {
    if (lane_[n] < 0) continue;
    const std::size_t l = index(lane_[n]);
    price_[l] = std::min(price_[l], unit_[l]);
    back_ += ask_.worths.over(n, unit_[l] - price_[l]);
  }
  std::vector<Worth> values(problem_.items.size(), 0);
  for (Kind& kind : kinds_)
    for (Piece& piece : kind.pieces) {
      const Item& item = problem_.items[index(piece.item)];
      const auto lane = index(lane_[index(item.need)]);
      weigh(piece.label);
      piece.low = (unit_[lane] - price_[lane]) * item.supplies + piece.label.rest;
      values[index(piece.item)] = piece.low + lay_.cutU;
    }
  pricing_.set(lay_, problem_.saw, values);
  clear_.price(pricing_);
  forget();
}

void ListingSide::forget() {
  for (std::size_t k = 0; k < kinds_.size(); ++k) {
    for (auto& byView : linked_) byView[k].assign(kinds_[k].kind->views.size(), 0);
    for (auto& byView : chains_)
      for (std::vector<Place>& chain : byView[k]) chain.clear();
  }
}

const std::vector<ListingSide::Link>& ListingSide::linksOf(std::size_t k, std::size_t view, Tick u1,
                                                           bool lifted) {
  std::vector<Link>& links = links_[lifted ? 1 : 0][k][view];
  char& known = linked_[lifted ? 1 : 0][k][view];
  if (known != 0) return links;
  known = 1;
  links.assign(1, {u1, 0});
  const StripKind& kind = *kinds_[k].kind;
  const StripKind::View& seen = kind.views[view];
  const Worth tick = lay_.cellWorth(fraction) * kind.width;
  for (std::size_t l = 0; l < links.size(); ++l) {
    const Link from = links[l];
    for (const Piece& piece : kinds_[k].pieces) {
      const Worth more = lifted ? (piece.low << fraction) - tick * piece.size : piece.low;
      if (more <= 0) continue;
      const Tick at = nextPlace(seen.starts[index(piece.place)], from.next);
      if (at < 0) continue;
      const Link made{at + piece.size + lay_.kerfU, from.low + more};
      auto after = std::upper_bound(links.begin() + static_cast<std::ptrdiff_t>(l), links.end(),
                                    made.next, [](Tick n, const Link& x) { return n < x.next; });
      if ((after - 1)->low >= made.low) continue;
      auto end = after;
      while (end != links.end() && end->low <= made.low) ++end;
      if ((after - 1)->next == made.next && after - 1 != links.begin()) --after;
      after = links.erase(after, end);
      links.insert(after, made);
    }
  }
  work_ += links.size();
  return links;
}

Worth ListingSide::stripWorth(std::size_t k, std::size_t view, Tick u1, Tick u2, bool offcuts) {
  const StripKind& kind = *kinds_[k].kind;
  const auto reached = [&](bool lifted) {
    const std::vector<Link>& links = linksOf(k, view, u1, lifted);
    const auto last = std::upper_bound(links.begin(), links.end(), u2 + lay_.kerfU,
                                       [](Tick n, const Link& x) { return n < x.next; });
    return (last - 1)->low;
  };
  Worth most = reached(false);
  if (!offcuts || kind.offcutWorth.empty() || u2 - u1 < lay_.leastU()) return most;
  // All clear cells as offcut, but those that pieces take.
  Tick cells = 0, longest = 0;
  for (const Run& run : kind.views[view].clear) {
    if (run.from >= u2) break;
    const Tick own = std::min(run.to + 1, u2) - std::max(run.from, u1);
    cells += std::max(0, own);
    longest = std::max(longest, own);
  }
  if (longest < lay_.leastU()) return most;
  if (!kind.views[view].apart) cells = u2 - u1;
  const Worth tick = lay_.cellWorth(fraction) * kind.width;
  most = std::max(most, ((tick * cells + reached(true)) >> fraction) - lay_.cutU);
  if (pricing_.live[kinds_[k].number].empty()) return most;
  return std::min(most, clear_.strip(kinds_[k].number)[u2 - u1]);
}

void ListingSide::boundRows(Tick u1, Tick u2, bool offcuts) {
  const Tick width = lay_.width, kerf = lay_.kerfV;
  const std::size_t rows = index(width + kerf) + 1;
  above_.assign(rows, 0);
  strips_.clear();
  for (std::size_t k = 0; k < kinds_.size(); ++k) {
    Worth most = 0;
    for (std::size_t v = 0; v < worths_[k].size(); ++v) {
      worths_[k][v] = stripWorth(k, v, u1, u2, offcuts) - lay_.cutV;
      most = std::max(most, worths_[k][v]);
    }
    if (most > 0)
      strips_.push_back({width - kinds_[k].kind->width, kinds_[k].kind->viewAt.data(),
                         worths_[k].data(), above_.data() + kinds_[k].kind->width + kerf});
  }
  const bool keeps = offcuts && u2 - u1 >= lay_.leastU() && lay_.leastV() <= width;
  if (keeps) {
    // Rows of offcut: each at most the clear cells of its row at the dearest rate.
    const Worth cell = lay_.cellWorth(fraction);
    rowClear_.assign(index(width), u2 - u1);
    for (const Rect& r : lay_.hard) {
      const Tick taken = std::min(r.x + r.dx, u2) - std::max(r.x, u1);
      if (taken <= 0) continue;
      for (Tick v = std::max<Tick>(0, r.y); v < std::min(width, r.y + r.dy); ++v)
        rowClear_[index(v)] = std::min(rowClear_[index(v)], u2 - u1 - taken);
    }
    rowWorth_.clear();
    for (const Tick c : rowClear_)
      rowWorth_.push_back(c < lay_.leastU() ? 0 : ((cell * c) >> fraction) + 1);
    running_.assign(rows, 0);  // an offcut that already holds enough rows goes on
  }
  Worth window = 0;  // of the rows v to v + leastV
  work_ += index(width) * (strips_.size() + 1);
  for (Tick v = width - 1; v >= 0; --v) {
    Worth most = above_[index(v) + 1];
    for (const Strips& s : strips_) {
      if (v > s.last) break;
      most = std::max(most, s.behind[v] + s.worth[s.viewAt[v]]);
    }
    if (keeps) {
      const Tick least = lay_.leastV();
      window += rowWorth_[index(v)];
      if (v + least < width) window -= rowWorth_[index(v + least)];
      if (v + least <= width) {
        // What lies behind an offcut that ends before row e: running_[e].
        const Tick end = v + least;
        const Worth goOn = end < width ? rowWorth_[index(end)] + running_[index(end) + 1] : 0;
        running_[index(end)] = std::max(above_[index(std::min(end + kerf, width))], goOn);
        most = std::max(most, window + running_[index(end)] - lay_.cutV);
      }
    }
    above_[index(v)] = most;
  }
}

void ListingSide::boundByStretches() {
  restBound_.assign(index(lay_.length + lay_.kerfU) + 1, 0);
  constexpr Tick most = 16;
  stretch_ = std::max<Tick>(1, (lay_.length + most - 1) / most);
  stretches_ = (lay_.length + stretch_ - 1) / stretch_;
  const Tick places = stretches_ + 1;
  between_.assign(index(places * places) * 2, 0);
  for (Tick i = 0; i < stretches_; ++i) {
    forget();
    for (Tick j = i + 1; j < places; ++j) {
      if (givenUp()) return;
      for (const bool offcuts : {false, true}) {
        boundRows(i * stretch_, std::min(lay_.length, j * stretch_), offcuts);
        between_[index((i * places + j) * 2 + (offcuts ? 1 : 0))] = above_[0];
      }
    }
  }
  forget();
  for (Tick u = lay_.length - 1; u >= 0; --u) {
    Worth best = restBound_[index(u) + 1];
    const Tick row = u / stretch_ * places;
    for (Tick u2 = u + 1; u2 <= lay_.length; ++u2) {
      const Worth own = std::max(between_[index((row + (u2 + stretch_ - 1) / stretch_) * 2 + 1)],
                                 rule_.whole.empty() ? 0 : lay_.wholeOffcut[index(u2 - u)]);
      best = std::max(best, own - lay_.cutU + restBound_[index(u2 + lay_.kerfU)]);
    }
    restBound_[index(u)] = best;
  }
  work_ += index(lay_.length) * index(lay_.length) / 2;
}

Worth ListingSide::sectionBound(Tick u1, Tick u2) { return clear_.section(u2 - u1); }

std::vector<ListingSide::Section>& ListingSide::sectionsFrom(Tick u1) {
  std::vector<Section>& ends = all_[index(u1)];
  if (!ends.empty()) return ends;
  std::vector<char>& mark = reached_;
  mark.assign(index(lay_.length) + 1, 0);
  constexpr char plain = 1, keeping = 2;
  std::vector<Tick> todo;
  std::vector<char> seen;
  for (const Kind& kind : kinds_)
    for (const StripKind::View& view : kind.kind->views) {
      todo.assign(1, u1);
      seen.assign(index(lay_.length + lay_.kerfU) + 1, 0);
      while (!todo.empty()) {
        const Tick next = todo.back();
        todo.pop_back();
        for (const Piece& piece : kind.pieces) {
          const Tick at = nextPlace(view.starts[index(piece.place)], next);
          if (at < 0) continue;
          const Tick end = at + piece.size;
          mark[index(end)] |= plain;
          if (end < lay_.length && seen[index(end)] == 0) {
            seen[index(end)] = 1;
            todo.push_back(std::min(end + lay_.kerfU, lay_.length));
          }
          ++work_;
        }
      }
    }
  if (rule_.keeps) {
    for (const Tick size : rule_.lengths)
      if (u1 + size <= lay_.length) mark[index(u1 + size)] |= keeping;
    for (const Tick edge : rule_.edges)
      if (edge > u1) mark[index(edge)] |= keeping;
  }
  for (Tick u2 = u1 + 1; u2 <= lay_.length; ++u2)
    if (mark[index(u2)] != 0)
      ends.push_back({u1, u2, (mark[index(u2)] & keeping) != 0 && u2 - u1 >= lay_.leastU(), -1});
  return ends;
}

/// Finds the sections that may pay, what lies before each place and from it on. False: none can.
bool ListingSide::boundBoard() {
  const Tick length = lay_.length, kerf = lay_.kerfU;
  const std::size_t places = index(length + kerf) + 1;
  if (restBound_[0] <= floor_) return false;
  upTo_.assign(places, std::numeric_limits<Worth>::min() / 2);
  upTo_[0] = 0;
  std::vector<char> starts(places, 0);
  starts[0] = 1;
  for (const Tick f : rule_.fresh) starts[index(f)] = 1;
  sections_.assign(index(length), {});
  const auto arrive = [&](Tick end, Worth value) {
    const std::size_t next = index(end + kerf);
    upTo_[next] = std::max(upTo_[next], value);
    starts[next] = 1;
  };
  const Tick grid = stretches_ + 1;
  for (Tick u = 0; u < length; ++u) {
    if (u > 0) upTo_[index(u)] = std::max(upTo_[index(u)], upTo_[index(u) - 1]);
    if (starts[index(u)] == 0) continue;
    const Worth base = upTo_[index(u)];
    if (base + restBound_[index(u)] <= floor_) continue;
    if (givenUp()) return true;
    forget();
    for (Section& section : sectionsFrom(u)) {
      const Tick u2 = section.to;
      const Worth need = floor_ - base - restBound_[index(u2 + kerf)] + lay_.cutU;
      const Worth stretched = between_[index(
          (u / stretch_ * grid + (u2 + stretch_ - 1) / stretch_) * 2 + (section.offcuts ? 1 : 0))];
      if (std::min(stretched, sectionBound(u, u2)) <= need) continue;
      if (section.low < 0) {
        boundRows(u, u2, section.offcuts);
        section.low = above_[0];
      }
      if (section.low <= need) continue;
      sections_[index(u)].push_back(section);
      arrive(u2, base + section.low - lay_.cutU);
    }
    for (const Run& run : rule_.whole) {
      if (u < run.from || u > run.to) continue;
      const auto offcut = [&](Tick end) {
        const Worth worth = lay_.offcutWorth(end - u, lay_.width) - lay_.cutU;
        if (worth > 0) arrive(end, base + worth);
      };
      offcut(run.to + 1);
      for (const std::vector<Tick>* ends : {&rule_.fresh, &rule_.late})
        for (const Tick f : *ends)
          if (f - kerf > u && f - kerf <= run.to) offcut(f - kerf);
    }
  }
  rest_.assign(places, 0);
  for (Tick u = length - 1; u >= 0; --u) {
    Worth best = rest_[index(u) + 1];
    for (const Section& section : sections_[index(u)])
      best = std::max(best, section.low - lay_.cutU + rest_[index(section.to + kerf)]);
    for (const Run& run : rule_.whole) {
      if (u < run.from || u > run.to) continue;
      const auto offcut = [&](Tick end) {
        best = std::max(
            best, lay_.offcutWorth(end - u, lay_.width) - lay_.cutU + rest_[index(end + kerf)]);
      };
      offcut(run.to + 1);
      for (const std::vector<Tick>* ends : {&rule_.fresh, &rule_.late})
        for (const Tick f : *ends)
          if (f - kerf > u && f - kerf <= run.to) offcut(f - kerf);
    }
    rest_[index(u)] = best;
  }
  return rest_[0] > floor_;
}

}  // namespace flitch::optimizer
