#include "loading/order.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>

#include "loading/index.h"
#include "placer/model/tower.h"

namespace placer::loading {
namespace {

constexpr double kOneRow = 1;  // mm: pieces whose middles differ less stand in one row

/// mm: columns of which one lies no farther behind the other are as far from whoever sets them. An
/// odd figure, so that no rounding of usual sizes tells two apart.
constexpr double kOneReach = 50.5;

PlacedPiece piece_of(const Job& job, const Standing& standing) {
  const Sort& sort = at(job.sorts, standing.sort);
  const SizedPiece& size = at(sort.stacks, standing.stack - 1);
  PlacedPiece piece;
  piece.piece = sort.piece();
  piece.place = standing.place;
  piece.height = size.height;
  piece.mass = size.mass;
  piece.stacked = standing.stack * count_of(sort.kinds);
  if (sort.kinds.size() > 1) {
    piece.stack = sort.kinds;
  } else if (standing.stack > 1) {
    piece.stack.assign(static_cast<std::size_t>(standing.stack), sort.piece());
  }
  return piece;
}

/// Far to near: whoever stands behind another by more than a little goes in first. Bands are as
/// deep as half the smallest piece, so that a row set by a scattered packing stays together.
void number(const Batch& batch, const KilnLoad& load, std::vector<PlacedPiece>& pieces) {
  double band = 1e9;
  for (const PlacedPiece& piece : pieces) {
    const Box box = bounding_box(ground(batch, load, piece));
    band = std::min(band, (box.high.y - box.low.y) / 2);
  }
  std::stable_sort(pieces.begin(), pieces.end(), [](const PlacedPiece& a, const PlacedPiece& b) {
    return a.place.at.y > b.place.at.y;
  });
  for (auto first = pieces.begin(); first != pieces.end();) {
    const double near = first->place.at.y - band;
    const auto last = std::find_if(
        first, pieces.end(), [&](const PlacedPiece& piece) { return piece.place.at.y < near; });
    std::stable_sort(first, last, [](const PlacedPiece& a, const PlacedPiece& b) {
      return a.place.at.x < b.place.at.x;
    });
    first = last;
  }
  for (std::size_t i = 0; i < pieces.size(); ++i) pieces[i].number = static_cast<int>(i) + 1;
}

/// Rows across, if the pieces stand in them: their sizes from far to near.
std::vector<int> rows_across(std::vector<PlacedPiece>& pieces) {
  std::vector<int> rows;
  double y = 1e18;
  for (PlacedPiece& piece : pieces) {
    if (y - piece.place.at.y > kOneRow) {
      rows.push_back(0);
      y = piece.place.at.y;
    }
    ++rows.back();
    piece.row = count_of(rows);
  }
  return rows;
}

std::string words_for(const std::vector<int>& rows) {
  const bool alike = std::all_of(rows.begin(), rows.end(), [&](int n) { return n == rows[0]; });
  if (rows.size() == 1) return fmt::format("1 row of {}", rows[0]);
  if (alike) return fmt::format("{} rows of {}", rows.size(), rows[0]);
  return fmt::format("rows of {}", fmt::join(rows, ", "));
}

void name_rows(Level& level, const std::string& pattern) {
  if (pattern.empty() || level.pieces.size() < 2) return;
  const std::vector<int> rows = rows_across(level.pieces);
  if (2 * rows.size() > level.pieces.size() + 1) {  // rows that run from front to back
    for (PlacedPiece& piece : level.pieces) piece.row = 0;
    return;
  }
  level.pattern = words_for(rows);
  const bool stacks = std::any_of(level.pieces.begin(), level.pieces.end(),
                                  [](const PlacedPiece& piece) { return piece.stacked > 1; });
  if (stacks) level.pattern += " stacks";
}

/// Each level comes as early as it did, but after all that lies under it in its columns.
void under_before_over(const Kiln& kiln, KilnLoad& load) {
  std::vector<Level> listed;
  std::vector<Level>& waiting = load.levels;
  while (!waiting.empty()) {
    const auto next = std::find_if(waiting.begin(), waiting.end(), [&](const Level& level) {
      const std::vector<int> columns = columns_of(kiln, level);
      return std::none_of(waiting.begin(), waiting.end(), [&](const Level& other) {
        return other.level < level.level &&
               std::any_of(columns.begin(), columns.end(),
                           [&](int column) { return lies_in(kiln, other, column); });
      });
    });
    listed.push_back(std::move(*next));
    waiting.erase(next);
  }
  waiting = std::move(listed);
}

}  // namespace

void add_pieces(const Job& job, const Filled& filled, Level& level) {
  KilnLoad load;
  load.load = job.load;
  Length tallest;
  for (const Standing& standing : filled.set) {
    level.pieces.push_back(piece_of(job, standing));
    tallest = std::max(tallest, level.pieces.back().height);
  }
  number(*job.batch, load, level.pieces);
  name_rows(level, filled.pattern);
  level.air = level.clear_height - tallest;
}

void take_off(const Job& job, const Filled& filled, Supply& supply) {
  for (const Standing& one : filled.set) {
    at(supply.left, one.sort) -= one.stack;
    const auto& pinned = at(job.sorts, one.sort).wishes.pinned;
    if (pinned && *pinned == one.place) at(supply.pinned, one.sort) = 0;
  }
}

void far_columns_first(const Batch& batch, KilnLoad& load) {
  std::map<int, double> back;  // of each column: how far behind the kiln's middle its shelf lies
  for (const Level& level : load.levels) {
    if (level.level != 1 && back.count(level.column) > 0) continue;
    const Box box = bounding_box(ground(batch, level));
    back[level.column] = (box.low.y + box.high.y) / 2;
  }
  std::vector<int> order;
  for (const auto& [column, y] : back) order.push_back(column);
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return back[a] > back[b]; });
  std::vector<int> rank(batch.kiln.columns.size());
  for (std::size_t i = 1; i < order.size(); ++i) {
    // Each is measured against the farthest of its rank: no chain of small steps makes one rank.
    const auto first = std::find_if(order.begin(), order.end(), [&](int column) {
      return at(rank, column) == at(rank, order[i - 1]);
    });
    const bool nearer = back[*first] - back[order[i]] > kOneReach;
    at(rank, order[i]) = at(rank, order[i - 1]) + (nearer ? 1 : 0);
  }
  std::stable_sort(load.levels.begin(), load.levels.end(), [&](const Level& a, const Level& b) {
    return std::tuple(at(rank, a.column), a.column, a.level) <
           std::tuple(at(rank, b.column), b.column, b.level);
  });
  if (has_bridge(load)) under_before_over(batch.kiln, load);
}

void number_pieces(const Batch& batch, KilnLoad& load) {
  for (Level& level : load.levels) number(batch, load, level.pieces);
}

void weigh(const Batch& batch, KilnLoad& load) {
  load.ware = Mass{};
  load.furniture = Mass{};
  const auto add_posts = [&](const std::vector<PlacedPost>& posts) {
    for (const PlacedPost& post : posts) {
      for (const int part : post.parts) load.furniture += at(batch.kiln.posts, part).mass;
    }
  };
  add_posts(load.floor_posts);
  for (const Level& level : load.levels) {
    load.furniture += mass_of(at(batch.kiln.shelves, level.shelf));
    add_posts(level.posts);
    for (const PlacedPiece& piece : level.pieces) load.ware += piece.mass;
  }
}

}  // namespace placer::loading
