#include "loading/claims.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "loading/index.h"

namespace placer::loading {
namespace {

constexpr double kAreaSlip = 2e-4;  // areas of unions are good to 1e-4

/// A convex outline grown by `by`, drawn inside its round corners.
Outline grown(const Outline& convex, double by) {
  constexpr int kFan = 6;
  Outline big;
  const std::size_t n = convex.corners.size();
  const auto normal = [&](std::size_t i) {
    const Point v = convex.corners[(i + 1) % n] - convex.corners[i % n];
    const double length = std::max(1e-12, std::sqrt(v.x * v.x + v.y * v.y));
    return Point{v.y / length, -v.x / length};
  };
  for (std::size_t i = 0; i < n; ++i) {
    const Point before = normal(i + n - 1);
    const Point after = normal(i);
    for (int k = 0; k <= kFan; ++k) {
      const Point v = (1.0 - k / double{kFan}) * before + (k / double{kFan}) * after;
      const double length = std::sqrt(v.x * v.x + v.y * v.y);
      if (length > 1e-3) big.corners.push_back(convex.corners[i] + (by / length) * v);
    }
  }
  return big;
}

double grown_ground(const Footprint& shape, double by) {
  Footprint big;
  for (const Disc& disc : shape.discs) big.discs.push_back({disc.centre, disc.radius + by});
  for (const Outline& outline : shape.outlines) {
    const bool grows = by > 0 && is_convex(outline) && signed_area(outline) > 0;
    big.outlines.push_back(grows ? grown(outline, by) : outline);
  }
  const bool alone = big.discs.size() + big.outlines.size() == 1;
  return area(big) * (alone ? 1 - 1e-9 : 1 - kAreaSlip);
}

/// Of its area.
Point middle_of(const Outline& outline) {
  Point middle;
  double twice = 0;
  const Point first = outline.corners.front();
  for (std::size_t i = 1; i + 1 < outline.corners.size(); ++i) {
    const Point a = outline.corners[i] - first;
    const Point b = outline.corners[i + 1] - first;
    const double part = a.x * b.y - a.y * b.x;
    middle = middle + part / 3 * (a + b);
    twice += part;
  }
  return twice > 0 ? first + 1 / twice * middle : first;
}

/// A rectangle inside the outline, when that is one.
void add_rectangle(const Outline& outline, double by, Form& form) {
  if (outline.corners.size() != 4) return;
  const Point a = outline.corners[1] - outline.corners[0];
  const Point b = outline.corners[2] - outline.corners[1];
  const Point c = outline.corners[3] - outline.corners[2];
  const double square = a.x * b.x + a.y * b.y;
  const Point skew = a + c;
  if (std::abs(square) > 1e-6 || skew.x * skew.x + skew.y * skew.y > 1e-12) return;
  const double one = std::sqrt(a.x * a.x + a.y * a.y) + 2 * by;
  const double two = std::sqrt(b.x * b.x + b.y * b.y) + 2 * by;
  if (one * two <= form.length * form.width) return;
  form.length = std::max(one, two);
  form.width = std::min(one, two);
}

/// What of a convex outline lies beyond the line n · p = reach.
Outline beyond(const Outline& outline, Point n, double reach) {
  Outline kept;
  const std::size_t count = outline.corners.size();
  for (std::size_t i = 0; i < count; ++i) {
    const Point p = outline.corners[i];
    const Point q = outline.corners[(i + 1) % count];
    const double at_p = n.x * p.x + n.y * p.y - reach;
    const double at_q = n.x * q.x + n.y * q.y - reach;
    if (at_p >= 0) kept.corners.push_back(p);
    if (at_p * at_q < 0) kept.corners.push_back(p + (at_p / (at_p - at_q)) * (q - p));
  }
  return kept;
}

/// The part of a handle that lies beyond the largest disc.
Convex largest_beside(const Footprint& shape, double by) {
  Convex largest;
  Disc disc;
  for (const Disc& one : shape.discs) {
    if (one.radius > disc.radius) disc = one;
  }
  if (disc.radius <= 0) return largest;
  for (const Outline& outline : shape.outlines) {
    if (!is_convex(outline) || signed_area(outline) <= 0) continue;
    const Point away = middle_of(outline) - disc.centre;
    const double length = std::sqrt(away.x * away.x + away.y * away.y);
    if (length < 1e-6) continue;
    const Point n = (1 / length) * away;
    const double reach = n.x * disc.centre.x + n.y * disc.centre.y + disc.radius + by;
    const Outline big = beyond(by > 0 ? grown(outline, by) : outline, n, reach);
    if (big.corners.size() < 3) continue;
    const double inner = inner_radius(big) * (1 - 1e-9);
    const double ground = signed_area(big) * (1 - 1e-9);
    if (inner <= 0 || ground <= largest.area) continue;
    Form box;
    add_rectangle(beyond(outline, n, reach), 0, box);
    largest = {ground, inner, (box.length + 2 * by) * box.width};
  }
  return largest;
}

Form form_of(const Footprint& shape, double by, int pieces) {
  Form form;
  form.pieces = pieces;
  form.ground = grown_ground(shape, by);
  for (const Disc& disc : shape.discs) form.disc = std::max(form.disc, disc.radius + by);
  for (const Outline& outline : shape.outlines) {
    form.disc = std::max(form.disc, inner_radius(outline) + by);
    add_rectangle(outline, by, form);
  }
  form.disc *= 1 - 1e-9;
  if (shape.discs.empty() && shape.outlines.size() == 1 && is_convex(shape.outlines.front())) {
    form.all = {form.ground, form.disc, form.length * form.width};
  }
  form.beside = largest_beside(shape, by);
  return form;
}

bool same_ground(const Form& a, const Form& b) {
  return a.disc == b.disc && a.ground == b.ground && a.length == b.length &&
         a.beside.area == b.beside.area;
}

Claim claim_of(const Job& job, int s, int count) {
  const Sort& sort = at(job.sorts, s);
  Claim claim;
  claim.sort = s;
  claim.count = count;
  claim.height = std::numeric_limits<double>::infinity();
  for (int n = 1; n <= count_of(sort.stacks); ++n) {
    const SizedPiece& size = at(sort.stacks, n - 1);
    claim.height = std::min(claim.height, size.height.mm());
    const Form form = form_of(size.footprint, halo_of(job, sort), n);
    if (!claim.forms.empty() && same_ground(claim.forms.back(), form)) {
      claim.forms.back().pieces = n;
    } else {
      claim.forms.push_back(form);
    }
  }
  return claim;
}

}  // namespace

double inner_radius(const Outline& outline) {
  return is_convex(outline) ? std::max(0.0, inset(middle_of(outline), outline)) : 0;
}

double halo_of(const Job& job, const Sort& sort) {
  const double gap = job.clearances.gap.mm();
  const bool more = job.kind == FiringKind::glaze && sort.runny;
  return (more ? std::max(gap, job.clearances.runny_gap.mm()) : gap) / 2;
}

std::vector<Claim> claims_of(const Job& job, const std::vector<int>& set) {
  std::vector<Claim> claims;
  for (int s = 0; s < count_of(job.sorts); ++s) {
    if (at(set, s) > 0) claims.push_back(claim_of(job, s, at(set, s)));
  }
  std::stable_sort(claims.begin(), claims.end(),
                   [](const Claim& a, const Claim& b) { return a.height > b.height; });
  return claims;
}

double halo_of(const Job& job, const Claim& claim) {
  return halo_of(job, at(job.sorts, claim.sort));
}

}  // namespace placer::loading
