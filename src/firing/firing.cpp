#include "placer/firing/cone.h"
