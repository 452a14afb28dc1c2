/// A verdict on heat-work as a potter would say it.
#include <fmt/core.h>

#include <algorithm>

#include "placer/firing/heat_work.h"
#include "placer/firing/words.h"

namespace placer::firing {

std::string in_words(const Verdict& verdict) {
  if (verdict.down.empty() && verdict.bending.empty()) {
    return "no cone of this kind is down; trust your witness cones";
  }
  std::string words = verdict.down.empty() ? "no cone down" : "cone " + verdict.down + " down";
  if (!verdict.bending.empty()) {
    words += ", cone " + verdict.bending + " bending";
  }
  words += fmt::format("; as a plain climb to {}, from {:.0f} below to {:.0f} °C above",
                       both_scales(verdict.same_as_plain_ramp_to), verdict.band_below.kelvin,
                       verdict.band_above.kelvin);
  if (!verdict.within_band.empty()) {
    words += ", which holds cone ";
    for (std::size_t i = 0; i < verdict.within_band.size(); ++i) {
      words += (i == 0                                ? ""
                : i + 1 == verdict.within_band.size() ? " and "
                                                      : ", ") +
               verdict.within_band[i];
    }
  }
  return words + "; trust your witness cones";
}

}  // namespace placer::firing
