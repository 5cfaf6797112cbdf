#include <catch2/catch.hpp>

#include "inventory/records/shop.h"
#include "tests/store/sample.h"

using namespace flitch;
using namespace flitch::store;

TEST_CASE("a new book tells its facts and holds nothing") {
  const sample::Folder folder;
  const Book book = Book::create(folder.file("shop.flitch"), sample::facts());
  const BookFacts facts = book.facts();
  CHECK(facts.name == "Wendlehaven");
  CHECK(facts.unit == Unit::inches);
  CHECK(facts.schema == 12);
  CHECK(facts.madeAt == "2026-03-01T08:00:00.000Z");
  const Snapshot snapshot = book.read();
  CHECK(snapshot.rack().empty());
  CHECK(snapshot.jobs().empty());
  CHECK(snapshot.entries().empty());
  CHECK(snapshot.lastEntry() == EntryId{});
  ShopProfile shop = startingProfile();
  shop.id = snapshot.shop().id;
  CHECK(snapshot.shop() == shop);
  CHECK(sample::checked(book) == "");
}

TEST_CASE("the kinds of mark a book starts with are those of the records") {
  const sample::Folder folder;
  const Book book = Book::create(folder.file("shop.flitch"), sample::facts());
  const auto kinds = book.read().defectKinds();
  const auto& known = startingDefectKinds();
  REQUIRE(kinds.size() == known.size());
  for (std::size_t i = 0; i < known.size(); ++i) {
    CHECK(kinds[i].name == known[i].name);
    CHECK(kinds[i].letter == known[i].letter);
    CHECK(kinds[i].sound == known[i].sound);
  }
}

TEST_CASE("a board comes back as it was put in, every field") {
  const sample::Folder folder;
  const std::string path = folder.file("shop.flitch");
  Board board = sample::everyField();
  {
    Book book = Book::create(path, sample::facts());
    const auto received = sample::receive(book, {board, sample::plank()});
    board.id = received.boards[0];
    board.delivery = received.delivery;
    board.supplier = "Norling";
    board.version = received.entry;
    board.cost = Money::units(60);
  }
  const Book book = Book::open(path, Access::read);
  const Snapshot snapshot = book.read();
  REQUIRE(snapshot.board(board.id));
  CHECK(*snapshot.board(board.id) == board);
  CHECK(snapshot.boardByTag(*board.tag) == board);
  REQUIRE(snapshot.rack().size() == 2);
  CHECK(snapshot.rack()[0] == board);
  CHECK(snapshot.boardsOf(board.delivery) == std::vector<BoardId>{{1}, {2}});
  CHECK(snapshot.defectKinds().back().name == "worm track");
  CHECK_FALSE(snapshot.defectKinds().back().sound);
}

