#include "report/course.h"

#include <algorithm>

namespace placer::report {
namespace {

double celsius(const firing::Forecast& forecast, const firing::Moment& moment) {
  // A kiln that falls behind does not keep the plan, and who logs it wants to know what comes.
  const bool planned = !forecast.falls_behind && moment.at <= climb_end(forecast);
  return planned ? moment.planned.celsius : moment.kiln.celsius;
}

}  // namespace

Hours climb_end(const firing::Forecast& forecast) {
  const std::size_t top = forecast.schedule.top_segment;
  return top < forecast.steps.size() && !forecast.steps[top].segment.natural
             ? forecast.steps[top].ends
             : forecast.off;
}

double course_at(const firing::Forecast& forecast, double hours) {
  const auto& curve = forecast.curve;
  if (curve.empty()) return 0;
  const auto next =
      std::lower_bound(curve.begin(), curve.end(), hours,
                       [](const firing::Moment& m, double at) { return m.at.count() < at; });
  if (next == curve.begin()) return celsius(forecast, *next);
  if (next == curve.end()) return celsius(forecast, curve.back());
  const auto before = std::prev(next);
  const double span = (next->at - before->at).count();
  const double part = span > 0 ? (hours - before->at.count()) / span : 1;
  const double from = celsius(forecast, *before);
  return from + part * (celsius(forecast, *next) - from);
}

double course_end(const firing::Forecast& forecast) {
  const double last = forecast.earliest_opening.count();
  return last > 0 || forecast.curve.empty() ? last : forecast.curve.back().at.count();
}

}  // namespace placer::report
