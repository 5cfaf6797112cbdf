#include "inventory/exchange/columns.h"

#include <catch2/catch.hpp>
#include <set>

#include "inventory/wood/unreadable.h"
#include "tests/exchange/rules.h"

using namespace flitch;
using namespace flitch::exchange;

namespace {

TallyLine tallyOf(const std::string& head, const std::string& row, Unit unit = Unit::inches) {
  const auto taken = readTally(readCsv(head + "\n" + row + "\n", "t.csv"), newBookRules(unit));
  REQUIRE(taken.rows.size() == 1);
  return taken.rows[0];
}

std::string refusalOf(const std::string& head, const std::string& row, Unit unit = Unit::inches) {
  try {
    (void)readTally(readCsv(head + "\n" + row + "\n", "t.csv"), newBookRules(unit));
  } catch (const Refusal& refusal) {
    return refusal.what();
  }
  return "taken";
}

MarkLine markOf(const std::string& row, Unit unit = Unit::inches) {
  return readMarks(readCsv("tag,line,kind,face,x_from,x_to,y_from,y_to\n" + row + "\n", "m.csv"),
                   newBookRules(unit))
      .rows.at(0);
}

/// A mark with all that may be said of it.
MarkLine deepMarkOf(const std::string& row) {
  return readMarks(
             readCsv("tag,line,kind,face,x_from,x_to,depth,b_x_from,b_x_to,b_y_from,b_y_to\n" +
                         row + "\n",
                     "m.csv"),
             newBookRules())
      .rows.at(0);
}
std::string deepRefusalOf(const std::string& row) {
  try {
    (void)deepMarkOf(row);
  } catch (const Refusal& refusal) {
    return refusal.what();
  }
  return "taken";
}

Part partOf(const std::string& head, const std::string& row) {
  return readParts(readCsv(head + "\n" + row + "\n", "p.csv"), newBookRules()).rows.at(0);
}

Length in64(std::int64_t whole, std::int64_t parts = 0) {
  return Length::sixtyFourths(whole * 64 + parts);
}

}  // namespace

TEST_CASE("every column of a tally lands where it belongs") {
  const TallyLine line = tallyOf(
      "note,looked,kept_back,bay,place_in_log,log,moisture_state,moisture,billed_bf,price_each,"
      "grade,twist,cup,hollow,crook,bent_at,bow,thickness,width_far,width,length,quarters,kind,"
      "species,tag",
      "top of the stack,\"A planed, B rough\",yes,B3,2,Q9,resting,13.5 %,8.25,\"$1,095\",No. 1 "
      "Common,3/8,1/8,far,3/4,40,1/2,1 1/4,8,10,9-6,5/4,offcut,White  Oak,T0042-F");
  CHECK(line.line == 2);
  CHECK(line.tag == TagCode{TagKind::board, 42});
  CHECK(line.count == 1);
  CHECK(line.species == "white oak");
  CHECK(line.nominal == Nominal::quarters(5));
  CHECK(line.kind == BoardKind::offcut);
  CHECK(line.outline[0] ==
        Outline::tapered(Length::inches(114), Length::inches(10), Length::inches(8)));
  CHECK(line.outline[1] == line.outline[0]);
  CHECK(line.thickness == in64(1, 16));
  CHECK(line.warp.bow == in64(0, 32));
  CHECK(line.warp.bentAt == Length::inches(40));
  CHECK(line.warp.crook == in64(0, 48));
  CHECK(line.warp.hollow == Edge::far);
  CHECK(line.warp.cup == in64(0, 8));
  CHECK(line.warp.twist == in64(0, 24));
  CHECK(line.grade == "No. 1 Common");
  CHECK(line.basis == PriceBasis::each);
  CHECK(line.price == Money::units(1095));
  CHECK(line.billed == Feet{8250});
  CHECK(line.moistureTenths == 135);
  CHECK(line.moistureState == MoistureState::resting);
  CHECK(line.log == "Q9");
  CHECK(line.placeInLog == 2);
  CHECK(line.bay == "B3");
  CHECK(line.looked == std::array{Looked::planed, Looked::rough});
  CHECK(line.keptBack);
  CHECK(line.note == "top of the stack");
}

TEST_CASE("what a tally leaves out has its plain meaning") {
  const TallyLine line = tallyOf("species,quarters,length,width", "ash,4,10,6");
  CHECK_FALSE(line.tag);
  CHECK(line.kind == BoardKind::plank);
  CHECK_FALSE(line.thickness);
  CHECK(line.warp == Warp{});
  CHECK_FALSE(line.billed);
  CHECK_FALSE(line.moistureTenths);
  CHECK(line.moistureState == MoistureState::ready);
  CHECK(line.looked == std::array{Looked::no, Looked::no});
  CHECK_FALSE(line.keptBack);
}

