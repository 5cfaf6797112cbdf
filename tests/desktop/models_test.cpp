#include <QAbstractItemModelTester>
#include <catch2/catch.hpp>

#include "inventory/wood/measure.h"
#include "ui/desktop/parts_model.h"
#include "ui/desktop/plan_view.h"
#include "ui/desktop/rack_model.h"

using namespace flitch;
using namespace flitch::desktop;

namespace {

Board board(std::int64_t id, const std::string& species, int feet) {
  Board b;
  b.id = {id};
  b.tag = TagCode{TagKind::board, nextIssuable(TagKind::board, 40 + id)};
  b.species = species;
  b.outline[0] = b.outline[1] =
      Outline::tapered(Length::feet(feet), Length::inches(8), Length::inches(8));
  b.wood = volumeOf(b);
  b.measuredFeet = {1000 * feet};
  b.cost = Money::units(10 * feet);
  b.looked = {Looked::rough, Looked::no};
  return b;
}

Rect inches(std::int64_t x, std::int64_t y, std::int64_t dx, std::int64_t dy) {
  return {Length::inches(x), Length::inches(y), Length::inches(dx), Length::inches(dy)};
}

}  // namespace

TEST_CASE("The rack's model keeps Qt's rules while boards come and go") {
  RackModel model(Unit::inches, "$", nullptr);
  QAbstractItemModelTester tester(&model, QAbstractItemModelTester::FailureReportingMode::Fatal);
  const ShopProfile shop = startingProfile();
  CHECK(model.rowCount() == 0);
  model.setBoards({board(1, "cherry", 10), board(2, "ash", 8), board(3, "cherry", 6)}, shop);
  REQUIRE(model.rowCount() == 3);
  model.setFilter("cherry");
  REQUIRE(model.rowCount() == 2);
  CHECK(model.rowOf({2}) == -1);
  model.sort(RackModel::length, Qt::AscendingOrder);
  CHECK(model.at(0).id == BoardId{3});
  model.sort(RackModel::length, Qt::DescendingOrder);
  CHECK(model.at(0).id == BoardId{1});
  CHECK(model.data(model.index(0, RackModel::length), Qt::DisplayRole).toString() == "10'");
  CHECK(model.data(model.index(0, RackModel::clearB), Qt::DisplayRole).toString() ==
        QString(QChar(0x2013)));
  model.setFilter("");
  model.setBoards({}, shop);
  CHECK(model.rowCount() == 0);
}

TEST_CASE("The clear share counts overlapping marks once, a good stretch bars the rest") {
  const ShopProfile shop = startingProfile();
  const Demand& clear = *findDemand(shop, "clear");
  Board b = board(1, "cherry", 10);  // 120 x 8 in
  CHECK(clearPermille(b, Face::a, clear) == 1000);
  CHECK(clearPermille(b, Face::b, clear) == -1);  // nobody has looked
  b.defects = {{"sound knot", DefectFace::a, inches(10, 0, 12, 4)}};
  CHECK(clearPermille(b, Face::a, clear) == 950);  // 48 of 960 square inches
  b.defects.push_back({"split", DefectFace::through, inches(10, 2, 12, 2)});
  CHECK(clearPermille(b, Face::a, clear) == 950);  // within the knot
  b.defects.push_back({"sapwood", DefectFace::a, inches(0, 6, 120, 2)});
  CHECK(clearPermille(b, Face::a, clear) == 950);  // clear allows sapwood
  b.defects = {{"good", DefectFace::through, inches(30, 0, 60, 8)}};
  CHECK(clearPermille(b, Face::a, clear) == 500);
}

TEST_CASE("The largest clear places are found around a mark") {
  const ShopProfile shop = startingProfile();
  const Demand& clear = *findDemand(shop, "clear");
  Board b = board(1, "cherry", 10);
  b.defects = {{"sound knot", DefectFace::a, inches(40, 0, 10, 3)}};
  const std::vector<Rect> places = clearPlaces(b, Face::a, clear, Length{}, 3);
  REQUIRE(places.size() == 2);
  CHECK(places[0] == inches(0, 3, 120, 5));  // over the knot, the whole length
  CHECK(places[1] == inches(50, 0, 70, 8));  // beside it, the whole width
  CHECK(clearPlaces(b, Face::b, clear, Length{}, 3).empty());
}

TEST_CASE("The parts' model keeps Qt's rules and says what a part asks") {
  PartsModel model(Unit::inches, nullptr);
  QAbstractItemModelTester tester(&model, QAbstractItemModelTester::FailureReportingMode::Fatal);
  Job job;
  Part part;
  part.line = 9;
  part.name = "case bottom";
  part.copies = 10;
  part.spares = 1;
  part.length = Length::sixtyFourths(64 * 49 + 24);
  part.width = Length::inches(4);
  part.thickness = Length::inches(1);
  part.species = {"ash", "white oak"};
  part.faceA = "hidden";
  job.parts = {part};
  job.parts.push_back(part);
  job.parts.back().recipe = "steam bent";
  model.setJob(job, startingProfile(), {{9, 2, false, ""}});
  REQUIRE(model.rowCount() == 3);  // the last waits for another part
  CHECK(model.isNew(2));
  const auto cell = [&](int row, int column) {
    return model.data(model.index(row, column), Qt::DisplayRole).toString().toStdString();
  };
  CHECK(cell(0, PartsModel::letter) == "J");  // no I
  CHECK(cell(0, PartsModel::count) == "10 + 1");
  CHECK(cell(0, PartsModel::length) == "49 3/8");
  CHECK(model.secondLine(0) == "ash or white oak, solid");
  CHECK(model.secondLine(1) == "ash or white oak, steam bent: waits");
  CHECK(model.movementSentence(0).isEmpty());
  CHECK(model.shortOf(0) == 2);
  CHECK(model.blank(0).has_value());
  CHECK_FALSE(model.blank(1).has_value());
  CHECK(asksText(part) == "face A hidden, face B sound, front edge sound, other edge sound");
}

TEST_CASE("A wide part says how far the year moves it") {
  PartsModel model(Unit::inches, nullptr);
  Job job;
  Part top;
  top.line = 1;
  top.name = "top";
  top.width = Length::inches(24);
  top.species = {"cherry"};
  top.recipe = "edge-glued";
  job.parts = {top};
  model.setJob(job, startingProfile(), {});
  // 24 x 0.00248 x 4.7 points: 0.28 in.
  CHECK(model.secondLine(0) == "cherry, moves 9/32, glued");
  CHECK(model.movementSentence(0).startsWith("Over the year it swells 3/16 in, shrinks 1/8 in."));
  CHECK(model.data(model.index(0, PartsModel::name), Qt::ToolTipRole)
            .toString()
            .contains("a gap of 3/32 in at each edge"));
}

TEST_CASE("What is short or waits is said in whole sentences") {
  PlanSheet sheet;
  Part part;
  part.line = 1;
  part.name = "top";
  sheet.job.parts = {part};
  CHECK(cautionsOf(sheet).empty());
  sheet.plan.shorts = {{1, 2, true, "no clear run"}};
  sheet.plan.waiting = {1};
  const std::vector<QString> said = cautionsOf(sheet);
  REQUIRE(said.size() == 2);
  CHECK(said[0].startsWith("Short: 2 of A top. No clear run. Only because faces"));
  CHECK(said[1].startsWith("Waiting, not in this plan: A top."));
}
