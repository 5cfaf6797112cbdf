#include "labels/label_stock.h"
