#include "inventory/records/delivery.h"
