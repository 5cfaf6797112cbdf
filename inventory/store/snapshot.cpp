#include "inventory/store/snapshot.h"

#include "inventory/store/board_rows.h"
#include "inventory/store/database.h"
#include "inventory/store/delivery_rows.h"
#include "inventory/store/job_rows.h"
#include "inventory/store/ledger_rows.h"
#include "inventory/store/paper_rows.h"
#include "inventory/store/photo_rows.h"
#include "inventory/store/plan_rows.h"
#include "inventory/store/price_rows.h"
#include "inventory/store/report_rows.h"
#include "inventory/store/species_rows.h"
#include "inventory/store/stock_rows.h"

namespace flitch::store {

namespace {
constexpr auto reading = Transaction::Kind::read;
}

Snapshot::Snapshot(std::shared_ptr<Database> database) : database_(std::move(database)) {}

EntryId Snapshot::lastEntry() const {
  return database_->value<EntryId>("SELECT coalesce(max(id), 0) FROM entries");
}

std::vector<Board> Snapshot::rack() const {
  const Transaction view(*database_, reading);
  return readBoards(*database_, boardsOnRack());
}

std::optional<Board> Snapshot::board(BoardId id) const {
  const Transaction view(*database_, reading);
  return readBoard(*database_, id);
}

std::optional<Board> Snapshot::boardByTag(TagCode tag) const {
  const Transaction view(*database_, reading);
  if (tag.kind != TagKind::board) return std::nullopt;
  const auto id = database_->maybe<BoardId>("SELECT board FROM tags WHERE serial = ?", tag.serial);
  return id && *id ? readBoard(*database_, *id) : std::nullopt;
}

std::optional<EntryId> Snapshot::changedSince(BoardId id, EntryId then) const {
  const Transaction view(*database_, reading);
  auto version = database_->value<EntryId>("SELECT version FROM boards WHERE id = ?", id);
  while (version > then) {
    const auto undone = undoneBy(*database_, version);
    if (!undone || *undone <= then) return version;
    version = changeBefore(*database_, "boards", id.value, *undone);
  }
  return std::nullopt;
}

bool Snapshot::tagReserved(TagCode tag) const {
  return tag.kind == TagKind::board &&
         database_->maybe<int>(
             "SELECT 1 FROM tags WHERE serial = ? AND board IS NULL AND replaced_by IS NULL",
             tag.serial);
}

std::optional<TagCode> Snapshot::blankTagAfter(std::int64_t serial) const {
  const auto next = database_->maybe<std::int64_t>(
      "SELECT min(serial) FROM tags WHERE board IS NULL AND replaced_by IS NULL AND serial > ?",
      serial);
  if (!next || *next == 0) return std::nullopt;
  return TagCode{TagKind::board, *next};
}

std::optional<TagCode> Snapshot::replacedBy(TagCode tag) const {
  const auto serial = database_->maybe<std::int64_t>(
      "SELECT replaced_by FROM tags WHERE serial = ? AND replaced_by IS NOT NULL", tag.serial);
  if (tag.kind != TagKind::board || !serial) return std::nullopt;
  return TagCode{TagKind::board, *serial};
}

std::vector<std::string> Snapshot::bays() const {
  std::vector<std::string> names;
  database_->each("SELECT name FROM bays ORDER BY name",
                  [&](Row& row) { names.push_back(row.next<std::string>()); });
  return names;
}

std::optional<TagCode> Snapshot::bayTag(const std::string& bay) const {
  const auto serial = database_->maybe<std::int64_t>(
      "SELECT id FROM bay_tags WHERE bay = ? AND withdrawn = 0", bay);
  if (!serial) return std::nullopt;
  return TagCode{TagKind::bay, *serial};
}

std::optional<std::string> Snapshot::bayOf(TagCode tag) const {
  if (tag.kind != TagKind::bay) return std::nullopt;
  return database_->maybe<std::string>("SELECT bay FROM bay_tags WHERE id = ? AND withdrawn = 0",
                                       tag.serial);
}

std::optional<LeftRack> Snapshot::leftRack(BoardId id) const {
  return readLeftRack(*database_, id);
}

std::vector<Bin> Snapshot::bins() const { return readBins(*database_); }

std::vector<BoardReturn> Snapshot::returns() const { return readReturns(*database_); }

bool Snapshot::tagKnown(TagCode tag) const {
  return tag.kind == TagKind::board &&
         database_->maybe<int>("SELECT 1 FROM tags WHERE serial = ?", tag.serial);
}

std::vector<BoardId> Snapshot::boardsOf(DeliveryId delivery) const {
  std::vector<BoardId> boards;
  database_->each(
      "SELECT id FROM boards WHERE delivery = ? AND parent IS NULL AND withdrawn = 0 ORDER BY id",
      [&](Row& row) { boards.push_back(row.next<BoardId>()); }, delivery);
  return boards;
}

std::optional<CountingRule> Snapshot::ruleOf(const std::string& supplier) const {
  // The rule of `suppliers` follows the deliveries; one whose deliveries are all undone has none.
  return database_->maybe<CountingRule>(
      "SELECT rule FROM suppliers s WHERE name = ? AND EXISTS "
      "(SELECT 1 FROM deliveries d WHERE d.supplier = s.name AND d.withdrawn = 0)",
      supplier);
}

std::vector<DeliveryId> Snapshot::deliveries() const {
  std::vector<DeliveryId> deliveries;
  database_->each("SELECT id FROM deliveries WHERE withdrawn = 0 ORDER BY id",
                  [&](Row& row) { deliveries.push_back(row.next<DeliveryId>()); });
  return deliveries;
}

std::optional<DeliveryDraft> Snapshot::delivery(DeliveryId id) const {
  const Transaction view(*database_, reading);
  return readDelivery(*database_, id);
}

std::vector<Job> Snapshot::jobs() const {
  const Transaction view(*database_, reading);
  return readJobs(*database_, std::nullopt);
}

std::optional<Job> Snapshot::job(JobId id) const {
  if (!id) return std::nullopt;
  const Transaction view(*database_, reading);
  auto jobs = readJobs(*database_, id);
  if (jobs.empty()) return std::nullopt;
  return std::move(jobs.front());
}

std::optional<Job> Snapshot::jobNamed(const std::string& name) const {
  const Transaction view(*database_, reading);
  const auto id =
      database_->maybe<JobId>("SELECT id FROM jobs WHERE name = ? AND withdrawn = 0", name);
  return id ? job(*id) : std::nullopt;
}

std::map<int, std::set<int>> Snapshot::made(JobId job) const {
  std::map<int, std::set<int>> made;
  database_->each(
      "SELECT p.line, p.copy FROM pieces p JOIN cuttings k ON k.id = p.cutting "
      "JOIN plans q ON q.id = k.plan LEFT JOIN entries r ON r.reverses = k.entry "
      "WHERE q.job = ? AND p.kind = 'blank' AND k.entry IS NOT NULL AND r.id IS NULL "
      "AND NOT EXISTS (SELECT 1 FROM spoiled_pieces s WHERE s.cutting = p.cutting "
      "AND s.place = p.place AND s.withdrawn = 0)",
      [&](Row& row) {
        const auto line = row.next<int>();
        made[line].insert(row.next<int>());
      },
      job);
  return made;
}

std::vector<LaidBefore> Snapshot::laid(JobId job) const {
  std::vector<LaidBefore> laid;
  database_->each(
      "SELECT p.line, p.copy, l.kind, l.copy, l.slot, l.section, l.turned, l.gives "
      "FROM layups l JOIN pieces p ON p.cutting = l.cutting AND p.place = l.place "
      "JOIN cuttings k ON k.id = p.cutting JOIN plans q ON q.id = k.plan "
      "LEFT JOIN entries r ON r.reverses = k.entry "
      "WHERE q.job = ? AND k.entry IS NOT NULL AND r.id IS NULL "
      "AND NOT EXISTS (SELECT 1 FROM spoiled_pieces s WHERE s.cutting = p.cutting "
      "AND s.place = p.place AND s.withdrawn = 0) "
      "ORDER BY k.id, l.place, l.number",
      [&](Row& row) {
        LaidBefore& l = laid.emplace_back();
        row >> l.line >> l.layup.piece >> l.layup.kind >> l.layup.copy >> l.layup.slot >>
            l.layup.section >> l.layup.turned >> l.layup.gives;
      },
      job);
  return laid;
}

std::optional<StoredPlan> Snapshot::plan(PlanId id) const {
  const Transaction view(*database_, reading);
  return readPlan(*database_, id);
}

namespace {

/// Plans that stand, of whatever the job asked, and the entries that kept them.
std::vector<std::pair<PlanId, EntryId>> keptPlans(Database& database, JobId job) {
  std::vector<std::pair<PlanId, EntryId>> kept;
  database.each(
      "SELECT id, entry FROM plans WHERE job = ? AND withdrawn = 0 ORDER BY id",
      [&](Row& row) {
        const auto id = row.next<PlanId>();
        kept.emplace_back(id, row.next<EntryId>());
      },
      job);
  return kept;
}

/// Those of what the job asks now.
std::vector<PlanId> standingPlans(Database& database, JobId job) {
  std::vector<PlanId> plans;
  for (const auto& [id, entry] : keptPlans(database, job))
    if (asksAsAfter(database, job, entry)) plans.push_back(id);
  return plans;
}

}  // namespace

std::optional<StoredPlan> Snapshot::newestPlan(JobId job) const {
  const Transaction view(*database_, reading);
  const std::vector<PlanId> known = standingPlans(*database_, job);
  return known.empty() ? std::nullopt : readPlan(*database_, known.back());
}

std::vector<PlanId> Snapshot::plans(JobId job) const {
  const Transaction view(*database_, reading);
  return standingPlans(*database_, job);
}

std::optional<std::pair<StoredPlan, Job>> Snapshot::lastPlan(JobId id) const {
  const Transaction view(*database_, reading);
  const std::vector<std::pair<PlanId, EntryId>> kept = keptPlans(*database_, id);
  if (kept.empty()) return std::nullopt;
  std::optional<StoredPlan> last = readPlan(*database_, kept.back().first);
  std::vector<Job> jobs = readJobs(*database_, id);
  if (!last || jobs.empty()) return std::nullopt;
  layAsAfter(*database_, jobs.front(), kept.back().second);
  return std::pair(std::move(*last), std::move(jobs.front()));
}

ShopProfile Snapshot::shop() const {
  const Transaction view(*database_, reading);
  return readProfile(*database_, newestProfile(*database_)).value();
}

std::optional<ShopProfile> Snapshot::profile(ProfileId id) const {
  return readProfile(*database_, id);
}

std::vector<std::string> Snapshot::species() const {
  std::vector<std::string> names;
  database_->each("SELECT name FROM species ORDER BY name",
                  [&](Row& row) { names.push_back(row.next<std::string>()); });
  return names;
}

std::vector<SetAside> Snapshot::setAside() const { return readSetAside(*database_); }
std::vector<ReplacementPrice> Snapshot::prices() const { return readPrices(*database_); }

std::vector<JobLine> Snapshot::jobLines(JobId job) const {
  const Transaction view(*database_, reading);
  return readJobLines(*database_, job);
}

std::vector<Quote> Snapshot::quotes(JobId job) const { return readQuotes(*database_, job); }

std::vector<Species> Snapshot::ownSpecies() const { return readOwnSpecies(*database_); }

std::vector<LabelPaper> Snapshot::labelPapers() const { return readLabelPapers(*database_); }

std::vector<PrinterAlignment> Snapshot::printers() const { return readPrinters(*database_); }

std::vector<Photo> Snapshot::photos(BoardId board) const { return readPhotos(*database_, board); }

std::optional<Photo> Snapshot::photo(PhotoId id) const { return readPhoto(*database_, id); }

std::string Snapshot::photoBytes(PhotoId id) const { return readPhotoBytes(*database_, id); }

PhotoId Snapshot::photoOfFile(const std::string& sha256) const {
  return store::photoOfFile(*database_, sha256);
}

std::vector<DefectKind> Snapshot::defectKinds() const {
  std::vector<DefectKind> kinds;
  database_->each("SELECT name, letter, sound FROM defect_kinds ORDER BY rank", [&](Row& row) {
    DefectKind& kind = kinds.emplace_back();
    kind.name = row.next<std::string>();
    const auto letter = row.next<std::string>();
    kind.letter = letter.empty() ? '\0' : letter.front();
    row >> kind.sound;
  });
  return kinds;
}

std::vector<EntryLine> Snapshot::entries(int newest) const {
  return readEntries(*database_, newest);
}

std::optional<EntryLine> Snapshot::entry(EntryId id) const { return readEntry(*database_, id); }

std::vector<LedgerSum> Snapshot::sawnSums(std::optional<JobId> job) const {
  return readSawnSums(*database_, job);
}

LedgerSum Snapshot::usedByHand(std::optional<JobId> job) const {
  const std::int64_t only = job ? job->value : 0;
  LedgerSum sum{AccountKind::byHand, {}, {}};
  database_->each(
      "SELECT CAST(coalesce(sum(m.volume), 0) AS BIGINT), CAST(coalesce(sum(m.cost), 0) AS BIGINT) "
      "FROM moves m JOIN accounts s ON s.id = m.source JOIN accounts t ON t.id = m.target "
      "JOIN entries e ON e.id = m.entry LEFT JOIN entries r ON r.reverses = m.entry "
      "WHERE s.kind = 'board' AND t.kind = 'by hand' AND r.id IS NULL AND (e.job = ? OR ? = 0)",
      [&](Row& row) { row >> sum.volume >> sum.cost; }, only, only);
  return sum;
}

std::map<CuttingId, std::vector<LedgerSum>> Snapshot::cuttingSums() const {
  return readCuttingSums(*database_);
}

std::vector<Move> Snapshot::moves(EntryId entry) const { return readMoves(*database_, entry); }

std::map<BoardId, Balance> Snapshot::balancesAt(EntryId until) const {
  const Transaction view(*database_, reading);
  return readBalances(*database_, until);
}

std::optional<EntryId> Snapshot::cameIn(BoardId board) const {
  return database_->maybe<EntryId>(
      "SELECT min(m.entry) FROM moves m JOIN accounts a ON a.id = m.target WHERE a.board = ?",
      board);
}

std::vector<BoardId> Snapshot::childrenOf(BoardId board) const {
  std::vector<BoardId> children;
  database_->each(
      "SELECT id FROM boards WHERE parent = ? AND withdrawn = 0 ORDER BY id",
      [&](Row& row) { children.push_back(row.next<BoardId>()); }, board);
  return children;
}

std::optional<Leaving> Snapshot::leaving(BoardId board) const {
  return readLeaving(*database_, board);
}

std::vector<DoneCutting> Snapshot::doneCuttings(std::optional<JobId> job) const {
  const Transaction view(*database_, reading);
  return readDone(*database_, job);
}

std::vector<SpoiledPiece> Snapshot::spoiled(std::optional<JobId> job) const {
  return readSpoiled(*database_, job);
}

}  // namespace flitch::store
