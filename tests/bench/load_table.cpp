// Firings of this project's plans beside those of a plain method, on invented studios.
//
// The plain method is what careful hand loading does: pieces sorted by height, each set in
// hexagonal rows of its enclosing circle on the first level that takes it, a new level when none
// does, a new firing when the kiln is full.
//
// Then the times of three sizes of batch, and how the time grows from 500 pieces to 5,000. Times
// are user seconds of all threads of this process, planning alone; instructions are counted where
// the system allows it.
//
// load_table [FIRST_SEED [HOW_MANY [PIECES [KINDS]]]]
#include <fmt/format.h>
#include <linux/perf_event.h>
#include <sys/ioctl.h>
#include <sys/resource.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <algorithm>
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

/// User instructions of this process and of the threads that it starts; 0 where they are not
/// counted.
class Instructions {
 public:
  Instructions() {
    perf_event_attr asked{};
    asked.type = PERF_TYPE_HARDWARE;
    asked.size = sizeof asked;
    asked.config = PERF_COUNT_HW_INSTRUCTIONS;
    asked.exclude_kernel = 1;
    asked.exclude_hv = 1;
    asked.inherit = 1;
    file_ = static_cast<int>(syscall(SYS_perf_event_open, &asked, 0, -1, -1, 0));
  }
  Instructions(const Instructions&) = delete;
  Instructions& operator=(const Instructions&) = delete;
  ~Instructions() {
    if (file_ >= 0) close(file_);
  }
  double count() const {
    std::uint64_t count = 0;
    if (file_ < 0 || read(file_, &count, sizeof count) != sizeof count) return 0;
    return static_cast<double>(count);
  }

 private:
  int file_ = -1;
};

double user_seconds() {
  rusage used{};
  getrusage(RUSAGE_SELF, &used);
  return static_cast<double>(used.ru_utime.tv_sec) +
         1e-6 * static_cast<double>(used.ru_utime.tv_usec);
}

/// A plan with what it cost.
struct Measured {
  LoadPlan plan;
  double seconds = 0;
  double instructions = 0;
};

Measured measured(const Batch& batch) {
  const Instructions counter;
  const double before = user_seconds();
  Measured measured;
  measured.plan = loading::plan(batch);
  measured.seconds = user_seconds() - before;
  measured.instructions = counter.count() * 1e-9;
  return measured;
}

int left_out(const LoadPlan& plan) {
  int left = 0;
  for (const LeftOut& out : plan.left_out) left += out.count;
  return left;
}

int shelves_of(const LoadPlan& plan) {
  int shelves = 0;
  for (const KilnLoad& load : plan.firings) shelves += count_of(load.levels);
  return shelves;
}

void print_heading() {
  fmt::print("{:>4} {:<20} {:>6} {:>5} | {:>5} {:>4} {:>5} | {:>7} {:>6} {:>8} {:>8}\n", "seed",
             "kiln", "pieces", "kinds", "plain", "ours", "bound", "shelves", "left", "user s",
             "10^9 ins");
}

/// One line for a batch; how its firings compare.
struct Line {
  int plain = 0, ours = 0, bound = 0;
  bool bad = false;
};

Line print_studio(std::uint64_t seed, const Batch& batch) {
  const Measured one = measured(batch);
  Line line{plain_firings(batch), count_of(one.plan.firings), one.plan.fewest_firings_possible,
            !check::check_plan(batch, one.plan).empty()};
  fmt::print("{:>4} {:<20} {:>6} {:>5} | {:>5} {:>4} {:>5} | {:>7} {:>6} {:>8.2f} {:>8.2f}\n", seed,
             batch.kiln.name, studios::pieces_of(batch), batch.pieces.size(), line.plain, line.ours,
             line.bound, shelves_of(one.plan), left_out(one.plan), one.seconds, one.instructions);
  return line;
}

/// A batch of just so many pieces: kinds that are too many are made fewer.
Batch sized_studio(std::uint64_t seed, int kinds, int pieces) {
  Batch batch = studios::studio(seed, kinds, pieces);
  for (int i = 0; studios::pieces_of(batch) != pieces; i = (i + 1) % kinds) {
    int& count = at(batch.pieces, i).count;
    count = std::max(1, count + (studios::pieces_of(batch) < pieces ? 1 : -1));
  }
  return batch;
}

void print_speeds() {
  struct Size {
    std::uint64_t seed;
    int kinds, pieces;
    double asked;
  };
  double before = 0;
  int pieces = 0;
  for (const Size& size : {Size{2, 5, 60, 0.3}, Size{10, 12, 500, 2}, Size{10, 40, 5000, 20}}) {
    const Batch batch = sized_studio(size.seed, size.kinds, size.pieces);
    const Measured one = measured(batch);
    rusage used{};
    getrusage(RUSAGE_SELF, &used);
    fmt::print(
        "{:>5} pieces of {:>2} kinds: {} firing{} (bound {}), {:.2f} user s (asked: {}), "
        "{:.2f} 10^9 instructions, {} MB so far\n",
        size.pieces, size.kinds, one.plan.firings.size(), one.plan.firings.size() == 1 ? "" : "s",
        one.plan.fewest_firings_possible, one.seconds, size.asked, one.instructions,
        used.ru_maxrss / 1024);
    if (size.pieces == 5000) {
      fmt::print("time grows with the pieces to the power {:.2f} from {} to {}\n",
                 std::log(one.seconds / before) / std::log(size.pieces / double(pieces)), pieces,
                 size.pieces);
    }
    before = one.seconds;
    pieces = size.pieces;
  }
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
  print_heading();
  for (int i = 0; i < many; ++i) {
    const auto seed = static_cast<std::uint64_t>(first + i);
    const int pieces = number(3, 60 + static_cast<int>(seed * 37 % 400));
    const Line line = print_studio(
        seed, studios::studio(seed, number(4, 4 + static_cast<int>(seed % 6)), pieces));
    fewer += line.ours < line.plain ? 1 : 0;
    more += line.ours > line.plain ? 1 : 0;
    proven += line.ours == line.bound ? 1 : 0;
    bad += line.bad ? 1 : 0;
  }
  fmt::print(
      "fewer firings than the plain method: {} of {}; more: {}; equal to the bound: {}; "
      "plans with a broken rule: {}\n",
      fewer, many, more, proven, bad);
  if (argc < 3) print_speeds();
  return bad + more > 0 ? 1 : 0;
}
