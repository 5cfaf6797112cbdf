#include <catch2/catch.hpp>

#include "inventory/records/shop.h"
#include "tests/store/sample.h"

using namespace flitch;
using namespace flitch::store;
using Catch::Contains;

namespace {

struct Shop {
  sample::Folder folder;
  Book book = Book::create(folder.file("shop.flitch"), sample::facts());

  EntryId update(const Board& board) {
    return book.change({"marked", {}, "", {}}, sample::hand(),
                       [&](Writer& writer) { writer.updateBoard(board); });
  }
  /// Runs an undo that must be refused with this code; the book stays as it is.
  void refused(EntryId entry, const std::string& because) {
    const EntryId last = book.read().lastEntry();
    try {
      sample::undo(book, entry);
      FAIL("undone");
    } catch (const Refusal& refusal) {
      CHECK(refusal.code() == "stands-on-it");
      CHECK_THAT(refusal.what(), Contains(because));
    }
    CHECK(book.read().lastEntry() == last);
    CHECK(sample::checked(book) == "");
  }
};

constexpr std::int64_t firstSerial = 1;

}  // namespace

TEST_CASE_METHOD(Shop, "undoing a delivery withdraws its boards and frees their tags") {
  Board tagged = sample::plank();
  tagged.tag = TagCode{TagKind::board, 700};
  const auto received = sample::receive(book, {tagged, sample::plank()});
  sample::undo(book, received.entry);

  const Snapshot now = book.read();
  CHECK(now.rack().empty());
  CHECK(now.deliveries().empty());
  CHECK(now.boardsOf(received.delivery).empty());
  CHECK(now.board(received.boards[0])->withdrawn);
  CHECK_FALSE(now.tagKnown(*tagged.tag));
  CHECK(sample::checked(book) == "");

  // The same tally again: the stapled tag is taken, the next serial is a new one.
  const auto again = sample::receive(book, {tagged, sample::plank()});
  CHECK(now.boardByTag(*tagged.tag)->id == again.boards[0]);
  CHECK(now.board(again.boards[1])->tag->serial > firstSerial);
}

TEST_CASE_METHOD(Shop, "a blank tag taken by a board is blank again when the board is undone") {
  TagCode blank;
  const EntryId reserved = book.change({"tags reserved", {}, "", {}}, sample::hand(),
                                       [&](Writer& writer) { blank = writer.reserveTags(3)[1]; });
  CHECK(book.read().tagReserved(blank));
  Board board = sample::plank();
  board.tag = blank;
  const auto received = sample::receive(book, {board});
  CHECK_FALSE(book.read().tagReserved(blank));
  refused(reserved, "a tag hangs on another board");
  sample::undo(book, received.entry);
  CHECK(book.read().tagReserved(blank));
  sample::undo(book, reserved);
  CHECK_FALSE(book.read().tagKnown(blank));
}

TEST_CASE_METHOD(Shop, "a tag on a board is refused to a second") {
  Board board = sample::plank();
  board.tag = TagCode{TagKind::board, 700};
  sample::receive(book, {board});
  CHECK_THROWS_WITH(sample::receive(book, {board}), Contains("hangs on another board"));
  CHECK(book.read().rack().size() == 1);
}

TEST_CASE_METHOD(Shop, "changed fields come back one by one when their entry is undone") {
  const auto received = sample::receive(book, {sample::plank()});
  const Board before = *book.read().board(received.boards[0]);
  Board board = sample::everyField();
  board.id = before.id;
  board.version = before.version;
  // What an update does not set.
  board.tag = before.tag;
  board.delivery = before.delivery;
  board.supplier = before.supplier;
  board.cost = before.cost;
  const EntryId entry = update(board);

  Board after = *book.read().board(before.id);
  board.version = entry;
  CHECK(after == board);  // its wood too: measured again, at the same cost
  CHECK(sample::checked(book) == "");

  const EntryId undone = sample::undo(book, entry);
  Board again = *book.read().board(before.id);
  CHECK(again.version == undone);
  again.version = before.version;
  CHECK(again == before);
  CHECK(sample::checked(book) == "");
}

