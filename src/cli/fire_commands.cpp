/// reached and probe: what the kiln did, and what its probe says.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <iostream>

#include "cli/commands.h"
#include "cli/files.h"
#include "cli/studio_file.h"
#include "placer/base/words.h"
#include "placer/firing/log.h"
#include "placer/firing/probe.h"
#include "placer/workbook/quantity.h"

namespace placer::cli {
namespace {

[[noreturn]] void refuse(const std::string& option, const std::string& message) {
  throw InputError{TextPos{option}, message};
}

struct Planned {
  firing::Forecast forecast;
  std::string zone;  ///< of the studio's clock times
};

/// The planned firing that the log is of: the one named, or the only one.
Planned planned(const Request& request) {
  Request for_studio = request;
  for_studio.file = request.studio;
  const StudioFile studio = open_sound_studio(for_studio);
  const workbook::Studio& sound = *studio.result.studio;
  std::vector<std::string> names;
  for (const Load& load : sound.batch.loads) names.push_back(load.name);
  std::size_t which = 0;
  if (!request.firing.empty()) {
    const auto found = std::ranges::find(names, request.firing);
    if (found == names.end()) {
      refuse("--firing", fmt::format("{} has no firing \"{}\"; it has: {}", request.studio,
                                     request.firing, fmt::join(names, ", ")));
    }
    which = static_cast<std::size_t>(found - names.begin());
  } else if (names.size() > 1) {
    refuse("--firing", fmt::format("say which firing the log is of: {}", fmt::join(names, ", ")));
  }
  const job::Outcome outcome = plan(for_studio, studio);
  for (std::size_t i = 0; i < outcome.plan.firings.size(); ++i) {
    if (outcome.plan.firings[i].load == static_cast<int>(which)) {
      return {outcome.forecasts[i], sound.zone};
    }
  }
  return {job::forecast_alone(sound, studio.library, which), sound.zone};
}

firing::LogQuestion asked(const Request& request, const firing::Forecast* plan,
                          const workbook::Library& library) {
  firing::LogQuestion question;
  question.cone = request.aim;
  question.plan = plan;
  if (plan != nullptr) question.cone_kind = plan->schedule.wish.target.cone_kind;
  if (!request.aim.empty() && !firing::find_cone(library.cones, request.aim, question.cone_kind)) {
    refuse("--cone", fmt::format("the table has no cone \"{}\"", request.aim));
  }
  return question;
}

double number(const std::string& option, const std::string& text, const std::string& what) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) {
    refuse(option, fmt::format("takes {}, not \"{}\"", what, text));
  }
  return value;
}

Temperature probe_temperature(const Request& request) {
  if (request.temperature.empty()) {
    refuse("--temperature",
           "is missing: the same millivolts mean much stronger reduction in a hotter kiln, so a "
           "reading without its temperature says nothing");
  }
  const auto at = workbook::read_temperature(request.temperature, false);
  if (!at) {
    refuse("--temperature", fmt::format("takes a temperature such as 1250 or \"2282 F\", not "
                                        "\"{}\"",
                                        request.temperature));
  }
  return *at;
}

}  // namespace

ExitStatus reached(const Request& request) {
  if (request.log.empty()) {
    std::cerr << "placer: name the log: placer reached tuesday.csv\n";
    return ExitStatus::could_not_run;
  }
  const workbook::Library library = workbook::read_library(schedules_folder());
  std::optional<Planned> plan;
  if (!request.studio.empty()) plan = planned(request);

  const std::string text = read_whole(request.log);
  firing::LogOptions options;
  if (request.fahrenheit) options.scale = firing::Scale::fahrenheit;
  if (plan) options.zone = plan->zone;
  const firing::FiringLog log = firing::read_log(text, request.log, options);
  // Without the text: a row that nobody can read is not shown as it stands.
  if (!request.json || has_mistakes(log.findings)) tell(log.findings, "", request);
  if (has_mistakes(log.findings)) return ExitStatus::could_not_run;
  const firing::LogQuestion question = asked(request, plan ? &plan->forecast : nullptr, library);
  const firing::Judged judged = firing::judge_log(log, library.cones, question);
  std::cout << (request.json ? report::log_json(log, judged) : report::log_text(log, judged));
  return ExitStatus::done;
}

ExitStatus probe(const Request& request) {
  const Temperature at = probe_temperature(request);
  if (!request.carbon_monoxide.empty()) {
    const double percent =
        number("--co", request.carbon_monoxide, "percent of carbon monoxide, 0.1 to 11");
    if (percent < 0.1 || percent > 11) {
      refuse("--co", fmt::format("takes 0.1 to 11 %, not {} %", request.carbon_monoxide));
    }
    const double millivolts = firing::millivolts_for(percent, at);
    std::cout << (request.json ? report::probe_json(millivolts, at)
                               : report::probe_text(millivolts, at));
    return ExitStatus::done;
  }
  if (request.millivolts.empty()) refuse("probe", "name the millivolts, or --co PERCENT");
  const double millivolts = number("probe", request.millivolts, "millivolts such as 578");
  const firing::ProbeAnswer answer = firing::read_probe(millivolts, at);
  if (answer.refused) throw InputError{{*answer.refused}};
  std::cout << (request.json ? report::probe_json(millivolts, at)
                             : report::probe_text(millivolts, at));
  return ExitStatus::done;
}

}  // namespace placer::cli
