#include "report/cone_place.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/cone_spots.h"
#include "report/keep_outs.h"
#include "report/onto_paper.h"
#include "report/words.h"

namespace placer::report {
namespace {

constexpr double kSameDistance = 50;  // mm: columns no farther than that are as near as the nearest

Point nearest_on_edge(Point p, const Outline& edge) {
  Point best;
  double least = 1e300;
  for (std::size_t i = 0; i < edge.corners.size(); ++i) {
    const Point a = edge.corners[i];
    const Point along = edge.corners[(i + 1) % edge.corners.size()] - a;
    const double length = along.x * along.x + along.y * along.y;
    const Point to = p - a;
    const double part =
        length > 0 ? std::clamp((to.x * along.x + to.y * along.y) / length, 0.0, 1.0) : 0;
    const Point foot = a + part * along;
    if (away(p, foot) < least) {
      least = away(p, foot);
      best = foot;
    }
  }
  return best;
}

bool sees(const Band& hole, const Level& level) {
  const Band cones = cones_on(level);
  return std::min(hole.high, cones.high) - std::max(hole.low, cones.low) >= kLeastSeen;
}

bool high_enough(const Level& level) { return level.clear_height.mm() >= kPackHigh; }

// Shelves at the hole's height in the columns nearest to it: the one it looks at best first.
std::vector<std::size_t> candidates(const Batch& batch, const KilnLoad& load,
                                    const ConePlace& place) {
  const Band hole = looks_at(*place.hole, batch.kiln);
  struct Candidate {
    std::size_t level = 0;
    double away = 0, off = 0;
  };
  std::vector<Candidate> all;
  double least = 1e300;
  const Footprint eye{{{place.eye, 0.1}}, {}};
  for (std::size_t i = 0; i < load.levels.size(); ++i) {
    const Level& level = load.levels[i];
    const double distance = std::max(gap(eye, ground(batch, level)), 0.0);
    least = std::min(least, distance);
    if (!sees(hole, level)) continue;
    const double middle = std::clamp(level.shelf_top.mm() + kPackHigh / 2, hole.low, hole.high);
    all.push_back({i, distance, std::abs(level.shelf_top.mm() + kPackHigh / 2 - middle)});
  }
  std::erase_if(all, [&](const Candidate& one) { return one.away > least + kSameDistance; });
  std::stable_sort(all.begin(), all.end(),
                   [](const Candidate& a, const Candidate& b) { return a.off < b.off; });
  std::vector<std::size_t> levels;
  for (const Candidate& one : all) levels.push_back(one.level);
  return levels;
}

// The piece nearest the hole in whose stead a pack would stand in sight; 0 when one is not enough.
int piece_in_the_way(const Batch& batch, const KilnLoad& load, const Level& level,
                     const ConePlace& place) {
  constexpr std::size_t kMostTried = 12;
  std::vector<const PlacedPiece*> nearest;
  for (const PlacedPiece& piece : level.pieces) nearest.push_back(&piece);
  std::stable_sort(nearest.begin(), nearest.end(), [&](const auto* a, const auto* b) {
    return away(a->place.at, place.eye) < away(b->place.at, place.eye);
  });
  if (nearest.size() > kMostTried) nearest.resize(kMostTried);
  for (const PlacedPiece* piece : nearest) {
    if (nearest_spot(batch, load, level, place, piece)) return piece->number;
  }
  return 0;
}

std::string no_shelf_words(const Batch& batch, const ConePlace& place) {
  const Band hole = looks_at(*place.hole, batch.kiln);
  return fmt::format(
      "no shelf stands where the {} looks, at {} to {}: a prop under the pack may lift it there",
      place.hole->what, length_text(Length::from_mm(hole.low)),
      length_text(Length::from_mm(hole.high)));
}

void find(const Batch& batch, const KilnLoad& load, ConePlace& place) {
  const auto levels = candidates(batch, load, place);
  if (levels.empty()) {
    place.trouble = no_shelf_words(batch, place);
    return;
  }
  for (const std::size_t level : levels) {
    if (!high_enough(load.levels[level])) continue;
    const auto spot = nearest_spot(batch, load, load.levels[level], place);
    if (!spot) continue;
    place.level = level;
    place.middle = spot->first;
    place.pack = spot->second;
    return;
  }
  const auto best = std::find_if(levels.begin(), levels.end(), [&](std::size_t level) {
    return high_enough(load.levels[level]);
  });
  place.level = best != levels.end() ? *best : levels.front();
  const Level& level = load.levels[*place.level];
  if (best == levels.end()) {
    place.trouble = fmt::format("there are {} of room over it, and cones need {:.0f} mm",
                                length_text(level.clear_height), kPackHigh);
    return;
  }
  place.instead_of = piece_in_the_way(batch, load, level, place);
  place.trouble = fmt::format("the {} sees no free spot of {:.0f} x {:.0f} mm", place.hole->what,
                              kPackLong, kPackDeep);
}

}  // namespace

bool keeps_cone_places(const Kiln& kiln) {
  return std::any_of(kiln.keep_outs.begin(), kiln.keep_outs.end(),
                     [](const KeepOut& one) { return sign_of(one) == Sign::cones; });
}

std::vector<ConePlace> cone_places(const Batch& batch, const KilnLoad& load) {
  std::vector<ConePlace> places;
  if (keeps_cone_places(batch.kiln)) return places;
  const Outline wall = edge_polygon(batch.kiln.chamber, 0.1);
  for (const KeepOut& keep_out : batch.kiln.keep_outs) {
    if (sign_of(keep_out) != Sign::spy_hole) continue;
    ConePlace place;
    place.hole = &keep_out;
    place.eye = nearest_on_edge(roomiest(keep_out.area).centre, wall);
    find(batch, load, place);
    // Two holes may look at the same spot: one pack serves both.
    const bool same = std::any_of(places.begin(), places.end(), [&](const ConePlace& other) {
      return place.pack && other.pack && place.level == other.level &&
             gap(*place.pack, *other.pack) < kLeastGap;
    });
    if (!same) places.push_back(std::move(place));
  }
  return places;
}

std::vector<const ConePlace*> cones_on(const KilnLoad& load, const Level& level,
                                       const std::vector<ConePlace>& cones) {
  std::vector<const ConePlace*> here;
  for (const ConePlace& place : cones) {
    if (place.level && &load.levels.at(*place.level) == &level) here.push_back(&place);
  }
  return here;
}

std::string trouble_words(const ConePlace& place) {
  std::string words = place.trouble + ".";
  if (place.instead_of > 0) words += fmt::format(" Leave {} out for them", place.instead_of);
  if (place.instead_of > 0) words += ", or keep a place clear in the studio file.";
  return words;
}

std::string where_words(const Subject& subject, const KilnLoad& load, const ConePlace& place) {
  return place.level ? shelf_name(subject, load.levels.at(*place.level)) : "";
}

}  // namespace placer::report
