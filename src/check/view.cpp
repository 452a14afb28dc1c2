#include "check/view.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace placer::check {
namespace {

std::size_t index(int i) { return static_cast<std::size_t>(i); }

// A stack that may not be is measured as its lowest piece: its own finding says so.
SizedPiece measured(const Batch& batch, const PlacedPiece& piece, FiringKind kind) {
  const std::vector<int> kinds = kinds_of(piece);
  if (!stack_trouble(batch, piece, kind).empty()) {
    return sized(batch, batch.pieces[index(piece.piece)], kind);
  }
  return standing(batch, kinds, kind);
}

bool holds(const Region& edge, Point p) {
  return inset(Footprint{{Disc{p, 0}}, {}}, edge) >= -kTolerance;
}

}  // namespace

bool overlap(const Span& a, const Span& b) {
  return a.low < b.high - kTolerance && b.low < a.high - kTolerance;
}

View::View(const Batch& batch_in, const KilnLoad& load_in)
    : batch{batch_in}, load{load_in}, kind{batch_in.loads[index(load_in.load)].kind} {
  columns.resize(batch.kiln.columns.size());
  for (int i = 0; i < static_cast<int>(load.levels.size()); ++i) add_level(i);
  for (std::vector<int>& column : columns) {
    std::ranges::stable_sort(column, {},
                             [this](int level) { return load.levels[index(level)].level; });
  }
  for (const PlacedPost& post : load.floor_posts) add_post(post, -1, over_floor(post));
  for (int i = 0; i < static_cast<int>(load.levels.size()); ++i) {
    for (const PlacedPost& post : load.levels[index(i)].posts)
      add_post(post, i, carried_on(i, post));
  }
}

void View::add_level(int i) {
  const Level& level = load.levels[index(i)];
  for (const int column : columns_of(i)) columns[index(column)].push_back(i);
  const ShelfKind& shelf = batch.kiln.shelves[index(level.shelf)];
  Region edge = placed(Region{shelf.shape.outline, shelf.shape.round, {}}, level.shelf_at);
  const double top = level.shelf_top.mm();
  const Box box = bounding_box(edge);
  shelves.push_back({&shelf, i, std::move(edge), box, {top - shelf.thickness.mm(), top}});
  for (const PlacedPiece& piece : level.pieces) {
    SizedPiece size = measured(batch, piece, kind);
    Footprint ground = placed(size.footprint, piece.place);
    const Box around = bounding_box(ground);
    const Span z{top, top + size.height.mm()};
    pieces.push_back({&piece, &batch.pieces[index(piece.piece)], i, std::move(size),
                      std::move(ground), around, z});
  }
}

void View::add_post(const PlacedPost& post, int stands_on, int carries) {
  Footprint foot = ground(batch, post);
  const Box box = bounding_box(foot);
  const double low = stands_on < 0 ? 0 : shelves[index(stands_on)].z.high;
  const double high = low + height_of(batch, post).mm();
  posts.push_back({&post, stands_on, carries, std::move(foot), box, {low, high}});
}

// The lowest shelf over a post on the floor; where two are, the one at the post's height.
int View::over_floor(const PlacedPost& post) const {
  int over = -1;
  for (const std::vector<int>& column : columns) {
    if (column.empty()) continue;
    const StandingShelf& shelf = shelves[index(column.front())];
    if (!holds(shelf.edge, post.at)) continue;
    const double off = shelf.z.low - height_of(batch, post).mm();
    if (over < 0 || std::abs(off) <= kTolerance) over = column.front();
  }
  return over;
}

// Over a bridge several columns may go on: the shelf over the post, the one at its height first.
int View::carried_on(int level, const PlacedPost& post) const {
  const std::vector<int> next = above(level);
  if (bridge(level) == nullptr) return next.empty() ? -1 : next.front();
  const double top = shelves[index(level)].z.high + height_of(batch, post).mm();
  int over = -1;
  for (const int one : next) {
    if (!holds(shelves[index(one)].edge, post.at)) continue;
    if (over < 0 || std::abs(shelves[index(one)].z.low - top) <= kTolerance) over = one;
  }
  return over;
}

const Bridge* View::bridge(int level) const {
  const int bridge = load.levels[index(level)].bridge;
  return bridge < 0 ? nullptr : &batch.kiln.bridges[index(bridge)];
}

std::vector<int> View::columns_of(int level) const {
  const Bridge* across = bridge(level);
  return across == nullptr ? std::vector<int>{load.levels[index(level)].column} : across->over;
}

int View::above(int level, int column) const {
  const std::vector<int>& levels = columns[index(column)];
  const auto here = std::ranges::find(levels, level);
  return here == levels.end() || here + 1 == levels.end() ? -1 : *(here + 1);
}

std::vector<int> View::above(int level) const {
  std::vector<int> next;
  for (const int column : columns_of(level)) {
    const int one = above(level, column);
    if (one >= 0 && std::ranges::find(next, one) == next.end()) next.push_back(one);
  }
  return next;
}

std::vector<const StandingPost*> View::carriers(int level, int column) const {
  std::vector<const StandingPost*> all = carriers(level);
  if (bridge(level) == nullptr) return all;
  const Column& here = batch.kiln.columns[index(column)];
  std::erase_if(all, [&](const StandingPost* post) {
    return std::ranges::none_of(here.shelves, [&](int shelf) {
      return holds(placed(batch.kiln.shelves[index(shelf)].shape, here.at), post->placed->at);
    });
  });
  return all;
}

std::vector<const StandingPost*> View::carriers(int level) const {
  std::vector<const StandingPost*> carriers;
  for (const StandingPost& post : posts) {
    if (post.carries == level) carriers.push_back(&post);
  }
  return carriers;
}

std::string View::words() const {
  return fmt::format("{}, load {}", batch.loads[index(load.load)].name, load.round);
}

std::string View::words(int level) const {
  const Level& here = load.levels[index(level)];
  std::string shelf = fmt::format("shelf {} ({})", here.level, words());
  if (batch.kiln.columns.size() == 1) return shelf;
  if (bridge(level) != nullptr) return bridge(level)->name + ", " + shelf;
  return batch.kiln.columns[index(here.column)].name + ", " + shelf;
}

std::string View::words(const StandingPiece& piece) const {
  return fmt::format("'{}' {} on {}", piece.kind->name, piece.placed->number, words(piece.level));
}

}  // namespace placer::check