TEST_CASE("how a face was looked at") {
  const auto looked = [](const std::string& cell) {
    return tallyOf("species,quarters,length,width,looked", "ash,4,10,6,\"" + cell + "\"").looked;
  };
  CHECK(looked("rough") == std::array{Looked::rough, Looked::rough});
  CHECK(looked("Planed") == std::array{Looked::planed, Looked::planed});
  CHECK(looked("A rough, B no") == std::array{Looked::rough, Looked::no});
  CHECK(looked("B planed; A rough") == std::array{Looked::rough, Looked::planed});
  CHECK(looked("b rough") == std::array{Looked::no, Looked::rough});
}

TEST_CASE("units come from the cell, then the head, then the book") {
  const auto widths = [](const std::string& head, const std::string& length,
                         const std::string& width, Unit unit = Unit::inches) {
    const TallyLine line =
        tallyOf("species,quarters," + head, "ash,4/4," + length + "," + width, unit);
    return std::pair{line.outline[0].length(), line.outline[0].points()[0].far};
  };
  const std::pair tenByEight{Length::feet(10), Length::inches(8)};
  CHECK(widths("length,width", "10", "8") == tenByEight);
  CHECK(widths("length,width", "120 in", "203.2 mm") == tenByEight);
  CHECK(widths("length (in),width (mm)", "120", "203.2") == tenByEight);
  CHECK(widths("length_mm,width_cm", "3048", "20.32") == tenByEight);
  CHECK(widths("Length [m],Width in", "3.048", "8") == tenByEight);
  CHECK(widths("length_mm,width_mm", "10' 0\"", "8 in") == tenByEight);
  CHECK(widths("length,width", "3048", "203.2", Unit::millimetres) == tenByEight);
  CHECK(widths("length (ft),width (in)", "10", "8", Unit::millimetres) == tenByEight);
}

TEST_CASE("metric stock has a nominal thickness in millimetres") {
  CHECK(tallyOf("species,nominal_mm,length,width", "ash,27,2400 mm,180 mm").nominal ==
        Nominal::millimetres(27));
  CHECK(
      tallyOf("species,nominal_mm,length,width,price_per_m3", "ash,27 mm,2.4 m,18 cm,2450").basis ==
      PriceBasis::perCubicMetre);
  CHECK_THAT(refusalOf("species,quarters,length,width", "ash,27 mm,10,6"),
             Catch::Contains("millimetres go under nominal_mm"));
}

TEST_CASE("a live edge is an outline for each face") {
  const TallyLine slab = tallyOf("species,quarters,length,outline_a,outline_b",
                                 "cherry,8/4,7,0:0-14; 24:1/2-15-1/2; end:0-19,"
                                 "0:3/4-13 1/4; 84:3/4-18");
  CHECK(slab.outline[0] == Outline({{in64(0), in64(0), in64(14)},
                                    {in64(24), in64(0, 32), in64(15, 32)},
                                    {in64(84), in64(0), in64(19)}}));
  CHECK(slab.outline[1] ==
        Outline({{in64(0), in64(0, 48), in64(13, 16)}, {in64(84), in64(0, 48), in64(18)}}));
  const TallyLine metric = tallyOf("species,nominal_mm,length,outline_a",
                                   "cherry,50,2000,0:0-300; end:10-320", Unit::millimetres);
  CHECK(metric.outline[1].points()[1] ==
        OutlinePoint{Length::millimetres(2000), Length::millimetres(10), Length::millimetres(320)});
}

TEST_CASE("an outline takes its unit from the head") {
  const auto farOf = [](const std::string& head, Unit unit) {
    return tallyOf("species,quarters,length_mm,outline_a (" + head + ")",
                   "cherry,8/4,2000,0:0-10; end:0-12", unit)
        .outline[0]
        .highest();
  };
  CHECK(farOf("mm", Unit::inches) == Length::millimetres(12));
  CHECK(farOf("in", Unit::millimetres) == Length::inches(12));
  CHECK_THAT(refusalOf("species,quarters,length,outline_a (cm)", "cherry,8/4,7,0:0-30; end:0-31"),
             Catch::Contains("a unit that outlines do not take"));
}

