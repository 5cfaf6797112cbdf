#include <set>

#include "inventory/exchange/cells.h"
#include "inventory/exchange/tally_groups.h"
#include "inventory/wood/moisture.h"
#include "inventory/wood/species.h"
#include "inventory/wood/writing.h"

namespace flitch::exchange {
namespace {

/// A point of an outline column; no x: the board's end.
struct OutlineCell {
  std::optional<Length> x;
  Length near, far;
};

/// A row as it stands, before its cells are held against each other.
struct TallyRow {
  int line = 0;
  TallyLine board;
  bool quarters = false;
  bool millimetres = false;
  Length length;
  std::optional<Length> width, widthFar;
  std::array<std::vector<OutlineCell>, 2> outline;
  int prices = 0;
};

/// `x:near-far; ...`, x from the tag end, `end` for the last: each in the small unit.
std::vector<OutlineCell> outlineOf(const Cell& cell) {
  const std::string accepted = "0:0-14; 48:1/2-15 1/4; end:0-16";
  if (!cell.unit.empty() && cell.unit != "mm" && cell.unit != "in") {
    throw cell.unreadable(" stands under a unit that outlines do not take", "in, mm");
  }
  const Bare bare = cell.unit == "mm"   ? Bare::millimetres
                    : cell.unit == "in" ? Bare::inches
                                        : smallBare(cell.rules.unit);
  std::vector<OutlineCell> points;
  for (const std::string_view point : parted(cell.text, ";")) {
    const std::size_t colon = point.find(':');
    if (colon == std::string_view::npos) throw cell.unreadable(" is not an outline", accepted);
    OutlineCell out;
    const std::string_view x = trimmed(point.substr(0, colon));
    if (plain(x) != "end") out.x = parseLength(x, bare);
    const LengthSpan edges = readSpan(point.substr(colon + 1), bare);
    if (!edges.to) throw cell.unreadable(" has an edge without a figure", accepted);
    out.near = edges.from;
    out.far = *edges.to;
    if (out.far > maxBoardWidth) {
      throw cell.unreadable(" reaches past 5 ft (60 in), the widest board taken", accepted);
    }
    points.push_back(out);
  }
  if (points.size() < 2) throw cell.unreadable(" has fewer than two points", accepted);
  return points;
}

/// One word for both faces or `A rough, B no`.
void lookedOf(const Cell& cell, TallyRow& row) {
  static constexpr std::array<std::string_view, 3> words{"no", "rough", "planed"};
  const std::string written = plain(cell.text);
  const auto state = [&cell](std::string_view word) {
    const auto at = std::find(words.begin(), words.end(), word);
    if (at == words.end()) {
      throw cell.unreadable(" does not say how a face was looked at",
                            "no, rough, planed; or: A rough, B no");
    }
    return static_cast<Looked>(at - words.begin());
  };
  const std::vector<std::string_view> parts = parted(written, ",;");
  if (parts.size() == 1 && !written.starts_with("a ") && !written.starts_with("b ")) {
    row.board.looked.fill(state(written));
    return;
  }
  for (const std::string_view part : parts) {
    const bool named = part.starts_with("a ") || part.starts_with("b ");
    row.board.looked[part.starts_with("b ") ? 1 : 0] =
        state(named ? trimmed(part.substr(2)) : std::string_view());
  }
}

void priceOf(const Cell& cell, TallyRow& row, PriceBasis basis) {
  row.board.price = cell.price();
  row.board.basis = basis;
  ++row.prices;
}

Length warpOf(const Cell& cell) {
  const Length depth = cell.length();
  if (depth > Length::inches(12)) {
    throw cell.unreadable(" is more than 12 in; such a board is cut before it is tagged",
                          "1/4, 0.5, 6 mm");
  }
  return depth;
}

constexpr std::array<std::string_view, 3> kindWords{"plank", "slab", "offcut"};
constexpr std::array<std::string_view, 3> stateWords{"wet", "resting", "ready"};
constexpr std::array<std::string_view, 2> edgeWords{"near", "far"};

constexpr auto tallyFields = std::to_array<Field<TallyRow>>({
    {{"tag", "", false, "the pre-numbered tag, with its check character"},
     Measure::none,
     [](const Cell& c, TallyRow& r) { r.board.tag = c.tag(); }},
    {{"species", "", true, "a species of the book"},
     Measure::none,
     [](const Cell& c, TallyRow& r) { r.board.species = c.oneOf(c.rules.species, "species"); }},
    {{"kind", "", false, "plank, slab or offcut; plank if empty"},
     Measure::none,
     [](const Cell& c, TallyRow& r) {
       r.board.kind = static_cast<BoardKind>(wordOf(c, kindWords));
     }},
    {{"quarters", "quarters", false, "nominal thickness: 4, 4/4, 12/4"},
     Measure::none,
     [](const Cell& c, TallyRow& r) {
       r.board.nominal = nominalCell(c, Unit::inches);
       r.quarters = true;
     }},
    {{"nominal_mm", "mm", false, "nominal thickness of metric stock, in place of quarters"},
     Measure::millimetres,
     [](const Cell& c, TallyRow& r) {
       r.board.nominal = nominalCell(c, Unit::millimetres);
       r.millimetres = true;
     }},
    {{"length", "ft", true, "10-6, 10' 6\", 126 in; a bare figure is feet (mm in a metric book)"},
     Measure::feetLength,
     [](const Cell& c, TallyRow& r) { r.length = boardLength(c); }},
    {{"width", "in", false, "at the tag end: 7 3/8, 187.5 mm"},
     Measure::inchLength,
     [](const Cell& c, TallyRow& r) { r.width = boardWidth(c); }},
    {{"width_far", "in", false, "at the far end; as at the tag end if empty"},
     Measure::inchLength,
     [](const Cell& c, TallyRow& r) { r.widthFar = boardWidth(c); }},
    {{"outline_a", "in", false, "in place of width, edges of face A: 0:0-14; 48:1/2-15; end:0-16"},
     Measure::inchLength,
     [](const Cell& c, TallyRow& r) { r.outline[0] = outlineOf(c); }},
    {{"outline_b", "in", false, "edges of face B; as face A if empty"},
     Measure::inchLength,
     [](const Cell& c, TallyRow& r) { r.outline[1] = outlineOf(c); }},
    {{"thickness", "in", false, "measured at its thinnest; nominal less kiln scant if empty"},
     Measure::inchLength,
     [](const Cell& c, TallyRow& r) { r.board.thickness = boardThickness(c); }},
    {{"bow", "in", false, "out of the plane along the length"},
     Measure::inchLength,
     [](const Cell& c, TallyRow& r) { r.board.warp.bow = warpOf(c); }},
    {{"bent_at", "in", false, "from the tag end, where the bow is a kink"},
     Measure::inchLength,
     [](const Cell& c, TallyRow& r) { r.board.warp.bentAt = c.length(); }},
    {{"crook", "in", false, "in the plane along the length"},
     Measure::inchLength,
     [](const Cell& c, TallyRow& r) { r.board.warp.crook = warpOf(c); }},
    {{"hollow", "", false, "near or far: the edge that is hollow with crook; near if empty"},
     Measure::none,
     [](const Cell& c, TallyRow& r) {
       r.board.warp.hollow = static_cast<Edge>(wordOf(c, edgeWords));
     }},
    {{"cup", "in", false, "across the width"},
     Measure::inchLength,
     [](const Cell& c, TallyRow& r) { r.board.warp.cup = warpOf(c); }},
    {{"twist", "in", false, "a corner lifted"},
     Measure::inchLength,
     [](const Cell& c, TallyRow& r) { r.board.warp.twist = warpOf(c); }},
    {{"grain_slope", "", false,
      "how steeply the grain runs out along a face: 1 in 12, straight; not looked at if empty"},
     Measure::none,
     [](const Cell& c, TallyRow& r) { r.board.grain = parseGrainSlope(c.text); }},
    {{"count", "", false, "equal boards on this line, without tags; 1 if empty"},
     Measure::none,
     [](const Cell& c, TallyRow& r) { r.board.count = c.number(1, 500); }},
    {{"grade", "", false, "as bought: FAS, F1F, No. 1 Common"},
     Measure::none,
     [](const Cell& c, TallyRow& r) { r.board.grade = c.note(60); }},
    {{"price_per_bf", "money", false, "of a board foot billed"},
     Measure::money,
     [](const Cell& c, TallyRow& r) { priceOf(c, r, PriceBasis::perFoot); }},
    {{"price_each", "money", false, "of the board"},
     Measure::money,
     [](const Cell& c, TallyRow& r) { priceOf(c, r, PriceBasis::each); }},
    {{"price_per_m3", "money", false, "of a cubic metre at nominal thickness"},
     Measure::money,
     [](const Cell& c, TallyRow& r) { priceOf(c, r, PriceBasis::perCubicMetre); }},
    {{"price_per_ft", "money", false, "of a running foot"},
     Measure::money,
     [](const Cell& c, TallyRow& r) { priceOf(c, r, PriceBasis::perRunningFoot); }},
    {{"price_lot", "money", false, "of all boards of the line, or of its lot"},
     Measure::money,
     [](const Cell& c, TallyRow& r) { priceOf(c, r, PriceBasis::lot); }},
    {{"lot", "", false, "lines of the same word share one price_lot"},
     Measure::none,
     [](const Cell& c, TallyRow& r) { r.board.lot = c.note(60); }},
    {{"cut_from", "", false,
      "lines of the same word came as one board, cut for the van: billed once, cost shared"},
     Measure::none,
     [](const Cell& c, TallyRow& r) { r.board.cutFrom = c.note(60); }},
    {{"billed_bf", "bf", false, "of one board, as on the invoice; else by the counting rule"},
     Measure::boardFeet,
     [](const Cell& c, TallyRow& r) { r.board.billed = parseFeet(c.text); }},
    {{"moisture", "%", false, "percent: 8, 8.5 %"},
     Measure::percent,
     [](const Cell& c, TallyRow& r) { r.board.moistureTenths = parseMoisture(c.text); }},
    {{"moisture_state", "", false, "wet, resting or ready; ready if empty"},
     Measure::none,
     [](const Cell& c, TallyRow& r) {
       r.board.moistureState = static_cast<MoistureState>(wordOf(c, stateWords));
     }},
    {{"log", "", false, "the log it was sawn from"},
     Measure::none,
     [](const Cell& c, TallyRow& r) { r.board.log = c.note(60); }},
    {{"place_in_log", "", false, "1, 2, ... in sequence: neighbours are sisters"},
     Measure::none,
     [](const Cell& c, TallyRow& r) { r.board.placeInLog = c.number(1, 999); }},
    {{"bay", "", false, "where it lies"},
     Measure::none,
     [](const Cell& c, TallyRow& r) { r.board.bay = c.note(60); }},
    {{"looked", "", false, "no, rough, planed; or A rough, B no. Not looked at if empty"},
     Measure::none,
     lookedOf},
    {{"kept_back", "", false, "yes: held for something special"},
     Measure::none,
     [](const Cell& c, TallyRow& r) { r.board.keptBack = c.yesOrNo(); }},
    {{"note", "", false, "anything worth remembering"},
     Measure::none,
     [](const Cell& c, TallyRow& r) { r.board.note = c.note(1000); }},
});

/// Holds the cells of a row against each other.
class TallyCheck {
 public:
  TallyCheck(TallyRow& row, Complaints& complaints) : row_(row), complaints_(complaints) {}

