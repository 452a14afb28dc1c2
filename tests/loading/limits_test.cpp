// What is proven about a shelf: never more than known packings hold, and no less than it should be.
#include "loading/limits.h"

#include <array>
#include <catch2/catch.hpp>
#include <cmath>

#include "loading/counts.h"
#include "loading/cover.h"
#include "loading/crowd.h"
#include "loading/index.h"
#include "loading/kiln_most.h"
#include "loading/squeeze.h"
#include "loading/studios.h"
#include "placer/loading/loading.h"

namespace placer::loading {
namespace {

Floor round_floor(double radius) {
  Site site;
  site.ground.round = Disc{{0, 0}, radius - kChord};
  return floor_of(site, 0);
}

Floor cut_floor(Region region) {
  Site site;
  site.ground = std::move(region);
  if (site.ground.round) site.ground.round->radius -= kChord;
  return floor_of(site, 0);
}

bool proven_not_to(const Floor& floor, std::vector<double> radii) {
  int looks = 400000;
  return cannot_lie(floor, std::move(radii), looks);
}

/// Least ratio of the radii for so many equal discs in a circle.
/// @source E. Specht's tables of circle packings, from memory; rounded up
constexpr std::array<std::pair<int, double>, 8> kKnown{{{7, 3.00001},
                                                        {10, 3.81304},
                                                        {13, 4.23608},
                                                        {16, 4.61543},
                                                        {19, 4.86371},
                                                        {22, 5.43973},
                                                        {27, 5.90640},
                                                        {30, 6.19775}}};

}  // namespace

TEST_CASE("no count or crowd is below a packing that is known") {
  for (const auto& [discs, ratio] : kKnown) {
    CAPTURE(discs);
    const Floor floor = round_floor(50 * ratio);
    CHECK(most_discs(floor, 50) >= discs);
    const Crowd crowd = best_crowd(floor, {{50, {}, {}, 1}}, Looks::usual);
    CHECK(crowd.share(50) * discs <= crowd.whole());
  }
}

TEST_CASE("a crowd of discs of two sizes in rows is not ruled out") {
  // A square of 400: 16 discs of radius 50 and the 9 that lie in the holes between them.
  const Floor floor = cut_floor({rectangle(400, 400), {}, {}});
  const double small = 50 * (std::sqrt(2.0) - 1);
  for (const double radius : {small, 35.0, 50.0}) {
    for (const Looks looks : {Looks::plain, Looks::usual}) {
      const Crowd crowd = best_crowd(floor, {{radius, {}, {}, 1}}, looks);
      CHECK(16 * crowd.share(50) + 9 * crowd.share(small) <= crowd.whole());
    }
  }
}

TEST_CASE("large discs that do not go together are proven not to, those that do never are") {
  const Floor half = cut_floor(half_disc(546));
  CHECK(proven_not_to(half, {79.5, 79.5, 79.5, 79.5}));
  CHECK(proven_not_to(half, {99.5, 99.5, 79.5}));
  CHECK_FALSE(proven_not_to(half, {79.5, 79.5, 79.5}));
  CHECK_FALSE(proven_not_to(half, {99.5, 79.5, 79.5}));
  const Floor round = round_floor(270);
  CHECK(proven_not_to(round, {136, 135}));
  CHECK_FALSE(proven_not_to(round, {135, 135}));
  CHECK_FALSE(proven_not_to(round, {90, 90, 90, 90, 90}));
  const Floor square = cut_floor({rectangle(400, 400), {}, {}});
  CHECK_FALSE(proven_not_to(square, {100, 100, 100, 100}));
  CHECK(proven_not_to(square, {101, 101, 101, 101}));
}

TEST_CASE("what stands on each shelf of a plan keeps every limit") {
  const auto seed = GENERATE(range(60U, 68U));
  CAPTURE(seed);
  const Batch batch = studios::studio(seed, 4, 50);
  Options options;
  options.effort = Effort::quick;
  const LoadPlan planned = plan(batch, options);
  const Job job = job_of(batch, 0);
  std::vector<int> set;
  for (const Sort& sort : job.sorts) set.push_back(sort.count);
  const std::vector<Claim> claims = claims_of(job, set);
  for (const KilnLoad& load : planned.firings) {
    for (const Level& level : load.levels) {
      const Floor floor = floor_for(job, level.column, claims);
      for (const Limit& limit : limits_of(job, level.column, floor, claims)) {
        double sum = 0;
        for (const PlacedPiece& piece : level.pieces) {
          for (int k = 0; k < count_of(claims); ++k) {
            if (at(job.sorts, at(claims, k).sort).piece() == piece.piece)
              sum += at(limit.weight, k);
          }
        }
        CHECK(sum <= (level.posts.empty() ? limit.top : limit.under) * (1 + 1e-6));
      }
    }
  }
}

TEST_CASE("the least number of loads, fractions allowed") {
  Cover cover{{3, 3}, 2};
  cover.add({2, 1});
  cover.add({1, 2});
  cover.solve();
  CHECK(cover.loads() == Approx(2));
  CHECK(cover.prices()[0] == Approx(1.0 / 3));
}

TEST_CASE("what there is only so much of is used up to there and no further") {
  for (const int tops : {0, 1, 2}) {
    Cover cover{{8, -1.0 * tops}, 1};
    cover.add({2, 0});   // with posts
    cover.add({4, -1});  // without: the top of a column
    cover.solve();
    CHECK(cover.loads() == Approx(4 - tops));  // by hand
    CHECK(cover.amounts()[1] == Approx(tops));
    if (tops < 2) CHECK(cover.prices()[1] == Approx(1));  // a top more saves a shelf
  }
}

}  // namespace placer::loading
