#include "inventory/records/board.h"
