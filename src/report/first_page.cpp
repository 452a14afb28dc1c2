#include "report/first_page.h"

#include <fmt/format.h>

#include <algorithm>

#include "report/batch_sheet.h"
#include "report/lists.h"
#include "report/piece_list.h"
#include "report/side_view.h"
#include "report/to_fetch.h"
#include "report/words.h"

namespace placer::report {
namespace {

constexpr double kHeading = 17;
constexpr double kFetch = 72;
constexpr double kLeftOut = 66;
constexpr double kGap = 6;
constexpr double kListHead = 8;

// The left-out pieces of a firing are told on the first page of its first load.
std::vector<LeftOut> left_out_of(const Desk& desk, std::size_t firing) {
  const KilnLoad& load = desk.subject.plan.firings.at(firing);
  std::vector<LeftOut> mine;
  if (load.round > 1) return mine;
  for (const LeftOut& one : desk.subject.plan.left_out) {
    if (one.load == load.load) mine.push_back(one);
  }
  return mine;
}

std::vector<Block> fetch_blocks(const Desk& desk, std::size_t firing, double width) {
  std::vector<Block> blocks;
  for (const FetchLine& line : to_fetch(desk.subject, firing)) {
    blocks.push_back(tick_line(desk, line.words, line.detail, width));
  }
  return blocks;
}

// A column that this load has no use for; or one would look for its pages.
std::string empty_columns(const Subject& subject, const KilnLoad& load) {
  std::vector<std::string> empty;
  for (std::size_t i = 0; i < subject.batch.kiln.columns.size(); ++i) {
    if (shelves_in_column(subject.batch, load, static_cast<int>(i)) == 0) {
      empty.push_back(subject.batch.kiln.columns[i].name);
    }
  }
  return empty.empty() ? "" : " · nothing stands in: " + joined(empty);
}

void draw_heading(Page& page, const Desk& desk, std::size_t firing, const std::string& extra) {
  const Subject& subject = desk.subject;
  const KilnLoad& load = subject.plan.firings.at(firing);
  const std::string title = capitalised(firing_name(subject, firing));
  const double most = 0.55 * (page.width - 2 * kMargin);
  const double size = desk.letters.size_to_fit(title, true, most, {pt(34), pt(28), pt(22), pt(18)});
  write_lines(page, desk, {kMargin, kClip - 2}, title, most, {size, true, 1.05});
  const double left = kMargin + std::min(most, desk.letters.width(title, size, true)) + 7;
  const double room = page.width - kMargin - left;
  const std::string whole = fmt::format("the whole kiln{}", extra);
  write(page, desk, {left, kClip + 4.5}, whole, {pt(14), true});
  write_lines(page, desk, {left, kClip + 6.2},
              fmt::format("{} on {} · {} of ware · {} of shelves and posts{}",
                          count_text(pieces_in(load), "piece"),
                          count_text(static_cast<int>(load.levels.size()), "shelf"),
                          kilos_text(load.ware, subject.inches),
                          kilos_text(load.furniture, subject.inches), empty_columns(subject, load)),
              room, {pt(11), false, 1.15});
}

Foot foot_of(const Desk& desk, std::size_t firing) {
  const Subject& subject = desk.subject;
  std::string bold = subject.studio;
  if (!subject.batch.kiln.name.empty()) {
    bold += (bold.empty() ? "" : " · ") + subject.batch.kiln.name;
  }
  return {bold, fmt::format("plan {} · {}{}", subject.plan.name, firing_name(subject, firing),
                            date_words(subject, firing))};
}

std::string names_words(const Desk& desk, const LeftOutGroup& group) {
  std::string words;
  for (const LeftOut* one : group.pieces) {
    const std::string& name =
        desk.subject.batch.pieces.at(static_cast<std::size_t>(one->piece)).name;
    words += fmt::format("{}{}\u00a0×\u00a0{}", words.empty() ? "" : ", ", one->count, name);
  }
  return words;
}

void title(Page& page, const Desk& desk, double left, double top, const std::string& words) {
  write(page, desk, {left, top + 4.5}, words, {pt(13), true});
}

/// The lists of a first page and the room below its heading.
struct FirstPage {
  Room body;
  std::vector<Block> left_out;  ///< then what is good to know
  std::vector<Block> fetch;
  bool pieces_left = false;  ///< the first list begins with pieces
};

FirstPage first_page_of(const Desk& desk, std::size_t firing) {
  FirstPage first;
  first.body = body_of(landscape("", ""));
  first.body.top += kHeading;
  first.left_out = left_out_blocks(desk, left_out_of(desk, firing), kLeftOut);
  first.pieces_left = !first.left_out.empty();
  if (desk.subject.plan.firings.size() == 1) {
    for (Block& remark : remark_blocks(desk, kLeftOut)) first.left_out.push_back(remark);
  }
  first.fetch = fetch_blocks(desk, firing, kFetch);
  return first;
}

std::size_t set_left_out(Page& page, const Desk& desk, const FirstPage& first) {
  const Room& body = first.body;
  if (first.pieces_left) title(page, desk, body.left, body.top, "LEFT OUT, and why");
  const Room room{body.left, body.top + (first.pieces_left ? kListHead : 0), body.left + kLeftOut,
                  body.bottom - 4};
  const std::size_t next = set_blocks(page, first.left_out, 0, room, {});
  if (next < first.left_out.size()) {
    write(page, desk, {body.left, body.bottom}, "more on the next page", {pt(9)});
  }
  rule(page, {room.right + kGap / 2, body.top}, {room.right + kGap / 2, body.bottom}, 0.2);
  return next;
}

/// The rest of a list that found no room.
struct Rest {
  std::string heading;
  const std::vector<Block>& blocks;
  std::size_t next = 0;
  double width = 0;
};

void add_continued(std::vector<Page>& pages, const Desk& desk, std::size_t firing, Rest rest) {
  while (rest.next < rest.blocks.size()) {
    Page page = landscape(fmt::format("firing-{}-fetch-{}", firing + 1, pages.size() + 1),
                          firing_name(desk.subject, firing) + ": continued");
    draw_heading(page, desk, firing, ", continued");
    Room room = body_of(page);
    room.top += kHeading;
    title(page, desk, room.left, room.top, rest.heading);
    room.top += kListHead;
    room.right = room.left + 3 * rest.width + 2 * kGap;
    rest.next = set_blocks(page, rest.blocks, rest.next, room, {3, kGap});
    write_foot(page, desk, foot_of(desk, firing));
    pages.push_back(std::move(page));
  }
}

}  // namespace

std::vector<Block> left_out_blocks(const Desk& desk, const std::vector<LeftOut>& left_out,
                                   double width) {
  constexpr std::size_t kTogether = 6;
  constexpr Style kWhat{pt(12), true, 1.2};
  constexpr Style kWhy{pt(10), false, 1.2};
  std::vector<Block> blocks;
  for (const LeftOutGroup& group : by_reason(left_out, kTogether)) {
    const std::string what = names_words(desk, group);
    const std::string& reason = group.reason();
    const double height =
        lines_height(desk, what, width, kWhat) + lines_height(desk, reason, width, kWhy) + 1;
    blocks.push_back({height, [=, &desk](Page& page, Point at) {
                        at.y = write_lines(page, desk, at, what, width, kWhat);
                        write_lines(page, desk, at, reason, width, kWhy);
                      }});
  }
  return blocks;
}

std::vector<Page> first_pages(const Desk& desk, std::size_t firing) {
  const FirstPage first = first_page_of(desk, firing);
  Page page = landscape(fmt::format("firing-{}-fetch", firing + 1),
                        firing_name(desk.subject, firing) + ": the whole kiln");
  draw_heading(page, desk, firing, "");
  const Room& body = first.body;
  Room side{body.left, body.top, body.right - kFetch - kGap, body.bottom};
  std::size_t next_out = 0;
  if (!first.left_out.empty()) {
    next_out = set_left_out(page, desk, first);
    side.left = body.left + kLeftOut + kGap;
  }
  draw_kiln_side(page, desk, desk.subject.plan.firings.at(firing), side);
  const Room fetch_room{body.right - kFetch, body.top + kListHead, body.right, body.bottom};
  title(page, desk, fetch_room.left, body.top, "FETCH FIRST");
  const std::size_t next_fetch = set_blocks(page, first.fetch, 0, fetch_room, {});
  write_foot(page, desk, foot_of(desk, firing));
  std::vector<Page> pages{page};
  add_continued(pages, desk, firing, {"LEFT OUT, and why", first.left_out, next_out, kLeftOut});
  add_continued(pages, desk, firing, {"FETCH FIRST", first.fetch, next_fetch, kFetch});
  return pages;
}

}  // namespace placer::report
