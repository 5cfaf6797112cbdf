#include "inventory/wood/thickness.h"
