/// @file pdf.h
/// A drawing as a PDF file.
#pragma once

#include <string>

#include "report/drawing.h"
#include "report/lettering.h"

namespace placer::report {

/// @param made_at seconds since 1970 UTC, the date in the file; 0 = a fixed one.
/// @throws std::runtime_error if the drawing library fails.
std::string pdf(const Drawing& drawing, const Lettering& lettering, long long made_at);

}  // namespace placer::report
