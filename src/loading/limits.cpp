#include "loading/limits.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "loading/counts.h"
#include "loading/crowd.h"
#include "loading/index.h"

namespace placer::loading {
namespace {

constexpr double kPi = 3.14159265358979323846;
constexpr double kSure = 1e-7;      // rounding never makes a limit too low
constexpr double kAreaSlip = 2e-4;  // areas of unions are good to 1e-4
constexpr int kMostSizes = 16;      // sizes of disc for which counts and crowds are worked out

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

double half_width(const Outline& outline) {
  Point middle;
  for (const Point corner : outline.corners) {
    middle = middle + (1.0 / static_cast<double>(outline.corners.size())) * corner;
  }
  return is_convex(outline) ? std::max(0.0, inset(middle, outline)) : 0;
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

Form form_of(const Footprint& shape, double by, int pieces) {
  Form form;
  form.pieces = pieces;
  form.ground = grown_ground(shape, by);
  for (const Disc& disc : shape.discs) form.disc = std::max(form.disc, disc.radius + by);
  for (const Outline& outline : shape.outlines) {
    form.disc = std::max(form.disc, half_width(outline) + by);
    add_rectangle(outline, by, form);
  }
  form.disc *= 1 - 1e-9;
  if (shape.discs.empty() && shape.outlines.size() == 1 && is_convex(shape.outlines.front())) {
    form.convex = form.ground;
  }
  return form;
}

bool same_ground(const Form& a, const Form& b) {
  return a.disc == b.disc && a.ground == b.ground && a.length == b.length;
}

/// Half the gap that a sort's pieces keep from any other.
double halo_of(const Job& job, const Sort& sort) {
  const double gap = job.clearances.gap.mm();
  const bool more = job.kind == FiringKind::glaze && sort.runny;
  return (more ? std::max(gap, job.clearances.runny_gap.mm()) : gap) / 2;
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

/// Of a piece: the least over the ways that it may stand.
template <class Weigh>
double weight_of(const Claim& claim, Weigh weigh) {
  double least = std::numeric_limits<double>::infinity();
  for (const Form& form : claim.forms) {
    least = std::min(least, static_cast<double>(weigh(form)) / form.pieces);
  }
  return least;
}

/// Discs of radius t that the form covers.
int discs_in(const Form& form, double t) {
  const auto along = [&](double side) { return std::floor(side / (2 * t) + 1e-9); };
  int most = discs_within(form.disc / t);
  if (form.width > 0)
    most = std::max(most, static_cast<int>(along(form.length) * along(form.width)));
  return most;
}

/// What a form needs of a crowd: its largest disc's share, or of as many as stand in a row in it.
double share_of(const Crowd& crowd, const Form& form) {
  double most = crowd.share(form.disc);
  if (form.width > 0) {
    const double r = form.width / 2 * (1 - 1e-9);
    most = std::max(most, std::floor(form.length / form.width + 1e-9) * crowd.share(r));
  }
  if (form.convex > 0) most = std::max(most, crowd.share_of_area(form.convex));
  return std::min(most, std::max(0.0, crowd.whole()));
}

/// The largest floor of the sites, if it holds the others.
Floor floor_of_sites(const Job& job, const std::vector<Site>& sites, double halo) {
  Floor best;
  std::vector<Floor> all;
  for (const Site& site : sites) {
    if (!site.trouble.empty() || at(job.batch->kiln.shelves, site.shelf).have == 0) continue;
    all.push_back(floor_of(site, halo));
    if (all.back().area > best.area) best = all.back();
  }
  for (const Floor& floor : all) {
    if (lies_on(floor, best)) continue;
    Site box;  // shelves that do not lie on one another: a box round them all
    Footprint both{{}, {best.edge, floor.edge}};
    const Box around = bounding_box(both);
    box.ground.outline = rectangle(around.low, around.high);
    best = floor_of(box, 0);
  }
  return best;
}

/// Radius of a disc inside the smallest foot of a post, and half the gap; 0 when posts may stand
/// where no piece could.
double post_disc(const Job& job, int column) {
  const Kiln& kiln = job.batch->kiln;
  double least = std::numeric_limits<double>::infinity();
  for (const PostKind& post : kiln.posts) {
    double inside = 0;
    for (const Disc& disc : post.foot.discs) inside = std::max(inside, disc.radius);
    for (const Outline& outline : post.foot.outlines)
      inside = std::max(inside, half_width(outline));
    least = std::min(least, inside);
  }
  for (const Site& site : at(job.columns, column)) {
    if (!site.trouble.empty()) continue;
    Region bare = site.ground;
    bare.keep_outs.clear();
    const double shelf = area(placed(at(kiln.shelves, site.shelf).shape, {}));
    if (shelf - area(bare) > 2 * kChord * perimeter_of(edge_polygon(bare, 0.5)) + 1) return 0;
  }
  return std::isfinite(least) ? least + job.clearances.gap.mm() / 2 : 0;
}

/// Works the limits of one column's shelves out.
class Limits {
 public:
  /// @param posts on a shelf that carries another, of at least this radius with half the gap.
  Limits(int posts, double post, const Floor& floor, const std::vector<Claim>& claims)
      : claims_{&claims},
        posts_{posts},
        post_{post * (1 - 1e-9)},
        floor_{floor},
        both_{mirrored(floor_)} {}

  std::vector<Limit> run() {
    by_ground();
    for (const double radius : sizes()) {
      by_count(radius);
      by_crowd(radius);
      if (floor_.round && floor_.normals.empty()) by_angle(floor_.round->radius, radius, 1);
      if (both_) by_angle(both_->round->radius, radius, 2);
    }
    return std::move(limits_);
  }

 private:
  template <class Weigh>
  Limit limit(Weigh weigh) const {
    Limit limit;
    for (const Claim& claim : *claims_) limit.weight.push_back(weight_of(claim, weigh));
    return limit;
  }

  /// Radii of the claims' discs, no more than a few of them.
  std::vector<double> sizes() const {
    std::vector<double> all;
    for (const Claim& claim : *claims_) {
      for (const Form& form : claim.forms) {
        if (form.disc > 0) all.push_back(form.disc);
      }
    }
    std::sort(all.begin(), all.end());
    all.erase(std::unique(all.begin(), all.end()), all.end());
    if (count_of(all) <= kMostSizes) return all;
    std::vector<double> some;
    for (int i = 0; i < kMostSizes; ++i) {
      some.push_back(at(all, i * (count_of(all) - 1) / (kMostSizes - 1)));
    }
    return some;
  }

  void by_ground() {
    Limit ground = limit([](const Form& form) { return form.ground; });
    ground.top = floor_.area * (1 + kSure);
    ground.under = ground.top - posts_ * kPi * post_ * post_;
    limits_.push_back(std::move(ground));
  }

  void by_count(double radius) {
    const int most = most_discs(floor_, radius);
    if (most < 1) return;
    Limit count = limit([&](const Form& form) { return discs_in(form, radius); });
    count.top = most;
    count.under = std::max(0, most - (post_ >= radius ? posts_ : 0));
    limits_.push_back(std::move(count));
  }

  void by_crowd(double radius) {
    add_crowd(best_crowd(floor_, radius), 1);
    if (any_rectangle()) add_crowd(best_crowd(floor_, radius, false), 1);
    if (both_) add_crowd(best_crowd(*both_, radius), 2);
  }

  /// @param times that whatever stands on the shelf stands on the crowd's floor.
  void add_crowd(const Crowd& crowd, int times) {
    if (crowd.whole() <= 0) return;
    Limit share = limit([&](const Form& form) { return share_of(crowd, form); });
    share.top = crowd.whole() * (1 + kSure) / times;
    share.under = posts_ == 0 ? share.top : share.top - posts_ * crowd.share(post_);
    limits_.push_back(std::move(share));
  }

  bool any_rectangle() const {
    return std::any_of(claims_->begin(), claims_->end(),
                       [](const Claim& claim) { return claim.forms.front().convex > 0; });
  }

  /// Angle between two discs as seen from the middle of a round ground, when both touch its edge.
  static double angle(double big, double a, double b) {
    const double p = big - a;
    const double q = big - b;
    if (p <= 0 || q <= 0 || a + b >= p + q) return 2 * kPi;
    const double c = (p * p + q * q - (a + b) * (a + b)) / (2 * p * q);
    return std::acos(std::clamp(c, -1.0, 1.0)) * (1 - 1e-9);
  }

  /// No disc of a third of the ground's radius or more can have others all round it: they stand in
  /// a ring, and two that follow one another are seen at least as far apart as at the edge. Weights
  /// of which any two are together no more than that angle are on one shelf no more than half a
  /// turn.
  void by_angle(double big, double radius, int times) {
    const double least = big * (1 + 1e-9) / 3;
    if (radius < least) return;
    std::vector<double> radii = sizes();
    radii.erase(std::remove_if(radii.begin(), radii.end(), [&](double r) { return r < least; }),
                radii.end());
    std::stable_sort(radii.begin(), radii.end(), [&](double a, double b) {
      return std::abs(a - radius) < std::abs(b - radius);
    });
    std::vector<double> half;
    for (const double r : radii) {
      double most = angle(big, r, r) / 2;
      for (std::size_t i = 0; i < half.size(); ++i) {
        most = std::min(most, angle(big, r, radii[i]) - half[i]);
      }
      half.push_back(std::max(0.0, most));
    }
    Limit ring = limit([&](const Form& form) {
      for (std::size_t i = 0; i < radii.size(); ++i) {
        if (form.disc == radii[i]) return std::min(half[i], kPi);
      }
      return 0.0;
    });
    ring.top = ring.under = kPi * (1 + kSure) / times;
    limits_.push_back(std::move(ring));
  }

  const std::vector<Claim>* claims_;
  int posts_;
  double post_;
  Floor floor_;
  std::optional<Floor> both_;  ///< the floor and its mirror image
  std::vector<Limit> limits_;
};

/// Stacks weigh what their pieces weigh: the ware on a shelf is no heavier than it may be.
Limit by_mass(const Job& job, const std::vector<Claim>& claims, double most) {
  Limit limit;
  for (const Claim& claim : claims) {
    limit.weight.push_back(at(job.sorts, claim.sort).stacks.front().mass.kg());
  }
  limit.under = limit.top = most + kMassRounding;
  return limit;
}

std::vector<Limit> with_mass(const Job& job, const std::vector<Claim>& claims,
                             std::vector<Limit> limits) {
  const double most = most_on_shelf_kg(job.batch->kiln);
  if (std::isfinite(most)) limits.push_back(by_mass(job, claims, most));
  return limits;
}

/// Half of the largest gap that any of them asks for.
double halo_of_all(const Job& job, const std::vector<Claim>& claims) {
  double halo = job.clearances.gap.mm() / 2;
  for (const Claim& claim : claims) halo = std::max(halo, halo_of(job, at(job.sorts, claim.sort)));
  return halo;
}

}  // namespace

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

Floor floor_for(const Job& job, int column, const std::vector<Claim>& claims) {
  return floor_of_sites(job, at(job.columns, column), halo_of_all(job, claims));
}

Floor floor_for_bridge(const Job& job, int bridge, const std::vector<Claim>& claims) {
  return floor_of_sites(job, at(job.bridges, bridge), halo_of_all(job, claims));
}

std::vector<Limit> limits_of(const Job& job, int column, const Floor& floor,
                             const std::vector<Claim>& claims) {
  const int posts = posts_each(job, column);
  return with_mass(job, claims, Limits{posts, post_disc(job, column), floor, claims}.run());
}

std::vector<Limit> limits_of_bridge(const Job& job, const Floor& floor,
                                    const std::vector<Claim>& claims) {
  return with_mass(job, claims, Limits{0, 0, floor, claims}.run());
}

int posts_each(const Job& job, int column) {
  const auto& given = at(job.batch->kiln.columns, column).posts;
  return given.empty() ? job.batch->kiln.posts_per_shelf : count_of(given);
}

}  // namespace placer::loading
