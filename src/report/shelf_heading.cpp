#include "report/shelf_heading.h"

#include <fmt/format.h>

#include <algorithm>

#include "placer/model/tower.h"
#include "report/ladder.h"
#include "report/standing.h"
#include "report/words.h"

namespace placer::report {
namespace {

struct Heading {
  const Desk& desk;
  const ShelfView& view;
  std::size_t firing = 0;
};

/// Shelves with nothing on them that lift this one: they have no page of their own.
std::string lifted_by(const Heading& shelf) {
  const Subject& subject = shelf.desk.subject;
  const Kiln& kiln = subject.batch.kiln;
  const KilnLoad& load = shelf.view.load;
  std::string words;
  for (const int column : columns_of(kiln, shelf.view.level)) {
    const std::vector<int> levels = tower(kiln, load, column);
    for (const int i : levels) {
      const Level& under = load.levels.at(static_cast<std::size_t>(i));
      if (under.level >= shelf.view.level.level || !only_lifts(kiln, load, under)) continue;
      words += fmt::format("{}{} ({}", words.empty() ? "set first, with nothing on it: " : ", ",
                           shelf_name(subject, under),
                           kiln.shelves.at(static_cast<std::size_t>(under.shelf)).name);
      const auto feet = feet_under(subject.batch, load, under);
      if (under.level == 1 && !feet.empty()) words += ", feet " + posts_text(subject, feet);
      words += ", posts on it " + posts_text(subject, under.posts) + ")";
    }
  }
  return words;
}

std::string posts_words(const Heading& shelf) {
  std::vector<std::string> parts;
  const Level& level = shelf.view.level;
  const Subject& subject = shelf.desk.subject;
  if (level.bridge >= 0) parts.push_back(when_to_lay(subject, shelf.view.load, level));
  if (const std::string lifts = lifted_by(shelf); !lifts.empty()) parts.push_back(lifts);
  if (level.level == 1 || level.bridge >= 0) {
    const auto feet = feet_under(subject.batch, shelf.view.load, level);
    if (!feet.empty()) parts.push_back("feet under it: " + posts_text(subject, feet));
  }
  parts.push_back(level.posts.empty() ? "no posts on it"
                                      : "posts on it: " + posts_text(subject, level.posts));
  return fmt::format("{}", fmt::join(parts, " · "));
}

std::string column_words(const Heading& shelf) {
  const auto& columns = shelf.desk.subject.batch.kiln.columns;
  if (columns.size() < 2) return "";
  const Kiln& kiln = shelf.desk.subject.batch.kiln;
  const std::string& name = place_name(kiln, shelf.view.level);
  if (shelf.view.level.bridge >= 0) {
    std::vector<std::string> over;
    for (const int column : columns_of(kiln, shelf.view.level))
      over.push_back(columns.at(static_cast<std::size_t>(column)).name);
    return fmt::format(", {}: over {}", name, joined(over));
  }
  return name.find("column") != std::string::npos ? ", " + name : ", " + name + " column";
}

std::string of_words(const Heading& shelf) {
  const int count = shelves_with(shelf.desk.subject.batch, shelf.view.load, shelf.view.level);
  return (count == 1 ? "the only one" : fmt::format("of {}, from the bottom", count)) +
         column_words(shelf);
}

/// Which firing the page belongs to, in a frame in the upper right corner; returns its left edge.
double draw_firing_tag(Page& page, const Heading& shelf) {
  const Desk& desk = shelf.desk;
  constexpr double kMost = 68;
  const std::string words = capitalised(firing_name(desk.subject, shelf.firing));
  const double size = desk.letters.size_to_fit(words, true, kMost, {pt(14), pt(12), pt(10)});
  std::vector<std::string> lines = desk.letters.wrapped(words, size, true, kMost);
  if (lines.size() > 3) {  // the foot has the whole name
    lines.resize(3);
    lines.back() += "…";
  }
  double wide = 0;
  for (const std::string& line : lines) {
    wide = std::max(wide, desk.letters.width(line, size, true));
  }
  const double right = page.width - kMargin;
  const double left = right - wide - 4;
  const double step = 1.15 * size;
  frame(page, {left, kClip - 0.8}, {right, kClip + static_cast<double>(lines.size()) * step + 1},
        0.5);
  double y = kClip + 0.9 * size;
  for (const std::string& line : lines) {
    write(page, desk, {right - 2, y}, line, {size, true}, Anchor::right);
    y += step;
  }
  return left;
}

}  // namespace

void draw_shelf_heading(Page& page, const Desk& desk, const ShelfView& view, std::size_t firing,
                        const std::string& extra) {
  const Heading shelf{desk, view, firing};
  const Level& level = view.level;
  const std::string title = fmt::format("SHELF {}", level.level);
  write(page, desk, {kMargin, kClip + kCapitals * pt(34)}, title, {pt(34), true});
  const double left = kMargin + desk.letters.width(title, pt(34), true) + 7;
  const double tag = draw_firing_tag(page, shelf);
  const std::string first = of_words(shelf) + extra;
  const double size =
      desk.letters.size_to_fit(first, true, tag - 3 - left, {pt(14), pt(12), pt(11), pt(10)});
  write_lines(page, desk, {left, kClip - 0.5}, first, tag - 3 - left, {size, true, 1.15});
  const std::string second =
      posts_words(shelf) + " · " + room_words(desk.subject, shelf.view.load, level);
  // Beside the tag when that is enough, below it when the line is long.
  const double most = page.width - kMargin - left;
  const double fits = desk.letters.size_to_fit(second, false, tag - 3 - left, {pt(12), pt(11)});
  if (desk.letters.width(second, fits, false) <= tag - 3 - left) {
    write_lines(page, desk, {left, kClip + 6.2}, second, most, {fits, false, 1.15});
    return;
  }
  const double small = desk.letters.size_to_fit(second, false, most, {pt(12), pt(11), pt(10)});
  write_lines(page, desk, {left, kClip + 7.2}, second, most, {small, false, 1.15});
}

}  // namespace placer::report
