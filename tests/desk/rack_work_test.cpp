#include "inventory/desk/rack_work.h"

#include <catch2/catch.hpp>

#include "inventory/desk/count.h"
#include "inventory/desk/names.h"
#include "inventory/desk/returns.h"
#include "tests/desk/shop.h"

using namespace flitch;
using namespace flitch::desk;
using sample::box;
using sample::in;
using sample::plank;
using sample::Shop;

namespace {

template <class Work>
std::string codeOf(const Work& work) {
  try {
    work();
  } catch (const Refusal& refusal) {
    return refusal.code();
  }
  return "";
}

/// Three planks in B3 at $30 and one in C1 at $36; the rack as it was first.
struct Bench : Shop {
  std::vector<Board> first;

  Bench() {
    TallyLine three = plank(in(96), in(8));
    three.count = 3;
    three.bay = "B3";
    TallyLine other = plank(in(96), in(9));
    other.bay = "C1";
    receive({three, other});
    first = now().rack();
  }
  [[nodiscard]] Board at(std::size_t i) const { return now().board(first[i].id).value(); }
  /// The rack is as at first again, once the last entry is undone.
  void takenBack() {
    undo(book, hand);
    std::vector<Board> rack = now().rack();
    REQUIRE(rack.size() == first.size());
    for (std::size_t i = 0; i < rack.size(); ++i) {
      rack[i].version = first[i].version;
      CHECK(rack[i] == first[i]);
    }
    CHECK(faults().empty());
  }
};

}  // namespace

TEST_CASE_METHOD(Bench, "each thing done to boards is one entry and is taken back whole") {
  SECTION("moved") {
    moveTo(book, {first[0], first[3]}, "D9", hand);
    CHECK(at(0).bay == "D9");
    CHECK(at(3).bay == "D9");
    CHECK(at(1).bay == "B3");
  }
  SECTION("noted") {
    note(book, {first[0]}, "curl", hand);
    CHECK(at(0).note == "curl");
  }
  SECTION("kept back") {
    keepBack(book, {first[0]}, true, hand);
    CHECK(at(0).keptBack);
  }
  SECTION("measured") {
    takeReading(book, {first[0], first[1]}, {"2026-06-01", 120, MoistureState::resting}, hand);
    CHECK(at(1).readings == std::vector<Reading>{{"2026-06-01", 120, MoistureState::resting}});
  }
  SECTION("tagged anew") {
    const Retagged retagged = replaceTag(book, first[0], std::nullopt, hand);
    CHECK(text(retagged.tag) == "T0005-P");
    CHECK(at(0).tag == retagged.tag);
    CHECK(boardNamed(now(), "T0005-P").id == first[0].id);
    CHECK(codeOf([&] { (void)boardNamed(now(), "T0001-X"); }) == "replaced-tag");
    // The worn tag hangs on no board again, blank or not.
    CHECK_FALSE(now().tagReserved({TagKind::board, 1}));
    CHECK(codeOf([&] {
            replaceTag(book, first[1], TagCode{TagKind::board, 1}, hand);
          }) == "tag-taken");
    TallyLine line = plank(in(96), in(8));
    line.tag = TagCode{TagKind::board, 1};
    CHECK(codeOf([&] { receive({line}); }) == "bad-tag");
  }
  SECTION("retired") {
    retire(book, {first[0], first[1]}, "rot", hand);
    CHECK(now().rack().size() == 2);
    CHECK(wentText(now(), at(0)) == "retired");
    CHECK(at(0).cost == Money());
  }
  SECTION("sent back") {
    sendBack(book, first[3], "split", Money::units(20), hand);
    CHECK(wentText(now(), at(3)) == "returned");
    const BoardReturn sent = now().returns().at(0);
    CHECK(sent.cost == first[3].cost);
    CHECK(sent.expected == Money::units(20));
    CHECK_FALSE(sent.credited);
  }
  SECTION("counted") {
    const Counted bay = count(book, "b3", {"T0001-X", "T0004R"}, 0, false, hand);
    CHECK(bay.missing.size() == 2);
    CHECK(at(1).wood.value == 0);
    CHECK(at(3).bay == "B3");
  }
  CHECK(faults().empty());
  takenBack();
}

TEST_CASE_METHOD(Bench, "readings stand by day, the newest of a day holds") {
  takeReading(book, {at(0)}, {"2026-06-02", 110, MoistureState::resting}, hand);
  takeReading(book, {at(0)}, {"2026-06-01", 140, MoistureState::wet}, hand);
  takeReading(book, {at(0)}, {"2026-06-02", 90, MoistureState::ready}, hand);
  CHECK(at(0).readings == std::vector<Reading>{{"2026-06-01", 140, MoistureState::wet},
                                               {"2026-06-02", 90, MoistureState::ready}});
}

