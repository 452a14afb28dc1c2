#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "report/hatch.h"
#include "report/hatching.h"
#include "report/plan_marks.h"
#include "report/standing.h"

namespace placer::report {
namespace {

constexpr double kOutline = 0.5;
// Digits of the smallest are 4.6 mm high, enough for an arm's length.
constexpr std::array kNumberSizes{pt(22), pt(20), pt(18)};
constexpr double kLeastNumber = pt(5);   // where a piece is smaller than its number
constexpr std::size_t kMostBeside = 15;  // numbers with a line to them; more are a thicket
constexpr double kLargeNumber = pt(26);
constexpr double kLargeSpot = 16;  // mm: a piece with room for a larger number and its hatching

/// A number is as high as its digits: they have no tails.
Box digits_box(const Text& text) {
  Box box = box_of(text);
  box.high.y = text.at.y;
  return box;
}

Text number_at(const Desk& desk, Point middle, const std::string& number, double size) {
  return desk.letters.text({middle.x, middle.y + kCapitals * size / 2}, number, size, true,
                           Anchor::middle);
}

/// A row on edge shows its pieces.
bool draw_row(Plan& plan, const PlacedPiece& piece, const Footprint& shape) {
  if (!on_edge(plan.desk.subject.batch, piece) || shape.outlines.size() != 1 ||
      shape.outlines[0].corners.size() != 4) {
    return false;
  }
  const auto& c = shape.outlines[0].corners;
  const int count = like_ones(piece);
  Strokes lines{{}, Pen{0.25, {}}};
  for (int i = 1; i < count; ++i) {
    const double part = static_cast<double>(i) / count;
    lines.lines.emplace_back(c[0] + part * (c[1] - c[0]), c[3] + part * (c[2] - c[3]));
  }
  plan.page.marks.emplace_back(std::move(lines));
  return true;
}

/// Rings inside the body show a stack, at most three: handles have none.
void draw_stack_lines(Plan& plan, const PlacedPiece& piece, const Footprint& shape) {
  const int count = like_ones(piece);
  if (count < 2 || draw_row(plan, piece, shape)) return;
  const Disc spot = roomiest(shape);
  const bool round = std::any_of(shape.discs.begin(), shape.discs.end(),
                                 [&](const Disc& disc) { return disc.radius >= spot.radius; });
  for (int i = 1; i <= std::min(count - 1, 3); ++i) {
    const double size = 1 - std::min(1.4 * i / std::max(spot.radius, 1.0), 0.24 * i);
    if (round) {
      plan.page.marks.emplace_back(
          Circle{spot.centre, size * spot.radius, Pen{0.25, {}}, Fill::none});
    } else {
      const Footprint ring = scaled(placed(shape, {Point{} - spot.centre, 0}), size);
      draw_thin(plan.page, placed(ring, {spot.centre, 0}));
    }
  }
}

struct Numbered {
  const PlacedPiece* piece = nullptr;
  Footprint shape;
  Disc spot;
  std::string number;
  std::optional<Text> text;
};

void draw_shape(Plan& plan, const Numbered& one) {
  draw_inside(plan.page, one.shape, kOutline);
  draw_stack_lines(plan, *one.piece, one.shape);
  std::optional<Box> spare;
  if (one.text) {
    const Box box = digits_box(*one.text);
    spare = Box{box.low - Point{0.7, 0.7}, box.high + Point{0.7, 0.7}};
  }
  const int pattern = hatching_of(plan.desk, plan.view.load, *one.piece);
  if (auto strokes = hatched(one.shape, pattern, spare)) {
    plan.page.marks.emplace_back(std::move(*strokes));
  }
}

bool is_free(const Plan& plan, const Box& box) {
  return std::none_of(plan.taken.begin(), plan.taken.end(),
                      [&](const Box& other) { return overlap(box, other); });
}

bool in_room(const Plan& plan, const Box& box) {
  return box.low.x >= plan.room.left && box.high.x <= plan.room.right &&
         box.low.y >= plan.room.top && box.high.y <= plan.room.bottom;
}

bool on_bare_shelf(const std::vector<Numbered>& all, const Box& box) {
  const Footprint paper{{}, {rectangle(box.low, box.high)}};
  return std::all_of(all.begin(), all.end(),
                     [&](const Numbered& other) { return gap(paper, other.shape) > 0.3; });
}

/// Beside the piece, with a line to it.
bool place_beside(Plan& plan, const std::vector<Numbered>& all, Numbered& one) {
  for (double reach = one.spot.radius + 3; reach < one.spot.radius + 30; reach += 1.5) {
    for (int step = 0; step < 24; ++step) {
      const double turn = 2 * std::numbers::pi * step / 24;
      const Point middle = one.spot.centre + reach * Point{std::cos(turn), std::sin(turn)};
      Text text = number_at(plan.desk, middle, one.number, kNumberSizes.back());
      const Box box = digits_box(text);
      if (!in_room(plan, box) || !is_free(plan, box) || !on_bare_shelf(all, box)) continue;
      rule(plan.page, one.spot.centre, middle + 0.35 * (one.spot.centre - middle), 0.4);
      plan.page.marks.emplace_back(Circle{one.spot.centre, 0.6, Pen{0, {}}, Fill::black});
      plan.taken.push_back(box);
      one.text = std::move(text);
      return true;
    }
  }
  return false;
}

/// Over the middle even though it is wider than the piece, as large as the other numbers leave it.
void place_over(Plan& plan, Numbered& one) {
  double size = kNumberSizes.back();
  Text text = number_at(plan.desk, one.spot.centre, one.number, size);
  while (size > pt(6) && !is_free(plan, digits_box(text))) {
    size *= 0.95;
    text = number_at(plan.desk, one.spot.centre, one.number, size);
  }
  const Box box = digits_box(text);
  frame(plan.page, box.low - Point{0.3, 0.3}, box.high + Point{0.3, 0.3}, 0, Fill::white);
  plan.taken.push_back(box);
  one.text = std::move(text);
}

// As large as the piece is: for a shelf full of beads.
void place_small(const Desk& desk, Numbered& one) {
  double size = kNumberSizes.back();
  const auto too_wide = [&] {
    return std::hypot(desk.letters.width(one.number, size, true) / 2, kCapitals * size / 2) >
           one.spot.radius - 0.3;
  };
  while (size > kLeastNumber && too_wide()) size *= 0.93;
  one.text = number_at(desk, one.spot.centre, one.number, size);
}

std::vector<Numbered> numbered_pieces(const Plan& plan) {
  std::vector<Numbered> all;
  for (const PlacedPiece& piece : plan.view.level.pieces) {
    Numbered one{&piece,
                 plan.onto(ground(plan.desk.subject.batch, plan.view.load, piece)),
                 {},
                 std::to_string(piece.number),
                 std::nullopt};
    one.spot = roomiest(one.shape);
    if (const auto size = number_size(plan.desk, one.number, one.spot)) {
      one.text = number_at(plan.desk, one.spot.centre, one.number, *size);
    }
    all.push_back(std::move(one));
  }
  std::stable_sort(all.begin(), all.end(), [](const Numbered& a, const Numbered& b) {
    return a.piece->number < b.piece->number;
  });
  const auto without = std::count_if(all.begin(), all.end(),
                                     [](const Numbered& one) { return !one.text.has_value(); });
  if (static_cast<std::size_t>(without) > kMostBeside) {
    for (Numbered& one : all) {
      if (!one.text) place_small(plan.desk, one);
    }
  }
  return all;
}

/// "×4" under the number of a stack, where it has room.
void draw_stack_count(Plan& plan, const Numbered& one) {
  const int like = like_ones(*one.piece);
  if (like < 2 || !one.text) return;
  const Text count =
      plan.desk.letters.text({one.spot.centre.x, one.text->at.y + 1 + kCapitals * pt(11)},
                             fmt::format("×{}", like), pt(11), true, Anchor::middle);
  const Box box = digits_box(count);
  const double corner = std::hypot(count.width / 2, box.high.y - one.spot.centre.y);
  if (corner + 0.4 > one.spot.radius || !is_free(plan, box)) return;
  frame(plan.page, box.low - Point{0.3, 0.3}, box.high + Point{0.3, 0.3}, 0, Fill::white);
  plan.taken.push_back(box);
  plan.page.marks.emplace_back(count);
}

/// In the piece where its number leaves room, else on its edge.
Point drop_place(const Plan& plan, const Numbered& one, double radius) {
  const double tall = 2.1 * radius;  // from the middle of the drop to its tip
  for (const double away : {0.62, 0.7, 0.78}) {
    for (const double turn : {-90.0, -45.0, -135.0, 45.0, 135.0, 90.0, 0.0, 180.0}) {
      const double angle = turn * std::numbers::pi / 180;
      const Point at =
          one.spot.centre + away * one.spot.radius * Point{std::cos(angle), std::sin(angle)};
      const Box box{at - Point{radius, tall}, at + Point{radius, radius}};
      const Point far{std::abs(at.x - one.spot.centre.x) + radius,
                      std::max(at.y - one.spot.centre.y + radius, one.spot.centre.y - at.y + tall)};
      if (std::hypot(far.x, far.y) < one.spot.radius && is_free(plan, box)) return at;
    }
  }
  return one.spot.centre - Point{0, one.spot.radius - 0.4};
}

void draw_drops(Plan& plan, const std::vector<Numbered>& all) {
  for (const Numbered& one : all) {
    if (!needs_cookie(plan.desk.subject.batch, plan.view.load, *one.piece)) continue;
    const double radius = one.spot.radius > 7 ? 1.5 : 1.1;
    const Point at = drop_place(plan, one, radius);
    draw_drop(plan.page, at, radius);
    plan.taken.push_back({at - Point{radius, 2.1 * radius}, at + Point{radius, radius}});
  }
}

void drop_of(Page& page, Point middle, double radius, Fill fill) {
  std::vector<Point> edge{middle - Point{0, 2.1 * radius}};
  for (int degrees = -25; degrees <= 205; degrees += 10) {
    const double angle = degrees * std::numbers::pi / 180;
    edge.push_back(middle + radius * Point{std::cos(angle), std::sin(angle)});
  }
  page.marks.emplace_back(Path{std::move(edge), true, Pen{0, {}}, fill});
}

}  // namespace

bool overlap(const Box& a, const Box& b) {
  return a.low.x < b.high.x && b.low.x < a.high.x && a.low.y < b.high.y && b.low.y < a.high.y;
}

void draw_drop(Page& page, Point middle, double radius) {
  drop_of(page, middle, radius + 0.45, Fill::white);
  drop_of(page, middle, radius, Fill::black);
}

int hatching_of(const Desk& desk, const KilnLoad& load, const PlacedPiece& piece) {
  const Batch& batch = desk.subject.batch;
  const bool glazed = batch.loads.at(static_cast<std::size_t>(load.load)).kind == FiringKind::glaze;
  return glazed ? hatch_of(batch, batch.pieces.at(static_cast<std::size_t>(piece.piece))) : 0;
}

std::optional<double> number_size(const Desk& desk, const std::string& number, const Disc& spot) {
  if (spot.radius > kLargeSpot) return kLargeNumber;
  for (const double size : kNumberSizes) {
    const double half_width = desk.letters.width(number, size, true) / 2;
    if (std::hypot(half_width, kCapitals * size / 2) + 0.6 <= spot.radius) return size;
  }
  return std::nullopt;
}

bool has_small_numbers(const Desk& desk, const ShelfView& view, double scale) {
  const OntoPaper onto{{}, {}, scale};
  std::size_t without = 0;
  for (const PlacedPiece& piece : view.level.pieces) {
    const Footprint shape = onto(ground(desk.subject.batch, view.load, piece));
    if (!number_size(desk, std::to_string(piece.number), roomiest(shape))) ++without;
  }
  return without > kMostBeside;
}

void draw_pieces(Plan& plan) {
  std::vector<Numbered> all = numbered_pieces(plan);
  for (const Numbered& one : all) {
    draw_shape(plan, one);
    if (one.text) plan.taken.push_back(digits_box(*one.text));
  }
  for (Numbered& one : all) {
    if (!one.text && !place_beside(plan, all, one)) place_over(plan, one);
  }
  for (const Numbered& one : all) {
    if (like_ones(*one.piece) > 1 && one.text && box_of(*one.text).low.y < one.spot.centre.y) {
      const Box box = digits_box(*one.text);
      frame(plan.page, box.low - Point{0.3, 0.3}, box.high + Point{0.3, 0.3}, 0, Fill::white);
    }
    plan.page.marks.emplace_back(*one.text);
    draw_stack_count(plan, one);
  }
  draw_drops(plan, all);
}

}  // namespace placer::report