TEST_CASE("a job and a plan come back as they were put in") {
  const sample::Folder folder;
  Book book = Book::create(folder.file("shop.flitch"), sample::facts());
  const auto received = sample::receive(book, {sample::plank(), sample::plank()});
  const JobId job = sample::addJob(book, "Map chest");
  const PlanId id = sample::keep(book, job, received.boards);
  const Snapshot snapshot = book.read();

  Job expected = sample::jobNamed("Map chest");
  expected.id = job;
  expected.version = EntryId{2};
  CHECK(snapshot.job(job) == expected);
  CHECK(snapshot.jobNamed("Map chest") == expected);
  CHECK_FALSE(snapshot.jobNamed("map chest"));
  CHECK(snapshot.jobs() == std::vector<Job>{expected});

  const auto stored = snapshot.newestPlan(job);
  REQUIRE(stored);
  CHECK(stored->kept == EntryId{3});
  CHECK(stored->sawn.empty());
  const CutPlan& plan = stored->plan;
  CHECK(plan.id == id);
  CHECK(plan.choices.trustUnseen);
  CHECK(plan.choices.keptOut == std::vector<BoardId>{{77}});
  CHECK(plan.shorts ==
        std::vector<ShortPart>{{1, 2, true, "the longest such run in cherry 4/4 is 41 in"}});
  CHECK(plan.waiting == std::vector<int>{2, 5});
  CHECK(plan.ending == PlanEnding::goodEnough);
  CHECK(plan.boundKind == PlanBound::area);
  CHECK(plan.seed == -7);
  CHECK(plan.effort == 123'456'789'012);
  REQUIRE(plan.cuttings.size() == 2);
  for (std::size_t i = 0; i < 2; ++i) {
    CHECK(plan.cuttings[i] == sample::cuttingOf(*snapshot.board(received.boards[i])));
  }
  CHECK(snapshot.board(received.boards[0])->reservedName == "Map chest");
  CHECK(snapshot.entries().at(1).job == job);
}

TEST_CASE("a board's whole life balances and is undone step by step") {
  const sample::Folder folder;
  Book book = Book::create(folder.file("shop.flitch"), sample::facts());
  const auto received = sample::receive(book, {sample::plank(), sample::plank()});
  const JobId job = sample::addJob(book, "Map chest");
  const PlanId plan = sample::keep(book, job, received.boards);
  const auto rackBefore = book.read().rack();
  const auto sawn = sample::saw(book, plan, received.boards[0]);
  CHECK(sample::checked(book) == "");

  const Snapshot snapshot = book.read();
  const Board board = *snapshot.board(received.boards[0]);
  CHECK(board.wood == CubicMillimetres{});
  CHECK(board.cost == Money());
  CHECK_FALSE(board.reservedFor);
  REQUIRE(sawn.offcuts.size() == 1);
  CHECK(snapshot.board(sawn.offcuts[0])->parent == board.id);
  CHECK(snapshot.board(sawn.offcuts[0])->cost > Money());
  CHECK(snapshot.made(job) == std::map<int, std::set<int>>{{1, {1}}});
  CHECK(snapshot.plan(plan)->sawn == std::vector<BoardId>{board.id});
  CHECK(snapshot.boardsOf(received.delivery).size() == 2);

  const auto done = snapshot.doneCuttings(job);
  REQUIRE(done.size() == 1);
  CHECK(done[0].board.wood == rackBefore[0].wood);
  CHECK(done[0].board.cost == rackBefore[0].cost);
  CHECK(done[0].cutting == sample::cuttingOf(board));
  CHECK(done[0].became.begin()->second == sawn.offcuts[0]);
  CHECK(snapshot.doneCuttings(JobId{job.value + 1}).empty());

  CubicMillimetres volume;
  Money cost;
  for (const LedgerSum& sum : snapshot.sawnSums(job)) {
    volume += sum.volume;
    cost += sum.cost;
  }
  CHECK(volume == rackBefore[0].wood);
  CHECK(cost == rackBefore[0].cost);

  const EntryId undone = sample::undo(book, sawn.entry);
  CHECK(sample::checked(book) == "");
  // The hold is a new one of the same job.
  CHECK(snapshot.rack() == rackBefore);
  CHECK(snapshot.made(job).empty());
  CHECK(snapshot.sawnSums(std::nullopt).empty());
  CHECK(snapshot.doneCuttings(std::nullopt).empty());
  CHECK(snapshot.board(sawn.offcuts[0])->withdrawn);
  CHECK_FALSE(snapshot.board(sawn.offcuts[0])->tag);
  CHECK(snapshot.entries().front().reverses == sawn.entry);
  CHECK(snapshot.entries().at(1).reversedBy == undone);
  CHECK_THROWS_WITH(sample::undo(book, sawn.entry), Catch::Contains("undone already"));
}

TEST_CASE("a species of the maker's own is kept, replaced by a newer row, and taken back") {
  const sample::Folder folder;
  Book book = Book::create(folder.file("shop.flitch"), sample::facts());
  CHECK(book.read().ownSpecies().empty());
  const auto add = [&](const Species& species) {
    return book.change({"species added", {}, species.name, {}}, sample::hand(),
                       [&](Writer& writer) { writer.addSpecies(species); });
  };
  const std::string source = "own scales, 2026";
  const Species pear{"pear", "Pyrus communis",     {690, false, source},  {},
                     {},     {390, false, source}, {1140, false, source}, {},
                     true};
  add(pear);
  CHECK(book.read().ownSpecies() == std::vector<Species>{pear});
  CHECK(book.read().species() == std::vector<std::string>{"pear"});
  Species heavier = pear;
  heavier.gravity.value = 710;
  const EntryId second = add(heavier);
  CHECK(speciesNamed(" Pear", book.read().ownSpecies()) == heavier);
  sample::undo(book, second);
  CHECK(speciesNamed("pear", book.read().ownSpecies()) == pear);
  CHECK(sample::checked(book) == "");
}