TEST_CASE("sizes no board has get a maker's sentence") {
  const std::string head = "species,quarters,length,width";
  CHECK(refusalOf(head, "ash,4,106',6") ==
        "t.csv:2:length: `106'` is 106 ft; boards up to 60 ft are taken. Did you mean 10' 6\"? "
        "Accepted: 10-6, 10' 6\", 126 in, 3200 mm.");
  CHECK_THAT(refusalOf(head, "ash,4,106,6"), Catch::Contains("Did you mean 10' 6\" or 106 in?"));
  CHECK_THAT(refusalOf(head, "ash,4,1011',6"),
             Catch::Contains("is 1011 ft") && Catch::Contains("Did you mean 10' 11\"?"));
  CHECK_THAT(refusalOf(head, "ash,4,800 in,6"), Catch::Contains("is 66 ft 8 in"));
  CHECK_THAT(refusalOf(head, "ash,4,10,738"),
             Catch::Contains("is 61 ft 6 in; boards up to 5 ft (60 in) wide are taken. "
                             "Did you mean 7 3/8 or 738 mm?"));
  CHECK_THAT(refusalOf("species,quarters,length,width", "ash,8,25000,180", Unit::millimetres),
             Catch::Contains("is 25000 mm; boards up to 18288 mm long are taken"));
  CHECK(tallyOf(head, "ash,4,60,60").outline[0].length() == maxBoardLength);
}

TEST_CASE("an unknown column is named and left out") {
  const auto taken = readTally(
      readCsv("species,quarters,length,width,colour,price_each\nash,4,10,6,red,9\n", "t.csv"),
      newBookRules());
  REQUIRE(taken.warnings.size() == 1);
  CHECK(taken.warnings[0] == "t.csv: column `colour` is not known and was left out");
}

TEST_CASE("boards without a price are named as such") {
  const auto taken = readTally(
      readCsv("species,quarters,length,width,count\nash,4,10,6,3\n", "t.csv"), newBookRules());
  REQUIRE(taken.warnings.size() == 1);
  CHECK(taken.warnings[0] == "t.csv: 3 boards have no price and will stand in the book at nothing");
}

TEST_CASE("every column of the marks lands where it belongs") {
  const MarkLine mark = markOf("T0042-F,,Sound Knot,b,12 1/2,17,1-1/2,3");
  CHECK(mark.line == 2);
  CHECK(mark.tag == "T0042-F");
  CHECK(mark.tallyLine == 0);
  CHECK(mark.kind == "sound knot");
  CHECK(mark.face == DefectFace::b);
  CHECK(mark.xFrom == in64(12, 32));
  CHECK(mark.xTo == in64(17));
  CHECK(mark.yFrom == in64(1, 32));
  CHECK(mark.yTo == in64(3));

  const MarkLine whole = markOf(",3,good,,14,end,,");
  CHECK(whole.tag.empty());
  CHECK(whole.tallyLine == 3);
  CHECK(whole.face == DefectFace::through);
  CHECK_FALSE(whole.xTo);
  CHECK_FALSE(whole.yFrom);
  CHECK_FALSE(whole.yTo);

  CHECK(markOf("T0042F,,check,near,0,150,,", Unit::millimetres).xTo == Length::millimetres(150));
}

TEST_CASE("quick marks are lengths from the tag end") {
  const auto marks =
      readQuickMarks("12-17, 60-end; good 14-78, K 1-1/2-15 1/4, c 0-1-1/2", newBookRules());
  REQUIRE(marks.size() == 5);
  CHECK(marks[0].kind == "unsound knot");
  CHECK(marks[0].xFrom == in64(12));
  CHECK(marks[0].xTo == in64(17));
  CHECK_FALSE(marks[0].yFrom);
  CHECK(marks[0].face == DefectFace::through);
  CHECK_FALSE(marks[1].xTo);
  CHECK(marks[2].kind == "good");
  CHECK(marks[3].kind == "sound knot");
  CHECK(marks[3].xFrom == in64(1, 32));
  CHECK(marks[3].xTo == in64(15, 16));
  CHECK(marks[4].kind == "check");
  CHECK(marks[4].xTo == in64(1, 32));
  const std::string bad =
      GENERATE("", "12", "17-12", "12-12", "x 1-2", "K", "12-17-20", "0-800", "good", "-5-6");
  CHECK_THROWS_AS(readQuickMarks(bad, newBookRules()), Unreadable);
}

