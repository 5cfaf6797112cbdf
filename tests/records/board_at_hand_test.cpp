#include <catch2/catch.hpp>

#include "inventory/records/board_readiness.h"
#include "inventory/records/board_thickness.h"
#include "tests/records/bench.h"

using namespace flitch;
using bench::in;

namespace {

Board plank(Nominal nominal, Length thickness) {
  Board board;
  board.species = "cherry";
  board.nominal = nominal;
  board.thickness = thickness;
  board.outline.fill(Outline::tapered(in(96), in(8), in(8)));
  return board;
}

}  // namespace

TEST_CASE("a board is ready by its newest reading with a figure") {
  const Climate climate{6.2, 10.9};
  Board board = plank(Nominal::quarters(4), in(1));
  BoardReadiness answer = readinessOf(board, climate);
  CHECK_FALSE(answer.ready());
  CHECK(answer.line == "no reading yet: measure it");
  board.readings = {{"2026-03-01", 180, MoistureState::wet},
                    {"2026-05-31", 95, MoistureState::ready},
                    {"2026-06-02", 0, MoistureState::ready}};
  answer = readinessOf(board, climate);
  CHECK(answer.ready());
  CHECK(answer.line == "9.5 % on 2026-05-31: ready for 6.2 to 10.9 %");
  CHECK(answer.caution.empty());
  board.readings.pop_back();
  board.readings.pop_back();
  answer = readinessOf(board, climate);
  CHECK_FALSE(answer.ready());
  CHECK(answer.line == "18 % on 2026-03-01: too wet for 6.2 to 10.9 %");
  board.readings[0].tenthsPercent = 45;
  answer = readinessOf(board, climate);
  CHECK(answer.readiness == Readiness::tooDry);
  // The meter's point is given on both sides.
  board.readings[0].tenthsPercent = 119;
  CHECK(readinessOf(board, climate).ready());
  board.readings[0].tenthsPercent = 120;
  CHECK_FALSE(readinessOf(board, climate).ready());
}

TEST_CASE("what a meter cannot tell is said: Wood Handbook FPL-GTR-190 ch. 13 (S)") {
  // meter_range_resistance: 6 to 30 %. meter_range_dielectric: 4 to 30 %.
  CHECK(meterSpan(6) == MeterSpan::inside);
  CHECK(meterSpan(30) == MeterSpan::inside);
  CHECK(meterSpan(5.9) == MeterSpan::dielectricOnly);
  CHECK(meterSpan(4) == MeterSpan::dielectricOnly);
  CHECK(meterSpan(3.9) == MeterSpan::outside);
  CHECK(meterSpan(30.1) == MeterSpan::outside);
  Board board = plank(Nominal::quarters(4), in(1));
  board.readings = {{"2026-03-01", 350, MoistureState::wet}};
  CHECK_FALSE(readinessOf(board, {6, 11}).caution.empty());
  board.readings[0].tenthsPercent = 55;
  CHECK(readinessOf(board, {5, 11}).caution == "A meter with pins reads from 6 % up.");
}

TEST_CASE("finished thickness is what is left flat and cleaned up, down to a 1/32") {
  const ShopProfile shop = startingProfile();  // 1/32 a face
  Board board = plank(Nominal::quarters(4), in(1));
  CHECK(finishedThickness(board, shop, in(96), Unit::inches) == in(0, 60));
  board.thickness = in(0, 63);
  CHECK(finishedThickness(board, shop, in(96), Unit::inches) == in(0, 58));
  CHECK(finishedThicknessText(board, shop, Unit::inches) == "29/32 in");
  // A bow of 1/4 in over 96 in leaves 1/64 over 24: all of it is lost over the whole length.
  board.thickness = in(1);
  board.warp.bow = in(0, 16);
  CHECK(finishedThickness(board, shop, in(96), Unit::inches) == in(0, 44));
  CHECK(finishedThickness(board, shop, in(24), Unit::inches) == in(0, 58));
  CHECK(finishedThicknessText(board, shop, Unit::inches) ==
        "11/16 in over its whole length, 29/32 in over 24 in");
  board.thickness = in(0, 8);
  CHECK(finishedThickness(board, shop, in(96), Unit::inches) == Length());
  // 4/4 is 15/16 once dry; 13/16 surfaced, which leaves 3/4 (quarter_for_finished_3/4, computed).
  CHECK(finishedThickness(Nominal::quarters(4), shop, Unit::inches) == in(0, 56));
  CHECK(surfacedText(Nominal::quarters(4), Unit::inches) == "13/16 in on two sides, 7/8 in on one");
  CHECK(surfacedText(Nominal::quarters(10), Unit::inches) == "2 1/4 in on two sides");
  CHECK(surfacedText(Nominal::millimetres(27), Unit::millimetres).empty());
  CHECK(finishedThickness(Nominal::millimetres(27), startingProfile(Unit::millimetres),
                          Unit::millimetres) == Length::millimetres(23));
}
