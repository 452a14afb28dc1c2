#include "report/plan_view.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "report/plan_marks.h"

namespace placer::report {
namespace {

constexpr std::array kRoundScales{1.0, 1.5, 2.0, 2.5,  3.0,  3.5,  4.0,  4.5,  5.0,  5.5,
                                  6.0, 7.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0, 40.0};
constexpr double kAbove = 4.5;  // the back wall's name
constexpr double kBelow = 7.8;  // where you stand
constexpr double kEdge = 0.9;

Box shelf_box(const Desk& desk, const ShelfView& view) {
  return bounding_box(ground(desk.subject.batch, view.level));
}

void draw_shelf(Plan& plan) {
  const Region shelf = ground(plan.desk.subject.batch, plan.view.level);
  const Outline edge = plan.onto(edge_polygon(shelf, 0.1));
  plan.page.marks.emplace_back(Path{edge.corners, true, Pen{kEdge, {}}, Fill::none});
}

// What lies behind the shelf's far edge: the wall only if no other column stands between.
std::string far_words(const Desk& desk, const Box& shelf) {
  const Kiln& kiln = desk.subject.batch.kiln;
  const Box chamber = bounding_box(kiln.chamber);
  const double depth = chamber.high.y - chamber.low.y;
  if (chamber.high.y - shelf.high.y > 0.25 * depth) return "towards the back";
  return kiln.opens == Opens::top ? "back: hinge of the lid" : "back wall";
}

void draw_posts(Plan& plan) {
  for (const PlacedPost& post : plan.view.level.posts) {
    const Footprint foot = plan.onto(ground(plan.desk.subject.batch, post));
    draw_union(plan.page, foot, 0.2, Fill::black);
    plan.taken.push_back(bounding_box(foot));
  }
}

}  // namespace

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
  const Room inner{room.left, top - 0.3, room.right, top + height + 0.3};
  Plan plan{page, desk, view, {{box.low.x, box.high.y}, {left, top}, scale}, inner, {}};
  const double middle = left + width / 2;
  const bool lid = desk.subject.batch.kiln.opens == Opens::top;
  write(page, desk, {middle, top - 1.6}, far_words(desk, box), {pt(10)}, Anchor::middle);
  draw_shelf(plan);
  draw_posts(plan);
  draw_sight_lines(plan);
  draw_keep_out_rings(plan);
  draw_cone_packs(plan);
  draw_keep_out_signs(plan);
  draw_pieces(plan);
  draw_tight_gaps(plan);
  write(page, desk, {middle, top + height + 7},
        lid ? "▲  YOU STAND HERE  ▲" : "▲  YOU STAND HERE, door side  ▲", {pt(13), true},
        Anchor::middle);
}

}  // namespace placer::report
