#include "inventory/wood/tag_code.h"
