#pragma once
#include <functional>
#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

#include "inventory/records/ids.h"
#include "inventory/records/refusal.h"
#include "inventory/store/snapshot.h"
#include "inventory/wood/measure.h"

namespace flitch::store {

/// Disk or engine failed. what(): a sentence; detail(): engine text and SQL.
class StoreError : public std::runtime_error {
 public:
  StoreError(const std::string& sentence, std::string detail);
  [[nodiscard]] const std::string& detail() const { return detail_; }

 private:
  std::string detail_;
};

/// Who writes: shown in the journal.
struct Hand {
  std::string name;
  std::string station;
};

/// What happened, a row of the table `events`: received, marked, surveyed, job added, plan kept,
/// sawn, undone, tags reserved, shop set, remeasured, species added. Any other is a
/// std::logic_error. An entry without a job whose work adds one job belongs to that job.
struct Event {
  std::string kind;
  JobId job;
  std::string note;
  EntryId reverses;  ///< undo only
};

struct BookFacts {
  std::string name;
  Unit unit = Unit::inches;
  std::string sign = "$";
  CountingRule rule = CountingRule::surfaceMeasure;
  int schema = 0;
  std::string program;
  std::string madeAt;
};

/// A thing `check` found not to hold, naming entry, board and amount.
struct Unsound {
  std::string sentence;
};

enum class Access { read, write };

class Writer;

/// A shop's data: one SQLite file (application id "FLIT" = 0x464C4954). Foreign keys on,
/// write-ahead log, full sync. Belongs to the thread that opened it.
class Book {
 public:
  /// Creates a new file; throws Refusal when it exists.
  [[nodiscard]] static Book create(const std::string& path, const BookFacts& facts);
  /// Opens; migrates an older schema after a verified backup. Throws Refusal for a missing,
  /// foreign, damaged or newer file (left untouched), StoreError for disk trouble.
  [[nodiscard]] static Book open(const std::string& path, Access access);
  Book(Book&&) noexcept;
  Book& operator=(Book&&) noexcept;
  ~Book();

  [[nodiscard]] const std::string& path() const;
  [[nodiscard]] BookFacts facts() const;
  /// Reads only. Each call on it is one consistent read; between calls others may write.
  [[nodiscard]] Snapshot read() const;

  /// The only way to write: one transaction, one sealed entry. Takes the next entry number, calls
  /// `work` with a Writer, posts the moves it named, seals, commits. Whatever `work` throws rolls
  /// everything back and goes on to the caller; a database refusal becomes a Refusal with a
  /// sentence.
  EntryId change(const Event& event, const Hand& hand, const std::function<void(Writer&)>& work);

  /// What is being typed at a station ("tally"), kept through a crash or a power cut: the only
  /// write without an entry. An empty body throws the draft away.
  void saveDraft(const std::string& what, const std::string& station, const std::string& body);
  /// Empty: none.
  [[nodiscard]] std::string draft(const std::string& what, const std::string& station) const;

  /// Proves the book again, O(book): balances equal the sums of moves, all accounts sum to zero,
  /// every done cutting accounted again from geometry, keys and integrity. Empty: sound.
  [[nodiscard]] std::vector<Unsound> check() const;
  /// Verified copy beside, for backups. Throws StoreError.
  void copyTo(const std::string& path) const;

 private:
  struct Inside;
  explicit Book(std::unique_ptr<Inside> inside);
  std::unique_ptr<Inside> inside_;
};

}  // namespace flitch::store
