#include "placer/report/report.h"
#include "report/cone_figures.h"
#include "report/json.h"

namespace placer::report {
namespace {

Json reading_json(const firing::Cone& cone, Ramp rate) {
  const firing::ConeReading reading = firing::bend_temperature(cone, rate);
  return {{"cone", cone.name},
          {"kind", firing::to_string(cone.kind)},
          {"rate_c_per_h", number(rate.kelvin_per_hour)},
          {"temperature_c", number(reading.at.celsius)},
          {"band_c", number(reading.band.kelvin)},
          {"from_memory", reading.from_memory},
          {"extrapolated", reading.extrapolated}};
}

Json published_json(const firing::Cone& cone) {
  Json points = Json::array();
  for (const firing::ConePoint& point : cone.points) {
    points.push_back({{"rate_c_per_h", number(point.rate.kelvin_per_hour)},
                      {"temperature_c", number(point.bends_at.celsius)},
                      {"from_memory", point.from_memory}});
  }
  return points;
}

Json degrees_or_null(const std::optional<Temperature>& temperature) {
  return temperature ? number(temperature->celsius) : Json(nullptr);
}

Json seger_json(const firing::ConeTable::Seger* seger) {
  if (seger == nullptr) return nullptr;
  return {{"nominal_jis_c", degrees_or_null(seger->nominal_jis)},
          {"berlin_normal_c", degrees_or_null(seger->berlin_normal)},
          {"berlin_laboratory_150_c", degrees_or_null(seger->berlin_lab_150)}};
}

}  // namespace

std::string cone_json(const firing::ConeTable& table, const firing::Cone& cone, Ramp rate) {
  Json answer = reading_json(cone, rate);
  answer["source"] = table.source;
  answer["published"] = published_json(cone);
  Json others = Json::array();
  for (const firing::Cone* other : other_kinds(table, cone)) {
    others.push_back(reading_json(*other, rate));
  }
  answer["other_kinds"] = others;
  answer["seger"] = seger_json(seger_of(table, cone.name));
  const auto* superseded = superseded_of(table, cone.name);
  answer["superseded_150_c"] =
      superseded ? number(superseded->printed_for_150.celsius) : Json(nullptr);
  return written(answer);
}

/// At the top level the nearest cone whose band holds the temperature, or none; `down` is the one
/// that has bent for certain by the table.
std::string cones_at_json(const firing::ConeTable& table, firing::ConeKind kind, Temperature top,
                          Ramp rate) {
  const firing::Cone* down = firing::cone_reached(table, kind, top, rate);
  const std::vector<const firing::Cone*> near = firing::cones_near(table, kind, top, rate);
  const firing::Cone* best = near.empty() ? down : near.front();
  const firing::ConeReading reading =
      best ? firing::bend_temperature(*best, rate) : firing::ConeReading{};
  Json all = Json::array();
  for (const firing::Cone* cone : near) all.push_back(reading_json(*cone, rate));
  return written({{"cone", near.empty() ? Json(nullptr) : Json(best->name)},
                  {"kind", firing::to_string(kind)},
                  {"rate_c_per_h", number(rate.kelvin_per_hour)},
                  {"temperature_c", number(top.celsius)},
                  {"band_c", number(reading.band.kelvin)},
                  {"from_memory", reading.from_memory},
                  {"extrapolated", reading.extrapolated},
                  {"source", table.source},
                  {"bends_at_c", best ? number(reading.at.celsius) : Json(nullptr)},
                  {"down", down ? Json(down->name) : Json(nullptr)},
                  {"near", all}});
}

}  // namespace placer::report