TEST_CASE("every column of the parts lands where it belongs") {
  const Part part = partOf(
      "part,count,spares,length,width,thickness,species,face_a,face_b,edges,recipe,"
      "staves,note",
      "\"base rail, long\",10,1,48 3/4,3 5/16,20.6375 mm,ash|white oak,Heart only,hidden,"
      "\"front clear, back hidden\",Random Widths,4 1/2 to 7,run along");
  CHECK(part.name == "base rail, long");
  CHECK(part.line == 1);
  CHECK(part.copies == 10);
  CHECK(part.spares == 1);
  CHECK(part.wanted() == 11);
  CHECK(part.length == in64(48, 48));
  CHECK(part.width == in64(3, 20));
  CHECK(part.thickness == in64(0, 52));
  CHECK(part.species == std::vector<std::string>{"ash", "white oak"});
  CHECK(part.faceA == "heart only");
  CHECK(part.faceB == "hidden");
  CHECK(part.edges == std::array<std::string, 2>{"clear", "hidden"});
  CHECK(part.recipe == "random widths");
  CHECK(part.stavesFrom == in64(4, 32));
  CHECK(part.stavesTo == in64(7, 0));
  CHECK(part.note == "run along");
  CHECK_THROWS_AS(partOf("part,length,width,thickness,species", "rail,3,3,952.5,ash"), Refusal);
}

TEST_CASE("what a parts file leaves out has its plain meaning") {
  const std::string head = "part,length,width,thickness,species,edges";
  const Part part = partOf(head, "rail,49 3/8,2 1/2,3/4,cherry,");
  CHECK(part.copies == 1);
  CHECK(part.spares == 0);
  CHECK(part.faceA == "clear");
  CHECK(part.faceB == "sound");
  CHECK(part.edges == std::array<std::string, 2>{"sound", "sound"});
  CHECK(part.recipe.empty());
  CHECK(partOf(head, "rail,49,2,3/4,cherry,clear").edges ==
        std::array<std::string, 2>{"clear", "clear"});
  CHECK(partOf(head, "rail,49,2,3/4,cherry,front clear").edges ==
        std::array<std::string, 2>{"clear", "sound"});
}

TEST_CASE("columns tell about themselves") {
  const auto columns = GENERATE(tallyColumns(), markColumns(), partColumns());
  std::set<std::string_view> names;
  for (const ImportColumn& column : columns) {
    CAPTURE(column.name);
    CHECK(names.insert(column.name).second);
    CHECK(column.text.size() >= 3);
    CHECK(column.name.find_first_not_of("abcdefghijklmnopqrstuvwxyz_3") == std::string_view::npos);
  }
  CHECK(names.size() >= 8);
}

TEST_CASE("a mark may say how deep it goes, or where it comes out on face B") {
  const MarkLine check = deepMarkOf("T0042-F,,check,A,12,17,1/16,,,,");
  CHECK(check.depth == Length::sixtyFourths(4));
  CHECK_FALSE(check.onB);
  const MarkLine knot = deepMarkOf("T0042-F,,sound knot,through,12,14,,15,17 1/2,,3");
  CHECK_FALSE(knot.depth);
  REQUIRE(knot.onB);
  CHECK(knot.onB->xFrom == Length::inches(15));
  CHECK(knot.onB->xTo == in64(17, 32));
  CHECK_FALSE(knot.onB->yFrom);
  CHECK(knot.onB->yTo == Length::inches(3));
  CHECK(deepRefusalOf("T0042-F,,check,through,12,17,1/16,,,,").find("has a depth") !=
        std::string::npos);
  CHECK(deepRefusalOf("T0042-F,,good,through,12,17,,14,,,").find("only a defect has") !=
        std::string::npos);
  CHECK(deepRefusalOf("T0042-F,,check,A,12,17,0,,,,").find("without any depth") !=
        std::string::npos);
  CHECK(deepRefusalOf("T0042-F,,check,A,12,17,,14,,,").find("goes through comes out on face B") !=
        std::string::npos);
}

TEST_CASE("a tally tells how the grain runs, a parts list which parts are straight") {
  const char* head = "species,quarters,length,width,grain_slope";
  CHECK(tallyOf(head, "cherry,4,8,6,1 in 15").grain == GrainSlope{150});
  CHECK(tallyOf(head, "cherry,4,8,6,straight").grain == GrainSlope{});
  CHECK_FALSE(tallyOf(head, "cherry,4,8,6,").grain);
  CHECK(refusalOf(head, "cherry,4,8,6,steep").find("not a slope of the grain") !=
        std::string::npos);
  CHECK(
      partOf("part,length,width,thickness,species,straight", "leg,28,2,1 3/4,cherry,yes").straight);
  CHECK_FALSE(partOf("part,length,width,thickness,species", "leg,28,2,1 3/4,cherry").straight);
}
