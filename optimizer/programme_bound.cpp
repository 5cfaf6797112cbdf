// What is left of a board can be worth at most: by its columns and by what whole pieces allow.
#include "optimizer/programme.h"

#include <algorithm>

namespace flitch::optimizer {
namespace {

std::size_t index(int value) { return static_cast<std::size_t>(value); }

}  // namespace

void Programme::prepare(std::span<const Worth> values) {
  const Worth own = saw_.stages == 3 ? lay_.cutU : lay_.cutV;
  net_.clear();
  for (const Worth value : values) net_.push_back(value - own);
  live_.assign(lay_.kinds.size(), {});
  changes_.assign(index(lay_.width) + 1, {});
  widest_ = 0;
  horizon_ = lay_.length;
  kindsInUse_.clear();
  for (std::size_t k = 0; k < lay_.kinds.size(); ++k) {
    const StripKind& kind = lay_.kinds[k];
    for (std::size_t j = 0; j < kind.items.size(); ++j)
      if (net_[index(kind.items[j])] > 0) live_[k].push_back(static_cast<int>(j));
    if (live_[k].empty()) continue;
    widest_ = std::max(widest_, kind.width);
    kindsInUse_.push_back(k);
    for (std::size_t v = 1; v < kind.viewAt.size(); ++v)
      if (kind.viewAt[v] != kind.viewAt[v - 1]) changes_[v].push_back(k);
  }
  chains_.resize(lay_.kinds.size());
  known_.resize(lay_.kinds.size());
  stripWorth_.resize(lay_.kinds.size());
  for (std::size_t k = 0; k < lay_.kinds.size(); ++k) {
    chains_[k].resize(lay_.kinds[k].views.size());
    known_[k].assign(lay_.kinds[k].views.size(), false);
    stripWorth_[k].assign(lay_.kinds[k].views.size(), -1);
  }
}

Worth Programme::columns(Tick u1, Tick u2) const {
  const Worth open = toEnd_[index(u2)] - toEnd_[index(u1)];
  return (open + (Worth{1} << fraction) - 1) >> fraction;
}

Worth Programme::sectionBound(Tick u1, Tick u2) {
  Worth most = std::min(columns(u1, u2 + lay_.kerfU), clear_.section(u2 - u1));
  if (stretch_ > 0) {
    const Tick places = (lay_.length + stretch_ - 1) / stretch_ + 1;
    most = std::min(most, between_[index(u1 / stretch_ * places + (u2 + stretch_ - 1) / stretch_)]);
  }
  return most;
}

void Programme::sharpenByMarks() {
  if (stretch_ > 0 || saw_.stages != 3) return;
  constexpr Tick stretches = 32;
  const Tick step = (lay_.length + stretches - 1) / stretches;
  const Tick places = (lay_.length + step - 1) / step + 1;
  between_.assign(index(places * places), 0);
  quick_ = false;
  for (Tick i = 0; i + 1 < places; ++i) {
    if (halt_ != nullptr && halt_->now()) return;
    for (auto& known : known_) std::fill(known.begin(), known.end(), false);
    for (Tick j = i + 1; j < places; ++j) {
      const Tick u1 = i * step, u2 = std::min(lay_.length, j * step);
      for (auto& worths : stripWorth_) std::fill(worths.begin(), worths.end(), -1);
      boundRows(u1, u2, u2 - u1 >= lay_.leastU() && lay_.leastV() <= lay_.width);
      between_[index(i * places + j)] = fromRow_[0];
    }
  }
  stretch_ = step;
  boundRest();
}

void Programme::sharpen() {
  if (sharp_) return;
  sharp_ = true;
  clear_.price(net_, kindsInUse_);
  boundRest();
}

void Programme::boundRest() {
  const Tick kerf = lay_.kerfU, length = lay_.length;
  const Worth cell = lay_.leastV() <= lay_.width ? lay_.cellWorth(fraction) * lay_.width : 0;
  // What a section of each length brings at most, one that is an offcut as a whole included.
  std::vector<Worth> gain(index(length) + 1, 0);
  const Tick stride = std::max<Tick>(1, length / 256);  // rounded up: a little loose, in less time
  for (Tick l = 1; l <= length; ++l) {
    gain[index(l)] = clear_.section(std::min(length, (l + stride - 1) / stride * stride));
    if (l >= lay_.leastU()) gain[index(l)] = std::max(gain[index(l)], ((cell * l) >> fraction) + 1);
  }
  const Tick places = stretch_ > 0 ? (length + stretch_ - 1) / stretch_ + 1 : 0;
  std::fill(rest_.begin() + length, rest_.end(), 0);
  for (Tick u = length - 1; u >= 0; --u) {
    Worth most = rest_[index(u) + 1];
    const Worth least = columns(u, length + kerf);
    for (Tick l = 1; l <= length - u; ++l) {
      const Worth after = rest_[index(u + l + kerf)] - lay_.cutU;
      if (gain[index(l)] + after <= most) continue;
      Worth own = std::min(gain[index(l)], columns(u, u + l + kerf));
      if (stretch_ > 0)
        own = std::min(own,
                       between_[index(u / stretch_ * places + (u + l + stretch_ - 1) / stretch_)]);
      most = std::max(most, own + after);
    }
    rest_[index(u)] = std::min(most, least);
  }
  work_ += index(length) * index(length) / 2;
}

Worth Programme::columnBound(std::span<const Worth> values) {
  if (!rest_.empty() && std::equal(values.begin(), values.end(), values_.begin(), values_.end()))
    return rest(0);
  values_.assign(values.begin(), values.end());
  sharp_ = false;
  stretch_ = 0;
  prepare(values);
  const Tick columns = lay_.length + lay_.kerfU;
  // Coarser where the rows are many.
  const Tick block =
      std::max<Tick>(1, columns / std::clamp<Tick>(16384 / std::max<Tick>(1, lay_.width), 8, 64));
  const std::size_t blocks = index((columns + block - 1) / block);
  const bool offcuts = lay_.leastU() <= lay_.length && lay_.leastV() <= lay_.width;

  // density[k][view][block]: the dearest piece over a column of the block, per column.
  std::vector<std::vector<std::vector<Worth>>> density(lay_.kinds.size());
  for (std::size_t k = 0; k < lay_.kinds.size(); ++k) {
    if (live_[k].empty()) continue;
    const StripKind& kind = lay_.kinds[k];
    density[k].assign(kind.views.size(), std::vector<Worth>(blocks, 0));
    for (std::size_t v = 0; v < kind.views.size(); ++v)
      for (const int j : live_[k]) {
        const int item = kind.items[index(j)];
        const Tick size = lay_.itemLength[index(item)] + lay_.kerfU;
        const Worth whole = net_[index(item)] + (saw_.stages == 2 ? lay_.cutV : 0);
        const Worth each = ((whole << fraction) + size - 1) / size;
        for (const Run& run : kind.views[v].starts[index(j)])
          for (Tick b = run.from / block; b <= (run.to + size - 1) / block; ++b)
            density[k][v][index(b)] = std::max(density[k][v][index(b)], each);
      }
  }
  Worth filler = 0;
  if (offcuts) filler = lay_.cellWorth(fraction);

  toEnd_.assign(index(columns) + 1, 0);
  std::vector<Worth> row(index(lay_.width + lay_.kerfV) + 1);
  std::vector<std::vector<Worth>> inBlock(lay_.kinds.size());
  for (const std::size_t k : kindsInUse_) inBlock[k].resize(lay_.kinds[k].views.size());
  for (std::size_t b = 0; b < blocks; ++b) {
    const Tick u1 = static_cast<Tick>(b) * block, u2 = std::min(u1 + block, columns);
    std::fill(row.begin(), row.end(), 0);
    std::vector<char> hard(index(lay_.width), 0);
    if (offcuts)
      for (const Rect& r : lay_.hard)
        if (r.x <= u1 && r.x + r.dx >= u2)
          std::fill(hard.begin() + std::max<Tick>(0, r.y),
                    hard.begin() + std::min(lay_.width, r.y + r.dy), 1);
    struct Strips {
      Tick last;          ///< row they may start at
      const int* viewAt;  ///< by row
      const Worth* worth;
      Worth* behind;  ///< row behind a strip, by row
    };
    std::vector<Strips> strips;
    for (const std::size_t k : kindsInUse_) {
      const StripKind& kind = lay_.kinds[k];
      std::vector<Worth>& worth = inBlock[k];
      Worth any = 0;
      for (std::size_t v = 0; v < kind.views.size(); ++v)
        any = std::max(any, worth[v] = density[k][v][b]);
      if (any > 0)
        strips.push_back({lay_.width - kind.width, kind.viewAt.data(), worth.data(),
                          row.data() + kind.width + lay_.kerfV});
    }
    for (Tick v = 0; v < lay_.width; ++v) {
      const Worth base = row[index(v)];
      const Worth next = base + (filler > 0 && hard[index(v)] == 0 ? filler : 0);
      row[index(v) + 1] = std::max(row[index(v) + 1], next);
      for (const Strips& s : strips) {
        if (v > s.last) break;
        s.behind[v] = std::max(s.behind[v], base + s.worth[s.viewAt[v]]);
      }
    }
    const Worth most = *std::max_element(row.begin(), row.end());
    for (Tick u = u1; u < u2; ++u) toEnd_[index(u) + 1] = toEnd_[index(u)] + most;
  }
  rest_.resize(toEnd_.size());
  for (Tick u = 0; u <= columns; ++u) rest_[index(u)] = this->columns(u, columns);
  return rest(0);
}

}  // namespace flitch::optimizer
