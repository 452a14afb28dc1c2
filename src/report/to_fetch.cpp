#include "report/to_fetch.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "placer/model/cone_place.h"
#include "report/cone_place.h"
#include "report/keep_outs.h"
#include "report/own_units.h"
#include "report/standing.h"
#include "report/words.h"

namespace placer::report {
namespace {

void add_shelves(std::vector<FetchLine>& lines, const Subject& subject, const KilnLoad& load) {
  std::map<int, int> counts;
  for (const Level& level : load.levels) ++counts[level.shelf];
  for (const auto& [shelf, count] : counts) {
    const ShelfKind& kind = subject.batch.kiln.shelves.at(static_cast<std::size_t>(shelf));
    lines.push_back({fmt::format("{}, {}", count_text(count, "shelf"), kind.name),
                     "clean, washed side up, no chips on the edge"});
  }
}

void add_posts(std::vector<FetchLine>& lines, const Subject& subject, const KilnLoad& load) {
  std::map<int, int> counts;
  const auto count = [&](const std::vector<PlacedPost>& posts) {
    for (const PlacedPost& post : posts) {
      for (const int part : post.parts) ++counts[part];
    }
  };
  count(load.floor_posts);
  for (const Level& level : load.levels) count(level.posts);
  const auto height = [&](int part) {
    return subject.batch.kiln.posts.at(static_cast<std::size_t>(part)).height;
  };
  std::vector<std::pair<int, int>> tallest_first(counts.begin(), counts.end());
  std::stable_sort(tallest_first.begin(), tallest_first.end(),
                   [&](const auto& a, const auto& b) { return height(a.first) > height(b.first); });
  for (const auto& [part, number] : tallest_first) {
    lines.push_back({fmt::format("{} of {}", count_text(number, "post"),
                                 length_text(height(part), subject.inches)),
                     ""});
  }
}

std::string cone_of(const Subject& subject, std::size_t firing) {
  if (firing >= subject.forecasts.size()) return "";
  const auto& end = subject.forecasts[firing].schedule.wish.target.end;
  const std::string* named = std::get_if<std::string>(&end);
  return named != nullptr && !named->empty() ? *named : subject.forecasts[firing].cone;
}

// The shelves with a place kept for cones, as long as they are few.
std::string kept_places_words(const Subject& subject, const KilnLoad& load) {
  std::vector<std::string> shelves;
  std::string over;  // the first shelf that such a place lies high over
  for (const Level& level : load.levels) {
    for (const KeepOut* one : keep_outs_here(subject.batch, level)) {
      if (sign_of(*one) != Sign::cones || !lies_over(subject.batch, level, *one)) continue;
      if (stands_here(level, *one)) {
        shelves.push_back(shelf_name(subject, level));
        break;
      }
      if (!over.empty()) continue;
      over = fmt::format("to the place kept over {}, on a prop {} high", shelf_name(subject, level),
                         length_text(begins_over(level, *one), subject.inches));
    }
  }
  constexpr std::size_t kFew = 3;
  if (shelves.empty() && !over.empty()) return over;
  if (shelves.empty()) return "NO SHELF stands where a place is kept for it";
  if (shelves.size() > kFew) return "to the place kept for it";
  return "to the place kept on " + joined(shelves);
}

// Where each pack stands, or why there is no place for it.
std::string cone_places_words(const Subject& subject, const KilnLoad& load) {
  if (keeps_cone_places(subject.batch.kiln)) return kept_places_words(subject, load);
  const std::string words = where_cones_go(subject, load);
  return words.empty() ? "where you can see them" : words;
}

void add_cones(std::vector<FetchLine>& lines, const Subject& subject, std::size_t firing) {
  const KilnLoad& load = subject.plan.firings.at(firing);
  const int packs = packs_for(subject.batch, load);
  const std::string words = count_text(packs, "cone pack");
  const std::string cone = cone_of(subject, firing);
  const std::string where = cone_places_words(subject, load);
  if (cone.empty()) {
    lines.push_back({words, where});
    return;
  }
  const auto& pack = subject.forecasts[firing].pack;
  const std::string which = pack.size() > 1
                                ? "cones " + joined(pack)
                                : "the cone before it, the cone itself, the one after it";
  lines.push_back({fmt::format("{} for cone {}", words, cone),
                   fmt::format("{}{}; {}", which, packs > 1 ? " in each" : "", where)});
}

// Pieces by glaze that may run.
void add_cookies(std::vector<FetchLine>& lines, const Subject& subject, const KilnLoad& load) {
  int count = 0;
  std::set<std::string> names;
  for (const Level& level : load.levels) {
    for (const PlacedPiece& piece : level.pieces) {
      if (!needs_cookie(subject.batch, load, piece)) continue;
      ++count;
      for (const int kind : kinds_of(piece)) {
        const auto& glaze = subject.batch.pieces.at(static_cast<std::size_t>(kind)).glaze;
        if (!glaze) continue;
        const Glaze& one = subject.batch.glazes.at(static_cast<std::size_t>(*glaze));
        if (one.runny) names.insert(one.name);
      }
    }
  }
  if (count == 0) return;
  lines.push_back(
      {fmt::format("{} under runny glaze", count_text(count, "cookie")),
       joined({names.begin(), names.end()}) + ": under each piece with a drop on its map"});
}

}  // namespace

std::vector<FetchLine> to_fetch(const Subject& subject, std::size_t firing) {
  const KilnLoad& load = subject.plan.firings.at(firing);
  std::vector<FetchLine> lines;
  add_shelves(lines, subject, load);
  add_posts(lines, subject, load);
  add_cones(lines, subject, firing);
  const bool glaze =
      subject.batch.loads.at(static_cast<std::size_t>(load.load)).kind == FiringKind::glaze;
  if (glaze) {
    add_cookies(lines, subject, load);
    // Common practice, no source: 3 mm bare over the shelf, 6 to 10 mm where a glaze runs.
    lines.push_back(
        {"wax and a sponge: every foot bare",
         in_own_units("3 mm up from the shelf, 6 to 10 mm where the glaze runs", subject.inches)});
  }
  lines.push_back({"kiln wash, a level, gloves", ""});
  return lines;
}

}  // namespace placer::report