  void run() {
    row_.board.line = row_.line;
    nominal();
    outlines();
    warp();
    oneBoard();
    if (row_.prices > 1) {
      complain("price_per_bf", "the row has more than one price", "one of the price columns");
    }
  }

 private:
  void complain(std::string_view column, const std::string& sentence, const std::string& accepted) {
    complaints_.add(row_.line, column, sentence, "", accepted);
  }

  void nominal() {
    if (row_.quarters == row_.millimetres) {
      complain("quarters",
               row_.quarters ? "the row has a nominal thickness in quarters and in millimetres"
                             : "the row has no nominal thickness",
               "4/4 under quarters, or 27 under nominal_mm");
      return;
    }
    const std::optional<Length>& measured = row_.board.thickness;
    const Length nominal = row_.board.nominal.length();
    if (measured && (*measured > 2 * nominal || 2 * *measured < nominal)) {
      complain("thickness",
               exactText(*measured) + " cannot be the thickness of a " +
                   flitch::text(row_.board.nominal) + " board",
               "the thickness measured, or nothing");
    }
  }

  void outlines() {
    if (row_.outline[0].empty()) {
      if (!row_.outline[1].empty()) {
        complain("outline_b", "face B has an outline and face A has none", "both, or outline_a");
      } else if (!row_.width) {
        complain("width", "the row has no width", "7 3/8, 187.5 mm, or an outline");
      } else {
        row_.board.outline.fill(
            Outline::tapered(row_.length, *row_.width, row_.widthFar.value_or(*row_.width)));
      }
      return;
    }
    if (row_.width || row_.widthFar) {
      complain("width", "the row has a width and an outline", "one of them");
      return;
    }
    if (row_.outline[1].empty()) row_.outline[1] = row_.outline[0];
    for (std::size_t face = 0; face < 2; ++face) {
      const std::string_view column = face == 0 ? "outline_a" : "outline_b";
      if (const auto points = pointsOf(row_.outline[face], column)) {
        row_.board.outline[face] = Outline(*points);
      }
    }
  }

