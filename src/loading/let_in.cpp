#include "loading/let_in.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "loading/cone_room.h"
#include "loading/even.h"
#include "loading/fill.h"
#include "loading/index.h"
#include "loading/purchase.h"
#include "loading/reasons.h"
#include "loading/search.h"
#include "placer/model/tower.h"

namespace placer::loading {
namespace {

constexpr int kMostPieces = 250;  // larger batches are not planned again for every change
constexpr double kMostLess = 60;  // mm: more than this is another piece

std::string mm(double v) { return fmt::format("{:.0f} mm", std::ceil(v - 1e-9)); }

/// The parts beyond the body drawn in by `less` mm, never into the body.
Footprint with_less_handle(const Footprint& shape, double less) {
  Footprint trimmed = shape;
  if (shape.discs.empty()) return trimmed;
  const double body = shape.discs.front().radius;
  for (Outline& outline : trimmed.outlines) {
    Point out;
    for (const Point p : outline.corners) out = out + p;
    const double length = std::hypot(out.x, out.y);
    if (length < 1e-9) continue;
    const Point along{out.x / length, out.y / length};
    for (Point& p : outline.corners) {
      const double reach = p.x * along.x + p.y * along.y;
      if (reach > body) p = p - std::min(less, reach - body) * along;
    }
  }
  return trimmed;
}

/// The least whole number of mm, up to kMostLess, with which `does` holds; it holds from there on.
template <class Does>
std::optional<double> least(Does does) {
  if (!does(kMostLess)) return std::nullopt;
  double low = 0;
  double high = kMostLess;
  while (high - low > 1) {
    const double middle = std::floor((low + high) / 2);
    (does(middle) ? high : low) = middle;
  }
  return high;
}

class LettingIn {
 public:
  LettingIn(const Batch& batch, const LoadPlan& plan, const LeftOut& left)
      : batch_{&batch}, plan_{&plan}, left_{left}, job_{job_of(batch, left.load)} {
    for (int s = 0; s < count_of(job_.sorts); ++s) {
      const std::vector<int>& kinds = at(job_.sorts, s).kinds;
      if (std::count(kinds.begin(), kinds.end(), left.piece) > 0 && sort_ < 0) sort_ = s;
    }
  }

  std::vector<std::string> run() {
    if (sort_ < 0) return {};
    beside_the_others();
    if (left_.code == "wide") narrower();
    if (left_.code == "heavy") with_higher_limit();
    for (const Purchase& purchase : purchases(batch_->kiln)) with_more(purchase);
    if (left_.code == "posts") with_a_shelf_less();
    std::stable_sort(changes_.begin(), changes_.end(),
                     [](const Change& a, const Change& b) { return a.size < b.size; });
    std::vector<std::string> sentences;
    for (const Change& change : changes_) {
      if (sentences.size() < 4) sentences.push_back(change.words);
    }
    return sentences;
  }

 private:
  struct Change {
    double size = 0;  ///< mm; what has to be bought counts as more than any of those
    std::string words;
  };

  Sort sort() const {
    Sort free = at(job_.sorts, sort_);
    free.wishes = {};
    return free;
  }

  /// What is left of a level beside the pieces that stand there.
  std::optional<Room> room_beside(const KilnLoad& load, const Level& level) const {
    const Site* site = site_of(job_, level);
    if (site == nullptr) return std::nullopt;
    Room room =
        room_on(job_, *site, level.shelf_top, level.shelf_top + level.clear_height, level.posts);
    room.most_kg = mass_left_on(batch_->kiln, load, level);
    for (const PlacedPiece& piece : level.pieces) {
      room.ground.keep_outs.push_back(ground(*batch_, load, piece));
    }
    keep_clear_of_cones(job_, load, level, room);
    return room;
  }

  std::string place_words(const KilnLoad& load, const Level& level) const {
    return fmt::format("{}, shelf {} ({} load {})", place_name(batch_->kiln, level), level.level,
                       at(batch_->loads, load.load).name, load.round);
  }

  /// On a level of the plan, nothing else moved: so much shorter, or so much less handle.
  void beside_the_others() {
    std::optional<Change> shorter;
    std::optional<Change> trimmed;
    for (const KilnLoad& load : plan_->firings) {
      if (load.load != left_.load) continue;
      for (const Level& level : load.levels) {
        const auto room = room_beside(load, level);
        if (!room) continue;
        try_shorter(load, level, *room, shorter);
        try_trimmed(load, level, *room, trimmed);
      }
    }
    if (shorter) changes_.push_back(*shorter);
    if (trimmed) changes_.push_back(*trimmed);
  }

  void try_shorter(const KilnLoad& load, const Level& level, Room room,
                   std::optional<Change>& best) const {
    const double less = (sort().height() - room.clear).mm();
    if (less <= 0 || less > kMostLess || (best && best->size <= less)) return;
    room.clear = sort().height();
    if (!fits(job_, sort(), room)) return;
    best = Change{less, fmt::format("{} shorter, and one would stand on {} beside what is there.",
                                    mm(less), place_words(load, level))};
  }

