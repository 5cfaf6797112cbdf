// A part's name, count or size is typed over: the job asks for something else.
#include <algorithm>

#include "inventory/desk/jobs.h"
#include "inventory/exchange/columns.h"
#include "inventory/exchange/csv.h"
#include "inventory/wood/writing.h"
#include "ui/desktop/jobs_place.h"

namespace flitch::desktop {
namespace {

/// The cell read as in a parts list: the part with that alone changed. Throws Refusal.
Part typedPart(const Part& part, int column, const std::string& text,
               const exchange::ReadingRules& rules) {
  std::vector<std::string> cells{part.name, "1", "0", "1", "1", "1", part.species.front()};
  const std::size_t plus = text.find('+');
  switch (column) {
    case PartsModel::name: cells[0] = text; break;
    case PartsModel::count:
      cells[1] = trimmed(std::string_view(text).substr(0, plus));
      if (plus != std::string::npos) cells[2] = trimmed(std::string_view(text).substr(plus + 1));
      break;
    default: cells[static_cast<std::size_t>(column - PartsModel::length) + 3] = text;
  }
  exchange::CsvFile list{part.name, {}, {{1, {}}}};
  for (const char* head : {"part", "count", "spares", "length", "width", "thickness", "species"})
    list.head.push_back({head, 1});
  for (const std::string& cell : cells) list.rows[0].cells.push_back({cell, 1});
  const Part read = exchange::readParts(list, rules).rows.at(0);
  Part typed = part;
  switch (column) {
    case PartsModel::name: typed.name = read.name; break;
    case PartsModel::count:
      typed.copies = read.copies;
      typed.spares = read.spares;
      break;
    case PartsModel::length: typed.length = read.length; break;
    case PartsModel::width: typed.width = read.width; break;
    default: typed.thickness = read.thickness;
  }
  if (column >= PartsModel::length) {
    const auto size = static_cast<std::size_t>(column - PartsModel::length);
    typed.typed[size] = read.typed[size];
  }
  return typed;
}

}  // namespace

void JobsPlace::changePart(int line, int column, const QString& text) {
  const Job* shown = job();
  if (shown == nullptr || session_.planning()) return;
  Job changed = *shown;
  const auto part = std::find_if(changed.parts.begin(), changed.parts.end(),
                                 [&](const Part& p) { return p.line == line; });
  if (part == changed.parts.end()) return;
  const QString name = q(part->name);
  const bool out = column == PartsModel::count && text == "0";
  const bool kept = session_.attempt([&] {
    exchange::ReadingRules rules = session_.readingRules();
    for (const NamedSize& size : changed.sizes) rules.sizes.push_back(size.name);
    if (out)
      changed.parts.erase(part);
    else
      *part = typedPart(*part, column, text.toStdString(), rules);
    desk::changeJob(session_.book(), changed, session_.hand());
  });
  if (!kept) return;
  session_.look();
  emit said(QString("%1 %2. Ctrl+Z takes it back%3.")
                .arg(name, out ? "is out of the job" : "is changed",
                     plans_ > 0 ? QString() : QString(", Ctrl+Enter plans the job as it is now")),
            false);
}

}  // namespace flitch::desktop
