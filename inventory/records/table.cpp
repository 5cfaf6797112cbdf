#include "inventory/records/table.h"
