#include "inventory/planning/frame.h"
