#include "placer/geometry/shape.h"
