#include "optimizer/plain_programme.h"

#include <algorithm>

#include "optimizer/index.h"
#include "optimizer/wide.h"

namespace flitch::optimizer {
namespace {

/// Unbounded knapsack: best[c] the most that entries of total size up to c are worth.
struct Entry {
  Tick size;
  Worth worth;
  int what;
};
void fillKnapsack(std::vector<Worth>& best, const std::vector<Entry>& entries) {
  std::fill(best.begin(), best.end(), 0);
  for (std::size_t c = 1; c < best.size(); ++c) {
    Worth most = best[c - 1];
    for (const Entry& entry : entries) {
      if (index(entry.size) > c) break;  // rising in size
      most = std::max(most, best[c - index(entry.size)] + entry.worth);
    }
    best[c] = most;
  }
}
/// What fills capacity c at its best.
std::vector<Entry> contents(const std::vector<Worth>& best, const std::vector<Entry>& entries) {
  std::vector<Entry> chosen;
  std::size_t c = best.size() - 1;
  while (best[c] > 0) {
    while (best[c - 1] == best[c]) --c;
    const auto found = std::find_if(entries.begin(), entries.end(), [&](const Entry& entry) {
      return index(entry.size) <= c && best[c - index(entry.size)] + entry.worth == best[c];
    });
    chosen.push_back(*found);
    c -= index(found->size);
  }
  return chosen;
}

class Plain {
 public:
  Plain(const Lay& lay, const Saw& saw, std::span<const Worth> values)
      : lay_(lay), saw_(saw), strips_(lay.kinds.size()) {
    const Worth own = saw.stages == 3 ? lay.cutU : 0;
    const std::size_t room = index(lay.length + lay.kerfU) + 1;
    for (std::size_t k = 0; k < lay.kinds.size(); ++k) {
      for (const int item : lay.kinds[k].items)
        if (values[index(item)] > own)
          strips_[k].pieces.push_back(
              {lay.itemLength[index(item)] + lay.kerfU, values[index(item)] - own, item});
      std::sort(strips_[k].pieces.begin(), strips_[k].pieces.end(),
                [](const Entry& a, const Entry& b) { return a.size < b.size; });
      strips_[k].best.assign(room, 0);
      if (saw.stages == 3)
        fillKnapsack(strips_[k].best, strips_[k].pieces);
      else
        fillSingly(strips_[k]);
    }
    stack_.assign(index(lay.width + lay.kerfV) + 1, 0);
    board_.assign(room, 0);
  }

  Filled run(std::uint64_t& work, const Halt* halt) {
    for (std::size_t c = 1; c < board_.size(); ++c) {
      board_[c] = board_[c - 1];
      for (const Entry& section : sections_)
        board_[c] = std::max(board_[c], board_[c - index(section.size)] + section.worth);
      if (!anyStep(c)) continue;
      if (halt != nullptr && halt->now()) return {};
      const std::vector<Entry> strips = stripsFor(c);
      if (promise(strips) - lay_.cutU <= board_[c]) continue;
      fillKnapsack(stack_, strips);
      work += stack_.size() * strips.size();
      const Worth worth = stack_.back() - lay_.cutU;
      if (worth <= board_[c]) continue;
      board_[c] = worth;
      sections_.push_back({static_cast<Tick>(c), worth, 0});
    }
    Filled filled;
    filled.value = filled.upperBound = board_.back();
    filled.pattern = build();
    return filled;
  }

 private:
  struct Strips {
    std::vector<Entry> pieces;
    std::vector<Worth> best;  ///< by section length with its kerf
  };

