/// @file json.h
/// Shared by the writers of JSON answers: one way to write numbers, places and text.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "placer/base/error.h"
#include "placer/geometry/shape.h"

namespace placer::report {

using Json = nlohmann::ordered_json;

/// Most that a chord may leave the arc it stands for, in mm.
constexpr double kSagitta = 0.01;

/// The bytes: UTF-8, short values on one line, numbers with every digit that makes them differ, a
/// newline at the end. Bytes that are no UTF-8 come out as U+FFFD.
std::string written(const Json& value);

/// @throws std::invalid_argument if the number is not finite: JSON has no word for that.
Json number(double value);
/// null when it is not finite.
Json number_or_null(double value);

Json corners_json(const Outline& outline);  ///< [[x,y],...]
Json disc_json(const Disc& disc);           ///< {"x_mm","y_mm","r_mm"}
Json footprint_json(const Footprint& footprint);

/// Adds "outline_mm" and "round" of an area to stand on: `round` when it is a whole disc; the
/// outline is exact when straight, else its arcs are drawn as asked.
void add_region(Json& to, const Region& region, ArcsAs arcs);
/// Adds "outline_mm" and "round" of something in the way: the outline of a disc is drawn round it.
void add_obstacle(Json& to, const Disc& disc);
void add_obstacle(Json& to, const Outline& outline);

Json findings_array(const std::vector<Finding>& findings);

}  // namespace placer::report
