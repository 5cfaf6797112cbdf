#include "inventory/desk/receive.h"