  std::optional<std::vector<OutlinePoint>> pointsOf(const std::vector<OutlineCell>& cells,
                                                    std::string_view column) {
    std::vector<OutlinePoint> points;
    for (const OutlineCell& cell : cells) {
      const bool last = points.size() + 1 == cells.size();
      const Length x = cell.x.value_or(row_.length);
      if (!cell.x && !last) {
        complain(column, "`end` is not the last point", "0:0-14; 48:1/2-15; end:0-16");
        return std::nullopt;
      }
      if (points.empty() ? x != Length() : x <= points.back().x) {
        complain(column,
                 points.empty() ? "the outline does not start at 0"
                                : "the points of the outline do not follow each other",
                 "0:0-14; 48:1/2-15; end:0-16");
        return std::nullopt;
      }
      points.push_back({x, cell.near, cell.far});
    }
    if (points.back().x != row_.length) {
      complain(column,
               "the outline ends at " + exactText(points.back().x) + ", the board at " +
                   exactText(row_.length),
               "the board's length, or end");
      return std::nullopt;
    }
    return points;
  }

  void warp() {
    const std::optional<Length>& bend = row_.board.warp.bentAt;
    if (!bend) return;
    if (*bend <= Length() || *bend >= row_.length) {
      complain("bent_at", "the bend would lie outside the board", "a place along the board");
    } else if (row_.board.warp.bow == Length()) {
      complain("bent_at", "the row has a bend and no bow", "the bow at the bend, under bow");
    }
  }

