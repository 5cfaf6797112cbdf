// A writer killed in the midst of its work, again and again.
#include <fcntl.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <catch2/catch.hpp>
#include <chrono>
#include <random>
#include <sstream>
#include <thread>

#include "inventory/desk/proof.h"
#include "tests/desk/shop.h"
#include "tests/desk/standing.h"

using namespace flitch;
using namespace flitch::desk;

namespace {

using Clock = std::chrono::steady_clock;

/// What the child said last of what it had confirmed.
struct Confirmed {
  std::int64_t entry = 0;
  std::uint64_t standing = 0, shop = 0;
  int verbs = 0;          ///< confirmed, refused ones among them
  bool underWay = false;  ///< a verb was begun and not confirmed
};

Confirmed read(const std::string& said, Confirmed last) {
  std::istringstream lines(said.substr(0, said.rfind('\n') + 1));
  for (std::string word; lines >> word;) {
    last.underWay = word == "begin";
    if (last.underWay) continue;
    lines >> last.entry >> last.standing >> last.shop;
    ++last.verbs;
  }
  return last;
}

/// A child that works in a book and says what it does.
class Child {
 public:
  Child(const std::string& book, unsigned seed) {
    std::array<int, 2> ends{};
    REQUIRE(::pipe(ends.data()) == 0);
    const std::string number = std::to_string(seed);
    id_ = ::fork();
    REQUIRE(id_ >= 0);
    if (id_ == 0) {
      ::dup2(ends[1], STDOUT_FILENO);
      ::close(ends[0]);
      ::close(ends[1]);
      ::execl(FLITCHBOOK_BIN "/desk_working_child", "desk_working_child", book.c_str(),
              number.c_str(), nullptr);
      ::_exit(9);
    }
    ::close(ends[1]);
    out_ = ends[0];
  }
  /// Waits until it has begun that many verbs.
  void hear(int begun) {
    while (heard("begin") < begun) REQUIRE(take());
  }
  void kill() {
    ::kill(id_, SIGKILL);
    while (take()) {
    }
    ::close(out_);
    int status = 0;
    ::waitpid(id_, &status, 0);
    REQUIRE(WIFSIGNALED(status));
  }
  [[nodiscard]] const std::string& said() const { return said_; }

 private:
  bool take() {
    std::array<char, 4096> buffer{};
    const ssize_t n = ::read(out_, buffer.data(), buffer.size());
    if (n > 0) said_.append(buffer.data(), static_cast<std::size_t>(n));
    return n > 0;
  }
  [[nodiscard]] int heard(const std::string& word) const {
    int times = 0;
    for (std::size_t at = said_.find(word); at != std::string::npos;
         at = said_.find(word, at + 1)) {
      ++times;
    }
    return times;
  }
  pid_t id_ = 0;
  int out_ = 0;
  std::string said_;
};

}  // namespace

TEST_CASE("five hundred kills leave a sound book that holds what was confirmed, and no more") {
  constexpr int books = 20, killsEach = 25;
  std::mt19937 random(20'260'301);
  int verbs = 0, underWay = 0, tookHold = 0;
  for (int round = 0; round < books; ++round) {
    QTemporaryDir folder;
    const std::string path = folder.filePath("shop.flitch").toStdString();
    (void)Book::create(
        path, {"Test shop", Unit::inches, "$", CountingRule::surfaceMeasure, 0, "test", ""});
    Confirmed confirmed;
    for (int kill = 0; kill < killsEach; ++kill) {
      INFO("book " << round << ", kill " << kill);
      Child child(path, static_cast<unsigned>(books * kill + round));
      child.hear(std::uniform_int_distribution<int>(1, 4)(random));
      // A verb takes some milliseconds, most of them while its change is written.
      std::this_thread::sleep_for(
          std::chrono::microseconds(std::uniform_int_distribution<int>(0, 12'000)(random)));
      child.kill();
      confirmed = read(child.said(), confirmed);
      const Book book = Book::open(path, store::Access::write);
      const store::Snapshot now = book.read();
      const EntryId held = now.lastEntry();
      // One verb may have been confirmed to the disk and not yet been said.
      CHECK(held.value >= confirmed.entry);
      CHECK(held.value <= confirmed.entry + (confirmed.underWay ? 1 : 0));
      if (confirmed.entry > 0) {
        CHECK(sample::standing(now, EntryId{confirmed.entry}) == confirmed.standing);
      }
      if (held.value == confirmed.entry && held) CHECK(sample::shopNumber(now) == confirmed.shop);
      for (const store::Unsound& unsound : prove(book)) FAIL_CHECK(unsound.sentence);
      underWay += confirmed.underWay;
      tookHold += held.value > confirmed.entry;
      confirmed.entry = held.value;
      confirmed.standing = sample::standing(now, held);
      confirmed.shop = sample::shopNumber(now);
    }
    verbs += confirmed.verbs;
    CHECK(confirmed.entry >= 10);
  }
  // Most kills hit a verb under way, and it mostly leaves nothing.
  CAPTURE(verbs, underWay, tookHold);
  CHECK(verbs > 500);
  CHECK(underWay > 250);
  CHECK(tookHold < underWay);
}
