#include "placer/firing/words.h"

#include <fmt/core.h>

#include <cmath>

namespace placer::firing {
namespace {

/// Rounded, and never "-0".
double whole(double value) { return std::round(value) + 0.0; }

}  // namespace

std::string both_scales(Temperature t) {
  return fmt::format("{:.0f} °C ({:.0f} °F)", whole(t.celsius), whole(fahrenheit(t)));
}

std::string both_scales(Ramp rate) {
  return fmt::format("{:.0f} °C/h ({:.0f} °F/h)", whole(rate.kelvin_per_hour),
                     whole(rate.kelvin_per_hour * 1.8));
}

std::string both_scales(Warming d) {
  return fmt::format("{:.0f} °C ({:.0f} °F)", whole(d.kelvin), whole(d.kelvin * 1.8));
}

std::string in_words(Hours time) {
  constexpr double kLongest = 24 * 1000;  // nothing that is fired or cools lasts a thousand days
  if (!(std::abs(time.count()) < kLongest)) {
    return time.count() < 0 ? "over 1000 days ago" : "over 1000 days";
  }
  const auto minutes = static_cast<long long>(std::llround(time.count() * 60));
  if (minutes < 60) {
    return fmt::format("{} min", minutes);
  }
  return minutes % 60 == 0 ? fmt::format("{} h", minutes / 60)
                           : fmt::format("{} h {} min", minutes / 60, minutes % 60);
}

}  // namespace placer::firing
