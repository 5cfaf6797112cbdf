#pragma once
#include <string>
#include <vector>

namespace flitch::acceptance {

/// Real boards as a tally and a file of marks, as a maker would have typed them.
struct Typed {
  std::string tally, marks;
  int boards = 0;
  int markCount = 0;
};

/// Reads boards of the 1998 data bank for kiln-dried red oak lumber (Gatchell, Thomas, Walker: USDA
/// Forest Service, General Technical Report NE-245), the copy in tests/bench/data, whose unit is a
/// quarter of an inch. Boards with a grade are taken, `most` of them: the others have no kinds of
/// defect. What lies outside a board's outline (VOID) becomes outline points of its face, steps
/// sloping into the wood over a quarter inch; all else becomes marks of its face.
[[nodiscard]] Typed readRedOak(const std::string& path, int most);

}  // namespace flitch::acceptance
