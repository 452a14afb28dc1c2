#include "report/fire_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "placer/firing/words.h"
#include "report/words.h"

namespace placer::report {

std::string cost_words(const firing::Forecast& forecast) {
  if (!forecast.cost) return "";
  const std::string& currency = forecast.currency;
  const bool letters =
      std::any_of(currency.begin(), currency.end(), [](char c) { return c >= 'A' && c <= 'z'; });
  const std::string amount = fmt::format("{:.2f}", *forecast.cost);
  return "cost about " + (currency.empty() ? amount
                          : letters        ? amount + " " + currency
                                           : currency + amount);
}

HeatedBy heated_by(const firing::Forecast& forecast) {
  const auto has = [&](const char* words) {
    return std::any_of(forecast.steps.begin(), forecast.steps.end(), [&](const auto& step) {
      const auto& all = step.segment.cautions;
      return std::any_of(all.begin(), all.end(), [&](const std::string& caution) {
        return caution.find(words) != std::string::npos;
      });
    });
  };
  if (has("Lighting: ")) {
    const bool rises = has("natural gas rises") && !has("propane sinks");
    return rises ? HeatedBy::natural_gas : HeatedBy::other_fire;
  }
  return forecast.energy ? HeatedBy::electricity : HeatedBy::unknown;
}

std::string fuel_words(const firing::Forecast& forecast) {
  if (!forecast.fuel_kg) return "";
  if (heated_by(forecast) == HeatedBy::natural_gas) {
    constexpr double kMethane = 0.678;  // kg/m³ at 15 °C and 1 atm: 16.04 g/mol over 23.64 l/mol
    return fmt::format("gas about {:.0f} m³", *forecast.fuel_kg / kMethane);
  }
  return fmt::format("fuel about {:.1f} kg", *forecast.fuel_kg);
}

std::string finding_words(const Finding& finding, const firing::Forecast& forecast,
                          const FireClock& clock) {
  std::string words = finding.message;
  if (!forecast.falls_behind || !clock.knows_start()) return words;
  const std::string elapsed = firing::in_words(*forecast.falls_behind) + " after the start";
  const std::size_t at = words.find(elapsed);
  if (at != std::string::npos) {
    words.replace(at, elapsed.size(), clock.day_time(*forecast.falls_behind));
  }
  return words;
}

Ramp real_rate(const firing::TimedSegment& step) {
  const double hours = (step.ends - step.starts - step.segment.hold).count();
  const double change = std::abs((step.segment.target - step.from).kelvin);
  const double planned = change / step.segment.rate.kelvin_per_hour;
  // Within a minute or two of reading a clock it is the rate that is set.
  const bool weak = !step.segment.natural && change >= 1 && hours - planned > 0.05;
  return weak ? Ramp{change / hours} : step.segment.rate;
}

std::string opening_words(const firing::Forecast& forecast, bool fahrenheit_first) {
  std::string words = "under " + both_degrees(forecast.open_below, fahrenheit_first);
  if (!forecast.open_why.empty()) words += ": " + forecast.open_why;
  return words;
}

std::string cooling_band_words(const firing::Forecast& forecast) {
  return fmt::format("Cooling hours ± {:.0f} %: the thermometer decides.",
                     100 * forecast.time_band);
}

bool never_reached(const firing::TimedSegment& step) {
  return !step.segment.natural && step.ends <= step.starts;
}

std::vector<std::string> cautions_of(const firing::Forecast& forecast) {
  std::vector<std::string> all = forecast.cautions;
  for (const std::string& caution : forecast.schedule.cautions) {
    if (std::find(all.begin(), all.end(), caution) == all.end()) all.push_back(caution);
  }
  return all;
}

std::pair<std::string, std::string> split_caution(const std::string& caution) {
  std::size_t end = caution.find(": ");
  end = std::min({end, caution.find(". "), caution.size()});
  if (end == caution.size()) return {caution, ""};
  return {caution.substr(0, end + 1), caution.substr(end + 2)};
}

std::string caution_head(const std::string& caution) {
  const std::string head = split_caution(caution).first;
  return head.substr(0, head.find_last_not_of(".:") + 1);
}

}  // namespace placer::report
