#include "report/shelf_page.h"

#include <fmt/format.h>

#include "report/piece_list.h"
#include "report/side_view.h"
#include "report/words.h"

namespace placer::report {
namespace {

constexpr double kHeading = 17;
constexpr double kSide = 35;
constexpr double kGap = 5;
constexpr double kListColumn = 60;

struct Layout {
  Room plan, list, side;
  double scale = 1;
  int columns = 1;
};

Layout layout_with(const Desk& desk, const ShelfView& view, const Room& body, int columns) {
  Layout layout;
  layout.columns = columns;
  const double list_width = columns * kListColumn - (columns > 1 ? kGap : 0);
  layout.side = {body.right - kSide, body.top, body.right, body.bottom};
  layout.list = {layout.side.left - kGap - list_width, body.top + 8, layout.side.left - kGap,
                 body.bottom};
  layout.plan = {body.left, body.top, layout.list.left - kGap, body.bottom};
  layout.scale = round_scale(desk, view, layout.plan);
  return layout;
}

// A second column for a long list, unless the numbers then no longer fit into the pieces.
Layout layout_for(const Desk& desk, const ShelfView& view, const Room& body,
                  const std::vector<SheetLine>& lines) {
  Layout one = layout_with(desk, view, body, 1);
  if (list_fits(desk, lines, 0, one.list, 1) == lines.size()) return one;
  Layout two = layout_with(desk, view, body, 2);
  const bool all = list_fits(desk, lines, 0, two.list, 2) == lines.size();
  return all && numbers_fit(desk, view, two.scale) ? two : one;
}

std::string posts_line(const Desk& desk, const ShelfView& view) {
  if (view.level.posts.empty()) return "no posts: nothing comes above it";
  return fmt::format("posts on it: {}", posts_text(desk.subject, view.level.posts));
}

std::string tallest_words(const Desk& desk, const ShelfView& view) {
  Length tallest;
  for (const PlacedPiece& piece : view.level.pieces) tallest = std::max(tallest, piece.height);
  return length_text(tallest, desk.subject.inches);
}

void draw_heading(Page& page, const Desk& desk, const ShelfView& view, const std::string& extra) {
  const std::string title = fmt::format("SHELF {}{}", view.level.level, extra);
  write(page, desk, {kMargin, kClip + kCapitals * pt(34)}, title, {pt(34), true});
  const double left = kMargin + desk.letters.width(title, pt(34), true) + 7;
  const std::string column =
      desk.subject.batch.kiln.columns.size() > 1
          ? fmt::format(
                ", {} column",
                desk.subject.batch.kiln.columns[static_cast<std::size_t>(view.level.column)].name)
          : "";
  write(page, desk, {left, kClip + 4.5},
        fmt::format("of {}, from the bottom{}", shelves_in_column(view.load, view.level.column),
                    column),
        {pt(14), true});
  write_lines(
      page, desk, {left, kClip + 6.5},
      fmt::format("{} · tallest piece {}", posts_line(desk, view), tallest_words(desk, view)),
      page.width - kMargin - left, {pt(12)});
}

Foot foot_of(const Desk& desk, std::size_t firing, const Level& level, double scale) {
  return {fmt::format("{} · {} on this shelf", count_text(pieces_on(level), "piece"),
                      kilos_text(mass_on(level))),
          fmt::format("plan {} · {} · drawn 1 : {}", desk.subject.plan.name,
                      firing_name(desk.subject, firing), scale)};
}

}  // namespace

std::vector<Page> shelf_pages(const Desk& desk, std::size_t firing, const Level& level) {
  const ShelfView view{desk.subject.plan.firings.at(firing), level};
  const std::string title =
      fmt::format("{}: {}", firing_name(desk.subject, firing), shelf_name(desk.subject, level));
  const std::string name =
      fmt::format("firing-{}-{}-shelf-{}", firing + 1, level.column + 1, level.level);
  Page page = landscape(name, title);
  Room body = body_of(page);
  body.top += kHeading;
  const auto lines = sheet_lines(desk, view);
  const Layout layout = layout_for(desk, view, body, lines);
  draw_heading(page, desk, view, "");
  draw_plan(page, desk, view, layout.plan, layout.scale);
  write(page, desk, {layout.list.left, body.top + 4}, "Set in this order", {pt(12), true});
  std::size_t next = draw_list(page, desk, lines, 0, layout.list, layout.columns);
  draw_stack(page, desk, view.load, level, layout.side);
  const Foot foot = foot_of(desk, firing, level, layout.scale);
  write_foot(page, desk, foot);
  std::vector<Page> pages{page};
  while (next < lines.size()) {
    Page more = landscape(fmt::format("{}-{}", name, pages.size() + 1), title + ", continued");
    draw_heading(more, desk, view, " (continued)");
    next = draw_list(more, desk, lines, next, body, 4);
    write_foot(more, desk, foot);
    pages.push_back(more);
  }
  return pages;
}

}  // namespace placer::report
