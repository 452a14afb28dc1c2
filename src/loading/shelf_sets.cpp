#include "loading/shelf_sets.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

#include "loading/company.h"
#include "loading/index.h"

namespace placer::loading {
namespace {

constexpr double kSame = 1e-6;  // mm
constexpr double kSure = 1e-7;
constexpr int kMostCeilings = 12;

bool near(Point a, Point b) { return std::abs(a.x - b.x) < kSame && std::abs(a.y - b.y) < kSame; }

bool moved(const Outline& a, const Outline& b, Point by) {
  return std::equal(a.corners.begin(), a.corners.end(), b.corners.begin(), b.corners.end(),
                    [&](Point p, Point q) { return near(p + by, q); });
}

bool moved(const Disc& a, const Disc& b, Point by) {
  return near(a.centre + by, b.centre) && std::abs(a.radius - b.radius) < kSame;
}

bool moved(const Footprint& a, const Footprint& b, Point by) {
  const auto discs = [&](const Disc& x, const Disc& y) { return moved(x, y, by); };
  const auto outlines = [&](const Outline& x, const Outline& y) { return moved(x, y, by); };
  return std::equal(a.discs.begin(), a.discs.end(), b.discs.begin(), b.discs.end(), discs) &&
         std::equal(a.outlines.begin(), a.outlines.end(), b.outlines.begin(), b.outlines.end(),
                    outlines);
}

/// Whether one site is the other, moved along.
bool alike(const Site& a, const Site& b) {
  if (a.shelf != b.shelf || a.posts.size() != b.posts.size() || a.posts.empty()) return false;
  const Point by = b.posts.front() - a.posts.front();
  const auto at_place = [&](Point p, Point q) { return near(p + by, q); };
  const auto keep_out = [&](const Footprint& x, const Footprint& y) { return moved(x, y, by); };
  const Region& x = a.ground;
  const Region& y = b.ground;
  return std::equal(a.posts.begin(), a.posts.end(), b.posts.begin(), at_place) &&
         x.round.has_value() == y.round.has_value() &&
         (!x.round || moved(*x.round, *y.round, by)) && moved(x.outline, y.outline, by) &&
         std::equal(x.keep_outs.begin(), x.keep_outs.end(), y.keep_outs.begin(), y.keep_outs.end(),
                    keep_out);
}

bool same_shape(const Footprint& a, const Footprint& b) { return moved(a, b, Point{}); }

Pieces set_on(const Filled& filled, std::size_t sorts) {
  Pieces set(sorts);
  for (const Standing& one : filled.set) at(set, one.sort) += one.stack;
  return set;
}

}  // namespace

bool covers(const Pieces& a, const Pieces& b) {
  return std::equal(a.begin(), a.end(), b.begin(), [](int x, int y) { return x >= y; });
}

std::vector<Pieces> fullest_of(std::vector<Pieces> all) {
  std::sort(all.begin(), all.end(), std::greater<>{});
  all.erase(std::unique(all.begin(), all.end()), all.end());
  std::vector<Pieces> kept;
  for (Pieces& one : all) {
    const bool covered = std::any_of(kept.begin(), kept.end(),
                                     [&](const Pieces& other) { return covers(other, one); });
    if (!covered) kept.push_back(std::move(one));
  }
  return kept;
}

ShelfSets::ShelfSets(const Job& job, const Pieces& left, const Care& care, int most_fills,
                     int most_parts)
    : job_{&job}, left_{left}, care_{care}, most_fills_{most_fills}, most_parts_{most_parts} {
  find_ceilings();
  count_parts();
  too_many_ = count_of(ceilings_) > kMostCeilings || ceilings_.empty();
  if (too_many_) return;
  find_sites();
  int looks = 0;
  int parts = 0;
  for (int kind = 0; kind < kinds(); ++kind) {
    for (int c = 0; c < count_of(ceilings_); ++c) {
      if (c + 1 < count_of(ceilings_) && stacks_alike(c)) continue;
      for (const bool open : {false, true}) {
        Pieces none(left_.size());
        count_roughly(walk({kind, open, c}), 0, none, looks, parts);
      }
    }
  }
  too_many_ = looks > most_fills_ || parts > most_parts_ || kinds() == 0;
}

int ShelfSets::kinds() const { return count_of(first_); }

void ShelfSets::find_sites() {
  const bool sides = std::any_of(job_->sorts.begin(), job_->sorts.end(),
                                 [](const Sort& sort) { return sort.wishes.side.has_value(); });
  const std::vector<Claim> claims = claims_of(*job_, left_);
  for (int c = 0; c < count_of(job_->columns); ++c) {
    const Site* site = usual_site(*job_, c);
    sites_.push_back(site);
    kinds_.push_back(-1);
    if (sites_.back() == nullptr) continue;
    for (int k = 0; k < kinds() && !sides; ++k) {
      if (kinds_.back() < 0 && alike(*at(sites_, at(first_, k)), *site)) kinds_.back() = k;
    }
    if (kinds_.back() >= 0) continue;
    kinds_.back() = kinds();
    first_.push_back(c);
    std::vector<Limit> limits;
    const Floor floor = floor_for(*job_, c, claims);
    if (!floor.edge.corners.empty()) limits = limits_of(*job_, c, floor, claims);
    for (Limit& limit : limits) {
      std::vector<double> by_sort(left_.size(), 0);
      for (int k = 0; k < count_of(claims); ++k)
        at(by_sort, at(claims, k).sort) = at(limit.weight, k);
      limit.weight = std::move(by_sort);
    }
    limits_.push_back(std::move(limits));
  }
}

void ShelfSets::find_ceilings() {
  for (int s = 0; s < count(); ++s) {
    const auto& stacks = at(job_->sorts, s).stacks;
    for (int n = 1; n <= std::min(count_of(stacks), at(left_, s)); ++n) {
      const Length height = at(stacks, n - 1).height;
      if (height <= lid(job_->batch->kiln)) ceilings_.push_back(height);
    }
  }
  std::sort(ceilings_.begin(), ceilings_.end());
  ceilings_.erase(std::unique(ceilings_.begin(), ceilings_.end()), ceilings_.end());
}

void ShelfSets::count_parts() {
  for (const Sort& sort : job_->sorts) {
    const Footprint& shape = sort.stacks.front().footprint;
    int parts = count_of(shape.discs);
    for (const Outline& outline : shape.outlines) parts += count_of(outline.corners);
    parts_of_.push_back(parts);
  }
}

int ShelfSets::parts_in(const Pieces& pieces) const {
  int parts = 0;
  for (int s = 0; s < count(); ++s) parts += at(pieces, s) * at(parts_of_, s);
  return parts;
}

int ShelfSets::most_in_stack(int s, int ceiling) const {
  const auto& stacks = at(job_->sorts, s).stacks;
  int most = 0;
  for (int n = 1; n <= std::min(count_of(stacks), at(left_, s)); ++n) {
    if (at(stacks, n - 1).height <= at(ceilings_, ceiling)) most = n;
  }
  return most;
}

/// Whether what may stand under the ceiling at all stands as it does under the highest.
bool ShelfSets::stacks_alike(int ceiling) const {
  for (int s = 0; s < count(); ++s) {
    const int most = most_in_stack(s, ceiling);
    if (most > 0 && most != most_in_stack(s, count_of(ceilings_) - 1)) return false;
  }
  return true;
}

bool ShelfSets::same_ground(int a, int b, int ceiling) const {
  const Sort& x = at(job_->sorts, a);
  const Sort& y = at(job_->sorts, b);
  if (most_in_stack(a, ceiling) != 1 || most_in_stack(b, ceiling) != 1) return false;
  if (x.runny != y.runny || x.turns != y.turns || x.wishes.side || y.wishes.side) return false;
  const bool any_weight = std::isinf(most_on_shelf_kg(job_->batch->kiln));
  if (!any_weight && x.stacks.front().mass.kg() != y.stacks.front().mass.kg()) return false;
  if (!same_shape(x.stacks.front().footprint, y.stacks.front().footprint)) return false;
  return std::none_of(job_->sorts.begin(), job_->sorts.end(), [&](const Sort& other) {
    return apart(*job_, x, other) || apart(*job_, y, other);
  });
}

ShelfSets::Walk ShelfSets::walk(const Storey& storey) const {
  Walk walk;
  walk.storey = storey;
  for (int s = 0; s < count(); ++s) {
    walk.like.push_back(s);
    if (at(left_, s) == 0 || most_in_stack(s, storey.ceiling) == 0) continue;
    walk.order.push_back(s);
    for (int other = s - 1; other >= 0; --other) {
      if (at(left_, other) > 0 && same_ground(s, other, storey.ceiling))
        at(walk.like, s) = at(walk.like, other);
    }
  }
  std::stable_sort(walk.order.begin(), walk.order.end(), [&](int a, int b) {
    return at(job_->sorts, a).ground() > at(job_->sorts, b).ground();
  });
  return walk;
}

bool ShelfSets::within_limits(const Storey& storey, const Pieces& pieces) const {
  const auto& limits = at(limits_, storey.kind);
  return std::all_of(limits.begin(), limits.end(), [&](const Limit& limit) {
    double sum = 0;
    for (int s = 0; s < count(); ++s) sum += at(limit.weight, s) * at(pieces, s);
    const double most = storey.open ? limit.top : limit.under;
    return sum <= most + kSure * (1 + std::abs(most));
  });
}

Pieces ShelfSets::by_ground(const Walk& walk, const Pieces& pieces) const {
  Pieces sum(pieces.size());
  for (int s = 0; s < count(); ++s) at(sum, at(walk.like, s)) += at(pieces, s);
  return sum;
}

std::optional<Filled> ShelfSets::packed(int column, const Storey& storey,
                                        const Pieces& pieces) const {
  Supply supply;
  supply.left = pieces;
  supply.price.assign(pieces.size(), 1);
  supply.pinned.assign(pieces.size(), 0);
  Room room = room_at_any_height(*job_, *at(sites_, column), storey.open);
  room.clear = at(ceilings_, storey.ceiling);
  Care glance = care_;
  glance.steps = 0;
  Filled filled = fill(*job_, supply, room, glance);
  if (set_on(filled, pieces.size()) == pieces) return filled;
  if (care_.steps == 0) return std::nullopt;
  filled = fill(*job_, supply, room, care_);
  if (set_on(filled, pieces.size()) == pieces) return filled;
  return std::nullopt;
}

bool ShelfSets::stand(const Walk& walk, const Pieces& pieces) {
  if (!within_limits(walk.storey, pieces)) return false;
  Known& known = known_[{walk.storey.kind, walk.storey.open ? 1 : 0, walk.storey.ceiling}];
  const Pieces sum = by_ground(walk, pieces);
  const auto covered = [&](const Pieces& other) { return covers(other, sum); };
  const auto beyond = [&](const Pieces& other) { return covers(sum, other); };
  if (std::any_of(known.stand.begin(), known.stand.end(), covered)) return true;
  if (std::any_of(known.fail.begin(), known.fail.end(), beyond)) return false;
  parts_ += parts_in(sum);
  too_many_ = too_many_ || parts_ > most_parts_;
  if (too_many_) return false;
  const bool stands = packed(at(first_, walk.storey.kind), walk.storey, sum).has_value();
  (stands ? known.stand : known.fail).push_back(sum);
  return stands;
}

/// Every fullest set, sort by sort; of the last sort, as many as still stand, at most `most`: so
/// many stood with less beside them. What stands of it beside the pieces alone.
int ShelfSets::count_through(Walk& walk, int i, Pieces& pieces, int most) {
  const int s = at(walk.order, i);
  if (i + 1 == count_of(walk.order)) {
    int n = std::min(most, at(left_, s));
    for (at(pieces, s) = n; n > 0 && !stand(walk, pieces);) at(pieces, s) = --n;
    walk.found.push_back(pieces);
    at(pieces, s) = 0;
    return n;
  }
  int first = -1;
  for (int n = 0; n <= at(left_, s); ++n) {
    at(pieces, s) = n;
    if (n > 0 && !stand(walk, pieces)) break;
    most = count_through(walk, i + 1, pieces, most);
    if (first < 0) first = most;
  }
  at(pieces, s) = 0;
  return first;
}

void ShelfSets::count_roughly(const Walk& walk, int i, Pieces& pieces, int& looks,
                              int& parts) const {
  if (i + 1 >= count_of(walk.order)) {
    ++looks;
    parts += parts_in(pieces);
    return;
  }
  const int s = at(walk.order, i);
  for (int n = 0; n <= at(left_, s) && looks <= most_fills_ && parts <= most_parts_; ++n) {
    at(pieces, s) = n;
    if (!within_limits(walk.storey, pieces)) break;
    if (at(walk.like, s) != s && n > 0) break;
    count_roughly(walk, i + 1, pieces, looks, parts);
  }
  at(pieces, s) = 0;
}

const std::vector<Pieces>& ShelfSets::fullest(const Storey& storey) {
  auto& sets = fullest_[{storey.kind, storey.open ? 1 : 0, storey.ceiling}];
  if (!sets.empty()) return sets;
  std::vector<Pieces> found;
  if (storey.ceiling + 1 < count_of(ceilings_) && stacks_alike(storey.ceiling)) {
    found = fullest({storey.kind, storey.open, count_of(ceilings_) - 1});
    for (Pieces& one : found) {
      for (int s = 0; s < count(); ++s) {
        if (most_in_stack(s, storey.ceiling) == 0) at(one, s) = 0;
      }
    }
  } else {
    Walk through = walk(storey);
    Pieces none(left_.size());
    count_through(through, 0, none, std::numeric_limits<int>::max());
    found = std::move(through.found);
  }
  return sets = fullest_of(std::move(found));
}

std::optional<Filled> ShelfSets::filled(int column, const Storey& storey,
                                        const Pieces& pieces) const {
  if (auto filled = packed(column, storey, pieces)) return filled;
  // As it was found out: all that take the same ground as one sort.
  const Walk through = walk(storey);
  Pieces sum = by_ground(through, pieces);
  auto filled = packed(column, storey, sum);
  if (!filled) return std::nullopt;
  Pieces rest = pieces;
  for (Standing& one : filled->set) {
    if (at(through.like, one.sort) != one.sort) continue;
    for (int s = 0; s < count(); ++s) {
      if (at(through.like, s) != one.sort || at(rest, s) < one.stack) continue;
      at(rest, s) -= one.stack;
      one.sort = s;
      break;
    }
  }
  return filled;
}

}  // namespace placer::loading
