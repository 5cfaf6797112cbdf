#include "inventory/records/shop.h"
