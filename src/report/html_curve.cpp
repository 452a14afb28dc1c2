#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/html.h"
#include "report/words.h"

namespace placer::report {
namespace {

constexpr double kLeft = 52, kRight = 308, kTop = 12, kBottom = 236;  // of the grid, in units

/// Hours and degrees into the picture.
struct Grid {
  double hours = 1, celsius = 1;
  double x(double at) const { return kLeft + (kRight - kLeft) * at / hours; }
  double y(double c) const { return kBottom - (kBottom - kTop) * c / celsius; }
};

std::string line(double x1, double y1, double x2, double y2) {
  return fmt::format("<path class=\"grid\" d=\"M{} {}L{} {}\"/>", svg_number(x1), svg_number(y1),
                     svg_number(x2), svg_number(y2));
}

std::string words_at(double x, double y, const char* kind, const std::string& words) {
  return fmt::format("<text class=\"{}\" x=\"{}\" y=\"{}\">{}</text>", kind, svg_number(x),
                     svg_number(y), words);
}

/// A step of 1, 2, 3, 6, 12 or 24 hours and so on that makes at most nine of the firing.
double hour_step(double hours) {
  for (const double step : {1.0, 2.0, 3.0, 6.0, 12.0, 24.0, 48.0}) {
    if (hours / step <= 9) return step;
  }
  return std::ceil(hours / 9);
}

std::string grid_marks(const Grid& grid, bool fahrenheit_first) {
  std::string text;
  const double degrees = grid.celsius > 800 ? 200 : 100;
  for (double c = 0; c <= grid.celsius; c += degrees) {
    text += line(kLeft, grid.y(c), kRight, grid.y(c));
    const double f = fahrenheit({c});
    const double y = grid.y(c) + 4;
    text += words_at(kLeft - 5, y, "left", fmt::format("{:.0f}", fahrenheit_first ? f : c));
    text += words_at(kRight + 5, y, "right", fmt::format("{:.0f}", fahrenheit_first ? c : f));
  }
  const double step = hour_step(grid.hours);
  for (double h = 0; h <= grid.hours; h += step) {
    text += line(grid.x(h), kTop, grid.x(h), kBottom);
    text += words_at(grid.x(h), kBottom + 16, "middle", fmt::format("{:.0f}", h));
  }
  text += words_at(kLeft - 5, kBottom + 32, "left", fahrenheit_first ? "°F" : "°C");
  text += words_at(kRight + 5, kBottom + 32, "right", fahrenheit_first ? "°C" : "°F");
  return text + words_at((kLeft + kRight) / 2, kBottom + 32, "middle", "hours from the start");
}

}  // namespace

std::string curve_svg(const firing::Forecast& forecast, bool fahrenheit_first) {
  if (forecast.curve.size() < 2) return "";
  Grid grid{std::max(forecast.curve.back().at.count(), 0.1), 100};
  for (const firing::Moment& moment : forecast.curve) {
    grid.celsius = std::max(grid.celsius, std::ceil(moment.kiln.celsius / 100) * 100);
  }
  std::string path;
  double last = -1;
  for (const firing::Moment& moment : forecast.curve) {
    const double x = grid.x(moment.at.count());
    if (x - last < 0.7 && &moment != &forecast.curve.back()) continue;  // finer than the line
    path += fmt::format("{}{} {}", path.empty() ? "M" : "L", svg_number(x),
                        svg_number(grid.y(moment.kiln.celsius)));
    last = x;
  }
  return fmt::format(
      "<svg class=\"curve\" viewBox=\"0 0 360 276\" role=\"img\" aria-label=\"Curve of the firing: "
      "{} at most; heat off after {}; opened only after {}. The steps below say the same.\">{}"
      "<path class=\"line\" d=\"{}\"/></svg>\n",
      both_degrees(forecast.schedule.top, fahrenheit_first), hours_text(forecast.off),
      hours_text(forecast.earliest_opening), grid_marks(grid, fahrenheit_first), path);
}

}  // namespace placer::report
