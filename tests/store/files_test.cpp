#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <QDir>
#include <QFile>
#include <catch2/catch.hpp>

#include "inventory/store/schema.h"
#include "tests/store/behind.h"
#include "tests/store/sample.h"

using namespace flitch;
using namespace flitch::store;
using Catch::Contains;

namespace {

void write(const std::string& path, const std::string& bytes) {
  QFile file(QString::fromStdString(path));
  REQUIRE(file.open(QIODevice::WriteOnly));
  file.write(QByteArray::fromStdString(bytes));
}

QStringList filesIn(const sample::Folder& folder) {
  return QDir(QString::fromStdString(folder.path())).entryList(QDir::Files);
}

/// Opening must refuse with this code and leave the folder as it is.
void refused(const sample::Folder& folder, const std::string& path, const std::string& code) {
  const QStringList files = filesIn(folder);
  const std::string bytes =
      QFile::exists(QString::fromStdString(path)) ? sample::bytesOf(path) : "";
  for (const Access access : {Access::read, Access::write}) {
    try {
      (void)Book::open(path, access);
      FAIL("opened");
    } catch (const Refusal& refusal) {
      CHECK(refusal.code() == code);
      CHECK_THAT(refusal.what(), Contains(path));
    }
  }
  CHECK(filesIn(folder) == files);
  if (!bytes.empty()) CHECK(sample::bytesOf(path) == bytes);
}

std::string bookBytes(const sample::Folder& folder) {
  const std::string path = folder.file("good.flitch");
  {
    Book book = Book::create(path, sample::facts());
    sample::receive(book, std::vector<Board>(20, sample::plank()));
  }
  return sample::bytesOf(path);
}

}  // namespace

TEST_CASE("what is no book is refused and left as it was") {
  const sample::Folder folder;
  const std::string path = folder.file("shop.flitch");
  const std::string good = bookBytes(folder);
  REQUIRE(good.size() > 100'000);

  SECTION("missing") { refused(folder, path, "no-book"); }
  SECTION("empty") {
    write(path, "");
    refused(folder, path, "not-a-book");
  }
  SECTION("a text") {
    write(path, "board,species,length\n" + std::string(200, 'x'));
    refused(folder, path, "not-a-book");
  }
  SECTION("an SQLite file of another program") {
    {
      sample::Behind other(path);
      other.run("CREATE TABLE t (x)");
    }
    refused(folder, path, "not-a-book");
  }
  SECTION("a newer book") {
    std::string bytes = good;
    bytes[63] = 99;  // user_version, big-endian, ends at offset 63
    write(path, bytes);
    refused(folder, path, "newer-book");
  }
  SECTION("cut short") {
    write(path, good.substr(0, good.size() / 2));
    refused(folder, path, "damaged-book");
  }
  SECTION("the head of a book and no more") {
    write(path, good.substr(0, 100));
    refused(folder, path, "damaged-book");
  }
  SECTION("pages overwritten") {
    std::string bytes = good;
    for (std::size_t at = 4096; at + 64 < bytes.size(); at += 4096) {
      bytes.replace(at, 64, std::string(64, '\x55'));
    }
    write(path, bytes);
    refused(folder, path, "damaged-book");
  }
}

TEST_CASE("a folder in the place of a book is refused") {
  const sample::Folder folder;
  try {
    (void)Book::open(folder.path(), Access::write);
    FAIL("opened");
  } catch (const Refusal& refusal) {
    CHECK(refusal.code() == "not-a-book");
  }
}

TEST_CASE("a book is not made over a file, nor in a folder that is not there") {
  const sample::Folder folder;
  const std::string path = folder.file("shop.flitch");
  write(path, "a letter");
  CHECK_THROWS_WITH(Book::create(path, sample::facts()), Contains("already"));
  CHECK(sample::bytesOf(path) == "a letter");
  CHECK_THROWS_WITH(Book::create(folder.file("none/shop.flitch"), sample::facts()),
                    Contains("folder"));
  // Neither through a link that leads nowhere, nor beside what another book left.
  const std::string link = folder.file("link.flitch");
  REQUIRE(QFile::link(QString::fromStdString(folder.file("elsewhere.flitch")),
                      QString::fromStdString(link)));
  CHECK_THROWS_WITH(Book::create(link, sample::facts()), Contains("already"));
  CHECK_FALSE(QFile::exists(QString::fromStdString(folder.file("elsewhere.flitch"))));
  write(folder.file("lost.flitch-wal"), "a log");
  CHECK_THROWS_WITH(Book::create(folder.file("lost.flitch"), sample::facts()),
                    Contains("lost.flitch-wal already"));
  CHECK(sample::bytesOf(folder.file("lost.flitch-wal")) == "a log");
}

TEST_CASE("opening a book, reading it and rolling back a large change leave it byte for byte") {
  const sample::Folder folder;
  const std::string before = bookBytes(folder);
  const std::string path = folder.file("good.flitch");
  {
    Book book = Book::open(path, Access::write);
    CHECK(book.read().rack().size() == 20);
    CHECK_THROWS_WITH(book.change({"received", {}, "", {}}, sample::hand(),
                                  [&](Writer& writer) {
                                    for (int i = 0; i < 3000; ++i) {
                                      Board board = sample::plank();
                                      board.tag = writer.nextTag();
                                      writer.addBoard(board);
                                    }
                                    throw std::runtime_error("the power goes");
                                  }),
                      "the power goes");
    CHECK(book.read().rack().size() == 20);
    CHECK(sample::checked(book) == "");
  }
  CHECK(sample::bytesOf(path) == before);
  CHECK(filesIn(folder) == QStringList{"good.flitch"});
}

TEST_CASE("a book open for reading refuses to be written") {
  const sample::Folder folder;
  (void)bookBytes(folder);
  Book book = Book::open(folder.file("good.flitch"), Access::read);
  CHECK_THROWS_WITH(sample::receive(book, {sample::plank()}), Contains("for reading only"));
  CHECK(book.read().lastEntry() == EntryId{1});
}

TEST_CASE("a file or folder that may not be written is refused for writing and read") {
  // The superuser may write everything: the child goes as nobody (65534).
  const sample::Folder folder;
  (void)bookBytes(folder);
  const std::string path = folder.file("good.flitch");
  REQUIRE(::chmod(path.c_str(), 0444) == 0);
  REQUIRE(::chmod(folder.path().c_str(), 0555) == 0);
  const pid_t child = ::fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    if (::geteuid() == 0 && ::setuid(65534) != 0) ::_exit(9);
    int code = 0;
    try {
      (void)Book::open(path, Access::write);
      code = 1;
    } catch (const Refusal& refusal) {
      if (refusal.code() != "read-only-book") code = 2;
    } catch (...) {
      code = 3;
    }
    try {
      if (Book::open(path, Access::read).read().rack().size() != 20) code = 4;
    } catch (...) {
      code = 5;
    }
    ::_exit(code);
  }
  int status = 0;
  REQUIRE(::waitpid(child, &status, 0) == child);
  REQUIRE(WIFEXITED(status));
  CHECK(WEXITSTATUS(status) == 0);
  ::chmod(folder.path().c_str(), 0755);
}

