#include "inventory/records/plan_check.h"
