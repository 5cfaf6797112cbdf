#include "optimizer/solution.h"
