#include "packing/boxes.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "placer/base/random.h"

namespace placer::packing {

namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

constexpr double kEven = 1e-9;  // mm: sizes this near are the same

struct Rect {
  double x0, y0, x1, y1;
  double width() const { return x1 - x0; }
  double depth() const { return y1 - y0; }
};

bool meet(const Rect& a, const Rect& b) {
  return a.x0 < b.x1 - kEven && b.x0 < a.x1 - kEven && a.y0 < b.y1 - kEven && b.y0 < a.y1 - kEven;
}

bool holds(const Rect& a, const Rect& b) {
  return a.x0 <= b.x0 + kEven && a.y0 <= b.y0 + kEven && a.x1 >= b.x1 - kEven &&
         a.y1 >= b.y1 - kEven;
}

/// A kind lying square: its turn and its size then.
struct Lying {
  double turn;
  double width, depth;
};

/// Right angles, sides along the axes after `turn`?
bool square_at(const Solid& solid, double turn, Lying& lying) {
  if (!solid.balls.empty() || solid.corners.size() != 4) return false;
  const Turn t = turn_of(turn);
  double wide = 0;
  double deep = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    const Point edge = t(solid.corners[(i + 1) % 4] - solid.corners[i]);
    if (std::min(std::abs(edge.x), std::abs(edge.y)) > kEven) return false;
    wide = std::max(wide, std::abs(edge.x));
    deep = std::max(deep, std::abs(edge.y));
  }
  lying = {turn, wide, deep};
  return true;
}

std::vector<Lying> ways_to_lie(const Kind& kind) {
  std::vector<Lying> ways;
  std::vector<double> turns = kind.turns;
  if (kind.free) turns = {0, kPi / 2};
  for (const double turn : turns) {
    Lying way;
    if (!square_at(kind.solid, turn, way)) continue;
    const bool known = std::any_of(ways.begin(), ways.end(), [&](const Lying& other) {
      return std::abs(other.width - way.width) < kEven && std::abs(other.depth - way.depth) < kEven;
    });
    if (!known) ways.push_back(way);
  }
  return ways;
}

/// The free ground as the largest rectangles in it. Everything is grown by the gap on its right and
/// back, so that pieces set edge to edge keep it.
class FreeGround {
 public:
  void reset(const Rect& whole) { free_ = {whole}; }
  void take(const Rect& taken);
  const std::vector<Rect>& rects() const { return free_; }
  void copy(const FreeGround& other) { free_ = other.free_; }

 private:
  void offer(const Rect& rect);
  std::vector<Rect> free_, fresh_, cut_;
};

void FreeGround::offer(const Rect& rect) {
  if (rect.width() < kEven || rect.depth() < kEven) return;
  for (const Rect& other : free_) {
    if (holds(other, rect)) return;
  }
  for (std::size_t i = 0; i < fresh_.size();) {
    if (holds(fresh_[i], rect)) return;
    if (holds(rect, fresh_[i])) {
      fresh_[i] = fresh_.back();
      fresh_.pop_back();
    } else {
      ++i;
    }
  }
  fresh_.push_back(rect);
}

void FreeGround::take(const Rect& taken) {
  fresh_.clear();
  cut_.clear();
  std::size_t kept = 0;
  for (std::size_t i = 0; i < free_.size(); ++i) {
    if (meet(free_[i], taken)) {
      cut_.push_back(free_[i]);
    } else {
      free_[kept++] = free_[i];
    }
  }
  free_.resize(kept);
  for (const Rect& r : cut_) {
    if (taken.x0 > r.x0) offer({r.x0, r.y0, taken.x0, r.y1});
    if (taken.x1 < r.x1) offer({taken.x1, r.y0, r.x1, r.y1});
    if (taken.y0 > r.y0) offer({r.x0, r.y0, r.x1, taken.y0});
    if (taken.y1 < r.y1) offer({r.x0, taken.y1, r.x1, r.y1});
  }
  free_.insert(free_.end(), fresh_.begin(), fresh_.end());
}

/// Ground that no rectangle may lie on, covered by rectangles (in true coordinates).
class Cover {
 public:
  Cover(const Scene& scene, double halo) : scene_{&scene} {
    for (const Obstacle& obstacle : scene.obstacles) {
      add_obstacle(obstacle, obstacle.clearance + (obstacle.halo ? halo : 0));
    }
    add_walls();
    if (scene.round) add_rim();
  }
  const std::vector<Rect>& rects() const { return rects_; }
  const Rect& whole() const { return whole_; }

 private:
  void add_obstacle(const Obstacle& obstacle, double clear);
  void add_walls();
  void add_rim();

  const Scene* scene_;
  std::vector<Rect> rects_;
  Rect whole_{};
};

