#include "loading/counts.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "loading/crowd.h"
#include "loading/index.h"

namespace placer::loading {
namespace {

constexpr double kSure = 1e-7;
constexpr int kMany = 1000000;

/// Equal discs in a circle: the least ratio of the radii for 1, 2, ... discs, as far as it is
/// proven.
/// @source R. L. Graham (1968) to 7, U. Pirl (1969) 8 to 10, H. Melissen (1994) 11, F. Fodor (2000,
///   2003) 12 and 13; the list in E. Specht's tables of circle packings. Rounded down.
constexpr std::array<double, 13> kProven{1,       2,       2.15470, 2.41421, 2.70130, 3,      3,
                                         3.30476, 3.61312, 3.81302, 3.92380, 4.02960, 4.23606};
constexpr double kNineteen = 4.86370;  ///< @source F. Fodor (1999), rounded down

int most_in_circle(double ratio) {
  for (int n = 0; n < count_of(kProven); ++n) {
    if (at(kProven, n) > ratio + kSure) return n;
  }
  return ratio + kSure < kNineteen ? 18 : kMany;
}

/// Middles at least `apart` from each other in a box: when it is narrower than that, they follow
/// one another along it.
int most_in_box(double length, double width, double apart) {
  if (width > length) std::swap(length, width);
  if (width >= apart * (1 - 1e-9)) return kMany;
  return 1 +
         static_cast<int>(std::floor(length / std::sqrt(apart * apart - width * width) + kSure));
}

/// Of a circle that holds the outline.
double radius_round(const Outline& outline) {
  const Box box = bounding_box(Footprint{{}, {outline}});
  const Point centre = 0.5 * (box.low + box.high);
  double radius = 0;
  for (const Point p : outline.corners) {
    const Point v = p - centre;
    radius = std::max(radius, std::sqrt(v.x * v.x + v.y * v.y));
  }
  return radius;
}

/// Oler: points of a convex set of area A and perimeter P, no two nearer than d.
/// @source N. Oler, "An inequality in the geometry of numbers", Acta Math. 105 (1961)
int most_by_oler(const Outline& middles, double apart) {
  const double most = 2 / std::sqrt(3.0) * signed_area(middles) / (apart * apart) +
                      perimeter_of(middles) / (2 * apart) + 1;
  return static_cast<int>(std::floor(most + kSure));
}

}  // namespace

int discs_within(double ratio) {
  // Rounded up where the proven ratios are rounded down: these must go in.
  int most = 0;
  for (int n = 0; n < count_of(kProven); ++n) {
    const bool whole = at(kProven, n) == std::floor(at(kProven, n));
    if (at(kProven, n) + (whole ? 0 : 1e-5) <= ratio + 1e-9) most = n + 1;
  }
  return most;
}

int most_discs(const Floor& floor, double radius) {
  const Outline middles = middles_on(floor, radius * (1 - 1e-9));
  if (middles.corners.empty()) return 0;
  int most = most_by_oler(middles, 2 * radius);
  most = std::min(most, most_in_circle(floor.around.radius / radius));
  most = std::min(most, most_in_circle((radius_round(middles) + radius) / radius));
  if (const auto both = mirrored(floor)) {
    most = std::min(most, most_discs(*both, radius) / 2);  // the mirror image holds as many
  }
  for (int turn = 0; turn < 180; turn += 15) {
    const Box box = bounding_box(Footprint{{}, {placed(middles, {{}, static_cast<double>(turn)})}});
    most = std::min(most, most_in_box(box.high.x - box.low.x, box.high.y - box.low.y, 2 * radius));
  }
  const Crowd crowd = best_crowd(floor, {Member{radius, {}, {}, 1}}, Looks::usual);
  const double share = crowd.share(radius);
  if (share > 0)
    most = std::min(most, std::max(1, static_cast<int>(crowd.whole() / share + kSure)));
  return most;
}

}  // namespace placer::loading
