#include "report/text_curve.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace placer::report {
namespace {

constexpr int kColumns = 60;
constexpr int kRows = 15;

/// A whole step that makes at most `most` of the span: 1, 2, 5, 10, ... times `unit`.
double step_for(double span, double unit, int most) {
  double step = unit;
  for (int turn = 0; span / step > most; ++turn) step *= turn % 3 == 1 ? 2.5 : 2;
  return step;
}

/// Temperature of the kiln at a time, along straight lines between the moments.
double kiln_at(const std::vector<firing::Moment>& curve, double hours) {
  const auto after =
      std::lower_bound(curve.begin(), curve.end(), hours,
                       [](const firing::Moment& m, double at) { return m.at.count() < at; });
  if (after == curve.begin()) return curve.front().kiln.celsius;
  if (after == curve.end()) return curve.back().kiln.celsius;
  const auto before = after - 1;
  const double span = (after->at - before->at).count();
  const double share = span > 0 ? (hours - before->at.count()) / span : 0;
  return before->kiln.celsius + share * (after->kiln - before->kiln).kelvin;
}

std::string hour_axis(double hours, double step) {
  std::string marks(kColumns, '-');
  std::string labels(kColumns + 6, ' ');
  for (double at = 0; at <= hours; at += step) {
    const auto column = static_cast<std::size_t>(std::lround(at / hours * (kColumns - 1)));
    marks[column] = '+';
    const std::string label = fmt::format("{:.0f}", at);
    labels.replace(column, label.size(), label);
  }
  labels.erase(labels.find_last_not_of(' ') + 1);
  return fmt::format("         |{}|\n          {}  hours\n", marks, labels);
}

}  // namespace

std::string curve_text(const firing::Forecast& forecast, bool fahrenheit_first) {
  if (forecast.curve.size() < 2) return "";
  const double hours = forecast.curve.back().at.count();
  double top = 0;
  for (const firing::Moment& moment : forecast.curve) top = std::max(top, moment.kiln.celsius);
  const double degrees = step_for(top, 100, kRows - 1);
  const int rows = static_cast<int>(std::ceil(top / degrees));
  std::vector<std::string> picture(static_cast<std::size_t>(rows + 1), std::string(kColumns, ' '));
  long last = -1;
  for (int column = 0; column < kColumns; ++column) {
    const double celsius = kiln_at(forecast.curve, hours * column / (kColumns - 1));
    const long row = std::clamp(std::lround(celsius / degrees), 0L, static_cast<long>(rows));
    const auto mark = [&](long at) {
      picture[static_cast<std::size_t>(at)][static_cast<std::size_t>(column)] = '*';
    };
    mark(row);
    // A steep climb leaves no hole between two columns.
    for (long between = last + 1; last >= 0 && between < row; ++between) mark(between);
    for (long between = last - 1; between > row; --between) mark(between);
    last = row;
  }
  std::string text;
  for (int row = rows; row >= 0; --row) {
    const double celsius = row * degrees;
    const Temperature at{celsius};
    text +=
        fmt::format("{:>5.0f} {} |{}| {:.0f} {}\n", fahrenheit_first ? fahrenheit(at) : celsius,
                    fahrenheit_first ? "°F" : "°C", picture[static_cast<std::size_t>(row)],
                    fahrenheit_first ? celsius : fahrenheit(at), fahrenheit_first ? "°C" : "°F");
  }
  return text + hour_axis(hours, step_for(hours, 1, 12));
}

}  // namespace placer::report
