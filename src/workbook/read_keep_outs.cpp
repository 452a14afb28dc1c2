#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "workbook/draft.h"

namespace placer::workbook {
namespace {

enum class Wall { front, back, left, right };

/// Where the wall stands, on a line through the chamber parallel to x (front and back walls) or y.
/// `along` is the line's place. Nothing when the line misses the chamber.
std::optional<double> wall_at(const Region& chamber, Wall wall, double along) {
  const bool upright = wall == Wall::front || wall == Wall::back;
  const bool far = wall == Wall::back || wall == Wall::right;
  double best =
      far ? -std::numeric_limits<double>::infinity() : std::numeric_limits<double>::infinity();
  const auto meet = [&](double at) { best = far ? std::max(best, at) : std::min(best, at); };
  if (chamber.round) {
    const double r = chamber.round->radius;
    if (std::abs(along) >= r) return std::nullopt;
    meet((far ? 1 : -1) * std::sqrt(r * r - along * along));
  }
  const std::vector<Point>& corners = chamber.outline.corners;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    Point a = corners[i];
    Point b = corners[(i + 1) % corners.size()];
    if (!upright) {
      std::swap(a.x, a.y);
      std::swap(b.x, b.y);
    }
    if (std::min(a.x, b.x) > along || std::max(a.x, b.x) < along) continue;
    if (a.x == b.x) {
      meet(a.y);
      meet(b.y);
    } else {
      meet(a.y + (b.y - a.y) * (along - a.x) / (b.x - a.x));
    }
  }
  if (!std::isfinite(best)) return std::nullopt;
  return best;
}

/// The thing's area at a wall: it begins a little outside, so that a curved wall leaves no gap.
Footprint area_at_wall(Wall wall, double along, double at, const Foot& size, double room) {
  const bool upright = wall == Wall::front || wall == Wall::back;
  const double inward = wall == Wall::front || wall == Wall::left ? 1 : -1;
  if (size.round) {
    const double middle = at + inward * size.width / 2;
    const Point centre = upright ? Point{along, middle} : Point{middle, along};
    return Footprint{{Disc{centre, size.width / 2 + room}}, {}};
  }
  constexpr double kOutside = 50;
  const double begin = at - inward * kOutside;
  const double end = at + inward * (size.depth + room);
  const double low = std::min(begin, end);
  const double high = std::max(begin, end);
  const double half = size.width / 2 + room;
  const Outline outline = upright ? rectangle(Point{along - half, low}, Point{along + half, high})
                                  : rectangle(Point{low, along - half}, Point{high, along + half});
  return Footprint{{}, {outline}};
}

Footprint area_at_place(Point at, const Foot& size, double room) {
  if (size.round) return Footprint{{Disc{at, size.width / 2 + room}}, {}};
  const Point half{size.width / 2 + room, size.depth / 2 + room};
  return Footprint{{}, {rectangle(at - half, at + half)}};
}

std::optional<Footprint> read_area(Block& block, const Foot& size, double room, Draft& draft) {
  const auto at = block.point("at");
  const auto wall = block.choice("wall");
  if (block.meant("at") || block.meant("wall")) return std::nullopt;
  if (block.has("at") == block.has("wall")) {
    block.desk().mistake(block.has("at") ? "both" : "missing", block.where_word("wall"),
                         block.has("at")
                             ? "\"at\" and \"wall\" both tell the place: keep one of them"
                             : "the place is missing: add  at: [200, 0]  or  wall: front");
    return std::nullopt;
  }
  double along = 0;
  if (const Node* node = block.find("along")) {
    const auto read = read_signed_length(*node, *find_word("keep clear", "along"), block.desk());
    if (!read) return std::nullopt;
    along = *read;
  }
  if (at) return area_at_place(*at, size, room);
  if (!wall || !draft.kiln_known) return std::nullopt;
  const auto side = static_cast<Wall>(*wall);
  const auto stands = wall_at(draft.studio.batch.kiln.chamber, side, along);
  if (stands) return area_at_wall(side, along, *stands, size, room);
  block.desk().mistake("range", block.where("along"),
                       fmt::format("{} mm along the wall is outside the kiln (inside: {})",
                                   plain_number(along), line_of(draft.inside_where)));
  return std::nullopt;
}

/// A spy hole looks over the shelf's edge, and cones stand on a shelf.
bool usually_lets_shelves_pass(const std::string& what) {
  const std::string word = lower_case(what);
  return word.starts_with("spy") || word.starts_with("peep") || word.starts_with("cone");
}

/// Nothing is kept clear for what lies beyond the walls or over the roof: a slip, most likely.
void tell_if_outside(Block& block, const std::string& what, const Foot& size, double room,
                     Draft& draft) {
  const Kiln& kiln = draft.studio.batch.kiln;
  const auto from = block.length("from");
  if (from && kiln.height > Length{} && *from >= kiln.height) {
    draft.desk.mistake("range", block.where("from"),
                       fmt::format("the {} begins at {} mm, and the kiln is {} mm high inside",
                                   what, plain_number(from->mm()), plain_number(kiln.height.mm())));
  }
  const auto at = block.point("at");
  if (!at) return;
  const double reach = std::max(size.width, size.round ? size.width : size.depth) / 2 + room;
  if (inset(Footprint{{Disc{*at, 0.1}}, {}}, kiln.chamber) >= -reach) return;
  draft.desk.mistake("range", block.where("at"),
                     fmt::format("the {} would lie outside the kiln (inside: {}): give its place "
                                 "from the middle of the kiln, or  wall: front",
                                 what, line_of(draft.inside_where)));
}

void read_keep_out(const Node& node, Draft& draft) {
  Block block{node, "keep clear", draft.desk};
  if (!block.readable()) return;
  const auto what = block.text("what");
  const auto size = read_foot(block, "size");
  const double room = block.length("room").value_or(Length{}).mm();
  const auto from = block.length("from");
  const auto to = block.length("to");
  const auto pass = block.yes_no("shelves may pass");
  const Kiln& kiln = draft.studio.batch.kiln;
  if (from && to && *from >= *to) {
    draft.desk.mistake("range", block.where("to"),
                       fmt::format("it ends at {} mm and begins at {} mm ({}): \"from\" is the "
                                   "lower one",
                                   plain_number(to->mm()), plain_number(from->mm()),
                                   line_of(block.where("from"))));
  }
  if (!what || !size) return;
  const auto area = read_area(block, *size, room, draft);
  if (!area) return;
  if (draft.kiln_known) tell_if_outside(block, *what, *size, room, draft);
  KeepOut keep;
  keep.what = *what;
  keep.area = *area;
  keep.from = from.value_or(Length{});
  keep.to = to.value_or(kiln.height);
  keep.shelves_too = !pass.value_or(usually_lets_shelves_pass(*what));
  keep.where = block.where("what");
  draft.studio.batch.kiln.keep_outs.push_back(std::move(keep));
}

}  // namespace

void read_keep_outs(Block& kiln, Draft& draft) {
  for (const Node* node : kiln.blocks("keep clear")) read_keep_out(*node, draft);
}

}  // namespace placer::workbook
