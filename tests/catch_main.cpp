#include "tests/run_catch.h"

int main(int argc, char** argv) { return flitch::runCatch(argc, argv); }
