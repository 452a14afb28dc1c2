// Posts: how many, where they stand, and what they carry.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/rules.h"

namespace placer::check {
namespace {

std::size_t index(int i) { return static_cast<std::size_t>(i); }

bool same_place(Point a, Point b) {
  return std::abs(a.x - b.x) <= kTolerance && std::abs(a.y - b.y) <= kTolerance;
}

bool among(const std::vector<Point>& some, const std::vector<Point>& all) {
  return std::ranges::all_of(some, [&all](Point p) {
    return std::ranges::any_of(all, [p](Point q) { return same_place(p, q); });
  });
}

std::vector<Point> places(const std::vector<const StandingPost*>& posts) {
  std::vector<Point> places;
  places.reserve(posts.size());
  for (const StandingPost* post : posts) places.push_back(post->placed->at);
  return places;
}

void check_count(const View& view, int level, int of_column, std::size_t count,
                 Findings& findings) {
  const Kiln& kiln = view.batch.kiln;
  const Column& column = kiln.columns[index(of_column)];
  const std::size_t asked =
      column.posts.empty() ? index(kiln.posts_per_shelf) : column.posts.size();
  if (count == asked) return;
  const std::string where =
      view.bridge(level) == nullptr ? "" : fmt::format(" in column \"{}\"", column.name);
  add(findings, "post-count",
      fmt::format("{} posts carry {}{}; it should be {}.", count, view.words(level), where, asked));
}

// The shelf must not tip: its middle of mass lies between its posts.
void check_balance(const View& view, int level, const std::vector<Point>& posts,
                   Findings& findings) {
  const Outline edge = edge_polygon(view.shelves[index(level)].edge, 0.1);
  const Outline between = convex_hull({{}, {{posts}}});
  if (between.corners.size() < 3) return;  // too few posts: check_count says so
  Point middle;
  double twice = 0;
  Point from = edge.corners.back();
  for (const Point to : edge.corners) {
    const double cross = from.x * to.y - from.y * to.x;
    middle = middle + cross * (from + to);
    twice += cross;
    from = to;
  }
  middle = (1 / (3 * twice)) * middle;
  if (inset(middle, between) > 0) return;
  add(findings, "tips",
      fmt::format("{} would tip: its middle (x {:.0f}, y {:.0f} mm) is not between its posts.",
                  view.words(level), middle.x, middle.y));
}

/// A bridge rests on posts of the columns that it lies over, and on no others.
void check_bridge(const View& view, int level, Findings& findings) {
  const auto all = view.carriers(level);
  std::size_t own = 0;
  for (const int column : view.columns_of(level)) own += view.carriers(level, column).size();
  if (own != all.size()) {
    add(findings, "post-line",
        fmt::format("Some of the posts under {} stand in none of its columns.", view.words(level)));
  }
  const std::vector<Point> here = places(all);
  if (here.size() >= 3) check_balance(view, level, here, findings);
}

void check_line(const View& view, int of_column, Findings& findings) {
  const std::vector<int>& column = view.columns[index(of_column)];
  if (column.empty()) return;
  const Column& asked = view.batch.kiln.columns[index(of_column)];
  const std::vector<Point> first = places(view.carriers(column.front(), of_column));
  if (!asked.posts.empty() && !among(first, asked.posts)) {
    add(findings, "post-place",
        fmt::format("The posts under {} do not stand where the studio file puts them.",
                    view.words(column.front())));
  }
  for (const int level : column) {
    const auto carriers = view.carriers(level, of_column);
    const bool on_floor = level == column.front();
    if (carriers.empty() && on_floor && view.shelves[index(level)].z.low <= kTolerance) {
      continue;  // lies on the floor
    }
    check_count(view, level, of_column, carriers.size(), findings);
    const std::vector<Point> here = places(carriers);
    if (here.size() >= 3 && view.bridge(level) == nullptr)
      check_balance(view, level, here, findings);
    if (on_floor || first.empty() || among(here, first)) continue;
    add(findings, "post-line",
        fmt::format("The posts under {} do not stand in line over those below.",
                    view.words(level)));
  }
}

std::string post_words(const View& view, const StandingPost& post) {
  const std::string on =
      post.stands_on < 0 ? "the floor (" + view.words() + ")" : view.words(post.stands_on);
  return fmt::format("The post at x {:g}, y {:g} mm on {}", post.placed->at.x, post.placed->at.y,
                     on);
}

void check_foot(const View& view, const StandingPost& post, Findings& findings) {
  if (post.placed->parts.size() > 3) {
    add(findings, "post-parts",
        fmt::format("{} is built of {} parts; three are the most that stand safely.",
                    post_words(view, post), post.placed->parts.size()));
  }
  if (post.carries < 0) {
    add(findings, "post-idle", post_words(view, post) + " carries no shelf.");
  }
  const auto check_inside = [&](int level, const char* what) {
    const double out = -inset(post.foot, view.shelves[index(level)].edge);
    if (out <= kTolerance) return;
    add(findings, "post-off",
        fmt::format("{} stands {} out {} the edge of the shelf.", post_words(view, post),
                    two_lengths(out, 0).is, what));
  };
  if (post.stands_on >= 0) check_inside(post.stands_on, "over");
  if (post.carries >= 0) check_inside(post.carries, "from under");
}

void check_neighbours(const View& view, Findings& findings) {
  for (std::size_t i = 0; i < view.posts.size(); ++i) {
    const StandingPost& post = view.posts[i];
    for (std::size_t j = i + 1; j < view.posts.size(); ++j) {
      const StandingPost& other = view.posts[j];
      if (!overlap(post.z, other.z) || gap(post.foot, other.foot) >= -kTolerance) continue;
      add(findings, "post-touch", post_words(view, post) + " stands where another one does.");
    }
    for (const StandingShelf& shelf : view.shelves) {
      if (shelf.level == post.carries || shelf.level == post.stands_on) continue;
      if (!overlap(post.z, shelf.z) || gap(post.foot, shelf.edge) >= -kTolerance) continue;
      add(findings, "post-shelf",
          fmt::format("{} runs through {}.", post_words(view, post), view.words(shelf.level)));
    }
  }
}

}  // namespace

void check_posts(const View& view, Findings& findings) {
  for (int c = 0; c < static_cast<int>(view.columns.size()); ++c) check_line(view, c, findings);
  for (int i = 0; i < static_cast<int>(view.load.levels.size()); ++i) {
    if (view.bridge(i) != nullptr) check_bridge(view, i, findings);
  }
  for (const StandingPost& post : view.posts) check_foot(view, post, findings);
  check_neighbours(view, findings);
}

}  // namespace placer::check
