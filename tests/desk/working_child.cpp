#include <unistd.h>

#include <QCoreApplication>
#include <string>

#include "tests/desk/random_work.h"
#include "tests/desk/standing.h"

// A program that works in a book until it is killed: it says "begin" before each verb and, once it
// was confirmed, the newest entry and what stands then, so whoever kills it knows what the book
// must hold.

using namespace flitch;

namespace {

void say(const std::string& line) {
  const std::string whole = line + "\n";
  if (::write(STDOUT_FILENO, whole.data(), whole.size()) < 0) ::_exit(2);
}

}  // namespace

int main(int count, char** arguments) {
  if (count != 3) return 2;
  const QCoreApplication app(count, arguments);
  store::Book book = store::Book::open(arguments[1], store::Access::write);
  desk::sample::RandomWork work(book, static_cast<unsigned>(std::stoul(arguments[2])));
  while (true) {
    say("begin");
    (void)work.step();
    const EntryId last = book.read().lastEntry();
    say("done " + std::to_string(last.value) + " " +
        std::to_string(desk::sample::standing(book.read(), last)) + " " +
        std::to_string(desk::sample::shopNumber(book.read())));
  }
}
