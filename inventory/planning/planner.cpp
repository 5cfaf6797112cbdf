#include "inventory/planning/planner.h"
