#include "report/shelf_page.h"

#include <fmt/format.h>

#include <algorithm>

#include "report/legend.h"
#include "report/piece_list.h"
#include "report/side_view.h"
#include "report/words.h"

namespace placer::report {
namespace {

constexpr double kHeading = 15.5;
constexpr double kSide = 35;
constexpr double kGap = 5;
constexpr double kListColumn = 62;
constexpr double kListHead = 8;
constexpr double kLeastStack = 45;

/// Where things go on the page. No list columns: the list has its own page.
struct Layout {
  Room plan, list, side;
  double scale = 1;
  Columns columns;
};

struct ShelfPage {
  const Desk& desk;
  const ShelfView& view;
  std::size_t firing = 0;
  Room body;
};

Layout layout_with(const ShelfPage& shelf, int columns) {
  Layout layout;
  layout.columns.count = columns;
  const Room& body = shelf.body;
  const double list_width = columns == 0 ? 0 : columns * (kListColumn + kGap) - kGap;
  layout.side = {body.right - kSide, body.top, body.right, body.bottom};
  layout.list = {layout.side.left - kGap - list_width, body.top + kListHead,
                 layout.side.left - kGap, body.bottom};
  layout.plan = {body.left, body.top, layout.list.left - (columns == 0 ? 0 : kGap), body.bottom};
  layout.scale = round_scale(shelf.desk, shelf.view, layout.plan);
  return layout;
}

std::vector<Block> list_blocks(const ShelfPage& shelf) {
  return piece_list(shelf.desk, shelf.view, kListColumn);
}

// One column when that is enough; a second for a long list while the numbers still fit into the
// pieces; the whole page for the plan when they only fit there.
Layout layout_for(const ShelfPage& shelf, const std::vector<Block>& list) {
  const Layout one = layout_with(shelf, 1);
  const bool one_fits = numbers_fit(shelf.desk, shelf.view, one.scale);
  if (one_fits && blocks_that_fit(list, 0, one.list, one.columns) == list.size()) return one;
  const Layout two = layout_with(shelf, 2);
  if (blocks_that_fit(list, 0, two.list, two.columns) == list.size() &&
      numbers_fit(shelf.desk, shelf.view, two.scale)) {
    return two;
  }
  if (one_fits) return one;
  const Layout none = layout_with(shelf, 0);
  return none.scale < one.scale ? none : one;
}

std::string posts_words(const ShelfPage& shelf) {
  std::vector<std::string> parts;
  const Level& level = shelf.view.level;
  if (level.level == 1) {
    std::vector<PlacedPost> feet;
    const Outline edge = edge_polygon(ground(shelf.desk.subject.batch, level));
    std::copy_if(shelf.view.load.floor_posts.begin(), shelf.view.load.floor_posts.end(),
                 std::back_inserter(feet),
                 [&](const PlacedPost& post) { return inset(post.at, edge) >= 0; });
    if (!feet.empty()) parts.push_back("feet under it: " + posts_text(shelf.desk.subject, feet));
  }
  parts.push_back(level.posts.empty()
                      ? "no posts on it"
                      : "posts on it: " + posts_text(shelf.desk.subject, level.posts));
  return fmt::format("{}", fmt::join(parts, " · "));
}

std::string room_words(const ShelfPage& shelf) {
  const Level& level = shelf.view.level;
  Length tallest;
  for (const PlacedPiece& piece : level.pieces) tallest = std::max(tallest, piece.height);
  const bool inches = shelf.desk.subject.inches;
  return fmt::format("tallest piece {} · {} above it", length_text(tallest, inches),
                     length_text(level.air, inches));
}

std::string column_words(const ShelfPage& shelf) {
  const auto& columns = shelf.desk.subject.batch.kiln.columns;
  if (columns.size() < 2) return "";
  const std::string& name = columns.at(static_cast<std::size_t>(shelf.view.level.column)).name;
  return name.find("column") != std::string::npos ? ", " + name : ", " + name + " column";
}

void draw_heading(Page& page, const ShelfPage& shelf, const std::string& extra) {
  const Desk& desk = shelf.desk;
  const Level& level = shelf.view.level;
  const std::string title = fmt::format("SHELF {}", level.level);
  write(page, desk, {kMargin, kClip + kCapitals * pt(34)}, title, {pt(34), true});
  const double left = kMargin + desk.letters.width(title, pt(34), true) + 7;
  const double most = page.width - kMargin - left;
  const std::string first =
      fmt::format("of {}, from the bottom{}{}", shelves_in_column(shelf.view.load, level.column),
                  column_words(shelf), extra);
  const double size = desk.letters.size_to_fit(first, true, most, {pt(14), pt(12), pt(11)});
  write_lines(page, desk, {left, kClip - 0.5}, first, most, {size, true, 1.15});
  const std::string both = posts_words(shelf) + " · " + room_words(shelf);
  const double second = desk.letters.size_to_fit(both, false, most, {pt(12), pt(11), pt(10)});
  write_lines(page, desk, {left, kClip + 6.2}, both, most, {second, false, 1.15});
}

constexpr double kThumb = 28;

// The kiln from above when there are several columns, the stack, and the legend below. Returns the
// first sign of the legend that found no room.
std::size_t draw_side(Page& page, const ShelfPage& shelf, Room side,
                      const std::vector<Block>& signs) {
  const Columns columns{1, 0, 1};
  const double legend_height = height_of(signs, columns);
  if (shelf.desk.subject.batch.kiln.columns.size() > 1 &&
      side.height() - legend_height > kLeastStack + kThumb + 8) {
    draw_whereabouts(page, shelf.desk, shelf.view.load, shelf.view.level,
                     {side.left, side.top, side.left + kThumb, side.top + kThumb});
    side.top += kThumb + 7;
  }
  const double least = side.top + kLeastStack;
  const double stack_bottom =
      std::max(least, std::min(side.bottom, side.bottom - legend_height - 3));
  draw_stack(page, shelf.desk, shelf.view.load, shelf.view.level,
             {side.left, side.top, side.right, stack_bottom});
  return set_blocks(page, signs, 0, {side.left, stack_bottom + 2, side.right, side.bottom},
                    columns);
}

Foot foot_of(const ShelfPage& shelf, double scale) {
  const Subject& subject = shelf.desk.subject;
  return {fmt::format("{} · {} on this shelf", count_text(pieces_on(shelf.view.level), "piece"),
                      kilos_text(mass_on(shelf.view.level))),
          fmt::format("plan {} · {}{} · drawn 1 : {}", subject.plan.name,
                      firing_name(subject, shelf.firing), date_words(subject), scale)};
}

std::size_t set_list(Page& page, const ShelfPage& shelf, const Layout& layout,
                     const std::vector<Block>& list) {
  const double base = shelf.body.top + 4;
  write(page, shelf.desk, {layout.list.left, base}, "Set by number", {pt(12), true});
  const std::size_t next = set_blocks(page, list, 0, layout.list, layout.columns);
  if (next < list.size()) {
    write(page, shelf.desk, {layout.list.right, base}, "more overleaf", {pt(9)}, Anchor::right);
  }
  return next;
}

}  // namespace

std::vector<Page> shelf_pages(const Desk& desk, std::size_t firing, const Level& level) {
  const ShelfView view{desk.subject.plan.firings.at(firing), level};
  const std::string title =
      fmt::format("{}: {}", firing_name(desk.subject, firing), shelf_name(desk.subject, level));
  const std::string name =
      fmt::format("firing-{}-column-{}-shelf-{}", firing + 1, level.column + 1, level.level);
  Page page = landscape(name, title);
  ShelfPage shelf{desk, view, firing, body_of(page)};
  shelf.body.top += kHeading;
  const auto list = list_blocks(shelf);
  const Layout layout = layout_for(shelf, list);
  draw_heading(page, shelf, "");
  draw_plan(page, desk, view, layout.plan, layout.scale);
  std::size_t next = layout.columns.count > 0 ? set_list(page, shelf, layout, list) : 0;
  const auto signs = legend(desk, view, layout.scale, kSide);
  const std::size_t signs_set = draw_side(page, shelf, layout.side, signs);
  // Signs without room come first on the next page.
  std::vector<Block> later(signs.begin() + static_cast<std::ptrdiff_t>(signs_set), signs.end());
  write_foot(page, desk, foot_of(shelf, layout.scale));
  std::vector<Page> pages{page};
  while (next < list.size() || !later.empty()) {
    Page more = landscape(fmt::format("{}-{}", name, pages.size() + 1), title + ", continued");
    draw_heading(more, shelf, ", list continued");
    Room room = shelf.body;
    if (!later.empty()) room.right -= kSide + kGap;
    next = set_blocks(more, list, next, room, {3, kGap});
    set_blocks(more, later, 0, {room.right + kGap, room.top, shelf.body.right, room.bottom},
               {1, 0, 1});
    later.clear();
    write_foot(more, desk, foot_of(shelf, layout.scale));
    pages.push_back(std::move(more));
  }
  return pages;
}

}  // namespace placer::report
