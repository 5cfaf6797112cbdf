#include "optimizer/components.h"
