#include "loading/hand.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "loading/bench.h"
#include "loading/hand_rows.h"
#include "loading/index.h"

namespace placer::loading {
namespace {

constexpr double kOneRow = 1;  // mm: pieces whose middles differ less stand in one row
constexpr int kLeastRow = 3;   // fewer side by side are not called a row

double away(Point a, Point b) { return std::hypot(a.x - b.x, a.y - b.y); }

/// How far the pieces of each sort lie from their like.
class Together {
 public:
  explicit Together(const Bench& bench) : bench_{&bench} {}

  /// What one of the sort has to the others of it, standing there.
  double to_its_like(int i, Point there, int other) const {
    double sum = 0;
    for (int j = 0; j < bench_->size(); ++j) {
      if (j == i || j == other) continue;
      if (at(bench_->things(), j).sort != at(bench_->things(), i).sort) continue;
      sum += away(there, at(bench_->things(), j).place.at);
    }
    return sum;
  }

  double gained_by_swap(int i, int j) const {
    const Point a = at(bench_->things(), i).place.at;
    const Point b = at(bench_->things(), j).place.at;
    return to_its_like(i, a, j) + to_its_like(j, b, i) - to_its_like(i, b, j) -
           to_its_like(j, a, i);
  }

 private:
  const Bench* bench_;
};

bool turn_is_free(const Bench& bench, int i, double turn) {
  const auto& turns = bench.turns(i);
  return turns.empty() || std::find(turns.begin(), turns.end(), turn) != turns.end();
}

/// Two change places when both fit where the other stood and each comes nearer to its like.
bool change_places(Bench& bench, int i, int j) {
  const Placement a = at(bench.things(), i).place;
  const Placement b = at(bench.things(), j).place;
  std::vector<char> both(bench.things().size());
  at(both, i) = at(both, j) = 1;
  const Placement to_b{b.at, turn_is_free(bench, i, b.turn_deg) ? b.turn_deg : a.turn_deg};
  const Placement to_a{a.at, turn_is_free(bench, j, a.turn_deg) ? a.turn_deg : b.turn_deg};
  if (bench.short_by(i, to_b, both) > 0 || bench.short_by(j, to_a, both) > 0) return false;
  bench.put(i, to_b);
  if (bench.may_stand(j, to_a)) {
    bench.put(j, to_a);
    return true;
  }
  bench.put(i, a);
  return false;
}

void bring_together(Bench& bench) {
  constexpr int kPasses = 3;
  for (int pass = 0; pass < kPasses; ++pass) {
    bool any = false;
    for (int i = 0; i < bench.size(); ++i) {
      for (int j = i + 1; j < bench.size(); ++j) {
        const Thing& a = at(bench.things(), i);
        const Thing& b = at(bench.things(), j);
        if (a.sort == b.sort || a.fixed || b.fixed) continue;
        if (std::abs(a.reach - b.reach) > 0.35 * std::max(a.reach, b.reach)) continue;
        if (Together{bench}.gained_by_swap(i, j) > 1) any |= change_places(bench, i, j);
      }
    }
    if (!any) return;
  }
}

/// Gives each piece the room that there is on all sides: a shelf packed tight on one side and loose
/// on the other is hard to set.
void ease(Bench& bench) {
  constexpr int kPasses = 4;
  for (int pass = 0; pass < kPasses; ++pass) {
    for (int i = 0; i < bench.size(); ++i) {
      if (at(bench.things(), i).fixed) continue;
      for (const double step : {4.0, 1.5, 0.6}) {
        Placement best = at(bench.things(), i).place;
        double least = bench.short_by(i, best);
        for (int way = 0; way < 8; ++way) {
          const Placement there{at(bench.things(), i).place.at + step * direction(45.0 * way),
                                best.turn_deg};
          const double off = bench.short_by(i, there);
          if (off > 0 || off >= least - 1e-6) continue;
          least = off;
          best = there;
        }
        bench.put(i, best);
      }
    }
  }
}

/// Turned that way where it stands, or up to a finger's width beside it.
bool turn_with_a_nudge(Bench& bench, int i, double turn) {
  const Thing& thing = at(bench.things(), i);
  const Point here = thing.place.at;
  for (const double step : {0.0, 4.0, 9.0, 15.0}) {
    for (int way = 0; way < (step > 0 ? 8 : 1); ++way) {
      const Placement there{here + step * direction(45.0 * way), turn};
      if (!bench.may_stand(i, there)) continue;
      bench.put(i, there);
      return true;
    }
  }
  return false;
}

/// Turns as many as can be the same way round; of several such ways the one that most can take.
void turn_one_way(Bench& bench) {
  const auto turn_all = [](Bench& on, double turn) {
    int turned = 0;
    for (int pass = 0; pass < 2; ++pass) {
      turned = 0;
      for (int i = 0; i < on.size(); ++i) {
        const Thing& thing = at(on.things(), i);
        if (thing.round || thing.fixed || !turn_is_free(on, i, turn)) continue;
        const Placement wanted{thing.place.at, turn};
        if (!on.may_stand(i, wanted)) continue;
        on.put(i, wanted);
        ++turned;
      }
    }
    return turned;
  };
  int most = 0;
  double best_turn = 0;
  Bench best = bench;
  for (const double turn : {0.0, 45.0, 315.0, 90.0, 270.0, 135.0, 225.0, 180.0}) {
    Bench on = bench;
    const int turned = turn_all(on, turn);
    if (turned <= most) continue;
    most = turned;
    best_turn = turn;
    best = std::move(on);
  }
  bench = std::move(best);
  for (int pass = 0; pass < 3 && most > 0; ++pass) {
    for (int i = 0; i < bench.size(); ++i) {
      const Thing& thing = at(bench.things(), i);
      if (thing.round || thing.fixed || thing.place.turn_deg == best_turn) continue;
      if (turn_is_free(bench, i, best_turn)) turn_with_a_nudge(bench, i, best_turn);
    }
  }
}

/// Whole millimetres, and whole degrees, where there is room for that.
void onto_grid(Bench& bench) {
  for (int i = 0; i < bench.size(); ++i) {
    const Thing& thing = at(bench.things(), i);
    if (thing.fixed) continue;
    const Placement is = thing.place;
    const double turn = thing.round && bench.turns(i).empty()             ? 0
                        : turn_is_free(bench, i, std::round(is.turn_deg)) ? std::round(is.turn_deg)
                                                                          : is.turn_deg;
    const double x = std::floor(is.at.x);
    const double y = std::floor(is.at.y);
    std::vector<Point> corners{{x, y}, {x + 1, y}, {x, y + 1}, {x + 1, y + 1}};
    std::stable_sort(corners.begin(), corners.end(),
                     [&](Point a, Point b) { return away(a, is.at) < away(b, is.at); });
    for (const double turned : {turn, is.turn_deg}) {
      const auto free = std::find_if(corners.begin(), corners.end(), [&](Point corner) {
        return bench.may_stand(i, {corner, turned});
      });
      if (free == corners.end()) continue;
      bench.put(i, {*free, turned});
      break;
    }
  }
}

struct Row {
  double y = 0;
  std::vector<int> pieces;  ///< indices into Level::pieces
};

std::vector<Row> rows_of(const Level& level) {
  std::vector<int> order(level.pieces.size());
  for (int i = 0; i < count_of(order); ++i) at(order, i) = i;
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
    return at(level.pieces, a).place.at.y > at(level.pieces, b).place.at.y;
  });
  std::vector<Row> rows;
  for (const int i : order) {
    const double y = at(level.pieces, i).place.at.y;
    if (rows.empty() || rows.back().y - y > kOneRow) rows.push_back({y, {}});
    rows.back().pieces.push_back(i);
  }
  return rows;
}

