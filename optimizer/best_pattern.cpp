#include "optimizer/best_pattern.h"
