#include "inventory/records/delivery.h"

#include "inventory/wood/writing.h"

namespace flitch {
namespace {

/// Width of a rectangle of the same length and mean face area.
Length meanWidth(const TallyLine& line) {
  const Length length = line.outline[0].length();
  const Area both = line.outline[0].area() + line.outline[1].area();
  return Length::nanometres(narrow(nearest(both.doubled, 4 * static_cast<Wide>(length.nm()))));
}

}  // namespace

std::vector<TallyFigures> figures(const DeliveryDraft& draft) {
  std::vector<TallyFigures> all;
  Half nextHalf = Half::up;
  for (const TallyLine& line : draft.lines) {
    const Length length = line.outline[0].length();
    const Length width = meanWidth(line);
    // Counted at nominal thickness: what is thinner on the day is the board's own affair.
    const CubicMillimetres wood =
        volume(line.outline[0].area(), line.outline[1].area(), line.nominal.length());
    for (int copy = 0; copy < line.count; ++copy) {
      TallyFigures board;
      board.measured = feetOf(wood);
      if (line.billed) {
        board.billed = *line.billed;
      } else if (draft.rule == CountingRule::volume || line.kind == BoardKind::offcut) {
        board.billed = volumeTally(line.nominal, width, length);
      } else {
        const SurfaceMeasure measure = surfaceMeasure(width, length, nextHalf);
        board.half = measure.half;
        if (measure.half != Half::none) nextHalf = nextHalf == Half::up ? Half::down : Half::up;
        board.billed = surfaceTally(measure, line.nominal);
      }
      switch (line.basis) {
        case PriceBasis::perFoot: board.price = cost(Rate{line.price}, board.billed); break;
        case PriceBasis::each: board.price = line.price; break;
        case PriceBasis::perCubicMetre:
          board.price = costPerCubicMetre(Rate{line.price}, wood);
          break;
      }
      all.push_back(board);
    }
  }
  return all;
}

}  // namespace flitch
