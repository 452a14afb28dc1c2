#include "placer/firing/builder.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>

#include "library.h"
#include "placer/base/random.h"

namespace placer::firing {
namespace {

WareSummary ware(double mm) {
  WareSummary w;
  w.thickest = Length::from_mm(mm);
  return w;
}

Built built(Kind kind, Atmosphere atmosphere, const char* cone_name, const WareSummary& w) {
  Wish wish;
  wish.profile = "built";
  wish.kind = kind;
  wish.atmosphere = atmosphere;
  wish.target.end = std::string{cone_name};
  return plan_schedule(library().profiles, wish, w, library().cones);
}

double hours_to_top(const Schedule& s) {
  double hours = 0;
  Temperature at = s.start;
  for (std::size_t i = 0; i <= s.top_segment; ++i) {
    hours += duration(at, s.segments[i]).count();
    at = s.segments[i].target;
  }
  return hours;
}

bool has(const std::vector<std::string>& lines, const std::string& part) {
  return std::any_of(lines.begin(), lines.end(),
                     [&](const std::string& line) { return line.find(part) != std::string::npos; });
}

double heat_work_to_top(const std::vector<Segment>& segments, const Kinetics& k) {
  double sum = 0;
  Temperature at{20};
  for (const Segment& s : segments) {
    if (s.natural) {
      break;
    }
    sum +=
        k.of_line(at, s.target, Hours{std::abs((s.target - at).kelvin) / s.rate.kelvin_per_hour});
    sum += k.per_hour(s.target) * s.hold.count();
    at = s.target;
  }
  return sum;
}

}  // namespace

TEST_CASE("lag of a wall heated from one side", "[builder]") {
  // r L^2 / (2 a): Carslaw & Jaeger ch. 3 (from memory), a = 4e-7 m2/s
  CHECK(conduction_lag(Length::from_mm(25), {150}).kelvin == Approx(32.6).epsilon(0.005));
  CHECK(conduction_lag(Length::from_mm(25), {60}).kelvin == Approx(13.0).epsilon(0.005));
  CHECK(conduction_lag(Length::from_mm(12.5), {100}).kelvin == Approx(5.4).epsilon(0.01));
  CHECK(conduction_lag(Length::from_mm(3), {150}).kelvin == Approx(0.47).epsilon(0.01));
  CHECK(rate_for_lag(Length::from_mm(25), {32.6}).kelvin_per_hour == Approx(150).epsilon(0.005));
}

TEST_CASE("no step of the builder is faster than any of its limits, and each names one",
          "[builder]") {
  for (const Kind kind : {Kind::bisque, Kind::glaze}) {
    for (const double mm : {3.0, 6.0, 9.0, 14.0, 20.0, 30.0, 50.0}) {
      for (int bits = 0; bits < 32; ++bits) {
        WareSummary w = ware(mm);
        w.damp = (bits & 1) != 0;
        w.flat_ware = (bits & 2) != 0;
        w.carbon_rich = (bits & 4) != 0;
        w.groggy = (bits & 8) != 0;
        w.free_quartz = (bits & 16) != 0;
        const Built b = built(kind, Atmosphere::oxidation, kind == Kind::bisque ? "06" : "6", w);
        REQUIRE(b.findings.empty());
        Temperature at = b.schedule.start;
        for (std::size_t i = 0; i <= b.schedule.top_segment; ++i) {
          const Segment& s = b.schedule.segments[i];
          const Limit limit = climb_limit(w, kind, at, s.target);
          CAPTURE(mm, bits, s.stage, limit.reason);
          REQUIRE(s.rate.kelvin_per_hour <= std::max(5.0, limit.rate.kelvin_per_hour));
          REQUIRE(has(s.notes, "Rate: at most"));
          if (at.celsius < 573 && s.target.celsius > 573) {
            const double allowed = std::max(8.0, conduction_lag(w.thickest, {5}).kelvin);
            REQUIRE(conduction_lag(w.thickest, s.rate).kelvin <= allowed + 1e-9);
          }
          at = s.target;
        }
      }
    }
  }
}

TEST_CASE("thick, damp, dark and flat ware all take longer", "[builder]") {
  double last = 0;
  for (const double mm : {5.0, 8.0, 13.0, 20.0, 40.0}) {
    const double hours =
        hours_to_top(built(Kind::bisque, Atmosphere::oxidation, "06", ware(mm)).schedule);
    CHECK(hours > last);
    last = hours;
  }
  const double plain =
      hours_to_top(built(Kind::bisque, Atmosphere::oxidation, "06", ware(8)).schedule);
  CHECK(plain > 8);  // 8 to 14 h: practice
  CHECK(plain < 16);
  WareSummary w = ware(8);
  w.damp = true;
  CHECK(hours_to_top(built(Kind::bisque, Atmosphere::oxidation, "06", w).schedule) > plain + 5);
  w = ware(8);
  w.carbon_rich = true;
  CHECK(hours_to_top(built(Kind::bisque, Atmosphere::oxidation, "06", w).schedule) > plain + 1.5);
  w = ware(8);
  w.flat_ware = true;
  CHECK(hours_to_top(built(Kind::bisque, Atmosphere::oxidation, "06", w).schedule) > plain);
}

TEST_CASE("candling stays below boiling and lasts for thick and damp ware", "[builder]") {
  for (const double mm : {3.0, 8.0, 14.0, 30.0}) {
    for (const bool damp : {false, true}) {
      WareSummary w = ware(mm);
      w.damp = damp;
      const Candling c = candling(w, Kind::bisque);
      CHECK(c.at.celsius < 100);
      CHECK(c.hold.count() >= (damp ? 7 : 0.5));
    }
  }
  CHECK(candling(ware(8), Kind::glaze).hold.count() == 0);
}

TEST_CASE("the builder reduces from 900 °C, in the middle, and climbs lightly", "[builder]") {
  const Schedule s = built(Kind::glaze, Atmosphere::reduction, "10", ware(6)).schedule;
  double highest = 0;
  Temperature at = s.start;
  for (const Segment& segment : s.segments) {
    if (segment.carbon_monoxide > 0) {
      CHECK(at.celsius >= 900);
    }
    highest = std::max(highest, segment.carbon_monoxide);
    at = segment.target;
  }
  CHECK(highest >= 2);
  CHECK(highest <= 4);
  CHECK(s.top.celsius >= 1285);
  CHECK(s.top.celsius <= 1295);
  CHECK(s.final_rate.kelvin_per_hour == 80);
}

TEST_CASE("flat ware and high-silica bodies are warned of the two falls in cooling", "[builder]") {
  WareSummary w = ware(8);
  w.free_quartz = true;
  const Schedule s = built(Kind::glaze, Atmosphere::oxidation, "6", w).schedule;
  bool quartz = false;
  bool cristobalite = false;
  for (const Segment& segment : s.segments) {
    quartz |= has(segment.notes, "At most 60 °C/h");
    cristobalite |= has(segment.notes, "At most 50 °C/h");
  }
  CHECK(quartz);
  CHECK(cristobalite);
}

TEST_CASE("joined for a small controller: never faster, never shorter, heat-work kept",
          "[joining]") {
  for (const char* name : {"bisque-normal", "bisque-sculpture", "mid-range", "stoneware-reduction",
                           "mid-range-slow-cooled", "raw-glaze"}) {
    const Schedule full = schedule_for(name, profile(name).cone).schedule;
    const Kinetics k = HeatWork{library().cones}.anchored(profile(name).cone, full.final_rate);
    const double before = heat_work_to_top(full.segments, k);
    const int have = controller_steps(full.segments);
    for (int most = have; most >= 3; --most) {
      double error = 0;
      const std::vector<Segment> few = joined(full.segments, full.start, most, library().cones,
                                              ConeKind::self_supporting, &error);
      CAPTURE(name, most);
      CHECK(controller_steps(few) <= std::max(most, 3));
      if (controller_steps(few) <= most) {
        CHECK(std::abs(error) < 4);
        CHECK(heat_work_to_top(few, k) / before ==
              Approx(std::exp(error / k.e_fold(full.top).kelvin)).epsilon(0.02));
      }
      double hours = 0;
      double full_hours = 0;
      Temperature at = full.start;
      for (const Segment& s : few) {
        hours += duration(at, s).count();
        at = s.target;
      }
      at = full.start;
      for (const Segment& s : full.segments) {
        full_hours += duration(at, s).count();
        at = s.target;
      }
      CHECK(hours >= full_hours - 1e-9);
    }
  }
}

/// Every way to put neighbours together, told by how many steps stand in each group: by recursion,
/// and each joined step reckoned anew. Nothing is joined over the top.
double least_by_brute_force(const std::vector<Segment>& steps, std::size_t top, std::size_t most,
                            const Kinetics& k) {
  const double before = heat_work_to_top(steps, k);
  double least = 1e9;
  std::vector<Segment> out;
  const std::function<void(std::size_t)> go = [&](std::size_t first) {
    if (first == steps.size()) {
      if (out.size() <= most) {
        const double error = std::log(heat_work_to_top(out, k) / before);
        least = std::min(least, std::abs(error) * k.e_fold(steps[top].target).kelvin);
      }
      return;
    }
    for (std::size_t last = first; last < steps.size(); ++last) {
      if (first <= top && last > top) break;
      const Temperature from = first == 0 ? Temperature{20} : steps[first - 1].target;
      double hours = 0;
      double slowest = 1e9;
      Temperature at = from;
      for (std::size_t i = first; i <= last; ++i) {
        hours += std::abs((steps[i].target - at).kelvin) / steps[i].rate.kelvin_per_hour;
        hours += i < last ? steps[i].hold.count() : 0;
        slowest = std::min(slowest, steps[i].rate.kelvin_per_hour);
        at = steps[i].target;
      }
      Segment one = steps[last];
      one.rate = {std::min(slowest, std::abs((at - from).kelvin) / hours)};
      out.push_back(one);
      go(last + 1);
      out.pop_back();
    }
  };
  go(0);
  return least;
}

TEST_CASE("joining finds the least error of all ways to join", "[joining]") {
  for (unsigned seed = 0; seed < 60; ++seed) {
    Random random{seed};
    std::vector<Segment> steps;
    const std::size_t climbs = 3 + random.below(4);
    double at = 20;
    for (std::size_t i = 0; i < climbs; ++i) {
      Segment s;
      s.stage = "step";
      at = i + 1 == climbs
               ? 1222
               : at + (1180 - at) / static_cast<double>(climbs - i) * random.uniform(0.6, 1.0);
      s.target = {std::max(at, 120.0)};
      at = s.target.celsius;
      s.rate = {random.uniform(40, 200)};
      s.hold = Hours{random.below(3) == 0 ? random.uniform(0.1, 1.0) : 0.0};
      steps.push_back(s);
    }
    const std::size_t top = climbs - 1;
    const Kinetics k = [&] {
      double rise = 0;
      double hours = 0;
      for (std::size_t i = climbs; i-- > 0 && rise < 100;) {
        const double from = i == 0 ? 20 : steps[i - 1].target.celsius;
        const double part = std::min(100 - rise, steps[i].target.celsius - from);
        rise += part;
        hours += part / steps[i].rate.kelvin_per_hour;
      }
      return HeatWork{library().cones}.anchored("6", {rise / hours});
    }();
    for (std::size_t most = 1; most < climbs; ++most) {
      double error = 0;
      const auto few = joined(steps, {20}, static_cast<int>(most), library().cones,
                              ConeKind::self_supporting, &error);
      CAPTURE(seed, most, climbs);
      CHECK(few.size() <= most);
      // Differences under a tenth of a degree are decided by the time.
      CHECK(std::abs(error) <= least_by_brute_force(steps, top, most, k) + 0.1);
    }
  }
}

TEST_CASE("a wish for few steps reaches the schedule, with a remark", "[joining]") {
  Wish wish;
  wish.profile = "bisque-normal";
  wish.kind = Kind::bisque;
  wish.target.end = std::string{"06"};
  wish.most_segments = 3;
  const Built b = plan_schedule(library().profiles, wish, {}, library().cones);
  CHECK(controller_steps(b.schedule.segments) == 3);
  CHECK(b.schedule.segments[b.schedule.top_segment].target == b.schedule.top);
  CHECK(has(b.schedule.remarks, "Joined from 5 to 3 steps"));
  wish.most_segments = 0;
  CHECK(has_mistakes(plan_schedule(library().profiles, wish, {}, library().cones).findings));
}

TEST_CASE("a long drying hold is never joined away", "[joining]") {
  const Schedule full = schedule_for("bisque-damp", "06").schedule;
  const std::vector<Segment> few =
      joined(full.segments, full.start, 2, library().cones, ConeKind::self_supporting);
  CHECK(few.front().hold.count() == Approx(7));
  CHECK(few.front().target.celsius < 100);
}

}  // namespace placer::firing
