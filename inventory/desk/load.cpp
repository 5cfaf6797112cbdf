#include "inventory/desk/load.h"

#include <map>

#include "inventory/desk/names.h"
#include "inventory/records/refusal.h"

namespace flitch::desk {

namespace {

/// "A3", "sawn", "returned, $12.00 expected", "returned, $11.50 came".
std::string whereabouts(const store::Snapshot& snapshot, const Board& board,
                        const BoardReturn* sent, std::string_view sign) {
  if (board.onRack()) return board.bay.empty() ? "on the rack" : board.bay;
  const std::string went = wentText(snapshot, board);
  if (sent == nullptr) return went;
  return went + ", " +
         (sent->credited ? text(sent->received, sign) + " came"
                         : text(sent->expected, sign) + " expected");
}

}  // namespace

Table loadTable(const store::Snapshot& snapshot, DeliveryId delivery, Unit unit,
                std::string_view sign) {
  const std::optional<DeliveryDraft> load = snapshot.delivery(delivery);
  if (!load) {
    const std::string number = std::to_string(delivery.value);
    throw Refusal("no-delivery", Complaint{"", "No delivery " + number + " is in the book", number,
                                           "the number of a delivery"});
  }
  Table table;
  table.title = load->supplier + ", " + load->receivedOn;
  table.columns = {{"tag", "tag", false},
                   {"species", "species", false},
                   {"nominal", "quarters", false},
                   {"size", "size", false},
                   {"grade", "grade", false},
                   {"billed_feet", "billed", true},
                   {"measured_feet", "measured", true},
                   {"price", "price", true},
                   {"landed", "landed", true},
                   {"where", "where", false}};
  const std::vector<BoardReturn> returns = snapshot.returns();
  std::map<BoardId, const BoardReturn*> sent;
  for (const BoardReturn& one : returns) sent[one.board] = &one;
  Feet billed, measured;
  Money price;
  for (const BoardId id : snapshot.boardsOf(delivery)) {
    const Board board = snapshot.board(id).value();
    const auto back = sent.find(id);
    table.rows.push_back(
        {tagOf(board), board.species, text(board.nominal), sizeText(board, unit), board.grade,
         board.billed, board.measuredFeet, board.price,
         board.onRack() ? CellValue(board.cost) : CellValue(),
         whereabouts(snapshot, board, back == sent.end() ? nullptr : back->second, sign)});
    table.boards.push_back({id});
    billed += board.billed;
    measured += board.measuredFeet;
    price += board.price;
  }
  const auto count = static_cast<std::int64_t>(table.rows.size());
  table.totals = {std::to_string(count) + (count == 1 ? " board" : " boards"),
                  {},
                  {},
                  {},
                  {},
                  billed,
                  measured,
                  price,
                  {},
                  {}};
  return table;
}

}  // namespace flitch::desk
