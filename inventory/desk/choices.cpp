#include "inventory/desk/choices.h"

#include <algorithm>
#include <cctype>
#include <map>
#include <sstream>

#include "inventory/desk/names.h"
#include "inventory/desk/sawn_boards.h"
#include "inventory/records/blank.h"
#include "inventory/records/choices.h"
#include "inventory/records/recipe.h"
#include "inventory/wood/unreadable.h"

namespace flitch::desk {

namespace {

std::string nameOf(const Board& board) { return board.tag ? text(*board.tag) : "a board"; }

std::vector<BoardId> boardsNamed(const store::Snapshot& snapshot,
                                 const std::vector<std::string>& tags) {
  std::vector<BoardId> boards;
  for (const std::string& tag : tags) {
    const BoardId id = boardNamed(snapshot, tag).id;
    if (std::find(boards.begin(), boards.end(), id) == boards.end()) boards.push_back(id);
  }
  return boards;
}

constexpr const char* laidLikeThis = "PART@TAG x,y like C@T0042-F 12,1 1/2 or C@T0042-F 12,1,B,far";

[[noreturn]] void refuseLaid(const std::string& why, const std::string& text) {
  throw Refusal("bad-lay", Complaint{"", why, text, laidLikeThis});
}

const Part& partNamed(const Job& job, const std::string& name, const std::string& text) {
  const auto same = [](const std::string& a, const std::string& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](unsigned char x, unsigned char y) {
      return std::tolower(x) == std::tolower(y);
    });
  };
  for (const Part& part : job.parts) {
    if (same(partLetter(part.line), name) || same(part.name, name)) return part;
  }
  refuseLaid(job.name + " has no part " + name, text);
}

Length lengthIn(const std::string& cell, Unit unit, const std::string& text) {
  try {
    return parseLength(cell, unit == Unit::inches ? Bare::inches : Bare::millimetres);
  } catch (const Unreadable& error) {
    refuseLaid("\"" + cell + "\" is no place on a board", text);
  }
}

std::vector<std::string> cellsOf(const std::string& text) {
  std::vector<std::string> cells;
  std::istringstream from(text);
  for (std::string cell; std::getline(from, cell, ',');) {
    const auto first = cell.find_first_not_of(' ');
    const auto last = cell.find_last_not_of(' ');
    cells.push_back(first == std::string::npos ? "" : cell.substr(first, last - first + 1));
  }
  return cells;
}

/// The day each board on the rack was first received; empty for what the book opened with.
std::vector<std::pair<std::string, BoardId>> byAge(const store::Snapshot& snapshot) {
  std::vector<std::pair<std::string, BoardId>> boards;
  std::map<DeliveryId, std::string> days;
  Origins origins(snapshot);
  for (const Board& board : snapshot.rack()) {
    const DeliveryId delivery = origins.of(board).delivery;
    const auto [day, fresh] = days.try_emplace(delivery);
    if (fresh && delivery) {
      if (const auto draft = snapshot.delivery(delivery)) day->second = draft->receivedOn;
    }
    boards.emplace_back(day->second, board.id);
  }
  std::sort(boards.begin(), boards.end());
  return boards;
}

Wish oldestFirst(const store::Snapshot& snapshot) {
  Wish wish;
  const std::vector<std::pair<std::string, BoardId>> boards = byAge(snapshot);
  if (boards.empty()) return wish;
  // All that came on the days by which the older half was there.
  const std::string& day = boards[(boards.size() - 1) / 2].first;
  for (const auto& [came, board] : boards) {
    if (came <= day) wish.boards.push_back(board);
  }
  wish.words = "the oldest first, " +
               (day.empty() ? "what the book opened with" : "what was received by " + day);
  return wish;
}

Wish fromRack(const store::Snapshot& snapshot, std::string words, auto&& wished) {
  Wish wish;
  wish.words = std::move(words);
  for (const Board& board : snapshot.rack()) {
    if (wished(board)) wish.boards.push_back(board.id);
  }
  return wish;
}

/// The wish without its sum; what is left in `words` is the sum, if any.
Wish wishOf(const store::Snapshot& snapshot, const std::string& text, std::istringstream& words) {
  std::string kind;
  words >> kind;
  if (kind == "offcuts") {
    return fromRack(snapshot, "offcuts first",
                    [](const Board& board) { return board.kind == BoardKind::offcut; });
  }
  if (kind == "oldest") return oldestFirst(snapshot);
  std::int64_t number = 0;
  if (kind == "delivery" && words >> number) {
    const DeliveryId id{number};
    if (!snapshot.delivery(id)) {
      throw Refusal("unknown-delivery",
                    Complaint{"", "There is no delivery " + std::to_string(number),
                              std::to_string(number), "the number of a delivery"});
    }
    Origins origins(snapshot);
    return fromRack(snapshot, "delivery " + std::to_string(number) + " first",
                    [&](const Board& board) { return origins.of(board).delivery == id; });
  }
  throw Refusal("bad-wish",
                Complaint{"", "\"" + text + "\" is no wish the plan knows", text,
                          "offcuts, oldest or delivery N; a sum may follow: offcuts 5"});
}