  void oneBoard() {
    if (row_.board.count > 1 && row_.board.tag) {
      complain("count",
               std::to_string(row_.board.count) + " boards cannot carry one tag (" +
                   flitch::text(*row_.board.tag) + ")",
               "a line for each tag, or no tag: the book gives the next");
    }
    if (row_.board.count > 1 && row_.board.placeInLog > 0) {
      complain("count", "several boards cannot have one place in a log", "a line for each board");
    }
    if (row_.board.placeInLog > 0 && row_.board.log.empty()) {
      complain("place_in_log", "the row has a place in a log and no log", "the log's name");
    }
  }

  TallyRow& row_;
  Complaints& complaints_;
};

}  // namespace

std::span<const ImportColumn> tallyColumns() {
  static const auto columns = columnsOf(tallyFields);
  return columns;
}

Taken<TallyLine> readTally(const CsvFile& file, const ReadingRules& rules) {
  Taken<TallyLine> taken;
  Complaints complaints(file);
  std::vector<TallyRow> rows = readRows(file, tallyFields, rules, complaints, taken.warnings);
  std::set<TagCode> tags;
  std::vector<bool> priced;
  for (TallyRow& row : rows) {
    TallyCheck(row, complaints).run();
    const std::optional<TagCode>& tag = row.board.tag;
    if (tag && !tags.insert(*tag).second) {
      complaints.add(row.line, "tag", flitch::text(*tag) + " stands on an earlier line already", "",
                     "each tag once");
    }
    priced.push_back(row.prices > 0);
    taken.rows.push_back(std::move(row.board));
  }
  const int unpriced = shareGroups(taken.rows, priced, complaints);
  complaints.refuse("bad-cell");
  if (unpriced > 0) {
    taken.warnings.push_back(file.name + ": " + std::to_string(unpriced) +
                             (unpriced == 1 ? " board has" : " boards have") +
                             " no price and will stand in the book at nothing");
  }
  return taken;
}

}  // namespace flitch::exchange
