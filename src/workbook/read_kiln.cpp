#include <fmt/format.h>

#include <array>
#include <cmath>
#include <numbers>

#include "placer/firing/materials.h"
#include "workbook/broken_text.h"
#include "workbook/draft.h"

namespace placer::workbook {
namespace {

using firing::HeatSource;

constexpr std::array kHeat = {HeatSource::electric, HeatSource::natural_gas, HeatSource::propane,
                              HeatSource::wood, HeatSource::other};

double perimeter(const Floor& floor) {
  if (floor.region.round) return 2 * std::numbers::pi * floor.region.round->radius;
  const std::vector<Point>& corners = floor.region.outline.corners;
  double sum = 0;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const Point side = corners[(i + 1) % corners.size()] - corners[i];
    sum += std::hypot(side.x, side.y);
  }
  return sum;
}

/// "0.32 EUR/kWh", "$0.16/kWh": the number and the currency around it.
void read_price(Block& kiln, firing::KilnBuild& build) {
  const auto given = kiln.text("price");
  if (!given) return;
  std::string text = *given;
  const auto refuse = [&] {
    kiln.desk().mistake(
        "price", kiln.where("price"),
        fmt::format("\"{}\" is no price: write for example 0.32 EUR/kWh", shortened(*given)));
  };
  const std::size_t slash = text.find('/');
  if (slash == std::string::npos || lower_case(trimmed(text.substr(slash + 1))) != "kwh") {
    return refuse();
  }
  text.resize(slash);
  const std::size_t first = text.find_first_of("0123456789.");
  if (first == std::string::npos) return refuse();
  const std::size_t last = text.find_last_of("0123456789") + 1;
  const auto price = plain_decimal(std::string_view{text}.substr(first, last - first));
  const std::string_view before = trimmed(std::string_view{text}.substr(0, first));
  const std::string_view after = trimmed(std::string_view{text}.substr(last));
  if (!price || *price > 1e6 || before.empty() == after.empty()) return refuse();
  const std::string_view currency = before.empty() ? after : before;
  if (currency.size() > 8 || currency.find(' ') != std::string_view::npos) return refuse();
  build.price_per_kwh = *price;
  build.currency = std::string{currency};
}

/// A past firing's log, and "62 kWh" from its meter.
void read_past(Block& kiln, firing::KilnBuild& build) {
  build.past_log = kiln.text("past firing").value_or("");
  const auto given = kiln.text("past meter");
  if (!given) return;
  const std::string text = lower_case(trimmed(*given));
  const bool unit = text.size() > 3 && text.substr(text.size() - 3) == "kwh";
  const auto energy =
      unit ? plain_decimal(trimmed(std::string_view{text}.substr(0, text.size() - 3)))
           : std::nullopt;
  if (!energy || *energy <= 0 || *energy > 1e6) {
    kiln.desk().mistake(
        "power", kiln.where("past meter"),
        fmt::format("\"{}\" is no meter reading: write for example 62 kWh", shortened(*given)));
    return;
  }
  build.past_meter = Energy{*energy};
}

void read_wall(Block& kiln, firing::KilnBuild& build) {
  for (const Node* node : kiln.blocks("wall")) {
    Block layer{*node, "wall", kiln.desk()};
    const auto material = layer.text("material");
    const auto thick = layer.length("thick");
    if (material && firing::find_wall_material(*material) == nullptr) {
      std::vector<std::string> known;
      for (const firing::WallMaterial& one : firing::wall_materials()) known.push_back(one.name);
      index_of({*material, layer.where("material")}, known, "wall material", kiln.desk());
    } else if (material && thick) {
      build.wall.push_back({*material, *thick});
    }
  }
}

void read_heat(Block& kiln, Draft& draft) {
  firing::KilnBuild& build = draft.studio.kiln_build;
  build.where = kiln.where();
  if (const auto heat = kiln.choice("heat")) build.source = kHeat[*heat];
  build.power = kiln.power("power");
  build.top_limit = kiln.temperature("limit");
  read_wall(kiln, build);
  read_price(kiln, build);
  read_past(kiln, build);
}

void read_room(Block& block, Kiln& kiln) {
  const auto take = [&](std::string_view key, Length& into) {
    if (const auto length = block.length(key)) into = *length;
  };
  take("room to wall", kiln.wall_clearance);
  take("shelf to wall", kiln.shelf_clearance);
  take("under first shelf", kiln.first_shelf);
  take("under lid", kiln.under_lid);
  if (const auto posts = block.count("posts per shelf")) kiln.posts_per_shelf = *posts;
  kiln.most_on_shelf = block.mass("most on a shelf");
  kiln.most_in_load = block.mass("most in a load");
}

}  // namespace

void read_kiln(Block& root, Draft& draft) {
  const Node* node = root.find("kiln");
  if (node == nullptr) return;
  Block block{*node, "kiln", draft.desk};
  if (!block.readable()) return;
  Kiln& kiln = draft.studio.batch.kiln;
  kiln.where = root.where_word("kiln");
  kiln.name = block.text("name").value_or("kiln");
  const auto floor = read_floor(block, "inside");
  const auto height = block.length("height");
  draft.inside_where = block.where("inside");
  draft.height_where = block.where("height");
  if (const auto opens = block.choice("loads from")) {
    kiln.opens = *opens == 0 ? Opens::top : Opens::front;
  }
  read_room(block, kiln);
  read_heat(block, draft);
  draft.kiln_known = floor && height;
  if (draft.kiln_known) {
    kiln.chamber = floor->region;
    kiln.height = *height;
    const double ground = area(kiln.chamber);
    firing::KilnBuild& build = draft.studio.kiln_build;
    build.chamber_volume_m3 = ground * height->mm() * 1e-9;
    build.chamber_surface_m2 = (2 * ground + perimeter(*floor) * height->mm()) * 1e-6;
  }
  read_keep_outs(block, draft);
}

}  // namespace placer::workbook
