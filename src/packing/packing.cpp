#include "placer/packing/packing.h"
