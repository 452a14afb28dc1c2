/// @file html.h
/// Parts of the page for the phone. Every function returns markup that is well-formed both as HTML
/// and as XML.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "placer/report/report.h"
#include "report/cone_place.h"

namespace placer::report {

/// The text between tags or inside a quoted attribute. Control characters that no document may
/// hold are left out; bytes that are no UTF-8 become U+FFFD.
std::string escaped(std::string_view text);
/// A name that may run from right to left, kept from turning its neighbours round.
std::string bdi(std::string_view name);
/// A number as SVG wants it: a tenth at most, no "-0".
std::string svg_number(double value);

/// One shelf of one load.
struct ShelfPlace {
  std::size_t firing = 0;
  const KilnLoad& load;
  const Level& level;
  std::vector<ConePlace> cones;  ///< on this shelf
};
std::string shelf_id(const ShelfPlace& place);  ///< "f1-c1-s3"

/// A button that stays pressed once it is tapped, across the width of the page.
std::string tick_line(const std::string& id, const std::string& words, const std::string& detail);

std::string map_svg(const Subject& subject, const ShelfPlace& place);
std::string swatch_svg(const Subject& subject, const ShelfPlace& place, const PlacedPiece& piece);
/// The key of a map: runny glazes, cones, places to keep clear, tight gaps; "" when it needs none.
std::string key_list(const Subject& subject, const ShelfPlace& place);
/// What goes into which load, what furniture it takes: for several loads; "" for one.
std::string batch_section(const Subject& subject);
std::string side_svg(const Subject& subject, std::size_t firing);
std::string curve_svg(const firing::Forecast& forecast, bool fahrenheit_first);

std::string left_out_section(const Subject& subject);
std::string shelf_section(const Subject& subject, const ShelfPlace& place);
std::string fire_section(const Subject& subject, std::size_t firing);

}  // namespace placer::report
