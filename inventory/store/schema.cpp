#include "inventory/store/schema.h"

#include <QCryptographicHash>
#include <QDateTime>
#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QRegularExpression>
#include <QStringList>

// Outside any namespace, as Qt asks; it also keeps the linker from dropping the resources of a
// static library.
static void loadSteps() { Q_INIT_RESOURCE(steps); }

namespace flitch::store {

namespace {

constexpr int newestStep = 12;

std::string resource(const QString& name) {
  QFile file(QStringLiteral(":/store/steps/") + name);
  if (!file.open(QIODevice::ReadOnly)) {
    throw std::logic_error("no resource " + name.toStdString());
  }
  return file.readAll().toStdString();
}

QString fileStamp() {
  return QDateTime::currentDateTimeUtc().toString(QStringLiteral("yyyyMMdd'T'HHmmsszzz"));
}

}  // namespace

std::vector<Step> steps(Engine engine) {
  loadSteps();
  const QString suffix =
      engine == Engine::sqlite ? QStringLiteral("sqlite") : QStringLiteral("postgresql");
  std::vector<Step> result;
  for (int number = 1; number <= newestStep; ++number) {
    const QString name = QStringLiteral("%1").arg(number, 4, 10, QLatin1Char('0'));
    result.push_back({number, resource(name + QStringLiteral(".sql")),
                      resource(name + QLatin1Char('.') + suffix + QStringLiteral(".sql"))});
  }
  return result;
}

std::string sha256(const Step& step) {
  QCryptographicHash hash(QCryptographicHash::Sha256);
  hash.addData(QByteArray::fromStdString(step.common));
  hash.addData(QByteArray::fromStdString(step.engine));
  return hash.result().toHex().toStdString();
}

std::vector<std::string> statements(const std::string& script, Engine engine) {
  QStringList lines;
  for (const QString& line : QString::fromStdString(script).split(QLatin1Char('\n'))) {
    if (!line.startsWith(QLatin1String("--"))) lines.append(line);
  }
  QString text = lines.join(QLatin1Char('\n'));
  if (engine == Engine::postgresql) {
    // Its INTEGER has 32 bits; how a table is kept is SQLite's affair.
    text.replace(QRegularExpression(QStringLiteral("\\bINTEGER\\b")), QStringLiteral("BIGINT"));
    text.replace(QRegularExpression(QStringLiteral("\\bREAL\\b")),
                 QStringLiteral("DOUBLE PRECISION"));
    text.replace(QRegularExpression(QStringLiteral("\\bBLOB\\b")), QStringLiteral("BYTEA"));
    text.replace(QStringLiteral(") STRICT;"), QStringLiteral(");"));
    text.replace(QStringLiteral(") STRICT, WITHOUT ROWID;"), QStringLiteral(");"));
  }
  std::vector<std::string> result;
  for (const QString& part : text.split(QStringLiteral("\n\n"), Qt::SkipEmptyParts)) {
    if (const QString one = part.trimmed(); !one.isEmpty()) result.push_back(one.toStdString());
  }
  return result;
}

int schemaOf(Database& database) {
  const bool begun =
      database.engine() == Engine::sqlite
          ? database.value<bool>("SELECT count(*) FROM sqlite_master WHERE name = 'schema_steps'")
          : database.value<bool>(
                "SELECT count(*) FROM information_schema.tables WHERE table_name = 'schema_steps'");
  if (!begun) return 0;
  return database.value<int>("SELECT coalesce(max(number), 0) FROM schema_steps");
}

void runSteps(Database& database, const std::vector<Step>& steps, const std::string& program) {
  const bool sqlite = database.engine() == Engine::sqlite;
  const int had = schemaOf(database);
  if (sqlite) database.direct("PRAGMA foreign_keys = OFF");
  for (const Step& step : steps) {
    if (step.number <= had) continue;
    Transaction transaction(database, Transaction::Kind::write);
    for (const std::string& script : {step.common, step.engine}) {
      for (const std::string& statement : statements(script, database.engine())) {
        database.direct(statement);
      }
    }
    database.run(
        "INSERT INTO schema_steps (number, sha256, applied_at, program) VALUES (?, ?, ?, ?)",
        step.number, sha256(step), now(), program);
    if (sqlite) {
      if (database.maybe<std::string>("PRAGMA foreign_key_check")) {
        throw StoreError("Step " + std::to_string(step.number) + " would leave the book in pieces.",
                         "foreign_key_check");
      }
      database.direct("PRAGMA user_version = " + std::to_string(step.number));
    }
    transaction.commit();
  }
  if (sqlite) database.direct("PRAGMA foreign_keys = ON");
}

void bringUpToDate(Database& database, const std::string& path, const std::vector<Step>& steps,
                   const std::string& program) {
  const int had = schemaOf(database);
  if (steps.empty() || had >= steps.back().number) return;
  const QFileInfo book(QString::fromStdString(path));
  const QString stem = book.completeBaseName() + QStringLiteral(".before-step-");
  const QString copy =
      book.dir().filePath(QStringLiteral("%1%2-%3.flitch").arg(stem).arg(had + 1).arg(fileStamp()));
  copyVerified(database, copy.toStdString());
  const QStringList copies =
      book.dir().entryList({stem + QStringLiteral("*.flitch")}, QDir::Files, QDir::Time);
  for (qsizetype i = backupsKept; i < copies.size(); ++i) book.dir().remove(copies[i]);
  runSteps(database, steps, program);
  // So that the header of the file itself, too, tells of the step.
  (void)database.rows<int>("PRAGMA wal_checkpoint(TRUNCATE)");
}

void copyVerified(Database& database, const std::string& target) {
  const QString name = QString::fromStdString(target);
  if (QFileInfo::exists(name)) {
    throw Refusal("file-exists", {"", "There is a file " + target + " already.", target, ""});
  }
  const QString unproved = name + QStringLiteral(".unproved");
  QFile::remove(unproved);
  try {
    database.run("VACUUM INTO ?", unproved.toStdString());
    const auto copy = Database::sqlite(unproved.toStdString(), Database::Mode::write);
    if (const auto verdict = copy->value<std::string>("PRAGMA quick_check"); verdict != "ok") {
      throw StoreError("The copy of the book came out damaged.", verdict);
    }
    (void)copy->value<std::string>("PRAGMA journal_mode = WAL");
  } catch (...) {
    QFile::remove(unproved);
    throw;
  }
  if (!QFile::rename(unproved, name)) {
    QFile::remove(unproved);
    throw StoreError("The copy of the book could not be named " + target + ".", "rename");
  }
}

FileHeader inspect(const std::string& path) {
  const QFileInfo info(QString::fromStdString(path));
  if (!info.exists()) return {};
  if (!info.isFile()) return {FileHeader::Kind::notAFile, 0};
  QFile file(info.filePath());
  if (!file.open(QIODevice::ReadOnly)) return {FileHeader::Kind::unreadable, 0};
  const QByteArray head = file.read(100);
  // https://www.sqlite.org/fileformat.html, section 1.3: user version at 60, application id at 68,
  // big-endian.
  const auto number = [&](qsizetype at) {
    std::int64_t value = 0;
    for (qsizetype i = at; i < at + 4; ++i) value = value * 256 + static_cast<uchar>(head[i]);
    return value;
  };
  if (head.size() < 100 || !head.startsWith(QByteArray("SQLite format 3\0", 16)) ||
      number(68) != applicationId) {
    return {FileHeader::Kind::foreign, 0};
  }
  return {FileHeader::Kind::book, static_cast<int>(number(60))};
}

bool sharedOverNetwork(const std::string& fileSystem) {
  for (const char* kind : {"nfs", "cifs", "smb", "afs", "fuse.sshfs", "ncpfs", "davfs"}) {
    if (fileSystem.starts_with(kind)) return true;
  }
  return false;
}

std::string now() {
  return QDateTime::currentDateTimeUtc().toString(Qt::ISODateWithMs).toStdString();
}

}  // namespace flitch::store
