#include "report/first_page.h"

#include <fmt/format.h>

#include <algorithm>

#include "report/batch_sheet.h"
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

std::string capitalised(std::string words) {
  if (!words.empty() && words[0] >= 'a' && words[0] <= 'z') {
    words[0] = static_cast<char>(words[0] - 'a' + 'A');
  }
  return words;
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
              fmt::format("{} on {} · {} of ware · {} of shelves and posts",
                          count_text(pieces_in(load), "piece"),
                          count_text(static_cast<int>(load.levels.size()), "shelf"),
                          kilos_text(load.ware), kilos_text(load.furniture)),
              room, {pt(11), false, 1.15});
}

Foot foot_of(const Desk& desk, std::size_t firing) {
  const Subject& subject = desk.subject;
  std::string bold = subject.studio;
  if (!subject.batch.kiln.name.empty()) {
    bold += (bold.empty() ? "" : " · ") + subject.batch.kiln.name;
  }
  return {bold, fmt::format("plan {} · {}{}", subject.plan.name, firing_name(subject, firing),
                            date_words(subject))};
}

/// Neighbours in the list with the same reason share it, some at a time.
std::vector<std::pair<std::string, std::string>> by_reason(const Desk& desk,
                                                           const std::vector<LeftOut>& left_out) {
  constexpr int kTogether = 6;
  std::vector<std::pair<std::string, std::string>> all;
  int together = 0;
  for (const LeftOut& one : left_out) {
    const std::string& name =
        desk.subject.batch.pieces.at(static_cast<std::size_t>(one.piece)).name;
    const std::string what = fmt::format("{}\u00a0×\u00a0{}", one.count, name);
    if (!all.empty() && all.back().second == one.reason && together < kTogether) {
      all.back().first += ", " + what;
      ++together;
    } else {
      all.emplace_back(what, one.reason);
      together = 1;
    }
  }
  return all;
}

void title(Page& page, const Desk& desk, double left, double top, const std::string& words) {
  write(page, desk, {left, top + 4.5}, words, {pt(13), true});
}

}  // namespace

std::vector<Block> left_out_blocks(const Desk& desk, const std::vector<LeftOut>& left_out,
                                   double width) {
  constexpr Style kWhat{pt(12), true, 1.2};
  constexpr Style kWhy{pt(10), false, 1.2};
  std::vector<Block> blocks;
  for (const auto& [what, reason] : by_reason(desk, left_out)) {
    const double height =
        lines_height(desk, what, width, kWhat) + lines_height(desk, reason, width, kWhy) + 1;
    blocks.push_back({height, [=, &desk, what = what, reason = reason](Page& page, Point at) {
                        at.y = write_lines(page, desk, at, what, width, kWhat);
                        write_lines(page, desk, at, reason, width, kWhy);
                      }});
  }
  return blocks;
}

std::vector<Page> first_pages(const Desk& desk, std::size_t firing) {
  const std::string name = fmt::format("firing-{}-fetch", firing + 1);
  const std::string words = firing_name(desk.subject, firing);
  Page page = landscape(name, words + ": the whole kiln");
  Room body = body_of(page);
  body.top += kHeading;
  draw_heading(page, desk, firing, "");
  auto left_out = left_out_blocks(desk, left_out_of(desk, firing), kLeftOut);
  const bool pieces_left = !left_out.empty();
  if (desk.subject.plan.firings.size() == 1) {
    for (Block& remark : remark_blocks(desk, kLeftOut)) left_out.push_back(std::move(remark));
  }
  const auto fetch = fetch_blocks(desk, firing, kFetch);
  Room side{body.left, body.top, body.right - kFetch - kGap, body.bottom};
  std::size_t next_out = 0;
  if (!left_out.empty()) {
    if (pieces_left) title(page, desk, body.left, body.top, "LEFT OUT, and why");
    const Room room{body.left, body.top + (pieces_left ? kListHead : 0), body.left + kLeftOut,
                    body.bottom - 4};
    next_out = set_blocks(page, left_out, 0, room, {});
    if (next_out < left_out.size()) {
      write(page, desk, {body.left, body.bottom}, "more on the next page", {pt(9)});
    }
    rule(page, {room.right + kGap / 2, body.top}, {room.right + kGap / 2, body.bottom}, 0.2);
    side.left = room.right + kGap;
  }
  draw_kiln_side(page, desk, desk.subject.plan.firings.at(firing), side);
  const Room fetch_room{body.right - kFetch, body.top + kListHead, body.right, body.bottom};
  title(page, desk, fetch_room.left, body.top, "FETCH FIRST");
  std::size_t next_fetch = set_blocks(page, fetch, 0, fetch_room, {});
  write_foot(page, desk, foot_of(desk, firing));
  std::vector<Page> pages{page};
  while (next_out < left_out.size() || next_fetch < fetch.size()) {
    Page more = landscape(fmt::format("{}-{}", name, pages.size() + 1), words + ": continued");
    draw_heading(more, desk, firing, ", continued");
    const bool outs = next_out < left_out.size();
    title(more, desk, body.left, body.top, outs ? "LEFT OUT, and why" : "FETCH FIRST");
    const Room room{body.left, body.top + kListHead, body.left + 3 * kLeftOut + 2 * kGap,
                    body.bottom};
    if (outs) {
      next_out = set_blocks(more, left_out, next_out, room, {3, kGap});
    } else {
      next_fetch = set_blocks(more, fetch, next_fetch, room, {3, kGap});
    }
    write_foot(more, desk, foot_of(desk, firing));
    pages.push_back(more);
  }
  return pages;
}

}  // namespace placer::report
