#pragma once
#include <QByteArray>
#include <QSqlDatabase>
#include <QSqlQuery>
#include <QString>
#include <QVariant>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <tuple>
#include <type_traits>
#include <unordered_map>
#include <utility>
#include <vector>

#include "inventory/records/ids.h"
#include "inventory/store/book.h"
#include "inventory/store/codes.h"
#include "inventory/wood/length.h"
#include "inventory/wood/measure.h"
#include "inventory/wood/money.h"

namespace flitch::store {

enum class Engine { sqlite, postgresql };

/// Why the engine refused. `rule`: a CHECK, a key or a trigger of the book; rule() names it.
enum class Trouble { rule, busy, readOnly, damaged, full, other };

/// What the engine said about one statement.
class DatabaseError : public StoreError {
 public:
  DatabaseError(Trouble trouble, std::string rule, const std::string& sentence, std::string detail);
  [[nodiscard]] Trouble trouble() const { return trouble_; }
  /// "board_balance", "entries.reverses", "past_changed"; empty when the engine names none.
  [[nodiscard]] const std::string& rule() const { return rule_; }

 private:
  Trouble trouble_;
  std::string rule_;
};

/// How values lie in columns. An Id of 0 and an empty optional are NULL; a NULL text reads as "".
template <class T>
struct Column;

/// One row of a result, read from left to right.
class Row {
 public:
  explicit Row(const QSqlQuery& query) : query_(query) {}
  template <class T>
  [[nodiscard]] T next() {
    return Column<T>::read(query_.value(at_++));
  }
  template <class T>
  Row& operator>>(T& value) {
    value = next<T>();
    return *this;
  }

 private:
  const QSqlQuery& query_;
  int at_ = 0;
};

/// The only door to Qt SQL: one connection, used in the thread that opened it. Statements are
/// prepared once and kept. Every failure is a DatabaseError that carries the SQL.
class Database {
 public:
  enum class Mode { create, write, read, readUnchanging };
  /// Opens a file. `readUnchanging`: nobody writes it meanwhile and its folder may not be written.
  [[nodiscard]] static std::shared_ptr<Database> sqlite(const std::string& path, Mode mode);
  [[nodiscard]] static std::shared_ptr<Database> postgresql(const std::string& socketFolder,
                                                            const std::string& name,
                                                            const std::string& user);
  Database(const Database&) = delete;
  Database& operator=(const Database&) = delete;
  ~Database();

  [[nodiscard]] Engine engine() const { return engine_; }
  [[nodiscard]] bool inTransaction() const { return inTransaction_; }

  /// One statement, neither prepared nor kept: definitions, PRAGMAs, BEGIN.
  void direct(std::string_view sql);
  template <class... Args>
  void run(std::string_view sql, const Args&... args) {
    const Running running(*this, sql, {Column<Args>::bound(args)...});
  }
  /// Calls `read(Row&)` for every row. Within it, do not run the same SQL again.
  template <class Read, class... Args>
  void each(std::string_view sql, const Read& read, const Args&... args) {
    Running running(*this, sql, {Column<Args>::bound(args)...});
    while (running.next()) {
      Row row(running.query());
      read(row);
    }
  }
  template <class... Columns, class... Args>
  [[nodiscard]] std::vector<std::tuple<Columns...>> rows(std::string_view sql,
                                                         const Args&... args) {
    std::vector<std::tuple<Columns...>> result;
    each(
        sql, [&](Row& row) { result.push_back(std::tuple<Columns...>{row.next<Columns>()...}); },
        args...);
    return result;
  }
  /// First column of the first row.
  template <class T, class... Args>
  [[nodiscard]] std::optional<T> maybe(std::string_view sql, const Args&... args) {
    Running running(*this, sql, {Column<Args>::bound(args)...});
    if (!running.next()) return std::nullopt;
    return Row(running.query()).next<T>();
  }
  /// The same where a row must come. Throws std::logic_error when none does.
  template <class T, class... Args>
  [[nodiscard]] T value(std::string_view sql, const Args&... args) {
    if (auto found = maybe<T>(sql, args...)) return *found;
    throw std::logic_error("no row for: " + std::string(sql));
  }

 private:
  friend class Transaction;
  /// A statement under way; finished when it goes, since an open RETURNING blocks COMMIT.
  class Running {
   public:
    Running(Database& database, std::string_view sql, const std::vector<QVariant>& args);
    Running(const Running&) = delete;
    Running& operator=(const Running&) = delete;
    ~Running() { query_.finish(); }
    [[nodiscard]] bool next();
    [[nodiscard]] const QSqlQuery& query() const { return query_; }