/// A disc by nested rectangles whose corners lie just outside it; a polygon by its own box.
void Cover::add_obstacle(const Obstacle& obstacle, double clear) {
  constexpr int kSteps = 6;
  for (const Ball& ball : obstacle.solid.balls) {
    const double r = ball.r + clear;
    for (int i = 0; i < kSteps; ++i) {
      const double wide = r * turn_of(i * kPi / 2 / kSteps).c;
      const double deep = r * turn_of((i + 1) * kPi / 2 / kSteps).s;
      rects_.push_back({ball.c.x - wide, ball.c.y - deep, ball.c.x + wide, ball.c.y + deep});
    }
  }
  for (std::size_t k = 0; k + 1 < obstacle.solid.starts.size(); ++k) {
    constexpr double inf = std::numeric_limits<double>::infinity();
    Rect box{inf, inf, -inf, -inf};
    for (auto i = at(obstacle.solid.starts[k]); i < at(obstacle.solid.starts[k + 1]); ++i) {
      const Point p = obstacle.solid.corners[i];
      box = {std::min(box.x0, p.x), std::min(box.y0, p.y), std::max(box.x1, p.x),
             std::max(box.y1, p.y)};
    }
    rects_.push_back({box.x0 - clear, box.y0 - clear, box.x1 + clear, box.y1 + clear});
  }
}

constexpr int kStrips = 24;

void Cover::add_walls() {
  whole_ = {scene_->low.x, scene_->low.y, scene_->high.x, scene_->high.y};
  const double far = 2 * (whole_.width() + whole_.depth());
  const Rect box = whole_;
  for (const Wall& wall : scene_->walls) {
    if (std::abs(wall.n.y) < kEven) {
      if (wall.n.x > 0) whole_.x1 = std::min(whole_.x1, wall.b / wall.n.x);
      if (wall.n.x < 0) whole_.x0 = std::max(whole_.x0, wall.b / wall.n.x);
      continue;
    }
    if (std::abs(wall.n.x) < kEven) {
      if (wall.n.y > 0) whole_.y1 = std::min(whole_.y1, wall.b / wall.n.y);
      if (wall.n.y < 0) whole_.y0 = std::max(whole_.y0, wall.b / wall.n.y);
      continue;
    }
    for (int i = 0; i < kStrips; ++i) {
      const double x0 = box.x0 + box.width() * i / kStrips;
      const double x1 = box.x0 + box.width() * (i + 1) / kStrips;
      const double worst = wall.n.x > 0 ? x1 : x0;
      const double y = (wall.b - wall.n.x * worst) / wall.n.y;
      if (wall.n.y > 0 && y < box.y1) rects_.push_back({x0, y, x1, y + far});
      if (wall.n.y < 0 && y > box.y0) rects_.push_back({x0, y - far, x1, y});
    }
  }
}

void Cover::add_rim() {
  const double r = scene_->radius;
  const Point c = scene_->centre;
  whole_ = {std::max(whole_.x0, c.x - r), std::max(whole_.y0, c.y - r),
            std::min(whole_.x1, c.x + r), std::min(whole_.y1, c.y + r)};
  for (int i = 0; i < kStrips; ++i) {
    const double x0 = -r + 2 * r * i / kStrips;
    const double x1 = -r + 2 * r * (i + 1) / kStrips;
    const double worst = std::max(std::abs(x0), std::abs(x1));
    const double y = std::sqrt(std::max(0.0, r * r - worst * worst));
    rects_.push_back({c.x + x0, c.y + y, c.x + x1, c.y + 2 * r});
    rects_.push_back({c.x + x0, c.y - 2 * r, c.x + x1, c.y - y});
  }
}

/// One order of the pieces, set one by one, each where it fits best.
class BoxSearch {
 public:
  BoxSearch(const std::vector<Kind>& kinds, const Scene& scene, std::uint64_t seed);
  void search(const Budget& budget);
  const std::vector<Pose>& best() const { return best_; }

 private:
  double lay(const std::vector<int>& order, int rule);
  bool best_spot(int kind, int rule, Rect& spot, double& turn);
  void shuffle(std::vector<int>& order);

  const std::vector<Kind>* kinds_;
  std::vector<std::vector<Lying>> ways_;
  double gap_;
  Random random_;
  FreeGround empty_, free_;
  std::vector<int> all_;
  std::vector<Pose> laid_, best_;
  double best_value_ = 0;
  std::uint64_t work_ = 0;
};

