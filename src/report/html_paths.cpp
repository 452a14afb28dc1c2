#include "report/html_paths.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "report/html.h"

namespace placer::report {
namespace {

/// One tile of a pattern and its turn; lines are `pen` wide.
struct Tile {
  const char* path;
  double width, height;
  int turn_deg;
};
constexpr std::array<Tile, 12> kTiles{{{"M5 0V10", 10, 10, 45},
                                       {"M5 0V10", 10, 10, -45},
                                       {"M5 0V12M0 5H12", 12, 12, 45},
                                       {"M0 5H10", 10, 10, 0},
                                       {"M5 0V10", 10, 10, 0},
                                       {"M6 0V12M0 6H12", 12, 12, 0},
                                       {"M4.5 5H5.5", 10, 10, 45},
                                       {"M3 0V10M7 0V10", 16, 10, 45},
                                       {"M1 3H7M9 8H15", 16, 10, 0},
                                       {"M3 0V10M7 0V10", 16, 10, -45},
                                       {"M0 3L6 9L12 3", 12, 12, 0},
                                       {"M3 6H9M6 3V9", 13, 13, 0}}};

std::string outline_path(const Outline& outline) {
  std::string path;
  for (const Point p : outline.corners) path += (path.empty() ? "M" : "L") + at(p);
  return path + "Z";
}

}  // namespace

std::string hatch_pattern(const std::string& id, int hatch, double scale) {
  const Tile& tile = kTiles.at(static_cast<std::size_t>((hatch - 1) % 12));
  const double pen = (hatch > 12 ? 3.2 : 1.5) * ((hatch - 1) % 12 == 6 ? 2 : 1);
  return fmt::format(
      "<pattern id=\"{}\" width=\"{}\" height=\"{}\" patternUnits=\"userSpaceOnUse\" "
      "patternTransform=\"scale({:.2f}) rotate({})\"><rect class=\"sheet\" width=\"{}\" "
      "height=\"{}\"/><path class=\"hatch\" d=\"{}\" stroke-width=\"{}\"/></pattern>",
      id, tile.width, tile.height, scale, tile.turn_deg, tile.width, tile.height, tile.path, pen);
}

std::string at(Point p) { return svg_number(p.x) + " " + svg_number(-p.y); }

std::string disc_path(const Disc& disc) {
  const std::string r = svg_number(disc.radius);
  const Point left{disc.centre.x - disc.radius, disc.centre.y};
  const Point right{disc.centre.x + disc.radius, disc.centre.y};
  // Counter-clockwise as the outlines run, so that overlapping parts unite.
  return fmt::format("M{}A{} {} 0 0 0 {}A{} {} 0 0 0 {}Z", at(left), r, r, at(right), r, r,
                     at(left));
}

std::string path_of(const Footprint& shape) {
  std::string path;
  for (const Disc& disc : shape.discs) path += disc_path(disc);
  for (const Outline& outline : shape.outlines) path += outline_path(outline);
  return path;
}

std::string path_of(const Region& region) {
  if (region.round && region.outline.corners.empty()) return disc_path(*region.round);
  return outline_path(edge_polygon(region, 0.5));
}

std::string sign_path(Sign sign, Point middle, double r) {
  Footprint shape;
  std::string bars;
  switch (sign) {
    case Sign::cones:
      shape.outlines = {
          {{middle + Point{-r, -0.8 * r}, middle + Point{r, -0.8 * r}, middle + Point{0, r}}}};
      break;
    case Sign::sensor: {
      shape.discs = {{middle, r}};
      const double arm = r * std::sqrt(0.5);
      bars = fmt::format("M{}L{}M{}L{}", at(middle - Point{arm, arm}), at(middle + Point{arm, arm}),
                         at(middle - Point{arm, -arm}), at(middle + Point{arm, -arm}));
      break;
    }
    case Sign::spy_hole:
      shape.outlines = {
          {{middle + Point{-r, 0}, middle + Point{0.8 * r, -r}, middle + Point{0.8 * r, r}}}};
      break;
    case Sign::other:
      shape.outlines = {rectangle(middle - Point{r, r}, middle + Point{r, r})};
      bars = fmt::format("M{}L{}", at(middle - Point{r, r}), at(middle + Point{r, r}));
      break;
  }
  return path_of(shape) + bars;
}

}  // namespace placer::report