TEST_CASE_METHOD(Bench, "a board counted missing is found again with what it cost, elsewhere") {
  count(book, "B3", {"T0002-V", "T0003-T"}, 0, false, hand);
  CHECK(wentText(now(), at(0)) == "missing");
  const Counted there = count(book, "C1", {"T0001-X", "T0004-R"}, 1, false, hand);
  REQUIRE(there.found.size() == 1);
  CHECK(there.unexpected.empty());
  CHECK(at(0).cost == first[0].cost);
  CHECK(at(0).wood == first[0].wood);
  CHECK(at(0).bay == "C1");
  CHECK(faults().empty());
  // What stands on the first count keeps it.
  undo(book, hand);
  undo(book, hand);
  CHECK(at(0).bay == "B3");
  CHECK(faults().empty());
}

TEST_CASE_METHOD(Bench,
                 "a count says what is off the rack, blank or misread, and posts no misread") {
  const std::vector<TagCode> blank = reserveTags(book, 1, hand);
  retire(book, {first[3]}, "rot", hand);
  const Counted bay = compare(now(), "B3", {"T0001-X", "T0004-R", symbolText(blank[0]), "t0001x"},
                              0, false, Unit::inches);
  CHECK(bay.seen.size() == 1);
  CHECK(bay.gone.size() == 1);
  CHECK(bay.blank == blank);
  const EntryId last = now().lastEntry();
  CHECK(codeOf([&] { count(book, "B3", {"T0001-X", "T0002-X"}, 0, false, hand); }) == "bad-code");
  CHECK(codeOf([&] { count(book, "B3", {"2"}, 0, false, hand); }) == "bad-code");
  CHECK(now().lastEntry() == last);
  count(book, "B3", {"1", "2", "3"}, 0, true, hand);
  CHECK(now().rack().size() == 3);
}

TEST_CASE_METHOD(Bench, "a credit settles what a board sent back had cost") {
  const Money cost = first[3].cost;
  sendBack(book, first[3], "split", std::nullopt, hand);
  const auto credited = GENERATE(Money(), Money::units(30), Money::units(36), Money::units(50));
  const Board gone = at(3);
  credit(book, gone, credited, "2026-06-20", hand);
  const BoardReturn sent = now().returns().at(0);
  CHECK(sent.expected == cost);
  CHECK(sent.received == credited);
  CHECK(sent.credited);
  CHECK(faults().empty());
  CHECK(codeOf([&] { credit(book, gone, credited, "2026-06-21", hand); }) == "credited");
  // The return stands while its credit does.
  const Undone undone = undo(book, hand);
  CHECK(undone.what.find("credited") == 0);
  CHECK_FALSE(now().returns().at(0).credited);
  undo(book, hand);
  CHECK(now().returns().empty());
  CHECK(at(3).cost == cost);
  CHECK(codeOf([&] { credit(book, at(3), credited, "2026-06-21", hand); }) == "not-sent-back");
}

TEST_CASE_METHOD(Bench, "what cannot be done to a board is refused and leaves the book alone") {
  const EntryId last = now().lastEntry();
  CHECK(codeOf([&] { retire(book, {first[0]}, "  ", hand); }) == "no-reason");
  CHECK(codeOf([&] { moveTo(book, {first[0]}, " ", hand); }) == "no-bay");
  CHECK(codeOf([&] { moveTo(book, {}, "B3", hand); }) == "no-boards");
  CHECK(codeOf([&] { note(book, {first[0]}, std::string(1001, 'x'), hand); }) == "long-note");
  CHECK(codeOf([&] { (void)boardToChange(now(), "1", false, Unit::inches); }) == "not-sure");
  CHECK(boardToChange(now(), "1", true, Unit::inches).id == first[0].id);
  CHECK(codeOf([&] { (void)bayNamed(now(), "Cellar"); }) == "unknown-bay");
  CHECK(bayOrNew(now(), "Cellar") == "Cellar");
  CHECK(bayOrNew(now(), "c1") == "C1");
  CHECK(now().lastEntry() == last);
  keepBack(book, {first[0]}, true, hand);
  // Read before that change.
  CHECK(codeOf([&] { note(book, {first[0]}, "late", hand); }) != "");
  CHECK(at(0).note.empty());
}

TEST_CASE_METHOD(Bench, "a bay is named by its tag, and has one") {
  const std::vector<TagCode> tags = tagBays(book, {"B3", "Lean-to"}, hand);
  REQUIRE(tags.size() == 2);
  CHECK(tags[0].kind == TagKind::bay);
  CHECK(bayNamed(now(), symbolText(tags[1])) == "Lean-to");
  const EntryId last = now().lastEntry();
  CHECK(tagBays(book, {"B3"}, hand) == std::vector<TagCode>{tags[0]});
  CHECK(now().lastEntry() == last);
  CHECK(bayContents(now().rack(), "B3") == "cherry 4/4");
  CHECK(codeOf([&] { (void)bayOrNew(now(), "B0001-Y"); }) == "wrong-check");
  undo(book, hand);
  CHECK_FALSE(now().bayTag("B3"));
  // The serial is not given again.
  CHECK(tagBays(book, {"C1"}, hand).at(0) != tags[0]);
}
