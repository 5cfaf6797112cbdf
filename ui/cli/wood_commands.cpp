#include <cmath>
#include <sstream>

#include "inventory/desk/own_species.h"
#include "inventory/wood/air.h"
#include "ui/cli/commands.h"
#include "ui/cli/reading.h"

namespace flitch::cli {
namespace {

/// Inches to the thousandth: a season's movement is often under a 1/64.
std::string figureOf(Length change, Unit unit) {
  const std::int64_t step = unit == Unit::inches ? 25'400 : 100'000;
  const auto steps =
      std::llabs(std::llround(static_cast<double>(change.nm()) / static_cast<double>(step)));
  std::ostringstream words;
  words.setf(std::ios::fixed);
  words.precision(unit == Unit::inches ? 3 : 1);
  words << static_cast<double>(steps) / (unit == Unit::inches ? 1000 : 10);
  return words.str();
}

/// `swells 0.067 in`, with its range where the rings may lie otherwise: `... (0.050 to 0.067)`.
std::string moved(const Movement& movement, Unit unit) {
  const std::string change = figureOf(movement.change, unit);
  if (change.find_first_not_of("0.") == std::string::npos) return "stays";
  const std::string least = figureOf(movement.least, unit), most = figureOf(movement.most, unit);
  const std::string range = least == most ? "" : " (" + least + " to " + most + ")";
  return (movement.change > Length() ? "swells " : "shrinks ") + change +
         (unit == Unit::inches ? " in" : " mm") + range;
}

Movement movementOf(const Species& species, Length width, Sawn sawn, double from, double to) {
  if (const auto movement = flitch::movement(species, width, sawn, from, to)) return *movement;
  throw Refusal("no-figures",
                Complaint{"species",
                          "no published figure says how " + species.name + " moves from " +
                              percentText(from) + " to " + percentText(to),
                          species.name, "another species, or moistures from 6 to 14 %"});
}

void putMovement(Answer& answer, const std::string& when, const Movement& movement) {
  answer.put("at_" + when, movement.change);
  answer.put("at_" + when + "_least", movement.least);
  answer.put("at_" + when + "_most", movement.most);
}

}  // namespace

Answer run(const WoodAir& command, const Session& session) {
  const store::Book book = session.toRead();
  Answer answer = answerOf(book);
  const double celsius =
      argument("temperature", [&] { return parseCelsius(command.temperature, answer.unit()); });
  const Air air{celsius, command.humidity};
  const double moisture = equilibriumMoisture(air);
  answer.say("In air of " + temperatureText(celsius, Unit::inches) + " (" +
             temperatureText(celsius, Unit::millimetres) + ") and " + percentText(air.humidity) +
             " humidity wood comes to about " + percentText(moisture) + " moisture.");
  if (!insideTable(air)) {
    answer.warn("Outside the printed table, 30 to 270 F and 5 to 95 %: the equation carried on.");
  }
  answer.put("celsius_tenths", CellValue{static_cast<std::int64_t>(std::llround(celsius * 10))});
  answer.put("humidity", Permille{std::llround(air.humidity * 10)});
  answer.put("moisture", Permille{std::llround(moisture * 10)});
  answer.put("inside_table", insideTable(air));
  return answer;
}

Answer run(const WoodMove& command, const Session& session) {
  const store::Book book = session.toRead();
  const store::Snapshot snapshot = book.read();
  Answer answer = answerOf(book);
  const Unit unit = answer.unit();
  const Season shop = seasonOf(snapshot.shop());
  const Season season{command.made.value_or(shop.made), command.driest.value_or(shop.driest),
                      command.wettest.value_or(shop.wettest)};
  if (season.driest > season.wettest) {
    throw Refusal("bad-season",
                  Complaint{"--driest",
                            percentText(season.driest) + " is wetter than the wettest, " +
                                percentText(season.wettest),
                            percentText(season.driest), "at most " + percentText(season.wettest)});
  }
  const Species species = desk::speciesOf(snapshot, command.species);
  const Length width = sizeArgument("width", command.width, bareOf(unit));
  const Movement wet = movementOf(species, width, command.sawn, season.made, season.wettest);
  const Movement dry = movementOf(species, width, command.sawn, season.made, season.driest);
  const Room room = roomFor(wet, dry, command.fixing, unit);
  answer.say(species.name + ", " + lengthText(width, unit) + " wide, " +
             std::string(word(command.sawn)) + " sawn, made at " + percentText(season.made) + ": " +
             moved(wet, unit) + " at " + percentText(season.wettest) + ", " + moved(dry, unit) +
             " at " + percentText(season.driest) + ".");
  answer.say(std::string(command.fixing == Fixing::centre ? "Held in its middle, at each edge"
                                                          : "Held along one edge, at the other") +
             ": a gap of " + lengthText(room.grows, unit) + ", covered by more than " +
             lengthText(room.shrinks, unit) + ", a slot " + lengthText(room.slot, unit) +
             " longer than the screw is thick.");
  if (wet.byShrinkage || dry.byShrinkage) {
    answer.warn("By the shrinkage formula, which is rougher: coefficients hold from 6 to 14 %.");
  }
  if (wet.fromMemory || dry.fromMemory) {
    answer.warn("A figure or formula behind this is from memory, not seen at its source.");
  }
  answer.put("species", species.name);
  answer.put("width", width);
  answer.put("made", Permille{std::llround(season.made * 10)});
  answer.put("driest", Permille{std::llround(season.driest * 10)});
  answer.put("wettest", Permille{std::llround(season.wettest * 10)});
  putMovement(answer, "wettest", wet);
  putMovement(answer, "driest", dry);
  answer.put("gap", room.grows);
  answer.put("cover", room.shrinks);
  answer.put("slot", room.slot);
  return answer;
}

}  // namespace flitch::cli
