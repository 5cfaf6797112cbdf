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

Table glueUpTable(const CutPlan& plan, const Job& job, const ShopProfile& shop, Unit unit) {
  Table table;
  table.title = "Glued up";
  table.columns = {{"letter", "", false},        {"part", "part", false},
                   {"copy", "copy", true},       {"section", "section", true},
                   {"staves", "staves", false},  {"sawn", "sawn wide", false},
                   {"jointed", "jointed", true}, {"gives", "of the panel", true}};
  const LengthStyle style = unit == Unit::inches ? LengthStyle::inches : LengthStyle::millimetres;
  for (const GlueUp& up : glueUpsOf(plan)) {
    for (const std::vector<Glued>& section : up.sections) {
      std::string marks, widths;
      Length jointed, gives;
      for (const Glued& stave : section) {
        marks += (marks.empty() ? "" : " ") + handMark(up.line, stave.blank.copy);
        widths += (widths.empty() ? "" : ", ") + text(stave.blank.at.dy, style);
        jointed += stave.blank.at.dy - shop.jointStave;
        gives += stave.layup.gives;
      }
      table.rows.push_back({partLetter(up.line), partOf(job, up.line).name, std::int64_t{up.copy},
                            std::int64_t{section.front().layup.section}, marks, widths, jointed,
                            gives});
    }
  }
  return table;
}

}  // namespace flitch::cli
