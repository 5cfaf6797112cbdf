#include "labels/symbol.h"
