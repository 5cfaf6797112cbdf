#include "inventory/planning/laid.h"

#include <algorithm>
#include <utility>

namespace flitch::planning {

using optimizer::Cell;
using optimizer::FirstCut;
using optimizer::Laid;
using optimizer::Saw;
using optimizer::Tick;
using optimizer::Zone;

namespace {

/// A rectangle or its mirror image with x and y exchanged.
optimizer::Rect turned(const optimizer::Rect& r, FirstCut first) {
  return first == FirstCut::x ? r : optimizer::Rect{r.y, r.x, r.dy, r.dx};
}

/// Parts as if crosscut first; for rip first all is exchanged on the way in and out.
class Parter {
 public:
  Parter(const std::vector<Laid>& laid, const optimizer::Rect& wood, const Saw& saw, FirstCut first)
      : first_(first),
        wood_(turned(wood, first)),
        kerfU_(first == FirstCut::x ? saw.kerfX : saw.kerfY),
        kerfV_(first == FirstCut::x ? saw.kerfY : saw.kerfX) {
    for (const Laid& each : laid) {
      Laid own = each;
      own.where = turned(each.where, first);
      laid_.push_back(own);
    }
  }

  std::optional<Parting> part() {
    out_.first = first_;
    std::sort(laid_.begin(), laid_.end(),
              [](const Laid& a, const Laid& b) { return a.where.x < b.where.x; });
    Tick reached = 0;  // where the wood after the last section begins
    for (std::size_t i = 0; i < laid_.size();) {
      std::vector<Laid> section;
      const Tick from = laid_[i].where.x;
      Tick to = from;
      for (; i < laid_.size() && (section.empty() || laid_[i].where.x < to + kerfU_); ++i) {
        section.push_back(laid_[i]);
        to = std::max(to, laid_[i].where.x + laid_[i].where.dx);
      }
      free(reached, from - kerfU_);
      cell(1, {from, 0, to - from, wood_.dy}, Cell::divided, 0);
      if (!parted(std::move(section), from, to)) return std::nullopt;
      reached = to + kerfU_;
    }
    free(reached, wood_.dx);
    return std::move(out_);
  }

 private:
  void free(Tick from, Tick to) {
    if (from < to) out_.free.push_back(turned({from, 0, to - from, wood_.dy}, first_));
  }
  void cell(int depth, const optimizer::Rect& where, int item, int orientation) {
    out_.cells.push_back({depth, turned(where, first_), item, orientation});
  }

  /// Strips of a section, a blank or several of one width in each.
  bool parted(std::vector<Laid> section, Tick from, Tick to) {
    std::sort(section.begin(), section.end(), [](const Laid& a, const Laid& b) {
      return std::pair(a.where.y, a.where.x) < std::pair(b.where.y, b.where.x);
    });
    for (std::size_t i = 0; i < section.size(); ++i) {
      const optimizer::Rect& r = section[i].where;
      const optimizer::Rect* before = i == 0 ? nullptr : &section[i - 1].where;
      const bool sameStrip = before != nullptr && before->y == r.y && before->dy == r.dy;
      if (sameStrip && before->x + before->dx + kerfU_ > r.x) return false;
      if (!sameStrip && before != nullptr && before->y + before->dy + kerfV_ > r.y) return false;
      if (!sameStrip) cell(2, {from, r.y, to - from, r.dy}, Cell::divided, 0);
      cell(3, r, section[i].item, section[i].orientation);
    }
    return true;
  }

  FirstCut first_;
  optimizer::Rect wood_;
  Tick kerfU_, kerfV_;
  std::vector<Laid> laid_;
  Parting out_;
};

std::int64_t freeCells(const Parting& parting) {
  std::int64_t cells = 0;
  for (const optimizer::Rect& r : parting.free) cells += std::int64_t{r.dx} * r.dy;
  return cells;
}

}  // namespace

std::optional<Parting> partedAround(const std::vector<Laid>& laid, const optimizer::Rect& wood,
                                    const Saw& saw) {
  std::optional<Parting> best;
  for (const FirstCut first : {FirstCut::x, FirstCut::y}) {
    std::optional<Parting> parting = Parter(laid, wood, saw, first).part();
    if (parting && (!best || freeCells(*parting) > freeCells(*best))) best = std::move(parting);
  }
  return best;
}

optimizer::Profile within(const optimizer::Profile& profile, const optimizer::Rect& at) {
  optimizer::Profile own;
  for (Tick x = at.x; x < at.x + at.dx; ++x) {
    const auto column = static_cast<std::size_t>(x);
    own.low.push_back(std::clamp(profile.low[column] - at.y, 0, at.dy));
    own.high.push_back(std::clamp(profile.high[column] - at.y, 0, at.dy));
  }
  return own;
}

std::vector<Zone> within(const std::vector<Zone>& zones, const optimizer::Rect& at) {
  std::vector<Zone> own;
  for (Zone zone : zones) {
    zone.where.x -= at.x;
    zone.where.y -= at.y;
    // An edge line may touch a side from beside.
    const optimizer::Rect& r = zone.where;
    if (r.x < at.dx && r.x + r.dx > 0 && r.y <= at.dy && r.y + r.dy >= 0) own.push_back(zone);
  }
  return own;
}

}  // namespace flitch::planning
