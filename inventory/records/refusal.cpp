#include "inventory/records/refusal.h"
