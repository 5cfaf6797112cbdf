// The old tag where it still hangs on what is left of a board.
#include <catch2/catch.hpp>

#include "inventory/desk/offcut.h"
#include "inventory/desk/proof.h"
#include "inventory/desk/rack_work.h"
#include "inventory/desk/saw_otherwise.h"
#include "inventory/desk/saw_paper.h"
#include "tests/desk/life.h"

using namespace flitch;
using namespace flitch::desk;
using sample::box;
using sample::in;
using sample::Life;

namespace {

/// Life's board the other way round: the blank comes off at the far end, 32 7/8 in are kept at the
/// tag, where 1 in is trimmed.
Cutting keptAtTag(BoardId board) {
  using K = PieceKind;
  const auto piece = sample::piece;
  const Length from = in(34), kept = in(33, 56);
  Cutting cutting;
  cutting.board = board;
  cutting.pieces = {piece(0, K::cut, box(in(0), in(0), in(96), in(8)), 0, 0),
                    piece(1, K::endTrim, box(in(0), in(0), in(1), in(8)), 0, 0),
                    piece(1, K::cut, box(in(1), in(0), in(95), in(8)), 0, 0),
                    piece(2, K::offcut, box(in(1), in(0), kept, in(8)), 0, 0),
                    piece(2, K::kerf, box(kept, in(0), from, in(8)), 0, 0),
                    piece(2, K::cut, box(from, in(0), in(95), in(8)), 0, 0),
                    piece(3, K::kerf, box(from, in(0), in(95), in(0, 8)), 0, 0),
                    piece(3, K::blank, box(from, in(0, 8), in(95), in(6, 24)), 1, 1),
                    piece(3, K::kerf, box(from, in(6, 24), in(95), in(6, 32)), 0, 0),
                    piece(3, K::unusable, box(from, in(6, 32), in(95), in(8)), 0, 0),
                    piece(1, K::endTrim, box(in(95), in(0), in(96), in(8)), 0, 0)};
  return cutting;
}

struct AtTag : Life {
  AtTag() {
    plan = shop.planned(job, {keptAtTag(board.id)});
    keep(shop.book, plan, false, shop.hand);
  }
  Sawn saw(const std::string& line) {
    const PaperLine read = readPaper(line, plan.plan.cuttings.front(), readingRules(shop.book));
    const Turn turn = turnOf(shop.now(), board.id, read, false, Unit::inches);
    return desk::saw(shop.book, job, {turn}, shop.hand);
  }
  [[nodiscard]] std::optional<BoardId> wears(TagCode tag) const {
    const std::optional<Board> found = shop.now().boardByTag(tag);
    return found ? std::optional(found->id) : std::nullopt;
  }
};

}  // namespace

TEST_CASE("an end trimmed as planned takes its tag along") {
  AtTag bench;
  const Sawn sawn = bench.saw("");
  REQUIRE(sawn.offcuts.size() == 1);
  CHECK(sawn.toTag == sawn.offcuts);
  CHECK(sawn.offcuts[0].length() == in(32, 56));
  CHECK(sawn.offcuts[0].tag != bench.board.tag);
  CHECK(bench.wears(*bench.board.tag) == bench.board.id);
}

TEST_CASE("a tag that stays goes on with the remainder, end trim and all") {
  AtTag bench;
  const TagCode tag = *bench.board.tag;
  const Sawn sawn = bench.saw("tag stays");
  REQUIRE(sawn.offcuts.size() == 1);
  const Board& left = sawn.offcuts[0];
  CHECK(sawn.toTag.empty());
  CHECK(left.tag == tag);
  CHECK(left.inParent == box(in(0), in(0), in(33, 56), in(8)));
  CHECK(left.sawnEnd == std::array{false, true});
  // 33 7/8 x 8 x 1 in.
  CHECK(left.wood == volume(rectangle(in(33, 56), in(8)), rectangle(in(33, 56), in(8)), in(1)));
  CHECK(bench.wears(tag) == left.id);
  const Board parent = bench.now(bench.board.id);
  CHECK_FALSE(parent.onRack());
  CHECK(parent.tag == tag);  // its name still
  CHECK(prove(bench.shop.book).empty());

  // Undone, it hangs on the whole board again; sawn once more it goes on again.
  undo(bench.shop.book, bench.shop.hand);
  CHECK(bench.wears(tag) == bench.board.id);
  CHECK(bench.now(bench.board.id).tag == tag);
  const Sawn again = bench.saw("tag stays");
  CHECK(bench.wears(tag) == again.offcuts[0].id);
  CHECK(prove(bench.shop.book).empty());

  // Once the remainder has a tag of another number, the sawing stands.
  const Retagged retagged = replaceTag(bench.shop.book, again.offcuts[0], {}, bench.shop.hand);
  CHECK(bench.wears(retagged.tag) == again.offcuts[0].id);
  CHECK(bench.now(bench.board.id).tag == tag);
  CHECK(bench.code([&] {
    bench.shop.book.change({"undone", {}, "", again.entry}, bench.shop.hand,
                           [&](store::Writer& writer) { writer.reverse(again.entry); });
  }) == "stands-on-it");
}

