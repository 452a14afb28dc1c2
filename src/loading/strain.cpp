#include "loading/strain.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "loading/index.h"
#include "placer/model/tower.h"

namespace placer::loading {
namespace {

constexpr double kGravity = 9.81;

/// What is usual at most in one firing. Shelves do not break there, they sag: limits of creep.
struct Usual {
  double span = 0;                        ///< times the thickness; 0 = none known
  double stress_from = 0, stress_to = 0;  ///< MPa; 0 = none known
};

/// What a shelf of a material is usually asked to bear at two cones.
/// @source common practice and the beam formula, no published table. Spans: cordierite 25 times the
///   thickness at cone 10 and 30 at cone 6, nitride-bonded 60 times. Stress at 1250 to 1280 °C:
///   cordierite 0.3 to 0.5 MPa, clay-bonded carbide up to 1 MPa, nitride-bonded 5 to 10 MPa; of
///   cordierite at cone 6 what the longer span makes of it, (30 / 25)². High alumina is taken as
///   cordierite
struct Bands {
  const char* name;
  Usual cone_10, cone_6;
};

Bands bands_of(ShelfMaterial material) {
  switch (material) {
    case ShelfMaterial::cordierite:
      return {"cordierite", {25, 0.3, 0.5}, {30, 0.43, 0.72}};
    case ShelfMaterial::high_alumina:
      return {"high alumina", {25, 0.3, 0.5}, {30, 0.43, 0.72}};
    case ShelfMaterial::silicon_carbide:
      return {"silicon carbide", {0, 0.7, 1}, {}};
    case ShelfMaterial::nitride_bonded_carbide:
      break;
  }
  return {"nitride-bonded carbide", {60, 5, 10}, {60, 0, 0}};
}

// Cones 6 and 10 at 60 °C/h. Cooler than cone 5 or so there is no figure, and little creep.
constexpr Temperature kCone6{1222};
constexpr Temperature kCone10{1285};
constexpr Temperature kCoolest{1180};
constexpr Temperature kStressKnown{1250};  // the figures of stress begin here

double between(double low, double high, double part) { return low + part * (high - low); }

/// The limits of a firing: those of cone 10 and hotter, of cone 6 and cooler, or on the straight
/// line between the two. None for one too cool to sag. One whose end is not known counts as a cone
/// 10 firing if it is a glaze firing, and as too cool if it is a bisque.
Usual usual_in(const Load& load, const Bands& bands) {
  if (!load.top) return load.kind == FiringKind::glaze ? bands.cone_10 : Usual{};
  if (*load.top < kCoolest) return {};
  const double part = std::clamp((*load.top - kCone6).kelvin / (kCone10 - kCone6).kelvin, 0.0, 1.0);
  const Usual& cool = bands.cone_6;
  const Usual& hot = bands.cone_10;
  Usual usual;
  usual.span = between(cool.span, hot.span, part);
  if (cool.stress_to > 0) {
    usual.stress_from = between(cool.stress_from, hot.stress_from, part);
    usual.stress_to = between(cool.stress_to, hot.stress_to, part);
  } else if (*load.top >= kStressKnown) {
    usual.stress_from = hot.stress_from;
    usual.stress_to = hot.stress_to;
  }
  return usual;
}

/// "at cone 8", "at 1240 °C (2264 °F)", "in a glaze firing"
std::string end_words(const Load& load) {
  if (!load.cone.empty()) return "at cone " + load.cone;
  if (!load.top) return "in a glaze firing";
  return fmt::format("at {:.0f} °C ({:.0f} °F)", load.top->celsius, fahrenheit(*load.top));
}

/// One shelf with what carries it.
struct Carried {
  const KilnLoad* load = nullptr;
  const Level* level = nullptr;
  double span = 0;    ///< mm
  double stress = 0;  ///< MPa
  Usual usual;        ///< in its firing

