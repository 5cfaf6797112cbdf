#include "inventory/wood/length.h"
