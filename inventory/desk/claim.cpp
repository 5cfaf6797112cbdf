#include "inventory/desk/claim.h"

#include <algorithm>
#include <map>
#include <set>
#include <sstream>

#include "inventory/desk/names.h"
#include "inventory/desk/rack_work.h"
#include "inventory/desk/short_of_grade.h"
#include "inventory/wood/moisture.h"
#include "inventory/wood/split.h"

namespace flitch::desk {

namespace {

/// Part of an amount that falls on `part` of `whole` feet, rounded down.
Money shareOf(Money amount, Feet part, Feet whole) {
  return Money::tenThousandths(mulDiv(amount.raw(), part.thousandths, whole.thousandths));
}

/// Boards billed as one: a board, or the pieces it was cut into for the van.
using Together = std::vector<Board>;

std::vector<Together> billedTogether(const std::vector<Board>& boards) {
  std::vector<Together> all;
  std::map<BoardId, std::size_t> firsts;
  for (const Board& board : boards) {
    const auto first = firsts.find(board.billedWith);
    const bool piece = board.billedWith && board.priceBasis != PriceBasis::lot;
    if (piece && first != firsts.end()) {
      all[first->second].push_back(board);
    } else {
      firsts[board.id] = all.size();
      all.push_back({board});
    }
  }
  return all;
}

/// Their feet by the supplier's rule, an exact half up.
Feet counted(const Together& boards, CountingRule rule) {
  DeliveryDraft draft;
  draft.rule = rule == CountingRule::grossGreen ? CountingRule::surfaceMeasure : rule;
  for (const Board& board : boards) {
    TallyLine& line = draft.lines.emplace_back();
    line.species = board.species;
    line.nominal = board.nominal;
    line.kind = board.kind;
    line.outline = board.outline;
    line.cutFrom = "one";
  }
  Feet sum;
  for (const TallyFigures& figure : figures(draft)) sum += figure.billed;
  // A gross tally runs 6 to 7 % over the net: the yard is given the 7.
  if (rule == CountingRule::grossGreen) sum = {sum.thousandths * 107 / 100};
  return sum;
}

class Claim {
 public:
  Claim(const DeliveryDraft& draft, std::vector<Board> boards, Unit unit)
      : draft_(draft), boards_(std::move(boards)), unit_(unit) {
    table_.columns = {{"tag", "tag", false},
                      {"what", "what", false},
                      {"species", "species", false},
                      {"nominal", "quarters", false},
                      {"size", "size", false},
                      {"billed_feet", "billed", true},
                      {"counted_feet", "counted", true},
                      {"claim", "claim", true},
                      {"why", "why", false}};
  }

  Table run(const std::vector<Board>& known, int wet) && {
    footage();
    grades(known);
    moisture(wet);
    table_.totals = {std::string("all"), {}, {}, {}, {}, {}, {}, sum_, {}};
    return std::move(table_);
  }

 private:
  void footage() {
    for (const InvoiceClaim& claim : draft_.claims) {
      if (!claim.feet || claim.species.empty()) continue;
      Feet came;
      Money price;
      for (const Board& board : boards_) {
        if (board.species != claim.species || board.nominal != claim.nominal) continue;
        came += board.billed;
        price += board.price;
      }
      if (*claim.feet <= came) continue;
      const Feet over = *claim.feet - came;
      CellValue money;
      if (claim.amount) {
        money = add(shareOf(*claim.amount, over, *claim.feet));
      } else if (came > Feet{}) {
        money = add(shareOf(price, over, came));
      }
      table_.rows.push_back({{},
                             std::string("short footage"),
                             claim.species,
                             text(claim.nominal),
                             {},
                             *claim.feet,
                             came,
                             money,
                             text(over) + " bf did not come"});
    }
    for (const Together& one : billedTogether(boards_)) {
      Feet billed;
      Money price;
      std::string tags;
      for (const Board& board : one) {
        billed += board.billed;
        price += board.price;
        tags += (tags.empty() ? "" : ", ") + tagOf(board);
      }
      const Feet here = counted(one, draft_.rule);
      if (billed <= here) continue;
      table_.rows.push_back({tags, std::string("short footage"), one.front().species,
                             text(one.front().nominal), sizeText(one.front(), unit_), billed, here,
                             add(shareOf(price, billed - here, billed)),
                             text(billed - here) + " bf more than it measures"});
    }
  }

