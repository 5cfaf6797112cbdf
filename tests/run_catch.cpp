#define CATCH_CONFIG_RUNNER
#include "tests/run_catch.h"

#include <catch2/catch.hpp>

int flitch::runCatch(int argc, char** argv) { return Catch::Session().run(argc, argv); }
