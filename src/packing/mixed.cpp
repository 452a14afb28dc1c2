#include "packing/mixed.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numeric>

#include "packing/hop.h"

namespace placer::packing {

double value_of(const std::vector<Kind>& kinds, const std::vector<Pose>& poses) {
  double value = 0;
  for (const Pose& pose : poses) value += kinds[static_cast<std::size_t>(pose.kind)].value;
  return value;
}

namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

double rim(const Solid& solid) {
  double length = 0;
  for (const Ball& ball : solid.balls) length += 2 * kPi * ball.r;
  for (int k = 0; k < solid.polygons(); ++k) {
    const int from = solid.starts[at(k)];
    const int to = solid.starts[at(k) + 1];
    for (int i = from; i < to; ++i) {
      const Point v = solid.corners[at(i + 1 == to ? from : i + 1)] - solid.corners[at(i)];
      length += std::sqrt(dot(v, v));
    }
  }
  return length;
}

}  // namespace

double room_of(const Kind& kind, double gap) {
  const double g = gap / 2 + kind.halo;
  return kind.area + rim(kind.solid) * g + kPi * g * g;
}

namespace {

/// Indices, the greatest first.
std::vector<int> in_order(const std::vector<double>& of) {
  std::vector<int> order(of.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return of[at(a)] > of[at(b)]; });
  return order;
}

}  // namespace

bool worth_its_area(const std::vector<Kind>& kinds) {
  return std::all_of(kinds.begin(), kinds.end(), [](const Kind& kind) {
    return std::abs(kind.value - kind.area) <= 1e-9 * kind.area;
  });
}

std::vector<int> largest_first(const std::vector<Kind>& kinds, const Scene& scene) {
  std::vector<double> rooms;
  for (const Kind& kind : kinds) rooms.push_back(room_of(kind, scene.gap));
  return in_order(rooms);
}

std::vector<int> dearest_first(const std::vector<Kind>& kinds, const Scene& scene) {
  std::vector<double> worth;
  for (const Kind& kind : kinds) worth.push_back(kind.value / room_of(kind, scene.gap));
  return in_order(worth);
}

Mixing::Mixing(const std::vector<Kind>& kinds, const Scene& scene, std::uint64_t seed)
    : kinds_{&kinds}, hopper_{kinds, scene, seed} {
  for (const Kind& kind : kinds) room_.push_back(room_of(kind, scene.gap));
  for (const Kind& kind : kinds) {
    hopeless_ += 0.02 * kind.reach * kind.reach / static_cast<double>(kinds.size());
  }
  by_size_ = in_order(room_);
}

void Mixing::start(const std::vector<Pose>& seed, const std::vector<int>& left) {
  left_ = left;
  now_ = seed;
  now_value_ = value_of(*kinds_, seed);
  best_.clear();
  best_value_ = 0;
  failed_.clear();
  keep();
}

void Mixing::keep() {
  if (now_value_ <= best_value_ && !best_.empty()) return;
  best_ = now_;
  best_value_ = now_value_;
}

bool Mixing::all_placed() const {
  return std::all_of(left_.begin(), left_.end(), [](int n) { return n == 0; });
}

bool Mixing::try_insert(int kind) {
  hopper_.relaxer.set(now_);
  hopper_.insert(kind);
  if (hopper_.relaxer.relax(100, kSettled) > kSettled) return false;
  now_ = hopper_.relaxer.poses();
  now_value_ += (*kinds_)[at(kind)].value;
  --left_[at(kind)];
  return true;
}

void Mixing::fill(const std::vector<int>& order, std::uint64_t end) {
  for (const int kind : order) {
    int failures = 0;
    while (left_[at(kind)] > 0 && failures < 3 && work() < end) {
      if (!try_insert(kind)) ++failures;
    }
  }
  keep();
}

Exchange Mixing::random_exchange() {
  Exchange e;
  const int outs = static_cast<int>(hopper_.random.below(now_.size() > 1 ? 3 : 2));
  for (int i = 0; i < outs && !now_.empty(); ++i) {
    e.out.push_back(now_[hopper_.random.below(now_.size())].kind);
  }
  const int ins = 1 + static_cast<int>(hopper_.random.below(outs == 0 ? 1 : 3));
  for (int i = 0; i < ins; ++i) {
    e.in.push_back(static_cast<int>(hopper_.random.below(kinds_->size())));
  }
  std::sort(e.out.begin(), e.out.end());
  std::sort(e.in.begin(), e.in.end());
  for (const int k : e.out) {
    e.value -= (*kinds_)[at(k)].value;
    e.room -= room_[at(k)];
  }
  for (const int k : e.in) {
    e.value += (*kinds_)[at(k)].value;
    e.room += room_[at(k)];
    const auto wanted = std::count(e.in.begin(), e.in.end(), k);
    if (wanted > left_[at(k)]) e.value = -1e300;  // not in the supply
    if (std::find(e.out.begin(), e.out.end(), k) != e.out.end()) e.value = -1e300;
  }
  for (const int k : e.out) {
    const auto wanted = std::count(e.out.begin(), e.out.end(), k);
    const auto there =
        std::count_if(now_.begin(), now_.end(), [k](const Pose& pose) { return pose.kind == k; });
    if (wanted > there) e.value = -1e300;
  }
  return e;
}

