#pragma once
#include <string>

#include "inventory/records/board.h"
#include "inventory/records/cut_plan.h"
#include "labels/label_stock.h"
#include "labels/page.h"

namespace flitch::pages {

/// A board's tag at the stock's label size: tag code, species, quarters, size, board feet, grade,
/// bay, Code 128 and QR, FACE A and the arrow to the near edge.
[[nodiscard]] Page boardTag(const Board& board, const LabelStock& stock, Unit unit);
/// A pre-numbered tag without data.
[[nodiscard]] Page blankTag(TagCode tag, const LabelStock& stock);

/// A bay's own tag: its name as large as fits, what lies there, Code 128 and the code.
struct BayTag {
  TagCode tag;
  std::string bay, contents;
};
[[nodiscard]] Page bayTag(const BayTag& facts, const LabelStock& stock);

/// What a part label says.
struct PartLabel {
  std::string handMark, part, job, rough, finished;
  std::string show;   ///< "show A": the board's face that is to be seen
  std::string next;   ///< "next: plane to 13/16"
  std::string from;   ///< "T0045-9 cut 6"
  TagCode board;      ///< named where `from` is empty
  std::string front;  ///< "front: edge V"; empty where the edges are alike
};
[[nodiscard]] Page partLabel(const PartLabel& label, const LabelStock& stock);

}  // namespace flitch::pages
