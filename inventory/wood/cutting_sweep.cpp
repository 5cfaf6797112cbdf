#include "inventory/wood/cutting_sweep.h"

#include <algorithm>
#include <utility>

namespace flitch {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

/// Marks all that lie a step up or down from one that is marked.
void spread(std::vector<char>& marked, const std::vector<int>& steps) {
  const std::vector<char> before = marked;
  const int size = static_cast<int>(marked.size());
  for (int i = 0; i < size; ++i) {
    if (before[at(i)] == 0) continue;
    for (const int step : steps) {
      if (i >= step) marked[at(i - step)] = 1;
      if (i + step < size) marked[at(i + step)] = 1;
    }
  }
}

}  // namespace

CuttingSweep::CuttingSweep(const ClearFace& face, std::span<const LeastCutting> least, int count,
                           int reach)
    : face_(face),
      least_(least, face.width()),
      sizes_(least.begin(), least.end()),
      count_(std::clamp(count, 0, mostCuttings)) {
  const int length = face.length();
  runs_.assign(at(face.width()) * at(length + 1), length);
  for (int y = 0; y < face.width(); ++y) {
    int* row = runs_.data() + at(y) * at(length + 1);
    for (int x = length - 1; x >= 0; --x) row[x] = face.clear(x, y) ? row[x + 1] : x;
  }
  findLines(reach);
  findBounds();
}

int CuttingSweep::runEnd(int x, int y) const {
  return runs_[at(y) * at(face_.length() + 1) + at(x)];
}

int CuttingSweep::runEnd(int x, int y0, int y1) const {
  int end = face_.length();
  for (int y = y0; y < y1; ++y) end = std::min(end, runEnd(x, y));
  return end;
}

void CuttingSweep::findLines(int reach) {
  const int length = face_.length();
  const int width = face_.width();
  marked_.assign(at(length) + 1, 0);
  rows_.assign(at(width) + 1, 0);
  marked_.front() = marked_.back() = rows_.front() = rows_.back() = 1;
  for (int y = 0; y < width; ++y) {
    for (int x = 0; x < length; ++x) {
      if (x > 0 && face_.clear(x, y) != face_.clear(x - 1, y)) marked_[at(x)] = 1;
      if (y > 0 && face_.clear(x, y) != face_.clear(x, y - 1)) rows_[at(y)] = 1;
    }
  }
  lines_ = marked_;
  std::vector<int> lengths, widths;
  for (const LeastCutting& size : sizes_) {
    lengths.push_back(size.length);
    widths.push_back(size.width);
  }
  for (int i = 0; i < reach; ++i) {
    spread(lines_, lengths);
    spread(rows_, widths);
  }
}

void CuttingSweep::findBounds() {
  const std::vector<Cells> largest = largestClear(face_, least_);
  bounds_.assign(at(face_.length()) + 1, {});
  std::array<std::int64_t, mostCuttings + 1> sum{};
  for (int x = face_.length() - 1; x >= 0; --x) {
    // In one column: the rows some cutting could take, and the widest that could lie side by side.
    std::vector<int> widths;
    std::vector<char> covered(at(face_.width()), 0);
    std::int64_t area = 0;  // the largest cutting from here on
    for (const Cells& one : largest) {
      if (one.right() <= x) continue;
      area =
          std::max(area, static_cast<std::int64_t>(one.right() - std::max(x, one.x)) * one.width);
      if (one.x > x) continue;
      widths.push_back(one.width);
      std::fill(covered.begin() + one.y, covered.begin() + one.top(), 1);
    }
    std::sort(widths.rbegin(), widths.rend());
    const auto rows = std::count(covered.begin(), covered.end(), 1);
    std::int64_t together = 0;
    for (int k = 1; k <= mostCuttings; ++k) {
      if (at(k) <= widths.size()) together += widths[at(k - 1)];
      sum[at(k)] += std::min<std::int64_t>(together, rows);
      bounds_[at(x)][at(k)] = std::min(sum[at(k)], area * k);
    }
  }
}

std::int64_t CuttingSweep::bound(int x, int more) const { return bounds_[at(x)][at(more)]; }

std::int64_t CuttingSweep::hope(int x, const State& state) const {
  return state.area + bound(x, count_ - state.begun + state.open);
}

