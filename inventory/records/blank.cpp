#include "inventory/records/blank.h"

#include <algorithm>
#include <optional>

#include "inventory/records/recipe.h"

namespace flitch {

namespace {

/// Widens a size to what a machine takes.
void atLeast(Length& size, Length least, std::vector<Allowance>& reasons) {
  if (size >= least) return;
  reasons.push_back({"the least the machine takes", least - size});
  size = least;
}

bool tooShort(const Part& part, const ShopProfile& shop) {
  return part.length + shop.addLength < shop.jointerShortest;
}

/// The blank of `pieces` whole parts or laminae, before any widening.
Blank sideBySide(const Part& part, int pieces, const ShopProfile& shop) {
  Blank blank = blankFor(part, shop);
  const bool across = !tooShort(part, shop) && part.width + shop.addWidth < shop.narrowestPiece;
  const int more = pieces - 1;
  if (across) {
    blank.across = pieces;
    blank.width += more * (part.width + shop.ripKerf);
    if (more > 0) blank.onWidth.push_back({"kerfs between", more * shop.ripKerf});
  } else {
    blank.along = pieces;
    blank.length += more * (part.length + shop.crosscutKerf);
    if (more > 0) blank.onLength.push_back({"kerfs between", more * shop.crosscutKerf});
  }
  return blank;
}

void widen(Blank& blank, const ShopProfile& shop) {
  atLeast(blank.length, shop.jointerShortest, blank.onLength);
  atLeast(blank.width, shop.narrowestPiece, blank.onWidth);
}

}  // namespace

Length planedOff(const Blank& blank, Length flat, const ShopProfile& shop) {
  if (blank.showing != Showing::faces || flat < blank.thickness) return {};
  return shop.addPerFace + (flat - blank.thickness) / 2;
}

bool planesOut(const Defect& mark, Length off) { return mark.depth && *mark.depth <= off; }

Blank blankFor(const Part& part, const ShopProfile& shop) {
  Blank blank;
  blank.line = part.line;
  blank.onLength.push_back({"squaring both ends", shop.addLength});
  blank.onWidth.push_back({"jointing and final rip", shop.addWidth});
  blank.onThickness.push_back({"two faces cleaned up", 2 * shop.addPerFace});
  blank.length = part.length + shop.addLength;
  blank.width = part.width + shop.addWidth;
  blank.thickness = part.thickness + 2 * shop.addPerFace;
  return blank;
}

Blank staveFor(const Part& part, Length width, const ShopProfile& shop) {
  Blank blank = blankFor(part, shop);
  blank.width = width;
  blank.onWidth = {{"jointing both edges", shop.jointStave}};
  return blank;
}

bool tooSmallAlone(const Part& part, const ShopProfile& shop) {
  return tooShort(part, shop) || part.width + shop.addWidth < shop.narrowestPiece;
}

Blank gangFor(const Part& part, int pieces, const ShopProfile& shop) {
  Blank blank = sideBySide(part, pieces, shop);
  widen(blank, shop);
  return blank;
}

Blank runFor(const Part& part, int pieces, bool across, const ShopProfile& shop) {
  Blank blank = blankFor(part, shop);
  const int more = pieces - 1;
  Length& size = across ? blank.width : blank.length;
  const Length kerf = across ? shop.ripKerf : shop.crosscutKerf;
  (across ? blank.across : blank.along) = pieces;
  auto& reasons = across ? blank.onWidth : blank.onLength;
  reasons[0].amount = pieces * reasons[0].amount;
  size = pieces * size + more * kerf;
  if (more > 0) reasons.push_back({"kerfs between", more * kerf});
  return blank;
}

Part asSetUp(const Part& part) {
  Part setUp = part;
  setUp.faceA = setUp.faceB = "hidden";
  setUp.edges = {"hidden", "hidden"};
  setUp.straight = false;
  return setUp;
}

Blank laminaFor(const Part& part, Length gives, int pieces, const ShopProfile& shop) {
  Blank blank = sideBySide(part, pieces, shop);
  blank.width += shop.laminaTrim;
  blank.onWidth.push_back({"trimmed once it is glued", shop.laminaTrim});
  blank.thickness = gives + 2 * shop.addPerFace;
  widen(blank, shop);
  return blank;
}

Blank turnedFor(const Part& part, Length gives, const ShopProfile& shop) {
  Blank blank = blankFor(part, shop);
  blank.width = part.thickness + shop.jointStave;
  blank.onWidth = {{"cleaning both sawn faces", shop.jointStave}};
  blank.thickness = gives + 2 * shop.addPerFace;
  blank.showing = Showing::sawnFaces;
  return blank;
}

Blank resawnFor(const Part& part, int leaves, const ShopProfile& shop) {
  Blank blank = blankFor(part, shop);
  const int cuts = leaves - 1;
  if (cuts == 0) return blank;
  blank.thickness += cuts * (part.thickness + shop.resawKerf) + 2 * cuts * shop.addSawnFace;
  blank.onThickness.push_back({"kerfs of the resaw", cuts * shop.resawKerf});
  blank.onThickness.push_back({"sawn faces cleaned up", 2 * cuts * shop.addSawnFace});
  blank.showing = Showing::sawnToo;
  return blank;
}

Blank blankAsLaid(const Part& part, const std::vector<Layup>& layups, const Rect& at,
                  const ShopProfile& shop, Length tick) {
  if (layups.empty()) return blankFor(part, shop);
  const Layup& first = layups.front();
  const auto held = static_cast<int>(layups.size());
  Length gives;
  for (const Layup& l : layups) gives = std::max(gives, l.gives);
  const auto gang = [&](auto blankOf) {
    constexpr int spare = 64;  // places of a gang that no copy takes
    for (int pieces = held; pieces < held + spare; ++pieces) {
      Blank blank = blankOf(pieces);
      const bool fits =
          stepsUp(blank.length, tick) * tick == at.dx && stepsUp(blank.width, tick) * tick == at.dy;
      if (fits) return blank;
      if (blank.length > at.dx || blank.width > at.dy) break;
    }
    return blankOf(held);
  };
  switch (first.kind) {
    case LayupKind::stave:
      return first.turned ? turnedFor(part, gives, shop) : staveFor(part, at.dy, shop);
    case LayupKind::lamina:
      return gang([&](int pieces) { return laminaFor(part, gives, pieces, shop); });
    case LayupKind::gang:
      if (const std::optional<GrainRun> run = runOf(part)) {
        const Blank across = runFor(part, held, true, shop);
        const bool ripped =
            run->lie == GrainRun::Lie::across ||
            (run->lie == GrainRun::Lie::pair && stepsUp(across.width, tick) * tick == at.dy);
        return ripped ? across : runFor(part, held, false, shop);
      }
      return gang([&](int pieces) { return gangFor(part, pieces, shop); });
    case LayupKind::whole:
      return first.turned ? turnedFor(part, part.width, shop) : resawnFor(part, held, shop);
  }
  return blankFor(part, shop);
}

}  // namespace flitch
