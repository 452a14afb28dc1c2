/// Fewer steps for a controller that holds only so many.
#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "laying_out.h"
#include "placer/firing/builder.h"
#include "placer/firing/heat_work.h"

namespace placer::firing {
namespace {

constexpr std::size_t kMostSteps = 24;

bool controlled(const Segment& segment) { return !segment.natural; }

/// A soak at the temperature of the step before is that step's hold.
std::vector<Segment> with_soaks_taken_in(const std::vector<Segment>& segments) {
  std::vector<Segment> out;
  for (const Segment& segment : segments) {
    const bool soak = !out.empty() && controlled(segment) && segment.target == out.back().target;
    if (!soak) {
      out.push_back(segment);
      continue;
    }
    Segment& into = out.back();
    into.hold += segment.hold;
    into.notes.insert(into.notes.end(), segment.notes.begin(), segment.notes.end());
    if (segment.stage != into.stage) {
      into.stage += " and " + segment.stage;
    }
  }
  return out;
}

/// One step for several: as slow as the slowest, as long as all of them.
Segment one_for(const std::vector<Segment>& steps, std::size_t first, std::size_t last,
                Temperature from) {
  Segment one = steps[last];
  if (first == last) {
    return one;
  }
  Hours takes{0};
  double slowest = 1e300;
  Temperature at = from;
  one.stage = steps[first].stage + " to " + steps[last].stage;
  one.notes.clear();
  for (std::size_t i = first; i <= last; ++i) {
    Segment ramp = steps[i];
    ramp.hold = i == last ? Hours{0} : ramp.hold;
    takes += duration(at, ramp);
    slowest = std::min(slowest, steps[i].rate.kelvin_per_hour);
    at = steps[i].target;
    one.notes.insert(one.notes.end(), steps[i].notes.begin(), steps[i].notes.end());
    one.carbon_monoxide = std::max(one.carbon_monoxide, steps[i].carbon_monoxide);
  }
  const double even = std::abs((steps[last].target - from).kelvin) / takes.count();
  one.rate = {std::min(slowest, even)};
  return one;
}

struct Cost {
  double heat_work = 0;  ///< |ln| of the ratio, in steps of a tenth of a degree
  double hours = 0;
  bool operator<(const Cost& other) const {
    return heat_work != other.heat_work ? heat_work < other.heat_work : hours < other.hours;
  }
};

/// All the ways to cut n steps into groups, as bits after which a group ends.
struct Search {
  const std::vector<Segment>& steps;
  Temperature start;
  std::size_t top;  ///< a group may not reach over it
  const Kinetics& cone;
  double before;  ///< heat-work of the original

  double heat_work(const std::vector<Segment>& segments) const {
    const History history = history_of(start, segments);
    double sum = 0;
    for (std::size_t i = 1; i < history.size(); ++i) {
      sum += cone.of_line(history[i - 1].kiln, history[i].kiln, history[i].at - history[i - 1].at);
    }
    return sum;
  }
  std::vector<Segment> grouped(unsigned cuts) const {
    std::vector<Segment> out;
    std::size_t first = 0;
    Temperature from = start;
    for (std::size_t i = 0; i < steps.size(); ++i) {
      const bool ends = i + 1 == steps.size() || (cuts >> i & 1U) != 0;
      if (ends) {
        out.push_back(one_for(steps, first, i, from));
        from = steps[i].target;
        first = i + 1;
      }
    }
    return out;
  }
  double error_c(const std::vector<Segment>& segments) const {
    return std::log(heat_work(segments) / before) * cone.e_fold(steps[top].target).kelvin;
  }
  Cost cost(const std::vector<Segment>& segments) const {
    return {std::round(std::abs(error_c(segments)) * 10),
            history_of(start, segments).back().at.count()};
  }
};

/// Drying below boiling: a hold that no slower climb replaces.
bool dries(const Segment& segment) {
  return segment.target.celsius < 110 && segment.hold.count() > 1.5;
}

/// Bits that must be set: after the top, after a long drying hold, and between controlled and
/// natural steps.
unsigned must_cut(const std::vector<Segment>& steps, std::size_t top) {
  unsigned cuts = 1U << top;
  for (std::size_t i = 0; i + 1 < steps.size(); ++i) {
    if (controlled(steps[i]) != controlled(steps[i + 1]) || !controlled(steps[i]) ||
        dries(steps[i])) {
      cuts |= 1U << i;
    }
  }
  return cuts;
}

int count_controlled(const std::vector<Segment>& segments) {
  return static_cast<int>(std::count_if(segments.begin(), segments.end(), controlled));
}

const Kinetics& nearest(const std::vector<Kinetics>& all, Temperature top) {
  const Kinetics* best = &all.front();
  for (const Kinetics& k : all) {
    const auto away = [&](const Kinetics& x) {
      return std::abs((bend_temperature(*x.cone, {60}).at - top).kelvin);
    };
    if (away(k) < away(*best)) {
      best = &k;
    }
  }
  return *best;
}

}  // namespace

int controller_steps(const std::vector<Segment>& segments) {
  return count_controlled(with_soaks_taken_in(segments));
}

std::vector<Segment> joined(const std::vector<Segment>& segments, Temperature start, int most,
                            const ConeTable& cones, ConeKind kind, double* error_c) {
  const std::vector<Segment> steps = with_soaks_taken_in(segments);
  if (most < 1 || steps.size() > kMostSteps) {
    throw std::invalid_argument{"joined: at least one step, and 24 to join at most"};
  }
  std::size_t top = 0;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    top = steps[i].target > steps[top].target ? i : top;
  }
  const HeatWork model{cones, kind};
  const Ramp rate{std::clamp(final_rate(start, steps, top).kelvin_per_hour, 4.0, 600.0)};
  const std::vector<Kinetics> kinetics = model.anchored(rate);
  Search search{steps, start, top, nearest(kinetics, steps[top].target), 0};
  search.before = search.heat_work(steps);

  const unsigned must = must_cut(steps, top);
  std::vector<Segment> best;
  Cost least;
  const unsigned free = static_cast<unsigned>((1ULL << (steps.size() - 1)) - 1) & ~must;
  // Every subset of the free cuts, by the usual trick of counting within a mask.
  for (unsigned cuts = free;; cuts = (cuts - 1) & free) {
    std::vector<Segment> candidate = search.grouped(cuts | must);
    if (count_controlled(candidate) <= most) {
      const Cost cost = search.cost(candidate);
      if (best.empty() || cost < least) {
        least = cost;
        best = std::move(candidate);
      }
    }
    if (cuts == 0) {
      break;
    }
  }
  if (best.empty()) {  // more controlled stretches than the controller holds: as few as can be
    best = search.grouped(must);
  }
  if (error_c != nullptr) {
    *error_c = search.error_c(best);
  }
  return best;
}

}  // namespace placer::firing
