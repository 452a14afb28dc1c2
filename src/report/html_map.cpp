#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "report/hatch.h"
#include "report/html.h"
#include "report/html_paths.h"
#include "report/keep_outs.h"
#include "report/lists.h"
#include "report/onto_paper.h"
#include "report/standing.h"
#include "report/tight_gaps.h"
#include "report/words.h"

namespace placer::report {
namespace {

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
    text += cones();
    for (const PlacedPiece& piece : place_.level.pieces) text += piece_mark(piece);
    return text + pinches() + keep_outs() + "</svg>\n";
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
      if (one > 0) text += hatch_pattern(fmt::format("{}-h{}", shelf_id(place_), one), one, scale_);
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
    text += stack_lines(piece, shape, spot);
    const int like = like_ones(piece);
    const bool stack = like > 1;
    const double middle = -spot.centre.y + 0.36 * size - (stack ? 0.25 * size : 0);
    text += text_mark("number", spot.centre.x, middle, size, number);
    if (stack) {
      text += text_mark("count", spot.centre.x, middle + 0.62 * size, 0.55 * size,
                        fmt::format("×{}", like));
    }
    if (needs_cookie(subject_.batch, place_.load, piece)) {
      const double r = std::clamp(0.13 * spot.radius, 4 * scale_, 9 * scale_);
      text += drop({spot.centre.x, spot.centre.y + 0.74 * spot.radius}, r);
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

  /// Rings inside the body show a stack, lines across a row on edge.
  std::string stack_lines(const PlacedPiece& piece, const Footprint& shape,
                          const Disc& spot) const {
    const int count = like_ones(piece);
    if (count < 2) return "";
    std::string path;
    if (on_edge(subject_.batch, piece) && shape.outlines.size() == 1 &&
        shape.outlines[0].corners.size() == 4) {
      const auto& c = shape.outlines[0].corners;
      for (int i = 1; i < count; ++i) {
        const double part = static_cast<double>(i) / count;
        path += "M" + at(c[0] + part * (c[1] - c[0])) + "L" + at(c[3] + part * (c[2] - c[3]));
      }
    } else {
      for (int i = 1; i <= std::min(count - 1, 3); ++i) {
        const double size = 1 - std::min(6 * scale_ * i / spot.radius, 0.24 * i);
        path += disc_path({spot.centre, size * spot.radius});
      }
    }
    return fmt::format("<path class=\"thin\" d=\"{}\" stroke-width=\"{}\"/>", path,
                       svg_number(1.3 * scale_));
  }

  /// A drop: the glaze runs, a cookie goes under it.
  std::string drop(Point middle, double r) const {
    return fmt::format(
        "<path class=\"drop\" d=\"M{0}L{1}A{2} {2} 0 1 0 {3}Z\" stroke-width=\"{4}\"/>",
        at(middle + Point{0, 2.1 * r}), at(middle + Point{-0.9 * r, 0.44 * r}), svg_number(r),
        at(middle + Point{0.9 * r, 0.44 * r}), svg_number(2.5 * scale_));
  }

  /// Two arrow heads that meet at each tight gap.
  std::string pinches() const {
    const TightGaps tight = tight_gaps(subject_.batch, place_.load, place_.level);
    if (tight.everywhere) return "";
    std::string text;
    for (const TightGap& gap : tight.bars) text += pinch(gap);
    return text;
  }

  std::string pinch(const TightGap& gap) const {
    const auto& [from, to, small, runny] = gap;
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    if (length < 1e-6) return "";
    // Short of the number, which takes the middle of the piece.
    const double size = std::min(15 * scale_, 0.32 * small);
    const Point along = (size / length) * (to - from);
    const Point side = 0.45 * Point{-along.y, along.x};
    std::string path;
    for (const auto& [tip, base] : {std::pair{from, from - along}, std::pair{to, to + along}}) {
      path += "M" + at(tip) + "L" + at(base + side) + "L" + at(base - side) + "Z";
    }
    return fmt::format("<path class=\"pinch{}\" d=\"{}\" stroke-width=\"{}\"/>\n",
                       runny ? " runny" : "", path, svg_number(2.5 * scale_));
  }

  /// Cone packs and the dotted line to the hole that must see them.
  std::string cones() const {
    std::string text;
    for (const ConePlace& place : place_.cones) {
      const double width = 2 * scale_;
      if (place.seen) {
        text += fmt::format(
            "<path class=\"sight\" d=\"M{}L{}\" stroke-width=\"{}\" "
            "stroke-dasharray=\"{} {}\"/>",
            at(place.middle), at(in_picture(place.eye)), svg_number(width), svg_number(width),
            svg_number(2.5 * width));
      }
      text += fmt::format("<path class=\"pack\" d=\"{}\" stroke-width=\"{}\"/>",
                          path_of(place.pack), svg_number(width));
      const auto& c = place.pack.outlines[0].corners;
      const Point across = 0.28 * (c[1] - c[0]);
      std::string marks;
      for (const double part : {-1.0, 0.0, 1.0}) {
        const Point middle = place.middle + part * across;
        marks += "M" + at(middle + Point{0, 10}) + "L" + at(middle + Point{-7, -8}) + "L" +
                 at(middle + Point{7, -8}) + "Z";
      }
      text += "<path class=\"cone\" d=\"" + marks + "\"><title>cone pack</title></path>\n";
    }
    return text;
  }

  Point in_picture(Point p) const {
    return {std::clamp(p.x, box_.low.x, box_.high.x), std::clamp(p.y, box_.low.y, box_.high.y)};
  }

  std::string keep_outs() const {
    std::string text;
    for (const KeepOut* keep_out : keep_outs_here(subject_.batch, place_.level)) {
      const Disc spot = roomiest(keep_out->area);
      if (lies_over(subject_.batch, place_.level, *keep_out)) {
        text += fmt::format("<path class=\"keep-out\" d=\"{}\" stroke-width=\"{}\"/>",
                            path_of(keep_out->area), svg_number(2.5 * scale_));
      }
      if (stands_here(place_.level, *keep_out)) text += sign(*keep_out, in_picture(spot.centre));
    }
    return text;
  }

  /// The same signs as on paper.
  std::string sign(const KeepOut& keep_out, Point middle) const {
    return fmt::format(
        "<path class=\"sign\" d=\"{}\" stroke-width=\"{}\"><title>{}</title></path>\n",
        sign_path(sign_of(keep_out), middle, 11 * scale_), svg_number(2.5 * scale_),
        escaped(keep_out.what));
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
