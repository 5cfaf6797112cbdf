#include "optimizer/pattern.h"
