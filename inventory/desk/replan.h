#pragma once
#include <stop_token>
#include <string>
#include <vector>

#include "inventory/planning/planner.h"
#include "inventory/records/table.h"
#include "inventory/store/book.h"

namespace flitch::desk {

using store::Book;

/// What a plan made again does with a board that either plan opens.
enum class Fate { stays, otherwise, dropped, added };

struct BoardChange {
  BoardId board;
  std::string name;  ///< its tag
  Fate fate = Fate::stays;
  std::string was, now;  ///< hand marks and offcuts: "C2 E1 E2, offcut"
};

/// A plan of what is left of a job, made around what happened.
struct Replanned {
  planning::PlanResult result;
  std::vector<BoardChange> changes;  ///< boards not sawn yet, in order
  int freed = 0;  ///< boards that could have stayed and were planned anew to leave less short
  /// Blanks that come from another board than before: hand mark to the board's name.
  std::vector<std::pair<std::string, std::string>> moved;
  std::vector<std::string> sisters;  ///< boards that came first for what was spoiled
  Money costsMore;        ///< of what is left: wood and cutting now, less what they were to cost
  bool reserved = false;  ///< the plan before held its boards for the job
  double seconds = 0;
  [[nodiscard]] int count(Fate fate) const;
};

/// Plans what is left of a job again, changing as little as possible. Sawn boards are past. Every
/// other board of the newest plan stays cut as it was planned, unless that cannot be any more (it
/// is gone, a mark was found, its blanks are made); what is missing then is planned on free boards.
/// Where that leaves more short than before, one such board is freed, the one that leaves least
/// short; then two, and so on, at last all, until nothing more is gained or the time is up. What
/// the maker settled for the plan before still holds, where the board is still there. What was
/// spoiled comes, where usualWish pays for it, from sisters of its board or what is left of it
/// before others: the same log, or that board itself. `seconds`:
/// in all, at most; the book is not touched. Throws Refusal: no plan is kept, and what makePlan()
/// throws.
[[nodiscard]] Replanned replanned(const Book& book, JobId job, double seconds,
                                  const std::stop_token& stop = {});

/// "11 boards stay as they were planned, 1 is cut otherwise, 1 is opened now."
[[nodiscard]] std::string changesText(const Replanned& replanned);
/// " For what was spoiled its sisters come first: T0045-9."; empty where nothing was, or there are
/// none.
[[nodiscard]] std::string sistersText(const Replanned& replanned);
/// All of it in one breath: "C2 now comes from T0045-9. 20 boards stay as planned, 1 is cut
/// otherwise. Costs $3.10 more. Short: 1 foot (...)."
[[nodiscard]] std::string aroundText(const Replanned& replanned);
/// The boards that do not stay, a row each.
[[nodiscard]] Table changesTable(const Replanned& replanned);

}  // namespace flitch::desk
