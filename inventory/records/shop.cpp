#include "inventory/records/shop.h"

#include <algorithm>

#include "inventory/records/board.h"
#include "inventory/records/zones.h"
#include "inventory/wood/moisture.h"
#include "inventory/wood/split.h"

namespace flitch {

ShopProfile startingProfile(Unit unit) {
  ShopProfile shop;
  shop.sawnEdgeServes = true;
  shop.glueMinutes = 4;
  if (unit == Unit::millimetres) {
    const auto mm = [](std::int64_t n) { return Length::millimetres(n); };
    shop.addLength = shop.endTrim = mm(25);
    shop.addWidth = mm(6);
    shop.addPerFace = mm(1);
    shop.referenceEdge = shop.crosscutKerf = shop.ripKerf = mm(3);
    shop.markMargin = mm(12);
    shop.keepLength = shop.jointerShortest = mm(300);
    shop.keepWidth = mm(75);
    shop.keepBands = {{mm(300), 400}};
    shop.shortLength = mm(150);
    shop.shortWidth = mm(40);
    shop.planerWidth = mm(310);
    shop.jointerWidth = mm(200);
    shop.planerThinnest = mm(12);
    shop.winter = {210, 30};
    shop.summer = {240, 60};
    shop.widestSolid = mm(200);
    shop.narrowestStave = mm(50);
    shop.widestStave = mm(150);
    shop.jointStave = mm(3);
    shop.glueTrim = mm(12);
    shop.narrowestPiece = mm(25);
    shop.thickestSolid = mm(45);
    shop.laminaTrim = mm(3);
    shop.resawKerf = Length::micrometres(1500);
    shop.resawHeight = mm(150);
    shop.addSawnFace = Length::micrometres(1500);
  }
  shop.demands = {
      {"hidden",
       {"sound knot", "unsound knot", "hole", "stain", "sapwood", "pith"},
       /*unseen=*/true,
       /*outsideGood=*/true},
      {"sound", {"sound knot", "stain", "sapwood"}, false, false},
      {"clear", {"sapwood"}, false, false},
      {"heart only", {}, false, false},
  };
  return shop;
}

Season seasonOf(const ShopProfile& shop) {
  const Climate climate = climateOf(shop.winter.air(), shop.summer.air());
  return {shop.madePermille / 10.0, climate.driest, climate.wettest};
}

const Demand* findDemand(const ShopProfile& shop, std::string_view name) {
  const auto at = std::find_if(shop.demands.begin(), shop.demands.end(),
                               [&](const Demand& d) { return d.name == name; });
  return at == shop.demands.end() ? nullptr : &*at;
}

bool allows(const Demand& demand, std::string_view kind) {
  if (isZone(kind)) return true;
  const std::vector<DefectKind>& known = startingDefectKinds();
  const bool isKnown =
      std::any_of(known.begin(), known.end(), [&](const DefectKind& k) { return k.name == kind; });
  const std::string_view counted = !isKnown ? "unsound knot" : kind == "gum" ? "stain" : kind;
  const auto lists = [&](std::string_view name) {
    return std::find(demand.allowed.begin(), demand.allowed.end(), name) != demand.allowed.end();
  };
  return lists(counted) || lists(kind);
}

bool allows(const Demand& demand, const Defect& mark) {
  if (!allows(demand, mark.kind)) return false;
  Length longer = std::max(mark.where.dx, mark.where.dy);
  if (mark.onB) longer = std::max({longer, mark.onB->dx, mark.onB->dy});
  return std::none_of(demand.limits.begin(), demand.limits.end(), [&](const MarkLimit& limit) {
    return limit.kind == mark.kind && longer > limit.largest;
  });
}

bool isStraight(const Board& board, const ShopProfile& shop) {
  return board.grain && !steeper(*board.grain, shop.straightGrain);
}

bool barsOffcut(std::string_view kind) {
  if (isZone(kind)) return false;
  constexpr std::string_view harmless[] = {"sound knot", "stain", "sapwood", "gum", "pith"};
  return std::find(std::begin(harmless), std::end(harmless), kind) == std::end(harmless);
}

Length edgeTaken(const Board& board, const ShopProfile& shop) {
  return shop.sawnEdgeServes && nearEdgeSawn(board) ? Length() : shop.referenceEdge;
}

Money labour(const ShopProfile& shop, int minutes) {
  const std::int64_t sixtyfold = shop.hourlyRate.raw() * minutes;
  return Money::tenThousandths((sixtyfold + 59) / 60);
}

}  // namespace flitch
