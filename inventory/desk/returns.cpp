#include "inventory/desk/returns.h"

#include <algorithm>

#include "inventory/desk/names.h"
#include "inventory/desk/rack_work.h"
#include "inventory/store/writer.h"

namespace flitch::desk {

EntryId sendBack(Book& book, const Board& board, const std::string& reason,
                 std::optional<Money> expected, const Hand& hand) {
  const std::string name = tagOf(board);
  if (board.supplier.empty()) {
    throw Refusal("no-supplier",
                  Complaint{"", name + " came from no supplier", name, "a board of a delivery"});
  }
  return takeOff(book, {board}, AccountKind::returned, reason, hand, [&](store::Writer& writer) {
    writer.addReturn(board.id, reason, expected.value_or(board.cost));
  });
}

EntryId credit(Book& book, const Board& board, Money amount, const std::string& receivedOn,
               const Hand& hand) {
  const std::string name = tagOf(board);
  const auto find = [&](const store::Snapshot& snapshot) {
    const std::vector<BoardReturn> returns = snapshot.returns();
    const auto sent = std::find_if(returns.rbegin(), returns.rend(),
                                   [&](const BoardReturn& one) { return one.board == board.id; });
    if (sent == returns.rend()) {
      throw Refusal("not-sent-back", Complaint{"", name + " was not sent back", name,
                                               "a board sent back with flitch return"});
    }
    if (sent->credited) {
      throw Refusal("credited", Complaint{"", "A credit came for " + name + " already", name, ""});
    }
    return *sent;
  };
  return book.change(
      {"credited", {}, name + ": " + exactText(amount), {}}, hand, [&](store::Writer& writer) {
        const BoardReturn sent = find(writer.now());
        writer.addCredit(sent.id, amount, receivedOn);
        const auto post = [&](AccountKind from, AccountKind to, Money cost) {
          writer.post({from, {}, to, {}, {}, cost, -1, {}});
        };
        post(AccountKind::returned, AccountKind::credit, std::min(amount, sent.cost));
        if (amount < sent.cost) {
          post(AccountKind::returned, AccountKind::priceDifference, sent.cost - amount);
        } else if (amount > sent.cost) {
          post(AccountKind::priceDifference, AccountKind::credit, amount - sent.cost);
        }
      });
}

Table returnReport(const store::Snapshot& snapshot) {
  Table table;
  table.title = "Boards sent back";
  table.columns = {{"tag", "tag", false},          {"species", "species", false},
                   {"nominal", "quarters", false}, {"supplier", "supplier", false},
                   {"reason", "reason", false},    {"cost", "cost", true},
                   {"expected", "expected", true}, {"received", "received", true}};
  Money cost, expected, received;
  for (const BoardReturn& one : snapshot.returns()) {
    const Board board = snapshot.board(one.board).value();
    table.rows.push_back({tagOf(board), board.species, text(board.nominal), board.supplier,
                          one.reason, one.cost, one.expected,
                          one.credited ? CellValue(one.received) : CellValue()});
    cost += one.cost;
    expected += one.expected;
    received += one.received;
  }
  const auto count = static_cast<std::int64_t>(table.rows.size());
  table.totals = {std::to_string(count) + (count == 1 ? " board" : " boards"),
                  {},
                  {},
                  {},
                  {},
                  cost,
                  expected,
                  received};
  return table;
}

}  // namespace flitch::desk
