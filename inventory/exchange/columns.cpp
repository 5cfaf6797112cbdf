#include "inventory/exchange/columns.h"
