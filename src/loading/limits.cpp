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
constexpr double kSure = 1e-7;  // rounding never makes a limit too low
constexpr int kMostSizes = 16;  // sizes of disc for which counts are worked out
constexpr int kMostCrowds = 5;  // and crowds; others are looked for where they are wanted

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
  double most = crowd.share(form.disc) + crowd.share(form.beside);
  if (form.width > 0) {
    const double r = form.width / 2 * (1 - 1e-9);
    most = std::max(most, std::floor(form.length / form.width + 1e-9) * crowd.share(r));
  }
  most = std::max(most, crowd.share(form.all));
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
      inside = std::max(inside, inner_radius(outline));
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

/// Posts on a shelf that carries another, and a disc that each has to itself, half the gap in it.
struct Standers {
  int count = 0;
  double disc = 0;
};

Standers posts_of(const Job& job, int column) {
  return {posts_each(job, column), post_disc(job, column) * (1 - 1e-9)};
}

Limit crowd_limit(const std::vector<Claim>& claims, const Crowd& crowd, const Standers& posts,
                  int times) {
  Limit limit;
  for (const Claim& claim : claims) {
    limit.weight.push_back(
        weight_of(claim, [&](const Form& form) { return share_of(crowd, form); }));
  }
  limit.top = crowd.whole() * (1 + kSure) / times;
  limit.under = posts.count == 0 ? limit.top : limit.top - posts.count * crowd.share(posts.disc);
  return limit;
}

/// Works the limits of one column's shelves out.
class Limits {
 public:
  Limits(const Standers& posts, const Floor& floor, const std::vector<Claim>& claims)
      : claims_{&claims},
        posts_{posts.count},
        post_{posts.disc},
        floor_{floor},
        both_{mirrored(floor_)} {}

  std::vector<Limit> run() {
    by_ground();
    for (const double radius : some_of(sizes(), kMostCrowds)) by_crowd(radius);
    for (const double radius : sizes()) {
      by_count(radius);
      if (floor_.round && floor_.normals.empty()) by_angle(floor_.round->radius, radius, 1);
      if (both_) by_angle(both_->round->radius, radius, 2);
    }
    leave_out_weaker();
    return std::move(limits_);
  }

 private:
  /// Those that say nothing that another does not say as well.
  void leave_out_weaker() {
    std::vector<Limit> kept;
    const auto weaker = [](const Limit& a, const Limit& b) {
      for (std::size_t k = 0; k < a.weight.size(); ++k) {
        if (a.weight[k] * b.top > b.weight[k] * a.top * (1 + 1e-12)) return false;
        if (a.weight[k] * b.under > b.weight[k] * a.under * (1 + 1e-12)) return false;
      }
      return true;
    };
    for (const Limit& one : limits_) {
      const auto says_less = [&](const Limit& other) { return weaker(one, other); };
      if (std::any_of(kept.begin(), kept.end(), says_less)) continue;
      kept.erase(std::remove_if(kept.begin(), kept.end(),
                                [&](const Limit& other) { return weaker(other, one); }),
                 kept.end());
      kept.push_back(one);
    }
    limits_ = std::move(kept);
  }

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
    return some_of(all, kMostSizes);
  }

  static std::vector<double> some_of(const std::vector<double>& all, int most) {
    if (count_of(all) <= most) return all;
    std::vector<double> some;
    for (int i = 0; i < most; ++i) some.push_back(at(all, i * (count_of(all) - 1) / (most - 1)));
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
    const std::vector<Member> disc{{radius, {}, {}, 1}};
    const auto add = [&](const Floor& floor, const std::vector<Member>& members, Looks looks) {
      add_crowd(best_crowd(floor, members, looks), &floor == &floor_ ? 1 : 2);
    };
    add(floor_, disc, Looks::usual);
    if (any_convex()) add(floor_, disc, Looks::plain);
    if (const auto shape = beside(radius)) add(floor_, {{radius, *shape, {}, 1}}, Looks::usual);
    if (const auto shape = convex(radius)) add(floor_, {{0, {}, *shape, 1}}, Looks::usual);
    if (both_) add(*both_, disc, Looks::usual);
  }

  /// @param times that whatever stands on the shelf stands on the crowd's floor.
  void add_crowd(const Crowd& crowd, int times) {
    if (crowd.whole() > 0) limits_.push_back(crowd_limit(*claims_, crowd, {posts_, post_}, times));
  }

  /// The largest that stands beside a disc of the radius.
  std::optional<Convex> beside(double radius) const {
    return largest(radius, [](const Form& form) { return form.beside; });
  }
  std::optional<Convex> convex(double radius) const {
    return largest(radius, [](const Form& form) { return form.all; });
  }
  bool any_convex() const {
    return std::any_of(claims_->begin(), claims_->end(),
                       [](const Claim& claim) { return claim.forms.front().all.area > 0; });
  }
  template <class Part>
  std::optional<Convex> largest(double radius, Part part) const {
    std::optional<Convex> most;
    for (const Claim& claim : *claims_) {
      for (const Form& form : claim.forms) {
        const Convex one = part(form);
        if (form.disc != radius || one.area <= (most ? most->area : 0)) continue;
        most = one;
      }
    }
    return most;
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

Floor floor_for(const Job& job, int column, const std::vector<Claim>& claims) {
  return floor_of_sites(job, at(job.columns, column), halo_of_all(job, claims));
}

Floor floor_for_bridge(const Job& job, int bridge, const std::vector<Claim>& claims) {
  return floor_of_sites(job, at(job.bridges, bridge), halo_of_all(job, claims));
}

std::vector<Limit> limits_of(const Job& job, int column, const Floor& floor,
                             const std::vector<Claim>& claims) {
  return with_mass(job, claims, Limits{posts_of(job, column), floor, claims}.run());
}

std::vector<Limit> limits_of_bridge(const Job& job, const Floor& floor,
                                    const std::vector<Claim>& claims) {
  return with_mass(job, claims, Limits{{}, floor, claims}.run());
}

int posts_each(const Job& job, int column) {
  const auto& given = at(job.batch->kiln.columns, column).posts;
  return given.empty() ? job.batch->kiln.posts_per_shelf : count_of(given);
}

}  // namespace placer::loading
