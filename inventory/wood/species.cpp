#include "inventory/wood/species.h"
