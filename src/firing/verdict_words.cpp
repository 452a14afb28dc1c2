/// A verdict on heat-work as a potter would say it.
#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "placer/firing/heat_work.h"
#include "placer/firing/words.h"

namespace placer::firing {
namespace {

/// "± 7 °C (13 °F)", or "-7 to +15 °C (-13 to +27 °F)" when a soak makes the sides differ.
std::string band_words(const Verdict& verdict) {
  const double below = verdict.band_below.kelvin;
  const double above = verdict.band_above.kelvin;
  if (std::abs(above - below) < 1) {
    return "± " + both_scales(Warming{std::max(below, above)});
  }
  return fmt::format("-{:.0f} to +{:.0f} °C (-{:.0f} to +{:.0f} °F)", below, above, below * 1.8,
                     above * 1.8);
}

/// "10", "10 or 11", "10, 11 or 9"
std::string listed(const std::vector<std::string>& names, const char* last) {
  std::string words;
  for (std::size_t i = 0; i < names.size(); ++i) {
    words += (i == 0 ? "" : i + 1 == names.size() ? last : ", ") + names[i];
  }
  return words;
}

/// "cone 11 starting to bend", "cones 7 and 8 starting to bend"
std::string bending_words(const Verdict& verdict) {
  std::vector<std::string> names;
  for (const ConeState& cone : verdict.cones) {
    if (cone.standing == ConeStanding::bending) {
      names.push_back(cone.name);
    }
  }
  return (names.size() > 1 ? "cones " : "cone ") + listed(names, " and ") + " starting to bend";
}

}  // namespace

std::string in_words(const Verdict& verdict) {
  if (verdict.down.empty() && verdict.bending.empty()) {
    return "no cone of this kind is down. Trust your witness cones";
  }
  std::string words = verdict.down.empty() ? "no cone down" : "cone " + verdict.down + " down";
  if (!verdict.bending.empty()) {
    words += " and " + bending_words(verdict);
  }
  words += fmt::format(", reckoned to {}", band_words(verdict));
  if (verdict.within_band.size() > 1) {
    words += fmt::format(": it may be cone {}", listed(verdict.within_band, " or "));
  }
  return words + ". Trust your witness cones";
}

}  // namespace placer::firing
