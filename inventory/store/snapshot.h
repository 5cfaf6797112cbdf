#pragma once
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "inventory/records/account.h"
#include "inventory/records/board.h"
#include "inventory/records/cut_plan.h"
#include "inventory/records/delivery.h"
#include "inventory/records/ids.h"
#include "inventory/records/job.h"
#include "inventory/records/job_line.h"
#include "inventory/records/label_paper.h"
#include "inventory/records/photo.h"
#include "inventory/records/price.h"
#include "inventory/records/shop.h"
#include "inventory/records/stock_events.h"
#include "inventory/wood/species.h"

namespace flitch::store {

class Database;

struct EntryLine {
  EntryId id;
  std::string at;  ///< UTC, ISO, milliseconds
  std::string hand, station, event, note;
  JobId job;
  EntryId reverses;
  EntryId reversedBy;
};

/// A sum of the ledger: what went from boards to a cause.
struct LedgerSum {
  AccountKind target = AccountKind::parts;
  CubicMillimetres volume;
  Money cost;
};

/// A board as sawn: the cutting that was done and the board as it was before.
struct DoneCutting {
  CuttingId id;
  EntryId entry;
  PlanId plan;
  JobId job;
  Board board;  ///< with the cost and wood it had before
  Cutting cutting;
  Length tick;
  ProfileId profile;
  std::map<int, BoardId> became;  ///< piece index of an offcut -> its board
  std::map<int, BinId> binned;    ///< piece index of an untagged short -> its bin
};

/// A blank or part that came to nothing.
struct SpoiledPiece {
  EntryId entry;  ///< that said so
  CuttingId cutting;
  int piece = 0;  ///< index into its pieces
  int line = 0, copy = 0;
  std::string reason;
  CubicMillimetres volume;  ///< that went from parts to lost
  Money cost;
};

/// What stands on a board's account.
struct Balance {
  CubicMillimetres volume;
  Money cost;
  friend bool operator==(const Balance&, const Balance&) = default;
};

/// How a board left the rack other than by a planned cutting.
struct Leaving {
  AccountKind target = AccountKind::lost;
  EntryId entry;
  CubicMillimetres volume;  ///< what the board held until then
  Money cost;
};

struct StoredPlan {
  CutPlan plan;
  std::vector<BoardId> sawn;  ///< boards of the plan that were sawn
  EntryId kept;               ///< the entry that kept it: a board of a later version changed since
};

/// What the book says, read straight; reading holds no rules. Valid while its Book lives.
class Snapshot {
 public:
  explicit Snapshot(std::shared_ptr<Database> database);

  [[nodiscard]] EntryId lastEntry() const;
  /// Everything on the rack (wood above zero), in order of id, whole. One read per table.
  [[nodiscard]] std::vector<Board> rack() const;
  /// Any board, on the rack or not.
  [[nodiscard]] std::optional<Board> board(BoardId id) const;
  [[nodiscard]] std::optional<Board> boardByTag(TagCode tag) const;
  /// The entry that changed the board since `then` (an entry), if it is not as it was; changes
  /// undone since are passed over in pairs. O(changes since).
  [[nodiscard]] std::optional<EntryId> changedSince(BoardId id, EntryId then) const;
  /// A serial that is reserved (blank tag printed) and carries no board yet; not one replaced.
  [[nodiscard]] bool tagReserved(TagCode tag) const;
  /// The next reserved serial after that one that carries no board; none when the roll is used up.
  [[nodiscard]] std::optional<TagCode> blankTagAfter(std::int64_t serial) const;
  /// Serial issued or reserved at all.
  [[nodiscard]] bool tagKnown(TagCode tag) const;
  /// The tag that took the place of one that was lost or replaced.
  [[nodiscard]] std::optional<TagCode> replacedBy(TagCode tag) const;
  /// Names of all bays, in order; the tag of one, and the bay that carries a tag.
  [[nodiscard]] std::vector<std::string> bays() const;
  [[nodiscard]] std::optional<TagCode> bayTag(const std::string& bay) const;
  [[nodiscard]] std::optional<std::string> bayOf(TagCode tag) const;
  /// How a board that is off the rack left it; none for one that never did.
  [[nodiscard]] std::optional<LeftRack> leftRack(BoardId id) const;
  /// Boards sent back, returns undone left out, oldest first.
  [[nodiscard]] std::vector<BoardReturn> returns() const;
  /// Bins of untagged shorts, by name.
  [[nodiscard]] std::vector<Bin> bins() const;
  /// Boards that came with a delivery, in tally order.
  [[nodiscard]] std::vector<BoardId> boardsOf(DeliveryId delivery) const;
  /// How a supplier counted in their last delivery that stands; none without one.
  [[nodiscard]] std::optional<CountingRule> ruleOf(const std::string& supplier) const;
  [[nodiscard]] std::vector<DeliveryId> deliveries() const;  ///< oldest first
  /// A delivery that stands, with what its invoice asks and claims; without its lines.
  [[nodiscard]] std::optional<DeliveryDraft> delivery(DeliveryId id) const;

