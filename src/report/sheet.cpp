#include "report/sheet.h"

#include <fmt/format.h>

#include <algorithm>

#include "placer/firing/clock.h"
#include "report/fire_clock.h"

namespace placer::report {

Page landscape(const std::string& name, const std::string& title) {
  return {name, title, kLongSide, kShortSide, {}};
}

Page portrait(const std::string& name, const std::string& title) {
  return {name, title, kShortSide, kLongSide, {}};
}

Room body_of(const Page& page) {
  return {kMargin, kClip, page.width - kMargin, page.height - kMargin - kFootHeight};
}

void write(Page& page, const Desk& desk, Point at, const std::string& words, const Style& style,
           Anchor anchor) {
  page.marks.emplace_back(desk.letters.text(at, words, style.size, style.bold, anchor));
}

double write_lines(Page& page, const Desk& desk, Point top_left, const std::string& words,
                   double most, const Style& style) {
  double y = top_left.y;
  for (const std::string& line : desk.letters.wrapped(words, style.size, style.bold, most)) {
    write(page, desk, {top_left.x, y + 0.9 * style.size}, line, style);
    y += style.step * style.size;
  }
  return y;
}

double lines_height(const Desk& desk, const std::string& words, double most, const Style& style) {
  const auto lines = desk.letters.wrapped(words, style.size, style.bold, most);
  return static_cast<double>(lines.size()) * style.step * style.size;
}

void tick_box(Page& page, Point top_left, double side) {
  frame(page, top_left, top_left + Point{side, side}, 0.5);
}

void write_foot(Page& page, const Desk& desk, const Foot& foot) {
  constexpr double kBar = 40;
  const double bottom = page.height - kMargin;
  const double right = page.width - kMargin - kQrSide - 4;
  const double bar_left = right - kBar;
  const double most = bar_left - 6 - kMargin;
  const double size =
      desk.letters.size_to_fit(foot.bold, true, most, {pt(12), pt(11), pt(10), pt(9)});
  write_lines(page, desk, {kMargin, bottom - 13}, foot.bold, most, {size, true});
  const auto lines = desk.letters.wrapped(foot.plain, pt(9), false, most);
  double y = bottom - 1 - static_cast<double>(lines.size() - 1) * 1.2 * pt(9);
  for (const std::string& line : lines) {
    write(page, desk, {kMargin, y}, line, {pt(9)});
    y += 1.2 * pt(9);
  }
  rule(page, {bar_left, bottom - 5}, {right, bottom - 5}, 0.8);
  rule(page, {bar_left, bottom - 6.5}, {bar_left, bottom - 3.5}, 0.3);
  rule(page, {right, bottom - 6.5}, {right, bottom - 3.5}, 0.3);
  write(page, desk, {(bar_left + right) / 2, bottom - 1}, "this bar is 40 mm on paper", {pt(8)},
        Anchor::middle);
}

namespace {

std::string day_words(const Subject& subject, long long instant) {
  const std::string day = firing::to_string(firing::Zone::named(subject.zone).local(instant), true);
  return " · " + day.substr(0, day.size() - 6);  // without the hour
}

}  // namespace

std::string date_words(const Subject& subject) {
  return subject.made_at == 0 ? "" : day_words(subject, subject.made_at);
}

std::string date_words(const Subject& subject, std::size_t firing) {
  bool dated = false;  // whether any firing has a date of its own
  for (std::size_t i = 0; i < subject.forecasts.size(); ++i) {
    const auto start = FireClock{subject, subject.forecasts[i]}.instant(Hours{0});
    if (start && i == firing) return day_words(subject, *start);
    dated = dated || start;
  }
  return dated ? "" : date_words(subject);
}

void write_page_number(Page& page, const Desk& desk, int number, int of, const std::string& says) {
  const double bottom = page.height - kMargin;
  const double right = page.width - kMargin;
  write(page, desk, {right - kQrSide - 4, bottom - 9.5}, fmt::format("page {} of {}", number, of),
        {pt(11), true}, Anchor::right);
  square_code(page, {right, bottom}, kQrSide, says);
}

}  // namespace placer::report
