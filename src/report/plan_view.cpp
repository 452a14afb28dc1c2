#include "report/plan_view.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "report/hatch.h"
#include "report/hatching.h"

namespace placer::report {
namespace {

constexpr std::array kRoundScales{1.0, 1.5, 2.0,  2.5,  3.0,  3.5,  4.0,  5.0,  6.0,
                                  7.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0, 40.0};
constexpr double kAbove = 6;   // the back wall's name
constexpr double kBelow = 10;  // where you stand
constexpr double kEdge = 0.9;
constexpr double kOutline = 0.5;
constexpr std::array kNumberSizes{pt(26), pt(24), pt(22), pt(20), pt(18), pt(17.7)};

/// From kiln coordinates (mm, y to the back) to the paper (mm, y down).
struct OntoPaper {
  Point far_left;  // kiln
  Point origin;    // paper
  double scale = 1;

  Point operator()(Point p) const {
    return {origin.x + (p.x - far_left.x) / scale, origin.y + (far_left.y - p.y) / scale};
  }
  Footprint operator()(const Footprint& shape) const {
    Footprint out;
    for (const Disc& d : shape.discs) out.discs.push_back({(*this)(d.centre), d.radius / scale});
    for (const Outline& outline : shape.outlines) out.outlines.push_back((*this)(outline));
    return out;
  }
  Outline operator()(Outline outline) const {
    for (Point& corner : outline.corners) corner = (*this)(corner);
    return outline;
  }
};

Path outlined(const Outline& outline, const Pen& pen, Fill fill) {
  return {outline.corners, true, pen, fill};
}

/// The outline of all parts together: heavy lines first, then white (or black) over what lies
/// inside. No cutting of shapes is needed.
void draw_union(Page& page, const Footprint& shape, double line, Fill fill) {
  const Pen pen{2 * line, {}};
  for (const Disc& disc : shape.discs) {
    page.marks.emplace_back(Circle{disc.centre, disc.radius, pen, Fill::none});
  }
  for (const Outline& o : shape.outlines) page.marks.emplace_back(outlined(o, pen, Fill::none));
  for (const Disc& disc : shape.discs) {
    page.marks.emplace_back(Circle{disc.centre, disc.radius, Pen{0, {}}, fill});
  }
  for (const Outline& o : shape.outlines) page.marks.emplace_back(outlined(o, Pen{0, {}}, fill));
}

/// The roomiest spot of a shape: middle and radius of a circle that lies inside.
Disc roomiest(const Footprint& shape) {
  Disc best;
  for (const Disc& disc : shape.discs) {
    if (disc.radius > best.radius) best = disc;
  }
  for (const Outline& outline : shape.outlines) {
    Point middle;
    for (const Point corner : outline.corners) middle = middle + corner;
    middle = (1.0 / static_cast<double>(outline.corners.size())) * middle;
    const double radius = std::abs(inset(middle, outline));
    if (radius > best.radius) best = {middle, radius};
  }
  return best;
}

bool fits_in(const Desk& desk, const std::string& number, double size, const Disc& spot) {
  const double half_width = desk.letters.width(number, size, true) / 2;
  const double half_height = kCapitals * size / 2;
  return std::hypot(half_width, half_height) + 0.6 <= spot.radius;
}

std::optional<double> number_size(const Desk& desk, const std::string& number, const Disc& spot) {
  for (const double size : kNumberSizes) {
    if (fits_in(desk, number, size, spot)) return size;
  }
  return std::nullopt;
}

Box shelf_box(const Desk& desk, const ShelfView& view) {
  return bounding_box(ground(desk.subject.batch, view.level));
}

void draw_shelf(Page& page, const Desk& desk, const ShelfView& view, const OntoPaper& onto) {
  const Region shelf = ground(desk.subject.batch, view.level);
  page.marks.emplace_back(outlined(onto(edge_polygon(shelf, 0.2)), Pen{kEdge, {}}, Fill::none));
}

void draw_posts(Page& page, const Desk& desk, const ShelfView& view, const OntoPaper& onto) {
  for (const PlacedPost& post : view.level.posts) {
    draw_union(page, onto(ground(desk.subject.batch, post)), 0.2, Fill::black);
  }
}

void draw_piece(Page& page, const Desk& desk, const ShelfView& view, const PlacedPiece& piece,
                const OntoPaper& onto) {
  const Footprint shape = onto(ground(desk.subject.batch, view.load, piece));
  draw_union(page, shape, kOutline, Fill::white);
  const std::string number = std::to_string(piece.number);
  const Disc spot = roomiest(shape);
  const double size = number_size(desk, number, spot).value_or(kNumberSizes.back());
  Text text = desk.letters.text({spot.centre.x, spot.centre.y + kCapitals * size / 2}, number, size,
                                true, Anchor::middle);
  const Box box = box_of(text);
  const Box spare{box.low - Point{0.9, 0.9}, Point{box.high.x + 0.9, text.at.y + 0.9}};
  if (auto strokes = hatched(shape, hatching_of(desk, view.load, piece), spare)) {
    page.marks.emplace_back(std::move(*strokes));
  }
  page.marks.emplace_back(std::move(text));
}

}  // namespace

int hatching_of(const Desk& desk, const KilnLoad& load, const PlacedPiece& piece) {
  const Batch& batch = desk.subject.batch;
  const bool glazed = batch.loads.at(static_cast<std::size_t>(load.load)).kind == FiringKind::glaze;
  return glazed ? hatch_of(batch, batch.pieces.at(static_cast<std::size_t>(piece.piece))) : 0;
}

double round_scale(const Desk& desk, const ShelfView& view, const Room& room) {
  const Box box = shelf_box(desk, view);
  const double needed = std::max((box.high.x - box.low.x) / (room.width() - kEdge),
                                 (box.high.y - box.low.y) / (room.height() - kAbove - kBelow));
  const auto found = std::find_if(kRoundScales.begin(), kRoundScales.end(),
                                  [&](double scale) { return scale >= needed; });
  return found != kRoundScales.end() ? *found : std::ceil(needed / 10) * 10;
}

bool numbers_fit(const Desk& desk, const ShelfView& view, double scale) {
  const OntoPaper onto{{}, {}, scale};
  return std::all_of(view.level.pieces.begin(), view.level.pieces.end(), [&](const auto& piece) {
    const Footprint shape = onto(ground(desk.subject.batch, view.load, piece));
    return number_size(desk, std::to_string(piece.number), roomiest(shape)).has_value();
  });
}

void draw_plan(Page& page, const Desk& desk, const ShelfView& view, const Room& room,
               double scale) {
  const Box box = shelf_box(desk, view);
  const double width = (box.high.x - box.low.x) / scale;
  const double height = (box.high.y - box.low.y) / scale;
  const double left = room.left + (room.width() - width) / 2;
  const double top = room.top + kAbove + (room.height() - kAbove - kBelow - height) / 2;
  const OntoPaper onto{{box.low.x, box.high.y}, {left, top}, scale};
  const double middle = left + width / 2;
  const bool lid = desk.subject.batch.kiln.opens == Opens::top;
  write(page, desk, {middle, top - 2}, lid ? "back, hinge of the lid" : "back wall", {pt(10)},
        Anchor::middle);
  draw_shelf(page, desk, view, onto);
  draw_posts(page, desk, view, onto);
  for (const PlacedPiece& piece : view.level.pieces) draw_piece(page, desk, view, piece, onto);
  write(page, desk, {middle, top + height + 6.5}, "▲  YOU STAND HERE  ▲", {pt(13), true},
        Anchor::middle);
}

}  // namespace placer::report