Wish readWish(const store::Snapshot& snapshot, const std::string& text) {
  std::istringstream words(text);
  Wish wish = wishOf(snapshot, text, words);
  wish.each = usualWish;
  if (std::string sum; words >> sum) {
    try {
      wish.each = parseMoney(sum);
    } catch (const Unreadable& error) {
      throw Refusal("bad-wish", Complaint{"", "\"" + sum + "\" is no sum", sum, error.accepted});
    }
  }
  return wish;
}

std::vector<Lock> locksOf(const store::Snapshot& snapshot, const Job& job,
                          const std::vector<std::string>& tags) {
  std::vector<Lock> locks;
  if (tags.size() == 1 && tags.front() == "all") {
    if (const auto last = snapshot.lastPlan(job.id)) {
      const auto& [stored, before] = *last;
      for (const Cutting& cutting : stored.plan.cuttings) {
        const auto& sawn = stored.sawn;
        if (std::find(sawn.begin(), sawn.end(), cutting.board) == sawn.end() &&
            stillWanted(cutting, before, job)) {
          locks.push_back({cutting});
        }
      }
    }
    return locks;
  }
  for (const BoardId id : boardsNamed(snapshot, tags)) {
    locks.push_back(lockOn(snapshot, job, snapshot.board(id).value()));
  }
  return locks;
}

}  // namespace

Lock lockOn(const store::Snapshot& snapshot, const Job& job, const Board& board) {
  const std::string name = nameOf(board);
  if (const auto last = snapshot.lastPlan(job.id)) {
    const auto& [stored, before] = *last;
    if (std::find(stored.sawn.begin(), stored.sawn.end(), board.id) != stored.sawn.end()) {
      throw Refusal("sawn-already", Complaint{"", name + " was sawn already for " + job.name, name,
                                              "a board of the plan that is still whole"});
    }
    for (const Cutting& cutting : stored.plan.cuttings) {
      if (cutting.board != board.id) continue;
      if (stillWanted(cutting, before, job)) return {cutting};
      throw Refusal("lock-broken", Complaint{"",
                                             name + " cannot stay as it was planned: " + job.name +
                                                 " asks for something else since",
                                             name, "a board whose parts are as they were"});
    }
  }
  throw Refusal("not-in-plan", Complaint{"", name + " is not in the newest plan of " + job.name,
                                         name, "a board that the plan opens"});
}

LaidByHand readLaid(const std::string& text, const store::Snapshot& snapshot, const Job& job,
                    Unit unit) {
  const auto at = text.find('@');
  const auto space = text.find(' ', at == std::string::npos ? 0 : at);
  if (at == std::string::npos || space == std::string::npos) {
    refuseLaid("\"" + text + "\" does not say where a blank lies", text);
  }
  const Part& part = partNamed(job, text.substr(0, at), text);
  const ShopProfile shop = snapshot.shop();
  if (!allowsRecipe(part, RecipeKind::solid, shop)) {
    refuseLaid(part.name + " is not one blank; only whole blanks are laid by hand", text);
  }
  const std::vector<std::string> cells = cellsOf(text.substr(space + 1));
  if (cells.size() < 2 || cells.size() > 4) {
    refuseLaid("\"" + text + "\" does not say where a blank lies", text);
  }
  const Blank blank = blankFor(part, shop);
  const Length step = unit == Unit::inches ? Length::sixtyFourths(1) : Length::micrometres(250);
  LaidByHand laid;
  laid.board = boardNamed(snapshot, text.substr(at + 1, space - at - 1)).id;
  laid.line = part.line;
  laid.at = {lengthIn(cells[0], unit, text), lengthIn(cells[1], unit, text),
             stepsUp(blank.length, step) * step, stepsUp(blank.width, step) * step};
  for (std::size_t i = 2; i < cells.size(); ++i) {
    if (cells[i] == "B") {
      laid.faceUp = Face::b;
    } else if (cells[i] == "far") {
      laid.frontEdge = Edge::far;
    } else if (cells[i] != "A" && cells[i] != "near") {
      refuseLaid("\"" + cells[i] + "\" is neither a face nor an edge", text);
    }
  }
  return laid;
}

Choices choicesOf(const store::Book& book, JobId id, const Settled& settled) {
  const store::Snapshot snapshot = book.read();
  const Job job = snapshot.job(id).value();
  Choices choices;
  choices.trustUnseen = settled.trustUnseen;
  choices.pins = boardsNamed(snapshot, settled.pins);
  choices.keptOut = boardsNamed(snapshot, settled.keepOut);
  choices.locks = locksOf(snapshot, job, settled.locks);
  for (const std::string& lay : settled.lay) {
    choices.laid.push_back(readLaid(lay, snapshot, job, book.facts().unit));
  }
  for (const std::string& wish : settled.prefer) {
    choices.wishes.push_back(readWish(snapshot, wish));
  }
  return choices;
}

}  // namespace flitch::desk
