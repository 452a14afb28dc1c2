// Firings of this project's plans beside those of a plain method, on invented studios.
//
// The plain method is what careful hand loading does: pieces sorted by height, each set in
// hexagonal rows of its enclosing circle on the first level that takes it, a new level when none
// does, a new firing when the kiln is full.
//
// load_table [FIRST_SEED [HOW_MANY [PIECES [KINDS]]]]
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <numeric>
#include <optional>

#include "loading/index.h"
#include "loading/job.h"
#include "loading/studios.h"
#include "placer/check/check.h"
#include "placer/loading/loading.h"

namespace {

using namespace placer;
using loading::at;
using loading::count_of;

struct OpenLevel {
  loading::Room room;
  std::vector<Footprint> set;
};

bool free_for(const OpenLevel& level, const Footprint& piece) {
  if (inset(piece, level.room.ground) < 0) return false;
  if (keep_out_gap(piece, level.room.ground) < level.room.gap) return false;
  return std::all_of(level.set.begin(), level.set.end(),
                     [&](const Footprint& other) { return gap(piece, other) >= level.room.gap; });
}

/// Sets up to `left` in hexagonal rows; gives back how many are still to be set.
int set_in_rows(OpenLevel& level, const Footprint& shape, int left) {
  const double pitch = 2 * reach(shape) + level.room.gap;
  const Box box = bounding_box(level.room.ground);
  int row = 0;
  for (double y = box.low.y + pitch / 2 - level.room.gap / 2; y <= box.high.y && left > 0;
       y += pitch * 0.8660254037844387, ++row) {
    const double shift = row % 2 == 0 ? 0 : pitch / 2;
    double x = box.low.x + pitch / 2 - level.room.gap / 2 + shift;
    while (x <= box.high.x && left > 0) {
      const Footprint there = placed(shape, {{x, y}, 0});
      if (free_for(level, there)) {
        level.set.push_back(there);
        --left;
        x += pitch;
      } else {
        x += 5;  // the rim, a post or another piece: a little further on
      }
    }
  }
  return left;
}

/// One piece where no row takes it: anywhere it can stand.
int set_one(OpenLevel& level, const Footprint& shape, int left) {
  const Box box = bounding_box(level.room.ground);
  for (double y = box.low.y; y <= box.high.y; y += 4) {
    for (double x = box.low.x; x <= box.high.x; x += 4) {
      for (const double turn : {0.0, 90.0, 180.0, 270.0}) {
        const Footprint there = placed(shape, {{x, y}, turn});
        if (!free_for(level, there)) continue;
        level.set.push_back(there);
        return left - 1;
      }
    }
  }
  return left;
}

/// A kiln being filled by hand.
class PlainKiln {
 public:
  explicit PlainKiln(const loading::Job& job) : job_{&job}, shed_{job.batch->kiln} {
    tops_.resize(job.columns.size());
    closed_.resize(job.columns.size());
  }
  /// A level for pieces of this height; nullptr when the kiln takes none.
  OpenLevel* open(Length height) {
    for (int c = 0; c < count_of(job_->columns); ++c) {
      if (OpenLevel* level = open_in(c, height)) return level;
    }
    return nullptr;
  }
  std::vector<OpenLevel> levels;

 private:
  /// The level that is open up to the lid now gets posts for what stands on it: the shortest that
  /// are long enough and still there.
  OpenLevel* open_in(int c, Length height) {
    const Kiln& kiln = job_->batch->kiln;
    const loading::Site& site = at(job_->columns, c).front();
    if (!site.trouble.empty() || shed_.shelves(site.shelf) == 0) return nullptr;
    const Length thick = at(kiln.shelves, site.shelf).thickness;
    const Length needed = at(tops_, c) == Length{} ? kiln.first_shelf : at(closed_, c);
    std::optional<std::vector<loading::Parts>> parts;
    Length top;
    for (const loading::PostHeight& posts : job_->heights) {
      if (parts || posts.height < needed) continue;
      top = at(tops_, c) + posts.height + thick;
      if (top + height > loading::lid(kiln)) return nullptr;
      parts = shed_.take(posts, count_of(site.posts));
    }
    if (!parts) return nullptr;
    shed_.take_shelf(site.shelf);
    at(tops_, c) = top;
    at(closed_, c) = height + job_->clearances.air;
    OpenLevel level;
    std::vector<PlacedPost> standing;  // every level is set as if posts will stand on it
    for (std::size_t i = 0; i < site.posts.size(); ++i)
      standing.push_back({site.posts[i], 0, (*parts)[i]});
    const Length high = std::min(top + height + job_->clearances.air, loading::lid(kiln));
    level.room = loading::room_on(*job_, site, top, high, standing);
    levels.push_back(std::move(level));
    return &levels.back();
  }

