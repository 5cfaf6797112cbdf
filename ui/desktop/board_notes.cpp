#include "ui/desktop/board_notes.h"

#include "inventory/records/board_readiness.h"
#include "inventory/records/board_thickness.h"
#include "inventory/records/board_weight.h"
#include "inventory/wood/moisture.h"
#include "ui/desktop/look.h"

namespace flitch::desktop {

std::vector<BoardNote> boardNotes(const Board& board, const ShopProfile& shop,
                                  std::span<const Species> own, const QString& grade,
                                  bool estimated, Unit unit) {
  using Tone = BoardNote::Tone;
  std::vector<BoardNote> notes;
  if (!grade.isEmpty()) {
    notes.push_back({"Grade, estimated", grade, estimated ? "estimate: " + grade : QString(),
                     estimated ? Tone::ink : Tone::soft});
  }
  const Lifting lift = lifting(kilogramsOf(board, own));
  QString weight = q(weightText(board, own, unit));
  if (lift != Lifting::alone) weight += ": " + q(std::string(advice(lift)));
  notes.push_back({"Weight", weight, lift == Lifting::alone ? weight : "! " + weight,
                   lift == Lifting::alone ? Tone::ink : Tone::caution});
  if (const QString surfaced = q(surfacedText(board.nominal, unit)); !surfaced.isEmpty()) {
    notes.push_back({"Surfaced, expect", surfaced, {}, Tone::ink});
  }
  const QString finished = q(finishedThicknessText(board, shop, unit));
  notes.push_back({"Finished, at most", finished, "finished " + finished, Tone::ink});
  const Season season = seasonOf(shop);
  const BoardReadiness readiness = readinessOf(board, {season.driest, season.wettest});
  const QString room = q(readiness.line);
  const bool fits = readiness.ready() || !readiness.reading;
  notes.push_back({"For the room", room,
                   readiness.reading ? (fits ? room : "! " + room) : QString(),
                   fits ? Tone::ink : Tone::caution});
  return notes;
}

}  // namespace flitch::desktop
