#include <QJsonDocument>
#include <algorithm>
#include <utility>

#include "inventory/store/board_rows.h"
#include "inventory/store/change.h"
#include "inventory/store/job_rows.h"
#include "inventory/store/ledger_rows.h"

namespace flitch::store {

namespace {

struct Edit {
  std::string record;
  std::int64_t id = 0;
  std::optional<QJsonObject> before, after;
};

std::optional<QJsonObject> parsed(const std::optional<std::string>& text) {
  if (!text) return std::nullopt;
  return QJsonDocument::fromJson(QByteArray::fromStdString(*text)).object();
}

/// Edits of an entry, the last first.
std::vector<Edit> editsOf(Database& database, EntryId entry) {
  std::vector<Edit> edits;
  database.each(
      "SELECT record, id, before, after FROM edits WHERE entry = ? ORDER BY line DESC",
      [&](Row& row) {
        Edit& edit = edits.emplace_back();
        row >> edit.record >> edit.id;
        edit.before = parsed(row.next<std::optional<std::string>>());
        edit.after = parsed(row.next<std::optional<std::string>>());
      },
      entry);
  return edits;
}

[[noreturn]] void refuse(EntryId entry, const std::string& because, const std::string& what) {
  throw Refusal("stands-on-it", {"",
                                 "Entry " + std::to_string(entry.value) +
                                     " cannot be undone: " + because + " (" + what + ").",
                                 what, "undo the later entry first"});
}

/// What stands on a row: a query that yields a word for it, given the row's id.
struct Standing {
  const char* record;
  const char* sql;
  const char* because;
};
constexpr Standing standings[] = {
    {"boards",
     "SELECT 'plan ' || q.id FROM cuttings k JOIN plans q ON q.id = k.plan "
     "WHERE k.board = ? AND q.withdrawn = 0",
     "a plan cuts one of its boards"},
    {"boards", "SELECT j.name FROM holds h JOIN jobs j ON j.id = h.job WHERE h.board = ?",
     "one of its boards is reserved for a job"},
    {"boards", "SELECT file_name FROM photos WHERE board = ? AND withdrawn = 0",
     "there is a photo of one of its boards"},
    {"deliveries", "SELECT 'board ' || id FROM boards WHERE delivery = ? AND withdrawn = 0",
     "its boards are in use"},
    {"returns", "SELECT 'credit ' || id FROM credits WHERE returned = ? AND withdrawn = 0",
     "a credit came for it"},
    {"jobs", "SELECT 'plan ' || id FROM plans WHERE job = ? AND withdrawn = 0",
     "a plan was kept for the job"},
    {"jobs", "SELECT 'board ' || board FROM holds WHERE job = ?",
     "boards are reserved for the job"},
    {"jobs", "SELECT 'entry ' || version FROM job_bills WHERE job = ? AND withdrawn = 0",
     "materials and hours were said of the job"},
    {"jobs",
     "SELECT species FROM reserved_feet r WHERE job = ? AND withdrawn = 0 AND feet > 0 AND id = "
     "(SELECT max(id) FROM reserved_feet n WHERE n.job = r.job AND n.species = r.species AND "
     "n.nominal = r.nominal AND n.nominal_in = r.nominal_in AND n.withdrawn = 0)",
     "wood is set aside for the job"},
    {"jobs", "SELECT number FROM quotes WHERE job = ? AND withdrawn = 0",
     "a quote was given for the job"},
    {"plans",
     "SELECT 'board ' || k.board FROM cuttings k LEFT JOIN entries r ON r.reverses = k.entry "
     "WHERE k.plan = ? AND k.entry IS NOT NULL AND r.id IS NULL",
     "boards of the plan are sawn"},
    {"plans", "SELECT 'board ' || board FROM holds WHERE plan = ?",
     "boards are reserved for the plan"},
    {"spoiled_pieces",
     "SELECT 'plan ' || q.id FROM spoiled_pieces s JOIN cuttings k ON k.id = s.cutting "
     "JOIN plans p ON p.id = k.plan JOIN plans q ON q.job = p.job "
     "WHERE s.id = ? AND q.withdrawn = 0 AND q.entry > s.version",
     "a plan was kept that makes it again"},
    {"photos", "SELECT 'photo ' || photo FROM photo_corners WHERE photo = ? AND withdrawn = 0",
     "the board's corners were set on the photo"},
    {"bins",
     "SELECT b.name FROM bins b JOIN accounts a ON a.bin = b.id WHERE b.id = ? AND a.volume > 0",
     "there is wood in the bin"},
    {"profiles", "SELECT name FROM jobs WHERE profile = ? AND withdrawn = 0",
     "a job uses these settings"},
    {"profiles", "SELECT 'plan ' || id FROM plans WHERE profile = ? AND withdrawn = 0",
     "a plan uses these settings"},
};

void refuseIfWoodWasUsed(Database& database, EntryId entry) {
  std::optional<std::pair<EntryId, BoardId>> later;
  database.each(
      "SELECT m.entry, a.board FROM moves m JOIN accounts a ON a.id IN (m.source, m.target) "
      "JOIN entries e ON e.id = m.entry LEFT JOIN entries r ON r.reverses = m.entry "
      "WHERE m.entry > ? AND e.reverses IS NULL AND r.id IS NULL AND a.board IN ("
      "SELECT b.board FROM moves n JOIN accounts b ON b.id IN (n.source, n.target) "
      "WHERE n.entry = ? AND b.board IS NOT NULL "
      "UNION SELECT id FROM edits WHERE entry = ? AND record = 'boards') ORDER BY m.entry LIMIT 1",
      [&](Row& row) {
        const auto at = row.next<EntryId>();
        later = {at, row.next<BoardId>()};
      },
      entry, entry, entry);
  if (!later) return;
  refuse(entry, "its wood went on in entry " + std::to_string(later->first.value),
         nameOf(database, later->second));
}

void refuseIfPartsWereSpoiled(Database& database, EntryId entry) {
  const auto later = database.maybe<EntryId>(
      "SELECT min(s.version) FROM spoiled_pieces s JOIN cuttings k ON k.id = s.cutting "
      "WHERE k.entry = ? AND s.withdrawn = 0 AND s.version <> ?",
      entry, entry);
  if (!later || !*later) return;
  refuse(entry, "a part of it was spoiled", "entry " + std::to_string(later->value));
}

void refuseIfBinsWereEmptied(Database& database, EntryId entry) {
  const auto emptied = database.maybe<std::string>(
      "SELECT b.name FROM bins b JOIN accounts a ON a.bin = b.id WHERE a.volume < "
      "(SELECT coalesce(sum(m.volume), 0) FROM moves m WHERE m.entry = ? AND m.target = a.id)",
      entry);
  if (emptied) refuse(entry, "what it put into a bin was taken out since", *emptied);
}

/// Turns edits of one entry back, as edits of another.
class Undoing {
 public:
  Undoing(Writer::Inside& inside, EntryId reversed) : inside_(inside), reversed_(reversed) {}

