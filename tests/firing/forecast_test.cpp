#include "placer/firing/forecast.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "library.h"
#include "placer/firing/words.h"

namespace placer::firing {
namespace {

KilnBuild kiln(HeatSource source, double volume, double surface, std::optional<double> kw,
               std::vector<WallLayer> wall) {
  KilnBuild k;
  k.source = source;
  k.chamber_volume_m3 = volume;
  k.chamber_surface_m2 = surface;
  if (kw) {
    k.power = Power{*kw};
  }
  k.wall = std::move(wall);
  return k;
}

HeatLoad load(double ware, double furniture) {
  HeatLoad l;
  l.ware = Mass::from_kg(ware);
  l.furniture = Mass::from_kg(furniture);
  l.shelf_material = "cordierite";
  return l;
}

/// A plain climb, then left to cool.
Schedule plain(double top, double hours) {
  Schedule s;
  Segment climb;
  climb.stage = "finish";
  climb.target = {top};
  climb.rate = {(top - 20) / hours};
  Segment cool;
  cool.stage = "opening";
  cool.target = {60};
  cool.rate = {40};
  cool.natural = true;
  s.segments = {climb, cool};
  s.top = {top};
  s.final_rate = climb.rate;
  s.wish.target.end = std::string{"6"};
  return s;
}

Forecast of(const Schedule& s, const KilnBuild& k, const HeatLoad& l) {
  return forecast(s, library().cones, k, l);
}

bool told(const Forecast& f, const std::string& code) {
  return std::any_of(f.findings.begin(), f.findings.end(),
                     [&](const Finding& x) { return x.code == code; });
}

KilnBuild seven_foot(double kw) {
  return kiln(HeatSource::electric, 0.198, 2.04, kw,
              {{"insulating brick 23", Length::from_mm(76)}});
}

KilnBuild yard_gas(double kw) {
  return kiln(
      HeatSource::propane, 0.56, 4.2, kw,
      {{"insulating brick 26", Length::from_mm(115)}, {"fibre blanket", Length::from_mm(50)}});
}

}  // namespace

TEST_CASE("measured firings of a 2.6 cubic foot kiln lie inside the band", "[forecast]") {
  // potters.org subject 43125: 26 to 29 kWh to cone 06 in 10 h, 34 to 36 kWh to cone 9, faster;
  // full loads, 76 mm of brick. The brick is taken as the middling one of 604 kg/m3, nothing is
  // tuned.
  const KilnBuild k =
      kiln(HeatSource::electric, 0.0736, 1.053, 8, {{"insulating brick", Length::from_mm(76)}});
  const Forecast bisque = of(plain(1000, 10), k, load(12, 10));
  const Forecast glaze = of(plain(1270, 8), k, load(12, 10));
  CHECK(bisque.energy->kwh * (1 - bisque.energy_band) < 26);
  CHECK(bisque.energy->kwh * (1 + bisque.energy_band) > 29);
  CHECK(glaze.energy->kwh * (1 - glaze.energy_band) < 34);
  CHECK(glaze.energy->kwh * (1 + glaze.energy_band) > 36);
  CHECK(glaze.energy->kwh == Approx(36).epsilon(0.20));
}

TEST_CASE("a 7 cubic foot kiln to cone 6 takes 50 to 90 kWh", "[forecast]") {
  // Practice; an independent one-dimensional model gave 59 with 76 mm of brick 23 and 83 with 115
  // mm of brick 26.
  const Forecast thin = of(plain(1222, 9), seven_foot(20), load(40, 30));
  KilnBuild thick = seven_foot(20);
  thick.wall = {{"insulating brick 26", Length::from_mm(115)}};
  const Forecast heavy = of(plain(1222, 9), thick, load(40, 30));
  CHECK(thin.energy->kwh == Approx(59).epsilon(0.10));
  CHECK(heavy.energy->kwh == Approx(83).epsilon(0.10));
}

TEST_CASE("a studio kiln cools in one to two days", "[forecast]") {
  // potters: 13 h up and 33 h down (oxfordclay.co.uk); opened after about 34 h, 55 °C about 45 h
  // after a heavy load (community.ceramicartsdaily.org topic 42147).
  const Forecast f = of(plain(1222, 12), seven_foot(11.5), load(40, 30));
  const double to_hundred = (f.earliest_opening - f.off).count();
  CHECK(to_hundred * (1 - f.time_band) < 33);
  CHECK(to_hundred > 18);
  CHECK((f.unload - f.off).count() < 45 * (1 + f.time_band));
  CHECK(f.unload > f.earliest_opening);
}

TEST_CASE("a gas kiln to cone 10 burns 40 to 150 kg of propane for a cubic metre of stack",
          "[forecast]") {
  // Practice; a lumped example: 85 kg ware and 145 kg furniture, 24 to 31 kg.
  const Built built = schedule_for("stoneware-reduction", "10");
  const Forecast f = of(built.schedule, yard_gas(90), load(85, 145));
  REQUIRE(f.fuel_kg);
  CHECK(*f.fuel_kg / 0.5 > 40);
  CHECK(*f.fuel_kg / 0.5 < 150);
  CHECK(f.cone == "10");
  CHECK(f.heat->flue > 0.3 * f.energy->kwh);  // about half of the fuel in industry
  CHECK(f.energy->kwh == Approx(*f.fuel_kg * 46.33 / 3.6).epsilon(1e-3));
  const Forecast::Heat& h = *f.heat;
  CHECK(h.ware_and_shelves + h.water + h.wall + h.shell_and_leaks + h.flue ==
        Approx(f.energy->kwh).epsilon(0.001));
}

TEST_CASE("reduction costs fuel", "[forecast]") {
  Built built = schedule_for("stoneware-reduction", "10");
  const Forecast light = of(built.schedule, yard_gas(90), load(85, 145));
  for (Segment& s : built.schedule.segments) {
    s.carbon_monoxide = s.carbon_monoxide > 0 ? 6 : 0;
  }
  const Forecast heavy = of(built.schedule, yard_gas(90), load(85, 145));
  CHECK(*heavy.fuel_kg > 1.08 * *light.fuel_kg);
}

TEST_CASE("a kiln that can follow does, and reaches the cone asked for", "[forecast]") {
  for (const Profile& p : library().profiles) {
    CAPTURE(p.name);
    const Built built = schedule_for(p.name, p.cone);
    REQUIRE_FALSE(has_mistakes(built.findings));
    const bool fuel = p.atmosphere == Atmosphere::reduction;
    const Forecast f = of(built.schedule, fuel ? yard_gas(110) : seven_foot(16), load(40, 40));
    CHECK(f.cone == p.cone);
    CHECK_FALSE(f.falls_behind);
    CHECK(std::abs(f.late.count()) < 0.05);
    CHECK_FALSE(told(f, "power"));
    CHECK(f.hottest_shell.celsius > 25);
    CHECK(f.steps.size() == built.schedule.segments.size());
  }
}

TEST_CASE("a kiln with too little power is told so, with the hour and the cone", "[forecast]") {
  const Built built = schedule_for("mid-range", "6");
  const Forecast weak = of(built.schedule, seven_foot(5.5), load(40, 30));
  REQUIRE(told(weak, "power"));
  REQUIRE(weak.falls_behind);
  CHECK(weak.falls_behind->count() > 0.5);
  CHECK(weak.worst_lag.kelvin > 10);
  CHECK(weak.late.count() > 0.5);
  const auto finding = std::find_if(weak.findings.begin(), weak.findings.end(),
                                    [](const Finding& x) { return x.code == "power"; });
  const auto step = std::find_if(weak.steps.begin(), weak.steps.end(),
                                 [&](const auto& one) { return one.ends >= *weak.falls_behind; });
  REQUIRE(step != weak.steps.end());
  CHECK(finding->message.find("after the start it cannot keep " +
                              both_scales(step->segment.rate)) != std::string::npos);
  CHECK(finding->message.find("The times here already allow for it") != std::string::npos);
  CHECK(finding->message.find("cone then reached") != std::string::npos);

  const Forecast hopeless = of(built.schedule, seven_foot(3), load(40, 30));
  CHECK(hopeless.gives_up);
  CHECK(hopeless.cone != "6");
  CHECK(hopeless.duration.count() < 200);
}

TEST_CASE("a burner with nothing to spare is warned of a stall in reduction", "[forecast]") {
  const Built built = schedule_for("stoneware-reduction", "10");
  bool warned = false;
  for (double kw = 90; kw > 20 && !warned; kw -= 4) {
    const Forecast f = of(built.schedule, yard_gas(kw), load(85, 145));
    warned = told(f, "stall");
  }
  CHECK(warned);
  CHECK_FALSE(told(of(built.schedule, yard_gas(110), load(85, 145)), "stall"));
}

TEST_CASE("reduction in an electric kiln is warned of", "[forecast]") {
  const Built built = schedule_for("stoneware-reduction", "10");
  CHECK(told(of(built.schedule, seven_foot(16), load(40, 30)), "reduction"));
}

TEST_CASE("cautions fit what heats the kiln", "[forecast]") {
  const auto text = [](const Forecast& f) {
    std::string all;
    for (const TimedSegment& step : f.steps) {
      for (const std::string& caution : step.segment.cautions) {
        all += caution + "\n";
      }
    }
    return all;
  };
  const Built bisque = schedule_for("bisque-normal", "06");
  const std::string gas = text(of(bisque.schedule, yard_gas(90), load(40, 40)));
  CHECK(gas.find("never open the gas without a burning pilot or taper at the burner") !=
        std::string::npos);
  // A hot kiln full of gas is what a hasty second match lights (common practice, no source).
  CHECK(gas.find("If a flame goes out: close the gas. Damper open; wait until the chamber is aired "
                 "through at least four times. Only then light again.") != std::string::npos);
  CHECK(gas.find("Gas off at the burner") != std::string::npos);
  CHECK(gas.find("isolate before you reach") == std::string::npos);
  const std::string electric = text(of(bisque.schedule, seven_foot(12), load(40, 40)));
  CHECK(electric.find("taper") == std::string::npos);
  CHECK(electric.find("isolate before you reach") != std::string::npos);
}

TEST_CASE("reduction with no heat from the burner is flagged", "[forecast]") {
  const Built built = schedule_for("stoneware-reduction", "10");
  CHECK(told(of(built.schedule, yard_gas(0), load(40, 40)), "fuel"));
  CHECK_FALSE(told(of(built.schedule, yard_gas(90), load(40, 40)), "fuel"));
}

TEST_CASE("cooling curves only fall, planned and simulated, whatever the kiln", "[forecast]") {
  for (const char* name : {"stoneware-reduction", "bisque-normal", "mid-range-slow-cooled"}) {
    const Built built = schedule_for(name, profile(name).cone);
    for (const double kw : {5.0, 16.0, 90.0}) {
      for (const bool gas : {false, true}) {
        CAPTURE(name, kw, gas);
        const Forecast f = of(built.schedule, gas ? yard_gas(kw) : seven_foot(kw), load(40, 40));
        double planned = 1e9;
        double real = 1e9;
        double at = -1;
        for (const Moment& m : f.curve) {
          REQUIRE(m.at.count() >= at);
          at = m.at.count();
          if (m.at >= f.off) {
            REQUIRE(m.planned.celsius <= planned + 1e-6);
            REQUIRE(m.kiln.celsius <= real + 1e-6);
            planned = m.planned.celsius;
            real = m.kiln.celsius;
          }
        }
        CHECK(f.curve.back().kiln.celsius <= 60);
      }
    }
  }
}

TEST_CASE("cost follows the price, and the band the knowledge of the kiln", "[forecast]") {
  KilnBuild k = seven_foot(12);
  k.price_per_kwh = 0.30;
  const Forecast known = of(plain(1222, 9), k, load(40, 30));
  CHECK(*known.cost == Approx(0.30 * known.energy->kwh));
  k.wall.clear();
  const Forecast guessed = of(plain(1222, 9), k, load(40, 30));
  CHECK(guessed.energy_band > known.energy_band);
  k.learnt = Learnt{1.1, 1.0, 1.0, 0.1, "log"};
  CHECK(of(plain(1222, 9), k, load(40, 30)).energy_band == Approx(0.1));
}

TEST_CASE("nothing known of the kiln: times as planned and no energy", "[forecast]") {
  const Built built = schedule_for("mid-range", "6");
  const Forecast f = forecast(built.schedule, library().cones, std::nullopt, {});
  CHECK_FALSE(f.energy);
  CHECK(f.cone == "6");
  CHECK(f.late.count() == Approx(0).margin(0.01));
  CHECK(f.earliest_opening > f.off);
}

TEST_CASE("the start follows from the finish", "[forecast]") {
  Built built = schedule_for("mid-range", "6");
  built.schedule.wish.ends_at = 2'000'000'000;
  const Forecast f = forecast(built.schedule, library().cones, std::nullopt, {});
  REQUIRE(f.schedule.wish.starts_at);
  CHECK(*f.schedule.wish.starts_at == 2'000'000'000 - std::llround(f.off.count() * 3600));
}

TEST_CASE("a top over the wall's class or the kiln's limit is told", "[forecast]") {
  KilnBuild k = seven_foot(16);
  k.top_limit = Temperature{1230};
  CHECK(told(of(plain(1285, 10), k, load(40, 30)), "limit"));
  CHECK_FALSE(told(of(plain(1200, 10), k, load(40, 30)), "limit"));
}

TEST_CASE("more load takes more energy, more wall takes longer to cool", "[forecast]") {
  double last = 0;
  for (const double kg : {10.0, 30.0, 60.0, 100.0}) {
    const double kwh = of(plain(1222, 12), seven_foot(25), load(kg, kg)).energy->kwh;
    CHECK(kwh > last);
    last = kwh;
  }
  KilnBuild thick = seven_foot(25);
  thick.wall = {{"insulating brick 23", Length::from_mm(150)}};
  const Forecast a = of(plain(1222, 12), seven_foot(25), load(40, 30));
  const Forecast b = of(plain(1222, 12), thick, load(40, 30));
  CHECK(b.unload - b.off > a.unload - a.off);
}

TEST_CASE("a fibre wall stores least", "[forecast]") {
  KilnBuild fibre = seven_foot(25);
  fibre.wall = {{"fibre blanket", Length::from_mm(150)}};
  KilnBuild brick = seven_foot(25);
  brick.wall = {{"insulating brick 26", Length::from_mm(150)}};
  CHECK(of(plain(1222, 9), fibre, load(40, 30)).heat->wall <
        0.35 * of(plain(1222, 9), brick, load(40, 30)).heat->wall);
}

TEST_CASE("the heat goes off once: when the clear flame at the end is over", "[forecast]") {
  const Built built = schedule_for("stoneware-reduction", "10");
  const Forecast f = of(built.schedule, yard_gas(110), load(85, 145));
  const auto clean_up = std::find_if(f.steps.begin(), f.steps.end(), [](const TimedSegment& s) {
    return s.segment.stage == "clean-up";
  });
  REQUIRE(clean_up != f.steps.end());
  CHECK_FALSE(clean_up->segment.natural);
  CHECK(f.off == clean_up->ends);
  // "ten minutes of clear flame" takes ten minutes.
  CHECK((clean_up->ends - clean_up->starts).count() * 60 == Approx(10).margin(0.6));
  for (const TimedSegment& step : f.steps) {
    CHECK((step.segment.natural ? step.starts >= f.off : step.ends <= f.off));
  }
  const auto off = std::find_if(f.events.begin(), f.events.end(), [](const Event& e) {
    return e.what.find("heat off") != std::string::npos;
  });
  REQUIRE(off != f.events.end());
  CHECK(off->at == f.off);
}

TEST_CASE("a potter's own copy with a natural clean-up burns until it is over, too", "[forecast]") {
  Profile own = profile("stoneware-reduction");
  for (Profile::Step& step : own.steps) {
    if (step.stage == "clean-up") {
      step.natural = true;
      step.rate = {240};
      step.to = Warming{-40};
    }
  }
  Wish wish;
  wish.atmosphere = Atmosphere::reduction;
  wish.target.end = std::string{"10"};
  const Built built = schedule_from(own, wish, {}, library().cones);
  const Forecast f = of(built.schedule, yard_gas(110), load(85, 145));
  const std::size_t clean_up = built.schedule.top_segment + 1;
  CHECK(f.steps[clean_up].segment.stage == "clean-up");
  CHECK(f.off == f.steps[clean_up].ends);
}

TEST_CASE("what is said of a fall is what the simulated hours say", "[forecast]") {
  for (const char* name : {"stoneware-reduction", "bisque-normal", "mid-range-slow-cooled"}) {
    const Built built = schedule_for(name, profile(name).cone);
    const Forecast f = of(built.schedule, seven_foot(14), load(40, 40));
    for (const TimedSegment& step : f.steps) {
      if (!step.segment.natural) {
        continue;
      }
      CAPTURE(name, step.segment.stage);
      const double mean =
          (step.from - step.segment.target).kelvin / (step.ends - step.starts).count();
      CHECK(step.segment.rate.kelvin_per_hour == Approx(mean));
    }
  }
}

TEST_CASE("the hour of opening is the one that the load asks for, and says why", "[forecast]") {
  WareSummary mugs;
  mugs.thickest = Length::from_mm(6);
  WareSummary plates = mugs;
  plates.flat_ware = true;
  WareSummary slabs = mugs;
  slabs.thickest = Length::from_mm(20);
  const auto forecast_of = [](const WareSummary& ware) {
    return of(schedule_for("mid-range", "6", ware).schedule, seven_foot(14), load(40, 40));
  };
  const Forecast plain = forecast_of(mugs);
  CHECK(plain.open_below.celsius == 100);
  CHECK(plain.earliest_opening == plain.under_100);
  CHECK(plain.open_why.find("nothing flat") != std::string::npos);
  for (const Forecast& waits : {forecast_of(plates), forecast_of(slabs)}) {
    CHECK(waits.open_below.celsius == 60);
    CHECK(waits.earliest_opening == waits.unload);
    CHECK(waits.earliest_opening > waits.under_100);
    for (const Event& event : waits.events) {  // nobody is told to open it earlier
      CHECK((event.what.find("may be opened") == std::string::npos ||
             event.at >= waits.earliest_opening));
    }
  }
  CHECK(forecast_of(plates).open_why.find("flat or wide ware") != std::string::npos);
  CHECK(forecast_of(slabs).open_why.find("over 15 mm") != std::string::npos);
}

TEST_CASE("a lid left open is closed, and somebody is told to be there", "[forecast]") {
  for (const Profile& p : library().profiles) {
    const Built built = schedule_for(p.name, p.cone);
    const Forecast f = of(built.schedule, seven_foot(16), load(40, 40));
    std::size_t opened = 99;
    std::size_t closed = 0;
    for (std::size_t i = 0; i < f.steps.size(); ++i) {
      for (const std::string& note : f.steps[i].segment.notes) {
        opened = note.find("a finger open") != std::string::npos ? std::min(opened, i) : opened;
        closed = note.find("Close the lid or door") != std::string::npos ? i : closed;
      }
    }
    CAPTURE(p.name, opened, closed);
    CHECK((opened == 99) == (closed == 0));
    if (closed > 0) {
      CHECK(closed > opened);
      CHECK(std::any_of(f.events.begin(), f.events.end(), [&](const Event& e) {
        return e.hands_on && e.what.find("close the lid or door") != std::string::npos &&
               e.at == f.steps[closed].starts;
      }));
    }
  }
}

TEST_CASE("cones are read before the climb ends, not before slow cooling ends", "[forecast]") {
  const Forecast f =
      of(schedule_for("mid-range-slow-cooled", "6").schedule, seven_foot(14), load(40, 40));
  const auto read = std::find_if(f.events.begin(), f.events.end(), [](const Event& e) {
    return e.what.find("read the cones") != std::string::npos;
  });
  REQUIRE(read != f.events.end());
  const TimedSegment& top = f.steps[f.schedule.top_segment];
  CHECK(read->at < top.ends);
  CHECK(read->at > top.ends - Hours{1.5});
}

TEST_CASE("the cost carries its currency", "[forecast]") {
  KilnBuild kiln = seven_foot(14);
  kiln.price_per_kwh = 0.3;
  kiln.currency = "EUR";
  const Forecast f = of(schedule_for("mid-range", "6").schedule, kiln, load(40, 40));
  REQUIRE(f.cost);
  CHECK(*f.cost == Approx(f.energy->kwh * 0.3));
  CHECK(f.currency == "EUR");
}

TEST_CASE("a kiln too weak: the hour, where it stands, the cone, and no step that never comes",
          "[forecast]") {
  const Built built = schedule_for("stoneware-reduction", "10");
  const Forecast f = of(built.schedule, seven_foot(3), load(40, 40));
  REQUIRE(f.gives_up);
  REQUIRE(f.falls_behind);
  const auto power = std::find_if(f.findings.begin(), f.findings.end(),
                                  [](const Finding& x) { return x.code == "power"; });
  REQUIRE(power != f.findings.end());
  CHECK(power->message.find("after the start it cannot keep ") != std::string::npos);
  CHECK(power->message.find("stands still at about") != std::string::npos);
  CHECK(power->message.find("cone then reached: ") != std::string::npos);
  for (const TimedSegment& step : f.steps) {
    const bool natural = step.segment.natural && step.ends > step.starts;
    CAPTURE(step.segment.stage);
    // It cools from where it stood, so no fall is faster than a kiln's.
    CHECK((!natural || step.segment.rate.kelvin_per_hour < 400));
  }
  for (const Event& e : f.events) {
    CHECK(e.what.find("clean-up") == std::string::npos);
  }
}

TEST_CASE("cordierite shelves over 1300 °C are warned of", "[forecast]") {
  Wish wish;
  wish.target.end = Temperature{1320};
  const Built built = schedule_from(profile("porcelain-oxidation"), wish, {}, library().cones);
  CHECK(told(of(built.schedule, seven_foot(20), load(40, 40)), "limit"));
  HeatLoad carbide = load(40, 40);
  carbide.shelf_material = "silicon carbide";
  KilnBuild kiln = seven_foot(20);
  kiln.wall = {{"insulating brick 28", Length::from_mm(115)}};
  CHECK_FALSE(told(of(built.schedule, kiln, carbide), "limit"));
}

}  // namespace placer::firing
