#include "inventory/wood/thickness.h"

#include <catch2/catch.hpp>

#include "tests/wood/published.h"

using namespace flitch;

TEST_CASE("rough and surfaced thickness are as published (hardwood dimension table)") {
  int rows = 0;
  for (const PublishedRow& row : published("thickness_rough_surfaced.csv")) {
    const std::string quarter = row.at("quarter");
    // Eighths are no quarters of ours; a half is two of them.
    if (quarter == "3/8" || quarter == "5/8") continue;
    DYNAMIC_SECTION(quarter << ", " << row.at("source")) {
      const Nominal nominal = parseNominal(quarter == "1/2" ? "2/4" : quarter);
      CHECK(nominal.length() == parseLength(row.at("rough_in"), Bare::inches));
      CHECK(surfacedTwoSides(nominal) == parseLength(row.at("s2s_in"), Bare::inches));
      const std::string& oneSide = row.at("s1s_in");
      CHECK(surfacedOneSide(nominal).has_value() == !oneSide.empty());
      if (!oneSide.empty()) {
        CHECK(surfacedOneSide(nominal) == parseLength(oneSide, Bare::inches));
      }
    }
    ++rows;
  }
  CHECK(rows == 11);
}

TEST_CASE("kiln-dried thickness is short of nominal by the published scant") {
  Length to74, from84, least54;
  for (const PublishedRow& row : published("thickness_rules.csv")) {
    const auto value = [&row] { return parseLength(row.at("value"), Bare::inches); };
    if (row.at("item") == "kiln_dried_scant_3/8_to_1_3/4") to74 = value();
    if (row.at("item") == "kiln_dried_scant_2_and_up") from84 = value();
    if (row.at("item") == "kiln_dried_min_5/4") least54 = value();
  }
  for (int quarters = 2; quarters <= 7; ++quarters) {
    const Nominal nominal = Nominal::quarters(quarters);
    CHECK(nominal.length() - kilnDriedThickness(nominal) == to74);
  }
  for (int quarters = 8; quarters <= 32; ++quarters) {
    const Nominal nominal = Nominal::quarters(quarters);
    CHECK(nominal.length() - kilnDriedThickness(nominal) == from84);
  }
  CHECK(kilnDriedThickness(Nominal::quarters(5)) == least54);
}

TEST_CASE("every nominal leaves wood once dry") {
  for (int quarters = 1; quarters <= 32; ++quarters) {
    const Nominal nominal = Nominal::quarters(quarters);
    CHECK(kilnDriedThickness(nominal) > Length());
    CHECK(kilnDriedThickness(nominal) < nominal.length());
  }
  for (int mm = 5; mm <= 200; ++mm) {
    const Nominal nominal = Nominal::millimetres(mm);
    CHECK(kilnDriedThickness(nominal) > Length());
    CHECK(kilnDriedThickness(nominal) < nominal.length());
  }
  CHECK(kilnDriedThickness(Nominal::millimetres(27)) == Length::millimetres(25));
}

TEST_CASE("metric stock has no surfaced table, and odd lengths are told from even ones") {
  CHECK_FALSE(surfacedTwoSides(Nominal::millimetres(27)));
  CHECK_FALSE(surfacedOneSide(Nominal::millimetres(27)));
  CHECK_FALSE(surfacedTwoSides(Nominal::quarters(1)));
  CHECK(standardLength(Length::inches(126)) == StandardLength::even);
  CHECK(standardLength(Length::feet(9)) == StandardLength::odd);
  CHECK(standardLength(Length::feet(9) - Length::nanometres(1)) == StandardLength::even);
  CHECK(standardLength(Length::inches(47)) == StandardLength::none);
  CHECK(standardLength(Length::feet(16)) == StandardLength::even);
  CHECK(standardLength(Length::feet(17)) == StandardLength::none);
}
