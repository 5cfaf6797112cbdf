#include "inventory/exchange/json.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <random>
#include <set>

using namespace flitch;
using namespace flitch::exchange;
using Json = nlohmann::ordered_json;

namespace {

ShopProfile randomProfile(std::mt19937_64& random) {
  const auto upTo = [&random](std::int64_t n) {
    return static_cast<std::int64_t>(random() % static_cast<std::uint64_t>(n));
  };
  ShopProfile shop;
  for (Length* length :
       {&shop.addLength, &shop.addWidth, &shop.addPerFace, &shop.referenceEdge, &shop.markMargin,
        &shop.endTrim, &shop.crosscutKerf, &shop.ripKerf, &shop.keepLength, &shop.keepWidth,
        &shop.planerWidth, &shop.jointerWidth, &shop.jointerShortest, &shop.planerThinnest}) {
    *length = Length::nanometres(upTo(100'000'000'000));
  }
  shop.keepBands.clear();
  for (std::int64_t i = upTo(4); i > 0; --i) {
    shop.keepBands.push_back(
        {Length::nanometres(upTo(10'000'000'000)), static_cast<int>(upTo(1001))});
  }
  shop.hourlyRate = Money::tenThousandths(upTo(1'000'000'000'000));
  shop.pullMinutes = static_cast<int>(upTo(1441));
  shop.cutMinutes = static_cast<int>(upTo(1441));
  shop.glueMinutes = static_cast<int>(upTo(1441));
  shop.shortageFactor = static_cast<int>(1 + upTo(1000));
  shop.demands.clear();
  for (std::int64_t i = upTo(4); i > 0; --i) {
    shop.demands.push_back(
        {"d\"\xC3\xA9" + std::to_string(i), {"stain", "", "a\nb"}, upTo(2) == 1, upTo(2) == 1});
  }
  shop.stopWhenBelow = Money::tenThousandths(upTo(INT64_MAX));
  shop.stopPermille = static_cast<int>(upTo(1001));
  shop.winter = {static_cast<int>(upTo(501)), static_cast<int>(5 + upTo(91))};
  shop.summer = {static_cast<int>(upTo(501)), static_cast<int>(5 + upTo(91))};
  shop.madePermille = static_cast<int>(40 + upTo(161));
  return shop;
}

template <class Read>
std::string whyNot(const std::string& body, Read&& read) {
  try {
    (void)read(body);
  } catch (const Refusal& refusal) {
    return refusal.what();
  }
  return "read";
}

}  // namespace

TEST_CASE("a profile comes back as it was stored") {
  CHECK(readProfile(writeProfile(startingProfile())) == startingProfile());
  std::mt19937_64 random(51);
  for (int round = 0; round < 300; ++round) {
    const ShopProfile shop = randomProfile(random);
    if (!(readProfile(writeProfile(shop)) == shop)) FAIL(writeProfile(shop));
  }
}

TEST_CASE("a profile of before the shop had seasons starts with the usual ones") {
  Json body = Json::parse(writeProfile(startingProfile()));
  for (const char* name : {"winter_tenths_celsius", "winter_humidity", "summer_tenths_celsius",
                           "summer_humidity", "made_permille"}) {
    body.erase(name);
  }
  CHECK(readProfile(body.dump()) == startingProfile());
}

TEST_CASE("choices come back as they were stored") {
  std::mt19937_64 random(52);
  for (int round = 0; round < 300; ++round) {
    Choices choices;
    choices.trustUnseen = random() % 2 == 1;
    for (std::size_t i = random() % 5; i > 0; --i) {
      choices.keptOut.push_back(BoardId{static_cast<std::int64_t>(random() >> 1)});
    }
    if (!(readChoices(writeChoices(choices)) == choices)) FAIL(writeChoices(choices));
  }
}

TEST_CASE("a stored profile with a field missing, strange or out of range is refused by name") {
  const Json whole = Json::parse(writeProfile(startingProfile()));
  // Books made before these settings came lack them.
  const std::set<std::string> later{"widest_solid_nm",       "narrowest_stave_nm",
                                    "widest_stave_nm",       "joint_stave_nm",
                                    "glue_trim_nm",          "winter_humidity",
                                    "winter_tenths_celsius", "summer_humidity",
                                    "summer_tenths_celsius", "made_permille",
                                    "narrowest_piece_nm",    "thickest_solid_nm",
                                    "lamina_trim_nm",        "resaw_kerf_nm",
                                    "resaw_height_nm",       "add_sawn_face_nm",
                                    "markup_permille",       "offcuts_at_zero",
                                    "sawn_edge_serves",      "short_length_nm",
                                    "short_width_nm",        "straight_grain_run_tenths",
                                    "glue_minutes"};
  for (const auto& [name, value] : whole.items()) {
    CAPTURE(name);
    Json body = whole;
    body.erase(name);
    CHECK(whyNot(body.dump(), readProfile) ==
          (later.contains(name) ? "read" : "profile." + name + ": the stored setting is missing."));
    body[name] = nullptr;
    CHECK_THAT(whyNot(body.dump(), readProfile), Catch::StartsWith("profile." + name + ": "));
    if (!value.is_number()) continue;
    body[name] = -1;
    CHECK(whyNot(body.dump(), readProfile) ==
          "profile." + name + ": the stored setting is out of its range.");
    body[name] = UINT64_MAX;
    CHECK(whyNot(body.dump(), readProfile) ==
          "profile." + name + ": the stored setting is out of its range.");
    body[name] = 1.5;
    CHECK(whyNot(body.dump(), readProfile) ==
          "profile." + name + ": the stored setting is no whole number.");
  }
  Json body = whole;
  body["colour"] = 1;
  CHECK(whyNot(body.dump(), readProfile) ==
        "profile.colour: the stored setting is not known to this version.");
  body = whole;
  body["demands"][0]["unseen"] = "yes";
  CHECK(whyNot(body.dump(), readProfile) ==
        "profile.demands.unseen: the stored setting is neither true nor false.");
  CHECK_THAT(whyNot("{", readProfile), Catch::Contains("not JSON"));
  CHECK_THAT(whyNot("[]", readProfile), Catch::Contains("is no object"));
  CHECK_THAT(whyNot("{\"trust_unseen\":true,\"kept_out\":[\"x\"]}", readChoices),
             Catch::Contains("choices.kept_out"));
}

TEST_CASE("damaged settings are refused, never worse") {
  const std::string body = writeProfile(startingProfile());
  std::mt19937_64 random(53);
  int refused = 0;
  for (int round = 0; round < 3000; ++round) {
    std::string damaged = body;
    for (std::size_t n = 1 + random() % 3; n > 0; --n) {
      damaged[random() % damaged.size()] = static_cast<char>(random());
    }
    try {
      (void)readProfile(damaged);
    } catch (const Refusal&) {
      ++refused;
    }
  }
  CHECK(refused > 2000);
}

TEST_CASE("a table's figures carry their units") {
  Table table;
  table.title = "Rack";
  table.columns = {{"tag", "Tag", false},  {"length", "Length", true}, {"billed", "bf", true},
                   {"cost", "Cost", true}, {"wood", "Wood", true},     {"share", "%", true},
                   {"cuts", "Cuts", true}, {"empty", "", false},       {"value_mm3", "", true}};
  table.rows = {
      {std::string("T0042-F"), std::monostate{}, Feet{7375}, Money::units(8), CubicMillimetres{5},
       Permille{125}, std::int64_t{3}, std::monostate{}, CubicMillimetres{6}},
      {std::string("T0043-D"), Length::inches(1), Feet{0}, Money(), CubicMillimetres{}, Permille{},
       std::int64_t{0}, std::monostate{}, CubicMillimetres{7}}};
  const Json out = json(table);
  CHECK(out["rows"][0].dump() ==
        R"({"tag":"T0042-F","length_nm":null,"billed_thousandths":7375,)"
        R"("cost_tenthousandths":80000,"wood_mm3":5,"share_permille":125,"cuts":3,"empty":null,)"
        R"("value_mm3":6})");
  CHECK(out["rows"][1]["length_nm"] == 25'400'000);
  CHECK(out["totals"].is_null());
  CHECK(out["columns"][1]["key"] == "length_nm");
}

TEST_CASE("a board says everything about itself") {
  Board board;
  board.id = BoardId{42};
  board.tag = TagCode{TagKind::board, 42};
  board.species = "cherry";
  board.outline.fill(
      Outline::tapered(Length::feet(10), Length::sixtyFourths(560), Length::sixtyFourths(528)));
  board.thickness = Length::sixtyFourths(60);
  board.looked[0] = Looked::rough;
  board.defects.push_back(
      {"split", DefectFace::through, {{}, {}, Length::inches(5), Length::inches(8)}});
  board.readings.push_back({"2026-03-12", 85, MoistureState::ready});
  board.wood = CubicMillimetres{1};
  const Json out = json(board, Unit::inches);
  CHECK(out["tag"] == "T0042-F");
  CHECK(out["nominal"] == "4/4");
  CHECK(out["length_nm"] == 3'048'000'000);
  CHECK(out["faces"][0]["looked"] == "rough");
  CHECK(out["faces"][1]["outline"][1]["far_nm"] == Length::sixtyFourths(528).nm());
  CHECK(out["marks"][0]["kind"] == "split");
  CHECK(out["marks"][0]["dx_nm"] == Length::inches(5).nm());
  CHECK(out["readings"][0]["tenths_percent"] == 85);
  CHECK(out["reserved_for"].is_null());
  CHECK(out["on_rack"] == true);
  board.tag.reset();
  CHECK(json(board, Unit::inches)["tag"].is_null());
}

TEST_CASE("a plan in figures") {
  CutPlan plan;
  plan.woodCost = Money::units(30);
  plan.cutCost = Money::units(4);
  plan.shortageCost = Money::units(2);
  plan.shorts.push_back({3, 2, true, "no face has been looked at"});
  Cutting cutting{BoardId{7}, {}, {}};
  cutting.pieces.push_back({0, PieceKind::cut, {{}, {}, Length::inches(10), Length::inches(5)}});
  cutting.pieces.push_back({2,
                            PieceKind::blank,
                            {{}, {}, Length::inches(9), Length::inches(4)},
                            Face::b,
                            Edge::far,
                            3,
                            1});
  plan.cuttings.push_back(cutting);
  Json out = json(plan);
  CHECK(out["total_tenthousandths"] == 360'000);
  CHECK(out["bound_tenthousandths"].is_null());
  CHECK(out["shorts"][0]["letter"] == "C");
  CHECK(out["cuttings"][0]["pieces"][1]["hand_mark"] == "C1");
  CHECK(out["cuttings"][0]["pieces"][1]["face_up"] == "B");
  CHECK_FALSE(out["cuttings"][0]["pieces"][0].contains("line"));
  plan.boundKind = PlanBound::area;
  plan.bound = Money::units(29);
  out = json(plan);
  CHECK(out["bound_kind"] == "area");
  CHECK(out["bound_tenthousandths"] == 290'000);
}

TEST_CASE("a document names its version and command first") {
  const Refusal refusal("bad-cell",
                        Complaint{"t.csv:2:length", "`x` is not a length", "x", "10-6"});
  CHECK(document("receive", {{"refusal", json(refusal)}}) == R"({
  "flitch": 1,
  "command": "receive",
  "refusal": {
    "code": "bad-cell",
    "complaints": [
      {
        "place": "t.csv:2:length",
        "sentence": "`x` is not a length",
        "value": "x",
        "accepted": "10-6"
      }
    ]
  }
}
)");
  // Bytes that are no text do not stop an answer.
  CHECK_NOTHROW(document("receive", {{"file", "\xFF.csv"}}));
}

TEST_CASE("choices come back as they were written, and older ones lack what came later") {
  Choices choices;
  choices.trustUnseen = true;
  choices.keptOut = {{4}};
  choices.pins = {{5}, {6}};
  Cutting cutting;
  cutting.board = {7};
  Piece piece;
  piece.depth = 3;
  piece.kind = PieceKind::blank;
  piece.at = {Length::inches(1), Length::inches(2), Length::inches(30), Length::inches(3)};
  piece.faceUp = Face::b;
  piece.frontEdge = Edge::far;
  piece.line = 2;
  piece.copy = 9;
  cutting.pieces = {piece};
  Layup layup;
  layup.copy = 1;
  layup.slot = 4;
  layup.section = 2;
  layup.gives = Length::inches(2);
  cutting.layups = {layup};
  choices.locks = {{cutting, false}};
  choices.laid = {{{8}, 3, piece.at, Face::b, Edge::far}};
  choices.wishes = {{"offcuts first", {{1}, {2}}, Money::units(3)}};
  CHECK(readChoices(writeChoices(choices)) == choices);
  CHECK(readChoices("{\"trust_unseen\":false,\"kept_out\":[]}") == Choices{});
  CHECK(writeChoices({}) == "{\"trust_unseen\":false,\"kept_out\":[]}");
  const auto refuses = [](const std::string& more) {
    CHECK_THROWS_AS(readChoices("{\"trust_unseen\":false,\"kept_out\":[]," + more + "}"), Refusal);
  };
  refuses("\"laid\":[{\"board\":8,\"line\":3,\"at_nm\":[1,2,3],\"face_up\":0,\"front_edge\":0}]");
  refuses("\"laid\":[{\"board\":8,\"line\":3,\"at_nm\":[1,2,3,4],\"face_up\":2,\"front_edge\":0}]");
  refuses("\"pins\":[true]");
}
