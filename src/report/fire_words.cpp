#include "report/fire_words.h"

#include <fmt/format.h>

#include <algorithm>

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

std::string opening_words(const firing::Forecast& forecast) {
  std::string words = "under " + both_degrees(forecast.open_below);
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
