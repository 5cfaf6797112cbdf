#include "inventory/desk/jobs.h"
