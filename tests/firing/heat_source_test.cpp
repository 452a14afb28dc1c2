/// What is said of lighting, shutting off and slow cooling, by what heats the kiln.
#include <algorithm>
#include <catch2/catch.hpp>

#include "library.h"
#include "placer/firing/forecast.h"

namespace placer::firing {
namespace {

Forecast fired(HeatSource source, const std::string& profile_name, const std::string& cone_name,
               std::optional<int> most_segments = {}) {
  KilnBuild kiln;
  kiln.source = source;
  kiln.chamber_volume_m3 = 0.3;
  kiln.chamber_surface_m2 = 2.7;
  kiln.power = Power{source == HeatSource::electric ? 24.0 : 80.0};
  HeatLoad load;
  load.ware = Mass::from_kg(40);
  load.furniture = Mass::from_kg(50);
  Wish wish;
  wish.profile = profile_name;
  wish.target.end = cone_name;
  wish.kind = profile(profile_name).kind;
  wish.atmosphere = profile(profile_name).atmosphere;
  wish.most_segments = most_segments;
  const Built built = plan_schedule(library().profiles, wish, {}, library().cones);
  return forecast(built.schedule, library().cones, kiln, load);
}

bool holds(const std::vector<std::string>& all, const std::string& words) {
  return std::any_of(all.begin(), all.end(),
                     [&](const std::string& one) { return one.find(words) != std::string::npos; });
}

std::size_t last_heated(const Forecast& f) {
  std::size_t last = f.steps.size() - 1;
  while (f.steps[last].segment.natural) {
    --last;
  }
  return last;
}

std::vector<Event> hands_on(const Forecast& f) {
  std::vector<Event> all;
  std::copy_if(f.events.begin(), f.events.end(), std::back_inserter(all),
               [](const Event& event) { return event.hands_on; });
  return all;
}

bool hand_at(const Forecast& f, Hours at) {
  const std::vector<Event> all = hands_on(f);
  return std::any_of(all.begin(), all.end(),
                     [&](const Event& event) { return std::abs((event.at - at).count()) < 1e-6; });
}

}  // namespace

TEST_CASE("the gas goes off after the last step that wants heat, never before it",
          "[heat-source]") {
  for (const char* name : {"mid-range-slow-cooled", "stoneware-reduction", "bisque-normal"}) {
    const Forecast f = fired(HeatSource::propane, name, profile(name).cone);
    CAPTURE(name);
    const std::size_t last = last_heated(f);
    REQUIRE(last + 1 < f.steps.size());
    for (std::size_t i = 0; i < f.steps.size(); ++i) {
      CAPTURE(i);
      CHECK(holds(f.steps[i].segment.cautions, "Gas off at the burner") == (i == last + 1));
    }
  }
}

TEST_CASE("a fall that is followed by slow cooling keeps its flame, and says how it is held",
          "[heat-source]") {
  const Forecast f = fired(HeatSource::natural_gas, "mid-range-slow-cooled", "6");
  int kept = 0;
  int held = 0;
  for (std::size_t i = f.schedule.top_segment + 1; i <= last_heated(f); ++i) {
    const Segment& segment = f.steps[i].segment;
    CAPTURE(segment.stage);
    CHECK(hand_at(f, f.steps[i].starts));
    if (segment.natural) {
      ++kept;
      CHECK(holds(segment.notes, "The gas is not shut off yet: heat is still wanted in steps "));
    } else {
      ++held;
      CHECK(holds(segment.notes, "Held by hand at "));
    }
  }
  CHECK(kept == 1);
  CHECK(held == 2);
  const Forecast electric = fired(HeatSource::electric, "mid-range-slow-cooled", "6");
  for (const TimedSegment& step : electric.steps) {
    CHECK_FALSE(holds(step.segment.notes, "flame"));
  }
}

TEST_CASE("gas is smelt where it gathers: natural gas high up, propane low down", "[heat-source]") {
  // Molar masses 16 (methane) and 44 g/mol (propane) against 29 of air.
  const auto lighting = [](HeatSource source) {
    return fired(source, "bisque-normal", "06").steps.front().segment.cautions;
  };
  CHECK(holds(lighting(HeatSource::natural_gas), "high up too (natural gas rises)"));
  CHECK_FALSE(holds(lighting(HeatSource::natural_gas), "propane"));
  CHECK(holds(lighting(HeatSource::propane), "low down (propane sinks)"));
  CHECK_FALSE(holds(lighting(HeatSource::propane), "natural gas"));
  CHECK(holds(lighting(HeatSource::other), "natural gas rises) and low down (propane sinks)"));
  CHECK_FALSE(holds(lighting(HeatSource::wood), "gas"));
  CHECK_FALSE(holds(lighting(HeatSource::electric), "Lighting"));
}

TEST_CASE("each change of the fire by hand is a moment at which somebody must be there",
          "[heat-source]") {
  const Forecast f = fired(HeatSource::propane, "bisque-normal", "06");
  const std::vector<Event> all = hands_on(f);
  CHECK(all.front().what.find("stay by the flames up to 760 °C (1400 °F)") != std::string::npos);
  for (std::size_t i = 1; i <= last_heated(f); ++i) {
    const Segment& now = f.steps[i].segment;
    const Segment& before = f.steps[i - 1].segment;
    CAPTURE(now.stage);
    if (std::abs(now.rate.kelvin_per_hour - before.rate.kelvin_per_hour) >= 1) {
      CHECK(hand_at(f, f.steps[i].starts));
    }
    if (now.hold.count() > 0 && now.target != before.target) {
      CHECK(hand_at(f, f.steps[i].ends - now.hold));
    }
  }
  // An electric kiln turns itself.
  CHECK(hands_on(fired(HeatSource::electric, "bisque-normal", "06")).size() < all.size());
}

TEST_CASE("a kiln is told of its own trades and of no controller that it has not",
          "[heat-source]") {
  const auto general = [](const Forecast& f) { return f.schedule.cautions; };
  const Forecast gas = fired(HeatSource::propane, "bisque-normal", "06", 8);
  const Forecast electric = fired(HeatSource::electric, "bisque-normal", "06", 8);
  CHECK(holds(general(gas), "; gas work belongs"));
  CHECK(holds(general(electric), "; electrical work belongs"));
  CHECK_FALSE(holds(gas.schedule.remarks, "The controller holds it"));
  CHECK(holds(electric.schedule.remarks, "The controller holds it"));
  CHECK(electric.events.front().what == "switch on");
}

TEST_CASE("a climb that cannot be kept tells the rate that is set and the real one",
          "[heat-source]") {
  KilnBuild weak;
  weak.chamber_volume_m3 = 0.2;
  weak.chamber_surface_m2 = 2;
  weak.power = Power{5.5};
  HeatLoad load;
  load.ware = Mass::from_kg(40);
  load.furniture = Mass::from_kg(30);
  const Forecast f = forecast(schedule_for("mid-range", "6").schedule, library().cones, weak, load);
  REQUIRE(f.falls_behind);
  int slow = 0;
  for (const TimedSegment& step : f.steps) {
    const Hours took = step.ends - step.starts;
    if (step.segment.natural || took <= Hours{0}) {
      continue;
    }
    const bool late = (took - duration(step.from, step.segment)).count() > 0.05;
    CAPTURE(step.segment.stage, took.count());
    CHECK(holds(step.segment.notes, "the kiln then manages about ") == late);
    slow += late ? 1 : 0;
  }
  CHECK(slow > 0);
}

TEST_CASE("one number of opening is told, the one that holds for the ware", "[heat-source]") {
  WareSummary plates;
  plates.flat_ware = true;
  const auto last = [](const WareSummary& ware) {
    return schedule_for("mid-range", "6", ware).schedule.segments.back().cautions;
  };
  CHECK(holds(last(plates), "not over 60 °C (140 °F)"));
  CHECK_FALSE(holds(last(plates), "100 °C"));
  CHECK(holds(last({}), "not over 100 °C (212 °F)"));
  CHECK_FALSE(holds(last({}), "60 °C"));
}

}  // namespace placer::firing
