#include <cmath>
#include <sstream>

#include "inventory/wood/unreadable.h"
#include "ui/cli/commands.h"

namespace flitch::cli {
namespace {

std::string percent(double moisture) {
  std::ostringstream words;
  words << moisture << " %";
  return words.str();
}

Length widthOf(const std::string& written, Unit unit) {
  const char* const accepted = "24, 24 1/2, 600 mm";
  try {
    const Length width =
        parseLength(written, unit == Unit::inches ? Bare::inches : Bare::millimetres);
    if (width > Length()) return width;
  } catch (const Unreadable& unreadable) {
    throw Refusal("bad-width",
                  Complaint{"width", unreadable.what(), unreadable.value, unreadable.accepted});
  }
  throw Refusal("bad-width",
                Complaint{"width", "`" + written + "` is no width", written, accepted});
}

/// Inches to the thousandth: a season's movement is often under a 1/64.
std::string moved(Length change, Unit unit) {
  const std::int64_t step = unit == Unit::inches ? 25'400 : 100'000;
  const auto steps = std::llround(static_cast<double>(change.nm()) / static_cast<double>(step));
  std::ostringstream words;
  words.setf(std::ios::fixed);
  words.precision(unit == Unit::inches ? 3 : 1);
  words << (unit == Unit::inches ? static_cast<double>(std::llabs(steps)) / 1000
                                 : static_cast<double>(std::llabs(steps)) / 10)
        << (unit == Unit::inches ? " in" : " mm");
  if (steps == 0) return "stays";
  return (steps > 0 ? "swells " : "shrinks ") + words.str();
}

Movement movementOf(const Species& species, Length width, Sawn sawn, double from, double to) {
  if (const auto movement = flitch::movement(species, width, sawn, from, to)) return *movement;
  throw Refusal("no-figures",
                Complaint{"species",
                          "no published figure says how " + species.name + " moves from " +
                              percent(from) + " to " + percent(to),
                          species.name, "another species, or moistures from 6 to 14 %"});
}

}  // namespace

Answer run(const WoodMove& command, const Session& session) {
  const store::Book book = session.toRead();
  Answer answer = answerOf(book);
  const Unit unit = answer.unit();
  const Season& season = command.season;
  if (season.driest > season.wettest) {
    throw Refusal("bad-season",
                  Complaint{"--driest",
                            percent(season.driest) + " is wetter than the wettest, " +
                                percent(season.wettest),
                            percent(season.driest), "at most " + percent(season.wettest)});
  }
  const auto species = speciesNamed(command.species, book.read().ownSpecies());
  if (!species) {
    throw Refusal("unknown-species",
                  Complaint{"species", "there are no figures for `" + command.species + "`",
                            command.species, "a species of the table, such as cherry, white oak"});
  }
  const Length width = widthOf(command.width, unit);
  const Movement wet = movementOf(*species, width, command.sawn, season.made, season.wettest);
  const Movement dry = movementOf(*species, width, command.sawn, season.made, season.driest);
  const Room room = roomFor(wet, dry, command.fixing, unit);
  answer.say(species->name + ", " + lengthText(width, unit) + " wide, " +
             std::string(word(command.sawn)) + " sawn, made at " + percent(season.made) + ": " +
             moved(wet.change, unit) + " at " + percent(season.wettest) + ", " +
             moved(dry.change, unit) + " at " + percent(season.driest) + ".");
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
  answer.put("species", species->name);
  answer.put("width", width);
  answer.put("at_wettest", wet.change);
  answer.put("at_driest", dry.change);
  answer.put("gap", room.grows);
  answer.put("cover", room.shrinks);
  answer.put("slot", room.slot);
  return answer;
}

}  // namespace flitch::cli