  [[nodiscard]] std::vector<Job> jobs() const;
  [[nodiscard]] std::optional<Job> job(JobId id) const;
  [[nodiscard]] std::optional<Job> jobNamed(const std::string& name) const;
  /// Numbers of the copies of each part line sawn already and not spoiled since.
  [[nodiscard]] std::map<int, std::set<int>> made(JobId job) const;
  /// Blanks of the job sawn already that are not a whole part each, in the order they were sawn.
  [[nodiscard]] std::vector<LaidBefore> laid(JobId job) const;

  /// Replacement prices that stand, as they were added.
  [[nodiscard]] std::vector<ReplacementPrice> prices() const;
  /// Board feet set aside for jobs that stand, none of them 0, by job.
  [[nodiscard]] std::vector<SetAside> setAside() const;
  /// What a job costs beside its lumber, as last said.
  [[nodiscard]] std::vector<JobLine> jobLines(JobId job) const;
  /// Quotes given for a job, oldest first.
  [[nodiscard]] std::vector<Quote> quotes(JobId job) const;

  [[nodiscard]] std::optional<StoredPlan> plan(PlanId id) const;
  /// Of those of what the job asks now.
  [[nodiscard]] std::optional<StoredPlan> newestPlan(JobId job) const;
  [[nodiscard]] std::vector<PlanId> plans(JobId job) const;  ///< likewise, oldest first
  /// The newest of all, and the job as it asked when that was kept.
  [[nodiscard]] std::optional<std::pair<StoredPlan, Job>> lastPlan(JobId job) const;

  [[nodiscard]] ShopProfile shop() const;  ///< the newest profile
  [[nodiscard]] std::optional<ShopProfile> profile(ProfileId id) const;
  [[nodiscard]] std::vector<std::string> species() const;  ///< names the book has used
  /// Species with figures of the maker's own, the newest first (speciesNamed() takes them so).
  [[nodiscard]] std::vector<Species> ownSpecies() const;
  [[nodiscard]] std::vector<DefectKind> defectKinds() const;
  /// Label stocks of the maker's own, and printers that lie, by name.
  [[nodiscard]] std::vector<LabelPaper> labelPapers() const;
  [[nodiscard]] std::vector<PrinterAlignment> printers() const;
  /// Photos of a board, oldest first; one photo; its bytes (JPEG); the one that came of a file.
  [[nodiscard]] std::vector<Photo> photos(BoardId board) const;
  [[nodiscard]] std::optional<Photo> photo(PhotoId id) const;
  [[nodiscard]] std::string photoBytes(PhotoId id) const;
  [[nodiscard]] PhotoId photoOfFile(const std::string& sha256) const;

  [[nodiscard]] std::vector<EntryLine> entries(int newest = 100) const;  ///< newest first
  [[nodiscard]] std::optional<EntryLine> entry(EntryId id) const;
  /// Sums from boards to causes, of one job or of all, spoiled parts as `lost`; undone entries
  /// cancel out.
  [[nodiscard]] std::vector<LedgerSum> sawnSums(std::optional<JobId> job) const;
  /// What was used up by hand, without a plan, for one job or in all; undone entries cancel out.
  [[nodiscard]] LedgerSum usedByHand(std::optional<JobId> job) const;
  /// What each done cutting that stands posted, by account; spoiled parts still among the parts.
  [[nodiscard]] std::map<CuttingId, std::vector<LedgerSum>> cuttingSums() const;
  /// Moves of an entry as posted, in order.
  [[nodiscard]] std::vector<Move> moves(EntryId entry) const;
  /// What stood on the boards' accounts after an entry, replayed from the moves; boards that were
  /// not on the rack are left out.
  [[nodiscard]] std::map<BoardId, Balance> balancesAt(EntryId until) const;
  /// The entry that first put wood on a board's account.
  [[nodiscard]] std::optional<EntryId> cameIn(BoardId board) const;
  /// Boards that were made of a board, at the saw or by hand, in order of id.
  [[nodiscard]] std::vector<BoardId> childrenOf(BoardId board) const;
  /// How a board left last, other than by a planned cutting.
  [[nodiscard]] std::optional<Leaving> leaving(BoardId board) const;
  /// Done cuttings that stand (not undone), oldest first.
  [[nodiscard]] std::vector<DoneCutting> doneCuttings(std::optional<JobId> job) const;

  /// Spoiled pieces that stand, of one job or of all, oldest first.
  [[nodiscard]] std::vector<SpoiledPiece> spoiled(std::optional<JobId> job) const;

 private:
  std::shared_ptr<Database> database_;
};

}  // namespace flitch::store