TEST_CASE("another program's lock is waited for, then told in a sentence") {
  const sample::Folder folder;
  (void)bookBytes(folder);
  Book book = Book::open(folder.file("good.flitch"), Access::write);
  sample::Behind other(folder.file("good.flitch"));
  REQUIRE(other.run("BEGIN IMMEDIATE") == "");
  try {
    sample::receive(book, {sample::plank()});
    FAIL("written");
  } catch (const Refusal& refusal) {
    CHECK(refusal.code() == "book-busy");
  }
  CHECK(book.read().rack().size() == 20);
  other.run("ROLLBACK");
  CHECK_NOTHROW(sample::receive(book, {sample::plank()}));
}

TEST_CASE("a copy of a book opens and holds the same") {
  const sample::Folder folder;
  (void)bookBytes(folder);
  const Book book = Book::open(folder.file("good.flitch"), Access::write);
  book.copyTo(folder.file("copy.flitch"));
  const Book copy = Book::open(folder.file("copy.flitch"), Access::write);
  CHECK(copy.read().rack() == book.read().rack());
  CHECK(sample::checked(copy) == "");
  CHECK_THROWS_AS(book.copyTo(folder.file("copy.flitch")), Refusal);
  CHECK_THROWS_AS(book.copyTo(folder.file("none/copy.flitch")), StoreError);
}

TEST_CASE("file systems shared over a network are known") {
  CHECK(sharedOverNetwork("nfs4"));
  CHECK(sharedOverNetwork("cifs"));
  CHECK(sharedOverNetwork("smb3"));
  CHECK(sharedOverNetwork("fuse.sshfs"));
  CHECK_FALSE(sharedOverNetwork("ext4"));
  CHECK_FALSE(sharedOverNetwork("overlay"));
  CHECK_FALSE(sharedOverNetwork("fuseblk"));
}
