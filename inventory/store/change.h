#pragma once
#include <QJsonObject>
#include <map>
#include <memory>
#include <optional>
#include <vector>

#include "inventory/store/database.h"
#include "inventory/store/snapshot.h"
#include "inventory/store/writer.h"

namespace flitch::store {

/// A change under way: what a Writer has gathered before the seal.
struct Writer::Inside {
  Inside(const std::shared_ptr<Database>& opened, const Event& what, EntryId number)
      : database(*opened), now(opened), event(what), entry(number) {}

  /// Notes what an edit did to a record (a table's name and the row's key).
  void note(const char* record, std::int64_t id, const std::optional<QJsonObject>& before,
            const std::optional<QJsonObject>& after);
  /// Hangs a tag on a board, a reserved one or one of another roll. Throws Refusal when it is
  /// taken, or was replaced.
  void hang(TagCode tag, BoardId board);
  /// Writes the moves and seals the entry.
  void finish();

  Database& database;
  Snapshot now;
  Event event;
  EntryId entry;
  int edits = 0;
  std::vector<Move> moves;
  std::map<BoardId, CuttingId> done;
  std::vector<JobId> jobsAdded;
};

/// A reservation as an edit holds it.
[[nodiscard]] QJsonObject holdRow(JobId job, PlanId plan);

}  // namespace flitch::store
