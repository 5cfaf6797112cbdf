#pragma once
#include <QSqlDatabase>
#include <QSqlError>
#include <QSqlQuery>
#include <QUuid>
#include <string>
#include <vector>

namespace flitch::store::sample {

/// A second connection to a book's file that knows nothing of the program: plain Qt SQL, foreign
/// keys on as any careful tool would have them.
class Behind {
 public:
  explicit Behind(const std::string& path)
      : name_(QUuid::createUuid().toString()),
        database_(QSqlDatabase::addDatabase(QStringLiteral("QSQLITE"), name_)) {
    database_.setDatabaseName(QString::fromStdString(path));
    database_.open();
    run("PRAGMA foreign_keys = ON");
  }
  Behind(const Behind&) = delete;
  Behind& operator=(const Behind&) = delete;
  ~Behind() {
    database_.close();
    database_ = QSqlDatabase();
    QSqlDatabase::removeDatabase(name_);
  }

  /// What the engine says against a statement; empty when it took it.
  std::string run(const std::string& sql) {
    QSqlQuery query(database_);
    return query.exec(QString::fromStdString(sql)) ? std::string()
                                                   : query.lastError().databaseText().toStdString();
  }
  /// What it says against the first statement it refuses; all are rolled back then.
  std::string runAll(const std::vector<std::string>& statements) {
    run("BEGIN IMMEDIATE");
    for (const std::string& sql : statements) {
      if (const std::string error = run(sql); !error.empty()) {
        run("ROLLBACK");
        return error;
      }
    }
    const std::string error = run("COMMIT");
    if (!error.empty()) run("ROLLBACK");
    return error;
  }
  /// The first column of every row.
  std::vector<std::string> column(const std::string& sql) {
    std::vector<std::string> values;
    QSqlQuery query(database_);
    query.exec(QString::fromStdString(sql));
    while (query.next()) values.push_back(query.value(0).toString().toStdString());
    return values;
  }

 private:
  QString name_;
  QSqlDatabase database_;
};

}  // namespace flitch::store::sample
