#include "labels/page.h"
