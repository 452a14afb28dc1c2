#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "report/hatch.h"
#include "report/html.h"
#include "report/lists.h"
#include "report/onto_paper.h"
#include "report/words.h"

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

/// A `<pattern>` for a hatch, its lines `scale` times as far apart as on a shelf of 500 mm.
std::string pattern(const std::string& id, int hatch, double scale) {
  const Tile& tile = kTiles.at(static_cast<std::size_t>((hatch - 1) % 12));
  const double pen = (hatch > 12 ? 3.2 : 1.5) * ((hatch - 1) % 12 == 6 ? 2 : 1);
  return fmt::format(
      "<pattern id=\"{}\" width=\"{}\" height=\"{}\" patternUnits=\"userSpaceOnUse\" "
      "patternTransform=\"scale({:.2f}) rotate({})\"><rect class=\"sheet\" width=\"{}\" "
      "height=\"{}\"/><path class=\"hatch\" d=\"{}\" stroke-width=\"{}\"/></pattern>",
      id, tile.width, tile.height, scale, tile.turn_deg, tile.width, tile.height, tile.path, pen);
}

/// From the kiln to the picture: far is up.
std::string at(Point p) { return svg_number(p.x) + " " + svg_number(-p.y); }

std::string disc_path(const Disc& disc) {
  const std::string r = svg_number(disc.radius);
  const Point left{disc.centre.x - disc.radius, disc.centre.y};
  const Point right{disc.centre.x + disc.radius, disc.centre.y};
  // Counter-clockwise as the outlines run, so that overlapping parts unite.
  return fmt::format("M{}A{} {} 0 0 0 {}A{} {} 0 0 0 {}Z", at(left), r, r, at(right), r, r,
                     at(left));
}

