/// @file sheets.h
/// All drawn sheets of a subject, before they become bytes.
#pragma once

#include "placer/report/report.h"
#include "report/drawing.h"
#include "report/lettering.h"

namespace placer::report {

/// In the order in which they are used; numbered.
Drawing sheets(const Subject& subject, const Lettering& letters, Paper paper);

}  // namespace placer::report
