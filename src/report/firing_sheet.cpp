#include "report/firing_sheet.h"

#include <fmt/format.h>

#include "report/words.h"

namespace placer::report {

std::vector<Page> firing_pages(const Desk& desk, std::size_t firing) {
  const firing::Forecast& forecast = desk.subject.forecasts.at(firing);
  const std::string name = firing_name(desk.subject, firing);
  Page page = portrait(fmt::format("firing-{}-fire", firing + 1), name + ": firing sheet");
  write(page, desk, {kMargin, kClip + 8}, fmt::format("FIRE: {}", name), {pt(26), true});
  write(page, desk, {kMargin, kClip + 18}, "top " + both_degrees(forecast.schedule.top),
        {pt(18), true});
  double y = kClip + 30;
  for (const firing::TimedSegment& step : forecast.steps) {
    write(
        page, desk, {kMargin, y},
        fmt::format("{} → {}   {}   {}", celsius_text(step.from), celsius_text(step.segment.target),
                    rate_text(step.segment.rate), hours_text(step.ends - step.starts)),
        {pt(14)});
    y += 8;
  }
  write_foot(page, desk, {name, "plan " + desk.subject.plan.name});
  return {page};
}

}  // namespace placer::report
