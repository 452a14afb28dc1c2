#include <fmt/format.h>

#include <algorithm>

#include "placer/firing/clock.h"
#include "placer/report/report.h"
#include "report/json.h"
#include "report/words.h"

namespace placer::report {
namespace {

/// "2026-11-24T06:30:00Z"
std::string utc_text(long long seconds) {
  const firing::LocalTime time = firing::Zone::named("UTC").local(seconds);
  const firing::WallClock& c = time.clock;
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z", c.year, c.month, c.day, c.hour,
                     c.minute, c.second);
}

template <class Unit, class Value>
Json value_or_null(const std::optional<Unit>& unit, Value value) {
  return unit ? number(value(*unit)) : Json(nullptr);
}

Json segment_json(const firing::TimedSegment& step) {
  return {{"stage", step.segment.stage},
          {"from_c", number(step.from.celsius)},
          {"to_c", number(step.segment.target.celsius)},
          {"rate_c_per_h", number_or_null(step.segment.rate.kelvin_per_hour)},
          {"hold_h", number(step.segment.hold.count())},
          {"starts_h", number(step.starts.count())},
          {"ends_h", number(step.ends.count())},
          {"natural", step.segment.natural},
          {"carbon_monoxide_percent", number(step.segment.carbon_monoxide)},
          {"notes", step.segment.notes},
          {"cautions", step.segment.cautions},
          {"limit", step.segment.limit}};
}

Json target_json(const firing::Target& target) {
  Json answer = Json::object();
  if (const auto* cone = std::get_if<std::string>(&target.end)) {
    answer["cone"] = *cone;
    answer["kind"] = firing::to_string(target.cone_kind);
  } else {
    answer["temperature_c"] = number(std::get<Temperature>(target.end).celsius);
  }
  return answer;
}

Json cone_reached_json(const firing::Forecast& forecast) {
  Json answer = Json::object();
  answer["cone"] = forecast.cone.empty() ? Json(nullptr) : Json(forecast.cone);
  answer["band"] = forecast.cone_band;
  return answer;
}

Json curve_json(const firing::Forecast& forecast) {
  Json curve = Json::array();
  for (const firing::Moment& moment : forecast.curve) {
    curve.push_back({{"at_h", number(moment.at.count())},
                     {"planned_c", number(moment.planned.celsius)},
                     {"kiln_c", number(moment.kiln.celsius)}});
  }
  return curve;
}

Json fuel_json(const firing::Forecast& forecast) {
  if (!forecast.fuel_kg) return nullptr;
  Json fuel = Json::object();
  fuel["mass_kg"] = number(*forecast.fuel_kg);
  return fuel;
}

/// Texts in the order of their first appearance, each once.
Json once_each(const std::vector<std::string>& first, const std::vector<std::string>& then) {
  Json all = Json::array();
  for (const auto* list : {&first, &then}) {
    for (const std::string& text : *list) {
      if (std::find(all.begin(), all.end(), Json(text)) == all.end()) all.push_back(text);
    }
  }
  return all;
}

Json firing_object(const firing::Forecast& forecast) {
  const firing::Schedule& schedule = forecast.schedule;
  const firing::Wish& wish = schedule.wish;
  Json segments = Json::array();
  for (const firing::TimedSegment& step : forecast.steps) segments.push_back(segment_json(step));
  return {
      {"profile", schedule.profile},
      {"kind", wish.kind == firing::Kind::bisque ? "bisque" : "glaze"},
      {"atmosphere", wish.atmosphere == firing::Atmosphere::reduction ? "reduction" : "oxidation"},
      {"target", target_json(wish.target)},
      {"starts_at", wish.starts_at ? Json(utc_text(*wish.starts_at)) : Json(nullptr)},
      {"segments", segments},
      {"top_c", number(schedule.top.celsius)},
      {"final_rate_c_per_h", number_or_null(schedule.final_rate.kelvin_per_hour)},
      {"duration_h", number(forecast.duration.count())},
      {"off_h", number(forecast.off.count())},
      {"earliest_opening_h", number(forecast.earliest_opening.count())},
      {"open_below_c", number(forecast.open_below.celsius)},
      {"open_why", forecast.open_why},
      {"under_100_c_h", number(forecast.under_100.count())},
      {"unload_h", number(forecast.unload.count())},
      {"time_band", number(forecast.time_band)},
      {"cone_reached", cone_reached_json(forecast)},
      {"energy_kwh", value_or_null(forecast.energy, [](Energy energy) { return energy.kwh; })},
      {"energy_band", number(forecast.energy_band)},
      {"fuel", fuel_json(forecast)},
      {"cost", value_or_null(forecast.cost, [](double cost) { return cost; })},
      {"currency", forecast.currency.empty() ? Json(nullptr) : Json(forecast.currency)},
      {"cautions", once_each(forecast.cautions, schedule.cautions)},
      {"remarks", schedule.remarks},
      {"findings", findings_array(forecast.findings)},
      {"curve", curve_json(forecast)}};
}

}  // namespace

std::string firing_json(const firing::Forecast& forecast) {
  return written(firing_object(forecast));
}

std::string firings_json(const Subject& subject) {
  Json all = Json::array();
  for (std::size_t i = 0; i < subject.forecasts.size(); ++i) {
    Json one = Json::object();
    one["name"] = firing_name(subject, i);
    one.update(firing_object(subject.forecasts[i]));
    all.push_back(one);
  }
  Json answer = all.empty() ? Json::object() : all.front();
  answer["plan"] = subject.plan.name;
  answer["firings"] = all;
  return written(answer);
}

}  // namespace placer::report
