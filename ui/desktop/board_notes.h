#pragma once
#include <QString>
#include <span>
#include <vector>

#include "inventory/records/board.h"
#include "inventory/records/shop.h"
#include "inventory/wood/species.h"

namespace flitch::desktop {

/// Something worth knowing of a board before it is opened: one line each where there is room, one
/// line of all where there is none.
struct BoardNote {
  enum class Tone { soft, ink, caution };
  QString name;   ///< "Weight"
  QString value;  ///< "about 57 lb: mind how you lift it"
  QString brief;  ///< in the line of all; empty: left out there
  Tone tone = Tone::ink;
};

/// Looks like, weight with its caution, surfaced and finished thickness, readiness for the shop's
/// rooms. `grade`: the estimate in words, or why there is none.
[[nodiscard]] std::vector<BoardNote> boardNotes(const Board& board, const ShopProfile& shop,
                                                std::span<const Species> own, const QString& grade,
                                                bool estimated, Unit unit);

}  // namespace flitch::desktop
