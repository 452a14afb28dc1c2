#include "loading/elsewhere.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "loading/bench.h"
#include "loading/company.h"
#include "loading/even.h"
#include "loading/index.h"

namespace placer::loading {
namespace {

constexpr double kLine = 12;  // mm from one line of places to the next
constexpr double kStep = 3;   // mm along a line, at least

/// Height, weight, wishes and company.
bool is_welcome(const Job& job, const KilnLoad& load, const Level& level, const Sort& sort,
                int stack) {
  const auto& sites = at(job.columns, level.column);
  const auto site = std::find_if(sites.begin(), sites.end(),
                                 [&](const Site& s) { return s.shelf == level.shelf; });
  if (site == sites.end()) return false;
  Room room;
  room.level = level.level;
  room.round = load.round;
  room.low = level.shelf_top;
  room.clear = level.clear_height;
  if (level.shelf_top + level.clear_height < lid(job.batch->kiln)) {
    room.clear = room.clear - job.clearances.air;
  }
  room.most_kg = mass_left_on(job.batch->kiln, load, level);
  if (!may_stand(job, sort, stack, room)) return false;
  return std::none_of(level.pieces.begin(), level.pieces.end(), [&](const PlacedPiece& other) {
    const int s = sort_of(job, kinds_of(other));
    return s >= 0 && apart(job, sort, at(job.sorts, s));
  });
}

/// Lines from left to right on which its place may be: those of its like, those of the others, then
/// all from far to near.
std::vector<double> lines(const Bench& bench, const Level& level, const PlacedPiece& piece) {
  std::vector<double> all;
  const auto add = [&](double y) {
    if (std::find(all.begin(), all.end(), y) == all.end()) all.push_back(y);
  };
  for (const PlacedPiece& other : level.pieces) {
    if (other.piece == piece.piece) add(other.place.at.y);
  }
  for (const PlacedPiece& other : level.pieces) add(other.place.at.y);
  const Box& box = bench.box();
  for (double y = std::floor(box.high.y); y > box.low.y; y -= kLine) add(y);
  return all;
}

std::vector<double> turns_of(const Bench& bench, int i, const PlacedPiece& piece) {
  if (!bench.turns(i).empty()) return bench.turns(i);
  if (at(bench.things(), i).round) return {piece.place.turn_deg};
  std::vector<double> turns{piece.place.turn_deg};
  for (const double turn : {0.0, 90.0, 180.0, 270.0}) {
    if (turn != piece.place.turn_deg) turns.push_back(turn);
  }
  return turns;
}

}  // namespace

std::optional<Placement> place_beside(const Job& job, const KilnLoad& load, const Level& level,
                                      const PlacedPiece& piece, int& looks) {
  const std::vector<int> kinds = kinds_of(piece);
  const int s = sort_of(job, kinds);
  if (s < 0 || level.bridge >= 0) return std::nullopt;
  const Sort& sort = at(job.sorts, s);
  const int stack = sort.kinds.size() > 1 ? 1 : count_of(kinds);
  if (stack > count_of(sort.stacks) || !is_welcome(job, load, level, sort, stack)) {
    return std::nullopt;
  }
  Level with = level;
  with.pieces.push_back(piece);
  const auto bench = Bench::of(job, load, with);
  if (!bench) return std::nullopt;
  double used = 0;
  for (const Thing& thing : bench->things()) used += ground_used(thing.shape, bench->gap());
  if (used > bench->ground()) return std::nullopt;
  const int i = bench->size() - 1;
  for (const double turn : turns_of(*bench, i, piece)) {
    for (const double y : lines(*bench, level, piece)) {
      for (double x = std::ceil(bench->box().low.x); x < bench->box().high.x && looks > 0;
           --looks) {
        const double off = bench->short_by(i, {{x, y}, turn});
        if (off <= 0) return Placement{{x, y}, turn};
        x += std::max(kStep, std::floor(off));
      }
    }
  }
  return std::nullopt;
}

}  // namespace placer::loading
