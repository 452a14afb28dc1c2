/// @file text_curve.h
/// A firing's curve made of characters, for a terminal of 80 columns.
#pragma once

#include <string>

#include "placer/firing/forecast.h"

namespace placer::report {

/// Lines of at most 80 columns: °C on the left, °F on the right, hours below; "" without a curve.
std::string curve_text(const firing::Forecast& forecast, bool fahrenheit_first = false);

}  // namespace placer::report
