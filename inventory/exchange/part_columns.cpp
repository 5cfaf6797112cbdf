#include "inventory/exchange/cells.h"
#include "inventory/records/recipe.h"
#include "inventory/records/size_expression.h"
#include "inventory/wood/species.h"
#include "inventory/wood/writing.h"

namespace flitch::exchange {
namespace {

struct PartRow {
  int line = 0;
  Part part;
};

/// Finished sizes: bare figures are inches, or millimetres in a metric book.
Length partSize(const Cell& cell, Length most, std::string_view mostText) {
  const Length size = cell.length();
  if (size > most) {
    const bool metric = cell.rules.unit == Unit::millimetres;
    throw cell.unreadable(" is " +
                              (metric ? flitch::text(size, LengthStyle::millimetres) + " mm"
                                      : flitch::text(size, LengthStyle::inches) + " in") +
                              "; parts up to " + std::string(mostText) + " are taken",
                          metric ? "950, 950 mm, 95 cm" : "37 1/2, 3' 1 1/2\", 952.5 mm");
  }
  if (size == Length()) throw cell.unreadable(" leaves no part", "a size above 0");
  return size;
}

/// A plain size, or arithmetic over the job's named sizes, which is kept as typed and worked out
/// when all of the job is known.
void sizeCell(const Cell& cell, Part& part, std::size_t which, Length& size, Length most,
              std::string_view mostText) {
  if (!isArithmetic(cell.text)) {
    size = partSize(cell, most, mostText);
    return;
  }
  std::vector<std::string> used;
  try {
    used = namesIn(cell.text);
  } catch (const Unreadable&) {
    // What is neither is most often a size mistyped.
    size = partSize(cell, most, mostText);
    return;
  }
  for (const std::string& name : used) {
    const auto& known = cell.rules.sizes;
    if (std::find(known.begin(), known.end(), name) != known.end()) continue;
    std::string names;
    for (const std::string& each : known) names += (names.empty() ? "" : ", ") + each;
    throw cell.unreadable(" names " + name + ", which is no size of this job",
                          names.empty() ? "37 1/2, 952.5 mm, or a size named with --size" : names);
  }
  part.typed[which] = std::string(cell.text);
}

/// `ash|white oak` in order of wish.
std::vector<std::string> speciesOf(const Cell& cell) {
  std::vector<std::string> all;
  for (const std::string_view name : parted(cell.text, "|/;")) {
    Cell one = cell;
    one.text = name;
    const std::string species = one.oneOf(cell.rules.species, "species");
    if (std::find(all.begin(), all.end(), species) != all.end()) {
      throw cell.unreadable(" names a species twice", "ash|white oak");
    }
    all.push_back(species);
  }
  if (all.empty()) throw cell.unreadable(" names no species", "ash|white oak");
  return all;
}

std::string demandOf(const Cell& cell) { return cell.oneOf(cell.rules.demands, "demand"); }

/// One word for both long edges, or `front clear`, `front clear, back hidden`.
void edgesOf(const Cell& cell, PartRow& row) {
  static constexpr std::array<std::string_view, 2> sides{"front ", "back "};
  const std::string written = plain(cell.text);
  const auto sideOf = [](std::string_view text) {
    return std::find_if(sides.begin(), sides.end(),
                        [text](std::string_view side) { return text.starts_with(side); });
  };
  if (sideOf(written) == sides.end()) {
    row.part.edges.fill(demandOf(cell));
    return;
  }
  for (const std::string_view text : parted(written, ",;")) {
    const auto side = sideOf(text);
    if (side == sides.end()) {
      throw cell.unreadable(" names one edge and not the other", "front clear, back sound");
    }
    Cell one = cell;
    one.text = trimmed(text.substr(side->size()));
    row.part.edges[static_cast<std::size_t>(side - sides.begin())] = demandOf(one);
  }
}

/// `solid|laminated`: all must be recipes.
std::string recipeOf(const Cell& cell) {
  std::string all;
  for (const std::string_view name : parted(cell.text, "|/;")) {
    const std::string written = plain(name);
    const std::optional<RecipeKind> kind = recipeNamed(written);
    if (!kind) {
      Cell one = cell;
      one.text = name;
      throw one.unreadable(" is no recipe", recipeWords() + "; several as solid|laminated");
    }
    all += (all.empty() ? "" : "|") + std::string(word(*kind));
  }
  return all;
}

void runOfCell(const Cell& cell, PartRow& row) {
  row.part.run = plain(cell.text);
  if (!row.part.run.empty() && !runOf(row.part)) {
    throw cell.unreadable(" is no run", "along, along 3, across 2,2,1, pairs, bookmatched");
  }
}

void woodFromOf(const Cell& cell, PartRow& row) {
  const std::optional<WoodFrom> from = woodFromNamed(plain(cell.text));
  if (!from)
    throw cell.unreadable(" says not where the wood comes from", "one log, one board, sisters");
  row.part.woodFrom = *from;
}

void groupOf(const Cell& cell, PartRow& row) {
  constexpr std::size_t longest = 40;
  row.part.group = plain(cell.text);
  if (row.part.group.size() > longest) {
    throw cell.unreadable(" is too long for a group", "up to 40 letters");
  }
}

/// `4 to 7`, `4-7`, `4 in to 7 in`, or one width.
void stavesOf(const Cell& cell, PartRow& row) {
  const char* const accepted = "4 to 7, 100 mm to 180 mm";
  constexpr Length least = Length::inches(1), most = Length::inches(24);
  const std::string written = plain(cell.text);
  std::size_t at = written.find(" to ");
  std::size_t after = at + 4;
  if (at == std::string::npos) {
    // A dash between a whole and its fraction, as in 4-1/2, parts no range.
    at = written.find('-');
    after = at + 1;
    const bool fraction = at != std::string::npos && written.find('/', at) != std::string::npos;
    if (fraction) throw cell.unreadable(" may be a range or a fraction", accepted);
  }
  const auto width = [&](std::string_view text) {
    Cell one = cell;
    one.text = trimmed(text);
    const Length read = one.length();
    if (read < least || read > most) {
      throw cell.unreadable(" is no width of a stave", "1 to 24 in");
    }
    return read;
  };
  if (at == std::string::npos) {
    row.part.stavesFrom = row.part.stavesTo = width(written);
    return;
  }
  row.part.stavesFrom = width(std::string_view(written).substr(0, at));
  row.part.stavesTo = width(std::string_view(written).substr(after));
  if (row.part.stavesFrom > row.part.stavesTo) {
    throw cell.unreadable(" begins with the wider", accepted);
  }
}

constexpr auto partFields = std::to_array<Field<PartRow>>({
    {{"part", "", true, "its name"},
     Measure::none,
     [](const Cell& c, PartRow& r) { r.part.name = c.note(80); }},
    {{"count", "", false, "finished pieces wanted; 1 if empty"},
     Measure::none,
     [](const Cell& c, PartRow& r) { r.part.copies = c.number(1, 1000); }},
    {{"spares", "", false, "pieces more, in case one is spoiled"},
     Measure::none,
     [](const Cell& c, PartRow& r) { r.part.spares = c.number(0, 1000); }},
    {{"set_ups", "", false, "pieces more to set machines up with, of any sound wood"},
     Measure::none,
     [](const Cell& c, PartRow& r) { r.part.setUps = c.number(0, 100); }},
    {{"length", "in", true, "finished, along the grain: 37 1/2, 952.5 mm, or width - 2*stile"},
     Measure::inchLength,
     [](const Cell& c, PartRow& r) {
       sizeCell(c, r.part, 0, r.part.length, maxBoardLength, "60 ft long");
     }},
    {{"width", "in", true, "finished"},
     Measure::inchLength,
     [](const Cell& c, PartRow& r) {
       sizeCell(c, r.part, 1, r.part.width, Length::feet(20), "20 ft wide");
     }},
    {{"thickness", "in", true, "finished"},
     Measure::inchLength,
     [](const Cell& c, PartRow& r) {
       sizeCell(c, r.part, 2, r.part.thickness, maxBoardThickness, "16 in thick");
     }},
    {{"species", "", true, "one, or several in order of wish: ash|white oak"},
     Measure::none,
     [](const Cell& c, PartRow& r) { r.part.species = speciesOf(c); }},
    {{"face_a", "", false, "what the better face must be; clear if empty"},
     Measure::none,
     [](const Cell& c, PartRow& r) { r.part.faceA = demandOf(c); }},
    {{"face_b", "", false, "what the other face must be; sound if empty"},
     Measure::none,
     [](const Cell& c, PartRow& r) { r.part.faceB = demandOf(c); }},
    {{"edges", "", false, "one word for both long edges, or front clear; sound if empty"},
     Measure::none,
     edgesOf},
    {{"recipe", "", false,
      "solid, glued, laminated, ganged, turned, resawn or random widths; several, of which the "
      "plan takes the cheapest: solid|laminated; if empty by the shop's rule"},
     Measure::none,
     [](const Cell& c, PartRow& r) { r.part.recipe = recipeOf(c); }},
    {{"staves", "in", false, "widths of staves or loose boards as sawn: 4 to 7, 4-7, 100-180 mm"},
     Measure::inchLength,
     stavesOf},
    {{"laminae", "", false,
      "laminae of a laminated part; if empty, as the stock's thickness gives"},
     Measure::none,
     [](const Cell& c, PartRow& r) { r.part.laminae = c.number(2, 24); }},
    {{"run", "", false,
      "grain that runs on from copy to copy: along, along 3, across 2,2,1; two copies of one "
      "blank: pairs, whichever way is cheapest, bookmatched as leaves of a resaw; nothing if "
      "empty"},
     Measure::none,
     runOfCell},
    {{"left_long", "", false, "yes: its last cut waits for the dry fit"},
     Measure::none,
     [](const Cell& c, PartRow& r) { r.part.leftLong = c.yesOrNo(); }},
    {{"wood_from", "", false,
      "one log, one board or sisters (neighbours in one log): what one copy is glued up of, with a "
      "group all of the group; any boards if empty"},
     Measure::none,
     woodFromOf},
    {{"group", "", false,
      "a word: all copies of all parts with it come together from what wood_from says; each by "
      "itself if empty"},
     Measure::none,
     groupOf},
    {{"straight", "", false,
      "yes: only of boards whose grain slope is known and no steeper than the setting "
      "straight-grain"},
     Measure::none,
     [](const Cell& c, PartRow& r) { r.part.straight = c.yesOrNo(); }},
    {{"note", "", false, "anything worth remembering"},
     Measure::none,
     [](const Cell& c, PartRow& r) { r.part.note = c.note(1000); }},
});

/// A group says where its wood comes from, once.
void judgeGroup(const PartRow& row, const std::vector<Part>& before, Complaints& complaints) {
  const Part& part = row.part;
  if (part.group.empty()) return;
  if (part.woodFrom == WoodFrom::anyBoards) {
    complaints.add(row.line, "wood_from",
                   "the group " + part.group + " says not where its wood comes from", "",
                   "one log, one board, sisters");
  }
  for (const Part& other : before) {
    if (other.group != part.group || other.woodFrom == part.woodFrom) continue;
    complaints.add(row.line, "wood_from",
                   "the group " + part.group + " takes its wood from elsewhere in an earlier line",
                   word(part.woodFrom), std::string(word(other.woodFrom)));
    break;
  }
}

}  // namespace

std::span<const ImportColumn> partColumns() {
  static const auto columns = columnsOf(partFields);
  return columns;
}

Taken<Part> readParts(const CsvFile& file, const ReadingRules& rules) {
  Taken<Part> taken;
  Complaints complaints(file);
  for (PartRow& row : readRows(file, partFields, rules, complaints, taken.warnings)) {
    row.part.line = static_cast<int>(taken.rows.size()) + 1;
    judgeGroup(row, taken.rows, complaints);
    taken.rows.push_back(std::move(row.part));
  }
  complaints.refuse("bad-cell");
  return taken;
}

}  // namespace flitch::exchange
