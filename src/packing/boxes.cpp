#include "packing/boxes.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "packing/ground.h"
#include "placer/base/random.h"

namespace placer::packing {

namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

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

/// One piece to be set: which, which way it lies (-1 = as it fits best) and by what rule.
/// Rules: 0 least left over on the tighter side, 1 nearest the front then the left, 2 nearest the
/// left then the front, 3 and 4 the same from the back and the right.
struct Step {
  int kind = 0;
  int way = -1;
  int rule = 0;
};

/// One order of the pieces, set one by one, each where it fits best.
class BoxSearch {
 public:
  BoxSearch(const std::vector<Kind>& kinds, const Scene& scene, std::uint64_t seed);
  void search(const Budget& budget);
  const std::vector<Pose>& best() const { return best_; }
  std::uint64_t work() const { return work_; }

 private:
  double lay(const std::vector<Step>& order, std::size_t from);
  void keep_marks();
  bool all_set() const { return best_.size() == all_.size(); }
  bool best_spot(const Step& step, Rect& spot, double& turn);
  std::size_t shuffle(std::vector<Step>& order);  ///< @return the first step changed
  void anneal(std::vector<Step> order, std::uint64_t end, const Budget& budget);

  const std::vector<Kind>* kinds_;
  std::vector<std::vector<Lying>> ways_;
  double gap_;
  Random random_;
  FreeGround empty_, free_;
  std::vector<int> all_;
  /// How things stood before step i * kMarkEvery of an order.
  struct Mark {
    FreeGround free;
    std::vector<char> hopeless;
    std::size_t laid = 0;
    double value = 0;
    bool known = false;
  };
  static constexpr std::size_t kMarkEvery = 4;
  std::vector<Mark> marks_, next_marks_;  // of the order in hand, of the one being tried
  std::vector<char> hopeless_;
  std::vector<Pose> now_laid_;
  std::vector<Pose> laid_, best_;
  double best_value_ = 0;
  double least_value_ = 0;
  std::size_t changed_from_ = 1;
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
  marks_.resize(all_.size() / kMarkEvery + 1);
  next_marks_.resize(marks_.size());
  marks_[0].free.copy(empty_);
  marks_[0].hopeless.assign(kinds.size(), 0);
  marks_[0].known = true;
}

bool BoxSearch::best_spot(const Step& step, Rect& spot, double& turn) {
  constexpr double inf = std::numeric_limits<double>::infinity();
  double least = inf;
  double second = inf;
  const std::vector<Lying>& ways = ways_[at(step.kind)];
  for (std::size_t k = 0; k < ways.size(); ++k) {
    if (step.way >= 0 && k != at(step.way) % ways.size()) continue;
    const double w = ways[k].width + gap_;
    const double d = ways[k].depth + gap_;
    for (const Rect& r : free_.rects()) {
      const double over_w = r.width() - w;
      const double over_d = r.depth() - d;
      if (over_w < -kEven || over_d < -kEven) continue;
      double first = std::min(over_w, over_d);
      double next = std::max(over_w, over_d);
      switch (step.rule) {
        case 1:
          first = r.y0 + d, next = r.x0;
          break;
        case 2:
          first = r.x0 + w, next = r.y0;
          break;
        case 3:
          first = d - r.y1, next = -r.x1;
          break;
        case 4:
          first = w - r.x1, next = -r.y1;
          break;
        default:
          break;
      }
      if (first > least + kEven || (first > least - kEven && next >= second)) continue;
      least = first;
      second = next;
      spot = step.rule >= 3 ? Rect{r.x1 - w, r.y1 - d, r.x1, r.y1}
                            : Rect{r.x0, r.y0, r.x0 + w, r.y0 + d};
      turn = ways[k].turn;
    }
  }
  work_ += 2 * free_.rects().size() * ways.size();
  return least < inf;
}

/// Sets the pieces of `order`, which is the order in hand up to step `from`.
double BoxSearch::lay(const std::vector<Step>& order, std::size_t from) {
  std::size_t first = std::min(from / kMarkEvery, marks_.size() - 1);
  while (first > 0 && !marks_[first].known) --first;
  free_.copy(marks_[first].free);
  hopeless_ = marks_[first].hopeless;
  double value = marks_[first].value;
  laid_.assign(now_laid_.begin(),
               now_laid_.begin() + static_cast<std::ptrdiff_t>(marks_[first].laid));
  for (std::size_t i = first + 1; i < next_marks_.size(); ++i) next_marks_[i].known = false;
  changed_from_ = first + 1;
  for (std::size_t i = first * kMarkEvery; i < order.size(); ++i) {
    if (i % kMarkEvery == 0 && i / kMarkEvery > first) {
      Mark& mark = next_marks_[i / kMarkEvery];
      mark.free.copy(free_);
      mark.hopeless = hopeless_;
      mark.laid = laid_.size();
      mark.value = value;
      mark.known = true;
    }
    Step step = order[i];
    if (hopeless_[at(step.kind)] != 0) continue;
    Rect spot{};
    double turn = 0;
    if (!best_spot(step, spot, turn)) {
      step.way = -1;
      if (!best_spot(step, spot, turn)) {
        hopeless_[at(step.kind)] = 1;  // room only ever shrinks
        if (std::all_of(hopeless_.begin(), hopeless_.end(), [](char h) { return h != 0; })) break;
        continue;
      }
    }
    free_.take(spot);
    work_ += 40 + 7 * free_.rects().size();
    laid_.push_back(
        {step.kind, (spot.x0 + spot.x1 - gap_) / 2, (spot.y0 + spot.y1 - gap_) / 2, turn});
    value += (*kinds_)[at(step.kind)].value;
  }
  if (value > best_value_) {
    best_value_ = value;
    best_ = laid_;
  }
  return value;
}

/// What was just laid becomes the order in hand.
void BoxSearch::keep_marks() {
  for (std::size_t i = changed_from_; i < marks_.size(); ++i) std::swap(marks_[i], next_marks_[i]);
  now_laid_ = laid_;
}

std::size_t BoxSearch::shuffle(std::vector<Step>& order) {
  const std::uint64_t n = order.size();
  const std::uint64_t busy = std::min<std::uint64_t>(n, now_laid_.size() + 4);
  const std::size_t a = random_.below(busy);
  const std::size_t b = random_.below(n);
  const double dice = random_.uniform();
  if (dice < 0.25) {
    order[a].way = static_cast<int>(random_.below(3)) - 1;
    return a;
  }
  if (dice < 0.5) {
    order[a].rule = static_cast<int>(random_.below(5));
    return a;
  }
  const auto low = static_cast<std::ptrdiff_t>(std::min(a, b));
  const auto high = static_cast<std::ptrdiff_t>(std::max(a, b));
  if (dice < 0.75) {
    std::swap(order[a], order[b]);
  } else if (a < b) {
    std::rotate(order.begin() + low, order.begin() + low + 1, order.begin() + high + 1);
  } else {
    std::rotate(order.begin() + low, order.begin() + high, order.begin() + high + 1);
  }
  return static_cast<std::size_t>(low);
}

void BoxSearch::anneal(std::vector<Step> order, std::uint64_t end, const Budget& budget) {
  const std::uint64_t begin = work_;
  for (std::size_t i = 1; i < marks_.size(); ++i) marks_[i].known = false;
  now_laid_.clear();
  double value = lay(order, 0);
  keep_marks();
  std::vector<Step> next;
  while (work_ < end && !all_set() && !budget.stopped()) {
    const double done = static_cast<double>(work_ - begin) / static_cast<double>(end - begin);
    const double worse = 0.3 * least_value_ * (1 - done);
    next = order;
    std::size_t from = shuffle(next);
    if (random_.uniform() < 0.3) from = std::min(from, shuffle(next));
    work_ += 100;
    const double v = lay(next, from);
    if (v < value - worse * random_.uniform()) continue;
    value = v;
    order.swap(next);
    keep_marks();
  }
}

void BoxSearch::search(const Budget& budget) {
  if (all_.empty()) return;
  least_value_ = std::numeric_limits<double>::infinity();
  for (const Kind& kind : *kinds_) least_value_ = std::min(least_value_, kind.value);
  for (int rule = 1; rule <= 2 && !all_set(); ++rule) {
    std::vector<Step> order;
    for (const int k : all_) order.push_back({k, -1, rule});
    const std::uint64_t left = budget.steps - std::min(budget.steps, work_);
    if (left > 0) anneal(order, work_ + left / static_cast<std::uint64_t>(3 - rule), budget);
  }
}

}  // namespace

bool all_boxes(const std::vector<Kind>& kinds) {
  return !kinds.empty() && std::all_of(kinds.begin(), kinds.end(),
                                       [](const Kind& kind) { return !ways_to_lie(kind).empty(); });
}

std::vector<Pose> most_boxes(const std::vector<Kind>& kinds, const Scene& scene,
                             const Budget& budget, std::uint64_t& spent) {
  BoxSearch search{kinds, scene, budget.seed + 1};
  search.search(budget);
  spent += search.work();
  return search.best();
}

}  // namespace placer::packing
