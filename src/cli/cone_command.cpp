/// cone: when a cone bends, or which cone a temperature is.
#include <fmt/format.h>

#include <algorithm>
#include <iostream>

#include "cli/commands.h"
#include "cli/files.h"
#include "placer/base/words.h"
#include "placer/report/report.h"
#include "placer/workbook/quantity.h"
#include "placer/workbook/studio.h"

namespace placer::cli {
namespace {

using firing::ConeKind;

/// The rate that most of the published columns share; what a cone means when no rate is said.
constexpr Ramp kUsualRate{60};

ConeKind kind_called(const std::string& name) {
  if (name == "self-supporting-iron-free") return ConeKind::self_supporting_iron_free;
  if (name == "large") return ConeKind::large;
  if (name == "large-iron-free") return ConeKind::large_iron_free;
  if (name == "small") return ConeKind::small;
  return ConeKind::self_supporting;
}

Ramp rate_asked(const Request& request) {
  if (request.rate.empty()) return kUsualRate;
  const auto rate = workbook::read_ramp(request.rate, false);
  if (!rate || rate->kelvin_per_hour <= 0 || rate->kelvin_per_hour > 2000) {
    throw InputError{TextPos{"--rate"},
                     fmt::format("takes a climb such as 60 or \"108 F/h\", more than 0 and at most "
                                 "2000 °C an hour, not \"{}\"",
                                 request.rate)};
  }
  return *rate;
}

Temperature top_asked(const Request& request) {
  const auto top = workbook::read_temperature(request.temperature, false);
  if (!top || top->celsius < 400 || top->celsius > 1600) {
    const bool perhaps_fahrenheit = top && top->celsius > 1600 && top->celsius < 2900;
    throw InputError{
        TextPos{"--temperature"},
        fmt::format(
            "takes a top temperature from 400 to 1600 °C, not \"{}\"{}", request.temperature,
            perhaps_fahrenheit ? "; if it is Fahrenheit, write \"" + request.temperature + " F\""
                               : "")};
  }
  return *top;
}

const firing::Cone& cone_asked(const firing::ConeTable& table, const Request& request) {
  const ConeKind kind = kind_called(request.kind);
  if (const firing::Cone* cone = firing::find_cone(table, request.cone, kind)) return *cone;
  std::vector<std::string> known;
  for (const firing::Cone& cone : table.cones) {
    if (cone.kind == kind) known.push_back(cone.name);
  }
  throw InputError{TextPos{"cone"},
                   fmt::format("the table has no {} cone \"{}\"; it has {}",
                               firing::to_string(kind), request.cone, fmt::join(known, " "))};
}

}  // namespace

ExitStatus cone(const Request& request) {
  const workbook::Library library = workbook::read_library(schedules_folder());
  const firing::ConeTable& table = library.cones;
  const Ramp rate = rate_asked(request);
  if (!request.temperature.empty() && !request.cone.empty()) {
    std::cerr << "placer: a cone and --temperature ask two different things: keep one of them\n";
    return ExitStatus::could_not_run;
  }
  if (!request.temperature.empty()) {
    const ConeKind kind = kind_called(request.kind);
    const Temperature top = top_asked(request);
    std::cout << (request.json ? report::cones_at_json(table, kind, top, rate)
                               : report::cones_at_text(table, kind, top, rate));
    return ExitStatus::done;
  }
  if (request.cone.empty()) {
    std::cerr << "placer: name a cone (placer cone 6) or a temperature (placer cone --temperature "
                 "1240)\n";
    return ExitStatus::could_not_run;
  }
  const firing::Cone& cone = cone_asked(table, request);
  std::cout << (request.json ? report::cone_json(table, cone, rate)
                             : report::cone_text(table, cone, rate));
  return ExitStatus::done;
}

}  // namespace placer::cli