TEST_CASE_METHOD(Shop, "an update that changes nothing writes nothing of the board") {
  const auto received = sample::receive(book, {sample::plank()});
  update(*book.read().board(received.boards[0]));
  CHECK(book.read().board(received.boards[0])->version == received.entry);
}

TEST_CASE_METHOD(Shop, "a board changed since it was read is refused as stale") {
  const auto received = sample::receive(book, {sample::plank()});
  Board mine = *book.read().board(received.boards[0]);
  Board theirs = mine;
  theirs.note = "figured";
  update(theirs);
  mine.bay = "B1";
  CHECK_THROWS_AS(update(mine), Stale);
  CHECK(book.read().board(mine.id)->note == "figured");
  CHECK(book.read().board(mine.id)->bay.empty());
}

TEST_CASE_METHOD(Shop, "a sawn board takes no more marks") {
  const auto received = sample::receive(book, {sample::plank()});
  const JobId job = sample::addJob(book, "Map chest");
  const PlanId plan = sample::keep(book, job, received.boards);
  sample::saw(book, plan, received.boards[0]);
  Board board = *book.read().board(received.boards[0]);
  board.note = "late";
  CHECK_THROWS_WITH(update(board), Contains("not on the rack"));
  CHECK_THROWS_WITH(sample::saw(book, plan, received.boards[0]), Contains("sawn already"));
}

TEST_CASE_METHOD(Shop, "what later entries stand on is not undone, and they are named") {
  const auto received = sample::receive(book, {sample::plank(), sample::plank()});
  SECTION("a delivery, one of its boards marked since") {
    Board board = *book.read().board(received.boards[1]);
    board.note = "figured";
    update(board);
    refused(received.entry, "changed in entry 2");
  }
  SECTION("a delivery, a plan made of its boards") {
    sample::keep(book, sample::addJob(book, "Map chest"), received.boards, false);
    refused(received.entry, "a plan cuts");
  }
  SECTION("a delivery, its board reserved") {
    const JobId job = sample::addJob(book, "Map chest");
    book.change({"plan kept", job, "", {}}, sample::hand(),
                [&](Writer& writer) { writer.hold(received.boards[0], job, {}); });
    refused(received.entry, "reserved for a job");
  }
  SECTION("a delivery, its board sawn") {
    const PlanId plan = sample::keep(book, sample::addJob(book, "Map chest"), received.boards);
    sample::saw(book, plan, received.boards[0]);
    refused(received.entry, "went on in entry 4");
  }
  SECTION("marks of a board sawn since") {
    Board board = *book.read().board(received.boards[0]);
    board.note = "figured";
    const EntryId marked = update(board);
    const PlanId plan = sample::keep(book, sample::addJob(book, "Map chest"), received.boards);
    sample::saw(book, plan, received.boards[0]);
    refused(marked, "went on in entry 5");
  }
  SECTION("a cut, its offcut sawn") {
    const JobId job = sample::addJob(book, "Map chest");
    const PlanId plan = sample::keep(book, job, {received.boards[0]});
    const auto sawn = sample::saw(book, plan, received.boards[0]);
    const auto again = sample::saw(book, sample::keep(book, job, sawn.offcuts), sawn.offcuts[0]);
    refused(sawn.entry, "went on in entry 6");
    sample::undo(book, again.entry);
    refused(sawn.entry, "a plan cuts");
  }
  SECTION("a job, a plan kept for it") {
    const JobId job = sample::addJob(book, "Map chest");
    const EntryId added = book.read().lastEntry();
    sample::keep(book, job, received.boards);
    refused(added, "a plan was kept");
  }
  SECTION("settings that a plan used") {
    ShopProfile shop = book.read().shop();
    shop.ripKerf = Length::sixtyFourths(4);
    const EntryId set = book.change({"shop set", {}, "", {}}, sample::hand(),
                                    [&](Writer& writer) { writer.addProfile(shop); });
    sample::addJob(book, "Map chest");
    refused(set, "a job uses these settings");
  }
}

