#include "inventory/desk/reports.h"
