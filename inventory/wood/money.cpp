#include "inventory/wood/money.h"
