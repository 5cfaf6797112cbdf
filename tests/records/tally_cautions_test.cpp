#include "inventory/records/tally_cautions.h"

#include <catch2/catch.hpp>

#include "tests/records/bench.h"

using namespace flitch;
using namespace flitch::bench;

namespace {

TallyLine line(Length length, Length width, Length far) {
  TallyLine line;
  line.nominal = Nominal::quarters(4);
  line.outline = {Outline::tapered(length, width, far), Outline::tapered(length, width, far)};
  line.price = Money::units(8);
  return line;
}

}  // namespace

TEST_CASE("what is usual in a tally gets no caution") {
  CHECK(cautions(line(in(126), in(9), in(8)), Unit::inches).empty());
  TallyLine slab = line(in(96), in(40), in(34));
  slab.kind = BoardKind::slab;
  CHECK(cautions(slab, Unit::inches).empty());
  TallyLine offcut = line(in(8), in(1), in(1));
  offcut.kind = BoardKind::offcut;
  CHECK(cautions(offcut, Unit::inches).empty());
}

TEST_CASE("each unlikely figure of a tally is told, in the book's unit") {
  CHECK(cautions(line(in(120), in(55), in(55)), Unit::inches) ==
        std::vector<std::string>{"55 in is very wide for anything but a slab"});
  CHECK(cautions(line(in(700), in(9), in(9)), Unit::inches).size() == 1);
  CHECK(cautions(line(in(11), in(9), in(9)), Unit::millimetres) ==
        std::vector<std::string>{"279.4 mm is very short for a board"});
  CHECK(cautions(line(in(96), in(9), in(4)), Unit::inches).size() == 1);
  TallyLine odd = line(in(96), in(9), in(9));
  odd.thickness = in(3);
  odd.price = Money::units(820);
  odd.count = 1000;
  CHECK(cautions(odd, Unit::inches).size() == 3);
}