   private:
    Database& database_;
    std::string_view sql_;
    QSqlQuery& query_;
  };

  explicit Database(Engine engine);
  void open(const std::string& what);
  QSqlQuery& prepared(std::string_view sql);
  [[noreturn]] void fail(const QSqlError& error, std::string_view sql) const;

  Engine engine_;
  QString name_;
  QSqlDatabase connection_;
  std::unordered_map<std::string, QSqlQuery> prepared_;
  bool inTransaction_ = false;
};

/// A transaction; rolled back unless committed. A `read` within another one is part of it.
/// In SQLite a writer takes the lock at once (BEGIN IMMEDIATE): a deferred one that read first
/// could not write after another's commit.
class Transaction {
 public:
  enum class Kind { read, write };
  Transaction(Database& database, Kind kind);
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  ~Transaction();
  void commit();

 private:
  Database& database_;
  bool open_ = false;
};

template <>
struct Column<std::int64_t> {
  static QVariant bound(std::int64_t value) { return QVariant::fromValue<qlonglong>(value); }
  static std::int64_t read(const QVariant& value) { return value.toLongLong(); }
};
template <>
struct Column<int> {
  static QVariant bound(int value) { return value; }
  static int read(const QVariant& value) { return value.toInt(); }
};
template <>
struct Column<bool> {
  static QVariant bound(bool value) { return value ? 1 : 0; }
  static bool read(const QVariant& value) { return value.toLongLong() != 0; }
};
template <>
struct Column<std::string> {
  static QVariant bound(const std::string& value) {
    // A null QString would be NULL.
    return value.empty() ? QVariant(QString(QLatin1String(""))) : QString::fromStdString(value);
  }
  static std::string read(const QVariant& value) { return value.toString().toStdString(); }
};
/// Bytes of any kind, such as a picture's.
struct Bytes {
  std::string value;
};
template <>
struct Column<Bytes> {
  static QVariant bound(const Bytes& bytes) { return QByteArray::fromStdString(bytes.value); }
  static Bytes read(const QVariant& value) { return {value.toByteArray().toStdString()}; }
};
template <std::size_t N>
struct Column<char[N]> {
  static QVariant bound(const char (&value)[N]) { return QString::fromUtf8(value); }
};
template <class Kind>
struct Column<Id<Kind>> {
  static QVariant bound(Id<Kind> id) {
    return id ? QVariant::fromValue<qlonglong>(id.value) : QVariant(QMetaType(QMetaType::LongLong));
  }
  static Id<Kind> read(const QVariant& value) { return {value.toLongLong()}; }
};
template <class T>
struct Column<std::optional<T>> {
  static QVariant bound(const std::optional<T>& value) {
    return value ? Column<T>::bound(*value) : QVariant(QMetaType(QMetaType::LongLong));
  }
  static std::optional<T> read(const QVariant& value) {
    if (value.isNull()) return std::nullopt;
    return Column<T>::read(value);
  }
};
template <>
struct Column<Length> {
  static QVariant bound(Length value) { return Column<std::int64_t>::bound(value.nm()); }
  static Length read(const QVariant& value) { return Length::nanometres(value.toLongLong()); }
};
template <>
struct Column<Money> {
  static QVariant bound(Money value) { return Column<std::int64_t>::bound(value.raw()); }
  static Money read(const QVariant& value) { return Money::tenThousandths(value.toLongLong()); }
};
template <>
struct Column<CubicMillimetres> {
  static QVariant bound(CubicMillimetres value) { return Column<std::int64_t>::bound(value.value); }
  static CubicMillimetres read(const QVariant& value) { return {value.toLongLong()}; }
};
template <>
struct Column<Feet> {
  static QVariant bound(Feet value) { return Column<std::int64_t>::bound(value.thousandths); }
  static Feet read(const QVariant& value) { return {value.toLongLong()}; }
};
/// Enumerations lie as words (codes.h).
template <class E>
requires std::is_enum_v<E>
struct Column<E> {
  static QVariant bound(E value) { return Column<std::string>::bound(std::string(code(value))); }
  static E read(const QVariant& value) {
    const QString word = value.toString();
    for (std::size_t i = 0; i < codes<E>.size(); ++i) {
      const std::string_view known = codes<E>[i];
      if (word == QLatin1String(known.data(), static_cast<qsizetype>(known.size()))) {
        return static_cast<E>(i);
      }
    }
    return decoded<E>(word.toStdString());
  }
};

}  // namespace flitch::store
