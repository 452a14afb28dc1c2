#include "loading/cone_room.h"

#include <algorithm>

#include "loading/index.h"
#include "placer/model/cone_place.h"

namespace placer::loading {
namespace {

/// Its ground with so much more all round that a room's gap is enough.
Footprint with_gap(const Room& room, const Placement& place) {
  const double more = std::max(0.0, kPackGap - room.gap);
  return placed(Footprint{{}, {rectangle(kPackLong + 2 * more, kPackDeep + 2 * more)}}, place);
}

}  // namespace

void keep_clear_of_cones(const Job& job, const KilnLoad& load, const Level& level, Room& room) {
  const Kiln& kiln = job.batch->kiln;
  for (const ConePack& pack : level.cones) {
    room.ground.keep_outs.push_back(with_gap(room, pack.place));
  }
  const double low = level.shelf_top.mm();
  const double high = low + level.clear_height.mm();
  for (const Level& one : load.levels) {
    for (const ConePack& pack : one.cones) {
      if (!pack.seen) continue;
      const KeepOut& hole = at(kiln.keep_outs, pack.spy_hole);
      const Band hides = hides_between(hole, kiln, one);
      if (hides.high <= low || hides.low >= high) continue;
      room.ground.keep_outs.push_back({{}, {line_of_sight(eye_of(hole, kiln), pack.place)}});
    }
  }
}

}  // namespace placer::loading
