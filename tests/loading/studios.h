/// @file studios.h
/// Invented studios, made from a seed: kilns of four shapes, furniture, mixed batches. The sizes
/// are ordinary ones for a small pottery; common practice, no source.
#pragma once

#include <algorithm>
#include <cmath>
#include <string>

#include "placer/base/random.h"
#include "placer/model/batch.h"

namespace placer::studios {

inline int whole(Random& random, int low, int high) {
  return low + static_cast<int>(random.below(static_cast<std::uint64_t>(high - low + 1)));
}

inline ShelfKind shelf(std::string name, Region shape, double thick, int have) {
  ShelfKind kind;
  kind.name = std::move(name);
  kind.shape = std::move(shape);
  kind.thickness = Length::from_mm(thick);
  kind.have = have;
  return kind;
}

inline void add_posts(Kiln& kiln, double scale) {
  const double radius = 18;
  for (const auto& [height, have] :
       {std::pair{13, 24}, {30, 24}, {60, 24}, {100, 24}, {120, 18}, {150, 18}, {200, 12}}) {
    kiln.posts.push_back({Length::from_mm(height),
                          {{{{0, 0}, radius}}, {}},
                          static_cast<int>(have * scale),
                          Mass::from_kg(0.002 * height),
                          {}});
  }
}

inline Kiln kiln(int shape) {
  Kiln kiln;
  kiln.height = Length::from_mm(shape == 2 ? 940 : 690);
  if (shape == 0) {  // round top loader, half shelves in two columns
    kiln.name = "round, half shelves";
    kiln.chamber.round = Disc{{0, 0}, 290};
    kiln.shelves.push_back(shelf("half round", half_disc(540), 18, 12));
    kiln.columns.push_back({"back", {0}, {{0, 3}, 0}, {}, {}});
    kiln.columns.push_back({"front", {0}, {{0, -3}, 180}, {}, {}});
  } else if (shape == 1) {
    kiln.name = "round, full shelves";
    kiln.chamber.round = Disc{{0, 0}, 300};
    kiln.shelves.push_back(shelf("round", {{}, Disc{{0, 0}, 270}, {}}, 18, 7));
    kiln.columns.push_back({"middle", {0}, {}, {}, {}});
  } else if (shape == 2) {  // front loader, two columns
    kiln.name = "front loader";
    kiln.opens = Opens::front;
    kiln.chamber.outline = rectangle(960, 620);
    kiln.shelves.push_back(shelf("wide", {rectangle(430, 520), {}, {}}, 18, 14));
    kiln.columns.push_back({"left", {0}, {{-225, 0}, 0}, {}, {}});
    kiln.columns.push_back({"right", {0}, {{225, 0}, 0}, {}, {}});
  } else {
    kiln.name = "octagon";
    kiln.chamber.outline = regular_polygon(8, 640);
    kiln.shelves.push_back(shelf("eight-sided", {regular_polygon(8, 580), {}, {}}, 20, 7));
    kiln.columns.push_back({"middle", {0}, {}, {}, {}});
  }
  add_posts(kiln, 1);
  return kiln;
}

inline Footprint round(double across) { return {{{{0, 0}, across / 2}}, {}}; }
inline Footprint handled(double across, double handle, double wide) {
  return {{{{0, 0}, across / 2}},
          {rectangle(Point{0, -wide / 2}, Point{across / 2 + handle, wide / 2})}};
}

inline PieceKind piece(std::string name, int count, Footprint footprint, double height) {
  PieceKind kind;
  kind.name = std::move(name);
  kind.count = count;
  kind.footprint = std::move(footprint);
  kind.height = Length::from_mm(height);
  kind.mass = Mass::from_kg(height * 0.004);
  kind.measured = Stage::bisque;
  kind.glaze = 0;
  kind.loads = {0};
  return kind;
}

inline PieceKind any_piece(Random& random, int number, int count) {
  const std::string no = " " + std::to_string(number);
  const auto mm = [&](int low, int high) { return static_cast<double>(whole(random, low, high)); };
  switch (random.below(8)) {
    case 0:
    case 1:
      return piece("mug" + no, count, handled(mm(78, 95), mm(25, 35), 18), mm(85, 125));
    case 2:
      return piece("tumbler" + no, count, round(mm(65, 85)), mm(90, 140));
    case 3:
      return piece("bowl" + no, count, round(mm(110, 190)), mm(55, 90));
    case 4:
      return piece("plate" + no, count, round(mm(160, 230)), mm(22, 35));
    case 5:
      return piece("vase" + no, std::max(1, count / 3), round(mm(90, 150)), mm(180, 320));
    case 6:
      return piece("jug" + no, std::max(1, count / 3), handled(mm(110, 140), 40, 22), mm(150, 240));
    default:
      return piece("tray" + no, std::max(1, count / 2),
                   {{}, {rectangle(mm(120, 220), mm(80, 140))}}, mm(20, 40));
  }
}

/// A batch of about `pieces` pieces of `kinds` kinds for one glaze firing.
inline Batch studio(std::uint64_t seed, int kinds, int pieces) {
  Random random{seed};
  Batch batch;
  batch.clays.push_back({});
  batch.clays[0].name = "stoneware";
  batch.glazes.push_back({"clear", false, {}});
  batch.loads.push_back({"glaze", FiringKind::glaze, {}});
  batch.kiln = kiln(static_cast<int>(seed % 4));
  for (int i = 0; i < kinds; ++i) {
    const int count = std::max(1, static_cast<int>(pieces * random.uniform(0.5, 1.5) / kinds));
    batch.pieces.push_back(any_piece(random, i + 1, count));
  }
  return batch;
}

inline int pieces_of(const Batch& batch) {
  int pieces = 0;
  for (const PieceKind& kind : batch.pieces) pieces += kind.count;
  return pieces;
}

}  // namespace placer::studios