TEST_CASE("a board stopped before its tag end is cut keeps its tag") {
  AtTag bench;
  // Cut 1 squares the far end, cut 2 frees the length of 61 in.
  const Sawn sawn = bench.saw("stop 2");
  REQUIRE(sawn.offcuts.size() == 2);
  CHECK(sawn.offcuts[0].tag == bench.board.tag);
  CHECK(sawn.offcuts[0].inParent.x == in(0));
  CHECK(sawn.offcuts[1].tag != bench.board.tag);
  REQUIRE(sawn.toTag.size() == 1);
  CHECK(sawn.toTag[0].id == sawn.offcuts[1].id);
}

TEST_CASE("what is left at the tag end of a board used by hand keeps its tag") {
  AtTag bench;
  const UsedByHand used =
      useByHand(bench.shop.book, bench.board.id, {}, in(40), "", bench.shop.hand);
  REQUIRE(used.left);
  CHECK(used.left->tag == bench.board.tag);
  CHECK(bench.wears(*bench.board.tag) == used.left->id);
  CHECK(prove(bench.shop.book).empty());
}

TEST_CASE("a tag stays only on an offcut at its end, and a reading says so") {
  AtTag bench;
  const Cutting cutting = keptAtTag(bench.board.id);
  PlanRequest request;
  request.job = bench.shop.now().job(bench.job).value();
  request.shop = bench.shop.now().shop();
  const exchange::ReadingRules rules = readingRules(bench.shop.book);
  const Board marked = bench.now(bench.board.id);
  const auto reading = [&](const Cutting& of, const std::string& line) {
    return readingOf(readPaper(line, of, rules), {of, marked, request, in(0, 8)});
  };
  CHECK(reading(cutting, "tag stays") == "the tag stays on what is kept there");
  CHECK(reading(cutting, "keep 20 x 8, tag stays").find("the tag stays") != std::string::npos);
  const Cutting other = sample::cuttingOf(bench.board.id);
  CHECK(bench.code([&] { reading(other, "tag stays"); }) == "no-tag-end");
  CHECK(bench.code([&] { reading(cutting, "keep none, tag stays"); }) == "no-tag-end");
}

TEST_CASE("the tag hangs on what holds half of its end") {
  Board board;
  board.outline.fill(Outline::tapered(in(50), in(8), in(6)));
  CHECK(holdsTagEnd(board, box(in(0), in(0), in(20), in(8))));
  CHECK(holdsTagEnd(board, box(in(0), in(4), in(20), in(8))));
  CHECK_FALSE(holdsTagEnd(board, box(in(0), in(4, 1), in(20), in(8))));
  CHECK_FALSE(holdsTagEnd(board, box(in(0, 1), in(0), in(20), in(8))));
}

TEST_CASE("all of a life with a tag that went on is taken back, to the tag's own number") {
  AtTag bench;
  bench.saw("tag stays");
  while (undoable(bench.shop.now())) undo(bench.shop.book, bench.shop.hand);
  CHECK_FALSE(bench.shop.now().tagKnown(*bench.board.tag));
  CHECK(prove(bench.shop.book).empty());
}

TEST_CASE("a short for the bin does not keep the tag, nor does a narrow strip") {
  AtTag bench;
  CHECK(bench.code([&] { bench.saw("keep none, bin 9 x 2, tag stays"); }) == "no-tag-end");
  Cutting ripped = keptAtTag(bench.board.id);
  // The length at the tag is ripped: 5 in thrown away, 2 7/8 in kept.
  ripped.pieces[3].kind = PieceKind::cut;
  const std::vector<Piece> strips{
      sample::piece(3, PieceKind::unusable, box(in(1), in(0), in(33, 56), in(5))),
      sample::piece(3, PieceKind::kerf, box(in(1), in(5), in(33, 56), in(5, 8))),
      sample::piece(3, PieceKind::offcut, box(in(1), in(5, 8), in(33, 56), in(8)))};
  ripped.pieces.insert(ripped.pieces.begin() + 4, strips.begin(), strips.end());
  PlanRequest request;
  request.job = bench.shop.now().job(bench.job).value();
  request.shop = bench.shop.now().shop();
  request.shop.keepWidth = in(2);
  Deviation stays;
  stays.tagStays = true;
  CHECK(bench.code([&] {
    static_cast<void>(asSawn(stays, {ripped, bench.now(bench.board.id), request, in(0, 8)}));
  }) == "no-tag-end");
}
