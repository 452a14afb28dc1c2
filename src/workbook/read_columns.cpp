#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "workbook/draft.h"

namespace placer::workbook {
namespace {

constexpr double kBetweenHalves = 5;    ///< mm between the flat sides of two half-round shelves
constexpr double kBetweenColumns = 10;  ///< mm between rectangular shelves side by side

/// Shelves by falling area, then as in the file: the best first.
std::vector<int> best_first(const Kiln& kiln, std::vector<int> shelves) {
  std::ranges::stable_sort(shelves, [&](int a, int b) {
    return area(kiln.shelves[static_cast<std::size_t>(a)].shape) >
           area(kiln.shelves[static_cast<std::size_t>(b)].shape);
  });
  return shelves;
}

std::vector<int> every_shelf(const Kiln& kiln) {
  std::vector<int> all(kiln.shelves.size());
  std::iota(all.begin(), all.end(), 0);
  return best_first(kiln, all);
}

bool fits(const Kiln& kiln, int shelf, const Placement& at) {
  const Region& shape = kiln.shelves[static_cast<std::size_t>(shelf)].shape;
  return inset(placed(shape, at), kiln.chamber) >= -1e-6;
}

/// Those of the shelves that fit at the place; all of them when none does, to be told later.
std::vector<int> fitting(const Kiln& kiln, const std::vector<int>& shelves, const Placement& at) {
  std::vector<int> kept;
  std::ranges::copy_if(shelves, std::back_inserter(kept),
                       [&](int shelf) { return fits(kiln, shelf, at); });
  return kept.empty() ? shelves : kept;
}

Point middle_of(const Region& region) {
  const Box box = bounding_box(region);
  return 0.5 * (box.low + box.high);
}

/// The shelves of one form that cover the most ground together decide how the columns stand.
bool mostly_half_round(const Draft& draft) {
  const Kiln& kiln = draft.studio.batch.kiln;
  double halves = 0;
  double others = 0;
  for (std::size_t i = 0; i < kiln.shelves.size(); ++i) {
    const bool half = draft.shelf_floors[i].form == Floor::Form::half_round;
    (half ? halves : others) += area(kiln.shelves[i].shape) * kiln.shelves[i].have;
  }
  // With none owned of either, the first one listed says how they are meant.
  if (halves == others) return draft.shelf_floors.front().form == Floor::Form::half_round;
  return halves > others;
}

std::vector<int> of_form(const Draft& draft, bool half_round) {
  std::vector<int> found;
  for (std::size_t i = 0; i < draft.shelf_floors.size(); ++i) {
    const bool half = draft.shelf_floors[i].form == Floor::Form::half_round;
    if (half == half_round) found.push_back(static_cast<int>(i));
  }
  return best_first(draft.studio.batch.kiln, found);
}

/// Two half discs, flat sides facing each other across the middle.
void add_halves(Draft& draft) {
  Kiln& kiln = draft.studio.batch.kiln;
  const Point middle = middle_of(kiln.chamber);
  const std::vector<int> shelves = of_form(draft, true);
  const Placement left{middle + Point{-kBetweenHalves / 2, 0}, 90};
  const Placement right{middle + Point{kBetweenHalves / 2, 0}, 270};
  kiln.columns.push_back({"left", fitting(kiln, shelves, left), left, {}, kiln.where});
  kiln.columns.push_back({"right", fitting(kiln, shelves, right), right, {}, kiln.where});
}

std::string column_name(int index, int count) {
  if (count == 1) return "middle";
  if (index == 0) return "left";
  if (index == count - 1) return "right";
  return count == 3 ? "middle" : fmt::format("column {}", index + 1);
}

/// As many columns of the largest shelf side by side as the chamber is wide, one at least.
void add_side_by_side(Draft& draft) {
  Kiln& kiln = draft.studio.batch.kiln;
  const std::vector<int> shelves = of_form(draft, false);
  const Region& best = kiln.shelves[static_cast<std::size_t>(shelves.front())].shape;
  const Box shelf = bounding_box(best);
  const Point own_middle = 0.5 * (shelf.low + shelf.high);
  const Point middle = middle_of(kiln.chamber);
  const double step = shelf.high.x - shelf.low.x + kBetweenColumns;
  const auto place = [&](int index, int count) {
    const double x = (index - (count - 1) / 2.0) * step;
    return Placement{middle + Point{x, 0} - own_middle, 0};
  };
  int count = 1;
  for (int more = 2; more <= 8; ++more) {
    const Placement outermost = place(0, more);
    const double clear = inset(placed(best, outermost), kiln.chamber);
    if (clear < kiln.shelf_clearance.mm() - 1e-6) break;
    count = more;
  }
  for (int i = 0; i < count; ++i) {
    const Placement at = place(i, count);
    kiln.columns.push_back({column_name(i, count), fitting(kiln, shelves, at), at, {}, kiln.where});
  }
}

/// Shelves that a bridge names: no column takes them unless it names them too.
std::vector<int> named_across(const Node& kiln_node, const Kiln& kiln) {
  std::vector<int> shelves;
  const Node* bridges = kiln_node.find("bridges");
  if (bridges == nullptr) return shelves;
  const auto look = [&](const Node& bridge) {
    const Node* named = bridge.find("shelves");
    if (named == nullptr) return;
    for (int i = 0; i < static_cast<int>(kiln.shelves.size()); ++i) {
      const std::string& name = kiln.shelves[static_cast<std::size_t>(i)].name;
      const bool any =
          named->text == name ||
          std::ranges::any_of(named->items, [&](const Node& item) { return item.text == name; });
      if (any) shelves.push_back(i);
    }
  };
  look(*bridges);
  for (const Node& bridge : bridges->items) look(bridge);
  return shelves;
}

/// Shelves that no column uses and no bridge names: the potter should know, and can name columns.
void tell_unused(const std::vector<int>& across, Draft& draft) {
  const Kiln& kiln = draft.studio.batch.kiln;
  for (std::size_t i = 0; i < kiln.shelves.size(); ++i) {
    const auto uses = [&](const auto& place) {
      return std::ranges::find(place.shelves, static_cast<int>(i)) != place.shelves.end();
    };
    const bool used =
        std::ranges::any_of(kiln.columns, uses) || std::ranges::any_of(kiln.bridges, uses);
    const bool named = std::ranges::count(across, static_cast<int>(i)) > 0;
    if (used || named || kiln.shelves[i].have == 0) continue;
    draft.desk.look("unused", draft.shelf_size_where[i],
                    fmt::format("\"{}\" does not go with the other shelves and is not used: to "
                                "use it, say in the kiln where each column stands "
                                "(columns: [{{name: ..., at: [0, 0], shelves: [...]}}])",
                                kiln.shelves[i].name));
  }
}

void read_column(const Node& node, const std::vector<int>& across, std::vector<Named>& names,
                 Draft& draft) {
  Block block{node, "column", draft.desk};
  if (!block.readable()) return;
  Kiln& kiln = draft.studio.batch.kiln;
  Column column;
  const auto name = block.text("name");
  const auto at = block.point("at");
  const auto turn = block.angle("turn");
  column.posts = block.points("posts");
  column.where = name ? block.where("name") : node.where;
  if (!column.posts.empty() && (column.posts.size() < 3 || column.posts.size() > 4)) {
    draft.desk.mistake(
        "range", block.where("posts"),
        fmt::format("three or four posts carry a shelf, and this names {}", column.posts.size()));
  }
  std::vector<std::string> known;
  for (const ShelfKind& shelf : kiln.shelves) known.push_back(shelf.name);
  for (const Named& shelf : block.names("shelves")) {
    if (const auto index = index_of(shelf, known, "shelf", draft.desk)) {
      column.shelves.push_back(*index);
    }
  }
  if (name) names.push_back({*name, block.where("name")});
  if (!name || !at) return;
  column.name = *name;
  column.at = Placement{*at, turn.value_or(0)};
  if (column.shelves.empty() && !block.has("shelves")) {
    std::vector<int> any = every_shelf(kiln);
    std::erase_if(any, [&](int shelf) { return std::ranges::count(across, shelf) > 0; });
    column.shelves = fitting(kiln, any, column.at);
  }
  kiln.columns.push_back(std::move(column));
}

}  // namespace

void read_columns(Block& root, Draft& draft) {
  Kiln& kiln = draft.studio.batch.kiln;
  const Node* node = root.find("kiln");
  const bool own = node != nullptr && node->find("columns") != nullptr;
  if (!draft.kiln_known || node == nullptr) return;
  std::vector<Finding> aside;
  std::swap(aside, draft.desk.findings);  // the kiln's words were told when it was read
  Block block{*node, "kiln", draft.desk};
  std::swap(aside, draft.desk.findings);
  const std::vector<int> across = named_across(*node, kiln);
  if (own) {
    std::vector<Named> names;
    for (const Node* column : block.blocks("columns")) read_column(*column, across, names, draft);
    tell_repeated(names, "column", draft.desk);
  } else if (!kiln.shelves.empty()) {
    if (mostly_half_round(draft)) {
      add_halves(draft);
    } else {
      add_side_by_side(draft);
    }
  }
  if (node->find("bridges") != nullptr) {
    read_bridges(block, draft);
  } else if (!own) {
    find_bridges(draft);
  }
  if (!kiln.columns.empty()) tell_unused(across, draft);
}

}  // namespace placer::workbook
