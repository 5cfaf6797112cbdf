#pragma once
#include <string>
#include <vector>

#include "inventory/records/job.h"
#include "inventory/records/layup.h"
#include "inventory/records/shop.h"
#include "inventory/wood/shape.h"

namespace flitch {

/// One addition to a finished size, with its reason.
struct Allowance {
  std::string reason;  ///< "squaring both ends", "jointing and final rip", "two faces cleaned up"
  Length amount;
};

/// Which faces of the board show on the part.
enum class Showing {
  faces,     ///< as the board lies
  sawnToo,   ///< resawn: faces sawn out of its depth as well, so any mark may show on any face
  sawnFaces  ///< turned: faces sawn out of its depth; the board's faces become edges
};

/// The rough piece sawn for a part.
struct Blank {
  int line = 0;
  Length length, width;
  Length thickness;  ///< that must really be there over it, once flat
  std::vector<Allowance> onLength, onWidth, onThickness;
  Showing showing = Showing::faces;
  int along = 1, across = 1;  ///< pieces that it is cut into once it is planed
};

/// Depth that planing takes off each face at least, the same off both (common practice, no source):
/// a mark of one face no deeper planes out. `flat`: the thickness left over the blank once it is
/// flat, thicknessOver(). Zero where faces are sawn out of the board's depth.
[[nodiscard]] Length planedOff(const Blank& blank, Length flat, const ShopProfile& shop);
/// True for a mark that planes out where `off` is taken off its face.
[[nodiscard]] bool planesOut(const Defect& mark, Length off);

/// The blank of a part that is one blank: finished size and the shop's allowances.
[[nodiscard]] Blank blankFor(const Part& part, const ShopProfile& shop);

/// A stave of a glued part: as long and as thick as a blank of the whole part, `width` wide as
/// sawn.
[[nodiscard]] Blank staveFor(const Part& part, Length width, const ShopProfile& shop);

/// Its blank would be shorter than the jointer takes or narrower than is safe to mill.
[[nodiscard]] bool tooSmallAlone(const Part& part, const ShopProfile& shop);

/// `pieces` of a part in one blank, a kerf between, one squaring or jointing for all: end to end,
/// or side by side where the part is long enough and too narrow. Never shorter or narrower than the
/// machines take, so that one piece has a blank as well.
[[nodiscard]] Blank gangFor(const Part& part, int pieces, const ShopProfile& shop);

/// `pieces` that follow each other in one board, each with its own allowances so that they may be
/// parted before they are milled or after: end to end, or side by side if `across`.
[[nodiscard]] Blank runFor(const Part& part, int pieces, bool across, const ShopProfile& shop);

/// What a set-up piece asks of its wood: as the part, but hidden all round.
[[nodiscard]] Part asSetUp(const Part& part);

/// A lamina that is `gives` thick once it is planed, or several parts' in one blank: as wide as the
/// part's own blank and what is trimmed off once it is glued.
[[nodiscard]] Blank laminaFor(const Part& part, Length gives, int pieces, const ShopProfile& shop);

/// A strip laid on its side: the board's thickness, both faces cleaned up, gives `gives` of the
/// part's width; the rip gives its thickness.
[[nodiscard]] Blank turnedFor(const Part& part, Length gives, const ShopProfile& shop);

/// One blank whose thickness holds `leaves` of the part, a resaw kerf and the clean-up of two sawn
/// faces between each two.
[[nodiscard]] Blank resawnFor(const Part& part, int leaves, const ShopProfile& shop);

/// The blank that the layups of a piece call for, `at` where it lies, sizes of pieces rounded up to
/// `tick`: without layups the part's own blank. Where no number of pieces has its length and width,
/// that of as many as there are layups. O(pieces).
[[nodiscard]] Blank blankAsLaid(const Part& part, const std::vector<Layup>& layups, const Rect& at,
                                const ShopProfile& shop, Length tick);

}  // namespace flitch
