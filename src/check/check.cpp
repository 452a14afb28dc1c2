#include "placer/check/check.h"
