#include "placer/model/batch.h"
