#include "report/standing.h"

#include <algorithm>
#include <cmath>

#include "placer/model/tower.h"

namespace placer::report {
namespace {

FiringKind kind_of(const Batch& batch, const KilnLoad& load) {
  return batch.loads.at(static_cast<std::size_t>(load.load)).kind;
}

const PieceKind& kind_at(const Batch& batch, int index) {
  return batch.pieces.at(static_cast<std::size_t>(index));
}

}  // namespace

int like_ones(const PlacedPiece& piece) {
  if (piece.stack.empty()) return std::max(piece.stacked, 1);
  return static_cast<int>(std::count(piece.stack.begin(), piece.stack.end(), piece.piece));
}

bool needs_cookie(const Batch& batch, const KilnLoad& load, const PlacedPiece& piece) {
  if (kind_of(batch, load) != FiringKind::glaze) return false;
  const std::vector<int> kinds = kinds_of(piece);
  return std::any_of(kinds.begin(), kinds.end(), [&](int kind) {
    const auto& glaze = kind_at(batch, kind).glaze;
    return glaze && batch.glazes.at(static_cast<std::size_t>(*glaze)).runny;
  });
}

std::vector<Length> joints(const Batch& batch, const KilnLoad& load, const PlacedPiece& piece) {
  const std::vector<int> kinds = kinds_of(piece);
  std::vector<Length> heights;
  if (on_edge(batch, piece)) return heights;
  for (std::size_t count = 1; count < kinds.size(); ++count) {
    heights.push_back(standing(batch, std::span{kinds}.first(count), kind_of(batch, load)).height);
  }
  return heights;
}

bool on_edge(const Batch& batch, const PlacedPiece& piece) {
  return like_ones(piece) > 1 && kind_at(batch, piece.piece).stacking.how == Stacking::How::on_edge;
}

std::vector<const Level*> levels_of(const Batch& batch, const KilnLoad& load, int column) {
  std::vector<const Level*> levels;
  for (const int i : tower(batch.kiln, load, column))
    levels.push_back(&load.levels[static_cast<std::size_t>(i)]);
  return levels;
}

std::vector<PlacedPost> feet_under(const Batch& batch, const KilnLoad& load, const Level& lowest) {
  const Outline edge = edge_polygon(ground(batch, lowest));
  const Length thick = batch.kiln.shelves.at(static_cast<std::size_t>(lowest.shelf)).thickness;
  // Under a bridge there may also be the feet of the columns' own shelves.
  const auto reaches_it = [&](const PlacedPost& post) {
    return lowest.bridge < 0 ||
           std::abs((height_of(batch, post) + thick - lowest.shelf_top).mm()) < 1e-6;
  };
  std::vector<PlacedPost> feet;
  std::copy_if(
      load.floor_posts.begin(), load.floor_posts.end(), std::back_inserter(feet),
      [&](const PlacedPost& post) { return inset(post.at, edge) >= 0 && reaches_it(post); });
  return feet;
}

Length tallest_on(const Level& level) {
  Length tallest;
  for (const PlacedPiece& piece : level.pieces) tallest = std::max(tallest, piece.height);
  return tallest;
}

bool only_lifts(const Kiln& kiln, const KilnLoad& load, const Level& level) {
  if (!level.pieces.empty() || !level.cones.empty() || level.bridge >= 0) return false;
  const std::vector<int> levels = tower(kiln, load, level.column);
  return std::any_of(levels.begin(), levels.end(), [&](int i) {
    const Level& over = load.levels.at(static_cast<std::size_t>(i));
    return over.bridge >= 0 && over.level > level.level;
  });
}

}  // namespace placer::report
