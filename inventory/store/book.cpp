#include "inventory/store/book.h"
