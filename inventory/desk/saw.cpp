#include "inventory/desk/saw.h"