  void try_trimmed(const KilnLoad& load, const Level& level, const Room& room,
                   std::optional<Change>& best) const {
    if (sort().stacks.front().footprint.outlines.empty() || sort().height() > room.clear) return;
    const auto less = least([&](double off) { return fits(job_, trimmed_by(off), room); });
    if (!less || (best && best->size <= *less)) return;
    best = Change{*less, fmt::format("{} less handle, and one would stand on {} beside what is "
                                     "there.",
                                     mm(*less), place_words(load, level))};
  }

  Sort trimmed_by(double less) const {
    Sort trimmed = sort();
    Footprint& shape = trimmed.stacks.front().footprint;
    shape = with_less_handle(shape, less);
    return trimmed;
  }

  Sort narrower_by(double less) const {
    Sort narrow = sort();
    Footprint& shape = narrow.stacks.front().footprint;
    const Box box = bounding_box(shape);
    const double across = std::min(box.high.x - box.low.x, box.high.y - box.low.y);
    shape = scaled(shape, std::max(0.1, 1 - less / across));
    return narrow;
  }

  /// In an empty kiln.
  void narrower() {
    const auto trimmed = least([&](double less) {
      return !sort().stacks.front().footprint.outlines.empty() && !hopeless(job_, trimmed_by(less));
    });
    if (trimmed)
      changes_.push_back({*trimmed, fmt::format("{} less handle would let it in.", mm(*trimmed))});
    const auto narrow = least([&](double less) { return !hopeless(job_, narrower_by(less)); });
    if (narrow && (!trimmed || *narrow < *trimmed)) {
      changes_.push_back({*narrow, fmt::format("{} less across would let it in.", mm(*narrow))});
    }
  }

  void with_higher_limit() {
    Batch other = *batch_;
    other.kiln.most_on_shelf.reset();
    other.kiln.most_in_load.reset();
    const Job job = job_of(other, left_.load);
    if (hopeless(job, at(job.sorts, sort_))) return;
    const double kg = std::ceil(sort().stacks.front().mass.kg() * 100 - 1e-6) / 100;
    changes_.push_back({0, fmt::format("A limit of {} would let it in.", weight(kg))});
  }

  bool waits() const { return left_.code == "posts"; }

  std::vector<int> to_set() const {
    std::vector<int> set;
    for (const Sort& sort : job_.sorts) set.push_back(sort.count);
    for (const LeftOut& left : plan_->left_out) {
      if (left.load != left_.load || left.code == "posts") continue;
      for (int s = 0; s < count_of(job_.sorts); ++s) {
        if (at(job_.sorts, s).piece() == left.piece)
          at(set, s) = std::max(0, at(set, s) - left.count);
      }
    }
    return set;
  }

  /// How many of the sort a kiln like this leaves out; as many as now when that is not tried.
  int left_with(const Kiln& kiln) const {
    Batch other = *batch_;
    other.kiln = kiln;
    const Job job = job_of(other, left_.load);
    if (!waits()) return hopeless(job, at(job.sorts, sort_)) ? left_.count : 0;
    const std::vector<int> set = to_set();
    int pieces = 0;
    for (const int n : set) pieces += n;
    if (pieces > kMostPieces) return left_.count;
    Search search;
    search.effort = Effort::quick;
    search.brief = true;
    const Attempt attempt = best_attempt(job, set, {}, search);
    return at(attempt.left, sort_);
  }

  void with_more(const Purchase& purchase) {
    const int left = left_with(purchase.kiln);
    if (left >= left_.count) return;
    const std::string who = waits() ? std::to_string(left_.count - left) : "it";
    changes_.push_back({1000, fmt::format("{} would let {} in.", purchase.words, who)});
  }

  /// Fewer shelves may leave a level high enough.
  void with_a_shelf_less() {
    for (int i = 0; i < count_of(batch_->kiln.shelves); ++i) {
      Kiln kiln = batch_->kiln;
      ShelfKind& shelf = at(kiln.shelves, i);
      if (--shelf.have < 1) continue;
      const int left = left_with(kiln);
      if (left >= left_.count) continue;
      changes_.push_back({900, fmt::format("One shelf \"{}\" less in use would let {} in.",
                                           shelf.name, left_.count - left)});
    }
  }

  const Batch* batch_;
  const LoadPlan* plan_;
  LeftOut left_;
  Job job_;
  int sort_ = -1;
  std::vector<Change> changes_;
};

}  // namespace

std::vector<std::string> what_lets_in(const Batch& batch, const LoadPlan& plan,
                                      const LeftOut& left) {
  return LettingIn{batch, plan, left}.run();
}

}  // namespace placer::loading
