#include "loading/bench.h"

#include <algorithm>
#include <cmath>

#include "loading/cone_room.h"
#include "loading/index.h"

namespace placer::loading {
namespace {

constexpr double kHair = 1e-7;  // mm: less than this is rounding

bool is_round(const Footprint& shape) {
  return shape.outlines.empty() && shape.discs.size() == 1 && shape.discs[0].centre == Point{};
}

}  // namespace

int sort_of(const Job& job, const std::vector<int>& kinds) {
  for (int s = 0; s < count_of(job.sorts); ++s) {
    const std::vector<int>& own = at(job.sorts, s).kinds;
    if (own.size() > 1 ? own == kinds : std::all_of(kinds.begin(), kinds.end(), [&](int kind) {
          return kind == own.front();
        })) {
      return s;
    }
  }
  return -1;
}

std::optional<Bench> Bench::of(const Job& job, const KilnLoad& load, const Level& level) {
  const Site* site = site_of(job, level);
  if (site == nullptr) return std::nullopt;
  Bench bench{
      job, room_on(job, *site, level.shelf_top, level.shelf_top + level.clear_height, level.posts)};
  keep_clear_of_cones(job, load, level, bench.room_);
  bench.box_ = bounding_box(bench.room_.ground);
  bench.ground_ = area(bench.room_.ground);
  for (const PlacedPiece& placed_piece : level.pieces) {
    const std::vector<int> kinds = kinds_of(placed_piece);
    Thing thing;
    thing.sort = sort_of(job, kinds);
    if (thing.sort < 0) return std::nullopt;
    const Sort& sort = at(job.sorts, thing.sort);
    const int n = sort.kinds.size() > 1 ? 1 : count_of(kinds);
    if (n > count_of(sort.stacks)) return std::nullopt;
    thing.shape = at(sort.stacks, n - 1).footprint;
    thing.reach = reach(thing.shape);
    thing.round = is_round(thing.shape);
    thing.fixed = sort.wishes.pinned && sort.wishes.pinned->at == placed_piece.place.at;
    thing.place = placed_piece.place;
    thing.there = placer::ground(*job.batch, load, placed_piece);
    bench.things_.push_back(std::move(thing));
  }
  bench.none_.assign(bench.things_.size(), 0);
  return bench;
}

double Bench::gap_for(int i, int j) const {
  const bool runny = at(job_->sorts, at(things_, i).sort).runny ||
                     (j >= 0 && at(job_->sorts, at(things_, j).sort).runny);
  return runny ? std::max(room_.gap, room_.runny_gap) : room_.gap;
}

double Bench::short_by(int i, const Placement& place, const std::vector<char>& away) const {
  const Thing& thing = at(things_, i);
  const Footprint there = placed(thing.shape, place);
  const std::optional<Side>& side = at(job_->sorts, thing.sort).wishes.side;
  if (side && side_at(job_->batch->kiln, place.at) != *side) return 1;
  double most = -inset(there, room_.ground);
  if (!room_.ground.keep_outs.empty()) {
    most = std::max(most, gap_for(i, -1) - keep_out_gap(there, room_.ground));
  }
  for (int j = 0; j < size(); ++j) {
    if (j == i || at(away, j) != 0) continue;
    const Thing& other = at(things_, j);
    const double asked = gap_for(i, j);
    const Point apart = other.place.at - place.at;
    const double reach = thing.reach + other.reach + asked;
    if (apart.x * apart.x + apart.y * apart.y >= reach * reach) continue;
    most = std::max(most, asked - placer::gap(there, other.there));
  }
  return most <= kHair ? std::min(most, 0.0) : most;
}

const std::vector<double>& Bench::turns(int i) const {
  return at(job_->sorts, at(things_, i).sort).turns;
}

void Bench::put(int i, const Placement& place) {
  Thing& thing = at(things_, i);
  thing.place = place;
  thing.there = placed(thing.shape, place);
}

}  // namespace placer::loading