/// All of one kind in equal rows of two or more.
bool are_alike(const Level& level, const std::vector<Row>& rows) {
  const int kind = level.pieces.front().piece;
  const bool one_kind = std::all_of(level.pieces.begin(), level.pieces.end(),
                                    [&](const PlacedPiece& piece) { return piece.piece == kind; });
  return one_kind && rows.size() > 1 && rows[0].pieces.size() > 1 &&
         std::all_of(rows.begin(), rows.end(),
                     [&](const Row& row) { return row.pieces.size() == rows[0].pieces.size(); });
}

/// Rows as a person sets them: each of one kind, three or more side by side; only the first and
/// the last of a kind may be shorter.
bool are_rows(const Level& level, const std::vector<Row>& rows) {
  if (are_alike(level, rows)) return true;
  int long_ones = 0;
  for (std::size_t r = 0; r < rows.size(); ++r) {
    const int kind = at(level.pieces, rows[r].pieces.front()).piece;
    for (const int i : rows[r].pieces) {
      if (at(level.pieces, i).piece != kind) return false;
    }
    if (count_of(rows[r].pieces) >= kLeastRow) {
      ++long_ones;
      continue;
    }
    const auto of_other_kind = [&](std::size_t row) {
      return at(level.pieces, rows[row].pieces.front()).piece != kind;
    };
    const bool first_of_kind = r == 0 || of_other_kind(r - 1);
    const bool last_of_kind = r + 1 == rows.size() || of_other_kind(r + 1);
    if (!first_of_kind && !last_of_kind) return false;
  }
  return long_ones > 0 && 2 * long_ones >= count_of(rows);
}

