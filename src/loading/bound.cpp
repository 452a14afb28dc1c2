#include "loading/bound.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "loading/index.h"
#include "placer/packing/packing.h"

namespace placer::loading {
namespace {

constexpr double kPi = 3.14159265358979323846;
constexpr double kSure = 1e-7;  // rounding never makes a bound too high
constexpr int kManyDiscs = 1000000;

/// Area of a convex shape with a border of `r` all round, by Steiner's formula.
double grown(const Outline& convex, double r) {
  double around = 0;
  for (std::size_t i = 0; i < convex.corners.size(); ++i) {
    const Point a = convex.corners[i];
    const Point b = convex.corners[(i + 1) % convex.corners.size()];
    around += std::sqrt((b.x - a.x) * (b.x - a.x) + (b.y - a.y) * (b.y - a.y));
  }
  return signed_area(convex) + around * r + kPi * r * r;
}

/// At least this much ground belongs to the shape alone when all keep `gap` from each other.
double own_ground(const Footprint& shape, double gap) {
  double most = area(shape);
  for (const Disc& disc : shape.discs) {
    most = std::max(most, kPi * (disc.radius + gap / 2) * (disc.radius + gap / 2));
  }
  for (const Outline& outline : shape.outlines) {
    if (is_convex(outline)) most = std::max(most, grown(outline, gap / 2));
  }
  return most;
}

/// The site as it is, without the care taken at its arcs and without keep-outs.
Region true_ground(Region ground) {
  ground.keep_outs.clear();
  if (ground.round) ground.round->radius += kChord;
  return ground;
}

/// No more ground than this lies within half a gap of a site.
double all_ground(const Region& ground, double gap) {
  const Region bare = true_ground(ground);
  if (bare.outline.corners.empty()) {
    const double r = bare.round->radius + gap / 2;
    return kPi * r * r;
  }
  const Outline edge = edge_polygon(bare);  // arcs as chords that lie up to 0.01 mm inside
  return grown(convex_hull({{}, {edge}}), gap / 2 + 0.011);
}

double half_width(const Outline& outline) {
  Point middle;
  for (const Point corner : outline.corners) {
    middle = middle + (1.0 / static_cast<double>(outline.corners.size())) * corner;
  }
  return is_convex(outline) ? std::max(0.0, inset(middle, outline)) : 0;
}

/// Radius of a disc that lies inside the shape.
double disc_inside(const Footprint& shape) {
  double largest = 0;
  for (const Disc& disc : shape.discs) largest = std::max(largest, disc.radius);
  for (const Outline& outline : shape.outlines) largest = std::max(largest, half_width(outline));
  return largest;
}

/// One piece of a sort as the argument sees it.
struct Claim {
  double height = 0;  ///< of the lowest way it may stand
  double ground = 0;  ///< mm², at least
  double disc = 0;    ///< radius of a disc inside
  int stack = 1;      ///< pieces that may share that ground
  int count = 0;
};

std::vector<Claim> claims_of(const Job& job, const std::vector<int>& set) {
  std::vector<Claim> claims;
  const double gap = job.clearances.gap.mm();
  for (int s = 0; s < count_of(job.sorts); ++s) {
    if (at(set, s) <= 0) continue;
    const Sort& sort = at(job.sorts, s);
    Claim claim;
    claim.count = at(set, s);
    claim.stack = count_of(sort.stacks);
    claim.height = claim.ground = claim.disc = std::numeric_limits<double>::infinity();
    for (int n = 1; n <= claim.stack; ++n) {
      const SizedPiece& size = at(sort.stacks, n - 1);
      claim.height = std::min(claim.height, size.height.mm());
      claim.ground = std::min(claim.ground, own_ground(size.footprint, gap) / n);
      claim.disc = std::min(claim.disc, disc_inside(size.footprint));
    }
    claims.push_back(claim);
  }
  std::stable_sort(claims.begin(), claims.end(),
                   [](const Claim& a, const Claim& b) { return a.height > b.height; });
  return claims;
}

/// The kiln as the argument sees it.
struct Space {
  double ground = 0;            ///< of the largest site, mm²
  std::vector<double> columns;  ///< from the underside of the lowest shelf to the lid
  double shelf = 0;             ///< the thinnest one's thickness
  double air = 0;
  int levels = 0;  ///< no load has more, by shelves and posts
  int posts_each = 3;
  double post_length = 0;  ///< of all parts together
  const std::vector<PostHeight>* heights = nullptr;
};

double least_post(const Space& space, double least) {
  for (const PostHeight& posts : *space.heights) {
    if (posts.height.mm() >= least - kSure) return posts.height.mm();
  }
  return std::numeric_limits<double>::infinity();
}

void add_column(const Job& job, const std::vector<Site>& sites, Space& space) {
  const Kiln& kiln = job.batch->kiln;
  bool any = false;
  for (const Site& site : sites) {
    if (!site.trouble.empty() || at(kiln.shelves, site.shelf).have == 0) continue;
    any = true;
    space.ground = std::max(space.ground, all_ground(site.ground, job.clearances.gap.mm()));
    space.shelf = std::min(space.shelf, at(kiln.shelves, site.shelf).thickness.mm());
  }
  const double first = kiln.first_shelf.mm();
  const double under = first <= 0 ? 0 : least_post(space, first);
  if (any && std::isfinite(under)) space.columns.push_back(lid(kiln).mm() - under);
}

Space space_of(const Job& job) {
  const Kiln& kiln = job.batch->kiln;
  Space space;
  space.shelf = std::numeric_limits<double>::infinity();
  space.air = job.clearances.air.mm();
  space.heights = &job.heights;
  space.posts_each = kiln.posts_per_shelf;
  for (const auto& sites : job.columns) add_column(job, sites, space);
  for (const Column& column : kiln.columns) {
    if (!column.posts.empty()) {
      space.posts_each = std::min(space.posts_each, count_of(column.posts));
    }
  }
  int shelves = 0;
  int parts = 0;
  for (const ShelfKind& shelf : kiln.shelves) shelves += shelf.have;
  for (const PostKind& post : kiln.posts) {
    parts += post.have;
    space.post_length += post.have * post.height.mm();
  }
  const int carried = parts / space.posts_each;
  const bool on_floor = kiln.first_shelf <= Length{};
  space.levels = std::min(shelves, on_floor ? carried + count_of(space.columns) : carried);
  return space;
}

/// The most levels for pieces of this height that one load can have.
double most_levels(const Space& space, double height) {
  const double posts = least_post(space, height + space.air);
  double most = 0;
  double tops = 0;
  for (const double column : space.columns) {
    const double rest = column - space.shelf - height + kSure;
    if (rest < 0) continue;
    tops += 1;
    most += 1 + (std::isfinite(posts) ? std::floor(rest / (posts + space.shelf)) : 0);
  }
  const double carried =
      std::floor(space.post_length / (space.posts_each * (height + space.air)) + kSure);
  return std::min({most, static_cast<double>(space.levels), tops + carried});
}

/// Whether `firings` loads have the height for levels as tall as these at least.
bool tall_enough(const Space& space, const std::vector<double>& levels, int firings) {
  double room = 0;
  for (const double column : space.columns) room += firings * column;
  std::vector<double> savings;  // of a level that goes up to the lid
  double used = 0;
  for (const double height : levels) {
    const double posts = least_post(space, height + space.air);
    const double on_top = space.shelf + height;
    if (std::isfinite(posts)) {
      savings.push_back(posts - height);
      used += space.shelf + posts;
    } else {
      savings.push_back(1e9);
      used += on_top + 1e9;
    }
  }
  std::sort(savings.begin(), savings.end(), std::greater<>{});
  const std::size_t tops = static_cast<std::size_t>(firings) * space.columns.size();
  for (std::size_t i = 0; i < std::min(tops, savings.size()); ++i) used -= savings[i];
  return used <= room + kSure * static_cast<double>(levels.size() + 1);
}

/// By the weights: at least so many firings.
int firings_for(const Space& space, const std::vector<Claim>& claims,
                const std::vector<double>& weights) {
  std::vector<double> levels;  // tallest first: at least so tall
  double sum = 0;
  for (std::size_t i = 0; i < claims.size(); ++i) {
    sum += claims[i].count * weights[i];
    while (static_cast<double>(levels.size()) < sum - kSure) levels.push_back(claims[i].height);
  }
  if (levels.empty()) return claims.empty() ? 0 : 1;
  int firings = 1;
  for (std::size_t m = 1; m <= levels.size(); ++m) {
    if (m < levels.size() && levels[m] == levels[m - 1]) continue;
    const double each = most_levels(space, levels[m - 1]);
    if (each < 1) continue;  // then they are left out, and not in the claims
    firings = std::max(firings, static_cast<int>(std::ceil(static_cast<double>(m) / each - kSure)));
  }
  while (firings < count_of(levels) && !tall_enough(space, levels, firings)) ++firings;
  return firings;
}

/// Equal discs in a circle: the least ratio of the radii for 1, 2, ... discs, as far as it is
/// proven.
/// @source R. L. Graham (1968) to 7, U. Pirl (1969) 8 to 10, H. Melissen (1994) 11, F. Fodor (2000,
///   2003) 12 and 13; the list in E. Specht's tables of circle packings. Rounded down.
constexpr std::array<double, 13> kProven{1,       2,       2.15470, 2.41421, 2.70130, 3,      3,
                                         3.30476, 3.61312, 3.81302, 3.92380, 4.02960, 4.23606};

int most_in_circle(double ratio) {
  int most = kManyDiscs;
  for (int n = 0; n < count_of(kProven); ++n) {
    if (at(kProven, n) > ratio + kSure) return std::min(most, n);
  }
  return most;
}

/// Middles at least `apart` from each other in a box: when it is narrower than that, they follow
/// one another along it.
int most_in_box(double length, double width, double apart) {
  if (width > length) std::swap(length, width);
  if (width >= apart * (1 - 1e-9)) return kManyDiscs;
  return 1 +
         static_cast<int>(std::floor(length / std::sqrt(apart * apart - width * width) + kSure));
}

/// Discs of this radius that a region without notches can hold at most.
int most_discs_in(const Region& region, double radius, double gap) {
  packing::Problem problem;
  problem.region = region;
  problem.gap = gap;
  packing::Item item;
  item.shape = {{{{0, 0}, radius}}, {}};
  item.count = kManyDiscs;
  problem.items = {item};
  int most = packing::most_possible(problem);
  if (region.round) {
    most = std::min(most, most_in_circle((region.round->radius + gap / 2) / (radius + gap / 2)));
  }
  if (!region.outline.corners.empty() && !is_convex(region.outline)) return most;
  const auto middles = middles_of(region, radius);
  if (!middles) return most;
  const Outline edge = edge_polygon(*middles);
  for (int turn = 0; turn < 180; turn += 15) {
    const Box box = bounding_box(Footprint{{}, {placed(edge, {{}, static_cast<double>(turn)})}});
    most = std::min(most, most_in_box(box.high.x - box.low.x + 0.03, box.high.y - box.low.y + 0.03,
                                      2 * radius + gap));
  }
  return most;
}

/// Discs of this radius that any one shelf can hold at most.
int most_discs(const Job& job, double radius) {
  int most = 0;
  for (const auto& sites : job.columns) {
    for (const Site& site : sites) {
      if (!site.trouble.empty() || at(job.batch->kiln.shelves, site.shelf).have == 0) continue;
      most =
          std::max(most, most_discs_in(true_ground(site.ground), radius, job.clearances.gap.mm()));
    }
  }
  return most;
}

}  // namespace

int fewest_firings(const Job& job, const std::vector<int>& set) {
  const std::vector<Claim> claims = claims_of(job, set);
  if (claims.empty()) return 0;
  const Space space = space_of(job);
  if (space.columns.empty() || space.ground <= 0) return 1;
  std::vector<double> by_ground;
  for (const Claim& claim : claims) by_ground.push_back(claim.ground / space.ground);
  int most = std::max(1, firings_for(space, claims, by_ground));
  for (const Claim& least : claims) {
    if (least.disc <= 0) continue;
    const int discs = most_discs(job, least.disc * (1 - 1e-9));
    if (discs < 1) continue;
    std::vector<double> by_count;
    std::vector<double> by_both;
    for (std::size_t i = 0; i < claims.size(); ++i) {
      const bool counts = claims[i].disc >= least.disc;
      by_count.push_back(counts ? 1.0 / (discs * claims[i].stack) : 0);
      by_both.push_back((by_count[i] + by_ground[i]) / 2);
    }
    most =
        std::max({most, firings_for(space, claims, by_count), firings_for(space, claims, by_both)});
  }
  return most;
}

}  // namespace placer::loading