  /// How far over what is usual; 1 is just at it, 0 where nothing is known.
  double wide(const ShelfKind& shelf) const {
    return usual.span > 0 ? span / shelf.thickness.mm() / usual.span : 0;
  }
  double heavy() const { return usual.stress_to > 0 ? stress / usual.stress_to : 0; }
};

Carried carried(const Batch& batch, const KilnLoad& load, const Level& level) {
  const ShelfKind& shelf = at(batch.kiln.shelves, level.shelf);
  double kg = mass_of(shelf).kg();
  for (const PlacedPiece& piece : level.pieces) kg += piece.mass.kg();
  Carried one{&load, &level, span_of(posts_under(batch, load, level)), 0, {}};
  const double pressure = kg * kGravity / (area(shelf.shape) * 1e-6);
  one.stress = stress(pressure, one.span, shelf.thickness.mm());
  one.usual = usual_in(at(batch.loads, load.load), bands_of(shelf.material));
  return one;
}

std::string where(const Batch& batch, const Carried& one) {
  return fmt::format("{} load {}, {}, shelf {}", at(batch.loads, one.load->load).name,
                     one.load->round, place_name(batch.kiln, *one.level), one.level->level);
}

std::string shelf_words(const ShelfKind& shelf, const Bands& bands) {
  return fmt::format("The shelf \"{}\" ({}, {:g} mm thick)", shelf.name, bands.name,
                     shelf.thickness.mm());
}

std::string too_wide(const Batch& batch, const ShelfKind& shelf, const Carried& widest) {
  const Bands bands = bands_of(shelf.material);
  const Load& load = at(batch.loads, widest.load->load);
  const bool one_band = bands.cone_10.span == bands.cone_6.span;
  const std::string known =
      one_band ? "common practice"
               : fmt::format("common practice: {:.0f} times at cone 10 and {:.0f} at cone 6",
                             bands.cone_10.span, bands.cone_6.span);
  return fmt::format(
      "{} has posts {:.0f} mm apart, {:.0f} times its thickness ({}); usual {} is {:.0f} times at "
      "most ({}): it may sag. Posts nearer to each other or a thicker shelf help.",
      shelf_words(shelf, bands), widest.span, widest.span / shelf.thickness.mm(),
      where(batch, widest), end_words(load), widest.usual.span, known);
}

std::string too_heavy(const Batch& batch, const ShelfKind& shelf, const Carried& worst) {
  const Bands bands = bands_of(shelf.material);
  double ware = 0;
  for (const PlacedPiece& piece : worst.level->pieces) ware += piece.mass.kg();
  return fmt::format(
      "{} bears {:.1f} kg of ware ({}): with its own weight that strains it by {:.2f} MPa, and "
      "{:.2g} to {:.2g} MPa are usual at most {} (common practice): it may sag. Fewer or lighter "
      "pieces on it help.",
      shelf_words(shelf, bands), ware, where(batch, worst), worst.stress, worst.usual.stress_from,
      worst.usual.stress_to, end_words(at(batch.loads, worst.load->load)));
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
    for (const Level& level : load.levels) {
      const Carried one = carried(batch, load, level);
      const ShelfKind& shelf = at(batch.kiln.shelves, level.shelf);
      if (one.wide(shelf) > at(widest, level.shelf).wide(shelf)) at(widest, level.shelf) = one;
      if (one.heavy() > at(worst, level.shelf).heavy()) at(worst, level.shelf) = one;
    }
  }
  std::vector<std::string> sentences;
  for (std::size_t k = 0; k < kinds; ++k) {
    const ShelfKind& shelf = batch.kiln.shelves[k];
    if (widest[k].wide(shelf) > 1) {
      sentences.push_back(too_wide(batch, shelf, widest[k]));
    } else if (worst[k].heavy() > 1) {
      sentences.push_back(too_heavy(batch, shelf, worst[k]));
    }
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
              at(batch.loads, load.load).name, load.round, place_name(batch.kiln, level),
              level.level, usual);
        }
      }
    }
    if (!words.empty()) sentences.push_back(words);
  }
  return sentences;
}

}  // namespace placer::loading
