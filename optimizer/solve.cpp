#include "optimizer/solve.h"
