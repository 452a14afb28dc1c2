#include "placer/model/load_plan.h"

#include "placer/model/batch.h"

namespace placer {

std::vector<int> kinds_of(const PlacedPiece& piece) {
  if (!piece.stack.empty()) return piece.stack;
  std::vector<int> alike(static_cast<std::size_t>(std::max(piece.stacked, 1)), piece.piece);
  return alike;
}

Footprint ground(const Batch& batch, const KilnLoad& load, const PlacedPiece& piece) {
  const FiringKind kind = batch.loads.at(static_cast<std::size_t>(load.load)).kind;
  return placed(standing(batch, kinds_of(piece), kind).footprint, piece.place);
}

Region ground(const Batch& batch, const Level& level) {
  const ShelfKind& shelf = batch.kiln.shelves.at(static_cast<std::size_t>(level.shelf));
  Region region = placed(shelf.shape, level.shelf_at);
  for (const PlacedPost& post : level.posts) region.keep_outs.push_back(ground(batch, post));
  return region;
}

Footprint ground(const Batch& batch, const PlacedPost& post) {
  Footprint foot;
  for (const int part : post.parts) {
    const Footprint& shape = batch.kiln.posts.at(static_cast<std::size_t>(part)).foot;
    const Footprint there = placed(shape, {post.at, post.turn_deg});
    foot.discs.insert(foot.discs.end(), there.discs.begin(), there.discs.end());
    foot.outlines.insert(foot.outlines.end(), there.outlines.begin(), there.outlines.end());
  }
  return foot;
}

Length height_of(const Batch& batch, const PlacedPost& post) {
  Length height;
  for (const int part : post.parts) {
    height += batch.kiln.posts.at(static_cast<std::size_t>(part)).height;
  }
  return height;
}

}  // namespace placer
