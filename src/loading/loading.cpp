#include "placer/loading/loading.h"
