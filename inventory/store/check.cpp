#include "inventory/store/check.h"

#include <array>
#include <map>

#include "inventory/records/account.h"
#include "inventory/store/board_rows.h"
#include "inventory/store/job_rows.h"
#include "inventory/store/plan_rows.h"
#include "inventory/store/schema.h"

namespace flitch::store {

namespace {

using Found = std::vector<Unsound>;

std::string amounts(std::int64_t volume, std::int64_t cost) {
  return std::to_string(volume) + " mm³ and " + exactText(Money::tenThousandths(cost));
}

void proveFile(Database& database, Found& found) {
  if (database.engine() != Engine::sqlite) return;
  database.each("PRAGMA integrity_check", [&](Row& row) {
    if (const auto verdict = row.next<std::string>(); verdict != "ok") {
      found.push_back({"The file is damaged: " + verdict + "."});
    }
  });
  database.each("PRAGMA foreign_key_check", [&](Row& row) {
    const auto table = row.next<std::string>();
    const auto line = row.next<std::string>();
    found.push_back({"Row " + line + " of " + table + " points at a row of " +
                     row.next<std::string>() + " that is not there."});
  });
}

void proveSteps(Database& database, Found& found) {
  std::map<int, std::string> shipped;
  for (const Step& step : steps(database.engine())) shipped[step.number] = sha256(step);
  database.each("SELECT number, sha256 FROM schema_steps ORDER BY number", [&](Row& row) {
    const auto number = row.next<int>();
    const auto at = shipped.find(number);
    if (at != shipped.end() && at->second == row.next<std::string>()) return;
    found.push_back(
        {"Step " + std::to_string(number) + " of the schema is not the one this program carries."});
  });
}

void proveJournal(Database& database, Found& found) {
  database.each(
      "SELECT e.id FROM entries e LEFT JOIN seals s ON s.entry = e.id WHERE s.entry IS NULL "
      "ORDER BY e.id",
      [&](Row& row) { found.push_back({"Entry " + row.next<std::string>() + " is not sealed."}); });
  const auto last = database.value<std::int64_t>("SELECT last FROM counters WHERE name = 'entry'");
  const auto count = database.value<std::int64_t>("SELECT count(*) FROM entries");
  const auto newest = database.value<std::int64_t>("SELECT coalesce(max(id), 0) FROM entries");
  if (last != count || last != newest) {
    found.push_back({"The journal has gaps: " + std::to_string(count) + " entries, the newest is " +
                     std::to_string(newest) + ", the counter says " + std::to_string(last) + "."});
  }
}

void proveBalances(Database& database, Found& found) {
  database.each(
      "SELECT a.id, a.kind, a.board, a.volume, a.cost, CAST(coalesce(sum(t.volume), 0) AS BIGINT), "
      "CAST(coalesce(sum(t.cost), 0) AS BIGINT) FROM accounts a LEFT JOIN ("
      "SELECT target AS account, volume, cost FROM moves "
      "UNION ALL SELECT source, -volume, -cost FROM moves) t ON t.account = a.id "
      "GROUP BY a.id, a.kind, a.board, a.volume, a.cost "
      "HAVING a.volume <> coalesce(sum(t.volume), 0) OR a.cost <> coalesce(sum(t.cost), 0) "
      "ORDER BY a.id",
      [&](Row& row) {
        (void)row.next<std::int64_t>();
        const auto kind = row.next<std::string>();
        const auto board = row.next<BoardId>();
        const auto volume = row.next<std::int64_t>();
        const auto cost = row.next<std::int64_t>();
        const auto movedVolume = row.next<std::int64_t>();
        const auto movedCost = row.next<std::int64_t>();
        found.push_back({"The account of " + (board ? nameOf(database, board) : kind) + " says " +
                         amounts(volume, cost) + ", its moves " + amounts(movedVolume, movedCost) +
                         "."});
      });
  const auto volume =
      database.value<std::int64_t>("SELECT CAST(coalesce(sum(volume), 0) AS BIGINT) FROM accounts");
  const auto cost =
      database.value<std::int64_t>("SELECT CAST(coalesce(sum(cost), 0) AS BIGINT) FROM accounts");
  if (volume != 0 || cost != 0) {
    found.push_back(
        {"All accounts together hold " + amounts(volume, cost) + " instead of nothing."});
  }
}

/// A board's account holds what its outline and thickness say; an offcut's, the share split() gave
/// it, which is within rounding of that.
void proveWood(Database& database, Found& found) {
  constexpr std::int64_t rounding = 2;
  for (const Board& board : readBoards(database, boardsOnRack())) {
    const std::int64_t drawn = volumeOf(board).value;
    const std::int64_t slack = board.parent ? rounding : 0;
    if (board.wood.value < drawn - slack || board.wood.value > drawn + slack) {
      found.push_back({nameOf(database, board.id) + " holds " + std::to_string(board.wood.value) +
                       " mm³, its drawing " + std::to_string(drawn) + " mm³."});
    }
    if (board.withdrawn)
      found.push_back({nameOf(database, board.id) + " was undone, yet is here."});
  }
}

/// An offcut lies in its parent and was no more wood; one measured again since may be thicker than
/// the parent was taken for.
void proveOffcuts(Database& database, Found& found) {
  struct Lineage {
    BoardId offcut, parent;
    std::int64_t wood = 0, parentWood = 0;
  };
  std::vector<Lineage> all;
  database.each(
      "SELECT b.id, b.parent, a.whole_volume, p.whole_volume FROM boards b "
      "JOIN accounts a ON a.board = b.id JOIN accounts p ON p.board = b.parent "
      "WHERE b.withdrawn = 0 AND NOT EXISTS (SELECT 1 FROM moves m JOIN accounts t "
      "ON t.id = m.target WHERE m.source = a.id AND t.kind = 'remeasured') ORDER BY b.id",
      [&](Row& row) {
        Lineage& one = all.emplace_back();
        row >> one.offcut >> one.parent >> one.wood >> one.parentWood;
      });
  for (const Lineage& one : all) {
    const Board offcut = readBoard(database, one.offcut).value();
    const std::string names =
        nameOf(database, one.offcut) + " came from " + nameOf(database, one.parent) + ", yet ";
    if (!contains(boundsOf(readBoard(database, one.parent).value()), offcut.inParent)) {
      found.push_back({names + "lay outside of it."});
    }
    if (one.wood > one.parentWood) {
      found.push_back({names + "is more wood: " + std::to_string(one.wood) + " mm³ of " +
                       std::to_string(one.parentWood) + " mm³."});
    }
  }
}

struct Sum {
  std::int64_t volume = 0, cost = 0;
  friend bool operator==(const Sum&, const Sum&) = default;
};

/// A board whose tag went on with its remainder is gone.
void proveTags(Database& database, Found& found) {
  database.each(
      "SELECT p.board FROM tags_passed p JOIN accounts a ON a.board = p.board "
      "WHERE p.withdrawn = 0 AND a.volume > 0 ORDER BY p.board",
      [&](Row& row) {
        found.push_back({nameOf(database, row.next<BoardId>()) +
                         " is on the rack, yet its tag went on with a remainder."});
      });
}

void proveCuttings(Database& database, Found& found) {
  std::map<std::pair<CuttingId, AccountKind>, Sum> posted;
  database.each(
      "SELECT m.cutting, t.kind, CAST(sum(m.volume) AS BIGINT), CAST(sum(m.cost) AS BIGINT) "
      "FROM moves m JOIN accounts t ON t.id = m.target WHERE m.cutting IS NOT NULL "
      "GROUP BY m.cutting, t.kind",
      [&](Row& row) {
        const auto cutting = row.next<CuttingId>();
        const auto kind = row.next<AccountKind>();
        Sum& sum = posted[{cutting, kind}];
        row >> sum.volume >> sum.cost;
      });
  std::map<JobId, Job> jobs;
  std::map<ProfileId, ShopProfile> profiles;
  for (const DoneCutting& done : readDone(database, std::nullopt)) {
    if (!jobs.contains(done.job)) jobs[done.job] = readJobs(database, done.job).at(0);
    if (!profiles.contains(done.profile)) {
      profiles[done.profile] = readProfile(database, done.profile).value();
    }
    const Breakdown again =
        account(done.cutting, done.board, jobs[done.job], profiles[done.profile], done.tick);
    for (std::size_t i = 0; i < causeCount; ++i) {
      const auto cause = static_cast<Cause>(i);
      const AccountKind kind = cause == Cause::offcuts ? AccountKind::board : accountOf(cause);
      Sum sum = posted[{done.id, kind}];
      if (cause == Cause::offcuts) {
        // Shorts that went to a bin were offcuts to the saw.
        const Sum& binned = posted[{done.id, AccountKind::bin}];
        sum.volume += binned.volume;
        sum.cost += binned.cost;
      }
      const Sum expected{again.volume[i].value, again.cost[i].raw()};
      if (sum == expected) continue;
      found.push_back({"Entry " + std::to_string(done.entry.value) + " took from " +
                       nameOf(database, done.board.id) + " to " + std::string(code(kind)) + " " +
                       amounts(sum.volume, sum.cost) + ", its cuts say " +
                       amounts(expected.volume, expected.cost) + "."});
    }
  }
}

/// The boards of a delivery were taken in at what the invoice asks: their prices and its lines.
void proveInvoices(Database& database, Found& found) {
  database.each(
      "SELECT d.id, coalesce((SELECT CAST(sum(m.cost) AS BIGINT) FROM moves m "
      "JOIN accounts a ON a.id = m.target AND a.kind = 'board' WHERE m.entry = d.version), 0), "
      "coalesce((SELECT CAST(sum(b.price) AS BIGINT) FROM boards b WHERE b.delivery = d.id "
      "AND b.parent IS NULL), 0) + coalesce((SELECT CAST(sum(i.amount) AS BIGINT) "
      "FROM invoice_lines i WHERE i.delivery = d.id), 0) FROM deliveries d "
      "WHERE d.withdrawn = 0 AND EXISTS (SELECT 1 FROM invoice_lines i WHERE i.delivery = d.id) "
      "ORDER BY d.id",
      [&](Row& row) {
        const auto delivery = row.next<std::int64_t>();
        const Money posted = row.next<Money>();
        const Money asked = row.next<Money>();
        if (posted == asked) return;
        found.push_back({"The boards of delivery " + std::to_string(delivery) + " cost " +
                         exactText(posted) + ", its invoice asks " + exactText(asked) + "."});
      });
}

/// What was spoiled in an entry went from parts to lost, all of it.
void proveSpoiled(Database& database, Found& found) {
  std::map<EntryId, Sum> spoiled, lost;
  for (const SpoiledPiece& piece : readSpoiled(database, std::nullopt)) {
    spoiled[piece.entry].volume += piece.volume.value;
    spoiled[piece.entry].cost += piece.cost.raw();
  }
  database.each(
      "SELECT m.entry, CAST(sum(m.volume) AS BIGINT), CAST(sum(m.cost) AS BIGINT) FROM moves m "
      "JOIN accounts s ON s.id = m.source JOIN accounts t ON t.id = m.target "
      "LEFT JOIN entries r ON r.reverses = m.entry "
      "WHERE s.kind = 'parts' AND t.kind = 'lost' AND r.id IS NULL GROUP BY m.entry",
      [&](Row& row) {
        Sum& sum = lost[row.next<EntryId>()];
        row >> sum.volume >> sum.cost;
      });
  for (const auto& [entry, sum] : lost) (void)spoiled[entry];
  for (const auto& [entry, sum] : spoiled) {
    const Sum moved = lost[entry];
    if (moved == sum) continue;
    found.push_back(
        {"Entry " + std::to_string(entry.value) + " took " + amounts(moved.volume, moved.cost) +
         " from parts to lost, its spoiled pieces were " + amounts(sum.volume, sum.cost) + "."});
  }
}

}  // namespace

std::vector<Unsound> prove(Database& database) {
  Found found;
  const Transaction view(database, Transaction::Kind::read);
  proveFile(database, found);
  if (!found.empty()) return found;  // nothing read from a damaged file proves anything
  proveSteps(database, found);
  proveJournal(database, found);
  proveBalances(database, found);
  proveWood(database, found);
  proveOffcuts(database, found);
  proveTags(database, found);
  proveInvoices(database, found);
  proveCuttings(database, found);
  proveSpoiled(database, found);
  return found;
}

}  // namespace flitch::store
