#include "labels/board_drawing.h"
