#include "placer/workbook/studio.h"

namespace placer::workbook {

std::string studio_schema() { return "{}\n"; }

}  // namespace placer::workbook
