#include <algorithm>
#include <array>

#include "inventory/records/account.h"
#include "inventory/wood/split.h"

namespace flitch {

namespace {

/// Grid line at or below, at or above; x may be below zero.
Length gridDown(Length x, Length tick) { return stepsDown(x, tick) * tick; }
Length gridUp(Length x, Length tick) { return stepsUp(x, tick) * tick; }

}  // namespace

std::int64_t offcutRate(const Board& board, const KeepBand& band, Length tick) {
  // Mean area of the faces in nm² is a quarter of the sum of their doubled areas.
  const Wide fourfold = board.outline[0].area().doubled + board.outline[1].area().doubled;
  if (fourfold == 0 || board.cost <= Money()) return 0;
  const Wide cell = (static_cast<Wide>(4) << offcutRateShift) * tick.nm() * tick.nm();
  return mulDiv(board.cost.raw() * band.permille, cell, 1000 * fourfold);
}

Money offcutWorth(const Board& board, const ShopProfile& shop, Length tick, Length l, Length w) {
  const std::int64_t length = l / tick;
  const std::int64_t width = w / tick;
  if (shop.offcutsAtZero) return {};
  if (length < stepsUp(shop.keepLength, tick) || width < stepsUp(shop.keepWidth, tick)) return {};
  const KeepBand* reached = nullptr;
  for (const KeepBand& band : shop.keepBands) {
    if (stepsUp(band.from, tick) <= length) reached = &band;
  }
  if (reached == nullptr) return {};
  const Wide worth = static_cast<Wide>(offcutRate(board, *reached, tick)) * length * width;
  return Money::tenThousandths(static_cast<std::int64_t>(worth >> offcutRateShift));
}

Rect offcutCore(const Board& board, const ShopProfile& shop, Length tick, const Rect& at) {
  const std::array<Outline, 2> faces{lying(board, Face::a), lying(board, Face::b)};
  const Length end = std::min(faces[0].length(), faces[1].length());
  const Length left = gridUp(std::max(at.x, Length()), tick);
  const Length right = gridDown(std::min(at.right(), end), tick);
  if (right <= left) return {};
  const Length edge = edgeTaken(board, shop);
  Length low = at.y;
  Length high = at.top();
  for (const Outline& face : faces) {
    const Outline::Span wood = face.clearSpan(left, right);
    low = std::max(low, wood.near + edge);
    high = std::min(high, wood.far);
  }
  low = gridUp(low, tick);
  high = gridDown(high, tick);
  if (high <= low) return {};
  return {left, low, right - left, high - low};
}

bool isClear(const Board& board, const ShopProfile& shop, Length tick, const Rect& at,
             Length length, Length width) {
  const Rect core = offcutCore(board, shop, tick, at);
  return core.dx >= length && core.dy >= width &&
         std::none_of(board.defects.begin(), board.defects.end(), [&](const Defect& d) {
           return barsOffcut(d.kind) && overlaps(wholeOf(d), core);
         });
}

bool isOffcut(const Board& board, const ShopProfile& shop, Length tick, const Rect& at) {
  return isClear(board, shop, tick, at, shop.keepLength, shop.keepWidth);
}

std::vector<Feet> offcutFeet(const Breakdown& breakdown) {
  std::vector<Wide> volumes;
  for (const Share& share : breakdown.shares) {
    if (share.cause == Cause::offcuts) volumes.push_back(share.volume.value);
  }
  std::vector<Feet> feet(volumes.size());
  if (std::none_of(volumes.begin(), volumes.end(), [](Wide v) { return v > 0; })) return feet;
  const std::vector<std::int64_t> shared =
      split(breakdown.feet[static_cast<std::size_t>(Cause::offcuts)].thousandths, volumes);
  for (std::size_t i = 0; i < feet.size(); ++i) feet[i].thousandths = shared[i];
  return feet;
}

}  // namespace flitch
