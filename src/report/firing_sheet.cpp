#include "report/firing_sheet.h"

#include <fmt/format.h>

#include <algorithm>

#include "report/fire_words.h"
#include "report/firing_blocks.h"
#include "report/words.h"

namespace placer::report {
namespace {

constexpr double kHeading = 23.5;
constexpr double kShortHeading = 8;

std::string end_words(const Fire& fire) {
  const firing::Forecast& forecast = fire.forecast;
  const auto& end = forecast.schedule.wish.target.end;
  const std::string top = both_degrees(forecast.schedule.top, fire.desk.subject.inches);
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
  write(page, desk, {kMargin, kClip + 7}, title,
        {fitted(title, {pt(30), pt(26), pt(22), pt(18), pt(14)}), true});
  const std::string end = end_words(fire);
  write(page, desk, {kMargin, kClip + 16}, end, {fitted(end, {pt(22), pt(18), pt(15)}), true});
  const std::string about = about_words(desk, fire.forecast);
  const std::string advises = "This sheet advises; the kiln's own controls decide.";
  const Style bold{pt(10), true};
  write(page, desk, {page.width - kMargin, kClip + 21.5}, advises, bold, Anchor::right);
  const double left = most - desk.letters.width(advises, bold.size, true) - 3;
  write(page, desk, {kMargin, kClip + 21.5}, about,
        {desk.letters.size_to_fit(about, false, left, {pt(12), pt(11), pt(10), pt(9), pt(8)})});
}

/// What a firing sheet is made of.
struct Parts {
  std::vector<Block> blocks;                 ///< in this order
  std::size_t first_step = 0, last_set = 0;  ///< the steps that somebody sets
  std::vector<Block> fillers;  ///< wherever a page has room left, the first that fits first
};

/// How tightly a sheet is set.
struct Set {
  double fine = pt(10);        ///< size of the letters of the fillers
  double curve = 53;           ///< height of the curve, mm
  double be_there = pt(10.5);  ///< size of the moments' letters
  double smaller = 0;          ///< of the words of the steps, a part of their size
};

/// Steps up to the last one that is not a fall with the heat off.
std::size_t steps_to_set(const firing::Forecast& forecast) {
  std::size_t count = forecast.steps.size();
  while (count > 0 && forecast.steps[count - 1].segment.natural) --count;
  return count;
}

Parts parts_of(const Fire& fire, const Set& set) {
  const double fine = set.fine;
  const firing::Forecast& forecast = fire.forecast;
  Parts parts;
  parts.blocks = {start_block(fire), off_block(fire)};
  if (auto be_there = be_there_block(fire, set.be_there)) {
    parts.blocks.push_back(std::move(*be_there));
  }
  for (const Finding& finding : forecast.findings) {
    const std::string words = finding_words(finding, forecast, fire.clock);
    parts.blocks.push_back(paragraph(fire.desk, "LOOK AT THIS", words, set.be_there));
  }
  parts.first_step = parts.blocks.size();
  for (Block& step : step_blocks(fire, set.smaller)) parts.blocks.push_back(std::move(step));
  parts.last_set = parts.first_step + steps_to_set(forecast);
  parts.blocks.push_back(curve_block(fire, set.curve));
  parts.blocks.push_back(log_block(fire));
  parts.blocks.push_back(next_time_block(fire));
  for (const std::string& caution : cautions_of(forecast)) {
    const auto [head, rest] = split_caution(caution);
    parts.fillers.push_back(paragraph(fire.desk, "⚠ " + head, rest, fine));
  }
  if (!forecast.cone_band.empty()) {
    parts.fillers.push_back(paragraph(fire.desk, "By heat-work:", forecast.cone_band + ".", fine));
  }
  if (!forecast.schedule.remarks.empty()) {
    const std::string why = fmt::format("{}", fmt::join(forecast.schedule.remarks, " "));
    parts.fillers.push_back(paragraph(fire.desk, "Why so:", why, fine));
  }
  return parts;
}

/// Sets what fits of the fillers below `y`, and forgets it.
void fill(Page& page, std::vector<Block>& fillers, Room room, double gap) {
  for (std::size_t i = 0; i < fillers.size();) {
    if (room.top + fillers[i].height > room.bottom + 1e-9) {
      ++i;
      continue;
    }
    fillers[i].ink(page, {room.left, room.top});
    room.top += fillers[i].height + gap;
    fillers.erase(fillers.begin() + static_cast<std::ptrdiff_t>(i));
  }
}

// Steps carry the names of their columns wherever a page begins with one.
std::size_t set_page(Page& page, const Fire& fire, Parts& parts, std::size_t first, Room room) {
  const Columns column{1, 0, 0.9};
  const auto& blocks = parts.blocks;
  std::vector<Block> with_head(blocks.begin() + static_cast<std::ptrdiff_t>(first), blocks.end());
  const std::size_t step = std::max(first, parts.first_step);
  const bool has_steps = step < parts.last_set;
  const std::size_t at = step - first;
  if (has_steps) {
    with_head.insert(with_head.begin() + static_cast<std::ptrdiff_t>(at), steps_head(fire));
  }
  std::size_t fitting = blocks_that_fit(with_head, 0, room, column);
  // A head alone at the bottom of a page helps nobody.
  if (has_steps && fitting == at + 1 && at > 0) fitting = at;
  with_head.resize(fitting);
  set_blocks(page, with_head, 0, room, column);
  room.top += height_of(with_head, column);
  fill(page, parts.fillers, room, column.line_gap);
  const std::size_t heads = has_steps && fitting > at ? 1 : 0;
  return first + fitting - heads;
}

std::vector<Page> pages_with(const Fire& fire, std::size_t firing, const Set& set) {
  const Desk& desk = fire.desk;
  const std::string name = firing_name(desk.subject, firing);
  Parts parts = parts_of(fire, set);
  std::vector<Page> pages;
  std::size_t next = 0;
  while (next < parts.blocks.size() || !parts.fillers.empty()) {
    std::string file = fmt::format("firing-{}-fire", firing + 1);
    if (!pages.empty()) file += fmt::format("-{}", pages.size() + 1);
    Page page = portrait(file, name + ": firing sheet");
    Room room = body_of(page);
    draw_heading(page, fire, name, pages.empty());
    room.top += pages.empty() ? kHeading : kShortHeading;
    next = set_page(page, fire, parts, next, room);
    write_foot(page, desk,
               {"Firing: " + name, fmt::format("plan {}{}", desk.subject.plan.name,
                                               date_words(desk.subject, firing))});
    pages.push_back(std::move(page));
  }
  return pages;
}

}  // namespace

std::vector<Page> firing_pages(const Desk& desk, std::size_t firing) {
  const firing::Forecast& forecast = desk.subject.forecasts.at(firing);
  const Fire fire{desk, forecast, FireClock{desk.subject, forecast}};
  std::vector<Page> best = pages_with(fire, firing, {});
  // A page saved is worth a little smaller fine print, and a lower curve.
  for (const Set set : {Set{pt(9.5)}, Set{pt(9)}, Set{pt(8.5)}, Set{pt(8.5), 42, pt(10)},
                        Set{pt(8.5), 42, pt(9.5), 0.08}, Set{pt(8), 36, pt(9), 0.15}}) {
    std::vector<Page> tighter = pages_with(fire, firing, set);
    if (tighter.size() < best.size()) best = std::move(tighter);
  }
  return best;
}

}  // namespace placer::report
