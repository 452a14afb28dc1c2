#include <algorithm>
#include <cmath>
#include <limits>

#include "report/plan_marks.h"

namespace placer::report {
namespace {

constexpr double kTight = 1;  // mm over the rule that still count as tight
constexpr std::size_t kMostBars = 12;
constexpr double kNeighbour = 30;  // mm: pieces farther apart are no neighbours

double squared(Point p) { return p.x * p.x + p.y * p.y; }

std::vector<Point> edge_points(const Footprint& shape) {
  std::vector<Point> points;
  for (const auto& run : edge_runs(shape, 3)) points.insert(points.end(), run.begin(), run.end());
  return points;
}

std::pair<Point, Point> nearest_points(const std::vector<Point>& a, const std::vector<Point>& b) {
  std::pair<Point, Point> best;
  double least = std::numeric_limits<double>::infinity();
  for (const Point p : a) {
    for (const Point q : b) {
      if (squared(p - q) < least) {
        least = squared(p - q);
        best = {p, q};
      }
    }
  }
  return best;
}

bool far_apart(const Box& a, const Box& b) {
  return a.low.x > b.high.x + kNeighbour || b.low.x > a.high.x + kNeighbour ||
         a.low.y > b.high.y + kNeighbour || b.low.y > a.high.y + kNeighbour;
}

struct Standing {
  const PieceKind* kind = nullptr;
  Footprint shape;
  Box box;
  std::vector<Point> edge;
};

std::vector<Standing> standing_on(const Desk& desk, const ShelfView& view) {
  std::vector<Standing> all;
  for (const PlacedPiece& piece : view.level.pieces) {
    const Footprint shape = ground(desk.subject.batch, view.load, piece);
    all.push_back({&desk.subject.batch.pieces.at(static_cast<std::size_t>(piece.piece)), shape,
                   bounding_box(shape), edge_points(shape)});
  }
  return all;
}

}  // namespace

TightGaps tight_gaps(const Desk& desk, const ShelfView& view) {
  const Batch& batch = desk.subject.batch;
  const FiringKind kind = batch.loads.at(static_cast<std::size_t>(view.load.load)).kind;
  TightGaps tight;
  double least = std::numeric_limits<double>::infinity();
  const auto all = standing_on(desk, view);
  for (std::size_t i = 0; i < all.size(); ++i) {
    for (std::size_t j = i + 1; j < all.size(); ++j) {
      if (far_apart(all[i].box, all[j].box)) continue;
      const double between = gap(all[i].shape, all[j].shape);
      const double allowed = gap_between(batch, *all[i].kind, *all[j].kind, kind).mm();
      if (allowed <= 0 || between > allowed + kTight) continue;
      least = std::min(least, std::max(between, 0.0));
      tight.bars.push_back(nearest_points(all[i].edge, all[j].edge));
    }
  }
  if (!tight.bars.empty()) tight.least = Length::from_mm(least);
  tight.everywhere = tight.bars.size() > kMostBars;
  return tight;
}

void draw_tight_gaps(Plan& plan) {
  const TightGaps tight = tight_gaps(plan.desk, plan.view);
  if (tight.everywhere || tight.bars.empty()) return;
  Strokes bars{{}, Pen{0.9, {}}};
  for (const auto& [a, b] : tight.bars) bars.lines.emplace_back(plan.onto(a), plan.onto(b));
  plan.page.marks.emplace_back(std::move(bars));
}

}  // namespace placer::report
