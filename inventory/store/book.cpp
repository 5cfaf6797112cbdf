#include "inventory/store/book.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QStorageInfo>

#include "inventory/store/change.h"
#include "inventory/store/check.h"
#include "inventory/store/database.h"
#include "inventory/store/job_rows.h"
#include "inventory/store/ledger_rows.h"
#include "inventory/store/schema.h"

namespace flitch::store {

struct Book::Inside {
  std::string path;
  Access access;
  std::shared_ptr<Database> database;
};

namespace {

Refusal refusal(const std::string& code, const std::string& sentence, const std::string& value,
                const std::string& accepted = {}) {
  return {code, Complaint{"", sentence, value, accepted}};
}

constexpr const char* aBook = "a Flitchbook book (*.flitch)";

Refusal readOnly(const std::string& path) {
  return refusal("read-only-book",
                 path + " may not be written: the file or its folder is read-only.", path);
}

/// A rule of the schema that a change broke, in words. The desk looks first and says it better;
/// these stand behind it.
Refusal refusalOf(const DatabaseError& error) {
  struct Broken {
    const char* rule;
    const char* code;
    const char* sentence;
  };
  // SQLite names the column or index, PostgreSQL the constraint.
  static constexpr Broken broken[] = {
      {"board_balance", "unbalanced",
       "A board must give up all of its wood and cost, once, or none: it is used already, or the "
       "figures do not add up."},
      {"entries.reverses", "undone-already", "This entry is undone already."},
      {"entries_reverses_key", "undone-already", "This entry is undone already."},
      {"jobs.name", "name-taken", "There is a job of this name already."},
      {"names_of_jobs", "name-taken", "There is a job of this name already."},
      {"holds.board", "held", "A board is reserved already."},
      {"holds_pkey", "held", "A board is reserved already."},
      {"tags.board", "tag-taken", "A board carries one tag."},
      {"tags.serial", "tag-taken", "This tag is taken."},
      {"only_offcuts_have_a_parent", "not-an-offcut", "Only an offcut comes from another board."},
      {"past_changed", "past-changed", "What the book holds of the past is never changed."},
  };
  for (const Broken& b : broken) {
    if (error.rule() == b.rule) return refusal(b.code, b.sentence, "");
  }
  return refusal("book-refuses", "The book refuses this; nothing was changed.", error.detail());
}

/// Runs `work`; troubles of the engine that a maker can act on become Refusals.
template <class Work>
auto withSentences(const std::string& path, const Work& work) {
  try {
    return work();
  } catch (const DatabaseError& error) {
    switch (error.trouble()) {
      case Trouble::rule: throw refusalOf(error);
      case Trouble::busy:
        throw refusal("book-busy",
                      "Another program is writing in " + path +
                          ". Nothing was changed; try again in a moment.",
                      path);
      case Trouble::readOnly: throw readOnly(path);
      case Trouble::damaged:
        throw refusal("damaged-book",
                      path + " is damaged. Nothing was changed: go back to the newest good copy.",
                      path);
      case Trouble::full:
        throw refusal(
            "disk-full",
            "The disk of " + path +
                " is full or cannot be written. Nothing was changed; make room and try again.",
            path);
      case Trouble::other: throw;
    }
    throw;
  }
}

bool folderWritable(const std::string& path) {
  return QFileInfo(QFileInfo(QString::fromStdString(path)).absolutePath()).isWritable();
}

void refuseNetwork(const std::string& path) {
  const QStorageInfo storage(QFileInfo(QString::fromStdString(path)).absolutePath());
  if (!sharedOverNetwork(storage.fileSystemType().toStdString())) return;
  throw refusal("network-share",
                path + " lies on a network share, where two programs may damage it.", path,
                "a folder on a disk of this computer");
}

void refuseUnlessBook(const std::string& path, int newest) {
  const FileHeader header = inspect(path);
  switch (header.kind) {
    case FileHeader::Kind::missing:
      throw refusal("no-book", "There is no book " + path + ".", path,
                    "a book made by: flitch --book FILE book create");
    case FileHeader::Kind::notAFile:
      throw refusal("not-a-book", path + " is not a file.", path, aBook);
    case FileHeader::Kind::unreadable:
      throw refusal("unreadable-book", path + " may not be read by this user.", path);
    case FileHeader::Kind::foreign:
      throw refusal("not-a-book", path + " is not a Flitchbook book.", path, aBook);
    case FileHeader::Kind::book: break;
  }
  if (header.schema > newest) {
    throw refusal("newer-book",
                  path + " was written by a newer Flitchbook (schema " +
                      std::to_string(header.schema) + ", this program knows " +
                      std::to_string(newest) + "). Nothing was changed; update the program.",
                  path);
  }
}

}  // namespace

Book::Book(std::unique_ptr<Inside> inside) : inside_(std::move(inside)) {}
Book::Book(Book&&) noexcept = default;
Book& Book::operator=(Book&&) noexcept = default;
Book::~Book() = default;

Book Book::create(const std::string& path, const BookFacts& facts) {
  const QString name = QString::fromStdString(path);
  const auto exists = [](const std::string& file) {
    return refusal("book-exists", "There is a file " + file + " already.", file,
                   "a name no file has");
  };
  // The engine would take what another book left beside its file for its own.
  for (const char* suffix : {"", "-journal", "-wal"}) {
    const std::string file = path + suffix;
    const QFileInfo info(QString::fromStdString(file));
    if (info.exists() || info.isSymLink()) throw exists(file);
  }
  if (!QFileInfo(QFileInfo(name).absolutePath()).isDir()) {
    throw refusal("no-folder", "The folder for " + path + " is not there.", path,
                  "a folder that exists");
  }
  if (!folderWritable(path)) {
    throw readOnly(path);
  }
  refuseNetwork(path);
  // Made by us alone, or not at all: what fails below takes away nobody else's file.
  if (QFile file(name); !file.open(QIODevice::NewOnly | QIODevice::WriteOnly)) {
    throw QFileInfo::exists(name) ? exists(path) : readOnly(path);
  }
  try {
    auto database = Database::sqlite(path, Database::Mode::create);
    runSteps(*database, steps(Engine::sqlite), facts.program);
    Transaction transaction(*database, Transaction::Kind::write);
    database->run(
        "INSERT INTO book (id, name, unit, sign, rule, made_at, program) "
        "VALUES (1, ?, ?, ?, ?, ?, ?)",
        facts.name, facts.unit, facts.sign, facts.rule, facts.madeAt.empty() ? now() : facts.madeAt,
        facts.program);
    insertProfile(*database, startingProfile(facts.unit), {});
    // Last: a file left half made by a power cut is not taken for a book.
    database->direct("PRAGMA application_id = " + std::to_string(applicationId));
    transaction.commit();
    (void)database->value<std::string>("PRAGMA journal_mode = WAL");
    return Book(std::make_unique<Inside>(Inside{path, Access::write, std::move(database)}));
  } catch (...) {
    QFile::remove(name);
    throw;
  }
}

Book Book::open(const std::string& path, Access access) {
  const std::vector<Step> shipped = steps(Engine::sqlite);
  refuseUnlessBook(path, shipped.back().number);
  refuseNetwork(path);
  const bool mayWrite =
      QFileInfo(QString::fromStdString(path)).isWritable() && folderWritable(path);
  if (access == Access::write && !mayWrite) {
    throw readOnly(path);
  }
  return withSentences(path, [&] {
    Database::Mode mode = Database::Mode::write;
    if (access == Access::read) {
      // Without leave to write its folder, the log's index cannot be made; without a log nobody
      // writes.
      const bool quiet =
          !folderWritable(path) && !QFileInfo::exists(QString::fromStdString(path + "-wal"));
      mode = quiet ? Database::Mode::readUnchanging : Database::Mode::read;
    }
    auto database = Database::sqlite(path, mode);
    if (const auto verdict = database->value<std::string>("PRAGMA quick_check(1)");
        verdict != "ok") {
      throw DatabaseError(Trouble::damaged, "", "The book is damaged.", verdict);
    }
    if (access == Access::write) {
      (void)database->value<std::string>("PRAGMA journal_mode = WAL");
      bringUpToDate(*database, path, shipped,
                    database->value<std::string>("SELECT program FROM book"));
    } else if (schemaOf(*database) < shipped.back().number) {
      throw refusal("older-book",
                    path + " is of an older Flitchbook; open it for writing once to bring it up.",
                    path);
    }
    return Book(std::make_unique<Inside>(Inside{path, access, std::move(database)}));
  });
}

const std::string& Book::path() const { return inside_->path; }

BookFacts Book::facts() const {
  BookFacts facts;
  inside_->database->each("SELECT name, unit, sign, rule, program, made_at FROM book",
                          [&](Row& row) {
                            row >> facts.name >> facts.unit >> facts.sign >> facts.rule >>
                                facts.program >> facts.madeAt;
                          });
  facts.schema = schemaOf(*inside_->database);
  return facts;
}

Snapshot Book::read() const { return Snapshot(inside_->database); }

EntryId Book::change(const Event& event, const Hand& hand,
                     const std::function<void(Writer&)>& work) {
  if (inside_->access == Access::read) {
    throw refusal("read-only-book", inside_->path + " is open for reading only.", inside_->path);
  }
  return withSentences(inside_->path, [&] {
    Database& database = *inside_->database;
    Transaction transaction(database, Transaction::Kind::write);
    const EntryId entry = openEntry(database, event, hand);
    Writer::Inside inside(inside_->database, event, entry);
    Writer writer(inside);
    work(writer);
    inside.finish();
    transaction.commit();
    return entry;
  });
}

void Book::saveDraft(const std::string& what, const std::string& station, const std::string& body) {
  if (inside_->access == Access::read) {
    throw refusal("read-only-book", inside_->path + " is open for reading only.", inside_->path);
  }
  withSentences(inside_->path, [&] {
    Database& database = *inside_->database;
    Transaction transaction(database, Transaction::Kind::write);
    database.run("DELETE FROM drafts WHERE what = ? AND station = ?", what, station);
    if (!body.empty()) {
      database.run("INSERT INTO drafts (what, station, saved_at, body) VALUES (?, ?, ?, ?)", what,
                   station, now(), body);
    }
    transaction.commit();
  });
}

std::string Book::draft(const std::string& what, const std::string& station) const {
  return withSentences(inside_->path, [&] {
    return inside_->database
        ->maybe<std::string>("SELECT body FROM drafts WHERE what = ? AND station = ?", what,
                             station)
        .value_or("");
  });
}

std::vector<Unsound> Book::check() const {
  return withSentences(inside_->path, [&] { return prove(*inside_->database); });
}

void Book::copyTo(const std::string& path) const {
  withSentences(inside_->path, [&] { copyVerified(*inside_->database, path); });
}

}  // namespace flitch::store
