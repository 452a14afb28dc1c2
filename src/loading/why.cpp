// Why a piece stands where it stands, or does not, and how many more would fit.
#include <fmt/format.h>

#include <algorithm>

#include "loading/index.h"
#include "loading/setting.h"
#include "placer/loading/loading.h"

namespace placer::loading {

std::vector<std::string> why(const Batch& batch, const LoadPlan& plan, int piece) {
  std::vector<std::string> sentences;
  for (const LeftOut& left : plan.left_out) {
    if (left.piece != piece) continue;
    sentences.push_back(fmt::format("{} of {} left out of the {} firing: {}", left.count,
                                    at(batch.pieces, piece).count, at(batch.loads, left.load).name,
                                    left.reason));
  }
  for (const KilnLoad& load : plan.firings) {
    for (const Level& level : load.levels) {
      int here = 0;
      for (const PlacedPiece& placed : level.pieces) {
        const std::vector<int> kinds = kinds_of(placed);
        here += static_cast<int>(std::count(kinds.begin(), kinds.end(), piece));
      }
      if (here == 0) continue;
      sentences.push_back(
          fmt::format("{} in {} load {}, {}, shelf {}: {:.0f} mm clear, {:.0f} mm of air over the "
                      "tallest there.",
                      here, at(batch.loads, load.load).name, load.round,
                      at(batch.kiln.columns, level.column).name, level.level,
                      level.clear_height.mm(), level.air.mm()));
    }
  }
  return sentences;
}

std::vector<int> room_left(const Batch& batch, const LoadPlan& plan) {
  std::vector<int> more(batch.pieces.size());
  for (const KilnLoad& load : plan.firings) {
    const Job job = job_of(batch, load.load, Effort::quick, 1);
    for (const Level& level : load.levels) {
      const auto& sites = at(job.columns, level.column);
      const auto site = std::find_if(sites.begin(), sites.end(),
                                     [&](const Site& s) { return s.shelf == level.shelf; });
      if (site == sites.end()) continue;
      Room room =
          room_on(job, *site, level.shelf_top, level.shelf_top + level.clear_height, level.posts);
      for (const PlacedPiece& placed : level.pieces) {
        room.ground.keep_outs.push_back(ground(batch, load, placed));
      }
      for (int s = 0; s < count_of(job.sorts); ++s) {
        std::vector<int> left(job.sorts.size());
        at(left, s) = 1000;
        if (at(job.sorts, s).kinds.size() != 1 || !fits(at(job.sorts, s), room)) continue;
        for (const Standing& one : fill(job.sorts, left, room).set) {
          at(more, at(job.sorts, s).piece()) += one.stack;
        }
      }
    }
  }
  return more;
}

}  // namespace placer::loading
