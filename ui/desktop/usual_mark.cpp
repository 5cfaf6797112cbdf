#include "ui/desktop/usual_mark.h"

#include <algorithm>

#include "inventory/records/zones.h"

namespace flitch::desktop {
namespace {

Length steps(std::int64_t n, Unit unit, std::int64_t mm) {
  return unit == Unit::inches ? Length::sixtyFourths(4 * n) : Length::millimetres(mm);
}

Length kept(Length value, Length low, Length high) {
  return std::max(low, std::min(value, std::max(low, high)));
}

}  // namespace

Defect usualMark(const std::string& kind, const Board& board, Face face, Length x, Length y,
                 Unit unit) {
  const Rect all = boundsOf(board);
  Defect mark;
  mark.kind = kind;
  mark.face = DefectFace::through;
  const auto size = [&](std::int64_t dx, std::int64_t mmX, std::int64_t dy, std::int64_t mmY) {
    mark.where.dx = std::min(steps(dx, unit, mmX), all.dx);
    mark.where.dy = std::min(steps(dy, unit, mmY), all.dy);
  };
  const DefectFace here = face == Face::a ? DefectFace::a : DefectFace::b;
  if (kind == "check" || kind == "split") {
    size(96, 150, 4, 6);
  } else if (kind == "wane") {
    size(192, 300, 12, 20);
  } else if (kind == "hole") {
    size(6, 10, 6, 10);
  } else if (kind == "stain" || kind == "gum") {
    size(48, 75, 24, 40);
    mark.face = here;
  } else if (kind == "sapwood") {
    size(0, 0, 16, 25);
    mark.where.dx = all.dx;
    mark.face = here;
  } else if (kind == "pith") {
    size(192, 300, 4, 6);
  } else if (kind == "bark pocket") {
    size(32, 50, 8, 12);
    mark.face = here;
  } else if (isZone(kind)) {
    size(384, 600, 0, 0);
    mark.where.dy = all.dy;
  } else {
    size(24, 40, 20, 32);
  }
  mark.where.x = x - mark.where.dx / 2;
  mark.where.y = y - mark.where.dy / 2;
  // An end crack belongs to its end, wane and sapwood to their edge.
  if (kind == "check" || kind == "split") {
    if (x < mark.where.dx) mark.where.x = all.x;
    if (x > all.right() - mark.where.dx) mark.where.x = all.right() - mark.where.dx;
  }
  if (kind == "wane" || kind == "sapwood") {
    mark.where.y = y > all.y + all.dy / 2 ? all.top() - mark.where.dy : all.y;
  }
  mark.where.x = kept(mark.where.x, all.x, all.right() - mark.where.dx);
  mark.where.y = kept(mark.where.y, all.y, all.top() - mark.where.dy);
  return mark;
}

void moveAlong(Defect& mark, const Rect& was, const Rect& all) {
  if (!mark.onB) return;
  const auto held = [](Length at, Length by, Length size, Length from, Length to) {
    return kept(at + by, from - size / 2, to - size / 2) - at;
  };
  Rect& b = *mark.onB;
  const Length dx = held(b.x, mark.where.x - was.x, b.dx, all.x, all.right());
  const Length dy = held(b.y, mark.where.y - was.y, b.dy, all.y, all.top());
  b.x += dx;
  b.y += dy;
  mark.where.x = was.x + dx;
  mark.where.y = was.y + dy;
}

}  // namespace flitch::desktop
