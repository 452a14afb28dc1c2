#include "report/to_fetch.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

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

void add_cones(std::vector<FetchLine>& lines, const Subject& subject, std::size_t firing) {
  const auto& keep_outs = subject.batch.kiln.keep_outs;
  const auto packs = std::count_if(keep_outs.begin(), keep_outs.end(), [](const KeepOut& one) {
    return one.what.find("cone") != std::string::npos;
  });
  const std::string packs_words =
      count_text(static_cast<int>(std::max<std::ptrdiff_t>(packs, 1)), "cone pack");
  std::string cone;
  if (firing < subject.forecasts.size()) {
    const auto& end = subject.forecasts[firing].schedule.wish.target.end;
    if (const std::string* named = std::get_if<std::string>(&end)) cone = *named;
    if (cone.empty()) cone = subject.forecasts[firing].cone;
  }
  if (cone.empty()) {
    lines.push_back({packs_words, "where a spy hole sees it"});
  } else {
    lines.push_back({fmt::format("{} for cone {}", packs_words, cone),
                     "the cone before it, the cone itself, the one after it"});
  }
}

// Pieces by glaze that may run.
void add_cookies(std::vector<FetchLine>& lines, const Subject& subject, const KilnLoad& load) {
  int count = 0;
  std::set<std::string> names;
  for (const Level& level : load.levels) {
    for (const PlacedPiece& piece : level.pieces) {
      const auto& glaze = subject.batch.pieces.at(static_cast<std::size_t>(piece.piece)).glaze;
      if (!glaze) continue;
      const Glaze& kind = subject.batch.glazes.at(static_cast<std::size_t>(*glaze));
      if (!kind.runny) continue;
      ++count;
      names.insert(kind.name);
    }
  }
  if (count == 0) return;
  lines.push_back({fmt::format("{} under runny glaze", count_text(count, "cookie")),
                   joined({names.begin(), names.end()})});
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
    lines.push_back({"wax and a sponge: every foot bare",
                     "3 mm up from the shelf, 6 to 10 mm where the glaze runs"});
  }
  lines.push_back({"kiln wash, a level, gloves", ""});
  return lines;
}

}  // namespace placer::report