  void undo(const Edit& edit) {
    if (edit.record == "tags") {
      undoTag(edit);
    } else if (edit.record == "holds") {
      undoHold(edit);
    } else {
      const EntryId version = standingVersion(edit);
      if (version != reversed_ && version != inside_.entry) {
        refuse(reversed_, "it was changed in entry " + std::to_string(version.value), whatIs(edit));
      }
      if (edit.before && edit.record == "jobs") {
        undoJob(edit);
      } else if (edit.before) {
        undoBoard(edit);
      } else {
        withdraw(edit);
      }
    }
  }

 private:
  Database& database() { return inside_.database; }

  /// The entry whose change of the record stands: changes undone since are passed over in pairs.
  EntryId standingVersion(const Edit& edit) {
    auto version =
        database().value<EntryId>("SELECT version FROM " + edit.record + " WHERE id = ?", edit.id);
    while (version != inside_.entry) {
      const auto undone = undoneBy(database(), version);
      if (!undone) break;
      version = changeBefore(database(), edit.record, edit.id, *undone);
    }
    return version;
  }

  std::string whatIs(const Edit& edit) {
    if (edit.record == "boards") return nameOf(database(), BoardId{edit.id});
    return edit.record + " " + std::to_string(edit.id);
  }

  void undoTag(const Edit& edit) {
    const BoardId now{edit.after->value(QLatin1String("board")).toInteger()};
    if (database().maybe<BoardId>("SELECT board FROM tags WHERE serial = ?", edit.id) !=
        std::optional(now)) {
      refuse(reversed_, "a tag hangs on another board since",
             text(TagCode{TagKind::board, edit.id}));
    }
    if (edit.before) {
      const std::int64_t replacedBy = edit.before->value(QLatin1String("replaced_by")).toInteger();
      database().run("UPDATE tags SET board = ?, replaced_by = ? WHERE serial = ?",
                     BoardId{edit.before->value(QLatin1String("board")).toInteger()},
                     replacedBy == 0 ? std::nullopt : std::optional(replacedBy), edit.id);
    } else {
      database().run("DELETE FROM tags WHERE serial = ?", edit.id);
    }
    inside_.note("tags", edit.id, edit.after, edit.before);
  }

