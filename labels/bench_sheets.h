#pragma once
#include <string>
#include <vector>

#include "inventory/records/pull_list.h"
#include "labels/page.h"
#include "labels/work_lists.h"

namespace flitch::pages {

struct BenchFacts {
  std::string customer;
  std::string planned;  ///< date, for the title block
  Unit unit = Unit::inches;
};

/// The pull list on A4, bay by bay: a box to tick, tag, size, weight and lifting caution, and the
/// tag's symbol to be scanned. A bay is named again on a new page.
[[nodiscard]] std::vector<Page> pullSheets(const PullList& list, const BenchFacts& facts);

/// The work lists on A4: a box to tick before every line, figures to be read at arm's length,
/// cautions, and room to write down what went otherwise.
[[nodiscard]] std::vector<Page> workSheets(const WorkLists& lists, const BenchFacts& facts);

}  // namespace flitch::pages
