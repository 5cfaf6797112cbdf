#include "inventory/records/job.h"
