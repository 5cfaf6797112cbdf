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

#include "tests/store/sample.h"

using namespace flitch;
using namespace flitch::store;

namespace {

using Clock = std::chrono::steady_clock;

/// Starts the writing child, lets it begin some changes, kills it a share of a change's time
/// later; what it said. `oneChange` is how long a change takes here, kept up to date.
std::string writeAndKill(const std::string& book, int changes, double share,
                         Clock::duration& oneChange) {
  std::array<int, 2> ends{};
  REQUIRE(::pipe(ends.data()) == 0);
  const pid_t child = ::fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    ::dup2(ends[1], STDOUT_FILENO);
    ::close(ends[0]);
    ::close(ends[1]);
    ::execl(FLITCHBOOK_BIN "/store_writing_child", "store_writing_child", book.c_str(), nullptr);
    ::_exit(9);
  }
  ::close(ends[1]);
  std::string said;
  std::array<char, 4096> buffer{};
  const auto take = [&] {
    const ssize_t n = ::read(ends[0], buffer.data(), buffer.size());
    if (n > 0) said.append(buffer.data(), static_cast<std::size_t>(n));
    return n > 0;
  };
  const auto heard = [&](const std::string& word) {
    int times = 0;
    for (std::size_t at = said.find(word); at != std::string::npos; at = said.find(word, at + 1)) {
      ++times;
    }
    return times;
  };
  Clock::time_point begun = Clock::now();
  while (heard("begin") < changes) {
    REQUIRE(take());
    if (heard("done") > 0) oneChange = Clock::now() - begun;
    begun = Clock::now();
  }
  std::this_thread::sleep_for(std::chrono::duration_cast<Clock::duration>(share * oneChange));
  ::kill(child, SIGKILL);
  while (take()) {
  }
  ::close(ends[0]);
  int status = 0;
  ::waitpid(child, &status, 0);
  REQUIRE(WIFSIGNALED(status));
  return said;
}

}  // namespace

TEST_CASE("a hundred kills leave a sound book that holds what was confirmed") {
  const sample::Folder folder;
  std::mt19937 random(20'260'301);
  int underWay = 0;
  int tookHold = 0;
  Clock::duration oneChange = std::chrono::milliseconds(10);
  for (int round = 0; round < 4; ++round) {
    const std::string path = folder.file("shop" + std::to_string(round) + ".flitch");
    (void)Book::create(path, sample::facts());
    std::int64_t confirmed = 0;
    for (int kill = 0; kill < 25; ++kill) {
      const int changes = std::uniform_int_distribution<int>(1, 3)(random);
      const double share = std::uniform_real_distribution<double>(0, 1.2)(random);
      std::istringstream said(writeAndKill(path, changes, share, oneChange));
      std::int64_t begun = confirmed;
      std::string word;
      while (said >> word) {
        if (word == "begin") said >> begun;
        if (word == "done") said >> confirmed;
      }
      const Book book = Book::open(path, Access::write);
      INFO("round " << round << ", kill " << kill);
      // One change may have been confirmed to the disk and not yet been said.
      const std::int64_t held = book.read().lastEntry().value;
      CHECK(held >= confirmed);
      CHECK(held <= begun);
      CHECK(book.read().rack().size() == static_cast<std::size_t>(5 * held));
      CHECK(sample::checked(book) == "");
      underWay += begun > confirmed;
      tookHold += held > confirmed;
      confirmed = held;
    }
    CHECK(confirmed >= 10);
  }
  // Most kills hit a change under way, and such a change mostly leaves nothing.
  CAPTURE(underWay, tookHold);
  CHECK(underWay > 20);
  CHECK(tookHold < underWay);
}