CuttingSweep::Found CuttingSweep::run(std::int64_t floor, int effort, int beam) {
  ahead_.clear();
  closed_.clear();
  work_ = effort;
  best_ = floor;
  bestBehind_ = -1;
  Found found;
  if (count_ > 0) ahead_[0][""].push_back({});
  while (!ahead_.empty()) {
    const int x = ahead_.begin()->first;
    Bucket bucket = std::move(ahead_.begin()->second);
    ahead_.erase(ahead_.begin());
    const std::size_t all = [&] {
      std::size_t n = 0;
      for (const auto& [key, states] : bucket) n += states.size();
      return n;
    }();
    const std::vector<State> states = taken(bucket, x, beam);
    if (states.size() < all) found.complete = false;
    for (const State& state : states) {
      if (hope(x, state) <= best_) continue;
      if (work_ < 0) {
        found.complete = false;
        ahead_.clear();
        break;
      }
      Change change;
      change.state.begun = state.begun;
      change.state.area = state.area;
      change.state.behind = state.behind;
      closeFrom(x, state, 0, change);
    }
  }
  if (bestBehind_ < 0) return found;
  found.area = best_;
  for (int i = bestBehind_; i >= 0; i = closed_[at(i)].before) {
    found.cuttings.push_back(closed_[at(i)].where);
  }
  return found;
}

std::vector<CuttingSweep::State> CuttingSweep::taken(Bucket& bucket, int x, int beam) {
  std::vector<State> states;
  for (auto& [key, list] : bucket) {
    std::move(list.begin(), list.end(), std::back_inserter(states));
  }
  if (beam <= 0 || states.size() <= at(beam)) return states;
  std::stable_sort(states.begin(), states.end(),
                   [&](const State& a, const State& b) { return hope(x, a) > hope(x, b); });
  states.resize(at(beam));
  return states;
}

void CuttingSweep::closeFrom(int x, const State& state, int strip, Change& change) {
  State& kept = change.state;
  if (strip == state.open) {
    if (kept.open == 0 && kept.area > best_) {
      best_ = kept.area;
      bestBehind_ = kept.behind;
    }
    openFrom(x, 0, change);
    return;
  }
  const Strip& one = state.strips[at(strip)];
  const bool exact = one.ripe == x;
  const bool barred = x == face_.length() || runEnd(x, one.y0, one.y1) == x;
  if (!barred && !(one.fixed && exact)) {
    kept.strips[at(kept.open++)] = one;
    closeFrom(x, state, strip + 1, change);
    --kept.open;
  }
  if (one.ripe > x || !one.low || !one.high) return;
  const int behind = kept.behind;
  const bool wasExact = change.exact;
  closed_.push_back({behind, {one.start, one.y0, x - one.start, one.y1 - one.y0}});
  kept.behind = static_cast<int>(closed_.size()) - 1;
  change.closed[at(change.closings++)] = one;
  change.exact = wasExact || exact;
  closeFrom(x, state, strip + 1, change);
  change.exact = wasExact;
  --change.closings;
  kept.behind = behind;
}

void CuttingSweep::openFrom(int x, int y, Change& change) {
  settle(x, change);
  State& state = change.state;
  if (state.begun == count_) return;
  const auto closedAt = [&](int row) {
    for (int i = 0; i < change.closings; ++i) {
      const Strip& one = change.closed[at(i)];
      if (one.y0 <= row && row < one.y1) return true;
    }
    return false;
  };
  for (int y0 = y; y0 < face_.width(); ++y0) {
    if (rows_[at(y0)] == 0) continue;
    int place = 0;
    while (place < state.open && state.strips[at(place)].y1 <= y0) ++place;
    const int top = place < state.open ? state.strips[at(place)].y0 : face_.width();
    int end = face_.length();
    bool touched = false;
    for (int y1 = y0 + 1; y1 <= top; ++y1) {
      end = std::min(end, runEnd(x, y1 - 1));
      if (end == x) break;
      touched = touched || x == 0 || !face_.clear(x - 1, y1 - 1) || closedAt(y1 - 1);
      const int least = least_.at(y1 - y0);
      if (!touched || rows_[at(y1)] == 0 || end - x < least) continue;
      Strip strip;
      strip.y0 = static_cast<std::int16_t>(y0);
      strip.y1 = static_cast<std::int16_t>(y1);
      strip.start = static_cast<std::int16_t>(x);
      strip.ripe = static_cast<std::int16_t>(x + least);
      std::move_backward(state.strips.begin() + place, state.strips.begin() + state.open,
                         state.strips.begin() + state.open + 1);
      ++state.open;
      ++state.begun;
      ++change.openings;
      const bool wasExact = change.exact;
      for (const bool fixed : {false, true}) {
        if (fixed && marked_[at(x)] != 0) break;
        strip.fixed = fixed;
        state.strips[at(place)] = strip;
        change.exact = wasExact || fixed;
        openFrom(x, y1, change);
      }
      change.exact = wasExact;
      --change.openings;
      --state.begun;
      --state.open;
      std::move(state.strips.begin() + place + 1, state.strips.begin() + state.open + 1,
                state.strips.begin() + place);
    }
  }
}

