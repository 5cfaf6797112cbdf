#include "optimizer/rest.h"

#include <algorithm>

#include "optimizer/index.h"

namespace flitch::optimizer {

Worth Rest::columns(Tick u1, Tick u2) const {
  const Worth open = toEnd_[index(u2)] - toEnd_[index(u1)];
  return (open + (Worth{1} << fraction) - 1) >> fraction;
}

Worth Rest::section(Tick u1, Tick u2) const {
  const Lay& lay = *pricing_->lay;
  Worth most = std::min(columns(u1, u2 + lay.kerfU), clear_->section(u2 - u1));
  if (stretch_ > 0) {
    const Tick places = (lay.length + stretch_ - 1) / stretch_ + 1;
    most = std::min(most, between_[index(u1 / stretch_ * places + (u2 + stretch_ - 1) / stretch_)]);
  }
  return most;
}

void Rest::sharpen(const ClearBoard& clear) {
  clear_ = &clear;
  boundRest();
}

void Rest::sharpenByMarks(Sections& sections, const Halt* halt) {
  if (stretch_ > 0 || pricing_->saw->stages != 3) return;
  const Lay& lay = *pricing_->lay;
  constexpr Tick stretches = 32;
  const Tick step = (lay.length + stretches - 1) / stretches;
  const Tick places = (lay.length + step - 1) / step + 1;
  between_.assign(index(places * places), 0);
  for (Tick i = 0; i + 1 < places; ++i) {
    if (halt != nullptr && halt->now()) return;
    sections.start(i * step, lay.length, OffcutsIn::anywhere);
    for (Tick j = i + 1; j < places; ++j)
      between_[index(i * places + j)] = sections.bound(std::min(lay.length, j * step), 0);
  }
  stretch_ = step;
  boundRest();
}

void Rest::boundRest() {
  const Lay& lay = *pricing_->lay;
  const Tick kerf = lay.kerfU, length = lay.length;
  const Worth whole = lay.leastV() <= lay.width ? pricing_->cell * lay.width : 0;
  // What a section brings at most by its level, one that is an offcut as a whole included.
  std::vector<Worth> gain;
  for (const ClearBoard::Level& level : clear_->levels())
    gain.push_back(level.length < lay.leastU()
                       ? level.worth
                       : std::max(level.worth, (whole * level.length) >> fraction));
  const Tick places = stretch_ > 0 ? (length + stretch_ - 1) / stretch_ + 1 : 0;
  std::fill(rest_.begin() + length, rest_.end(), 0);
  for (Tick u = length - 1; u >= 0; --u) {
    Worth most = rest_[index(u) + 1];
    const Worth least = columns(u, length + kerf);
    Tick shortest = 1;
    for (std::size_t l = 0; l < gain.size() && shortest <= length - u; ++l) {
      const Tick longest = std::min(clear_->levels()[l].length, length - u);
      const Worth after = rest_[index(u + shortest + kerf)] - lay.cutU;
      shortest = longest + 1;
      if (gain[l] + after <= most) continue;
      Worth own = std::min(gain[l], columns(u, u + longest + kerf));
      if (stretch_ > 0)
        own = std::min(
            own, between_[index(u / stretch_ * places + (u + longest + stretch_ - 1) / stretch_)]);
      most = std::max(most, own + after);
    }
    rest_[index(u)] = std::min(most, least);
  }
  work_ += index(length) * gain.size();
}

void Rest::findDensities(Tick block, std::size_t blocks) {
  const Lay& lay = *pricing_->lay;
  density_.assign(pricing_->views * blocks, 0);
  const std::size_t views = pricing_->views;
  for (const std::size_t k : pricing_->kinds) {
    const StripKind& kind = lay.kinds[k];
    for (const Pricing::Live& live : pricing_->live[k]) {
      const Worth whole = live.net + (pricing_->saw->stages == 2 ? lay.cutV : 0);
      const Worth each = ((whole << fraction) + live.size - 1) / live.size;
      for (std::size_t v = 0; v < kind.views.size(); ++v) {
        Worth* density = density_.data() + pricing_->firstView[k] + v;
        for (const Run& run : kind.views[v].starts[live.place])
          for (Tick b = run.from / block; b <= (run.to + live.size - 1) / block; ++b) {
            Worth& here = density[index(b) * views];
            here = std::max(here, each);
          }
      }
    }
  }
}

void Rest::price(const Pricing& pricing) {
  pricing_ = &pricing;
  stretch_ = 0;
  const Lay& lay = *pricing.lay;
  const Tick columns = lay.length + lay.kerfU;
  // Coarser where the rows are many.
  const Tick block =
      std::max<Tick>(1, columns / std::clamp<Tick>(16384 / std::max<Tick>(1, lay.width), 8, 64));
  const std::size_t blocks = index((columns + block - 1) / block);
  findDensities(block, blocks);
  toEnd_.assign(index(columns) + 1, 0);
  hardBefore_.clear();
  Worth most = 0;
  for (std::size_t b = 0; b < blocks; ++b) {
    const Tick u1 = static_cast<Tick>(b) * block, u2 = std::min(u1 + block, columns);
    const Worth* density = density_.data() + b * pricing.views;
    findHard(u1, u2);
    // Most blocks are like the one before.
    if (b == 0 || hard_ != hardBefore_ ||
        !std::equal(density, density + pricing.views, density - pricing.views))
      most = stack(density);
    std::swap(hard_, hardBefore_);
    for (Tick u = u1; u < u2; ++u) toEnd_[index(u) + 1] = toEnd_[index(u)] + most;
  }
  rest_.resize(toEnd_.size());
  for (Tick u = 0; u <= columns; ++u) rest_[index(u)] = this->columns(u, columns);
}

void Rest::findHard(Tick u1, Tick u2) {
  const Lay& lay = *pricing_->lay;
  hard_.assign(index(lay.width), 0);
  if (pricing_->cell == 0) return;
  for (const Rect& r : lay.hard)
    if (r.x <= u1 && r.x + r.dx >= u2)
      std::fill(hard_.begin() + std::max<Tick>(0, r.y),
                hard_.begin() + std::min(lay.width, r.y + r.dy), 1);
}

Worth Rest::stack(const Worth* density) {
  const Lay& lay = *pricing_->lay;
  row_.assign(index(lay.width + lay.kerfV) + 1, 0);
  strips_.clear();
  for (const std::size_t k : pricing_->kinds) {
    const StripKind& kind = lay.kinds[k];
    const Worth* worth = density + pricing_->firstView[k];
    if (*std::max_element(worth, worth + kind.views.size()) > 0)
      strips_.push_back({lay.width - kind.width, kind.viewAt.data(), worth,
                         row_.data() + kind.width + lay.kerfV});
  }
  for (Tick v = 0; v < lay.width; ++v) {
    const Worth base = row_[index(v)];
    const Worth next = base + (hard_[index(v)] == 0 ? pricing_->cell : 0);
    row_[index(v) + 1] = std::max(row_[index(v) + 1], next);
    for (const Strip& s : strips_) {
      if (v > s.last) break;
      s.behind[v] = std::max(s.behind[v], base + s.worth[s.viewAt[v]]);
    }
  }
  work_ += index(lay.width) * strips_.size();
  return *std::max_element(row_.begin(), row_.end());
}

}  // namespace flitch::optimizer
