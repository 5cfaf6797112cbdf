#include "inventory/store/writer.h"
