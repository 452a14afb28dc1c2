#include "placer/report/report.h"
