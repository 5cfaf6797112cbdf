#include "inventory/records/table.h"

#include <catch2/catch.hpp>

#include "inventory/records/job.h"
#include "inventory/records/refusal.h"

using namespace flitch;

TEST_CASE("a cell for people and for files") {
  struct Shown {
    CellValue cell;
    std::string inches, millimetres, exact;
  };
  const std::string minus = "\xE2\x88\x92";
  const Shown shown = GENERATE_COPY(
      Shown{std::monostate{}, "", "", ""},
      Shown{std::string("cherry"), "cherry", "cherry", "cherry"},
      Shown{std::int64_t{-3}, minus + "3", minus + "3", "-3"},
      Shown{Length::sixtyFourths(37 * 64 + 32), "37 1/2", "952.5", "37 1/2 in"},
      // 144 cubic inches are 2 359 737.216 mm³.
      Shown{CubicMillimetres{2'359'737}, "144 in\xC2\xB3", "2.4 dm\xC2\xB3", "2359737"},
      Shown{Feet{7375}, "7.4", "7.4", "7.375"},
      Shown{Money::tenThousandths(11'994'000), "$1,199.40", "$1,199.40", "1199.4"},
      Shown{Permille{125}, "12.5 %", "12.5 %", "12.5"},
      Shown{Permille{-40}, minus + "4 %", minus + "4 %", "-4"});
  CHECK(text(shown.cell, Unit::inches, "$") == shown.inches);
  CHECK(text(shown.cell, Unit::millimetres, "$") == shown.millimetres);
  CHECK(exactText(shown.cell) == shown.exact);
}

TEST_CASE("part letters leave out I and O and never repeat") {
  CHECK(partLetter(1) == "A");
  CHECK(partLetter(8) == "H");
  CHECK(partLetter(9) == "J");
  CHECK(partLetter(13) == "N");
  CHECK(partLetter(14) == "P");
  CHECK(partLetter(24) == "Z");
  CHECK(partLetter(25) == "AA");
  CHECK(partLetter(48) == "AZ");
  CHECK(partLetter(49) == "BA");
  CHECK(partLetter(24 + 24 * 24) == "ZZ");
  CHECK(partLetter(25 + 24 * 24) == "AAA");
  CHECK_THROWS_AS(partLetter(0), std::invalid_argument);
  CHECK(handMark(3, 1) == "C1");
}

TEST_CASE("a refusal says all it found wrong, a line each") {
  const Refusal refusal("bad-cell", {{"t.csv:2:length", "`x` is not a length", "x", "10-6"},
                                     {"", "Did you mean cherry?", "", ""}});
  CHECK(std::string(refusal.what()) ==
        "t.csv:2:length: `x` is not a length. Accepted: 10-6.\nDid you mean cherry?");
  CHECK(refusal.code() == "bad-cell");
  CHECK(refusal.complaints().size() == 2);
  CHECK(Stale("T0042-F").code() == "stale");
  CHECK(std::string(Stale("T0042-F").what()) == "T0042-F was changed at another station.");
}
