#include "inventory/wood/shape.h"
