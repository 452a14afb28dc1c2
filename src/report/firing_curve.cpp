#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "report/course.h"
#include "report/firing_blocks.h"
#include "report/words.h"

namespace placer::report {
namespace {

constexpr double kLeft = 15;    // °C beside the axis
constexpr double kRight = 16;   // °F
constexpr double kBottom = 11;  // hours and clock
constexpr double kTop = 6;
constexpr Style kSmall{pt(8)};

/// Share of the width for the hours in which the pencil draws, when cooling is long: the kiln falls
/// for days, and nobody writes at night.
constexpr double kWideShare = 0.66;

/// Hours and degrees onto the paper. Up to `bend` an hour is wide, after it narrow.
struct Axes {
  Point origin;
  double mm_per_hour = 1;
  double narrow_mm_per_hour = 1;
  double mm_per_degree = 1;
  int bend = 0;  ///< = hours when there is only one scale
  int hours = 0;
  int hundreds = 0;

  double x(double hours_in) const {
    return origin.x + std::min<double>(hours_in, bend) * mm_per_hour +
           std::max(0.0, hours_in - bend) * narrow_mm_per_hour;
  }
  Point at(double hours_in, double celsius) const {
    return {x(hours_in), origin.y - celsius * mm_per_degree};
  }
  double right() const { return x(hours); }
  double top() const { return origin.y - 100.0 * hundreds * mm_per_degree; }
};

Axes axes_at(const firing::Forecast& forecast, Point top_left, double height) {
  double top = forecast.schedule.top.celsius;
  for (const firing::Moment& moment : forecast.curve) {
    top = std::max({top, moment.planned.celsius, moment.kiln.celsius});
  }
  Axes axes;
  axes.hours = std::max(2, static_cast<int>(std::ceil(course_end(forecast) + 0.25)));
  const int heated = static_cast<int>(std::ceil(forecast.off.count())) + 1;
  axes.bend = heated * 3 < axes.hours * 2 ? heated : axes.hours;
  axes.hundreds = static_cast<int>(std::floor(top / 100)) + 1;
  axes.origin = {top_left.x + kLeft, top_left.y + height - kBottom};
  const double width = kSheetWidth - kLeft - kRight;
  const double wide = axes.bend < axes.hours ? kWideShare * width : width;
  axes.mm_per_hour = wide / axes.bend;
  axes.narrow_mm_per_hour = (width - wide) / std::max(1, axes.hours - axes.bend);
  axes.mm_per_degree = (height - kBottom - kTop) / (100.0 * axes.hundreds);
  return axes;
}

/// Hours at which a grid line stands: every hour where there is room, and after the bend fewer.
std::vector<int> grid_hours(const Axes& axes) {
  const auto step = [](double mm_per_hour) {
    return mm_per_hour < 1.5 ? 12 : mm_per_hour < 3 ? 3 : 1;
  };
  std::vector<int> hours;
  for (int h = 0; h <= axes.bend; h += step(axes.mm_per_hour)) hours.push_back(h);
  const int narrow = step(axes.narrow_mm_per_hour);
  for (int h = (axes.bend / narrow + 1) * narrow; h <= axes.hours; h += narrow) hours.push_back(h);
  return hours;
}

void draw_grid(Page& page, const Axes& axes) {
  Strokes light{{}, Pen{0.12, {0.4, 0.6}}};
  Strokes strong{{}, Pen{0.2, {}}};
  for (const int hour : grid_hours(axes)) {
    (hour % 6 == 0 ? strong : light)
        .lines.emplace_back(axes.at(hour, 0), axes.at(hour, 100.0 * axes.hundreds));
  }
  for (int hundred = 0; hundred <= axes.hundreds; ++hundred) {
    (hundred % 5 == 0 ? strong : light)
        .lines.emplace_back(axes.at(0, 100.0 * hundred), axes.at(axes.hours, 100.0 * hundred));
  }
  page.marks.emplace_back(std::move(light));
  page.marks.emplace_back(std::move(strong));
  frame(page, {axes.origin.x, axes.top()}, {axes.right(), axes.origin.y}, 0.4);
}

/// Where the hours become narrow.
void draw_bend(Page& page, const Axes& axes) {
  if (axes.bend == axes.hours) return;
  rule(page, axes.at(axes.bend, 0), axes.at(axes.bend, 100.0 * axes.hundreds), 0.8);
}

void write_degrees(Page& page, const Desk& desk, const Axes& axes) {
  // The scale that the studio reads stands on the left.
  const auto put = [&](double y, std::string left, std::string right, const Style& style) {
    if (desk.subject.inches) std::swap(left, right);
    write(page, desk, {axes.origin.x - 1.5, y}, left, style, Anchor::right);
    write(page, desk, {axes.right() + 1.5, y}, right, style);
  };
  const int step = 100 * axes.mm_per_degree < 2.7 ? 2 : 1;  // letters of 8 points need that much
  for (int hundred = 0; hundred <= axes.hundreds; ++hundred) {
    if (hundred % step != 0) continue;
    const Temperature t{100.0 * hundred};
    put(axes.at(0, t.celsius).y + 1, fmt::format("{:.0f}", t.celsius),
        fmt::format("{:.0f}", fahrenheit(t)), kSmall);
  }
  put(axes.top() - 3, "°C", "°F", {pt(10), true});
}

void write_hours(Page& page, const Fire& fire, const Axes& axes) {
  constexpr double kRoom = 13;
  double free_from = -1e9;
  const double last = axes.x(course_end(fire.forecast));
  for (const int hour : grid_hours(axes)) {
    const double x = axes.x(hour);
    if (x < free_from) continue;
    free_from = x + kRoom;
    write(page, fire.desk, {x, axes.origin.y + 4}, fmt::format("+{} h", hour), kSmall,
          Anchor::middle);
    if (fire.clock.knows_start()) {
      write(page, fire.desk, {x, axes.origin.y + 8}, fire.clock.clock(Hours{1.0 * hour}), kSmall,
            Anchor::middle);
    }
  }
  rule(page, {last, axes.origin.y - 9}, {last, axes.origin.y}, 0.6);
  write(page, fire.desk, {last - 1, axes.origin.y - 7}, "open", {pt(8), true}, Anchor::right);
}

// While it climbs: where the curve would be with every hour a tenth longer or shorter.
void draw_band(Page& page, const firing::Forecast& forecast, const Axes& axes) {
  const double off = climb_end(forecast).count();
  Strokes band{{}, Pen{0.12, {}}};
  Path early{{}, false, Pen{0.2, {}}, Fill::none};
  Path late = early;
  const double step = std::min(0.25, 1.0 / axes.mm_per_hour);
  for (double t = 0; t <= off; t += step) {
    const double high = course_at(forecast, std::min(off, t / 0.9));
    const double low = course_at(forecast, t / 1.1);
    early.corners.push_back(axes.at(t, std::max(high, low)));
    late.corners.push_back(axes.at(t, std::min(high, low)));
    band.lines.emplace_back(early.corners.back(), late.corners.back());
  }
  page.marks.emplace_back(std::move(band));
  page.marks.emplace_back(std::move(early));
  page.marks.emplace_back(std::move(late));
}

// A line through moments of the curve until `last` hours, from what `celsius` takes of each.
template <class Celsius>
void draw_moments(Page& page, const firing::Forecast& forecast, const Axes& axes, double last,
                  double width, const Celsius& celsius) {
  Path line{{}, false, Pen{width, {}}, Fill::none};
  for (const firing::Moment& moment : forecast.curve) {
    if (moment.at.count() > last) break;
    line.corners.push_back(axes.at(moment.at.count(), std::max(0.0, celsius(moment))));
  }
  if (line.corners.size() > 1) page.marks.emplace_back(std::move(line));
}

void draw_course(Page& page, const firing::Forecast& forecast, const Axes& axes) {
  draw_moments(page, forecast, axes, axes.hours, 0.9, [&](const firing::Moment& moment) {
    return course_at(forecast, moment.at.count());
  });
  if (!forecast.falls_behind) return;
  // What it should have done.
  draw_moments(page, forecast, axes, forecast.off.count(), 0.3,
               [](const firing::Moment& moment) { return moment.planned.celsius; });
}

// The number of each step where it ends; a later one that would cover another is left out.
void draw_step_numbers(Page& page, const Fire& fire, const Axes& axes) {
  std::vector<Point> taken;
  int number = 0;
  for (const firing::TimedSegment& step : fire.forecast.steps) {
    ++number;
    if (step.ends.count() > axes.hours) break;
    Point at = axes.at(step.ends.count(), course_at(fire.forecast, step.ends.count()));
    at.x = std::min(at.x, axes.right() - 2.5);
    const bool near = std::any_of(taken.begin(), taken.end(), [&](Point other) {
      return std::hypot(at.x - other.x, at.y - other.y) < 5.4;
    });
    if (near) continue;
    taken.push_back(at);
    page.marks.emplace_back(Circle{at, 2.5, Pen{0.3, {}}, Fill::white});
    write(page, fire.desk, {at.x, at.y + kCapitals * pt(8) / 2}, std::to_string(number),
          {pt(8), true}, Anchor::middle);
  }
}

}  // namespace

Block curve_block(const Fire& fire, double height) {
  return {height, [&fire, height](Page& page, Point at) {
            const Axes axes = axes_at(fire.forecast, at, height);
            std::string words = fire.forecast.falls_behind
                                    ? "bold: what it manages · thin: the plan"
                                    : "bold: the plan";
            words += " · hatched: still fine · yours in pencil";
            if (axes.bend < axes.hours) words += " · right of the bar hours are narrower";
            const double most = axes.right() - axes.origin.x - 4;
            const double size =
                fire.desk.letters.size_to_fit(words, false, most, {pt(9), pt(8.5), pt(8)});
            write(page, fire.desk, {(axes.origin.x + axes.right()) / 2, axes.top() - 3}, words,
                  {size}, Anchor::middle);
            draw_grid(page, axes);
            draw_bend(page, axes);
            draw_band(page, fire.forecast, axes);
            draw_course(page, fire.forecast, axes);
            draw_step_numbers(page, fire, axes);
            write_degrees(page, fire.desk, axes);
            write_hours(page, fire, axes);
          }};
}

}  // namespace placer::report
