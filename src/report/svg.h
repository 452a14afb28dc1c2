/// @file svg.h
/// A page as an SVG file whose words are real text.
#pragma once

#include <string>

#include "report/drawing.h"

namespace placer::report {

std::string svg(const Page& page);

}  // namespace placer::report
