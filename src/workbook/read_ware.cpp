#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "workbook/draft.h"

namespace placer::workbook {
namespace {

constexpr std::array kStages = {Stage::thrown, Stage::dry, Stage::bisque, Stage::fired};

/// kg/mm³ of the body as it stands at a stage; from memory: wet clay 1.9, dry and bisque 1.8,
/// stoneware 2.2 g/cm³.
double density(Stage stage) {
  switch (stage) {
    case Stage::thrown:
      return 1.9e-6;
    case Stage::dry:
    case Stage::bisque:
      return 1.8e-6;
    case Stage::fired:
      return 2.2e-6;
  }
  return 2e-6;
}

/// Height over least width up to which a piece has no wall to weigh (common practice, no source).
constexpr double kPlate = 0.2;

/// Ware that a draught cracks: low for its longest side (a platter is about 0.1 of it, an oblong
/// tray 0.15, a pasta bowl 0.3, a cereal bowl 0.45), or a bowl of 250 mm and more that is no
/// higher than half its width. Taken rather too often than too seldom: it only fires and cools
/// more slowly. Common practice, no source.
bool flat_or_wide(const Body& body, Length height) {
  constexpr double kLow = 0.3;
  constexpr double kWide = 250;  // mm
  constexpr double kWideLow = 0.5;
  const double share = body.greatest_width >= kWide ? kWideLow : kLow;
  return height.mm() <= share * body.greatest_width;
}

/// A floor and a wall of the thickness given, one twelfth more for foot, rim and handle; common
/// practice, no source. Good to a third.
Mass reckoned_mass(const Body& body, const PieceKind& piece, bool plate) {
  const double round = 2 * std::sqrt(std::numbers::pi * body.body_area);
  const double shell = body.body_area + (plate ? 0 : round * piece.height.mm());
  return Mass::from_kg(shell * piece.wall.mm() * density(piece.measured) * 13 / 12);
}

/// A weight above that of a solid block of clay as wide and tall is none: often grams read as kg.
void tell_too_heavy(Block& block, Mass weight, const Body& body, Length height) {
  constexpr double kSolid = 2.7e-6;  // kg/mm³, quartz 2.65; common practice, no source
  const double solid = body.body_area * height.mm() * kSolid;
  constexpr double kHandles = 1.25;
  if (weight.kg() <= solid * kHandles) return;
  const Node& value = *block.find("weight");
  std::optional<std::string> grams;
  if (plain_decimal(value.text) && weight.kg() <= solid * 1000) grams = value.text + " g";
  block.desk().mistake("weight", value.where,
                       fmt::format("{} is more than a solid block of this size weighs ({})",
                                   understood(weight.kg(), Measure::mass, block.desk().units),
                                   understood(solid, Measure::mass, block.desk().units)),
                       grams);
}

Stacking read_stack(Block& piece) {
  const Node* node = piece.find("stack");
  if (node == nullptr) return {};
  Block block{*node, "stack", piece.desk()};
  const auto how = block.choice("how");
  const auto most = block.count("most");
  const auto step = block.length("step");
  if (!how || !most) return {};
  Stacking stacking;
  stacking.how =
      static_cast<Stacking::How>(static_cast<int>(Stacking::How::nested) + static_cast<int>(*how));
  stacking.most = *most;
  if (step) stacking.step = *step;
  if (!step && !block.has("step") && stacking.how != Stacking::How::rim_to_rim) {
    piece.desk().mistake("missing", block.where(),
                         "\"step\" is missing for a stack: how much does each further piece add?");
  }
  return stacking;
}

/// @param turn_asked the turn that the piece asks for elsewhere: it holds for its place too.
std::optional<Placement> read_pin(Block& piece, const std::optional<double>& turn_asked) {
  const Node* node = piece.find("stands at");
  if (node == nullptr) return std::nullopt;
  if (node->kind != Node::Kind::map) {
    const auto at = piece.point("stands at");
    if (!at) return std::nullopt;
    return Placement{*at, turn_asked.value_or(0)};
  }
  Block block{*node, "pin", piece.desk()};
  const auto at = block.point("at");
  const auto turn = block.angle("turn");
  if (!at) return std::nullopt;
  return Placement{*at, turn.value_or(turn_asked.value_or(0))};
}

std::vector<std::string> names_of(const std::vector<Glaze>& glazes) {
  std::vector<std::string> names;
  for (const Glaze& glaze : glazes) names.push_back(glaze.name);
  return names;
}

/// The glaze's index; one that no list knows is added unless the file has a list.
std::optional<int> glaze_index(const Named& name, Draft& draft) {
  std::vector<Glaze>& glazes = draft.studio.batch.glazes;
  if (draft.glazes_listed) {
    return index_of(name, names_of(glazes), "glaze", draft.desk);
  }
  const auto found =
      std::ranges::find_if(glazes, [&](const Glaze& glaze) { return glaze.name == name.text; });
  const auto index = found - glazes.begin();  // before the list may grow and move
  if (found == glazes.end()) glazes.push_back({name.text, false, name.where});
  return static_cast<int>(index);
}

WishPlaces wish_places(const Block& piece) {
  const auto place = [&](std::string_view word) {
    return piece.has(word) ? piece.where_word(word) : TextPos{};
  };
  WishPlaces where;
  where.zone = place("where");
  where.side = place("side");
  where.level = place("level");
  where.first_firing = place("first");
  where.set = place("set");
  where.apart = place("apart from");
  where.turn = place("turn");
  where.pinned = place("stands at");
  where.inside = place("lid of");
  where.upright = place("upright");
  return where;
}

Wishes read_wishes(Block& piece, Draft& draft) {
  Wishes wishes;
  if (const auto where = piece.choice("where")) wishes.zone = static_cast<Zone>(*where);
  if (const auto side = piece.choice("side")) wishes.side = static_cast<Side>(*side);
  wishes.level = piece.count("level");
  wishes.first_firing = piece.yes_no("first").value_or(false);
  wishes.must_go = piece.yes_no("must go").value_or(false);
  wishes.set = piece.text("set").value_or("");
  for (const Named& glaze : piece.names("apart from")) {
    if (draft.glazes_listed && !glaze_index(glaze, draft)) continue;
    wishes.apart.push_back(glaze.text);
  }
  wishes.turn_deg = piece.angle("turn");
  wishes.pinned = read_pin(piece, wishes.turn_deg);
  wishes.inside = piece.text("lid of");
  wishes.upright = piece.yes_no("upright").value_or(false);
  wishes.where = wish_places(piece);
  return wishes;
}

/// Loads of one kind, by index.
std::vector<int> loads_of(const Batch& batch, FiringKind kind) {
  std::vector<int> found;
  for (std::size_t i = 0; i < batch.loads.size(); ++i) {
    if (batch.loads[i].kind == kind) found.push_back(static_cast<int>(i));
  }
  return found;
}

/// A glazed piece the glaze firing, another one the bisque; the only firing when there is one.
std::vector<int> usual_loads(Block& piece, bool glazed, Draft& draft) {
  const Batch& batch = draft.studio.batch;
  if (batch.loads.size() <= 1) return std::vector<int>(batch.loads.size(), 0);
  const auto bisque = loads_of(batch, FiringKind::bisque);
  const auto glaze = loads_of(batch, FiringKind::glaze);
  const std::vector<int>& own = (glazed && !glaze.empty()) || bisque.empty() ? glaze : bisque;
  if (own.size() == 1 || piece.meant("firing")) return own;
  std::vector<std::string> names;
  for (const int load : own) {
    names.push_back('"' + batch.loads[static_cast<std::size_t>(load)].name + '"');
  }
  draft.desk.mistake(
      "which", piece.where(),
      fmt::format("which firing does this piece need: {}? add  firing: ...", listed(names)));
  return {};
}

std::vector<int> read_loads(Block& piece, bool glazed, Draft& draft) {
  const Batch& batch = draft.studio.batch;
  if (!piece.has("firing")) return usual_loads(piece, glazed, draft);
  std::vector<std::string> known;
  for (const Load& load : batch.loads) known.push_back(load.name);
  std::vector<int> loads;
  for (const Named& name : piece.names("firing")) {
    const std::string word = lower_case(name.text);
    const auto kind = word == "bisque"  ? loads_of(batch, FiringKind::bisque)
                      : word == "glaze" ? loads_of(batch, FiringKind::glaze)
                                        : std::vector<int>{};
    const bool named = std::ranges::find(known, name.text) != known.end();
    if (!named && kind.size() == 1) {
      loads.push_back(kind.front());
    } else if (const auto index = index_of(name, known, "firing", draft.desk)) {
      loads.push_back(*index);
    }
  }
  std::ranges::sort(loads);
  loads.erase(std::unique(loads.begin(), loads.end()), loads.end());
  return loads;
}

int clay_index(Block& piece, Draft& draft) {
  const auto name = piece.text("clay");
  if (!name) return 0;
  std::vector<std::string> known;
  for (const Clay& clay : draft.studio.batch.clays) known.push_back(clay.name);
  return index_of({*name, piece.where("clay")}, known, "clay", draft.desk).value_or(0);
}

TextPos where_shape(Block& block) {
  for (const std::string_view word : {"across", "size", "oval", "outline"}) {
    if (block.has(word)) return block.where(word);
  }
  return block.where();
}

}  // namespace

void read_piece(const Node& node, Stage usual_stage, Draft& draft) {
  Block block{node, "piece", draft.desk};
  if (!block.readable()) return;
  PieceKind piece;
  const auto name = block.text("name");
  const auto body = read_body(block);
  const auto height = block.length("height");
  piece.count = block.count("count").value_or(1);
  if (const auto wall = block.length("wall")) piece.wall = *wall;
  const auto weight = block.mass("weight");
  const auto measured = block.choice("measured");
  piece.measured = measured ? kStages[*measured] : usual_stage;
  piece.clay = clay_index(block, draft);
  if (const auto glaze = block.text("glaze")) {
    piece.glaze = glaze_index({*glaze, block.where("glaze")}, draft);
  }
  const auto flat = block.yes_no("flat");
  piece.damp = block.yes_no("damp").value_or(false);
  piece.loads = read_loads(block, block.has("glaze"), draft);
  piece.stacking = read_stack(block);
  piece.wishes = read_wishes(block, draft);
  if (!name || !body || !height) return;
  if (weight) tell_too_heavy(block, *weight, *body, *height);
  piece.name = *name;
  piece.footprint = body->whole;
  piece.height = *height;
  piece.flat_ware = flat.value_or(flat_or_wide(*body, *height));
  piece.mass = weight.value_or(
      reckoned_mass(*body, piece, flat.value_or(height->mm() <= kPlate * body->least_width)));
  piece.where = block.where("name");
  piece.where_height = block.where("height");
  draft.studio.batch.pieces.push_back(std::move(piece));
  draft.least_widths.push_back(body->least_width);
  draft.where_width.push_back(where_shape(block));
  draft.where_lid.push_back(block.where("lid of"));
}

void read_clays(Block& root, Draft& draft) {
  std::vector<Named> names;
  for (const Node* node : root.blocks("clays")) {
    Block block{*node, "clay", draft.desk};
    if (!block.readable()) continue;
    Clay clay;
    const auto take = [&](std::string_view key, double& into) {
      if (const auto share = block.percent(key)) into = *share;
    };
    take("wet to dry", clay.shrinkage.drying);
    take("dry to bisque", clay.shrinkage.to_bisque);
    take("dry to fired", clay.shrinkage.to_fired);
    take("burns away", clay.loss_on_ignition);
    take("water", clay.water_when_thrown);
    clay.carbon_rich = block.yes_no("dark").value_or(false);
    clay.groggy = block.yes_no("groggy").value_or(false);
    clay.free_quartz = block.yes_no("much quartz").value_or(false);
    if (const auto name = block.text("name")) {
      clay.name = *name;
      clay.where = block.where("name");
      names.push_back({clay.name, clay.where});
    }
    draft.studio.batch.clays.push_back(std::move(clay));
  }
  tell_repeated(names, "clay", draft.desk);
  if (draft.studio.batch.clays.empty()) {
    Clay usual;
    usual.name = "clay";
    draft.studio.batch.clays.push_back(std::move(usual));
  }
}

void read_glazes(Block& root, Draft& draft) {
  const Node* list = root.find("glazes");
  draft.glazes_listed = list != nullptr && list->kind == Node::Kind::list;
  std::vector<Named> names;
  for (const Node* node : root.blocks("glazes")) {
    Glaze glaze;
    glaze.where = node->where;
    if (node->kind == Node::Kind::scalar) {
      glaze.name = read_name(*node, "a glaze", draft.desk).value_or("");
    } else {
      Block block{*node, "glaze", draft.desk};
      glaze.name = block.text("name").value_or("");
      glaze.runny = block.yes_no("runny").value_or(false);
      glaze.where = block.where("name");
    }
    if (!glaze.name.empty()) names.push_back({glaze.name, glaze.where});
    draft.studio.batch.glazes.push_back(std::move(glaze));
  }
  tell_repeated(names, "glaze", draft.desk);
}

void read_pieces(Block& root, Draft& draft) {
  const auto measured = root.choice("measured");
  const Stage usual = measured ? kStages[*measured] : Stage::fired;
  const Node* list = root.find("pieces");
  if (list != nullptr && list->kind == Node::Kind::scalar) {
    for (const Node& node : pieces_from_table(*list, draft)) read_piece(node, usual, draft);
  } else {
    for (const Node* node : root.blocks("pieces")) read_piece(*node, usual, draft);
  }
  std::vector<Named> names;
  for (const PieceKind& piece : draft.studio.batch.pieces) {
    names.push_back({piece.name, piece.where});
  }
  tell_repeated(names, "piece", draft.desk);
}

}  // namespace placer::workbook
