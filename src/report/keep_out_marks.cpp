#include <algorithm>
#include <cmath>

#include "report/cone_place.h"
#include "report/plan_marks.h"

namespace placer::report {
namespace {

constexpr double kSign = 4.5;

Point clamped(Point p, const Room& room, double from_edge) {
  return {std::clamp(p.x, room.left + from_edge, room.right - from_edge),
          std::clamp(p.y, room.top + from_edge, room.bottom - from_edge)};
}

void crossed_ring(Page& page, Point middle, double radius) {
  const double arm = radius / std::sqrt(2.0);
  page.marks.emplace_back(Circle{middle, radius, Pen{0.5, {}}, Fill::white});
  rule(page, middle - Point{arm, arm}, middle + Point{arm, arm}, 0.5);
  rule(page, middle + Point{-arm, arm}, middle + Point{arm, -arm}, 0.5);
}

Point in_room(const Plan& plan, Point kiln) {
  return clamped(plan.onto(kiln), plan.room, kSign / 2 + 0.5);
}

/// Where a sign is drawn, and how large.
struct Place {
  Point middle;
  double size = kSign;
};

Box box_round(const Place& place) {
  const Point half{place.size / 2, place.size / 2};
  return {place.middle - half, place.middle + half};
}

// A cone pack may stand right before its hole: then the sign is small and off the shelf's near
// edge, or else beside the pack.
Place sign_place(const Plan& plan, Point middle) {
  constexpr double kSmall = 1.8;
  std::vector<Place> places{{middle, kSign}};
  if (middle.y > plan.room.bottom - kSign) {
    places.push_back({{middle.x, plan.room.bottom + kSmall / 2}, kSmall});
  }
  for (double shift = 1; shift < 20; shift += 1) {
    for (const Point by : {Point{shift, 0}, {-shift, 0}, {0, shift}, {0, -shift}}) {
      places.push_back({clamped(middle + by, plan.room, kSign / 2 + 0.5), kSign});
    }
  }
  const auto free = std::find_if(places.begin(), places.end(), [&](const Place& place) {
    return std::none_of(plan.taken.begin(), plan.taken.end(),
                        [&](const Box& other) { return overlap(box_round(place), other); });
  });
  return free != places.end() ? *free : places.front();
}

bool on_a_piece(const Plan& plan, const Box& box) {
  const Footprint paper{{}, {rectangle(box.low, box.high)}};
  const auto& pieces = plan.view.level.pieces;
  return std::any_of(pieces.begin(), pieces.end(), [&](const PlacedPiece& piece) {
    const Footprint shape = ground(plan.desk.subject.batch, plan.view.load, piece);
    return gap(paper, plan.onto(shape)) < 0.2;
  });
}

// Where nothing stands; nowhere when there is no such place: the key has the name too.
void write_name(Plan& plan, const std::string& name, Point middle) {
  constexpr Style kName{pt(8)};
  const double width = plan.desk.letters.width(name, kName.size, false);
  const double x = std::clamp(middle.x, plan.room.left + width / 2, plan.room.right - width / 2);
  for (const double y : {middle.y + kSign / 2 + 3, middle.y - kSign / 2 - 1}) {
    const Text text = plan.desk.letters.text({x, y}, name, kName.size, false, Anchor::middle);
    const Box box = box_of(text);
    const bool free = std::none_of(plan.taken.begin(), plan.taken.end(),
                                   [&](const Box& other) { return overlap(box, other); });
    if (!free || box.high.y > plan.room.bottom || box.low.y < plan.room.top) continue;
    if (on_a_piece(plan, box)) continue;
    plan.taken.push_back(box);
    frame(plan.page, box.low - Point{0.4, 0.2}, box.high + Point{0.4, 0}, 0, Fill::white);
    plan.page.marks.emplace_back(text);
    return;
  }
}

}  // namespace

void draw_sign(Page& page, Sign sign, Point middle, double size) {
  const double r = size / 2;
  const Pen pen{0.5, {}};
  const auto path = [&](std::vector<Point> corners) {
    page.marks.emplace_back(Path{std::move(corners), true, pen, Fill::white});
  };
  switch (sign) {
    case Sign::cones:
      path({middle + Point{0, -r}, middle + Point{r, 0.8 * r}, middle + Point{-r, 0.8 * r}});
      break;
    case Sign::sensor:
      crossed_ring(page, middle, r);
      break;
    case Sign::spy_hole:
      path({middle + Point{-r, 0}, middle + Point{0.8 * r, -r}, middle + Point{0.8 * r, r}});
      break;
    case Sign::other:
      path({middle + Point{-r, -r}, middle + Point{r, -r}, middle + Point{r, r},
            middle + Point{-r, r}});
      rule(page, middle + Point{-r, r}, middle + Point{r, -r}, 0.5);
      break;
  }
}

void draw_keep_out_rings(Plan& plan) {
  const Batch& batch = plan.desk.subject.batch;
  for (const KeepOut* keep_out : keep_outs_here(batch, plan.view.level)) {
    if (lies_over(batch, plan.view.level, *keep_out)) {
      draw_dashed_ring(plan.page, plan.onto(keep_out->area), plan.room);
    }
  }
}

void draw_keep_out_signs(Plan& plan) {
  const Batch& batch = plan.desk.subject.batch;
  for (const KeepOut* keep_out : keep_outs_here(batch, plan.view.level)) {
    if (!stands_here(plan.view.level, *keep_out)) continue;
    const Place place = sign_place(plan, in_room(plan, roomiest(keep_out->area).centre));
    draw_sign(plan.page, sign_of(*keep_out), place.middle, place.size);
    plan.taken.push_back(box_round(place));
    write_name(plan, keep_out->what, place.middle);
  }
}

void draw_sight_lines(Plan& plan) {
  for (const ConePlace& place : plan.view.cones) {
    if (!place.seen) continue;
    plan.page.marks.emplace_back(
        Strokes{{{plan.onto(place.middle), in_room(plan, place.eye)}}, Pen{0.3, {0.5, 1.1}}});
  }
}

void draw_cone_packs(Plan& plan) {
  for (const ConePlace& place : plan.view.cones) {
    const Footprint pack = plan.onto(place.pack);
    draw_inside(plan.page, pack, 0.35);
    const auto& c = pack.outlines[0].corners;
    const double deep = std::hypot(c[1].x - c[2].x, c[1].y - c[2].y);
    const double size = std::min(kSign, 0.75 * deep);
    const Point middle = plan.onto(place.middle);
    const Point across = 0.28 * (c[1] - c[0]);
    for (const double part : {-1.0, 0.0, 1.0}) {
      const Point at = middle + part * across;
      const double r = size / 2;
      plan.page.marks.emplace_back(
          Path{{at + Point{0, -r}, at + Point{0.7 * r, 0.8 * r}, at + Point{-0.7 * r, 0.8 * r}},
               true,
               Pen{0, {}},
               Fill::black});
    }
    plan.taken.push_back(bounding_box(pack));
  }
}

}  // namespace placer::report
