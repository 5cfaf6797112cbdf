#pragma once

namespace flitch {

/// Runs the program's tests as its arguments say. Catch2's own code is compiled once, behind this.
int runCatch(int argc, char** argv);

}  // namespace flitch
