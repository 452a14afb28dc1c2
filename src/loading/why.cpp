// Why a piece stands where it stands, or does not, and how many more would fit.
#include <fmt/format.h>

#include <algorithm>

#include "loading/cone_room.h"
#include "loading/even.h"
#include "loading/fill.h"
#include "loading/index.h"
#include "loading/let_in.h"
#include "placer/loading/loading.h"
#include "placer/model/tower.h"

namespace placer::loading {
namespace {

constexpr int kMany = 500;

/// How many more of each sort the level holds beside what stands there.
std::vector<int> room_on_level(const Job& job, const KilnLoad& load, const Level& level) {
  std::vector<int> more(job.sorts.size());
  const Site* site = site_of(job, level);
  if (site == nullptr) return more;
  Room room =
      room_on(job, *site, level.shelf_top, level.shelf_top + level.clear_height, level.posts);
  room.level = level.level;
  room.round = load.round;
  room.most_kg = mass_left_on(job.batch->kiln, load, level);
  for (const PlacedPiece& placed : level.pieces) {
    room.ground.keep_outs.push_back(ground(*job.batch, load, placed));
  }
  keep_clear_of_cones(job, load, level, room);
  Supply supply;
  supply.price.assign(job.sorts.size(), 1);
  supply.pinned.assign(job.sorts.size(), 0);
  for (int s = 0; s < count_of(job.sorts); ++s) {
    if (at(job.sorts, s).kinds.size() != 1 || !fits(job, at(job.sorts, s), room)) continue;
    supply.left.assign(job.sorts.size(), 0);
    at(supply.left, s) = kMany;
    for (const Standing& one : fill(job, supply, room, {}).set) at(more, s) += one.stack;
  }
  return more;
}

}  // namespace

std::vector<std::string> why(const Batch& batch, const LoadPlan& plan, int piece) {
  std::vector<std::string> sentences;
  for (const LeftOut& left : plan.left_out) {
    if (left.piece != piece) continue;
    sentences.push_back(fmt::format("{} of {} left out of the {} firing: {}", left.count,
                                    at(batch.pieces, piece).count, at(batch.loads, left.load).name,
                                    left.reason));
    for (std::string& change : what_lets_in(batch, plan, left)) {
      sentences.push_back("What would help: " + change);
    }
  }
  for (const Ungranted& wish : plan.ungranted) {
    if (wish.piece == piece) sentences.push_back(wish.reason);
  }
  for (const KilnLoad& load : plan.firings) {
    for (const Level& level : load.levels) {
      int here = 0;
      for (const PlacedPiece& placed : level.pieces) {
        const std::vector<int> kinds = kinds_of(placed);
        here += static_cast<int>(std::count(kinds.begin(), kinds.end(), piece));
      }
      if (here == 0) continue;
      sentences.push_back(fmt::format(
          "{} in {} load {}, {}, shelf {}: {:.0f} mm clear, {:.0f} mm of air over the "
          "tallest there.",
          here, at(batch.loads, load.load).name, load.round, place_name(batch.kiln, level),
          level.level, level.clear_height.mm(), level.air.mm()));
    }
  }
  return sentences;
}

std::vector<int> room_left(const Batch& batch, const LoadPlan& plan) {
  std::vector<int> more(batch.pieces.size());
  std::vector<Job> jobs;
  for (int load = 0; load < count_of(batch.loads); ++load) jobs.push_back(job_of(batch, load));
  for (const KilnLoad& load : plan.firings) {
    const Job& job = at(jobs, load.load);
    for (const Level& level : load.levels) {
      const std::vector<int> here = room_on_level(job, load, level);
      for (int s = 0; s < count_of(here); ++s) at(more, at(job.sorts, s).piece()) += at(here, s);
    }
  }
  return more;
}

}  // namespace placer::loading