  void undoHold(const Edit& edit) {
    const BoardId board{edit.id};
    // Held as this entry left it, be it by this entry or by the undo of a later one.
    std::optional<QJsonObject> now;
    database().each(
        "SELECT job, plan FROM holds WHERE board = ?",
        [&](Row& row) {
          const auto job = row.next<JobId>();
          now = holdRow(job, row.next<PlanId>());
        },
        board);
    if (now != edit.after) {
      refuse(reversed_, "its reservation was changed since", nameOf(database(), board));
    }
    database().run("DELETE FROM holds WHERE board = ?", board);
    if (edit.before) {
      database().run("INSERT INTO holds (board, job, plan, entry) VALUES (?, ?, ?, ?)", board,
                     JobId{edit.before->value(QLatin1String("job")).toInteger()},
                     PlanId{edit.before->value(QLatin1String("plan")).toInteger()}, inside_.entry);
    }
    inside_.note("holds", edit.id, edit.after, edit.before);
  }

  void undoBoard(const Edit& edit) {
    const BoardId id{edit.id};
    BoardFields fields{readBoard(database(), id).value(),
                       database().value<CubicMillimetres>(
                           "SELECT whole_volume FROM accounts WHERE board = ?", id)};
    lay(*edit.before, fields);
    updateBoardRows(database(), fields, inside_.entry);
    inside_.note("boards", edit.id, edit.after, edit.before);
  }

  void undoJob(const Edit& edit) {
    const JobId id{edit.id};
    const auto plan = database().maybe<PlanId>(
        "SELECT max(id) FROM plans WHERE job = ? AND withdrawn = 0 AND entry > ?", id, reversed_);
    if (plan && *plan)
      refuse(reversed_, "a plan was kept for the job", "plan " + std::to_string(plan->value));
    Job job = readJobs(database(), id).at(0);
    lay(*edit.before, job);
    updateJobRows(database(), job, inside_.entry);
    inside_.note("jobs", edit.id, edit.after, edit.before);
  }

  void withdraw(const Edit& edit) {
    for (const Standing& standing : standings) {
      if (standing.record != edit.record) continue;
      if (const auto what = database().maybe<std::string>(standing.sql, edit.id)) {
        refuse(reversed_, standing.because, *what);
      }
    }
    database().run("UPDATE " + edit.record + " SET withdrawn = 1, version = ? WHERE id = ?",
                   inside_.entry, edit.id);
    inside_.note(edit.record.c_str(), edit.id, QJsonObject{{"withdrawn", false}},
                 QJsonObject{{"withdrawn", true}});
    if (edit.record == "deliveries") countAsBefore(DeliveryId{edit.id});
  }

  /// The supplier counts again as in their last delivery that stands; without one nothing asks.
  void countAsBefore(DeliveryId undone) {
    database().run(
        "UPDATE suppliers SET rule = coalesce((SELECT d.rule FROM deliveries d WHERE d.supplier = "
        "suppliers.name AND d.withdrawn = 0 ORDER BY d.id DESC LIMIT 1), rule) "
        "WHERE name = (SELECT supplier FROM deliveries WHERE id = ?)",
        undone);
  }

  Writer::Inside& inside_;
  EntryId reversed_;
};

}  // namespace

void Writer::reverse(EntryId entry) {
  Database& database = inside_->database;
  if (inside_->event.reverses != entry) {
    throw std::logic_error("an undo must name the entry it reverses in its event");
  }
  const auto line = readEntry(database, entry);
  const std::string number = std::to_string(entry.value);
  if (!line) throw Refusal("no-entry", {"", "The book has no entry " + number + ".", number, ""});
  if (line->reverses) {
    throw Refusal("is-an-undo",
                  {"", "Entry " + number + " is an undo; do the thing again instead.", number, ""});
  }
  refuseIfWoodWasUsed(database, entry);
  refuseIfPartsWereSpoiled(database, entry);
  refuseIfBinsWereEmptied(database, entry);
  std::vector<Move> moves = readMoves(database, entry);
  std::reverse(moves.begin(), moves.end());
  for (Move& move : moves) {
    std::swap(move.source, move.target);
    std::swap(move.sourceBoard, move.targetBoard);
    post(move);
  }
  Undoing undoing(*inside_, entry);
  for (const Edit& edit : editsOf(database, entry)) undoing.undo(edit);
}

}  // namespace flitch::store
