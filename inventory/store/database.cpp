#include "inventory/store/database.h"

#include <QSqlError>
#include <QUrl>
#include <atomic>

namespace flitch::store {

namespace {

/// The name of the rule in the engine's words: SQLite says "UNIQUE constraint failed:
/// entries.reverses" or a trigger's own word, PostgreSQL quotes a constraint's name.
std::string ruleNamed(const QString& text) {
  const QString first = text.section(QLatin1Char('\n'), 0, 0);
  if (const auto quote = first.lastIndexOf(QLatin1String("constraint \"")); quote >= 0) {
    return first.mid(quote + 12).section(QLatin1Char('"'), 0, 0).toStdString();
  }
  if (const auto colon = first.lastIndexOf(QLatin1String("failed: ")); colon >= 0) {
    return first.mid(colon + 8).trimmed().toStdString();
  }
  for (const char* word : {"past_changed", "seal_without_entry"}) {
    if (first.contains(QLatin1String(word))) return word;
  }
  return {};
}

/// Native codes: SQLite's (extended ones hold the primary in the low byte) and SQLSTATE.
Trouble troubleOf(Engine engine, const QString& native) {
  if (engine == Engine::postgresql) {
    if (native.startsWith(QLatin1String("23")) || native == QLatin1String("P0001")) {
      return Trouble::rule;
    }
    if (native == QLatin1String("55P03") || native == QLatin1String("40001")) return Trouble::busy;
    if (native == QLatin1String("25006")) return Trouble::readOnly;
    return native == QLatin1String("53100") ? Trouble::full : Trouble::other;
  }
  switch (native.toInt()) {
    case 778:                         // SQLITE_IOERR_WRITE: a file may not grow
    case 4874: return Trouble::full;  // SQLITE_IOERR_SHMSIZE: no room beside the book
    default: break;
  }
  switch (native.toInt() & 0xff) {
    case 5:                            // SQLITE_BUSY
    case 6: return Trouble::busy;      // SQLITE_LOCKED
    case 8: return Trouble::readOnly;  // SQLITE_READONLY
    case 11:                           // SQLITE_CORRUPT
    case 26: return Trouble::damaged;  // SQLITE_NOTADB
    case 13: return Trouble::full;     // SQLITE_FULL
    case 19: return Trouble::rule;     // SQLITE_CONSTRAINT
    default: return Trouble::other;
  }
}

std::string sentenceOf(Trouble trouble) {
  switch (trouble) {
    case Trouble::rule: return "The book refuses this.";
    case Trouble::busy: return "Another program is writing in the book.";
    case Trouble::readOnly: return "The book may not be written.";
    case Trouble::damaged: return "The book is damaged.";
    case Trouble::full: return "The disk is full or cannot be written.";
    case Trouble::other: break;
  }
  return "The book could not be read or written.";
}

}  // namespace

StoreError::StoreError(const std::string& sentence, std::string detail)
    : std::runtime_error(sentence), detail_(std::move(detail)) {}

DatabaseError::DatabaseError(Trouble trouble, std::string rule, const std::string& sentence,
                             std::string detail)
    : StoreError(sentence, std::move(detail)), trouble_(trouble), rule_(std::move(rule)) {}

Database::Database(Engine engine) : engine_(engine) {
  static std::atomic<int> opened{0};
  name_ = QStringLiteral("book-%1").arg(++opened);
  connection_ = QSqlDatabase::addDatabase(
      engine == Engine::sqlite ? QStringLiteral("QSQLITE") : QStringLiteral("QPSQL"), name_);
}

Database::~Database() {
  // removeDatabase complains while any copy or query of the connection lives.
  prepared_.clear();
  connection_.close();
  connection_ = QSqlDatabase();
  QSqlDatabase::removeDatabase(name_);
}

void Database::open(const std::string& what) {
  if (!connection_.open()) fail(connection_.lastError(), what);
}

std::shared_ptr<Database> Database::sqlite(const std::string& path, Mode mode) {
  std::shared_ptr<Database> database(new Database(Engine::sqlite));
  QString name = QString::fromStdString(path);
  if (mode == Mode::readUnchanging) {
    name = QUrl::fromLocalFile(name).toString(QUrl::FullyEncoded) + QStringLiteral("?immutable=1");
    database->connection_.setConnectOptions(
        QStringLiteral("QSQLITE_OPEN_URI;QSQLITE_OPEN_READONLY"));
  } else if (mode == Mode::read) {
    database->connection_.setConnectOptions(QStringLiteral("QSQLITE_OPEN_READONLY"));
  }
  database->connection_.setDatabaseName(name);
  database->open("opening " + path);
  database->direct("PRAGMA foreign_keys = ON");
  if (mode == Mode::write || mode == Mode::create) database->direct("PRAGMA synchronous = FULL");
  return database;
}

std::shared_ptr<Database> Database::postgresql(const std::string& socketFolder,
                                               const std::string& name, const std::string& user) {
  std::shared_ptr<Database> database(new Database(Engine::postgresql));
  database->connection_.setHostName(QString::fromStdString(socketFolder));
  database->connection_.setDatabaseName(QString::fromStdString(name));
  database->connection_.setUserName(QString::fromStdString(user));
  // sum() of whole numbers is NUMERIC there, which would come as a double.
  database->connection_.setNumericalPrecisionPolicy(QSql::HighPrecision);
  database->open("connecting to " + name);
  return database;
}

QSqlQuery& Database::prepared(std::string_view sql) {
  const std::string key(sql);
  if (const auto found = prepared_.find(key); found != prepared_.end()) return found->second;
  QSqlQuery query(connection_);
  query.setForwardOnly(true);
  if (!query.prepare(QString::fromUtf8(sql.data(), static_cast<qsizetype>(sql.size())))) {
    fail(query.lastError(), sql);
  }
  return prepared_.emplace(key, std::move(query)).first->second;
}

void Database::fail(const QSqlError& error, std::string_view sql) const {
  const Trouble trouble = troubleOf(engine_, error.nativeErrorCode());
  throw DatabaseError(trouble, ruleNamed(error.databaseText()), sentenceOf(trouble),
                      error.databaseText().toStdString() + " (" +
                          error.nativeErrorCode().toStdString() + ") in: " + std::string(sql));
}

void Database::direct(std::string_view sql) {
  QSqlQuery query(connection_);
  if (!query.exec(QString::fromUtf8(sql.data(), static_cast<qsizetype>(sql.size())))) {
    fail(query.lastError(), sql);
  }
}

Database::Running::Running(Database& database, std::string_view sql,
                           const std::vector<QVariant>& args)
    : database_(database), sql_(sql), query_(database.prepared(sql)) {
  for (std::size_t i = 0; i < args.size(); ++i) query_.bindValue(static_cast<int>(i), args[i]);
  if (!query_.exec()) {
    const QSqlError error = query_.lastError();
    query_.finish();
    database_.fail(error, sql);
  }
}

bool Database::Running::next() {
  if (query_.next()) return true;
  if (query_.lastError().isValid()) database_.fail(query_.lastError(), sql_);
  return false;
}

Transaction::Transaction(Database& database, Kind kind) : database_(database) {
  if (database.inTransaction_) {
    if (kind == Kind::write) throw std::logic_error("a change within a change");
    return;
  }
  const bool immediate = kind == Kind::write && database.engine_ == Engine::sqlite;
  database.direct(immediate ? "BEGIN IMMEDIATE" : "BEGIN");
  database.inTransaction_ = true;
  open_ = true;
}

Transaction::~Transaction() {
  if (!open_) return;
  database_.inTransaction_ = false;
  // Rolling back fails only where the engine has done so itself.
  QSqlQuery(database_.connection_).exec(QStringLiteral("ROLLBACK"));
}

void Transaction::commit() {
  if (!open_) return;
  database_.direct("COMMIT");
  database_.inTransaction_ = false;
  open_ = false;
}

}  // namespace flitch::store
