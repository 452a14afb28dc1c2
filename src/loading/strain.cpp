#include "loading/strain.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "loading/index.h"

namespace placer::loading {
namespace {

constexpr double kGravity = 9.81;

/// What a shelf of this material is usually asked to bear in a glaze firing. Shelves do not break
/// there, they sag: the limits are of creep.
/// @source common practice and the beam formula, no published table: cordierite 25 times the
///   thickness at cone 10 and 30 at cone 6, 0.3 to 0.5 MPa; clay-bonded carbide up to 1 MPa;
///   nitride- bonded 60 times and 5 to 10 MPa. High alumina is taken as cordierite
struct Limits {
  const char* name;
  double span_hot, span;          ///< times the thickness; 0 = none known
  double stress_from, stress_to;  ///< MPa
};

Limits limits_of(ShelfMaterial material) {
  switch (material) {
    case ShelfMaterial::cordierite:
      return {"cordierite", 25, 30, 0.3, 0.5};
    case ShelfMaterial::high_alumina:
      return {"high alumina", 25, 30, 0.3, 0.5};
    case ShelfMaterial::silicon_carbide:
      return {"silicon carbide", 0, 0, 0.7, 1};
    case ShelfMaterial::nitride_bonded_carbide:
      break;
  }
  return {"nitride-bonded carbide", 60, 60, 5, 10};
}

/// One shelf with what carries it.
struct Carried {
  const KilnLoad* load = nullptr;
  const Level* level = nullptr;
  double span = 0;    ///< mm
  double stress = 0;  ///< MPa
};

std::vector<PlacedPost> under(const Batch& batch, const KilnLoad& load, const Level& level) {
  if (level.level > 1) {
    for (const Level& below : load.levels) {
      if (below.column == level.column && below.level == level.level - 1) return below.posts;
    }
  }
  const Region shelf = ground(batch, level);
  std::vector<PlacedPost> feet;
  for (const PlacedPost& post : load.floor_posts) {
    if (inset(Footprint{{Disc{post.at, 0.1}}, {}}, shelf) >= 0) feet.push_back(post);
  }
  return feet;
}

Carried carried(const Batch& batch, const KilnLoad& load, const Level& level) {
  const ShelfKind& shelf = at(batch.kiln.shelves, level.shelf);
  double kg = mass_of(shelf).kg();
  for (const PlacedPiece& piece : level.pieces) kg += piece.mass.kg();
  Carried one{&load, &level, span_of(under(batch, load, level)), 0};
  const double pressure = kg * kGravity / (area(shelf.shape) * 1e-6);
  one.stress = stress(pressure, one.span, shelf.thickness.mm());
  return one;
}

std::string where(const Batch& batch, const Carried& one) {
  return fmt::format("{} load {}, {}, shelf {}", at(batch.loads, one.load->load).name,
                     one.load->round, at(batch.kiln.columns, one.level->column).name,
                     one.level->level);
}

std::string shelf_words(const ShelfKind& shelf, const Limits& limits) {
  return fmt::format("The shelf \"{}\" ({}, {:g} mm thick)", shelf.name, limits.name,
                     shelf.thickness.mm());
}

std::optional<std::string> too_wide(const Batch& batch, const ShelfKind& shelf,
                                    const Carried& widest) {
  const Limits limits = limits_of(shelf.material);
  const double times = widest.span / shelf.thickness.mm();
  if (limits.span_hot <= 0 || times <= limits.span_hot) return std::nullopt;
  const std::string bands =
      limits.span_hot == limits.span
          ? fmt::format("{:.0f} times is usual at most", limits.span)
          : fmt::format("usual is {:.0f} times at most at cone 10 and {:.0f} at cone 6",
                        limits.span_hot, limits.span);
  return fmt::format(
      "{} has posts {:.0f} mm apart, {:.0f} times its thickness ({}); {} (common "
      "practice): it may sag. Posts nearer to each other or a thicker shelf help.",
      shelf_words(shelf, limits), widest.span, times, where(batch, widest), bands);
}

std::optional<std::string> too_heavy(const Batch& batch, const ShelfKind& shelf,
                                     const Carried& worst) {
  const Limits limits = limits_of(shelf.material);
  if (worst.stress <= limits.stress_to) return std::nullopt;
  double ware = 0;
  for (const PlacedPiece& piece : worst.level->pieces) ware += piece.mass.kg();
  return fmt::format(
      "{} bears {:.1f} kg of ware ({}): with its own weight that strains it by "
      "{:.2f} MPa, and {:g} to {:g} MPa are usual at most in a glaze firing (common "
      "practice): it may sag. Fewer or lighter pieces on it help.",
      shelf_words(shelf, limits), ware, where(batch, worst), worst.stress, limits.stress_from,
      limits.stress_to);
}

bool is_fire(const KeepOut& keep_out) {
  for (const char* word : {"flue", "burner", "bag wall"}) {
    if (keep_out.what.find(word) != std::string::npos) return true;
  }
  return false;
}

}  // namespace

double span_of(const std::vector<PlacedPost>& posts) {
  if (posts.size() < 3) return 0;
  Point middle;
  for (const PlacedPost& post : posts) {
    middle = middle + (1.0 / static_cast<double>(posts.size())) * post.at;
  }
  std::vector<Point> round;
  for (const PlacedPost& post : posts) round.push_back(post.at - middle);
  std::sort(round.begin(), round.end(),
            [](Point a, Point b) { return std::atan2(a.y, a.x) < std::atan2(b.y, b.x); });
  double longest = 0;
  for (std::size_t i = 0; i < round.size(); ++i) {
    const Point step = round[(i + 1) % round.size()] - round[i];
    longest = std::max(longest, std::hypot(step.x, step.y));
  }
  return longest;
}

double stress(double load_pa, double span_mm, double thick_mm) {
  const double slender = span_mm / thick_mm;
  return 0.75 * load_pa * slender * slender * 1e-6;
}

std::vector<std::string> strained_shelves(const Batch& batch, const LoadPlan& plan) {
  const auto kinds = batch.kiln.shelves.size();
  std::vector<Carried> widest(kinds);
  std::vector<Carried> worst(kinds);
  for (const KilnLoad& load : plan.firings) {
    if (at(batch.loads, load.load).kind != FiringKind::glaze)
      continue;  // bisque is too cool to sag
    for (const Level& level : load.levels) {
      const Carried one = carried(batch, load, level);
      if (one.span > at(widest, level.shelf).span) at(widest, level.shelf) = one;
      if (one.stress > at(worst, level.shelf).stress) at(worst, level.shelf) = one;
    }
  }
  std::vector<std::string> sentences;
  for (std::size_t k = 0; k < kinds; ++k) {
    if (widest[k].level == nullptr) continue;
    auto told = too_wide(batch, batch.kiln.shelves[k], widest[k]);
    if (!told) told = too_heavy(batch, batch.kiln.shelves[k], worst[k]);
    if (told) sentences.push_back(*told);
  }
  return sentences;
}

std::vector<std::string> crowded_fire(const Batch& batch, const LoadPlan& plan) {
  // Room to walls and roof of a fuel kiln, and a flue or port that is never blocked: 50 mm in a
  // bisque and 25 mm at least in a glaze firing. Source: BC Potters Guild loading notes.
  constexpr double kBisque = 50;
  constexpr double kGlaze = 25;
  std::vector<std::string> sentences;
  for (const KeepOut& keep_out : batch.kiln.keep_outs) {
    if (!is_fire(keep_out)) continue;
    double nearest = 1e18;
    std::string words;
    for (const KilnLoad& load : plan.firings) {
      const bool bisque = at(batch.loads, load.load).kind == FiringKind::bisque;
      const double usual = bisque ? kBisque : kGlaze;
      for (const Level& level : load.levels) {
        for (const PlacedPiece& piece : level.pieces) {
          const Length top = level.shelf_top + piece.height;
          const bool beside = keep_out.to <= keep_out.from ||
                              (keep_out.from < top && level.shelf_top < keep_out.to);
          if (!beside) continue;
          const double room = gap(ground(batch, load, piece), keep_out.area);
          if (room >= usual || room >= nearest) continue;
          nearest = room;
          words = fmt::format(
              "{} stands {:.0f} mm from the room kept for the {} ({} load {}, {}, shelf {}); "
              "{:.0f} "
              "mm are usual there so that the fire can pass: \"room\" in the studio file keeps "
              "more.",
              at(batch.pieces, piece.piece).name, std::max(0.0, room), keep_out.what,
              at(batch.loads, load.load).name, load.round,
              at(batch.kiln.columns, level.column).name, level.level, usual);
        }
      }
    }
    if (!words.empty()) sentences.push_back(words);
  }
  return sentences;
}

}  // namespace placer::loading
