#include "report/shelf_page.h"

#include <fmt/format.h>

#include <algorithm>

#include "report/legend.h"
#include "report/piece_list.h"
#include "report/shelf_heading.h"
#include "report/side_view.h"
#include "report/words.h"

namespace placer::report {
namespace {

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

/// The key in two halves: beside the stack, and below the list where its words have more room.
struct Key {
  std::vector<Block> beside, below, later;  ///< later: on the next page
};

constexpr Columns kKeyColumns{1, 0, 1};
constexpr double kKeyApart = 5;  // mm between the list and the key below it

double room_below_list(const Layout& layout, const std::vector<Block>& list) {
  if (layout.columns.count != 1) return 0;
  return layout.list.height() - height_of(list, layout.columns) - kKeyApart;
}

// All of it below a short list; else as much as the stack leaves beside it, and the rest there.
Key key_of(const ShelfPage& shelf, const Layout& layout, const std::vector<Block>& list) {
  Key key;
  const auto narrow = legend(shelf.desk, shelf.view, layout.scale, kSide);
  const auto wide = legend(shelf.desk, shelf.view, layout.scale, kListColumn);
  const double below = room_below_list(layout, list);
  if (height_of(wide, kKeyColumns) <= below) {
    key.below = wide;
    return key;
  }
  Room side = layout.side;
  side.top += kLeastStack + 2;
  const auto fit = static_cast<std::ptrdiff_t>(blocks_that_fit(narrow, 0, side, kKeyColumns));
  key.beside.assign(narrow.begin(), narrow.begin() + fit);
  key.below.assign(wide.begin() + fit, wide.end());
  if (height_of(key.below, kKeyColumns) > below) {
    key.later.assign(narrow.begin() + fit, narrow.end());
    key.below.clear();
  }
  return key;
}

void set_key_below(Page& page, const Layout& layout, const std::vector<Block>& signs) {
  if (signs.empty()) return;
  const double top = layout.list.bottom - height_of(signs, kKeyColumns);
  rule(page, {layout.list.left, top - 2}, {layout.list.right, top - 2}, 0.2);
  set_blocks(page, signs, 0, {layout.list.left, top, layout.list.right, layout.list.bottom + 1},
             kKeyColumns);
}

constexpr double kThumb = 28;

// The kiln from above when there are several columns, the stack, and the signs below.
void draw_side(Page& page, const ShelfPage& shelf, Room side, const std::vector<Block>& signs) {
  const double legend_height = height_of(signs, kKeyColumns);
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
  set_blocks(page, signs, 0, {side.left, stack_bottom + 2, side.right, side.bottom}, kKeyColumns);
}

Foot foot_of(const ShelfPage& shelf, double scale) {
  const Subject& subject = shelf.desk.subject;
  return {
      fmt::format("{} · {} on this shelf", count_text(pieces_on(shelf.view.level), "piece"),
                  kilos_text(mass_on(shelf.view.level), shelf.desk.subject.inches)),
      fmt::format("plan {} · {}{} · drawn 1 : {}", subject.plan.name,
                  firing_name(subject, shelf.firing), date_words(subject, shelf.firing), scale)};
}

std::size_t set_list(Page& page, const ShelfPage& shelf, const Layout& layout,
                     const std::vector<Block>& list) {
  const double base = shelf.body.top + 4;
  const bool more = blocks_that_fit(list, 0, layout.list, layout.columns) < list.size();
  constexpr const char* kMore = "more overleaf";
  const char* head = more ? "Numbers: on the map" : "The numbers are on the map";
  const double most =
      layout.list.width() - (more ? shelf.desk.letters.width(kMore, pt(9), false) + 2 : 0);
  const double size =
      shelf.desk.letters.size_to_fit(head, true, most, {pt(12), pt(11), pt(10), pt(9), pt(8)});
  write(page, shelf.desk, {layout.list.left, base}, head, {size, true});
  if (more) {
    write(page, shelf.desk, {layout.list.right, base}, kMore, {pt(9)}, Anchor::right);
  }
  return set_blocks(page, list, 0, layout.list, layout.columns);
}

}  // namespace

std::vector<Page> shelf_pages(const Desk& desk, std::size_t firing, const Level& level) {
  const KilnLoad& load = desk.subject.plan.firings.at(firing);
  const ShelfView view{load, level, cones_on(desk.subject.batch, level)};
  const std::string title =
      fmt::format("{}: {}", firing_name(desk.subject, firing), shelf_name(desk.subject, level));
  const std::string name =
      fmt::format("firing-{}-column-{}-shelf-{}", firing + 1, level.column + 1, level.level);
  Page page = landscape(name, title);
  ShelfPage shelf{desk, view, firing, body_of(page)};
  shelf.body.top += kShelfHeading;
  const auto list = list_blocks(shelf);
  const Layout layout = layout_for(shelf, list);
  draw_shelf_heading(page, desk, view, firing, "");
  draw_plan(page, desk, view, layout.plan, layout.scale);
  std::size_t next = layout.columns.count > 0 ? set_list(page, shelf, layout, list) : 0;
  Key key = key_of(shelf, layout, list);
  set_key_below(page, layout, key.below);
  draw_side(page, shelf, layout.side, key.beside);
  write_foot(page, desk, foot_of(shelf, layout.scale));
  std::vector<Page> pages{page};
  while (next < list.size() || !key.later.empty()) {
    Page more = landscape(fmt::format("{}-{}", name, pages.size() + 1), title + ", continued");
    draw_shelf_heading(more, desk, view, firing, ", list continued");
    Room room = shelf.body;
    if (!key.later.empty()) room.right -= kSide + kGap;
    next = set_blocks(more, list, next, room, {3, kGap});
    set_blocks(more, key.later, 0, {room.right + kGap, room.top, shelf.body.right, room.bottom},
               kKeyColumns);
    key.later.clear();
    write_foot(more, desk, foot_of(shelf, layout.scale));
    pages.push_back(std::move(more));
  }
  return pages;
}

}  // namespace placer::report
