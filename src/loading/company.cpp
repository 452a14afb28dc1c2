#include "loading/company.h"

#include <algorithm>

#include "loading/index.h"

namespace placer::loading {
namespace {

bool wishes_apart_from(const Batch& batch, const PieceKind& one, const PieceKind& other) {
  if (!other.glaze) return false;
  const std::string& glaze = at(batch.glazes, *other.glaze).name;
  const auto& apart = one.wishes.apart;
  return std::find(apart.begin(), apart.end(), glaze) != apart.end();
}

}  // namespace

bool apart(const Job& job, const Sort& a, const Sort& b) {
  if (job.kind != FiringKind::glaze) return false;
  const Batch& batch = *job.batch;
  for (const int one : a.kinds) {
    for (const int other : b.kinds) {
      const PieceKind& p = at(batch.pieces, one);
      const PieceKind& q = at(batch.pieces, other);
      if ((!a.wishes.apart.empty() && wishes_apart_from(batch, p, q)) ||
          (!b.wishes.apart.empty() && wishes_apart_from(batch, q, p))) {
        return true;
      }
    }
  }
  return false;
}

void add_far_half(const Batch& batch, Side side, Region& ground) {
  const Box box = bounding_box(batch.kiln.chamber);
  const double middle = (box.low.y + box.high.y) / 2;
  const double depth = box.high.y - box.low.y;
  const Point low{box.low.x - depth, side == Side::front ? middle : middle - 2 * depth};
  const Point high{box.high.x + depth, side == Side::front ? middle + 2 * depth : middle};
  ground.keep_outs.push_back({{}, {rectangle(low, high)}});
}

}  // namespace placer::loading
