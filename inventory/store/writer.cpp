#include "inventory/store/writer.h"

#include <QJsonDocument>
#include <algorithm>

#include "inventory/store/board_rows.h"
#include "inventory/store/change.h"
#include "inventory/store/delivery_rows.h"
#include "inventory/store/job_rows.h"
#include "inventory/store/ledger_rows.h"
#include "inventory/store/paper_rows.h"
#include "inventory/store/photo_rows.h"
#include "inventory/store/plan_rows.h"
#include "inventory/store/price_rows.h"
#include "inventory/store/species_rows.h"
#include "inventory/store/stock_rows.h"

namespace flitch::store {

namespace {

std::optional<std::string> compact(const std::optional<QJsonObject>& object) {
  if (!object) return std::nullopt;
  return QJsonDocument(*object).toJson(QJsonDocument::Compact).toStdString();
}

QJsonObject tagRow(BoardId board, std::int64_t replacedBy = 0) {
  QJsonObject row{{"board", board ? QJsonValue(qint64{board.value}) : QJsonValue()}};
  if (replacedBy != 0) row["replaced_by"] = qint64{replacedBy};
  return row;
}

Refusal tagTaken(TagCode tag, const std::string& why) {
  return {"tag-taken", {"", text(tag) + why, text(tag), "a tag that is on no board"}};
}

}  // namespace

QJsonObject holdRow(JobId job, PlanId plan) {
  return {{"job", qint64{job.value}}, {"plan", qint64{plan.value}}};
}

void Writer::Inside::note(const char* record, std::int64_t id,
                          const std::optional<QJsonObject>& before,
                          const std::optional<QJsonObject>& after) {
  database.run(
      "INSERT INTO edits (entry, line, record, id, before, after) VALUES (?, ?, ?, ?, ?, ?)", entry,
      ++edits, std::string(record), id, compact(before), compact(after));
}

void Writer::Inside::hang(TagCode tag, BoardId board) {
  bool known = false;
  database.each(
      "SELECT board, replaced_by FROM tags WHERE serial = ?",
      [&](Row& row) {
        known = true;
        if (row.next<BoardId>()) throw tagTaken(tag, " hangs on another board.");
        if (row.next<std::optional<std::int64_t>>()) throw tagTaken(tag, " was replaced.");
      },
      tag.serial);
  if (known) {
    database.run("UPDATE tags SET board = ? WHERE serial = ?", board, tag.serial);
  } else {
    database.run("INSERT INTO tags (serial, board, reserved_in) VALUES (?, ?, ?)", tag.serial,
                 board, entry);
  }
  note("tags", tag.serial, known ? std::optional(tagRow({})) : std::nullopt, tagRow(board));
}

void Writer::Inside::finish() {
  if (!event.job && jobsAdded.size() == 1) {
    database.run("UPDATE entries SET job = ? WHERE id = ?", jobsAdded.front(), entry);
  }
  insertMoves(database, entry, moves, done);
  seal(database, entry);
}

EntryId Writer::entry() const { return inside_->entry; }
const Snapshot& Writer::now() const { return inside_->now; }

DeliveryId Writer::addDelivery(const DeliveryDraft& draft) {
  const DeliveryId id = insertDelivery(inside_->database, draft, inside_->entry);
  inside_->note("deliveries", id.value, std::nullopt, QJsonObject());
  return id;
}

BoardId Writer::addBoard(const Board& board, Half half) {
  Database& database = inside_->database;
  Board added = board;
  added.id = BoardId{nextNumber(database, "board")};
  insertBoard(database, added, half, inside_->entry);
  inside_->note("boards", added.id.value, std::nullopt, QJsonObject());
  if (!board.tag) return added.id;

  inside_->hang(*board.tag, added.id);
  return added.id;
}

void Writer::updateBoard(const Board& board) {
  Database& database = inside_->database;
  const auto current = readBoard(database, board.id);
  if (!current) throw std::logic_error("an update of a board that is not in the book");
  if (current->version != board.version) throw Stale(nameOf(database, board.id));
  const bool newHere = current->version == inside_->entry;
  const bool comesBack = std::any_of(
      inside_->moves.begin(), inside_->moves.end(),
      [&](const Move& move) { return move.targetBoard == board.id && move.volume.value > 0; });
  if (!newHere && !comesBack && !current->onRack()) {
    const std::string name = nameOf(database, board.id);
    throw Refusal("not-on-rack",
                  {"", name + " is not on the rack any more.", name, "a board on the rack"});
  }
  const BoardFields before{
      *current, database.value<CubicMillimetres>("SELECT coalesce(remeasured_volume, whole_volume) "
                                                 "FROM accounts WHERE board = ?",
                                                 board.id)};
  BoardFields after{board, before.whole};
  after.board.withdrawn = current->withdrawn;
  if (board.outline != current->outline || board.thickness != current->thickness) {
    after.whole = volumeOf(board);
  }
  QJsonObject from = json(before);
  QJsonObject to = json(after);
  for (const QString& key : from.keys()) {
    if (from[key] != to[key]) continue;
    from.remove(key);
    to.remove(key);
  }
  if (to.isEmpty()) return;
  updateBoardRows(database, after, inside_->entry);
  inside_->note("boards", board.id.value, from, to);
  if (after.whole != before.whole && current->onRack()) {
    post({AccountKind::board,
          board.id,
          AccountKind::remeasured,
          {},
          current->wood,
          current->cost,
          -1,
          {}});
    post({AccountKind::remeasured,
          {},
          AccountKind::board,
          board.id,
          after.whole,
          current->cost,
          -1,
          {}});
  }
}

std::vector<TagCode> Writer::reserveTags(int count) {
  std::vector<TagCode> tags;
  tags.reserve(static_cast<std::size_t>(std::max(count, 0)));
  for (int i = 0; i < count; ++i) tags.push_back(nextTag());
  return tags;
}

TagCode Writer::nextTag() {
  Database& database = inside_->database;
  auto last = database.value<std::int64_t>("SELECT last FROM counters WHERE name = 'tag'");
  // A serial may be on a board already where somebody stapled a tag of another roll.
  do {
    last = nextIssuable(TagKind::board, last);
  } while (database.maybe<int>("SELECT 1 FROM tags WHERE serial = ?", last));
  database.run("UPDATE counters SET last = ? WHERE name = 'tag'", last);
  database.run("INSERT INTO tags (serial, reserved_in) VALUES (?, ?)", last, inside_->entry);
  inside_->note("tags", last, std::nullopt, tagRow({}));
  return {TagKind::board, last};
}

TagCode Writer::replaceTag(BoardId board, std::optional<TagCode> tag) {
  Database& database = inside_->database;
  const auto worn = database.maybe<std::int64_t>("SELECT serial FROM tags WHERE board = ?", board);
  // Off the board first, named last: an undo goes the other way, and a board has one tag.
  if (worn) {
    database.run("UPDATE tags SET board = NULL WHERE serial = ?", *worn);
    inside_->note("tags", *worn, tagRow(board), tagRow({}));
  }
  const TagCode given = tag ? *tag : nextTag();
  inside_->hang(given, board);
  if (worn) {
    database.run("UPDATE tags SET replaced_by = ? WHERE serial = ?", given.serial, *worn);
    inside_->note("tags", *worn, tagRow({}), tagRow({}, given.serial));
  }
  return given;
}

void Writer::passTag(BoardId from, BoardId to) {
  Database& database = inside_->database;
  const auto worn = database.maybe<std::int64_t>("SELECT serial FROM tags WHERE board = ?", from);
  if (!worn) return;
  const std::int64_t id = nextNumber(database, "tag passed");
  database.run("INSERT INTO tags_passed (id, board, serial, version) VALUES (?, ?, ?, ?)", id, from,
               *worn, inside_->entry);
  inside_->note("tags_passed", id, std::nullopt, QJsonObject());
  database.run("UPDATE tags SET board = ? WHERE serial = ?", to, *worn);
  inside_->note("tags", *worn, tagRow(from), tagRow(to));
}

TagCode Writer::tagBay(const std::string& bay) {
  if (const auto has = inside_->now.bayTag(bay)) {
    throw Refusal("bay-has-tag", {"", "Bay " + bay + " has the tag " + text(*has) + ".", bay, ""});
  }
  const std::int64_t serial = insertBayTag(inside_->database, bay, inside_->entry);
  inside_->note("bay_tags", serial, std::nullopt, QJsonObject());
  return {TagKind::bay, serial};
}

ReturnId Writer::addReturn(BoardId board, const std::string& reason, Money expected) {
  const ReturnId id = insertReturn(inside_->database, board, reason, expected, inside_->entry);
  inside_->note("returns", id.value, std::nullopt, QJsonObject());
  return id;
}

void Writer::addCredit(ReturnId returned, Money amount, const std::string& receivedOn) {
  const std::int64_t id =
      insertCredit(inside_->database, returned, amount, receivedOn, inside_->entry);
  inside_->note("credits", id, std::nullopt, QJsonObject());
}

void Writer::addCount(const BayCount& count) {
  const std::int64_t id = insertCount(inside_->database, count, inside_->entry);
  inside_->note("bay_counts", id, std::nullopt, QJsonObject());
}

JobId Writer::addJob(const Job& job) {
  Database& database = inside_->database;
  if (database.maybe<int>("SELECT 1 FROM jobs WHERE name = ? AND withdrawn = 0", job.name)) {
    throw Refusal("name-taken", {"", "There is a job " + job.name + " already.", job.name,
                                 "a name no other job has"});
  }
  Job added = job;
  added.id = JobId{nextNumber(database, "job")};
  insertJob(database, added, inside_->entry);
  inside_->note("jobs", added.id.value, std::nullopt, QJsonObject());
  inside_->jobsAdded.push_back(added.id);
  return added.id;
}

void Writer::changeJob(const Job& job) {
  Database& database = inside_->database;
  const std::vector<Job> found = readJobs(database, job.id);
  if (found.empty()) throw std::logic_error("a change of a job that is not in the book");
  if (found[0].version != job.version) throw Stale(job.name);
  updateJobRows(database, job, inside_->entry);
  inside_->note("jobs", job.id.value, asks(found[0]), asks(job));
}

ProfileId Writer::addProfile(const ShopProfile& shop) {
  const ProfileId id = insertProfile(inside_->database, shop, inside_->entry);
  inside_->note("profiles", id.value, std::nullopt, QJsonObject());
  return id;
}

void Writer::addSpecies(const Species& species) {
  const std::int64_t id = insertOwnSpecies(inside_->database, species, inside_->entry);
  inside_->note("own_species", id, std::nullopt, QJsonObject());
}

void Writer::addLabelPaper(const LabelPaper& paper) {
  const std::int64_t id = insertLabelPaper(inside_->database, paper, inside_->entry);
  inside_->note("label_papers", id, std::nullopt, QJsonObject());
}

void Writer::setPrinter(const PrinterAlignment& printer) {
  const std::int64_t id = insertPrinter(inside_->database, printer, inside_->entry);
  inside_->note("printers", id, std::nullopt, QJsonObject());
}

PhotoId Writer::addPhoto(const Photo& photo, const std::string& jpeg) {
  const PhotoId id = insertPhoto(inside_->database, photo, jpeg, inside_->entry);
  inside_->note("photos", id.value, std::nullopt, QJsonObject());
  return id;
}

void Writer::placePhoto(PhotoId photo, Face face, const PhotoCorners& corners) {
  const std::int64_t id = insertCorners(inside_->database, photo, face, corners, inside_->entry);
  inside_->note("photo_corners", id, std::nullopt, QJsonObject());
}

void Writer::addPrice(const ReplacementPrice& price) {
  const std::int64_t id = insertPrice(inside_->database, price, inside_->entry);
  inside_->note("replacement_prices", id, std::nullopt, QJsonObject());
}

void Writer::setAside(const SetAside& wood) {
  const std::int64_t id = insertSetAside(inside_->database, wood, inside_->entry);
  inside_->note("reserved_feet", id, std::nullopt, QJsonObject());
}

void Writer::setJobLines(JobId job, const std::vector<JobLine>& lines) {
  const std::int64_t id = insertJobLines(inside_->database, job, lines, inside_->entry);
  inside_->note("job_bills", id, std::nullopt, QJsonObject());
}

Quote Writer::addQuote(const Quote& quote) {
  const Quote added = insertQuote(inside_->database, quote, inside_->entry);
  inside_->note("quotes", added.id, std::nullopt, QJsonObject());
  return added;
}

PlanId Writer::addPlan(const CutPlan& plan) {
  CutPlan added = plan;
  added.id = PlanId{nextNumber(inside_->database, "plan")};
  insertPlan(inside_->database, added, inside_->entry);
  inside_->note("plans", added.id.value, std::nullopt, QJsonObject());
  return added.id;
}

void Writer::hold(BoardId board, JobId job, PlanId plan) {
  Database& database = inside_->database;
  std::optional<QJsonObject> before;
  database.each(
      "SELECT h.job, h.plan, j.name FROM holds h JOIN jobs j ON j.id = h.job WHERE h.board = ?",
      [&](Row& row) {
        const auto holder = row.next<JobId>();
        before = holdRow(holder, row.next<PlanId>());
        if (holder != job) {
          const std::string name = nameOf(database, board);
          throw Refusal("held", {"", name + " is reserved for " + row.next<std::string>() + ".",
                                 name, "a board that is free"});
        }
      },
      board);
  if (before) database.run("DELETE FROM holds WHERE board = ?", board);
  database.run("INSERT INTO holds (board, job, plan, entry) VALUES (?, ?, ?, ?)", board, job, plan,
               inside_->entry);
  inside_->note("holds", board.value, before, holdRow(job, plan));
}

void Writer::release(BoardId board) {
  std::optional<QJsonObject> before;
  inside_->database.each(
      "SELECT job, plan FROM holds WHERE board = ?",
      [&](Row& row) {
        const auto job = row.next<JobId>();
        before = holdRow(job, row.next<PlanId>());
      },
      board);
  if (!before) return;
  inside_->database.run("DELETE FROM holds WHERE board = ?", board);
  inside_->note("holds", board.value, before, std::nullopt);
}

BinId Writer::addBin(const Bin& bin) {
  for (const Bin& other : inside_->now.bins()) {
    if (other.name != bin.name && other.species != bin.species) continue;
    throw Refusal("bin-taken", {"", "The bin " + other.name + " holds " + other.species + ".",
                                other.name, "another name, and a species without a bin"});
  }
  const BinId id = insertBin(inside_->database, bin, inside_->entry);
  inside_->note("bins", id.value, std::nullopt, QJsonObject());
  return id;
}

CuttingId Writer::addDone(const Cutting& cutting, PlanId plan, const std::map<int, BoardId>& became,
                          const std::map<int, BinId>& binned) {
  Database& database = inside_->database;
  if (const auto sawn = database.maybe<EntryId>(
          "SELECT k.entry FROM cuttings k LEFT JOIN entries r ON r.reverses = k.entry "
          "WHERE k.board = ? AND k.entry IS NOT NULL AND r.id IS NULL",
          cutting.board)) {
    const std::string name = nameOf(database, cutting.board);
    throw Refusal("sawn-already",
                  {"", name + " is sawn already (entry " + std::to_string(sawn->value) + ").", name,
                   "a board on the rack"});
  }
  if (database.value<bool>("SELECT withdrawn FROM plans WHERE id = ?", plan)) {
    throw Refusal("plan-withdrawn", {"", "Plan " + std::to_string(plan.value) + " was undone.",
                                     std::to_string(plan.value), ""});
  }
  const CuttingId id = insertCutting(database, cutting, plan, inside_->entry, became, binned);
  inside_->done.emplace(cutting.board, id);
  return id;
}

void Writer::spoil(CuttingId cutting, const Share& part, const std::string& reason) {
  Database& database = inside_->database;
  if (part.cause != Cause::parts ||
      !database.maybe<int>(
          "SELECT 1 FROM pieces WHERE cutting = ? AND place = ? AND kind = 'blank'", cutting,
          part.piece)) {
    throw std::logic_error("only a blank can be spoiled");
  }
  if (database.maybe<int>(
          "SELECT 1 FROM spoiled_pieces WHERE cutting = ? AND place = ? AND withdrawn = 0", cutting,
          part.piece)) {
    throw Refusal("spoiled-already", {"", "That piece is spoiled already.", "", ""});
  }
  const std::int64_t id = nextNumber(database, "spoiled");
  database.run(
      "INSERT INTO spoiled_pieces (id, cutting, place, reason, version) VALUES (?, ?, ?, ?, ?)", id,
      cutting, part.piece, reason, inside_->entry);
  inside_->note("spoiled_pieces", id, std::nullopt, QJsonObject());
  post({AccountKind::parts, {}, AccountKind::lost, {}, part.volume, part.cost, part.piece, {}});
}

void Writer::post(const Move& move) {
  if (move.volume.value < 0 || move.cost < Money()) {
    throw std::logic_error("a move below zero: turn source and target round");
  }
  inside_->moves.push_back(move);
}

}  // namespace flitch::store