void CuttingSweep::settle(int x, const Change& change) {
  --work_;
  if (x == face_.length()) return;
  if (change.closings + change.openings > 0 && marked_[at(x)] == 0 && !change.exact) return;
  const State& state = change.state;
  for (int i = 0; i < change.closings; ++i) {
    const Strip& one = change.closed[at(i)];
    bool touched = runEnd(x, one.y0, one.y1) == x;
    for (int s = 0; s < state.open && !touched; ++s) {
      const Strip& other = state.strips[at(s)];
      touched = other.start == x && other.y0 < one.y1 && one.y0 < other.y1;
    }
    if (!touched) return;
  }
  if (hope(x, state) > best_) walk(x, state);
}

void CuttingSweep::walk(int x, State state) {
  int next = x + 1;
  while (next < face_.length() && marked_[at(next)] == 0 &&
         (lines_[at(next)] == 0 || state.begun == count_)) {
    ++next;
  }
  for (int i = 0; i < state.open; ++i) {
    if (const int ripe = state.strips[at(i)].ripe; ripe > x) next = std::min(next, ripe);
  }
  for (int i = 0; i < state.open; ++i) {
    Strip& one = state.strips[at(i)];
    state.area += static_cast<std::int64_t>(one.y1 - one.y0) * (next - x);
    const bool last = i + 1 == state.open;
    one.low = one.low || one.y0 == 0 || (i > 0 && state.strips[at(i - 1)].y1 == one.y0) ||
              runEnd(x, one.y0 - 1) < next;
    one.high = one.high || one.y1 == face_.width() ||
               (!last && state.strips[at(i + 1)].y0 == one.y1) || runEnd(x, one.y1) < next;
    if (state.begun == count_ && !(one.low && one.high)) {
      // Nothing can come beside it any more: it must meet a mark while it runs.
      const int end = runEnd(x, one.y0, one.y1);
      if (!one.low && runEnd(x, one.y0 - 1) >= end) return;
      if (!one.high && runEnd(x, one.y1) >= end) return;
    }
  }
  for (int i = 0; i < state.open; ++i) {
    if (state.strips[at(i)].ripe < next) state.strips[at(i)].ripe = 0;
  }
  keep(next, state);
}

void CuttingSweep::keep(int x, const State& state) {
  if (hope(x, state) <= best_) return;
  std::string key;
  for (int i = 0; i < state.open; ++i) {
    const Strip& one = state.strips[at(i)];
    for (const int part :
         {static_cast<int>(one.y0), static_cast<int>(one.y1), static_cast<int>(one.ripe),
          (one.fixed ? 1 : 0) + (one.low ? 2 : 0) + (one.high ? 4 : 0)}) {
      key.push_back(static_cast<char>(part & 0xFF));
      key.push_back(static_cast<char>(part >> 8));
    }
  }
  std::vector<State>& same = ahead_[x][key];
  const auto noWorse = [](const State& a, const State& b) {
    return a.begun <= b.begun && a.area >= b.area;
  };
  if (std::any_of(same.begin(), same.end(), [&](const State& s) { return noWorse(s, state); }))
    return;
  same.erase(
      std::remove_if(same.begin(), same.end(), [&](const State& s) { return noWorse(state, s); }),
      same.end());
  same.push_back(state);
}

}  // namespace flitch
