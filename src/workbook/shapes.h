/// @file shapes.h
/// Shapes in words: "round 580", "half round 560", "500 x 450", an outline; handles and spouts.
/// Internal to workbook/.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "placer/geometry/shape.h"
#include "workbook/block.h"

namespace placer::workbook {

/// A chamber or shelf seen from above.
struct Floor {
  enum class Form { round, half_round, many_sided, rectangle, outline };
  Form form = Form::rectangle;
  Region region;      ///< origin: see model/kiln.h
  std::string words;  ///< "half round 560", as it may be called on a sheet
};
std::optional<Floor> read_floor(Block& block, std::string_view key);

/// The floor as a footprint of the same size: discs stay discs, a half disc becomes a polygon that
/// lies inside it by at most 0.001 mm.
Footprint as_footprint(const Floor& floor);

/// A post's foot or the like: a diameter ("40", "round 40"), or "40 x 40".
struct Foot {
  double width = 0, depth = 0;  ///< mm; equal for a round one
  bool round = false;
};
std::optional<Foot> read_foot(Block& block, std::string_view key);
Footprint as_footprint(const Foot& foot);

/// A list of corners as a simple outline, counter-clockwise, in the file's own coordinates.
std::optional<Outline> read_outline(Block& block, std::string_view key);

/// A piece's body and its handles, about the middle of the body. The body alone is there too.
struct Body {
  Footprint whole;
  double body_area = 0;    ///< mm²
  double least_width = 0;  ///< mm, of the body
  double greatest_width = 0;
};
std::optional<Body> read_body(Block& piece);

/// Least distance between two parallel lines that hold the shape.
double least_width(const Footprint& shape);

}  // namespace placer::workbook
