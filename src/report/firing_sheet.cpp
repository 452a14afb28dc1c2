#include "report/firing_sheet.h"

#include <fmt/format.h>

#include "report/firing_blocks.h"
#include "report/words.h"

namespace placer::report {
namespace {

constexpr double kHeading = 33;
constexpr double kShortHeading = 10;

std::string end_words(const firing::Forecast& forecast) {
  const auto& end = forecast.schedule.wish.target.end;
  const std::string top = both_degrees(forecast.schedule.top);
  if (const std::string* cone = std::get_if<std::string>(&end)) {
    return fmt::format("cone {} · top {}", *cone, top);
  }
  return "top " + top;
}

std::string about_words(const Desk& desk, const firing::Forecast& forecast) {
  std::vector<std::string> parts;
  if (!desk.subject.batch.kiln.name.empty()) parts.push_back(desk.subject.batch.kiln.name);
  const bool reduction = forecast.schedule.wish.atmosphere == firing::Atmosphere::reduction;
  parts.emplace_back(reduction ? "reduction" : "oxidation");
  if (!forecast.schedule.profile.empty()) {
    parts.push_back("schedule " + forecast.schedule.profile);
  }
  return fmt::format("{}", fmt::join(parts, " · "));
}

void draw_heading(Page& page, const Fire& fire, const std::string& name, bool first) {
  const Desk& desk = fire.desk;
  const std::string title = "Firing: " + name;
  const double most = page.width - 2 * kMargin;
  if (!first) {
    write_lines(page, desk, {kMargin, kClip}, title + ", continued", most, {pt(16), true});
    return;
  }
  const auto fitted = [&](const std::string& words, std::vector<double> sizes) {
    return desk.letters.size_to_fit(words, true, most, sizes);
  };
  write(page, desk, {kMargin, kClip + 8}, title,
        {fitted(title, {pt(30), pt(26), pt(22), pt(18), pt(14)}), true});
  const std::string end = end_words(fire.forecast);
  write(page, desk, {kMargin, kClip + 18}, end, {fitted(end, {pt(22), pt(18), pt(15)}), true});
  const std::string about = about_words(desk, fire.forecast);
  write(page, desk, {kMargin, kClip + 24.5}, about,
        {desk.letters.size_to_fit(about, false, most, {pt(12), pt(11), pt(10), pt(9)})});
  write(page, desk, {kMargin, kClip + 30}, "This sheet advises; the kiln's own controls decide.",
        {pt(12), true});
}

std::vector<Block> blocks_of(const Fire& fire, std::size_t& first_step, std::size_t& last_step) {
  const firing::Forecast& forecast = fire.forecast;
  std::vector<Block> blocks{start_block(fire), off_block(fire)};
  const std::string be_there = be_there_words(fire);
  if (!be_there.empty()) blocks.push_back(paragraph(fire.desk, "BE THERE", be_there, pt(11)));
  for (const std::string& caution : forecast.cautions) {
    const auto [head, rest] = split_caution(caution);
    blocks.push_back(paragraph(fire.desk, "⚠ " + head, rest, pt(10)));
  }
  for (const Finding& finding : forecast.findings) {
    blocks.push_back(paragraph(fire.desk, "LOOK AT THIS", finding.message, pt(11)));
  }
  first_step = blocks.size();
  for (Block& step : step_blocks(fire)) blocks.push_back(std::move(step));
  last_step = blocks.size();
  if (!forecast.cone.empty()) {
    blocks.push_back(paragraph(fire.desk, "",
                               fmt::format("By heat-work this firing brings down cone {} ({}).",
                                           forecast.cone, forecast.cone_band),
                               pt(11)));
  }
  for (const std::string& remark : forecast.schedule.remarks) {
    blocks.push_back(paragraph(fire.desk, "", remark, pt(11)));
  }
  blocks.push_back(curve_block(fire));
  blocks.push_back(log_block(fire));
  blocks.push_back(next_time_block(fire));
  return blocks;
}

// Steps carry the names of their columns wherever a page begins with one.
std::size_t set_page(Page& page, const Fire& fire, const std::vector<Block>& blocks,
                     std::size_t first, std::size_t first_step, std::size_t last_step, Room room) {
  const Columns column{1, 0, 1.5};
  std::vector<Block> with_head(blocks.begin() + static_cast<std::ptrdiff_t>(first), blocks.end());
  const bool has_steps = first < last_step;
  const std::size_t at = first < first_step ? first_step - first : 0;
  if (has_steps) {
    with_head.insert(with_head.begin() + static_cast<std::ptrdiff_t>(at), steps_head(fire));
  }
  std::size_t fitting = blocks_that_fit(with_head, 0, room, column);
  // A head alone at the bottom of a page helps nobody.
  if (has_steps && fitting == at + 1 && at > 0) fitting = at;
  with_head.resize(fitting);
  set_blocks(page, with_head, 0, room, column);
  const std::size_t heads = has_steps && fitting > at ? 1 : 0;
  return first + fitting - heads;
}

}  // namespace

std::vector<Page> firing_pages(const Desk& desk, std::size_t firing) {
  const firing::Forecast& forecast = desk.subject.forecasts.at(firing);
  const Fire fire{desk, forecast, FireClock{desk.subject, forecast}};
  const std::string name = firing_name(desk.subject, firing);
  std::size_t first_step = 0;
  std::size_t last_step = 0;
  const auto blocks = blocks_of(fire, first_step, last_step);
  std::vector<Page> pages;
  std::size_t next = 0;
  while (next < blocks.size()) {
    std::string file = fmt::format("firing-{}-fire", firing + 1);
    if (!pages.empty()) file += fmt::format("-{}", pages.size() + 1);
    Page page = portrait(file, name + ": firing sheet");
    Room room = body_of(page);
    draw_heading(page, fire, name, pages.empty());
    room.top += pages.empty() ? kHeading : kShortHeading;
    next = set_page(page, fire, blocks, next, first_step, last_step, room);
    write_foot(page, desk,
               {"Firing: " + name,
                fmt::format("plan {}{}", desk.subject.plan.name, date_words(desk.subject))});
    pages.push_back(std::move(page));
  }
  return pages;
}

}  // namespace placer::report
