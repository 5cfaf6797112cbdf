#pragma once
#include "optimizer/halt.h"

class ClpSimplex;

namespace flitch::optimizer {

/// Ends the programme between two pivots when halted, from here on. The halt outlives its solving.
void endWhenHalted(ClpSimplex& model, const Halt& halt);

}  // namespace flitch::optimizer
