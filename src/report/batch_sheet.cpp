#include "report/batch_sheet.h"

#include <fmt/format.h>

#include <cmath>
#include <map>

#include "report/fire_clock.h"
#include "report/first_page.h"
#include "report/piece_list.h"
#include "report/words.h"

namespace placer::report {
namespace {

constexpr double kWidth = kShortSide - 2 * kMargin;
constexpr Style kPlain{pt(11), false, 1.2};
constexpr Style kStrong{pt(13), true, 1.2};
constexpr Style kTitle{pt(14), true, 1.5};

Block words_block(const Desk& desk, const std::string& words, double left, double width,
                  const Style& style) {
  return {lines_height(desk, words, width - left, style), [=, &desk](Page& page, Point at) {
            write_lines(page, desk, {at.x + left, at.y}, words, width - left, style);
          }};
}

// Pieces by kind in a load, in the order of the studio file.
std::string contents_words(const Desk& desk, const KilnLoad& load) {
  std::map<int, int> counts;
  for (const Level& level : load.levels) {
    for (const PlacedPiece& piece : level.pieces) {
      if (piece.stack.empty()) {
        counts[piece.piece] += std::max(piece.stacked, 1);
      } else {
        for (const int kind : piece.stack) ++counts[kind];
      }
    }
  }
  std::string words;
  for (const auto& [kind, count] : counts) {
    words += fmt::format("{}{} {}", words.empty() ? "" : ", ", count,
                         desk.subject.batch.pieces.at(static_cast<std::size_t>(kind)).name);
  }
  return words;
}

std::string times_words(const Desk& desk, std::size_t firing) {
  if (firing >= desk.subject.forecasts.size()) return "";
  const firing::Forecast& forecast = desk.subject.forecasts[firing];
  const FireClock clock{desk.subject, forecast};
  const Hours open = forecast.earliest_opening;
  const std::string top = both_degrees(forecast.schedule.top);
  if (!clock.knows_start()) {
    return fmt::format("top {}; heat off after {}, not opened before {}", top,
                       hours_text(forecast.off), hours_text(open));
  }
  return fmt::format("top {}; start {}, heat off {}, not opened before {}", top,
                     clock.start_words(), clock.day_time(forecast.off), clock.day_time(open));
}

Block load_block(const Desk& desk, std::size_t firing) {
  const KilnLoad& load = desk.subject.plan.firings[firing];
  const std::string name = firing_name(desk.subject, firing);
  const std::string sums =
      fmt::format("{} on {}, {} of ware", count_text(pieces_in(load), "piece"),
                  count_text(static_cast<int>(load.levels.size()), "shelf"), kilos_text(load.ware));
  const std::string words = fmt::format("{}. {}: {}", firing + 1, name, sums);
  const std::string contents = contents_words(desk, load);
  const std::string times = times_words(desk, firing);
  constexpr double kLeft = kTickBox + 3;
  const double most = kWidth - kLeft;
  double height =
      lines_height(desk, words, most, kStrong) + lines_height(desk, contents, most, kPlain) + 2;
  if (!times.empty()) height += lines_height(desk, times, most, kPlain);
  return {std::max(height, kTickBox), [=, &desk](Page& page, Point at) {
            tick_box(page, at);
            at.x += kLeft;
            at.y = write_lines(page, desk, at, words, most, kStrong);
            at.y = write_lines(page, desk, at, contents, most, kPlain);
            if (!times.empty()) write_lines(page, desk, at, times, most, kPlain);
          }};
}

std::string use_words(const std::string& what, const FurnitureUse& use) {
  const int missing = use.needed - use.owned;
  return fmt::format("{}: {} needed at once, {} owned{}", what, use.needed, use.owned,
                     missing > 0 ? fmt::format(". Get {} more", missing) : "");
}

void add_furniture(std::vector<Block>& blocks, const Desk& desk) {
  const LoadPlan& plan = desk.subject.plan;
  if (plan.shelves.empty() && plan.posts.empty()) return;
  blocks.push_back(words_block(desk, "SHELVES AND POSTS", 0, kWidth, kTitle));
  const Kiln& kiln = desk.subject.batch.kiln;
  for (const FurnitureUse& use : plan.shelves) {
    if (use.needed == 0) continue;
    const std::string name = kiln.shelves.at(static_cast<std::size_t>(use.kind)).name;
    blocks.push_back(words_block(desk, use_words(name, use), 0, kWidth, kPlain));
  }
  for (const FurnitureUse& use : plan.posts) {
    if (use.needed == 0) continue;
    const Length height = kiln.posts.at(static_cast<std::size_t>(use.kind)).height;
    const std::string name = "posts of " + length_text(height, desk.subject.inches);
    blocks.push_back(words_block(desk, use_words(name, use), 0, kWidth, kPlain));
  }
}

std::string days_words(const Desk& desk) {
  Hours sum{0};
  for (const firing::Forecast& forecast : desk.subject.forecasts) {
    sum += std::max(forecast.earliest_opening, forecast.unload);
  }
  if (sum.count() <= 0) return "";
  const int days = static_cast<int>(std::ceil(sum.count() / 24));
  return fmt::format(
      "One after another they keep the kiln busy for {} from lighting to unloading: at least {}.",
      hours_text(Hours{std::round(sum.count())}), count_text(days, "day"));
}

std::string loads_words(const Desk& desk) {
  const LoadPlan& plan = desk.subject.plan;
  const auto loads = count_text(static_cast<int>(plan.firings.size()), "load");
  if (plan.fewest_firings_possible <= 0) return loads + " of the kiln.";
  return fmt::format("{} of the kiln; what was set could not be done in fewer than {}.", loads,
                     plan.fewest_firings_possible);
}

std::vector<Block> blocks_of(const Desk& desk) {
  const LoadPlan& plan = desk.subject.plan;
  std::vector<Block> blocks;
  if (!plan.left_out.empty()) {
    blocks.push_back(words_block(desk, "LEFT OUT, and why", 0, kWidth, kTitle));
    for (Block& one : left_out_blocks(desk, plan.left_out, kWidth)) blocks.push_back(one);
  }
  blocks.push_back(words_block(desk, "WHAT GOES INTO WHICH LOAD", 0, kWidth, kTitle));
  blocks.push_back(words_block(desk, loads_words(desk), 0, kWidth, kPlain));
  for (std::size_t i = 0; i < plan.firings.size(); ++i) blocks.push_back(load_block(desk, i));
  const std::string days = days_words(desk);
  if (!days.empty()) blocks.push_back(words_block(desk, days, 0, kWidth, kPlain));
  add_furniture(blocks, desk);
  for (Block& remark : remark_blocks(desk, kWidth)) blocks.push_back(std::move(remark));
  return blocks;
}

}  // namespace

std::vector<Block> remark_blocks(const Desk& desk, double width) {
  std::vector<Block> blocks;
  for (const std::string& remark : desk.subject.plan.remarks) {
    if (blocks.empty()) blocks.push_back(words_block(desk, "GOOD TO KNOW", 0, width, kTitle));
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
