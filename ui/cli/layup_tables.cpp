#include <algorithm>

#include "inventory/records/glue_up.h"
#include "ui/cli/commands.h"

namespace flitch::cli {

namespace {

const Part& partOf(const Job& job, int line) {
  return *std::find_if(job.parts.begin(), job.parts.end(),
                       [line](const Part& part) { return part.line == line; });
}

}  // namespace

namespace {

struct Writing {
  const CutPlan& plan;
  const Job& job;
  const ShopProfile& shop;
  Unit unit;

  [[nodiscard]] std::string size(Length length) const {
    return text(length, unit == Unit::inches ? LengthStyle::inches : LengthStyle::millimetres);
  }
};

/// Hand marks, widths as sawn, and sums of some blanks of one copy.
struct Row {
  std::string marks, sawn;
  Length useful, gives;
};
Row rowOf(const std::vector<Glued>& blanks, const Writing& w) {
  Row row;
  for (const Glued& g : blanks) {
    const std::string mark = handMark(g.blank.line, g.blank.copy);
    row.marks += (row.marks.empty() ? "" : " ") + mark;
    row.sawn += (row.sawn.empty() ? "" : ", ") + w.size(g.blank.at.dy);
    row.useful += g.layup.turned ? g.layup.gives : g.blank.at.dy - w.shop.jointStave;
    row.gives += g.layup.gives;
  }
  return row;
}

Table panelTable(const Writing& w) {
  Table table;
  table.title = "Glued up";
  table.columns = {{"letter", "", false},        {"part", "part", false},
                   {"copy", "copy", true},       {"section", "section", true},
                   {"staves", "staves", false},  {"sawn", "sawn wide", false},
                   {"jointed", "jointed", true}, {"gives", "of the panel", true}};
  for (const GlueUp& up : glueUpsOf(w.plan)) {
    if (up.kind != LayupKind::stave || !up.glued) continue;
    for (const std::vector<Glued>& section : up.sections) {
      const Row row = rowOf(section, w);
      table.rows.push_back({partLetter(up.line), partOf(w.job, up.line).name, std::int64_t{up.copy},
                            std::int64_t{section.front().layup.section}, row.marks, row.sawn,
                            row.useful, row.gives});
    }
  }
  return table;
}

Table laminateTable(const Writing& w) {
  Table table;
  table.title = "Laminated, face to face";
  table.columns = {{"letter", "", false},         {"part", "part", false},
                   {"copy", "copy", true},        {"laminae", "laminae", false},
                   {"each", "each planed", true}, {"gives", "together", true}};
  for (const GlueUp& up : glueUpsOf(w.plan)) {
    if (up.kind != LayupKind::lamina) continue;
    const std::vector<Glued>& all = up.sections.front();
    const Row row = rowOf(all, w);
    table.rows.push_back({partLetter(up.line), partOf(w.job, up.line).name, std::int64_t{up.copy},
                          row.marks, all.front().layup.gives, row.gives});
  }
  return table;
}

Table looseTable(const Writing& w) {
  Table table;
  table.title = "Side by side, not glued";
  table.columns = {{"letter", "", false},        {"part", "part", false},
                   {"copy", "copy", true},       {"boards", "boards", false},
                   {"sawn", "sawn wide", false}, {"gives", "together", true}};
  for (const GlueUp& up : glueUpsOf(w.plan)) {
    if (up.glued) continue;
    const Row row = rowOf(up.sections.front(), w);
    table.rows.push_back({partLetter(up.line), partOf(w.job, up.line).name, std::int64_t{up.copy},
                          row.marks, row.sawn, row.gives});
  }
  return table;
}

Table partedTable(const Writing& w) {
  Table table;
  table.title = "Of one blank several";
  table.columns = {{"letter", "", false},    {"part", "part", false}, {"blank", "blank", false},
                   {"length", "long", true}, {"width", "wide", true}, {"how", "how", false},
                   {"copies", "for", false}};
  for (const Parted& parted : partedOf(w.plan, w.job, w.shop)) {
    const Part& part = partOf(w.job, parted.blank.line);
    std::string copies;
    for (const Layup& l : parted.becomes) {
      copies += (copies.empty() ? "" : ", ") + std::to_string(l.copy);
    }
    table.rows.push_back({partLetter(part.line), part.name, handMark(part.line, parted.blank.copy),
                          parted.blank.at.dx, parted.blank.at.dy, partingText(parted, part, w.unit),
                          (parted.becomes.size() == 1 ? "copy " : "copies ") + copies});
  }
  return table;
}

/// Parts whose last cut waits for the dry fit.
Table leftLongTable(const Writing& w) {
  Table table;
  table.title = "Left long until the dry fit: their last cut";
  table.columns = {{"letter", "", false},
                   {"part", "part", false},
                   {"copies", "copies", true},
                   {"now", "now", true},
                   {"then", "then", true}};
  for (const Part& part : w.job.parts) {
    if (!part.leftLong) continue;
    table.rows.push_back({partLetter(part.line), part.name, std::int64_t{part.copies + part.spares},
                          blankFor(part, w.shop).length, part.length});
  }
  return table;
}

}  // namespace

void showLayups(Answer& answer, const CutPlan& plan, const Job& job, const ShopProfile& shop) {
  const Writing w{plan, job, shop, answer.unit()};
  const std::pair<const char*, Table> tables[] = {{"glued_up", panelTable(w)},
                                                  {"laminated", laminateTable(w)},
                                                  {"side_by_side", looseTable(w)},
                                                  {"cut_apart", partedTable(w)},
                                                  {"left_long", leftLongTable(w)}};
  for (const auto& [key, table] : tables) {
    answer.put(key, table);
    if (!table.rows.empty()) answer.show(table);
  }
}

}  // namespace flitch::cli