TEST_CASE_METHOD(Shop, "an undo is not undone, nor an entry that is not there") {
  const auto received = sample::receive(book, {sample::plank()});
  const EntryId undone = sample::undo(book, received.entry);
  CHECK_THROWS_WITH(sample::undo(book, undone), Contains("is an undo"));
  CHECK_THROWS_AS(sample::undo(book, EntryId{99}), Refusal);
  CHECK(book.read().lastEntry() == undone);
}

TEST_CASE_METHOD(Shop, "a job's name is free again once the job is undone, and so are settings") {
  sample::addJob(book, "Map chest");
  CHECK_THROWS_WITH(sample::addJob(book, "Map chest"), Contains("Map chest already"));
  sample::undo(book, EntryId{1});
  CHECK(book.read().jobs().empty());
  CHECK_FALSE(book.read().jobNamed("Map chest"));
  CHECK_NOTHROW(sample::addJob(book, "Map chest"));

  const ShopProfile before = book.read().shop();
  ShopProfile shop = before;
  shop.ripKerf = Length::sixtyFourths(4);
  const EntryId set = book.change({"shop set", {}, "", {}}, sample::hand(),
                                  [&](Writer& writer) { writer.addProfile(shop); });
  CHECK(book.read().shop().ripKerf == shop.ripKerf);
  sample::undo(book, set);
  CHECK(book.read().shop() == before);
}

TEST_CASE_METHOD(Shop, "a plan undone lets its boards go and stands no more") {
  const auto received = sample::receive(book, {sample::plank()});
  const JobId job = sample::addJob(book, "Map chest");
  const JobId other = sample::addJob(book, "Bench");
  const PlanId plan = sample::keep(book, job, received.boards);
  CHECK_THROWS_WITH(sample::keep(book, other, received.boards), Contains("reserved for Map chest"));
  sample::undo(book, book.read().lastEntry());
  CHECK_FALSE(book.read().newestPlan(job));
  CHECK_FALSE(book.read().board(received.boards[0])->reservedFor);
  CHECK_THROWS_WITH(sample::saw(book, plan, received.boards[0]), Contains("was undone"));
  CHECK_NOTHROW(sample::keep(book, other, received.boards));
  CHECK(sample::checked(book) == "");
}

TEST_CASE_METHOD(Shop, "whatever the work throws leaves no trace, not even a number") {
  sample::receive(book, {sample::plank()});
  CHECK_THROWS_AS(book.change({"received", {}, "", {}}, sample::hand(),
                              [&](Writer& writer) {
                                writer.addBoard(sample::plank());
                                throw std::out_of_range("no");
                              }),
                  std::out_of_range);
  CHECK_THROWS_AS(book.change({"no such event", {}, "", {}}, sample::hand(), [](Writer&) {}),
                  std::logic_error);
  CHECK_THROWS_AS(book.change({"marked", {}, "", {}}, sample::hand(),
                              [&](Writer&) {
                                book.change({"marked", {}, "", {}}, sample::hand(), [](Writer&) {});
                              }),
                  std::logic_error);
  const EntryId entry = book.change({"marked", {}, "", {}}, sample::hand(), [](Writer&) {});
  CHECK(entry == EntryId{2});
  CHECK(sample::receive(book, {sample::plank()}).boards[0] == BoardId{2});
}

TEST_CASE_METHOD(Shop, "wood posted that does not balance is refused in a sentence") {
  const auto received = sample::receive(book, {sample::plank()});
  Move half;
  half.source = AccountKind::board;
  half.sourceBoard = received.boards[0];
  half.volume = {1000};
  try {
    book.change({"sawn", {}, "", {}}, sample::hand(), [&](Writer& writer) { writer.post(half); });
    FAIL("posted");
  } catch (const Refusal& refusal) {
    CHECK(refusal.code() == "unbalanced");
  }
  CHECK(sample::checked(book) == "");
}

TEST_CASE_METHOD(Shop, "two programs take turns and see what the other wrote") {
  Book other = Book::open(book.path(), Access::write);
  sample::receive(book, {sample::plank()});
  sample::receive(other, {sample::plank()});
  const auto third = sample::receive(book, {sample::plank()});
  CHECK(third.entry == EntryId{3});
  CHECK(book.read().rack() == other.read().rack());
}
