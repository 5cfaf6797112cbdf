#include "inventory/records/cut_plan.h"
