#pragma once
#include <string_view>

#include "inventory/wood/length.h"

namespace flitch {

/// What a blank is to its part.
enum class LayupKind {
  stave,   ///< one of those side by side that fill the part's width, glued or not
  lamina,  ///< one of those face to face that fill its thickness
  gang,    ///< cut from a blank of several once it is planed
  whole    ///< all of it: laid on its side, one of several resawn, or where others are made so
};
inline constexpr LayupKind lastLayupKind = LayupKind::whole;  ///< what stored text may name
[[nodiscard]] std::string_view word(LayupKind kind);

/// A blank's place in a copy of its part. A blank cut apart or resawn has one for each copy.
struct Layup {
  int piece = 0;  ///< index into Cutting::pieces: a blank
  LayupKind kind = LayupKind::stave;
  int copy = 0;  ///< of the part
  int slot = 0;  ///< 1, 2, ...: staves from the panel's front edge on and laminae from face A on,
                 ///< over all boards; in a gang from the tag end or the near edge on; of a resawn
                 ///< blank from the face that lies up
  int section = 0;      ///< of a glued panel, rising with the slots; 0 for all else
  bool turned = false;  ///< a strip laid on its side: the board's thickness became its width
  Length gives;  ///< finished width a stave brings, finished thickness a lamina brings: those of a
                 ///< copy add up to the part's; else the part's width
  friend bool operator==(const Layup&, const Layup&) = default;
};

/// A blank sawn before, in its copy.
struct LaidBefore {
  int line = 0;
  Layup layup;  ///< `piece`: the number chalked on the blank
  friend bool operator==(const LaidBefore&, const LaidBefore&) = default;
};

}  // namespace flitch
