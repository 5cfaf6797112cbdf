#include "labels/cut_sheet.h"