  /// Two stages: a piece is its strip. Exact: as long as its section; trimmed: no longer.
  void fillSingly(Strips& strips) const {
    for (const Entry& piece : strips.pieces) {
      Worth& at = strips.best[index(piece.size)];
      at = std::max(at, piece.worth);
    }
    if (saw_.trim)
      for (std::size_t c = 1; c < strips.best.size(); ++c)
        strips.best[c] = std::max(strips.best[c], strips.best[c - 1]);
  }
  [[nodiscard]] bool anyStep(std::size_t c) const {
    if (saw_.stages == 2 && !saw_.trim)
      return std::any_of(strips_.begin(), strips_.end(),
                         [c](const Strips& s) { return s.best[c] > 0; });
    return std::any_of(strips_.begin(), strips_.end(),
                       [c](const Strips& s) { return s.best[c] > s.best[c - 1]; });
  }
  [[nodiscard]] std::vector<Entry> stripsFor(std::size_t c) const {
    std::vector<Entry> entries;
    for (std::size_t k = 0; k < strips_.size(); ++k)
      if (const Worth worth = strips_[k].best[c] - lay_.cutV; worth > 0)
        entries.push_back({lay_.kinds[k].width + lay_.kerfV, worth, static_cast<int>(k)});
    return entries;
  }
  /// No stack is worth more: every tick at the rate of the dearest strip.
  [[nodiscard]] Worth promise(const std::vector<Entry>& strips) const {
    Wide most = 0;
    for (const Entry& strip : strips)
      most = std::max(most, Wide{strip.worth} * static_cast<Wide>(stack_.size() - 1) / strip.size);
    return static_cast<Worth>(most);
  }

  [[nodiscard]] Pattern build() {
    Pattern pattern{lay_.first, {}};
    Tick u = 0;
    for (const Entry& section : contents(board_, sections_)) {
      const Tick du = section.size - lay_.kerfU;
      pattern.cells.push_back({1, lay_.onBoard(u, 0, du, lay_.width), Cell::divided, 0});
      const std::vector<Entry> strips = stripsFor(index(section.size));
      fillKnapsack(stack_, strips);
      Tick v = 0;
      for (const Entry& strip : contents(stack_, strips)) {
        buildStrip(index(strip.what), u, v, du, pattern);
        v += strip.size;
      }
      u += section.size;
    }
    return pattern;
  }
  void buildStrip(std::size_t k, Tick u, Tick v, Tick du, Pattern& pattern) const {
    const Strips& strips = strips_[k];
    const auto piece = [&](Tick at, int item) {
      pattern.cells.push_back(
          {saw_.stages,
           lay_.onBoard(at, v, lay_.itemLength[index(item)], lay_.itemWidth[index(item)]), item,
           0});
    };
    const std::size_t room = index(du + lay_.kerfU);
    if (saw_.stages == 2) {
      for (const Entry& p : strips.pieces)
        if (p.worth == strips.best[room] && index(p.size) <= room &&
            (saw_.trim || index(p.size) == room))
          return piece(u, p.what);
      return;
    }
    pattern.cells.push_back({2, lay_.onBoard(u, v, du, lay_.kinds[k].width), Cell::divided, 0});
    const std::vector<Worth> best(strips.best.begin(),
                                  strips.best.begin() + static_cast<std::ptrdiff_t>(room) + 1);
    for (const Entry& p : contents(best, strips.pieces)) {
      piece(u, p.what);
      u += p.size;
    }
  }

  const Lay& lay_;
  const Saw& saw_;
  std::vector<Strips> strips_;
  std::vector<Worth> stack_, board_;
  std::vector<Entry> sections_;  ///< rising in size, each better than all shorter ones together
};

}  // namespace

bool isPlain(const Lay& lay) {
  return lay.plain && (lay.leastU() > lay.length || lay.leastV() > lay.width);
}

Filled plainBest(const Lay& lay, const Saw& saw, std::span<const Worth> values, std::uint64_t& work,
                 const Halt* halt) {
  for (const StripKind& kind : lay.kinds)
    work += static_cast<std::uint64_t>(lay.length) * kind.items.size();
  return Plain(lay, saw, values).run(work, halt);
}

}  // namespace flitch::optimizer
