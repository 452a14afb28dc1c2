#include "packing/disc_hop.h"

#include <algorithm>
#include <cmath>

#include "packing/hop.h"

namespace placer::packing {

namespace {

constexpr double kNearlySettled = 1e-2;  // mm²: worth going downhill for long
constexpr int kCrowd = 90;               // from here on only the neighbourhood is settled first

std::size_t at(int i) { return static_cast<std::size_t>(i); }

}  // namespace

DiscHopper::DiscHopper(const Kind& kind, const Scene& scene, std::uint64_t seed)
    : scene_{&scene}, discs{kind, scene, kSlack}, random{seed} {}

int DiscHopper::samples() const { return 60 + 2 * std::min(discs.size(), 500); }

Point DiscHopper::anywhere() {
  const double x = random.uniform(scene_->low.x, scene_->high.x);
  const double y = random.uniform(scene_->low.y, scene_->high.y);
  return {x, y};
}

double DiscHopper::begin(const std::vector<Point>& middles, int target) {
  discs.set(middles);
  last_moved_ = -1;
  while (discs.size() < target) {
    std::vector<Point> more = discs.middles();
    more.push_back(discs.emptiest(-1, samples(), random));
    discs.set(more);
  }
  return discs.relax(300, kSettled);
}

/// The most strained by chance: each strain counts for half to all of itself.
int DiscHopper::strained_one() {
  const std::vector<double>& strain = discs.strain();
  int worst = 0;
  double most = -1;
  for (int i = 0; i < discs.size(); ++i) {
    const double s = strain[at(i)] * random.uniform(0.5, 1);
    if (i != last_moved_ && s > most) {
      most = s;
      worst = i;
    }
  }
  last_moved_ = worst;
  return worst;
}

double DiscHopper::hop(double e) {
  if (discs.size() > kCrowd) return crowd_hop(e);
  const std::vector<Point> before = discs.middles();
  const std::vector<double> strain = discs.strain();
  const int one = strained_one();
  discs.move(one, discs.emptiest(one, samples(), random));
  const double after = discs.relax(200, kSettled);
  if (after < e || random.uniform() < 0.01) return after;
  discs.set_back(before, strain);
  return e;
}

/// As hop, but the neighbourhood is settled first, and the rest only if that promises something.
double DiscHopper::crowd_hop(double e) {
  constexpr double kFar = 3.5;  // pitches
  constexpr double kWorth = 2;  // of the energy: how much worse a neighbourhood may look
  const std::vector<Point> before = discs.middles();
  const std::vector<double> strain = discs.strain();
  const int one = strained_one();
  const Point from = before[at(one)];
  const Point to = discs.emptiest(one, samples(), random);
  discs.move(one, to);
  double after = discs.relax_near(from, to, kFar * discs.pitch(), 80, kSettled);
  if (after < kWorth * e) after = discs.relax(200, kSettled);
  if (after < e || random.uniform() < 0.01) return after;
  discs.set_back(before, strain);
  return e;
}

double DiscHopper::settle(double e, int patience, std::uint64_t end) {
  double best = e;
  for (int since = 0; e > kSettled && since < patience && discs.work() < end; ++since) {
    e = hop(e);
    if (e < 0.999 * best) {
      best = e;
      since = 0;
    }
  }
  if (e > kSettled && e < kNearlySettled) e = discs.relax_long(kSettled);
  return e;
}

}  // namespace placer::packing
