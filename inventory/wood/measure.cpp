#include "inventory/wood/measure.h"
