#pragma once
#include "ui/cli/commands.h"

namespace flitch::cli {

/// The rack's boards that look like less than the grade they were paid as.
[[nodiscard]] Answer rackShorts(const Rack& command, const store::Book& book);
/// Says which of some boards do; nothing for people where none does.
void sayShorts(Answer& answer, const std::vector<Board>& boards, const store::Snapshot& snapshot);

}  // namespace flitch::cli
