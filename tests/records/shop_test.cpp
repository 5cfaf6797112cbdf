#include <catch2/catch.hpp>

#include "inventory/records/refusal.h"
#include "inventory/wood/unreadable.h"
#include "tests/records/bench.h"

using namespace flitch;
using bench::in;

TEST_CASE("the starting table of demands") {
  const ShopProfile shop = startingProfile();
  struct Row {
    const char* kind;
    bool hidden, sound, clear, heart;
  };
  // hidden takes all but check, split, wane and bark pocket; sound takes sound knot, stain and
  // sapwood; clear takes sapwood; heart only takes nothing. Gum counts as stain, unknown kinds as
  // an unsound knot.
  const Row rows[] = {
      {"sound knot", true, true, false, false}, {"unsound knot", true, false, false, false},
      {"check", false, false, false, false},    {"split", false, false, false, false},
      {"wane", false, false, false, false},     {"hole", true, false, false, false},
      {"stain", true, true, false, false},      {"sapwood", true, true, true, false},
      {"pith", true, false, false, false},      {"bark pocket", false, false, false, false},
      {"gum", true, true, false, false},        {"worm track", true, false, false, false},
      {"good", true, true, true, true},         {"show", true, true, true, true},
  };
  for (const Row& row : rows) {
    INFO(row.kind);
    CHECK(allows(*findDemand(shop, "hidden"), row.kind) == row.hidden);
    CHECK(allows(*findDemand(shop, "sound"), row.kind) == row.sound);
    CHECK(allows(*findDemand(shop, "clear"), row.kind) == row.clear);
    CHECK(allows(*findDemand(shop, "heart only"), row.kind) == row.heart);
  }
  CHECK(findDemand(shop, "hidden")->unseen);
  CHECK(findDemand(shop, "hidden")->outsideGood);
  CHECK_FALSE(findDemand(shop, "sound")->unseen);
  CHECK(findDemand(shop, "fancy") == nullptr);
}

TEST_CASE("every setting has a key of its own, a range and a source, and reads back what it says") {
  std::vector<std::string_view> keys;
  for (const Setting& s : settings()) {
    INFO(s.key);
    CHECK(std::find(keys.begin(), keys.end(), s.key) == keys.end());
    keys.push_back(s.key);
    CHECK_FALSE(s.text.empty());
    CHECK_FALSE(s.range.empty());
    CHECK_FALSE(s.source.empty());
    CHECK(findSetting(s.key) == &s);
    ShopProfile shop = startingProfile();
    const std::string said = s.get(shop, Unit::inches);
    s.set(shop, said, Unit::inches);
    CHECK(shop == startingProfile());
  }
  CHECK(keys.size() == 46);
  CHECK(findSetting("no such key") == nullptr);
}

TEST_CASE("starting values of the settings") {
  const ShopProfile shop = startingProfile();
  const auto said = [&](std::string_view key) { return findSetting(key)->get(shop, Unit::inches); };
  CHECK(said("add-length") == "1 in");
  CHECK(said("add-width") == "1/4 in");
  CHECK(said("add-per-face") == "1/32 in");
  CHECK(said("reference-edge") == "1/8 in");
  CHECK(said("mark-margin") == "1/2 in");
  CHECK(said("end-trim") == "1 in");
  CHECK(said("crosscut-kerf") == "1/8 in");
  CHECK(said("rip-kerf") == "1/8 in");
  CHECK(said("offcut-length") == "12 in");
  CHECK(said("offcut-width") == "3 in");
  CHECK(said("offcut-worth") == "12 in: 40 %");
  CHECK(said("hourly-rate") == "60");
  CHECK(said("pull-minutes") == "5");
  CHECK(said("cut-minutes") == "1");
  CHECK(said("stop-below") == "5");
  CHECK(said("stop-share") == "1 %");
  CHECK(said("winter-air") == "70 F, 30 %");
  CHECK(said("summer-air") == "75 F, 60 %");
  CHECK(said("made-moisture") == "8 %");
  CHECK(said("demand-clear") == "sapwood");
  CHECK(said("demand-heart-only") == "none");
}

TEST_CASE("a setting refuses what is outside its range and leaves the profile as it was") {
  ShopProfile shop = startingProfile();
  const auto refused = [&](std::string_view key, std::string_view value) {
    CHECK_THROWS_AS(findSetting(key)->set(shop, value, Unit::inches), Refusal);
    CHECK(shop == startingProfile());
  };
  refused("rip-kerf", "3/4");
  refused("rip-kerf", "0");
  refused("add-length", "7");
  refused("pull-minutes", "1000");
  refused("pull-minutes", "five");
  refused("stop-share", "60 %");
  refused("offcut-worth", "12: 40 %; 12: 50 %");
  refused("offcut-worth", "12: 140 %");
  refused("offcut-worth", "12: 40 %; 36: 30 %");
  refused("offcut-worth", "12");
  refused("hourly-rate", "1001");
  refused("winter-air", "31 F 30 %");
  refused("winter-air", "70 F 4 %");
  refused("summer-air", "123 F 60 %");
  refused("made-moisture", "21 %");
  CHECK_THROWS_AS(findSetting("winter-air")->set(shop, "cold", Unit::inches), Unreadable);
  CHECK_THROWS_AS(findSetting("rip-kerf")->set(shop, "wide", Unit::inches), Unreadable);
  try {
    findSetting("rip-kerf")->set(shop, "3/4", Unit::inches);
    FAIL("taken");
  } catch (const Refusal& r) {
    CHECK(r.complaints().front().place == "rip-kerf");
    CHECK(r.complaints().front().accepted == "1/64 to 1/2 in");
  }
}

