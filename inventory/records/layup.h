#pragma once
#include <string_view>

#include "inventory/wood/length.h"

namespace flitch {

/// What a blank is to a part that is not one blank.
enum class LayupKind {
  stave  ///< glued edge to edge into a panel
};
[[nodiscard]] std::string_view word(LayupKind kind);

/// A blank's place in a copy of its part.
struct Layup {
  int piece = 0;  ///< index into Cutting::pieces: a blank
  LayupKind kind = LayupKind::stave;
  int copy = 0;         ///< of the part
  int slot = 0;         ///< staves from the panel's front edge on: 1, 2, ... over all its boards
  int section = 0;      ///< of the panel, rising with the slots
  bool turned = false;  ///< a strip laid on its side: the board's thickness became its width
  Length gives;         ///< finished width it brings: those of a copy add up to the part's
  friend bool operator==(const Layup&, const Layup&) = default;
};

/// A blank sawn before, in its copy.
struct LaidBefore {
  int line = 0;
  Layup layup;  ///< `piece`: the number chalked on the blank
  friend bool operator==(const LaidBefore&, const LaidBefore&) = default;
};

}  // namespace flitch
