#include "loading/alone.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "loading/index.h"
#include "loading/squeeze.h"

namespace placer::loading {
namespace {

constexpr double kPi = 3.14159265358979323846;
constexpr double kMargin = 1e-3;  // mm: what is nearer than this to fitting is not proven
constexpr double kFinest = 1e-5;  // radians: a turn so near that still may do is taken to do
constexpr int kLooks = 40000;     // for one shape

/// How far a shape reaches along a direction, from side to side.
double extent(const Footprint& shape, double angle) {
  const Point along{std::cos(angle), std::sin(angle)};
  double low = std::numeric_limits<double>::infinity();
  double high = -low;
  const auto reach = [&](Point p, double r) {
    const double at = p.x * along.x + p.y * along.y;
    low = std::min(low, at - r);
    high = std::max(high, at + r);
  };
  for (const Disc& disc : shape.discs) reach(disc.centre, disc.radius);
  for (const Outline& outline : shape.outlines) {
    for (const Point corner : outline.corners) reach(corner, 0);
  }
  return high - low;
}

/// Directions that the floor is measured in, with what it measures there.
struct Gauge {
  double angle = 0, room = 0;
};

std::vector<Gauge> gauges_of(const Floor& floor) {
  std::vector<double> angles;
  for (const Point normal : floor.normals) angles.push_back(std::atan2(normal.y, normal.x));
  for (int i = 0; i < 8; ++i) angles.push_back(i * kPi / 8);
  std::vector<Gauge> gauges;
  const Footprint edge{{}, {floor.edge}};
  for (const double angle : angles) gauges.push_back({angle, extent(edge, angle)});
  return gauges;
}

class Turning {
 public:
  Turning(const Footprint& shape, std::vector<Gauge> gauges, double halo)
      : shape_{&shape}, gauges_{std::move(gauges)}, halo_{halo} {
    const Box box = bounding_box(shape);
    const Point across = box.high - box.low;
    longest_ = std::hypot(across.x, across.y);
  }

  /// Whether it is too large in some direction at every turn from one to another.
  bool never(double from, double to) {
    if (--looks_ < 0) return false;
    const double middle = (from + to) / 2;
    const double slack = longest_ * (to - from) / 2;  // no reach changes faster than the longest
    const bool too_large = std::any_of(gauges_.begin(), gauges_.end(), [&](const Gauge& gauge) {
      return extent(*shape_, gauge.angle - middle) + 2 * halo_ - slack > gauge.room + kMargin;
    });
    if (too_large) return true;
    return to - from > kFinest && never(from, middle) && never(middle, to);
  }

 private:
  const Footprint* shape_;
  std::vector<Gauge> gauges_;
  double halo_;
  double longest_ = 0;
  int looks_ = kLooks;
};

bool never_lies(const Footprint& shape, const std::vector<double>& turns, const Floor& floor,
                double halo) {
  Turning turning{shape, gauges_of(floor), halo};
  if (turns.empty()) return turning.never(0, 2 * kPi);
  return std::all_of(turns.begin(), turns.end(), [&](double turn) {
    const double at = turn * kPi / 180;
    return turning.never(at, at);
  });
}

}  // namespace

bool lies_nowhere(const Job& job, const Claim& claim, const Floor& floor, double halo) {
  double disc = std::numeric_limits<double>::infinity();
  for (const Form& form : claim.forms) disc = std::min(disc, form.disc);
  int looks = kLooks;
  if (disc > 0 && cannot_lie(floor, {disc}, looks)) return true;
  const Sort& sort = at(job.sorts, claim.sort);
  return std::all_of(sort.stacks.begin(), sort.stacks.end(), [&](const SizedPiece& size) {
    return never_lies(size.footprint, sort.turns, floor, halo);
  });
}

}  // namespace placer::loading
