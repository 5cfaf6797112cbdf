// Disk full, book or folder that may not be written, another program in the book: a sentence, exit
// code 1, and nothing lost.
#include <unistd.h>

#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/acceptance/program.h"

using flitch::acceptance::Bench;
using flitch::acceptance::Ran;

namespace {

/// A bench with a book of three boards and a tally of many more.
struct Shop : Bench {
  Shop() {
    write("three.csv",
          "species,quarters,length,width,price_per_bf\ncherry,4/4,8,8,6\nash,4/4,9,7,4\n"
          "cherry,5/4,10,9,8\n");
    std::string many = "species,quarters,length,width,price_per_bf\n";
    for (int board = 0; board < 200; ++board) many += "ash,4/4,8,8,4\n";
    write("many.csv", many);
    flitch("book create");
    flitch("receive three.csv --supplier Yard");
  }
};

void checkTold(const Ran& ran, const std::string& words) {
  INFO(ran.out << ran.err);
  CHECK(ran.exitCode == 1);
  CHECK(ran.err.find(words) != std::string::npos);
  // One sentence, without the engine's words.
  CHECK(std::count(ran.err.begin(), ran.err.end(), '\n') == 1);
  CHECK(ran.err.find("SQL") == std::string::npos);
}

/// Runs `line` in a folder `small`, a file system of a megabyte that holds the book.
std::string onSmallDisk(const std::string& line) {
  return "mkdir small && unshare -rm sh -c '"
         "mount -t tmpfs -o size=1500k tmpfs small || exit 77; cp shop.flitch many.csv small/; "
         "cd small; " +
         line + "'";
}

}  // namespace

TEST_CASE("a full disk is said in a sentence, and the book is as it was") {
  const Shop shop;
  if (shop.shell(onSmallDisk("true")).exitCode != 0) {
    WARN("no file system may be mounted here: the full disk was not tried");
    return;
  }
  REQUIRE(shop.shell("rmdir small").exitCode == 0);
  const Ran before = shop.flitch("ledger stock");
  const Ran full = shop.shell(
      onSmallDisk("cat /dev/zero > fill 2>/dev/null; flitch receive many.csv --supplier Mill; "
                  "echo $? >&2; rm fill; flitch book check && flitch ledger stock"));
  INFO(full.out << full.err);
  CHECK(full.err.find("The disk of shop.flitch is full or cannot be written. Nothing was "
                      "changed; make room and try again.\n1\n") != std::string::npos);
  CHECK(full.exitCode == 0);
  CHECK(full.out.find(before.out) != std::string::npos);
}

TEST_CASE("a file grown past what is allowed leaves the book as it was") {
  const Shop shop;
  const Ran before = shop.flitch("ledger stock");
  // Blocks of 512 bytes: the log of the change needs more.
  const Ran ran =
      shop.shell("trap '' XFSZ; ulimit -f 150; flitch receive many.csv --supplier Mill");
  INFO(ran.out << ran.err);
  checkTold(ran, "The disk of shop.flitch is full or cannot be written.");
  shop.flitch("book check");
  CHECK(shop.flitch("ledger stock").out == before.out);
}

TEST_CASE("a book or a folder that may not be written is read and not changed") {
  const Shop shop;
  // The superuser may write everything: the program goes as nobody.
  const std::string nobody = ::geteuid() == 0 ? "setpriv --reuid=65534 --clear-groups " : "";
  const Ran before = shop.flitch("ledger stock");
  const std::string bytes = shop.bookBytes();
  for (const char* mode :
       {"chmod 755 . && chmod 444 shop.flitch", "chmod 644 shop.flitch && chmod 555 .",
        "chmod 444 shop.flitch && chmod 555 ."}) {
    INFO(mode);
    const std::string set = std::string(mode) + " && ";
    checkTold(shop.shell(set + nobody + "flitch receive many.csv --supplier Mill"), "shop.flitch");
    CHECK(shop.shell(set + nobody + "flitch ledger stock").out == before.out);
    REQUIRE(shop.shell("chmod 755 .").exitCode == 0);
    CHECK(shop.bookBytes() == bytes);
  }
}

TEST_CASE("a book another program writes in is waited for, then told") {
  const Shop shop;
  const Ran before = shop.flitch("ledger stock");
  const Ran held = shop.shell(
      "mkfifo hold; sqlite3 shop.flitch <hold >/dev/null & exec 3>hold; "
      "echo 'BEGIN IMMEDIATE;' >&3; sleep 1; "
      "flitch receive many.csv --supplier Mill; code=$?; exec 3>&-; wait; exit $code");
  checkTold(held, "Another program is writing in shop.flitch. Nothing was changed");
  CHECK(shop.flitch("ledger stock").out == before.out);
  shop.flitch("receive many.csv --supplier Mill");
  shop.flitch("book check");
}
