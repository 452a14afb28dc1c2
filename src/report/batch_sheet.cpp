#include "report/batch_sheet.h"

#include <fmt/format.h>

#include <algorithm>

#include "report/batch_words.h"
#include "report/first_page.h"
#include "report/piece_list.h"
#include "report/words.h"

namespace placer::report {
namespace {

constexpr double kWidth = kShortSide - 2 * kMargin;
constexpr Style kPlain{pt(11), false, 1.2};
constexpr Style kStrong{pt(13), true, 1.2};

Block words_block(const Desk& desk, const std::string& words, double left, double width,
                  const Style& style) {
  return {lines_height(desk, words, width - left, style), [=, &desk](Page& page, Point at) {
            write_lines(page, desk, {at.x + left, at.y}, words, width - left, style);
          }};
}

/// A heading with room above it, so that it belongs to what follows.
Block heading(const Desk& desk, const std::string& words, double width = kWidth) {
  constexpr Style kTitle{pt(14), true, 1.15};
  constexpr double kAbove = 3;
  return {kAbove + lines_height(desk, words, width, kTitle), [=, &desk](Page& page, Point at) {
            write_lines(page, desk, {at.x, at.y + kAbove}, words, width, kTitle);
          }};
}

constexpr double kBeside = kTickBox + 3;  // mm from the margin to words beside a box

/// Lines of words, some at a time, so that a list of any length goes over as many pages as it
/// needs. The first block begins with a box to tick and `bold`; `last` ends on a line of its own.
void add_lines(std::vector<Block>& blocks, const Desk& desk, const std::string& bold,
               const std::string& words, const std::string& last) {
  constexpr std::size_t kTogether = 10;
  const double most = kWidth - kBeside;
  auto lines = desk.letters.wrapped(words, kPlain.size, false, most);
  if (!last.empty()) {
    for (std::string& line : desk.letters.wrapped(last, kPlain.size, false, most)) {
      lines.push_back(std::move(line));
    }
  }
  for (std::size_t i = 0; i < lines.size(); i += kTogether) {
    const std::vector<std::string> some(
        lines.begin() + static_cast<std::ptrdiff_t>(i),
        lines.begin() + static_cast<std::ptrdiff_t>(std::min(lines.size(), i + kTogether)));
    const std::string head = i == 0 ? bold : "";
    const double head_height = head.empty() ? 0 : lines_height(desk, head, most, kStrong);
    const double height =
        head_height + static_cast<double>(some.size()) * kPlain.size * kPlain.step;
    blocks.push_back(
        {head.empty() ? height : std::max(height, kTickBox), [=, &desk](Page& page, Point at) {
           if (!head.empty()) tick_box(page, at);
           at.x += kBeside;
           if (!head.empty()) at.y = write_lines(page, desk, at, head, most, kStrong);
           for (const std::string& line : some) {
             at.y = write_lines(page, desk, at, line, most, kPlain);
           }
         }});
  }
}

void add_load(std::vector<Block>& blocks, const Desk& desk, std::size_t firing) {
  const KilnLoad& load = desk.subject.plan.firings[firing];
  const std::string sums = fmt::format("{} on {}, {} of ware", count_text(pieces_in(load), "piece"),
                                       count_text(static_cast<int>(load.levels.size()), "shelf"),
                                       kilos_text(load.ware, desk.subject.inches));
  add_lines(blocks, desk,
            fmt::format("{}. {}: {}", firing + 1, firing_name(desk.subject, firing), sums),
            contents_words(desk.subject, load), times_words(desk.subject, firing));
}

Block furniture_block(const Desk& desk, const FurnitureRow& row, const Style& style) {
  constexpr double kNeeded = 118, kOwned = 142, kGet = kWidth;
  const double height = lines_height(desk, row.what, kNeeded - 22, style);
  return {height, [=, &desk](Page& page, Point at) {
            write_lines(page, desk, at, row.what, kNeeded - 22, style);
            const double base = at.y + 0.9 * style.size;
            write(page, desk, {at.x + kNeeded, base}, row.needed, style, Anchor::right);
            write(page, desk, {at.x + kOwned, base}, row.owned, style, Anchor::right);
            const Style get{style.size, !row.get.empty(), style.step};
            write(page, desk, {at.x + kGet, base}, row.get, get, Anchor::right);
            rule(page, {at.x, at.y + height + 0.8}, {at.x + kWidth, at.y + height + 0.8}, 0.1);
          }};
}

void add_furniture(std::vector<Block>& blocks, const Desk& desk) {
  const auto rows = furniture_rows(desk.subject);
  if (rows.empty()) return;
  const bool all = std::all_of(rows.begin(), rows.end(),
                               [](const FurnitureRow& row) { return row.get.empty(); });
  blocks.push_back(heading(desk, all ? "SHELVES AND POSTS: you own enough"
                                     : "SHELVES AND POSTS: some are to be bought or borrowed"));
  constexpr Style kColumnHead{pt(10), false, 1.2};
  blocks.push_back(furniture_block(desk, {"", "needed at once", "owned", ""}, kColumnHead));
  for (const FurnitureRow& row : rows) blocks.push_back(furniture_block(desk, row, kPlain));
}

std::vector<Block> blocks_of(const Desk& desk) {
  const LoadPlan& plan = desk.subject.plan;
  std::vector<Block> blocks;
  if (!plan.left_out.empty()) {
    blocks.push_back(heading(desk, "LEFT OUT, and why"));
    for (Block& one : left_out_blocks(desk, plan.left_out, kWidth)) blocks.push_back(one);
  }
  blocks.push_back(heading(desk, "WHAT GOES INTO WHICH LOAD"));
  blocks.push_back(words_block(desk, loads_words(desk.subject), 0, kWidth, kPlain));
  for (std::size_t i = 0; i < plan.firings.size(); ++i) add_load(blocks, desk, i);
  const std::string days = days_words(desk.subject);
  if (!days.empty()) {
    blocks.push_back(heading(desk, "TIME"));
    blocks.push_back(words_block(desk, days, 0, kWidth, kPlain));
  }
  add_furniture(blocks, desk);
  for (Block& remark : remark_blocks(desk, kWidth)) blocks.push_back(std::move(remark));
  return blocks;
}

}  // namespace

std::vector<Block> remark_blocks(const Desk& desk, double width) {
  std::vector<Block> blocks;
  for (const std::string& remark : desk.subject.plan.remarks) {
    if (blocks.empty()) {
      blocks.push_back(heading(desk, "GOOD TO KNOW", width));
    }
    blocks.push_back(words_block(desk, remark, 0, width, kPlain));
  }
  return blocks;
}

std::vector<Page> batch_pages(const Desk& desk) {
  const Subject& subject = desk.subject;
  if (subject.plan.firings.size() == 1) return {};
  const auto blocks = blocks_of(desk);
  const std::string title = subject.studio.empty() ? "All loads" : subject.studio + ": all loads";
  std::vector<Page> pages;
  std::size_t next = 0;
  while (next < blocks.size()) {
    const std::string number = pages.empty() ? "" : fmt::format("-{}", pages.size() + 1);
    Page page = portrait("all-loads" + number, "All loads");
    Room room = body_of(page);
    const std::string words = pages.empty() ? title : title + ", continued";
    const double size =
        desk.letters.size_to_fit(words, true, kWidth, {pt(26), pt(22), pt(18), pt(15), pt(12)});
    room.top = write_lines(page, desk, {kMargin, kClip}, words, kWidth, {size, true}) + 4;
    next = set_blocks(page, blocks, next, room, {1, 0, 2.5});
    write_foot(page, desk,
               {"All loads", fmt::format("plan {}{}", subject.plan.name, date_words(subject))});
    pages.push_back(std::move(page));
  }
  return pages;
}

}  // namespace placer::report
