#include "inventory/records/blank.h"
