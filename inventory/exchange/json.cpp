#include "inventory/exchange/json.h"