BoxSearch::BoxSearch(const std::vector<Kind>& kinds, const Scene& scene, std::uint64_t seed)
    : kinds_{&kinds}, random_{seed} {
  double halo = 0;
  for (const Kind& kind : kinds) {
    ways_.push_back(ways_to_lie(kind));
    halo = std::max(halo, kind.halo);
  }
  gap_ = scene.gap + 2 * halo;
  const Cover cover{scene, halo};
  Rect whole = cover.whole();
  whole.x1 += gap_;
  whole.y1 += gap_;
  empty_.reset(whole);
  for (const Rect& r : cover.rects()) empty_.take({r.x0 + gap_, r.y0 + gap_, r.x1, r.y1});
  std::vector<int> by_size(kinds.size());
  std::iota(by_size.begin(), by_size.end(), 0);
  std::stable_sort(by_size.begin(), by_size.end(),
                   [&](int a, int b) { return kinds[at(a)].area > kinds[at(b)].area; });
  for (const int k : by_size) {
    const double room = 1 + 1.1 * scene.area / kinds[at(k)].area;
    const int some = static_cast<int>(std::min<double>(kinds[at(k)].count, room));
    all_.insert(all_.end(), at(some), k);
  }
}

/// Rules: 0 least left over on the tighter side, 1 nearest the front then the left, 2 nearest the
/// left then the front.
bool BoxSearch::best_spot(int kind, int rule, Rect& spot, double& turn) {
  double least = std::numeric_limits<double>::infinity();
  double second = least;
  for (const Lying& way : ways_[at(kind)]) {
    const double w = way.width + gap_;
    const double d = way.depth + gap_;
    for (const Rect& r : free_.rects()) {
      const double over_w = r.width() - w;
      const double over_d = r.depth() - d;
      if (over_w < -kEven || over_d < -kEven) continue;
      double first = std::min(over_w, over_d);
      double next = std::max(over_w, over_d);
      if (rule == 1) {
        first = r.y0 + d;
        next = r.x0;
      } else if (rule == 2) {
        first = r.x0 + w;
        next = r.y0;
      }
      if (first > least + kEven || (first > least - kEven && next >= second)) continue;
      least = first;
      second = next;
      spot = {r.x0, r.y0, r.x0 + w, r.y0 + d};
      turn = way.turn;
    }
  }
  work_ += 2 * free_.rects().size() * ways_[at(kind)].size();
  return least < std::numeric_limits<double>::infinity();
}

double BoxSearch::lay(const std::vector<int>& order, int rule) {
  free_.copy(empty_);
  laid_.clear();
  double value = 0;
  std::vector<char> hopeless(kinds_->size(), 0);
  for (const int kind : order) {
    if (hopeless[at(kind)] != 0) continue;
    Rect spot{};
    double turn = 0;
    if (!best_spot(kind, rule, spot, turn)) {
      hopeless[at(kind)] = 1;  // room only ever shrinks
      continue;
    }
    free_.take(spot);
    work_ += 30 + 12 * free_.rects().size();
    laid_.push_back({kind, (spot.x0 + spot.x1 - gap_) / 2, (spot.y0 + spot.y1 - gap_) / 2, turn});
    value += (*kinds_)[at(kind)].value;
  }
  if (value > best_value_) {
    best_value_ = value;
    best_ = laid_;
  }
  return value;
}

void BoxSearch::shuffle(std::vector<int>& order) {
  const std::uint64_t n = order.size();
  const auto a = static_cast<std::ptrdiff_t>(random_.below(n));
  const auto b = static_cast<std::ptrdiff_t>(random_.below(n));
  if (random_.uniform() < 0.5) {
    std::swap(order[static_cast<std::size_t>(a)], order[static_cast<std::size_t>(b)]);
  } else if (a < b) {
    std::rotate(order.begin() + a, order.begin() + a + 1, order.begin() + b + 1);
  } else {
    std::rotate(order.begin() + b, order.begin() + a, order.begin() + a + 1);
  }
}

void BoxSearch::search(const Budget& budget) {
  if (all_.empty()) return;
  for (int round = 0; work_ < budget.steps && !budget.stopped(); ++round) {
    const int rule = round % 3;
    std::vector<int> order = all_;
    if (round >= 3) {
      for (int i = 0; i < 12; ++i) shuffle(order);
    }
    double value = lay(order, rule);
    int since = 0;
    while (work_ < budget.steps && since < 400 && !budget.stopped()) {
      std::vector<int> next = order;
      shuffle(next);
      if (random_.uniform() < 0.4) shuffle(next);
      if (next == order) {
        ++since;
        continue;
      }
      const double v = lay(next, rule);
      since = v > value ? 0 : since + 1;
      if (v >= value || random_.uniform() < 0.002) {
        value = v;
        order.swap(next);
      }
    }
  }
}

}  // namespace

bool all_boxes(const std::vector<Kind>& kinds) {
  return !kinds.empty() && std::all_of(kinds.begin(), kinds.end(),
                                       [](const Kind& kind) { return !ways_to_lie(kind).empty(); });
}

std::vector<Pose> most_boxes(const std::vector<Kind>& kinds, const Scene& scene,
                             const Budget& budget) {
  BoxSearch search{kinds, scene, budget.seed + 1};
  search.search(budget);
  return search.best();
}

}  // namespace placer::packing
