#include "optimizer/counted_programme.h"

#include <algorithm>

#include "optimizer/index.h"
#include "optimizer/workspace.h"

namespace flitch::optimizer {
namespace {

constexpr std::uint64_t highBits = 0x8080808080808080ULL;

/// No byte of a above that of b; all below 128.
bool noMore(std::uint64_t a, std::uint64_t b) {
  return (((b | highBits) - a) & highBits) == highBits;
}

}  // namespace

CountedProgramme::CountedProgramme(Programme& programme, std::span<const Limit> limits)
    : programme_(programme), lay_(programme.lay_), limits_(limits.begin(), limits.end()) {
  for (std::size_t l = 0; l < limits_.size(); ++l)
    caps_ |= static_cast<Counts>(limits_[l].cap) << (8 * l);
}

bool CountedProgramme::within(Counts counts) const { return noMore(counts, caps_); }

CountedProgramme::Counts CountedProgramme::countOf(int item) const {
  for (std::size_t l = 0; l < limits_.size(); ++l)
    if (limits_[l].item == item) return Counts{1} << (8 * l);
  return 0;
}

Worth CountedProgramme::full(const State& state) const {
  Worth value = state.value;
  for (std::size_t l = 0; l < limits_.size(); ++l)
    value += static_cast<Worth>((state.counts >> (8 * l)) & 0xFF) * limits_[l].price;
  return value;
}

bool CountedProgramme::beats(const State& a, const State& b) const {
  return a.value >= b.value && noMore(a.counts, b.counts) && full(a) >= full(b);
}

bool CountedProgramme::add(Front& front, State state) {
  for (const State* other : front)
    if (beats(*other, state)) return false;
  std::erase_if(front, [&](const State* other) { return beats(state, *other); });
  states_.push_back(state);
  tooMany_ = tooMany_ || states_.size() > mostStates_;
  front.push_back(&states_.back());
  return true;
}

void CountedProgramme::carry(const Front& from, Front& to) {
  for (const State* state : from) {
    if (std::any_of(to.begin(), to.end(),
                    [&](const State* other) { return beats(*other, *state); }))
      continue;
    std::erase_if(to, [&](const State* other) { return beats(*state, *other); });
    to.push_back(state);
  }
}

/// Fronts by place, from u1 on.
std::vector<CountedProgramme::Front> CountedProgramme::chain(const StripKind& kind,
                                                             const StripKind::View& view, Tick u1) {
  const Tick kerf = lay_.kerfU, room = lay_.length - u1;
  std::vector<Front> at(index(room + kerf) + 1);
  add(at[0], {});
  const std::vector<Pricing::Live>& live =
      space_->pricing.live[static_cast<std::size_t>(&kind - lay_.kinds.data())];
  for (Tick u = 0; u < room && !tooMany_; ++u) {
    carry(at[index(u)], at[index(u) + 1]);
    const auto lay = [&](Tick end, Worth more, Counts counts, int item) {
      for (const State* state : at[index(u)]) {
        const Counts sum = state->counts + counts;
        if (within(sum))
          add(at[index(end + kerf)],
              {state->value + more, sum, state, nullptr, item, u1 + u, u1 + end});
      }
    };
    for (const Pricing::Live& piece : live)
      if (nextPlace(view.starts[piece.place], u1 + u) == u1 + u)
        lay(u + piece.size - kerf, piece.net, countOf(piece.item), piece.item);
    if (kind.offcutWorth.empty()) continue;
    for (const Run& clear : view.clear) {
      if (u1 + u < clear.from || u1 + u > clear.to) continue;
      for (Tick end = u + lay_.leastU(); u1 + end <= clear.to + 1; ++end)
        if (const Worth more = kind.offcutWorth[index(end - u)] - lay_.cutU; more > 0)
          lay(end, more, 0, Cell::offcut);
    }
  }
  for (Tick u = room; u < room + kerf; ++u) carry(at[index(u)], at[index(u) + 1]);
  return at;
}

CountedProgramme::Front CountedProgramme::strip(std::size_t k, int v, Tick u1, Tick u2) {
  const StripKind& kind = lay_.kinds[k];
  const StripKind::View& view = kind.views[index(v)];
  if (programme_.saw_.stages == 3) {
    std::vector<Front>& chainAt = chains_[k][index(v)];
    if (chainAt.empty()) chainAt = chain(kind, view, u1);
    return chainAt[index(u2 - u1 + lay_.kerfU)];
  }
  Front front;
  for (const Pricing::Live& piece : space_->pricing.live[k]) {
    const int item = piece.item;
    const Tick size = lay_.itemLength[index(item)];
    const Tick place = nextPlace(view.starts[piece.place], u1);
    if (place < 0 || place + size > u2) continue;
    if (!programme_.saw_.trim && (place != u1 || size != u2 - u1)) continue;
    if (within(countOf(item)))
      add(front, {space_->pricing.net[index(item)] + lay_.cutV, countOf(item), nullptr, nullptr,
                  item, place, place + size});
  }
  return front;
}

CountedProgramme::Front CountedProgramme::stack(Tick u1, Tick u2, Worth need) {
  const Tick width = lay_.width, kerf = lay_.kerfV;
  const bool offcuts = u2 - u1 >= lay_.leastU() && lay_.leastV() <= width;
  const std::vector<Worth>& fromRow = space_->sections.fromRow();
  std::vector<Front> row(index(width + kerf) + 1);
  add(row[0], {});
  for (Tick v = 0; v < width && !tooMany_; ++v) {
    carry(row[index(v)], row[index(v) + 1]);
    const auto lay = [&](Tick end, const State* inside, Worth more, Counts counts) {
      for (const State* state : row[index(v)]) {
        const Counts sum = state->counts + counts;
        const Worth value = state->value + more;
        if (within(sum) && value + fromRow[index(end + kerf)] > need)
          add(row[index(end + kerf)], {value, sum, state, inside, Cell::divided, v, end});
      }
    };
    for (const std::size_t k : space_->pricing.kinds) {
      const StripKind& kind = lay_.kinds[k];
      if (v + kind.width > width) break;
      for (const State* inside : strip(k, kind.viewAt[index(v)], u1, u2))
        if (full(*inside) > lay_.cutV)
          lay(v + kind.width, inside, inside->value - lay_.cutV, inside->counts);
    }
    if (!offcuts) continue;
    for (Tick end = v + lay_.leastV(); end <= width; ++end) {
      const Worth more = space_->sections.offcutRow(u1, u2, v, end, nullptr) - lay_.cutV;
      if (more > 0) lay(end, nullptr, more, 0);
    }
  }
  for (Tick v = width; v < width + kerf; ++v) carry(row[index(v)], row[index(v) + 1]);
  return row.back();
}

void CountedProgramme::sections(Tick u1, const Front& starts, std::vector<Front>& board) {
  for (auto& kind : chains_)
    for (auto& view : kind) view.clear();
  space_->sections.start(u1, lay_.length, OffcutsIn::anywhere);
  Worth base = 0;
  for (const State* state : starts) base = std::max(base, state->value);
  for (Tick u2 = u1 + 1; u2 <= lay_.length && !tooMany_; ++u2) {
    if (halt_ != nullptr && halt_->now()) {
      tooMany_ = true;
      return;
    }
    Front& next = board[index(u2 + lay_.kerfU)];
    // What is gained must still be able to pass the floor.
    const Worth need = floor_ - space_->rest.from(u2 + lay_.kerfU) - base + lay_.cutU;
    if (space_->rest.section(u1, u2) <= need || space_->sections.worth(u2, need) <= need) continue;
    for (const State* inside : stack(u1, u2, need)) {
      if (full(*inside) <= lay_.cutU) continue;
      for (const State* state : starts) {
        const Counts sum = state->counts + inside->counts;
        if (within(sum))
          add(next, {state->value + inside->value - lay_.cutU, sum, state, inside, Cell::divided,
                     u1, u2});
      }
    }
  }
}

std::optional<Filled> CountedProgramme::run(std::span<const Worth> values, Worth floor,
                                            std::size_t states, const Halt* halt) {
  Filled filled;
  mostStates_ = states;
  halt_ = halt;
  std::vector<Worth> lowered(values.begin(), values.end());
  floor_ = floor;
  for (Limit& limit : limits_) {
    // Every item that can pay stays in play.
    Worth& value = lowered[index(limit.item)];
    const Worth own = programme_.saw_.stages == 3 ? lay_.cutU : lay_.cutV;
    limit.price = std::max<Worth>(0, std::min(limit.price, value - own - 1));
    value -= limit.price;
    floor_ -= limit.price * limit.cap;
  }
  filled.upperBound = floor;
  if (programme_.columnBound(lowered) <= floor_) return filled;
  space_ = &programme_.prepare(lowered);
  programme_.sharpen(*space_);
  if (space_->rest.from(0) <= floor_) return filled;
  space_->findBreaks();
  chains_.resize(lay_.kinds.size());
  for (std::size_t k = 0; k < lay_.kinds.size(); ++k) chains_[k].resize(lay_.kinds[k].views.size());
  const bool everywhere = programme_.saw_.stages == 2 && !programme_.saw_.trim;
  std::vector<Front> board(index(lay_.length + lay_.kerfU) + 1);
  add(board[0], {});
  for (Tick u = 0; u < lay_.length; ++u) {
    if (tooMany_ || (halt != nullptr && halt->now())) return std::nullopt;
    const bool fresh =
        everywhere || std::binary_search(space_->freshStarts.begin(), space_->freshStarts.end(), u);
    Front starts;  // the rest went on from where they ended
    for (const State* state : board[index(u)]) {
      const bool endsHere = state->to + (state->before != nullptr ? lay_.kerfU : 0) == u;
      if (fresh || endsHere) starts.push_back(state);
    }
    if (!starts.empty()) sections(u, starts, board);
    for (const Run& run : space_->whole)
      for (Tick u2 = u + lay_.leastU(); u >= run.from && u2 <= run.to + 1; ++u2)
        if (const Worth more = lay_.offcutWorth(u2 - u, lay_.width) - lay_.cutU; more > 0)
          for (const State* state : board[index(u)])
            add(board[index(u2 + lay_.kerfU)],
                {state->value + more, state->counts, state, nullptr, Cell::offcut, u, u2});
    carry(board[index(u)], board[index(u) + 1]);
  }
  for (Tick u = lay_.length; u < lay_.length + lay_.kerfU; ++u)
    carry(board[index(u)], board[index(u) + 1]);
  if (tooMany_) return std::nullopt;
  const State* best = nullptr;
  for (const State* state : board.back()) {
    const Worth value = full(*state);
    if (best != nullptr && value <= filled.value) continue;
    best = state;
    filled.value = value;
  }
  filled.upperBound = std::max(floor, filled.value);
  filled.pattern = build(*best);
  return filled;
}

Pattern CountedProgramme::build(const State& last) {
  const auto pathTo = [](const State* state) {
    std::vector<const State*> path;
    for (; state != nullptr && state->before != nullptr; state = state->before)
      path.insert(path.begin(), state);
    return path;
  };
  Pattern pattern{lay_.first, {}};
  const auto cell = [&](int depth, Tick u, Tick v, Tick du, Tick dv, int item) {
    pattern.cells.push_back({depth, lay_.onBoard(u, v, du, dv), item, 0});
  };
  const auto piece = [&](int depth, int item, Tick u, Tick v) {
    Tick side = 0;
    while (lay_.orientationAt(item, u, v + side) < 0) ++side;
    cell(depth, u, v + side, lay_.itemLength[index(item)], lay_.itemWidth[index(item)], item);
    pattern.cells.back().orientation = lay_.orientationAt(item, u, v + side);
  };
  for (const State* section : pathTo(&last)) {
    const Tick u1 = section->from, u2 = section->to;
    cell(1, u1, 0, u2 - u1, lay_.width, section->item);
    if (section->item == Cell::offcut) continue;
    for (const State* strip : pathTo(section->inside)) {
      const Tick v = strip->from, dv = strip->to - strip->from;
      if (strip->inside == nullptr) {
        space_->sections.buildOffcutRow(u1, u2, strip->from, strip->to, pattern);
      } else if (programme_.saw_.stages == 2) {
        piece(2, strip->inside->item, strip->inside->from, v);
      } else {
        cell(2, u1, v, u2 - u1, dv, Cell::divided);
        for (const State* part : pathTo(strip->inside)) {
          if (part->item == Cell::offcut)
            cell(3, part->from, v, part->to - part->from, dv, Cell::offcut);
          else
            piece(3, part->item, part->from, v);
        }
      }
    }
  }
  return pattern;
}

}  // namespace flitch::optimizer
