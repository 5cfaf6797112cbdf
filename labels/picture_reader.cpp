#include "labels/picture_reader.h"
