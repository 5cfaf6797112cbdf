#pragma once
#include <string>
#include <vector>

#include "inventory/desk/saw.h"

namespace flitch::desk {

/// What a maker pencilled, or types at the saw, beside a board of the plan.
struct PaperLine {
  bool sawn = true;               ///< false: not yet, stays planned
  std::vector<std::string> lost;  ///< hand marks of blanks that came to nothing
  Deviation otherwise;
  std::vector<exchange::MarkLine> found;  ///< measured from the fresh end
  std::string used;                       ///< tag of the board sawn in its stead, as written
  /// Anything but the board cut as drawn, blanks lost or not.
  [[nodiscard]] bool cutOtherwise() const {
    return otherwise.any() || !found.empty() || !used.empty();
  }
};

/// What readPaper() takes, for people.
inline constexpr const char* paperWords =
    "B3 lost · C2 short 31 1/2 · keep 14 · keep 14 x 4 · keep none · bin · bin 9 x 3 · knot 40-44 "
    "· stop 3 · tag stays · used T0044-B · no";

/// Reads what went otherwise, in any order, parted by commas; upper or lower case:
/// - nothing: as planned; `no`: not sawn yet;
/// - `B3 lost`, `B3 C1 lost`: blanks that came to nothing;
/// - `C2 short 31 1/2`: a blank that came out so long;
/// - `keep 14`: the one offcut, or what is left at the tag end, so long; `keep 14 x 4` for each
///   kept where there are several; `keep none`;
/// - `bin`: all shorts worth it go to the bin of their species; `bin 9 x 3`: one of that size;
/// - `knot 40-44`, `check 60-end`, `knot 40-42 x 1-3`: a mark found, from the fresh end, then
///   across from the near edge;
/// - `stop 3`: the third cut of the sheet was the last one made; what hangs together still goes
/// back
///   to the rack;
/// - `tag stays`: the end trim at the tag was left on the offcut there, and the tag with it;
/// - `used T0044-B`: the board that was sawn in its stead.
/// Throws Refusal with what is wrong and what would be taken.
[[nodiscard]] PaperLine readPaper(const std::string& text, const Cutting& cutting,
                                  const exchange::ReadingRules& rules);

/// How a line was understood, with what it changes: "B3 is wanted again; keeps 14 × 4"; empty for
/// as planned. `at`: the planned cutting on its board. Throws Refusal where the board cannot have
/// been cut so.
[[nodiscard]] std::string readingOf(const PaperLine& line, const CuttingCase& at);

/// The turn that a line tells of; `sure` as boardToChange() has it. Throws Refusal when `used`
/// names no board.
[[nodiscard]] Turn turnOf(const store::Snapshot& snapshot, BoardId planned, const PaperLine& line,
                          bool sure, Unit unit);

/// Hand marks of a cutting's blanks, by part and number.
[[nodiscard]] std::vector<std::string> marksOf(const Cutting& cutting);
/// "C2 is", "C2 and E1 are".
[[nodiscard]] std::string areText(const std::vector<std::string>& marks);

}  // namespace flitch::desk
