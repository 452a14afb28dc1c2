#include <fmt/format.h>

#include <array>

#include "workbook/draft.h"

namespace placer::workbook {
namespace {

constexpr double kUsualFoot = 40;         ///< mm; common practice, no source
constexpr double kPostDensity = 1.9e-6;   ///< kg/mm³, cordierite; middle of 1.8 to 2.0
constexpr double kRoundPostFilled = 0.8;  ///< round posts are often hollow; common practice

constexpr std::array kMaterials = {ShelfMaterial::cordierite, ShelfMaterial::high_alumina,
                                   ShelfMaterial::silicon_carbide,
                                   ShelfMaterial::nitride_bonded_carbide};

void read_shelf(const Node& node, std::vector<Named>& names, Draft& draft) {
  Block block{node, "shelf", draft.desk};
  if (!block.readable()) return;
  const auto name = block.text("name");
  const auto floor = read_floor(block, "size");
  const auto thick = block.length("thick");
  const auto have = block.count("have");
  const auto material = block.choice("material");
  const auto snug = block.yes_no("snug");
  if (!floor || !thick || !have) return;
  ShelfKind shelf;
  shelf.name = name.value_or(floor->words);
  shelf.shape = floor->region;
  shelf.thickness = *thick;
  shelf.have = *have;
  if (material) shelf.material = kMaterials[*material];
  shelf.snug = snug.value_or(false);
  shelf.where = node.where;
  names.push_back({shelf.name, name ? block.where("name") : block.where("size")});
  draft.studio.batch.kiln.shelves.push_back(std::move(shelf));
  draft.shelf_floors.push_back(*floor);
  draft.shelf_size_where.push_back(block.where("size"));
}

void read_post(const Node& node, Draft& draft) {
  Block block{node, "post", draft.desk};
  if (!block.readable()) return;
  const auto height = block.length("height");
  const auto have = block.count("have");
  const auto foot = block.has("foot") ? read_foot(block, "foot")
                                      : std::optional{Foot{kUsualFoot, kUsualFoot, true}};
  const auto weight = block.mass("weight");
  if (!height || !have || !foot) return;
  PostKind post;
  post.height = *height;
  post.foot = as_footprint(*foot);
  post.have = *have;
  const double filled = foot->round ? kRoundPostFilled : 1;
  post.mass =
      weight.value_or(Mass::from_kg(area(post.foot) * height->mm() * kPostDensity * filled));
  post.where = block.where("height");
  draft.studio.batch.kiln.posts.push_back(std::move(post));
}

}  // namespace

void read_shelves(Block& root, Draft& draft) {
  std::vector<Named> names;
  for (const Node* node : root.blocks("shelves")) read_shelf(*node, names, draft);
  tell_repeated(names, "shelf", draft.desk);
}

void read_posts(Block& root, Draft& draft) {
  draft.posts_given = root.has("posts");
  for (const Node* node : root.blocks("posts")) read_post(*node, draft);
}

}  // namespace placer::workbook
