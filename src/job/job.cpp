#include "placer/job/job.h"
