#include <algorithm>
#include <cmath>

#include "report/plan_marks.h"

namespace placer::report {
namespace {

bool says(const std::string& what, const char* word) {
  return what.find(word) != std::string::npos;
}

bool overlap(const Box& a, const Box& b) {
  return a.low.x < b.high.x && b.low.x < a.high.x && a.low.y < b.high.y && b.low.y < a.high.y;
}

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

}  // namespace

std::vector<const KeepOut*> keep_outs_here(const Desk& desk, const ShelfView& view) {
  Box shelf = bounding_box(ground(desk.subject.batch, view.level));
  constexpr double kNear = 40;
  shelf.low = shelf.low - Point{kNear, kNear};
  shelf.high = shelf.high + Point{kNear, kNear};
  const Length bottom = view.level.shelf_top;
  const Length top = bottom + view.level.clear_height;
  std::vector<const KeepOut*> here;
  for (const KeepOut& keep_out : desk.subject.batch.kiln.keep_outs) {
    const bool whole = keep_out.to <= keep_out.from;
    const bool at_height = whole || (keep_out.from < top && keep_out.to > bottom);
    if (at_height && overlap(bounding_box(keep_out.area), shelf)) here.push_back(&keep_out);
  }
  return here;
}

void draw_sign(Page& page, const std::string& what, Point middle, double size) {
  const double r = size / 2;
  const Pen pen{0.5, {}};
  const auto path = [&](std::vector<Point> corners) {
    page.marks.emplace_back(Path{std::move(corners), true, pen, Fill::white});
  };
  if (says(what, "cone")) {
    path({middle + Point{0, -r}, middle + Point{r, 0.8 * r}, middle + Point{-r, 0.8 * r}});
  } else if (says(what, "sensor") || says(what, "couple") || says(what, "probe")) {
    crossed_ring(page, middle, r);
  } else if (says(what, "spy")) {
    path({middle + Point{-r, 0}, middle + Point{0.8 * r, -r}, middle + Point{0.8 * r, r}});
  } else {
    path({middle + Point{-r, -r}, middle + Point{r, -r}, middle + Point{r, r},
          middle + Point{-r, r}});
    rule(page, middle + Point{-r, r}, middle + Point{r, -r}, 0.5);
  }
}

void draw_keep_outs(Plan& plan) {
  constexpr double kSign = 4.5;
  constexpr Style kName{pt(8)};
  for (const KeepOut* keep_out : keep_outs_here(plan.desk, plan.view)) {
    const Footprint area = plan.onto(keep_out->area);
    draw_dashed_ring(plan.page, area, plan.room);
    const Point middle = clamped(roomiest(area).centre, plan.room, kSign / 2 + 0.5);
    draw_sign(plan.page, keep_out->what, middle, kSign);
    plan.taken.push_back(
        {middle - Point{kSign / 2, kSign / 2}, middle + Point{kSign / 2, kSign / 2}});
    const double width = plan.desk.letters.width(keep_out->what, kName.size, false);
    const double x = std::clamp(middle.x, plan.room.left + width / 2, plan.room.right - width / 2);
    for (const double y : {middle.y + kSign / 2 + 3, middle.y - kSign / 2 - 1}) {
      const Text text =
          plan.desk.letters.text({x, y}, keep_out->what, kName.size, false, Anchor::middle);
      const Box box = box_of(text);
      const bool free = std::none_of(plan.taken.begin(), plan.taken.end(),
                                     [&](const Box& other) { return overlap(box, other); });
      if (!free || box.high.y > plan.room.bottom || box.low.y < plan.room.top) continue;
      plan.taken.push_back(box);
      frame(plan.page, box.low - Point{0.4, 0.2}, box.high + Point{0.4, 0}, 0, Fill::white);
      plan.page.marks.emplace_back(text);
      break;
    }
  }
}

}  // namespace placer::report
