#include "labels/tag_page.h"
