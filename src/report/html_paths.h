/// @file html_paths.h
/// Shapes of the kiln as SVG paths on the page: mm, far is up.
#pragma once

#include <string>

#include "placer/geometry/shape.h"
#include "report/keep_outs.h"

namespace placer::report {

/// "12.5 -30": from the kiln to the picture.
std::string at(Point p);
std::string disc_path(const Disc& disc);
std::string path_of(const Footprint& shape);
std::string path_of(const Region& region);

/// A triangle for cones, a crossed ring for a sensor, a wedge for a spy hole, a barred square.
std::string sign_path(Sign sign, Point middle, double r);

/// A `<pattern>` for a hatch, its lines `scale` times as far apart as on a shelf of 500 mm.
std::string hatch_pattern(const std::string& id, int hatch, double scale);

}  // namespace placer::report
