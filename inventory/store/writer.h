#pragma once
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "inventory/records/account.h"
#include "inventory/records/delivery.h"
#include "inventory/records/job_line.h"
#include "inventory/records/label_paper.h"
#include "inventory/records/photo.h"
#include "inventory/records/price.h"
#include "inventory/records/stock_events.h"
#include "inventory/store/book.h"
#include "inventory/wood/species.h"

namespace flitch::store {

/// Writes within one change. Included by inventory/desk alone. Every record function notes the edit
/// (before, after) for undo and history, and sets the record's version to the entry.
class Writer {
 public:
  struct Inside;  ///< of the store alone

  [[nodiscard]] EntryId entry() const;
  /// What the book says inside this transaction, own writes included.
  [[nodiscard]] const Snapshot& now() const;

  DeliveryId addDelivery(const DeliveryDraft& draft);
  /// Inserts board, faces, outlines, defects, readings and its account; board.tag, if set, is
  /// issued to it (a reserved serial is taken up). id and version of `board` are given. Its wood
  /// comes by a move; `board.wood` is what its account holds when whole (volumeOf() of a board as
  /// bought, an offcut's share of its parent). `half`: how an exact half of its tally went.
  BoardId addBoard(const Board& board, Half half = Half::none);
  /// Sets marks, looked at, note, bay, kept back, thickness ... to those of `board` (id, version as
  /// read); not its tag, holds, parent, delivery and account. A new outline or thickness sends its
  /// wood to `remeasured` and back as measured, at the same cost. Throws Stale when it changed
  /// since, Refusal when it is not on the rack, nor brought back by a move of this change.
  void updateBoard(const Board& board);
  /// Serials for blank tags, in rising order.
  std::vector<TagCode> reserveTags(int count);
  /// The next serial that may be issued, taken at once.
  TagCode nextTag();

  /// Hangs `tag`, or without one the next, on the board in place of its own, which hangs on none
  /// again and says what took its place. Throws Refusal when `tag` is on a board or was replaced.
  TagCode replaceTag(BoardId board, std::optional<TagCode> tag);
  /// The tag of a board sawn in this change hangs on its remainder `to`, which has none yet; `from`
  /// goes by it still. Nothing without a tag.
  void passTag(BoardId from, BoardId to);
  /// A tag for a bay. Throws Refusal when it has one.
  TagCode tagBay(const std::string& bay);

  /// The board's wood and money move by post().
  ReturnId addReturn(BoardId board, const std::string& reason, Money expected);
  void addCredit(ReturnId returned, Money amount, const std::string& receivedOn);
  void addCount(const BayCount& count);

  JobId addJob(const Job& job);  ///< throws Refusal when the name is taken
  /// What the job asks for becomes what is given (id and version as read). Plans kept for what it
  /// asked before are not its plans any more. Throws Stale when it changed since.
  void changeJob(const Job& job);
  ProfileId addProfile(const ShopProfile& shop);
  /// One of the maker's own; a newer row of the same name takes the place of an older.
  void addSpecies(const Species& species);
  /// A newer row of the same name takes the place of an older.
  void addLabelPaper(const LabelPaper& paper);
  void setPrinter(const PrinterAlignment& printer);
  /// With its bytes (JPEG); its corners are set apart.
  PhotoId addPhoto(const Photo& photo, const std::string& jpeg);
  /// Where the board lies on a photo; a newer setting takes the place of an older.
  void placePhoto(PhotoId photo, Face face, const PhotoCorners& corners);
  /// A row of the price table; newer ones take the place of older.
  void addPrice(const ReplacementPrice& price);
  /// In place of what was set aside of that wood for that job before.
  void setAside(const SetAside& wood);
  /// All a job costs beside its lumber, in place of what was said before.
  void setJobLines(JobId job, const std::vector<JobLine>& lines);
  /// Its id and number are given: "Q 26-041" of the year it is given in.
  Quote addQuote(const Quote& quote);
  PlanId addPlan(const CutPlan& plan);  ///< with its planned cuttings
  /// Holding and releasing leave the board's version as it is.
  void hold(BoardId board, JobId job, PlanId plan);
  void release(BoardId board);

  /// A bin of untagged shorts; its wood comes by moves. Throws Refusal when its name is taken, or
  /// its species has a bin.
  BinId addBin(const Bin& bin);

  /// A done cutting; `became` names the boards its offcuts are now, `binned` the bins of its
  /// untagged shorts. Throws Refusal when the board is sawn already.
  CuttingId addDone(const Cutting& cutting, PlanId plan, const std::map<int, BoardId>& became,
                    const std::map<int, BinId>& binned = {});

  /// A blank of a done cutting came to nothing: its share of parts goes to `lost`, its copy is
  /// wanted again. Throws Refusal when it is spoiled already, std::logic_error when it is no blank.
  void spoil(CuttingId cutting, const Share& part, const std::string& reason);

  /// Written when `work` is done, with the seal: now() does not show it before. A move of nothing
  /// is left out.
  void post(const Move& move);

  /// Writes the reverse of an entry: moves turned round, edits swapped back, rows it inserted
  /// withdrawn, tags and names freed. The event must name the entry as `reverses`. Throws Refusal
  /// naming what stands on it ("stands-on-it"), for an undo ("is-an-undo"), for no entry.
  void reverse(EntryId entry);

 private:
  friend class Book;
  explicit Writer(Inside& inside) : inside_(&inside) {}
  Inside* inside_;
};

}  // namespace flitch::store
