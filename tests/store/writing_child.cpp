#include <unistd.h>

#include <iostream>
#include <string>

#include "inventory/store/book.h"
#include "inventory/store/writer.h"

// A program that writes in a book until it is killed: it says each number before the change and
// after it was confirmed, so whoever kills it knows what the book must hold.

using namespace flitch;
using namespace flitch::store;

namespace {

void say(const std::string& line) {
  const std::string whole = line + "\n";
  if (::write(STDOUT_FILENO, whole.data(), whole.size()) < 0) ::_exit(2);
}

}  // namespace

int main(int count, char** arguments) {
  if (count != 2) return 2;
  Book book = Book::open(arguments[1], Access::write);
  Board board;
  board.species = "ash";
  board.thickness = Length::inches(1);
  board.outline = {Outline::tapered(Length::feet(8), Length::inches(7), Length::inches(6)),
                   Outline::tapered(Length::feet(8), Length::inches(7), Length::inches(6))};
  board.wood = volumeOf(board);
  say("ready");
  while (true) {
    const std::string next = std::to_string(book.read().lastEntry().value + 1);
    say("begin " + next);
    book.change({"received", {}, next, {}}, {"child", ""}, [&](Writer& writer) {
      for (int i = 0; i < 5; ++i) {
        board.tag = writer.nextTag();
        Move move;
        move.target = AccountKind::board;
        move.targetBoard = writer.addBoard(board);
        move.volume = board.wood;
        move.cost = Money::units(7);
        writer.post(move);
      }
    });
    say("done " + next);
  }
}
