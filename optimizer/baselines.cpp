#include "optimizer/baselines.h"
