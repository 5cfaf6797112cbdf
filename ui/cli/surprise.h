#pragma once
#include "inventory/desk/saw.h"
#include "ui/cli/commands.h"
#include "ui/cli/paper.h"

namespace flitch::cli {

/// One board sawn otherwise than planned, a mark found before the cut, and what is left of a job
/// planned again: each keeps the plan it makes.
[[nodiscard]] Answer sawnOtherwise(const Saw& command, const LabelPrint& labels,
                                   const Session& session);
[[nodiscard]] Answer knotFound(const Saw& command, const Session& session);
[[nodiscard]] Answer planAgain(const Saw& command, const Session& session);

/// "C2 is", "C2 and E1 are".
[[nodiscard]] std::string lostText(std::vector<std::string> marks);
/// What was sawn, the offcuts and their tags.
void saySawn(const desk::Sawn& sawn, const Job& job, const Saw& command, const LabelPrint& labels,
             const store::Snapshot& snapshot, Answer& answer);

}  // namespace flitch::cli
