#include "inventory/wood/split.h"
