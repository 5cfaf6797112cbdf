#pragma once
#include <string>
#include <vector>

#include "inventory/store/database.h"

namespace flitch::store {

/// Marks a file as ours: "FLIT", in SQLite's header.
inline constexpr std::int64_t applicationId = 0x464C4954;
inline constexpr int backupsKept = 5;

/// One step of the schema: what both engines read, then what this engine alone reads. Statements
/// are separated by blank lines; lines that begin with -- are comments.
struct Step {
  int number = 0;
  std::string common;
  std::string engine;
};

/// The steps of this program, in order from 1.
[[nodiscard]] std::vector<Step> steps(Engine engine);
[[nodiscard]] std::string sha256(const Step& step);

/// SQL of the common part in the engine's dialect, a statement each.
[[nodiscard]] std::vector<std::string> statements(const std::string& script, Engine engine);

/// Number of the last step that was run; 0 for an empty database.
[[nodiscard]] int schemaOf(Database& database);

/// Runs the steps the database has not seen, each in a transaction of its own, with foreign keys
/// off meanwhile (tables are rebuilt so) and proved before the commit. `program` is noted.
void runSteps(Database& database, const std::vector<Step>& steps, const std::string& program);

/// Brings the SQLite book at `path` up to the last of `steps`: first a verified copy beside it
/// (shop.before-step-2-20260131T120000000.flitch; the newest five are kept), then the steps. Does
/// nothing when the book is up to date. Throws StoreError; the book then is as it was, or ends with
/// a whole step.
void bringUpToDate(Database& database, const std::string& path, const std::vector<Step>& steps,
                   const std::string& program);

/// A copy made by the engine, then opened and checked. Throws Refusal when `target` exists,
/// StoreError otherwise.
void copyVerified(Database& database, const std::string& target);

/// What the first hundred bytes of a file say, read without the engine.
struct FileHeader {
  enum class Kind { missing, notAFile, unreadable, foreign, book };
  Kind kind = Kind::missing;
  int schema = 0;
};
[[nodiscard]] FileHeader inspect(const std::string& path);

/// Whether a folder on this kind of file system ("nfs4", "ext4") is shared over a network, where
/// the write-ahead log is not safe.
[[nodiscard]] bool sharedOverNetwork(const std::string& fileSystem);

/// Now, UTC, ISO with milliseconds.
[[nodiscard]] std::string now();

}  // namespace flitch::store