std::string outline_path(const Outline& outline) {
  std::string path;
  for (const Point p : outline.corners) path += (path.empty() ? "M" : "L") + at(p);
  return path + "Z";
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

class Map {
 public:
  Map(const Subject& subject, const ShelfPlace& place)
      : subject_{subject}, place_{place}, shelf_{ground(subject.batch, place.level)} {
    box_ = bounding_box(shelf_);
    scale_ = std::max(box_.high.x - box_.low.x, box_.high.y - box_.low.y) / 500;
  }

  std::string svg() const {
    const double margin = 22 * scale_;
    std::string text = fmt::format(
        "<svg class=\"map\" id=\"{}-map\" viewBox=\"{} {} {} {}\" role=\"img\" "
        "aria-label=\"{}\">\n",
        shelf_id(place_), svg_number(box_.low.x - margin), svg_number(-box_.high.y - margin),
        svg_number(box_.high.x - box_.low.x + 2 * margin),
        svg_number(box_.high.y - box_.low.y + 2 * margin), label());
    text += "<defs>" + patterns() + "</defs>\n";
    text += fmt::format("<path class=\"shelf\" d=\"{}\" stroke-width=\"{}\"/>\n", path_of(shelf_),
                        svg_number(3.5 * scale_));
    for (const PlacedPost& post : place_.level.posts) {
      text +=
          fmt::format("<path class=\"post\" d=\"{}\"/>\n", path_of(ground(subject_.batch, post)));
    }
    for (const PlacedPiece& piece : place_.level.pieces) text += piece_mark(piece);
    return text + keep_outs() + "</svg>\n";
  }

  /// A small field with the piece's hatching, the same as on the map.
  std::string swatch(const PlacedPiece& piece) const {
    const auto mm = [&](double at) { return svg_number(at * scale_); };
    return fmt::format(
        "<svg class=\"swatch\" viewBox=\"0 0 {} {}\" aria-hidden=\"true\"><rect class=\"body\" "
        "x=\"{}\" "
        "y=\"{}\" width=\"{}\" height=\"{}\" style=\"fill:{}\" stroke-width=\"{}\"/></svg>",
        mm(66), mm(42), mm(2), mm(2), mm(62), mm(38), fill(piece), mm(3));
  }

 private:
  std::string fill(const PlacedPiece& piece) const {
    const int pattern = hatch(piece);
    return pattern > 0 ? fmt::format("url(#{}-h{})", shelf_id(place_), pattern) : "var(--paper)";
  }

  std::string label() const {
    return escaped(fmt::format(
        "Map of {}, seen as you stand: {}. Every piece is in the list below, by its number.",
        shelf_name(subject_, place_.level), count_text(pieces_on(place_.level), "piece")));
  }

  int hatch(const PlacedPiece& piece) const {
    if (!glazed(subject_, place_.load)) return 0;
    return hatch_of(subject_.batch,
                    subject_.batch.pieces.at(static_cast<std::size_t>(piece.piece)));
  }

  std::string patterns() const {
    std::set<int> used;
    for (const PlacedPiece& piece : place_.level.pieces) used.insert(hatch(piece));
    std::string text;
    for (const int one : used) {
      if (one > 0) text += pattern(fmt::format("{}-h{}", shelf_id(place_), one), one, scale_);
    }
    return text;
  }

  /// Outline, hatching, number; a stack has its count below the number.
  std::string piece_mark(const PlacedPiece& piece) const {
    const Footprint shape = ground(subject_.batch, place_.load, piece);
    const Disc spot = roomiest(shape);
    const std::string number = std::to_string(piece.number);
    const double size = std::min(spot.radius * (number.size() > 1 ? 1.05 : 1.25), 62 * scale_);
    std::string text = fmt::format(
        "<g class=\"piece\" data-for=\"{}-p{}\" data-x=\"{}\" data-y=\"{}\"><path class=\"body\" "
        "d=\"{}\" style=\"fill:{}\" stroke-width=\"{}\"/>",
        shelf_id(place_), piece.number, svg_number(spot.centre.x), svg_number(-spot.centre.y),
        path_of(shape), fill(piece), svg_number(4 * scale_));
    const bool stack = piece.stacked > 1;
    const double middle = -spot.centre.y + 0.36 * size - (stack ? 0.25 * size : 0);
    text += text_mark("number", spot.centre.x, middle, size, number);
    if (stack) {
      text += text_mark("count", spot.centre.x, middle + 0.62 * size, 0.55 * size,
                        fmt::format("×{}", piece.stacked));
    }
    text += text_mark("check", spot.centre.x, -spot.centre.y - 0.42 * size, 0.62 * size, "✓");
    return text + "</g>\n";
  }

  static std::string text_mark(const char* kind, double x, double y, double size,
                               const std::string& words) {
    return fmt::format(
        "<text class=\"{}\" x=\"{}\" y=\"{}\" font-size=\"{}\" stroke-width=\"{}\">{}</text>", kind,
        svg_number(x), svg_number(y), svg_number(size), svg_number(0.28 * size), escaped(words));
  }

  /// Beyond what the picture shows.
  bool far_away(const Box& box) const {
    const double near = 22 * scale_;
    return box.low.x > box_.high.x + near || box.high.x < box_.low.x - near ||
           box.low.y > box_.high.y + near || box.high.y < box_.low.y - near;
  }

  std::string keep_outs() const {
    std::string text;
    const Level& level = place_.level;
    const Length top = level.shelf_top + level.clear_height;
    for (const KeepOut& keep_out : subject_.batch.kiln.keep_outs) {
      const bool whole = keep_out.to <= keep_out.from;
      if (!whole && (keep_out.to <= level.shelf_top || keep_out.from >= top)) continue;
      if (far_away(bounding_box(keep_out.area))) continue;
      const Disc spot = roomiest(keep_out.area);
      text += fmt::format("<path class=\"keep-out\" d=\"{}\" stroke-width=\"{}\"/>",
                          path_of(keep_out.area), svg_number(2.5 * scale_));
      const Point middle{std::clamp(spot.centre.x, box_.low.x, box_.high.x),
                         std::clamp(spot.centre.y, box_.low.y, box_.high.y)};
      text += sign(keep_out.what, middle);
    }
    return text;
  }

  /// The same signs as on paper: a triangle for cones, a crossed ring for a sensor, a wedge for a
  /// spy hole, a barred square for the rest.
  std::string sign(const std::string& what, Point middle) const {
    const double r = 11 * scale_;
    const auto has = [&](const char* word) { return what.find(word) != std::string::npos; };
    Footprint shape;
    std::string bars;
    if (has("cone")) {
      shape.outlines = {
          {{middle + Point{-r, -0.8 * r}, middle + Point{r, -0.8 * r}, middle + Point{0, r}}}};
    } else if (has("sensor") || has("probe")) {
      shape.discs = {{middle, r}};
      const double arm = r * std::sqrt(0.5);
      bars = fmt::format("M{}L{}M{}L{}", at(middle - Point{arm, arm}), at(middle + Point{arm, arm}),
                         at(middle - Point{arm, -arm}), at(middle + Point{arm, -arm}));
    } else if (has("spy")) {
      shape.outlines = {
          {{middle + Point{-r, 0}, middle + Point{0.8 * r, -r}, middle + Point{0.8 * r, r}}}};
    } else {
      shape.outlines = {rectangle(middle - Point{r, r}, middle + Point{r, r})};
      bars = fmt::format("M{}L{}", at(middle - Point{r, r}), at(middle + Point{r, r}));
    }
    return fmt::format(
        "<path class=\"sign\" d=\"{}{}\" stroke-width=\"{}\"><title>{}</title></path>\n",
        path_of(shape), bars, svg_number(2.5 * scale_), escaped(what));
  }

  const Subject& subject_;
  const ShelfPlace& place_;
  Region shelf_;
  Box box_;
  double scale_ = 1;
};

}  // namespace

std::string map_svg(const Subject& subject, const ShelfPlace& place) {
  return Map{subject, place}.svg();
}

std::string swatch_svg(const Subject& subject, const ShelfPlace& place, const PlacedPiece& piece) {
  return Map{subject, place}.swatch(piece);
}

}  // namespace placer::report
