#include <cmath>

#include "inventory/desk/own_species.h"
#include "inventory/desk/receive.h"
#include "inventory/records/board_thickness.h"
#include "inventory/records/board_weight.h"
#include "inventory/wood/air.h"
#include "inventory/wood/thickness.h"
#include "ui/cli/commands.h"
#include "ui/cli/reading.h"

namespace flitch::cli {
namespace {

/// What is weighed, in words and in wood.
struct Weighed {
  std::string name;
  CubicMillimetres wood;
  double moisture = 12;
  std::optional<Species> species;
};

Weighed boardOf(const WoodWeight& command, const store::Snapshot& snapshot, Unit unit) {
  const Board board = desk::boardNamed(snapshot, command.board);
  return {board.tagText() + ", " + board.species + ", " + sizeText(board, unit), volumeOf(board),
          moistureOf(board), speciesNamed(board.species, snapshot.ownSpecies())};
}

Weighed panelOf(const WoodWeight& command, const store::Snapshot& snapshot, Unit unit) {
  const Bare bare = bareOf(unit);
  const Species species = desk::speciesOf(snapshot, command.species);
  const Length thickness = sizeArgument("thickness", command.thickness, bare);
  const Length width = sizeArgument("width", command.width, bare);
  const Length length = sizeArgument("length", command.length, bare);
  if (length > maxBoardLength || width > maxBoardLength || thickness > maxBoardThickness) {
    throw Refusal("bad-length", Complaint{"length", "no board or panel is so large", command.length,
                                          "up to 60 ft, 16 in thick"});
  }
  const Area face = rectangle(length, width);
  return {species.name + ", " + lengthText(thickness, unit) + " × " + lengthText(width, unit) +
              " × " + lengthText(length, unit),
          volume(face, face, thickness), 12, species};
}

std::string lengthOrNone(const std::optional<Length>& length, Unit unit) {
  return length ? lengthText(*length, unit) : "not in the table";
}

}  // namespace

Answer run(const WoodWeight& command, const Session& session) {
  const store::Book book = session.toRead();
  const store::Snapshot snapshot = book.read();
  Answer answer = answerOf(book);
  const Unit unit = answer.unit();
  const Weighed weighed =
      command.board.empty() ? panelOf(command, snapshot, unit) : boardOf(command, snapshot, unit);
  const double moisture = command.moisture.value_or(weighed.moisture);
  const Species* species = weighed.species ? &*weighed.species : nullptr;
  const double weight = kilograms(weighed.wood, species, moisture);
  const Lifting lift = lifting(weight);
  const bool known = species != nullptr && species->gravity;
  answer.say(weighed.name + ", at " + percentText(moisture) +
             (known ? ": about " : ": up to about ") + weightText(weight, unit) +
             (lift == Lifting::alone ? "." : ": " + std::string(advice(lift)) + "."));
  if (!known) {
    answer.warn("No figure says how heavy it is: taken for a heavy wood, 0.75.");
  } else if (species->gravity.fromMemory) {
    answer.warn("Its specific gravity is from memory, not seen at its source.");
  }
  answer.put("wood", weighed.wood);
  answer.put("moisture", Permille{std::llround(moisture * 10)});
  answer.put("grams", CellValue{static_cast<std::int64_t>(std::llround(weight * 1000))});
  answer.put("gravity_thousandths",
             CellValue{static_cast<std::int64_t>(std::llround(gravityOf(species) * 1000))});
  answer.put("lifting", CellValue{std::string(advice(lift))});
  return answer;
}

Answer run(const WoodMeasure& command, const Session& session) {
  const store::Book book = session.toRead();
  Answer answer = answerOf(book);
  const Unit unit = answer.unit();
  const bool metric = unit == Unit::millimetres;
  const Nominal nominal = argument("nominal", [&] { return parseNominal(command.nominal); });
  const Length one = sizeArgument("width", command.width, bareOf(unit));
  const Length other =
      command.otherWidth.empty() ? one : sizeArgument("width", command.otherWidth, bareOf(unit));
  const Length length =
      sizeArgument("length", command.length, metric ? Bare::millimetres : Bare::feet);
  if (length > maxBoardLength || std::max(one, other) > maxBoardWidth) {
    throw Refusal("bad-length", Complaint{"length", "no board is so large", command.length,
                                          "up to 60 ft long, 5 ft wide"});
  }
  const Length width = tallyWidth(one, other), mean = (one + other) / 2;
  const SurfaceMeasure up = surfaceMeasure(width, length, Half::up);
  const Feet surface = surfaceTally(up, nominal), byVolume = volumeTally(nominal, mean, length);
  const NetFeet net = netOfGross(surface);
  const BundleTally bundle = bundleTally(width, length, Half::up);
  Table ways;
  ways.columns = {{"way", "way", false}, {"feet", "board feet", true}, {"how", "", false}};
  ways.rows = {{"surface measure", surface, std::to_string(up.value) + " × " + text(nominal)},
               {"volume", byVolume, "thickness × width × length / 144"},
               {"volume to 0.1", toTenths(byVolume), "the same to a tenth"},
               {"half inch", halfInchTally(nominal, width, length, Half::up).feet,
                "width to 1/2 in × whole feet × " + text(nominal)},
               {"net of green, least", net.least, "tallied green, 7 % over its dry measure"},
               {"net of green, most", net.most, "tallied green, 6 % over its dry measure"}};
  answer.say(text(nominal) + ", " + lengthText(width, unit) + " wide, " +
             text(length, metric ? LengthStyle::millimetres : LengthStyle::feetInches) +
             (metric ? " mm" : "") + " long:");
  answer.show("ways", ways);
  if (up.half != Half::none) {
    const SurfaceMeasure down = surfaceMeasure(width, length, Half::down);
    answer.say("An exact half goes up and down in turn: " + std::to_string(up.value) + " or " +
               std::to_string(down.value) + " square feet.");
  }
  answer.say("Export bundle: " + std::to_string(bundle.inches) + " in and " +
             std::to_string(bundle.feet) + " ft. Hardwood measured dry is sold net.");
  const Length finished = finishedThickness(nominal, book.read().shop(), unit);
  answer.say("Expect " + lengthText(kilnDriedThickness(nominal), unit) +
             " rough and dry at its thinnest; surfaced on two sides: " +
             lengthOrNone(surfacedTwoSides(nominal), unit) +
             ", on one: " + lengthOrNone(surfacedOneSide(nominal), unit) + ".");
  answer.say("Flat stock gives " + lengthText(finished, unit) + " finished.");
  const auto put = [&](const char* key, const std::optional<Length>& value) {
    answer.put(key, value ? CellValue{*value} : CellValue{});
  };
  answer.put("surface_measure", CellValue{static_cast<std::int64_t>(up.value)});
  answer.put("exact_half", up.half != Half::none);
  answer.put("bundle_inches", CellValue{static_cast<std::int64_t>(bundle.inches)});
  answer.put("bundle_feet", CellValue{static_cast<std::int64_t>(bundle.feet)});
  put("kiln_dried", kilnDriedThickness(nominal));
  put("surfaced_two_sides", surfacedTwoSides(nominal));
  put("surfaced_one_side", surfacedOneSide(nominal));
  put("finished", finished);
  return answer;
}

}  // namespace flitch::cli
