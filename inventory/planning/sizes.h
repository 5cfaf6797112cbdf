#pragma once
#include "inventory/records/job.h"
#include "inventory/records/refusal.h"

namespace flitch::planning {

/// Works out the job's named sizes, each after those it names, and the parts' sizes that are
/// arithmetic over them: sets their lengths. Throws one Refusal ("bad-size") with every complaint:
/// a name that is none or stands twice, an unknown one, sizes that name each other in a circle, a
/// unit that does not come out, a size of nothing or past what a part may be.
void resolveSizes(Job& job, Unit unit);

}  // namespace flitch::planning
