#include "loading/canonical.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "loading/index.h"
#include "placer/model/cone_place.h"
#include "placer/model/tower.h"

namespace placer::loading {
namespace {

using Key = std::vector<double>;

/// -0 and 0 are one number here: plans are compared byte by byte.
double plain(double v) { return v + 0.0; }

double turn_of(double degrees) {
  const double turn = std::remainder(degrees, 360);
  return plain(turn <= -180 ? turn + 360 : turn);
}

Point left_for_right(Point p) { return {plain(-p.x), p.y}; }

/// The corners counted from the one nearest in front, the leftmost of several.
void begin_in_front(Outline& outline) {
  auto& corners = outline.corners;
  for (Point& p : corners) p = {plain(p.x), plain(p.y)};
  const auto first = std::min_element(corners.begin(), corners.end(), [](Point a, Point b) {
    return a.y != b.y ? a.y < b.y : a.x < b.x;
  });
  std::rotate(corners.begin(), first, corners.end());
}

template <class Move>
void move_corners(Outline& outline, Move move) {
  for (Point& p : outline.corners) p = move(p);
  std::reverse(outline.corners.begin(), outline.corners.end());
}

template <class Move>
void move_parts(Footprint& shape, Move move) {
  for (Disc& disc : shape.discs) disc.centre = move(disc.centre);
  for (Outline& outline : shape.outlines) move_corners(outline, move);
}

void mirror(Footprint& shape) { move_parts(shape, left_for_right); }

void mirror(Region& region) {
  move_corners(region.outline, left_for_right);
  if (region.round) region.round->centre = left_for_right(region.round->centre);
  for (Footprint& keep_out : region.keep_outs) mirror(keep_out);
}

void mirror(Kiln& kiln) {
  mirror(kiln.chamber);
  for (KeepOut& keep_out : kiln.keep_outs) mirror(keep_out.area);
  for (ShelfKind& shelf : kiln.shelves) mirror(shelf.shape);
  for (PostKind& post : kiln.posts) mirror(post.foot);
  for (Column& column : kiln.columns) {
    column.at = {left_for_right(column.at.at), turn_of(-column.at.turn_deg)};
    for (Point& post : column.posts) post = left_for_right(post);
  }
  for (Bridge& bridge : kiln.bridges) {
    bridge.at = {left_for_right(bridge.at.at), turn_of(-bridge.at.turn_deg)};
  }
}

/// A piece is changed over front for back about its own middle: a mug, whose handle is on its
/// right, stays as it is. Its turns change with it.
Placement mirrored(const Placement& place) {
  return {left_for_right(place.at), turn_of(180 - place.turn_deg)};
}

void mirror(PieceKind& piece) {
  move_parts(piece.footprint, [](Point p) { return Point{p.x, plain(-p.y)}; });
  Wishes& wishes = piece.wishes;
  if (wishes.turn_deg) wishes.turn_deg = turn_of(180 - *wishes.turn_deg);
  if (wishes.pinned) wishes.pinned = mirrored(*wishes.pinned);
}

void begin_in_front(Footprint& shape) {
  for (Outline& outline : shape.outlines) begin_in_front(outline);
}

void begin_in_front(Batch& batch) {
  begin_in_front(batch.kiln.chamber.outline);
  for (KeepOut& keep_out : batch.kiln.keep_outs) begin_in_front(keep_out.area);
  for (ShelfKind& shelf : batch.kiln.shelves) begin_in_front(shelf.shape.outline);
  for (PostKind& post : batch.kiln.posts) begin_in_front(post.foot);
  for (PieceKind& piece : batch.pieces) begin_in_front(piece.footprint);
}

void add(Key& key, Point p) { key.insert(key.end(), {p.x, p.y}); }

void add(Key& key, const Outline& outline) {
  key.push_back(static_cast<double>(outline.corners.size()));
  for (const Point p : outline.corners) add(key, p);
}

void add(Key& key, const Footprint& shape) {
  key.push_back(static_cast<double>(shape.discs.size()));
  for (const Disc& disc : shape.discs) {
    add(key, disc.centre);
    key.push_back(disc.radius);
  }
  key.push_back(static_cast<double>(shape.outlines.size()));
  for (const Outline& outline : shape.outlines) add(key, outline);
}

void add(Key& key, const Region& region) {
  add(key, region.outline);
  const Disc round = region.round.value_or(Disc{});
  add(key, round.centre);
  key.push_back(round.radius);
  for (const Footprint& keep_out : region.keep_outs) add(key, keep_out);
}

void add_wishes(Key& key, const Wishes& wishes) {
  key.push_back(wishes.zone ? static_cast<double>(*wishes.zone) : -1);
  key.push_back(wishes.side ? static_cast<double>(*wishes.side) : -1);
  key.push_back(wishes.level.value_or(0));
  key.push_back((wishes.first_firing ? 1 : 0) + (wishes.must_go ? 2 : 0) +
                (wishes.set.empty() ? 0 : 4) + (wishes.inside ? 8 : 0) + (wishes.upright ? 16 : 0));
  key.push_back(static_cast<double>(wishes.apart.size()));
  key.push_back(wishes.turn_deg.value_or(1e6));
  const Placement pinned = wishes.pinned.value_or(Placement{{1e6, 1e6}, 0});
  add(key, pinned.at);
  key.push_back(pinned.turn_deg);
}

/// All of a kind that matters to loading, but not its name; the tall and wide come first.
Key key_of(const Batch& batch, const PieceKind& piece) {
  Key key{-piece.height.mm(), -area(piece.footprint)};
  add(key, piece.footprint);
  key.push_back(piece.mass.kg());
  key.push_back(static_cast<double>(piece.measured));
  const Clay& clay = at(batch.clays, piece.clay);
  key.insert(key.end(), {clay.shrinkage.drying, clay.shrinkage.to_bisque, clay.shrinkage.to_fired,
                         clay.loss_on_ignition, clay.water_when_thrown});
  for (const int load : piece.loads) key.push_back(load);
  key.push_back(piece.glaze ? (at(batch.glazes, *piece.glaze).runny ? 2 : 1) : 0);
  key.insert(key.end(), {static_cast<double>(piece.stacking.how),
                         static_cast<double>(piece.stacking.most), piece.stacking.step.mm()});
  add_wishes(key, piece.wishes);
  key.push_back(piece.count);
  return key;
}

Key key_of(const Column& column) {
  Key key{column.at.at.x, column.at.at.y, column.at.turn_deg};
  for (const Point post : column.posts) add(key, post);
  return key;
}

Key key_of(const Bridge& bridge) {
  Key key{bridge.at.at.x, bridge.at.at.y, bridge.at.turn_deg};
  for (const int column : bridge.over) key.push_back(column);
  for (const int shelf : bridge.shelves) key.push_back(shelf);
  return key;
}

Key key_of(const KeepOut& keep_out) {
  Key key{keep_out.from.mm(), keep_out.to.mm(), keep_out.shelves_too ? 1.0 : 0.0};
  add(key, keep_out.area);
  return key;
}

/// All of the batch that a mirror changes.
Key key_of(const Batch& batch) {
  Key key;
  const auto append = [&](const Key& more) { key.insert(key.end(), more.begin(), more.end()); };
  add(key, batch.kiln.chamber);
  for (const Column& column : batch.kiln.columns) append(key_of(column));
  for (const Bridge& bridge : batch.kiln.bridges) append(key_of(bridge));
  for (const KeepOut& keep_out : batch.kiln.keep_outs) append(key_of(keep_out));
  for (const ShelfKind& shelf : batch.kiln.shelves) add(key, shelf.shape);
  for (const PostKind& post : batch.kiln.posts) add(key, post.foot);
  for (const PieceKind& piece : batch.pieces) append(key_of(batch, piece));
  for (const int hole : holes_for_cones(batch.kiln)) key.push_back(hole);
  return key;
}

template <class Thing, class KeyOf>
void sort_by(std::vector<Thing>& things, std::vector<int>& numbers, KeyOf key_of_thing) {
  std::vector<std::pair<Key, int>> order;
  for (int i = 0; i < count_of(things); ++i) order.emplace_back(key_of_thing(at(things, i)), i);
  std::stable_sort(order.begin(), order.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<Thing> sorted;
  std::vector<int> sorted_numbers;
  for (const auto& [key, i] : order) {
    sorted.push_back(std::move(at(things, i)));
    sorted_numbers.push_back(at(numbers, i));
  }
  things = std::move(sorted);
  numbers = std::move(sorted_numbers);
}

std::vector<int> numbers_up_to(std::size_t count) {
  std::vector<int> numbers(count);
  std::iota(numbers.begin(), numbers.end(), 0);
  return numbers;
}

std::vector<int> other_way(const std::vector<int>& numbers) {
  std::vector<int> there(numbers.size());
  for (int i = 0; i < count_of(numbers); ++i) at(there, at(numbers, i)) = i;
  return there;
}

/// Sorted, with the potter's index of each.
struct Form {
  Batch batch;
  Numbers numbers;
};

/// The bridges over columns that have found their order.
void sort_bridges(Form& form) {
  const std::vector<int> there = other_way(form.numbers.columns);
  for (Bridge& bridge : form.batch.kiln.bridges) {
    for (int& column : bridge.over) column = at(there, column);
    std::sort(bridge.over.begin(), bridge.over.end());
  }
  sort_by(form.batch.kiln.bridges, form.numbers.bridges,
          [](const Bridge& bridge) { return key_of(bridge); });
}

Form form_of(const Batch& batch) {
  Form form{batch,
            {numbers_up_to(batch.pieces.size()), numbers_up_to(batch.kiln.columns.size()),
             numbers_up_to(batch.kiln.keep_outs.size()), numbers_up_to(batch.kiln.bridges.size())}};
  begin_in_front(form.batch);
  sort_by(form.batch.pieces, form.numbers.kinds,
          [&](const PieceKind& piece) { return key_of(form.batch, piece); });
  sort_by(form.batch.kiln.columns, form.numbers.columns,
          [](const Column& column) { return key_of(column); });
  sort_bridges(form);
  sort_by(form.batch.kiln.keep_outs, form.numbers.keep_outs,
          [asks = !holes_for_cones(batch.kiln).empty()](const KeepOut& keep) {
            Key key = key_of(keep);
            key.push_back(asks && is_spy_hole(keep) ? 1 : 0);
            return key;
          });
  return form;
}

Batch mirrored(Batch batch) {
  mirror(batch.kiln);
  for (PieceKind& piece : batch.pieces) mirror(piece);
  return batch;
}

}  // namespace

Canonical::Canonical(const Batch& batch) : kiln_{batch.kiln} {
  Form form = form_of(batch);
  Form other = form_of(mirrored(batch));
  mirrored_ = key_of(other.batch) < key_of(form.batch);
  if (mirrored_) form = std::move(other);
  batch_ = std::move(form.batch);
  potters_ = std::move(form.numbers);
  forms_ = {other_way(potters_.kinds), other_way(potters_.columns), other_way(potters_.keep_outs),
            other_way(potters_.bridges)};
}

PlacedPost Canonical::turned(const PlacedPost& post) const {
  PlacedPost there = post;
  if (mirrored_) {
    there.at = left_for_right(post.at);
    there.turn_deg = turn_of(-post.turn_deg);
  }
  return there;
}

PlacedPiece Canonical::turned(const PlacedPiece& piece, const std::vector<int>& kinds) const {
  PlacedPiece there = piece;
  there.piece = at(kinds, piece.piece);
  for (int& kind : there.stack) kind = at(kinds, kind);
  if (mirrored_) there.place = mirrored(piece.place);
  return there;
}

ConePack Canonical::turned(const ConePack& pack, const std::vector<int>& keep_outs) const {
  ConePack there = pack;
  there.spy_hole = at(keep_outs, pack.spy_hole);
  if (mirrored_) {
    const double half = std::remainder(-pack.place.turn_deg, 180);  // the same from both sides
    there.place = {left_for_right(pack.place.at), half <= -90 ? 90 : plain(half)};
  }
  return there;
}

Level Canonical::turned(const Level& level, const Numbers& numbers, const Kiln& kiln) const {
  Level there = level;
  there.column = at(numbers.columns, level.column);
  if (level.bridge >= 0) {
    there.bridge = at(numbers.bridges, level.bridge);
    there.column = at(kiln.bridges, there.bridge).over.front();
  }
  there.shelf_at = place_of(kiln, there);
  for (PlacedPost& post : there.posts) post = turned(post);
  for (PlacedPiece& piece : there.pieces) piece = turned(piece, numbers.kinds);
  for (ConePack& pack : there.cones) pack = turned(pack, numbers.keep_outs);
  return there;
}

Level Canonical::in_form(const Level& level) const { return turned(level, forms_, batch_.kiln); }

LoadPlan Canonical::back(const LoadPlan& plan) const {
  LoadPlan there = plan;
  for (KilnLoad& load : there.firings) {
    for (PlacedPost& post : load.floor_posts) post = turned(post);
    for (Level& level : load.levels) level = turned(level, potters_, kiln_);
    for (NoCones& none : load.no_cones) none.spy_hole = at(potters_.keep_outs, none.spy_hole);
    std::stable_sort(load.no_cones.begin(), load.no_cones.end(),
                     [](const NoCones& a, const NoCones& b) { return a.spy_hole < b.spy_hole; });
    if (has_bridge(load)) continue;  // listed as they are laid
    std::stable_sort(load.levels.begin(), load.levels.end(),
                     [](const Level& a, const Level& b) { return a.column < b.column; });
  }
  for (LeftOut& left : there.left_out) left.piece = at(potters_.kinds, left.piece);
  // What can stand nowhere is said first.
  std::stable_sort(there.left_out.begin(), there.left_out.end(),
                   [](const LeftOut& a, const LeftOut& b) {
                     const bool waits_a = a.code == "posts";
                     const bool waits_b = b.code == "posts";
                     return waits_a != waits_b ? waits_b : a.piece < b.piece;
                   });
  return there;
}

}  // namespace placer::loading
