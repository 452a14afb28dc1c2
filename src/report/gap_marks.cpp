#include <algorithm>
#include <cmath>

#include "report/plan_marks.h"
#include "report/tight_gaps.h"

namespace placer::report {
namespace {

struct Arrow {
  Point tip, along;  // along: one mm, from the tip into the piece
  double size = 0;
};

std::vector<Point> corners_of(const Arrow& arrow) {
  const Point side = 0.45 * arrow.size * Point{-arrow.along.y, arrow.along.x};
  const Point base = arrow.tip + arrow.size * arrow.along;
  return {arrow.tip, base + side, base - side};
}

// White a little wider, so that it stands out of any hatching.
// Hollow beside a glaze that runs, where more room is asked for.
void draw_arrow(Page& page, const Arrow& arrow, bool halo, bool runny) {
  if (halo) {
    const Arrow wide{arrow.tip - 0.1 * arrow.along, arrow.along, arrow.size + 0.7};
    page.marks.emplace_back(Path{corners_of(wide), true, Pen{0, {}}, Fill::white});
  }
  const Pen pen{runny ? 0.35 : 0, {}};
  page.marks.emplace_back(Path{corners_of(arrow), true, pen, runny ? Fill::white : Fill::black});
}

bool covers_words(const Plan& plan, const Arrow& arrow) {
  Box box{arrow.tip, arrow.tip};
  for (const Point p : corners_of(arrow)) {
    box.low = {std::min(box.low.x, p.x), std::min(box.low.y, p.y)};
    box.high = {std::max(box.high.x, p.x), std::max(box.high.y, p.y)};
  }
  return std::any_of(plan.taken.begin(), plan.taken.end(),
                     [&](const Box& other) { return overlap(box, other); });
}

std::optional<std::pair<Arrow, Arrow>> arrows(Point from, Point to, double size) {
  const double length = std::hypot(to.x - from.x, to.y - from.y);
  if (length < 1e-6) return std::nullopt;
  const Point along = (1 / length) * (to - from);
  return std::pair{Arrow{from, -1 * along, size}, Arrow{to, along, size}};
}

}  // namespace

void draw_pinch(Page& page, Point from, Point to, double size, bool runny) {
  const auto pair = arrows(from, to, size);
  if (!pair) return;
  draw_arrow(page, pair->first, true, runny);
  draw_arrow(page, pair->second, true, runny);
}

void draw_tight_gaps(Plan& plan) {
  const ShelfView& view = plan.view;
  const TightGaps tight = tight_gaps(plan.desk.subject.batch, view.load, view.level);
  if (tight.everywhere) return;
  for (const TightGap& gap : tight.bars) {
    for (const double size : {3.5, 2.5, 1.6}) {
      const auto pair = arrows(plan.onto(gap.from), plan.onto(gap.to), size);
      if (!pair) break;
      const bool last = size < 2;
      const bool covers = covers_words(plan, pair->first) || covers_words(plan, pair->second);
      if (covers && !last) continue;
      draw_arrow(plan.page, pair->first, !covers, gap.runny);
      draw_arrow(plan.page, pair->second, !covers, gap.runny);
      break;
    }
  }
}

}  // namespace placer::report
