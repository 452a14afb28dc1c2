#include "placer/workbook/studio.h"
