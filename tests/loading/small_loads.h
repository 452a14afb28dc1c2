/// @file small_loads.h
/// Small loads, made from a seed, whose best plan an exact solver can find: pieces stand in one row
/// or two on narrow shelves, so that what a shelf holds is counted and not packed.
///
/// Three kinds by turns: rectangles of several widths in one row; equal discs of several heights in
/// one row; rectangles that may touch in two rows (bisque). Posts stand across the shelf's ends, so
/// that a top shelf, which carries none, has longer rows than the others.
#pragma once

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "loading/studios.h"
#include "placer/model/batch.h"

namespace placer::small_loads {

/// A load as whole numbers; all of it in 1/1000 mm so that nothing is lost.
struct Small {
  Batch batch;
  int rows = 1;
  long long row_between = 0;  ///< length of a row between posts
  long long row_on_top = 0;
  long long gap = 0;
  std::vector<long long> wide, tall;  ///< of each kind of piece
};

constexpr double kPostRadius = 18;
constexpr double kEnd = 46;  ///< from the shelf's end to the posts' middles

inline long long thousandths(double mm) { return std::llround(mm * 1000); }

inline void add_small_kiln(Random& random, Batch& batch, double length, double depth,
                           double post_off) {
  Kiln& kiln = batch.kiln;
  const int columns = random.below(4) == 0 ? 2 : 1;
  const double apart = depth + 30;
  const double deep = columns * apart + 200;
  kiln.name = "small";
  kiln.chamber.outline = rectangle(length + 200, deep);
  kiln.height = Length::from_mm(static_cast<double>(studios::whole(random, 380, 680)));
  kiln.first_shelf = Length::from_mm(random.below(2) == 0 ? 0 : 25);
  kiln.shelves.push_back(studios::shelf("narrow", {rectangle(length, depth), {}, {}},
                                        static_cast<double>(studios::whole(random, 12, 22)),
                                        studios::whole(random, 3, 3 + 3 * columns)));
  for (int c = 0; c < columns; ++c) {
    const double y = columns == 1 ? 0 : (c == 0 ? apart / 2 : -apart / 2);
    const double x = length / 2 - kEnd;
    kiln.columns.push_back({columns == 1 ? "middle" : (c == 0 ? "back" : "front"),
                            {0},
                            {{0, y}, 0},
                            {{-x, y + post_off}, {-x, y - post_off}, {x, y}},
                            {}});
  }
  double height = 20;
  const int kinds = studios::whole(random, 2, 3);
  for (int i = 0; i < kinds; ++i) {
    height += static_cast<double>(studios::whole(random, i == 0 ? 5 : 25, 75));
    kiln.posts.push_back({Length::from_mm(height),
                          {{{{0, 0}, kPostRadius}}, {}},
                          3 * studios::whole(random, 1, 4) + studios::whole(random, 0, 2),
                          Mass::from_kg(0.2),
                          {}});
  }
}

/// How far along a row pieces keep from the posts at the shelf's ends: rectangles reach over the
/// posts' middles; discs of the row's full depth pass a pair of posts at the row's rims.
inline double row_between_posts(double length, double gap) {
  return length - 2 * (kEnd + kPostRadius + gap);
}

inline void add_small_piece(Random& random, Small& small, int number, Footprint shape,
                            double wide) {
  const double tall = static_cast<double>(studios::whole(random, 30, 170));
  PieceKind piece = studios::piece("piece " + std::to_string(number), studios::whole(random, 2, 9),
                                   std::move(shape), tall);
  piece.wishes.turn_deg = 0;
  small.batch.pieces.push_back(std::move(piece));
  small.wide.push_back(thousandths(wide));
  small.tall.push_back(thousandths(tall));
}

inline Small small_load(std::uint64_t seed) {
  Random random{seed * 1000003 + 17};
  const int family = static_cast<int>(seed % 3);
  Small small;
  Batch& batch = small.batch;
  batch.clays.push_back({});
  batch.clays[0].name = "clay";
  batch.clays[0].shrinkage = {0, 0, 0};
  batch.glazes.push_back({"clear", false, {}});
  const bool bisque = family == 2;
  batch.loads.push_back(
      {bisque ? "bisque" : "glaze", bisque ? FiringKind::bisque : FiringKind::glaze, {}});
  const double gap = bisque ? 0 : 6;
  const double length = static_cast<double>(studios::whole(random, 400, 700));
  const double deep = static_cast<double>(studios::whole(random, 80, 130));
  small.rows = family == 2 ? 2 : 1;
  const double depth = small.rows * deep + (family == 1 ? 0 : studios::whole(random, 0, 8));
  small.gap = thousandths(gap);
  small.row_on_top = thousandths(length);
  small.row_between = thousandths(row_between_posts(length, gap));
  const int kinds = studios::whole(random, 2, 4);
  for (int i = 0; i < kinds; ++i) {
    if (family == 1) {
      add_small_piece(random, small, i + 1, studios::round(deep), deep);
    } else {
      const double wide = static_cast<double>(studios::whole(random, 75, 190));
      add_small_piece(random, small, i + 1, {{}, {rectangle(wide, deep)}}, wide);
    }
  }
  // So near to each other that no piece stands between the two at the left end.
  const double off = family == 2 ? deep / 2 : deep / 2 - kPostRadius - 4;
  if (family == 1) {
    // A disc as deep as its row meets the post in the middle of the row's end head on, and slips
    // between the two posts at the other end's rims as far as both let it.
    const double reach = deep / 2 + kPostRadius + gap;
    const double slip = off >= reach ? 0 : std::sqrt(reach * reach - off * off);
    const double left = std::max(deep / 2, kEnd + slip) - deep / 2;
    const double right = kEnd + kPostRadius + gap;
    small.row_between = static_cast<long long>(std::floor((length - left - right) * 1000));
  }
  add_small_kiln(random, batch, length, depth, off);
  for (PieceKind& piece : batch.pieces) piece.measured = bisque ? Stage::dry : Stage::bisque;
  return small;
}

}  // namespace placer::small_loads
