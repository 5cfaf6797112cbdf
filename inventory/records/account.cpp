#include "inventory/records/account.h"
