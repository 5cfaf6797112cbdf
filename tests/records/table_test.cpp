#include "inventory/records/table.h"

#include <catch2/catch.hpp>

#include "inventory/records/job.h"
#include "inventory/records/refusal.h"
#include "inventory/records/setting_range.h"
#include "inventory/records/shop.h"
#include "inventory/records/shown_table.h"

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

TEST_CASE("rounded lines add up to the total shown, to the cent") {
  Table table;
  table.columns = {{"name", "name", false},
                   {"cost", "cost", true},
                   {"feet", "feet", true},
                   {"price", "price", true}};
  // Thirds of $10.00 and of 5 bf: each rounds down alone.
  const Money third = Money::tenThousandths(33'333);
  table.rows = {{std::string("a"), third, Feet{1'666}, third},
                {std::string("b"), Money::tenThousandths(33'334), Feet{1'667}, third},
                {std::string("c"), third, Feet{1'667}, third}};
  table.totals = {std::string("all"), Money::units(10), Feet{5'000}, Money::units(4)};
  const Table rounded = shown(table);
  const auto column = [&](std::size_t c) {
    std::string all;
    for (const auto& row : rounded.rows) all += text(row[c], Unit::inches, "$") + " ";
    return all + text(rounded.totals[c], Unit::inches, "$");
  };
  CHECK(column(1) == "$3.33 $3.34 $3.33 $10.00");
  // Measures are each their own.
  CHECK(column(2) == "1.7 1.7 1.7 5.0");
  // What does not add up to its total, such as a price, stays as it is.
  CHECK(column(3) == "$3.33 $3.33 $3.33 $4.00");
  table.totals.clear();
  CHECK(shown(table).rows == table.rows);
}

TEST_CASE("a range of lengths is said in the book's unit, any other as it stands") {
  CHECK(rangeIn("1/64 to 1 in", Unit::inches) == "1/64 to 1 in");
  CHECK(rangeIn("1/64 to 1 in", Unit::millimetres) == "0.4 to 25.4 mm");
  CHECK(rangeIn("0 to 1000", Unit::millimetres) == "0 to 1000");
  // Every setting whose range is a length in inches can be said in millimetres.
  for (const Setting& setting : settings()) {
    INFO(setting.key);
    if (setting.range.ends_with(" in"))
      CHECK(rangeIn(setting.range, Unit::millimetres).ends_with(" mm"));
  }
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
