#include "inventory/exchange/csv.h"