/// "5 rows of 6", "rows of 4, 4, 3"; of several kinds "2 rows of 4 Mug, 1 row of 3 Bowl".
std::string row_words(const Batch& batch, const Level& level, const std::vector<Row>& rows) {
  const int kind = at(level.pieces, rows[0].pieces.front()).piece;
  const bool one_kind = std::all_of(level.pieces.begin(), level.pieces.end(),
                                    [&](const PlacedPiece& piece) { return piece.piece == kind; });
  std::vector<std::string> parts;
  for (std::size_t r = 0; r < rows.size();) {
    const int here = at(level.pieces, rows[r].pieces.front()).piece;
    std::size_t next = r;
    while (next < rows.size() && rows[next].pieces.size() == rows[r].pieces.size() &&
           at(level.pieces, rows[next].pieces.front()).piece == here) {
      ++next;
    }
    const bool stacks =
        std::any_of(rows.begin() + static_cast<std::ptrdiff_t>(r),
                    rows.begin() + static_cast<std::ptrdiff_t>(next), [&](const Row& row) {
                      return std::any_of(row.pieces.begin(), row.pieces.end(),
                                         [&](int i) { return at(level.pieces, i).stacked > 1; });
                    });
    const std::string of = fmt::format("{} row{} of {}{}", next - r, next - r == 1 ? "" : "s",
                                       rows[r].pieces.size(), stacks ? " stacks" : "");
    const std::string& name = at(batch.pieces, here).name;
    parts.push_back(one_kind ? of : of + (stacks ? " of " : " ") + name);
    r = next;
  }
  return fmt::format("{}", fmt::join(parts, ", "));
}

void take_places(const Bench& bench, Level& level) {
  for (int i = 0; i < bench.size(); ++i) {
    at(level.pieces, i).place = at(bench.things(), i).place;
  }
}

void set_level(const Job& job, const KilnLoad& load, Level& level) {
  auto bench = Bench::of(job, load, level);
  if (!bench) return;
  if (!set_in_close_rows(*bench) && !set_in_rows(*bench)) {
    bring_together(*bench);
    ease(*bench);
    turn_one_way(*bench);
    ease(*bench);
  }
  onto_grid(*bench);
  take_places(*bench, level);
}

}  // namespace

void set_by_hand(const Job& job, const Kept& kept, KilnLoad& load) {
  for (Level& level : load.levels) {
    if (is_kept(kept, load, level)) continue;
    set_level_by_hand(job, load, level);
  }
}

void set_level_by_hand(const Job& job, const KilnLoad& load, Level& level) {
  set_level(job, load, level);
  name_hand_rows(*job.batch, level);
}

bool set_level_in_rows(const Job& job, const KilnLoad& load, Level& level) {
  auto bench = Bench::of(job, load, level);
  if (!bench || (!set_in_close_rows(*bench) && !set_in_rows(*bench))) return false;
  onto_grid(*bench);
  take_places(*bench, level);
  name_hand_rows(*job.batch, level);
  return true;
}

void name_hand_rows(const Batch& batch, Level& level) {
  level.pattern.clear();
  for (PlacedPiece& piece : level.pieces) piece.row = 0;
  const std::vector<Row> rows = rows_of(level);
  if (level.pieces.empty() || !are_rows(level, rows)) return;
  for (int r = 0; r < count_of(rows); ++r) {
    for (const int i : at(rows, r).pieces) at(level.pieces, i).row = r + 1;
  }
  level.pattern = row_words(batch, level, rows);
}

}  // namespace placer::loading