  const loading::Job* job_;
  loading::Shed shed_;
  std::vector<Length> tops_;
  std::vector<Length> closed_;  ///< clear height that the topmost level needs
};

int plain_firings(const Batch& batch) {
  const loading::Job job = loading::job_of(batch, 0);
  std::vector<int> order(job.sorts.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
    return at(job.sorts, a).height() > at(job.sorts, b).height();
  });
  std::vector<PlainKiln> kilns;
  for (const int s : order) {
    const loading::Sort& sort = at(job.sorts, s);
    int left = sort.count;
    for (PlainKiln& kiln : kilns) {
      for (OpenLevel& level : kiln.levels) {
        if (left > 0 && sort.height() <= level.room.clear) {
          left = set_in_rows(level, sort.stacks.front().footprint, left);
        }
      }
    }
    while (left > 0) {
      OpenLevel* level = nullptr;
      for (PlainKiln& kiln : kilns) {
        if (level == nullptr) level = kiln.open(sort.height());
      }
      if (level == nullptr) {
        kilns.emplace_back(job);
        level = kilns.back().open(sort.height());
      }
      if (level == nullptr) break;
      const int before = left;
      left = set_in_rows(*level, sort.stacks.front().footprint, left);
      if (left == before) left = set_one(*level, sort.stacks.front().footprint, left);
      if (left == before) break;  // it fits on no shelf
    }
  }
  return count_of(kilns);
}

}  // namespace

int main(int argc, char** argv) {
  const auto number = [&](int i, int usual) { return argc > i ? std::atoi(argv[i]) : usual; };
  const int first = number(1, 1);
  const int many = number(2, 12);
  int fewer = 0;
  int more = 0;
  int proven = 0;
  int bad = 0;
  fmt::print("{:>4} {:<20} {:>6} {:>5} | {:>5} {:>4} {:>5} | {:>7} {:>6} {:>8}\n", "seed", "kiln",
             "pieces", "kinds", "plain", "ours", "bound", "shelves", "left", "seconds");
  for (int i = 0; i < many; ++i) {
    const auto seed = static_cast<std::uint64_t>(first + i);
    const int pieces = number(3, 60 + static_cast<int>(seed * 37 % 400));
    const Batch batch = studios::studio(seed, number(4, 4 + static_cast<int>(seed % 6)), pieces);
    const auto start = std::chrono::steady_clock::now();
    const LoadPlan plan = loading::plan(batch);
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
    const int plain = plain_firings(batch);
    const int ours = count_of(plan.firings);
    std::size_t shelves = 0;
    for (const KilnLoad& load : plan.firings) shelves += load.levels.size();
    int left = 0;
    for (const LeftOut& out : plan.left_out) left += out.count;
    fewer += ours < plain ? 1 : 0;
    more += ours > plain ? 1 : 0;
    proven += ours == plan.fewest_firings_possible ? 1 : 0;
    bad += check::check_plan(batch, plan).empty() ? 0 : 1;
    fmt::print("{:>4} {:<20} {:>6} {:>5} | {:>5} {:>4} {:>5} | {:>7} {:>6} {:>8.2f}\n", seed,
               batch.kiln.name, studios::pieces_of(batch), batch.pieces.size(), plain, ours,
               plan.fewest_firings_possible, shelves, left, took.count());
  }
  fmt::print(
      "fewer firings than the plain method: {} of {}; more: {}; equal to the bound: {}; "
      "plans with a broken rule: {}\n",
      fewer, many, more, proven, bad);
  return bad + more > 0 ? 1 : 0;
}
