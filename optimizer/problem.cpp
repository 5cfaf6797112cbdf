#include "optimizer/problem.h"
