// Larger shelves that may lie across columns.
#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "workbook/draft.h"

namespace placer::workbook {
namespace {

constexpr double kHair = 1e-6;       ///< mm
constexpr int kLooks = 40;           ///< places along each side of a shelf that are looked at
constexpr double kReaches = 0.6;     ///< of a column's shelf: posts can stand under that much of it
constexpr double kReachesAll = 0.8;  ///< where nobody asked for a bridge

std::size_t index(int i) { return static_cast<std::size_t>(i); }

Region shelf_at(const Kiln& kiln, int shelf, const Placement& at) {
  return placed(kiln.shelves[index(shelf)].shape, at);
}

bool covers(const Region& region, Point p) {
  return inset(Footprint{{Disc{p, 0}}, {}}, region) >= 0;
}

/// The part of one shelf's ground that lies under the other.
double share_under(const Region& shelf, const Region& over) {
  const Box box = bounding_box(shelf);
  int all = 0;
  int under = 0;
  for (int i = 0; i < kLooks; ++i) {
    for (int j = 0; j < kLooks; ++j) {
      const Point p{box.low.x + (box.high.x - box.low.x) * (i + 0.5) / kLooks,
                    box.low.y + (box.high.y - box.low.y) * (j + 0.5) / kLooks};
      if (!covers(shelf, p)) continue;
      ++all;
      under += covers(over, p) ? 1 : 0;
    }
  }
  return all == 0 ? 0 : static_cast<double>(under) / all;
}

/// Whether the shelf lies over all places where the column's posts stand, or may.
bool reaches(const Kiln& kiln, const Column& column, const Region& shelf, double least) {
  if (column.shelves.empty()) return false;
  if (!column.posts.empty()) {
    return std::ranges::all_of(column.posts, [&](Point post) { return covers(shelf, post); });
  }
  return share_under(shelf_at(kiln, column.shelves.front(), column.at), shelf) >= least;
}

bool reaches_all(const Kiln& kiln, const std::vector<int>& over, const Region& shelf,
                 double least) {
  return std::ranges::all_of(
      over, [&](int column) { return reaches(kiln, kiln.columns[index(column)], shelf, least); });
}

bool fits(const Kiln& kiln, const Region& shelf) { return inset(shelf, kiln.chamber) >= -kHair; }

/// A column that the bridge is not over and whose shelves it would lie over; -1: none.
int in_the_way(const Kiln& kiln, const std::vector<int>& over, const Region& shelf) {
  for (int c = 0; c < static_cast<int>(kiln.columns.size()); ++c) {
    if (std::ranges::find(over, c) != over.end()) continue;
    const Column& column = kiln.columns[index(c)];
    for (const int own : column.shelves) {
      if (gap(shelf_at(kiln, own, column.at), shelf) < -kHair) return c;
    }
  }
  return -1;
}

/// The middle of all the columns' shelves.
Point middle_of(const Kiln& kiln, const std::vector<int>& over) {
  Box all{{1e18, 1e18}, {-1e18, -1e18}};
  for (const int c : over) {
    const Column& column = kiln.columns[index(c)];
    if (column.shelves.empty()) continue;
    const Box box = bounding_box(shelf_at(kiln, column.shelves.front(), column.at));
    all.low = {std::min(all.low.x, box.low.x), std::min(all.low.y, box.low.y)};
    all.high = {std::max(all.high.x, box.high.x), std::max(all.high.y, box.high.y)};
  }
  return all.low.x > all.high.x ? Point{} : 0.5 * (all.low + all.high);
}

/// So that the middle of the shelf is there.
Placement centred(const Kiln& kiln, int shelf, Point middle) {
  const Box box = bounding_box(kiln.shelves[index(shelf)].shape);
  return {middle - 0.5 * (box.low + box.high), 0};
}

std::vector<int> best_first(const Kiln& kiln, std::vector<int> shelves) {
  std::ranges::stable_sort(shelves, [&](int a, int b) {
    return area(kiln.shelves[index(a)].shape) > area(kiln.shelves[index(b)].shape);
  });
  return shelves;
}

/// One bridge of the file while it is read.
struct Asked {
  Block& block;
  Draft& draft;
  Bridge bridge;
  bool sound = true;