TEST_CASE("settings take a maker's own figures") {
  ShopProfile shop = startingProfile();
  findSetting("rip-kerf")->set(shop, "3 mm", Unit::inches);
  CHECK(shop.ripKerf == Length::millimetres(3));
  findSetting("end-trim")->set(shop, "20", Unit::millimetres);
  CHECK(shop.endTrim == Length::millimetres(20));
  findSetting("offcut-worth")->set(shop, "12: 40 %; 36: 62.5 %", Unit::inches);
  CHECK(shop.keepBands == std::vector<KeepBand>{{in(12), 400}, {in(36), 625}});
  findSetting("winter-air")->set(shop, "19 C, 35 %", Unit::inches);
  CHECK(shop.winter == SeasonAir{190, 35});
  findSetting("made-moisture")->set(shop, "7.5", Unit::inches);
  CHECK(shop.madePermille == 75);
  findSetting("demand-clear")->set(shop, "sapwood, gum", Unit::inches);
  CHECK(allows(*findDemand(shop, "clear"), "gum"));
  CHECK_FALSE(allows(*findDemand(shop, "clear"), "stain"));
}

TEST_CASE("a season is that of the shop's rooms: about 6 to 11 % at first") {
  // Interior wood products average 8 %, 6 in the dry southwest, 11 on the humid coast (Wood
  // Handbook FPL-GTR-190 Fig. 13-1, as restated: R row interior_mc_us).
  for (const Unit unit : {Unit::inches, Unit::millimetres}) {
    const Season season = seasonOf(startingProfile(unit));
    CHECK(season.made == 8);
    CHECK(season.driest == Approx(6).margin(0.3));
    CHECK(season.wettest == Approx(11).margin(0.3));
  }
  ShopProfile shop = startingProfile();
  std::swap(shop.winter, shop.summer);
  CHECK(seasonOf(shop).driest == seasonOf(startingProfile()).driest);
}

TEST_CASE("a kind of mark nobody knows is refused by the names there are") {
  ShopProfile shop = startingProfile();
  const ShopProfile before = shop;
  try {
    findSetting("demand-clear")->set(shop, "gum, sapwod", Unit::inches);
    FAIL("sapwod was taken");
  } catch (const Refusal& r) {
    CHECK(r.code() == "unknown-kind");
    CHECK(r.complaints().front().value == "sapwod");
    CHECK(r.complaints().front().accepted.find("sapwood, pith") != std::string::npos);
    CHECK(r.complaints().front().accepted.find("good") == std::string::npos);
  }
  CHECK(shop.demands == before.demands);
}

TEST_CASE("labour is rounded up") {
  ShopProfile shop = startingProfile();
  CHECK(labour(shop, 5) == Money::units(5));
  shop.hourlyRate = Money::tenThousandths(61);
  // 61 / 60 of a ten-thousandth a minute is two.
  CHECK(labour(shop, 1) == Money::tenThousandths(2));
  CHECK(labour(shop, 0) == Money());
}

TEST_CASE("a blank is the finished size and its allowances") {
  const ShopProfile shop = startingProfile();
  Part part = bench::part(3, 2, in(26), in(2, 32));
  const Blank blank = blankFor(part, shop);
  CHECK(blank.line == 3);
  CHECK(blank.length == in(27));
  CHECK(blank.width == in(2, 48));
  CHECK(blank.thickness == in(0, 52) + in(0, 4));
  CHECK(blank.onThickness.front().amount == in(0, 4));
  const Blank stave = staveFor(part, in(5), shop);
  CHECK(stave.length == blank.length);
  CHECK(stave.width == in(5));
  CHECK(stave.thickness == blank.thickness);
}

TEST_CASE("a metric book starts with whole millimetres, each close to the figure in inches") {
  const ShopProfile inches = startingProfile(), metric = startingProfile(Unit::millimetres);
  CHECK(metric.demands == inches.demands);
  for (const auto member :
       {&ShopProfile::addLength, &ShopProfile::addWidth, &ShopProfile::addPerFace,
        &ShopProfile::referenceEdge, &ShopProfile::markMargin, &ShopProfile::endTrim,
        &ShopProfile::crosscutKerf, &ShopProfile::ripKerf, &ShopProfile::keepLength,
        &ShopProfile::keepWidth, &ShopProfile::planerWidth, &ShopProfile::jointerWidth,
        &ShopProfile::jointerShortest, &ShopProfile::planerThinnest, &ShopProfile::widestSolid,
        &ShopProfile::narrowestStave, &ShopProfile::widestStave, &ShopProfile::jointStave,
        &ShopProfile::glueTrim}) {
    const double mm = static_cast<double>((metric.*member).nm()) / 1e6;
    INFO(mm);
    CHECK((metric.*member).nm() % 1'000'000 == 0);
    CHECK(mm == Approx(static_cast<double>((inches.*member).nm()) / 1e6).epsilon(0.3));
  }
  REQUIRE(metric.keepBands.size() == 1);
  CHECK(metric.keepBands.front().from == metric.keepLength);
  // Every figure is one that its own setting takes.
  for (const Setting& setting : settings()) {
    ShopProfile again = metric;
    INFO(setting.key);
    setting.set(again, setting.get(metric, Unit::millimetres), Unit::millimetres);
    CHECK(again == metric);
  }
}
