#include "inventory/records/pull_list.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/records/bench.h"

using namespace flitch;
using bench::in;
using bench::plank;

namespace {

Board board(int id, const std::string& species, const std::string& bay, Length length = in(96)) {
  Board b = plank(id, length, in(8), in(8), Money::units(50));
  b.tag = TagCode{TagKind::board, id};
  b.species = species;
  b.bay = bay;
  b.wood = volumeOf(b);
  b.measuredFeet = Feet{5'333};
  return b;
}

struct Wanted {
  std::vector<Board> boards{board(1, "cherry", "B10"), board(2, "ash", "B2"),
                            board(3, "cherry", "B2"), board(4, "cherry", "A1")};
  CutPlan plan;
  Job job;
  Wanted() {
    job.id = JobId{7};
    job.name = "Shelf";
    for (const Board& b : boards) plan.cuttings.push_back({b.id, {}});
  }
  [[nodiscard]] PullList list(const std::set<BoardId>& sawn = {}) const {
    return pullList(plan, boards, sawn, job, {}, Unit::inches);
  }
};

std::vector<std::int64_t> serials(const PullList& list) {
  std::vector<std::int64_t> all;
  for (const PullLine& line : list.lines) all.push_back(line.board.tag->serial);
  return all;
}

std::string refused(PullList& list, const Board& scanned) {
  try {
    tick(list, scanned);
  } catch (const Refusal& refusal) {
    return refusal.what();
  }
  return "";
}

}  // namespace

TEST_CASE("figures in the name of a bay count as numbers") {
  CHECK(naturallyBefore("B2", "B10"));
  CHECK_FALSE(naturallyBefore("B10", "B2"));
  CHECK(naturallyBefore("A9", "B1"));
  CHECK(naturallyBefore("B2", "B2a"));
  CHECK_FALSE(naturallyBefore("B02", "B2"));
  CHECK_FALSE(naturallyBefore("B2", "B02"));
  CHECK(naturallyBefore("", "A"));
  CHECK_FALSE(naturallyBefore("", ""));
}

TEST_CASE("the pull list goes bay by bay and leaves out what was sawn") {
  const Wanted wanted;
  CHECK(serials(wanted.list()) == std::vector<std::int64_t>{4, 2, 3, 1});
  const PullList list = wanted.list({wanted.boards[1].id});
  CHECK(serials(list) == std::vector<std::int64_t>{4, 3, 1});
  CHECK(list.sawn.size() == 1);
  CHECK(list.feet == Feet{3 * 5'333});
  CHECK_THROWS_AS(pullList(wanted.plan, {}, {}, wanted.job, {}, Unit::inches),
                  std::invalid_argument);
}

TEST_CASE("a board scanned is ticked, a wrong one is refused with the right one's bay") {
  const Wanted wanted;
  PullList list = wanted.list();
  tick(list, wanted.boards[0]);
  CHECK(list.left() == 3);
  tick(list, wanted.boards[0]);
  CHECK(list.left() == 3);
  // Same wood, same bay: the board beside it was meant.
  CHECK(refused(list, board(9, "cherry", "B2")) ==
        text(*board(9, "cherry", "B2").tag) +
            ", cherry 4/4, bay B2, is not wanted for Shelf. Accepted: " +
            text(*wanted.boards[2].tag) + ", cherry 4/4, bay B2.");
  // Same wood in another bay comes before other wood in the same bay.
  tick(list, wanted.boards[2]);
  CHECK(refused(list, board(9, "cherry", "B2")).find("bay A1.") != std::string::npos);
  CHECK(refused(list, board(9, "walnut", "B2")).find("ash 4/4, bay B2.") != std::string::npos);
  CHECK(refused(list, board(9, "walnut", "D4")).find("bay A1.") != std::string::npos);
  tick(list, wanted.boards[1]);
  tick(list, wanted.boards[3]);
  CHECK(refused(list, board(9, "walnut", "D4")).find("no more boards") != std::string::npos);
  CHECK(list.left() == 0);

  PullList later = wanted.list({wanted.boards[3].id});
  CHECK(refused(later, wanted.boards[3]).find("was sawn already for Shelf") != std::string::npos);
}

TEST_CASE("a board that is gone or held for another job is named and never ticked") {
  Wanted wanted;
  wanted.boards[0].wood = {};
  wanted.boards[2].reservedFor = JobId{8};
  wanted.boards[2].reservedName = "Bench";
  PullList list = wanted.list();
  CHECK(refused(list, wanted.boards[0]).find("no longer on the rack") != std::string::npos);
  CHECK(refused(list, wanted.boards[2]).find("held for Bench") != std::string::npos);
  CHECK(list.left() == 4);
  CHECK(std::get<std::string>(pullTable(list, Unit::inches).rows[2].back()) == "held for Bench");
}

TEST_CASE("a heavy board says so on the pull list, by the limits of lifting") {
  // The shop's note on safety: a caution at 50 lb (NIOSH's 51 lb under ideal conditions), two
  // people at 80 lb (common practice, no source).
  Wanted wanted;
  wanted.boards[1] = board(2, "white oak", "B2", in(216));
  wanted.boards[1].nominal = Nominal::quarters(8);
  wanted.boards[1].thickness = in(2);
  wanted.boards[2] = board(3, "cherry", "B2", in(114));
  wanted.boards[2].nominal = Nominal::quarters(12);
  wanted.boards[2].thickness = in(3);
  const PullList list = wanted.list();
  for (const PullLine& line : list.lines) {
    const double pounds = line.kilograms * poundsPerKilogram;
    INFO(pounds);
    const std::string said{advice(line.lifting)};
    if (line.board.tag->serial == 2) {
      CHECK(pounds > 80);
      CHECK(said == "two people");
    } else if (line.board.tag->serial == 3) {
      CHECK(pounds > 51);
      CHECK(pounds < 79);
      CHECK(said == "mind how you lift it");
    } else {
      CHECK(pounds < 49);
      CHECK(said.empty());
    }
  }
  CHECK(pullTable(list, Unit::inches).note.find("local rules") != std::string::npos);
}