  const Kiln& kiln() const { return draft.studio.batch.kiln; }
  void mistake(const char* code, const TextPos& where, std::string message) {
    draft.desk.mistake(code, where, std::move(message));
    sound = false;
  }
};

void read_over(Asked& asked) {
  const Kiln& kiln = asked.kiln();
  std::vector<int>& over = asked.bridge.over;
  std::vector<std::string> known;
  for (const Column& column : kiln.columns) known.push_back(column.name);
  const bool given = asked.block.has("over");
  for (const Named& column : asked.block.names("over")) {
    if (const auto i = index_of(column, known, "column", asked.draft.desk)) {
      over.push_back(*i);
    } else {
      asked.sound = false;
    }
  }
  if (!given) {
    over.resize(kiln.columns.size());
    std::iota(over.begin(), over.end(), 0);
  }
  std::ranges::sort(over);
  over.erase(std::unique(over.begin(), over.end()), over.end());
  if (!asked.sound || over.size() > 1) return;
  asked.mistake("bridge", given ? asked.block.where("over") : asked.bridge.where,
                given ? fmt::format("a bridge lies over two columns or more, and this one over {}",
                                    over.size())
                      : fmt::format("a bridge lies over two columns or more, and this kiln has {}",
                                    kiln.columns.size()));
}

void read_shelves_across(Asked& asked) {
  const Kiln& kiln = asked.kiln();
  std::vector<std::string> known;
  for (const ShelfKind& shelf : kiln.shelves) known.push_back(shelf.name);
  for (const Named& shelf : asked.block.names("shelves")) {
    if (const auto i = index_of(shelf, known, "shelf", asked.draft.desk)) {
      asked.bridge.shelves.push_back(*i);
    } else {
      asked.sound = false;
    }
  }
}

/// Why a shelf can't lie there; "" when it can.
std::string trouble_of(const Asked& asked, int shelf) {
  const Kiln& kiln = asked.kiln();
  const Region set = shelf_at(kiln, shelf, asked.bridge.at);
  const std::string& name = kiln.shelves[index(shelf)].name;
  if (!fits(kiln, set)) {
    return fmt::format("\"{}\" cannot lie there: it would go through the kiln wall ({})", name,
                       line_of(asked.draft.inside_where));
  }
  for (const int c : asked.bridge.over) {
    const Column& column = kiln.columns[index(c)];
    if (reaches(kiln, column, set, kReaches)) continue;
    return fmt::format("\"{}\" does not reach over the posts of column \"{}\" ({})", name,
                       column.name, line_of(column.where));
  }
  const int other = in_the_way(kiln, asked.bridge.over, set);
  if (other < 0) return "";
  const Column& column = kiln.columns[index(other)];
  return fmt::format("\"{}\" would lie over shelves of column \"{}\" ({}) too: name it in  over",
                     name, column.name, line_of(column.where));
}

/// The shelves named, or all that can lie there.
void settle_shelves(Asked& asked, bool placed_by_file) {
  const Kiln& kiln = asked.kiln();
  const bool given = asked.block.has("shelves");
  std::vector<int> candidates = asked.bridge.shelves;
  if (!given) {
    candidates.resize(kiln.shelves.size());
    std::iota(candidates.begin(), candidates.end(), 0);
  }
  candidates = best_first(kiln, candidates);
  if (candidates.empty()) return;
  const Point middle = middle_of(kiln, asked.bridge.over);
  std::vector<int> kept;
  for (const int shelf : candidates) {
    if (!placed_by_file) asked.bridge.at.at = centred(kiln, shelf, middle).at;
    const std::string trouble = trouble_of(asked, shelf);
    if (trouble.empty()) {
      kept.push_back(shelf);
      if (!placed_by_file) break;  // others may have their middle elsewhere
    } else if (given) {
      asked.mistake("bridge", asked.block.where("shelves"), trouble);
    }
  }
  for (const int shelf : candidates) {
    const bool has = std::ranges::find(kept, shelf) != kept.end();
    if (!placed_by_file && !kept.empty() && !has && trouble_of(asked, shelf).empty())
      kept.push_back(shelf);
  }
  asked.bridge.shelves = best_first(kiln, kept);
  if (kept.empty() && asked.sound) {
    asked.mistake("bridge", asked.bridge.where,
                  "no shelf that you own reaches over the posts of all the columns that this "
                  "bridge lies over");
  }
}

std::string free_name(const Kiln& kiln, std::string name) {
  const std::string first = name;
  const auto taken = [&](const std::string& one) {
    return std::ranges::any_of(kiln.columns, [&](const Column& c) { return c.name == one; }) ||
           std::ranges::any_of(kiln.bridges, [&](const Bridge& b) { return b.name == one; });
  };
  for (int n = 2; taken(name); ++n) name = fmt::format("{} {}", first, n);
  return name;
}

void read_bridge(const Node& node, std::vector<Named>& names, Draft& draft) {
  Block block{node, "bridge", draft.desk};
  if (!block.readable()) return;
  Kiln& kiln = draft.studio.batch.kiln;
  Asked asked{block, draft, {}, true};
  const auto name = block.text("name");
  asked.bridge.where = name ? block.where("name") : node.where;
  if (name) names.push_back({*name, block.where("name")});
  asked.bridge.name = name ? *name : free_name(kiln, "across");
  const auto at = block.point("at");
  const auto turn = block.angle("turn");
  if (at) asked.bridge.at.at = *at;
  asked.bridge.at.turn_deg = turn.value_or(0);
  read_over(asked);
  read_shelves_across(asked);
  if (!asked.sound || (block.has("at") && !at)) return;
  settle_shelves(asked, at.has_value());
  if (asked.sound) kiln.bridges.push_back(std::move(asked.bridge));
}

bool in_any_column(const Kiln& kiln, int shelf) {
  return std::ranges::any_of(kiln.columns, [&](const Column& column) {
    return std::ranges::find(column.shelves, shelf) != column.shelves.end();
  });
}

/// A shelf that no column uses across these columns, if it can lie there.
bool lay_across(Kiln& kiln, int shelf, const std::vector<int>& over, const std::string& name) {
  const Placement at = centred(kiln, shelf, middle_of(kiln, over));
  const Region set = shelf_at(kiln, shelf, at);
  if (!fits(kiln, set) || !reaches_all(kiln, over, set, kReachesAll) ||
      in_the_way(kiln, over, set) >= 0) {
    return false;
  }
  for (Bridge& bridge : kiln.bridges) {
    const Point off = bridge.at.at - at.at;
    if (bridge.over != over || std::abs(off.x) > kHair || std::abs(off.y) > kHair) continue;
    bridge.shelves.push_back(shelf);
    bridge.shelves = best_first(kiln, bridge.shelves);
    return true;
  }
  kiln.bridges.push_back({free_name(kiln, name), over, {shelf}, at, kiln.where});
  return true;
}

}  // namespace

void read_bridges(Block& block, Draft& draft) {
  Kiln& kiln = draft.studio.batch.kiln;
  std::vector<Named> names;
  for (const Column& column : kiln.columns) names.push_back({column.name, column.where});
  for (const Node* bridge : block.blocks("bridges")) read_bridge(*bridge, names, draft);
  tell_repeated(names, "bridge", draft.desk);
}

void find_bridges(Draft& draft) {
  Kiln& kiln = draft.studio.batch.kiln;
  const int columns = static_cast<int>(kiln.columns.size());
  if (columns < 2) return;
  std::vector<int> all(kiln.columns.size());
  std::iota(all.begin(), all.end(), 0);
  for (int shelf = 0; shelf < static_cast<int>(kiln.shelves.size()); ++shelf) {
    if (kiln.shelves[index(shelf)].have == 0 || in_any_column(kiln, shelf)) continue;
    if (lay_across(kiln, shelf, all, "across")) continue;
    for (int c = 0; c + 1 < columns; ++c) {
      lay_across(kiln, shelf, {c, c + 1},
                 fmt::format("across {} and {}", kiln.columns[index(c)].name,
                             kiln.columns[index(c + 1)].name));
    }
  }
}

}  // namespace placer::workbook
