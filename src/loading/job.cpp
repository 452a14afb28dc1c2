#include "loading/job.h"

#include <algorithm>
#include <cmath>

#include "loading/bridges.h"
#include "loading/index.h"
#include "loading/support.h"
#include "placer/packing/packing.h"

namespace placer::loading {
namespace {

constexpr double kPi = 3.14159265358979323846;

/// What a level for pieces of this height takes of a column: posts, or the air alone when no posts
/// are so high.
double level_height(const Job& job, Length height) {
  const Length least = height + job.clearances.air;
  for (const PostHeight& posts : job.heights) {
    if (posts.height >= least) return posts.height.mm();
  }
  return least.mm();
}

double thinnest_shelf(const Kiln& kiln) {
  double thin = 40;
  for (const ShelfKind& shelf : kiln.shelves) thin = std::min(thin, shelf.thickness.mm());
  return thin;
}

/// How many stacks of the sort an ordinary shelf holds: packed on the first that takes it, posts
/// and all.
double capacity(const Job& job, const SizedPiece& size, const std::vector<double>& turns) {
  const double gap = job.clearances.gap.mm();
  for (const auto& sites : job.needs_bridge.back() != 0 ? job.bridges : job.columns) {
    for (const Site& site : sites) {
      if (!site.trouble.empty()) continue;
      packing::Problem problem;
      problem.region = site.ground;
      for (const Point post : site.posts) {
        problem.region.keep_outs.push_back(placed(widest_foot(job.batch->kiln), {post, 0}));
      }
      problem.gap = gap;
      packing::Item item;
      item.shape = size.footprint;
      item.turns_deg = turns;
      item.count = static_cast<int>(area(site.ground) / ground_used(size.footprint, gap) * 1.2) + 1;
      problem.items = {item};
      packing::Options glance;
      glance.effort = packing::Effort::glance;
      const auto places = packing::most_pieces(problem, glance).places.size();
      if (places > 0) return static_cast<double>(places);
    }
  }
  return 1;
}

/// By a level for the sort looked at last.
int columns_taken(const Job& job) {
  if (job.needs_bridge.back() == 0) return 1;
  int least = count_of(job.columns);
  for (const Bridge& bridge : job.batch->kiln.bridges)
    least = std::min(least, count_of(bridge.over));
  return least;
}

void set_worth(Job& job, const Sort& sort) {
  const double shelf = thinnest_shelf(job.batch->kiln);
  double least = 0;
  double level = 0;
  double holds = 0;
  double best_holds = 1;
  int best_stack = 1;
  const Footprint* before = nullptr;
  for (int n = 1; n <= count_of(sort.stacks); ++n) {
    const SizedPiece& size = at(sort.stacks, n - 1);
    const bool same =
        before != nullptr && before->outlines.empty() && area(*before) == area(size.footprint);
    if (!same) holds = capacity(job, size, sort.turns);
    before = &size.footprint;
    const double by_mass = most_on_shelf_kg(job.batch->kiln) / std::max(1e-9, size.mass.kg());
    holds = std::min(holds, std::max(1.0, std::floor(by_mass + kMassRounding)));
    const double height = (level_height(job, size.height) + shelf) * columns_taken(job);
    const double one = height / (holds * n);
    if (n > 1 && one >= least) continue;
    least = one;
    level = height;
    best_holds = holds;
    best_stack = n;
  }
  job.holds.push_back(best_holds);
  job.best_stack.push_back(best_stack);
  job.worth.push_back(least);
  job.level_height.push_back(level);
}

}  // namespace

Length lid(const Kiln& kiln) { return kiln.height - kiln.under_lid; }

double ground_used(const Footprint& shape, double gap) {
  const double spread = std::sqrt(area(shape) / kPi) + gap / 2;
  return kPi * spread * spread;
}

Job job_of(const Batch& batch, int load) {
  Job job;
  job.batch = &batch;
  job.load = load;
  job.kind = at(batch.loads, load).kind;
  job.clearances = clearances(batch.rules, job.kind);
  job.sorts = sorts_of(batch, load);
  job.heights = post_heights(batch.kiln);
  const double gap = job.clearances.gap.mm();
  const double far = gap + 2 * std::max(0.0, job.clearances.runny_gap.mm() - gap);
  for (int c = 0; c < count_of(batch.kiln.columns); ++c) {
    job.columns.push_back(sites_of(batch, c, gap, far));
  }
  for (int b = 0; b < count_of(batch.kiln.bridges); ++b) {
    job.bridges.push_back(sites_of_bridge(batch, b, gap, far, job.columns));
  }
  for (const Sort& sort : job.sorts) {
    job.needs_bridge.push_back(needs_bridge(job, sort) ? 1 : 0);
    set_worth(job, sort);
  }
  return job;
}

Room room_on(const Job& job, const Site& site, Length low, Length high,
             const std::vector<PlacedPost>& posts) {
  Room room;
  room.site = &site;
  room.ground = site.ground;
  for (Footprint& keep_out : keep_outs_between(job.batch->kiln, low, high)) {
    room.ground.keep_outs.push_back(std::move(keep_out));
  }
  for (const PlacedPost& post : posts) room.ground.keep_outs.push_back(ground(*job.batch, post));
  room.low = low;
  room.clear = high - low;
  if (high < lid(job.batch->kiln)) room.clear = room.clear - job.clearances.air;
  room.gap = job.clearances.gap.mm();
  room.runny_gap = job.kind == FiringKind::glaze ? job.clearances.runny_gap.mm() : room.gap;
  room.most_kg = most_on_shelf_kg(job.batch->kiln);
  return room;
}

const Site* site_of(const Job& job, const Level& level) {
  const auto& sites =
      level.bridge < 0 ? at(job.columns, level.column) : at(job.bridges, level.bridge);
  const auto site = std::find_if(sites.begin(), sites.end(),
                                 [&](const Site& s) { return s.shelf == level.shelf; });
  return site == sites.end() ? nullptr : &*site;
}

const Site* usual_site(const Job& job, int column) {
  for (const Site& site : at(job.columns, column)) {
    const bool any = at(job.batch->kiln.shelves, site.shelf).have > 0;
    if (any && site.trouble.empty() && !site.posts.empty()) return &site;
  }
  return nullptr;
}

Room room_at_any_height(const Job& job, const Site& site, bool open) {
  Room room = room_on(job, site, Length{}, lid(job.batch->kiln), {});
  room.level = 0;
  if (open) return room;
  const Footprint foot = widest_foot(job.batch->kiln);
  for (const Point post : site.posts) room.ground.keep_outs.push_back(placed(foot, {post, 0}));
  return room;
}

double worth_of(const Job& job, const std::vector<int>& pieces) {
  double worth = 0;
  for (int s = 0; s < count_of(pieces); ++s) worth += at(pieces, s) * at(job.worth, s);
  return worth;
}

bool may_stand(const Job& job, const Sort& sort, int stack, const Room& room) {
  const Length height = at(sort.stacks, stack - 1).height;
  if (height > room.clear) return false;
  if (at(sort.stacks, stack - 1).mass.kg() > room.most_kg + kMassRounding) return false;
  const Wishes& wishes = sort.wishes;
  if (wishes.level && *wishes.level != room.level) return false;
  return !wishes.zone || zone_at(job.batch->kiln, room.low + 0.5 * height) == *wishes.zone;
}

}  // namespace placer::loading