  void grades(const std::vector<Board>& known) {
    std::vector<Board> here;
    std::copy_if(boards_.begin(), boards_.end(), std::back_inserter(here),
                 [](const Board& board) { return board.onRack(); });
    for (const ShortBoard& one : shortOfGrade(here, known).boards) {
      row(one.board, "below the grade paid", add(one.atStake()),
          "paid as " + std::string(word(one.paidAs)) + ", looks like " +
              std::string(word(one.looksLike)));
    }
  }

  void moisture(int wet) {
    for (const Board& board : boards_) {
      if (!board.onRack() || board.readings.empty()) continue;
      const Reading& newest = board.readings.back();
      if (newest.state != MoistureState::wet && newest.tenthsPercent <= wet) continue;
      row(board, "wet", {}, moistureText(newest.tenthsPercent) + " on " + newest.takenOn);
    }
  }

  void row(const Board& board, const std::string& what, CellValue money, const std::string& why) {
    table_.rows.push_back({tagOf(board),
                           what,
                           board.species,
                           text(board.nominal),
                           sizeText(board, unit_),
                           board.billed,
                           {},
                           std::move(money),
                           why});
  }

  CellValue add(Money money) {
    sum_ += money;
    return money;
  }

  const DeliveryDraft& draft_;
  std::vector<Board> boards_;
  Unit unit_;
  Table table_;
  Money sum_;
};

}  // namespace

Table claimSheet(const store::Snapshot& snapshot, DeliveryId delivery, Unit unit, int wet) {
  const std::optional<DeliveryDraft> draft = snapshot.delivery(delivery);
  if (!draft) {
    const std::string number = std::to_string(delivery.value);
    std::string all;
    for (const DeliveryId id : snapshot.deliveries()) {
      all += (all.empty() ? "" : ", ") + std::to_string(id.value);
    }
    throw Refusal("no-delivery", Complaint{"", "There is no delivery " + number, number, all});
  }
  std::vector<Board> boards;
  for (const BoardId id : snapshot.boardsOf(delivery)) {
    boards.push_back(snapshot.board(id).value());
  }
  Table table = Claim(*draft, std::move(boards), unit).run(snapshot.rack(), wet);
  table.title = "Claim on " + draft->supplier +
                (draft->reference.empty() ? "" : ", " + draft->reference) + ", received " +
                draft->receivedOn;
  table.note = "Counted by " + std::string(word(draft->rule)) +
               ", exact halves in the yard's favour. Grades are estimates: a licensed inspector "
               "decides.";
  return table;
}

std::vector<ClaimedPhoto> claimedPhotos(const store::Snapshot& snapshot, const Table& claim) {
  std::vector<ClaimedPhoto> all;
  std::set<BoardId> done;
  const auto words = [](const CellValue& cell) {
    const auto* said = std::get_if<std::string>(&cell);
    return said == nullptr ? std::string() : *said;
  };
  for (const std::vector<CellValue>& row : claim.rows) {
    // A row names one board, or the pieces it was cut into, parted by commas.
    std::istringstream tags(words(row.front()));
    for (std::string tag; std::getline(tags >> std::ws, tag, ',');) {
      const TagReading reading = readTag(tag);
      if (reading.verdict != TagReading::Verdict::right) continue;
      std::optional<Board> board = snapshot.boardByTag(reading.code);
      // What the yard sent, where its tag has gone on with what is left of it.
      while (board && board->parent) board = snapshot.board(board->parent);
      if (!board || !done.insert(board->id).second) continue;
      for (const Photo& photo : snapshot.photos(board->id)) {
        all.push_back({photo, tag + ", " + words(row[1]) + ": " + words(row.back())});
      }
    }
  }
  return all;
}

}  // namespace flitch::desk
