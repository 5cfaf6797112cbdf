#include "inventory/store/snapshot.h"