/// Of a handful that gain value, the one that asks for least room (past failures count as room).
Exchange Mixing::likely_exchange() {
  Exchange best;
  double least = std::numeric_limits<double>::infinity();
  for (int i = 0; i < 40; ++i) {
    Exchange e = random_exchange();
    if (e.value <= best_value_ - now_value_) continue;
    const auto failed = failed_.find({e.out, e.in});
    const double tries = failed == failed_.end() ? 0 : failed->second;
    const double room = e.room + 0.15 * tries * room_[at(by_size_.back())];
    if (room < least) {
      least = room;
      best = std::move(e);
    }
  }
  return best;
}

int Mixing::nearest_of_kind(const std::vector<Pose>& poses, int kind, Point to) const {
  int best = -1;
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < poses.size(); ++i) {
    const Point v = Point{poses[i].x, poses[i].y} - to;
    if (poses[i].kind == kind && dot(v, v) < least) {
      least = dot(v, v);
      best = static_cast<int>(i);
    }
  }
  return best;
}

bool Mixing::try_exchange(const Exchange& exchange, std::uint64_t end) {
  std::vector<Pose> poses = now_;
  Point hole;
  for (std::size_t i = 0; i < exchange.out.size(); ++i) {
    if (i == 0) {
      const Pose any = hopper_.random_pose(exchange.out[0]);
      hole = {any.x, any.y};
    }
    const int gone = nearest_of_kind(poses, exchange.out[i], hole);
    hole = {poses[at(gone)].x, poses[at(gone)].y};
    poses.erase(poses.begin() + gone);
  }
  hopper_.relaxer.set(poses);
  std::vector<int> in = exchange.in;
  std::stable_sort(in.begin(), in.end(), [&](int a, int b) { return room_[at(a)] > room_[at(b)]; });
  for (const int kind : in) hopper_.insert(kind);
  const double e = hopper_.relaxer.relax(150, kSettled);
  if (e > hopeless_ || hopper_.settle(e, 6, end) > kSettled) return false;
  now_ = hopper_.relaxer.poses();
  now_value_ = value_of(*kinds_, now_);
  for (const int kind : exchange.out) ++left_[at(kind)];
  for (const int kind : exchange.in) --left_[at(kind)];
  return true;
}

void Mixing::improve(std::uint64_t end, const Budget& budget) {
  while (work() < end && !budget.stopped() && !all_placed()) {
    const Exchange exchange = likely_exchange();
    hopper_.relaxer.add_work(4000);
    if (exchange.in.empty()) continue;
    if (try_exchange(exchange, end)) {
      keep();
      failed_.clear();
    } else {
      ++failed_[{exchange.out, exchange.in}];
    }
  }
}

namespace {

std::vector<int> supply_less(const std::vector<Kind>& kinds, const std::vector<Pose>& taken) {
  std::vector<int> left;
  for (const Kind& kind : kinds) left.push_back(kind.count);
  for (const Pose& pose : taken) --left[at(pose.kind)];
  return left;
}

/// Two lanes, from nothing or from `best`, that take over the better of the two now and then.
std::vector<Pose> stage(const std::vector<Kind>& kinds, const Scene& scene, std::vector<Pose> best,
                        bool afresh, const Budget& budget) {
  constexpr std::uint64_t kRounds = 3;
  const std::vector<int> first_order = largest_first(kinds, scene);
  const std::vector<int> second_order =
      worth_its_area(kinds) ? first_order : dearest_first(kinds, scene);
  Mixing lanes[2] = {{kinds, scene, 2 * budget.seed + 1}, {kinds, scene, 2 * budget.seed + 2}};
  for (std::uint64_t round = 0; round < kRounds && !budget.stopped(); ++round) {
    const auto work = [&](Mixing& lane) {
      const std::uint64_t end = budget.steps * (round + 1) / (2 * kRounds);
      if (round == 0 && afresh) {
        lane.start({}, supply_less(kinds, {}));
        lane.fill(&lane == &lanes[0] ? first_order : second_order, end);
      }
      if (lane.value() < value_of(kinds, best)) lane.start(best, supply_less(kinds, best));
      if (lane.work() < end) lane.fill(end);
      lane.improve(end, budget);
    };
    both(
        budget.threads, [&] { work(lanes[0]); }, [&] { work(lanes[1]); });
    for (const Mixing& lane : lanes) {
      if (lane.value() > value_of(kinds, best)) best = lane.best();
    }
  }
  return best;
}

bool all_in(const std::vector<Kind>& kinds, const std::vector<Pose>& poses) {
  const std::vector<int> left = supply_less(kinds, poses);
  return std::all_of(left.begin(), left.end(), [](int n) { return n == 0; });
}

}  // namespace

// The first stage is what a quick search does, so that more effort never finds less. Then fresh
// starts of the same length, each on its own, for half of the steps; then the best goes on.
std::vector<Pose> more_value(const std::vector<Kind>& kinds, const Scene& scene,
                             const std::vector<Pose>& seed, const Budget& budget) {
  std::vector<Pose> best = seed;
  Budget share = budget;
  share.steps = std::min(budget.steps, kQuickSteps);
  std::uint64_t spent = 0;
  while (!budget.stopped() && !all_in(kinds, best)) {
    const bool fresh = spent == 0 || spent + share.steps <= budget.steps / 2;
    if (!fresh) share.steps = budget.steps - spent;
    const std::vector<Pose> found =
        stage(kinds, scene, fresh && spent > 0 ? std::vector<Pose>{} : best, fresh, share);
    if (value_of(kinds, found) > value_of(kinds, best)) best = found;
    spent += share.steps;
    share.seed += 1'000'003;
    if (spent >= budget.steps) break;
  }
  return best;
}

}  // namespace placer::packing
