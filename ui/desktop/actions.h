#pragma once
#include <QString>
#include <span>
#include <vector>

namespace flitch::desktop {

/// Everything a maker can do with a key, a button or the menu.
enum class Act {
  toDeliveries,
  toRack,
  toJobs,
  toSaw,
  toLedger,
  find,
  actions,
  keys,
  nextArea,
  previousArea,
  dayOrNight,
  fullScreen,
  openBook,
  copyBook,
  undo,
  redo,
  leave,
  clearFilter,
  takeTally,
  printTags,
  reprintTag,
  sisters,
  oldestFirst,
  bins,
  sayDone,
  countBay,
  postCount,
  shape,
  warp,
  photoCorners,
  tallerBoard,
  lowerBoard,
  quickMark,
  soundKnot,
  unsoundKnot,
  check,
  split,
  wane,
  hole,
  stain,
  sapwood,
  pith,
  barkPocket,
  gum,
  markFace,
  lookedAt,
  clearCuttings,
  addPhoto,
  figures,
  nextMark,
  previousMark,
  removeMark,
  alongEdge,
  zone,
  snapping,
  takeJob,
  nextJob,
  newJob,
  pasteParts,
  plan,
  stop,
  trustUnseen,
  lockBoard,
  pinBoard,
  keepOutBoard,
  settleNothing,
  layByHand,
  curves,
  cutSheets,
  partLabels,
  price,
  twoPlans,
  panels,
  estimate,
  quote,
  takeLines,
  sawAsPlanned,
  cutAsDrawn,
  lookBack,
  knotFound,
  blankLost,
  otherOffcut,
  anotherBoard,
  boardFetched,
  partSpoiled,
  nextBoard,
  allAsPlanned,
  nextSawJob,
  fromPaper,
  planAround,
  receiveLoad,
  newDelivery,
  invoice,
  moreCells,
  cutForVan,
  claimSheet,
  returnBoard,
  repeatLine,
  removeLine,
  goDown,
  goUp,
  reportCsv,
  reportPdf,
};

/// Where an action is live. The drawing is a part of Rack that has single letters when focused.
enum Where : unsigned {
  inRack = 1,
  inDrawing = 2,
  inJobs = 4,
  whilePlanning = 8,  ///< Jobs while a plan is being made
  inSaw = 16,
  inDeliveries = 32,
  inLedger = 64,
  everywhere = inRack | inDrawing | inJobs | whilePlanning | inSaw | inDeliveries | inLedger
};

/// One row of the table that menus, buttons, tooltips, the sheet of keys and the manual come from.
struct ActionRow {
  Act act;
  const char* id;        ///< stable name for settings
  const char* name;      ///< at most 24 letters
  const char* sentence;  ///< tooltip, status, screen reader
  const char* key;       ///< as QKeySequence reads it
  unsigned where;
  const char* needs;      ///< "a planned job", or empty: always
  const char* icon;       ///< freedesktop name
  const char* kind = "";  ///< of mark, for mark keys
};
[[nodiscard]] std::span<const ActionRow> actionTable();
[[nodiscard]] const ActionRow& row(Act act);

/// What is wrong with a table: two actions with one key that can be live together, a row without
/// key, name or sentence, a name over 24 letters, an id twice. Empty: sound.
[[nodiscard]] std::vector<QString> clashes(std::span<const ActionRow> table);

}  // namespace flitch::desktop
