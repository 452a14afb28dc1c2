#include "placer/firing/schedule.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "library.h"
#include "placer/firing/safety.h"

namespace placer::firing {
namespace {

bool told(const Built& built, const std::string& code, Severity severity) {
  return std::any_of(built.findings.begin(), built.findings.end(),
                     [&](const Finding& f) { return f.code == code && f.severity == severity; });
}

/// All notes and cautions of the segment, joined.
std::string text_of(const Segment& segment) {
  std::string all;
  for (const auto& list : {segment.notes, segment.cautions}) {
    for (const std::string& line : list) {
      all += line + "\n";
    }
  }
  return all;
}

std::string text_of(const Schedule& schedule) {
  std::string all;
  for (const Segment& segment : schedule.segments) {
    all += text_of(segment);
  }
  for (const std::string& line : schedule.cautions) {
    all += line + "\n";
  }
  for (const std::string& line : schedule.remarks) {
    all += line + "\n";
  }
  return all;
}

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

Built wished(const std::string& name, Wish wish, WareSummary ware = {}) {
  wish.kind = profile(name).kind;
  wish.atmosphere = profile(name).atmosphere;
  return schedule_from(profile(name), wish, ware, library().cones);
}

}  // namespace

TEST_CASE("every shipped profile gives a sound schedule for every cone it suits", "[schedule]") {
  CHECK(library().profiles.size() >= 10);
  for (const Profile& p : library().profiles) {
    CHECK(check_profile(p).empty());
    CHECK_FALSE(p.source.empty());
    CHECK(std::find(p.cones.begin(), p.cones.end(), p.cone) != p.cones.end());
    for (const std::string& name : p.cones) {
      CAPTURE(p.name, name);
      const Built built = schedule_for(p.name, name);
      REQUIRE_FALSE(has_mistakes(built.findings));
      const Schedule& s = built.schedule;
      REQUIRE_FALSE(s.segments.empty());
      CHECK(s.segments[s.top_segment].target == s.top);
      Temperature at = s.start;
      for (std::size_t i = 0; i < s.segments.size(); ++i) {
        CHECK(s.segments[i].rate.kelvin_per_hour > 0);
        CHECK(std::isfinite(duration(at, s.segments[i]).count()));
        CHECK((i <= s.top_segment ? s.segments[i].target >= at : s.segments[i].target <= at));
        CHECK(s.segments[i].natural <= (i > s.top_segment));
        at = s.segments[i].target;
      }
      CHECK(at.celsius <= 60);
      // The chart's temperature, less what the profile's own soak does.
      const double chart = bends(name, s.final_rate.kelvin_per_hour);
      CHECK(s.top.celsius <= chart + 2);  // two rates in the last 100 °C
      CHECK(s.top.celsius >= chart - 16);
    }
  }
}

TEST_CASE("a profile without a soak ends at the chart's temperature for its final rate",
          "[schedule]") {
  const Schedule s = schedule_for("stoneware-reduction", "10").schedule;
  CHECK(s.final_rate.kelvin_per_hour == 80);
  CHECK(s.top.celsius == std::round(1285 + 20 * std::log(80.0 / 60) / std::log(2.5)));
  CHECK(s.top.celsius >= 1285);
  CHECK(s.top.celsius <= 1295);
  const Schedule b = schedule_for("bisque-normal", "06").schedule;
  CHECK(b.final_rate.kelvin_per_hour == 100);
  CHECK(b.top.celsius == Approx(bends("06", 100)).margin(0.5));
}

TEST_CASE("a soak lowers the top so that the cone still just comes down", "[schedule]") {
  Wish wish;
  wish.target.end = std::string{"6"};
  double last = 1300;
  for (const double hours : {0.05, 0.25, 0.5, 1.0}) {
    wish.soak = Hours{hours};
    const Schedule s = wished("mid-range", wish).schedule;
    CHECK(s.top.celsius < last);
    last = s.top.celsius;
    History h = ramp(s.top.celsius, 60, hours);
    const Verdict v = HeatWork{library().cones}.judge(h);
    CHECK(v.down == "6");
    CHECK(v.same_as_plain_ramp_to.celsius == Approx(1222).margin(1.2));
  }
  CHECK(has(text_of(wished("mid-range", wish).schedule), "trust your witness cones"));
}

TEST_CASE("a top limit is made up for by a hold, or refused when none would do", "[schedule]") {
  Wish wish;
  wish.target.end = std::string{"10"};
  wish.top_limit = Temperature{1275};
  const Built held = wished("stoneware-reduction", wish);
  REQUIRE_FALSE(has_mistakes(held.findings));
  CHECK(held.schedule.top.celsius == 1275);
  const Hours hold = held.schedule.segments[held.schedule.top_segment].hold;
  CHECK(hold.count() > 0.1);
  CHECK(hold.count() < 1.5);
  CHECK(has(text_of(held.schedule), "the limit is 1275 °C"));
  // The same answer as the heat-work model gives by itself.
  const Kinetics k = HeatWork{library().cones}.anchored("10", {80});
  const double climbed = k.of_line({20}, {1275}, Hours{1255.0 / 80});
  CHECK(hold.count() == Approx((1 - climbed) / k.per_hour({1275})).margin(0.03));

  wish.top_limit = Temperature{1200};
  const Built refused = wished("stoneware-reduction", wish);
  CHECK(told(refused, "limit", Severity::mistake));
  CHECK(refused.schedule.segments.empty());
}

TEST_CASE("a target temperature is taken as it is", "[schedule]") {
  Wish wish;
  wish.target.end = Temperature{1295};
  const Built built = wished("stoneware-reduction", wish);
  REQUIRE_FALSE(has_mistakes(built.findings));
  CHECK(built.schedule.top.celsius == 1295);
  CHECK(has(text_of(built.schedule),
            "1295 °C (2363 °F) at 80 °C/h (144 °F/h) is cone 10 (self-supporting)"));
  wish.top_limit = Temperature{1280};
  CHECK(told(wished("stoneware-reduction", wish), "limit", Severity::mistake));
}

TEST_CASE("a number of the superseded chart is explained where it is met", "[schedule]") {
  Wish wish;
  Profile fast = profile("mid-range");
  fast.steps[3].rate = {150};
  wish.target.end = Temperature{1222};
  const Schedule s = schedule_from(fast, wish, {}, library().cones).schedule;
  CHECK(has(text_of(s), "1222 °C (2232 °F) is cone 6 in a superseded chart"));
  CHECK(has(text_of(s), "is cone 5.5"));
  wish.target.end = Temperature{1234};
  CHECK_FALSE(has(text_of(wished("mid-range", wish).schedule), "superseded"));
}

TEST_CASE("°F given as °C is seen", "[schedule]") {
  Wish wish;
  wish.target.end = Temperature{2232};
  const Built built = wished("mid-range", wish);
  REQUIRE(told(built, "temperature", Severity::mistake));
  CHECK(has(built.findings.front().message, "2232 °F would be 1222 °C"));
  wish.target.end = Temperature{180};
  CHECK(told(wished("mid-range", wish), "temperature", Severity::mistake));
}

TEST_CASE("reduction below the self-ignition limit is refused with its reason", "[schedule]") {
  Wish wish;
  wish.target.end = std::string{"10"};
  wish.reduction_from = Temperature{600};
  const Built built = wished("stoneware-reduction", wish);
  REQUIRE(told(built, "reduction", Severity::mistake));
  CHECK(has(built.findings.front().message, "760 °C"));
  CHECK(has(built.findings.front().message, "explode"));
  CHECK(built.schedule.segments.empty());
  wish.reduction_from = Temperature{759.9};
  CHECK(has_mistakes(wished("stoneware-reduction", wish).findings));
  wish.reduction_from = Temperature{760};
  CHECK_FALSE(has_mistakes(wished("stoneware-reduction", wish).findings));
}

TEST_CASE("reduction starts where it is asked to, and never sooner", "[schedule]") {
  Wish wish;
  wish.target.end = std::string{"10"};
  for (const double from : {780.0, 850.0, 950.0, 1000.0}) {
    wish.reduction_from = Temperature{from};
    const Schedule s = wished("stoneware-reduction", wish).schedule;
    Temperature at = s.start;
    bool began = false;
    for (const Segment& segment : s.segments) {
      if (segment.carbon_monoxide > 0) {
        CHECK(at >= kSelfIgnition);
        if (!began) {
          CHECK(at.celsius == Approx(from));
        }
        began = true;
      }
      at = segment.target;
    }
    CHECK(began);
  }
}

TEST_CASE("no shipped profile reduces below the self-ignition limit", "[schedule]") {
  for (const Profile& p : library().profiles) {
    const Schedule s = schedule_for(p.name, p.cone).schedule;
    Temperature at = s.start;
    for (const Segment& segment : s.segments) {
      CAPTURE(p.name, segment.stage);
      CHECK((segment.carbon_monoxide == 0 || at >= kSelfIgnition));
      at = segment.target;
    }
  }
}

TEST_CASE("damp ware hurried below 120 °C is warned of", "[schedule]") {
  WareSummary damp;
  damp.damp = true;
  Profile hasty = profile("bisque-normal");
  hasty.steps[0].rate = {200};
  Wish wish;
  wish.kind = Kind::bisque;
  wish.target.end = std::string{"06"};
  const Built built = schedule_from(hasty, wish, damp, library().cones);
  CHECK(told(built, "damp", Severity::look));
  hasty.steps[0].rate = {100};
  CHECK_FALSE(told(schedule_from(hasty, wish, damp, library().cones), "damp", Severity::look));
}

TEST_CASE("ordinary ware is not told off by the profile that suits it", "[schedule]") {
  for (const double mm : {4.0, 5.0, 7.0, 9.0}) {
    for (const Profile& p : library().profiles) {
      WareSummary ware;
      ware.thickest = Length::from_mm(mm);
      ware.flat_ware = p.kind == Kind::glaze;
      ware.free_quartz = p.kind == Kind::glaze;
      Wish wish;
      wish.kind = p.kind;
      wish.atmosphere = p.atmosphere;
      wish.target.end = p.cone;
      const Built built = plan_schedule(library().profiles, wish, ware, library().cones);
      CAPTURE(p.name, mm, built.schedule.profile);
      CHECK_FALSE(told(built, "fast", Severity::look));
    }
  }
}

TEST_CASE("a profile too fast for the ware is named, with what the ware asks for", "[schedule]") {
  WareSummary thick;
  thick.thickest = Length::from_mm(25);
  const Built built = schedule_for("bisque-thin", "06", thick);
  REQUIRE(told(built, "fast", Severity::look));
  CHECK(has(built.findings.back().message, "walls over 15 mm"));
}

TEST_CASE("stages carry their temperatures and what to do", "[schedule]") {
  const std::string bisque = text_of(schedule_for("bisque-normal", "06").schedule);
  CHECK(has(bisque, "573 °C (1063 °F)"));  // ceramica.wikia.com, quartz inversion
  CHECK(has(bisque, "100 °C (212 °F)"));   // steam
  CHECK(has(bisque, "450 to 650 °C"));     // Vaughan 1954, Redfern 1987
  CHECK(has(bisque, "650 to 900 °C"));     // burn-out: Hamer, from memory
  CHECK(has(bisque, "226 °C (439 °F)"));   // cristobalite: Dodd & Murfin, from memory
  CHECK(has(bisque, "cold mirror"));
  const std::string reduction = text_of(schedule_for("stoneware-reduction", "10").schedule);
  CHECK(has(reduction, "Iron in the body turns"));
  CHECK(has(reduction, "No reduction below 760 °C (1400 °F)"));
  CHECK(has(reduction, "Give air until it climbs again"));
}

TEST_CASE("cautions carry their limits", "[schedule]") {
  const std::string text = text_of(schedule_for("stoneware-reduction", "10").schedule);
  // CDC NIOSH idlh/630080 and stacks.cdc.gov/view/cdc/225141; UK EH40
  CHECK(has(text, "50 ppm (OSHA), 35 (NIOSH, never over 200), 20 (UK)"));
  CHECK(has(text, "1200 ppm is dangerous at once"));
  CHECK(has(text, "local codes"));
  CHECK(has(text, "licensed"));
  CHECK(has(text, "infrared filter, about 4-5"));
  CHECK(has(text, "Opening: not over 100 °C (212 °F)"));
  CHECK(has(text, "50 µg/m³ OSHA, 0.1 mg/m³ UK"));
  CHECK(has(text, "isolate before you reach"));
  CHECK(has(text, "Gas off at the burner and at the cylinder"));
  CHECK(has(text, "aired through at least four times"));
  // and each where it belongs
  const Schedule s = schedule_for("bisque-normal", "06").schedule;
  CHECK(has(text_of(s.segments.back()), "Unload it cooler still, with gloves"));
  CHECK_FALSE(has(text_of(s.segments.front()), "Unload it cooler still, with gloves"));
  CHECK_FALSE(has(text_of(s), "No reduction"));
}

TEST_CASE("a profile that can't be fired is named with each of its slips", "[schedule]") {
  Profile p = profile("bisque-normal");
  p.steps[1].to = Temperature{60};  // falls where it should rise
  p.steps[2].rate = {0};
  p.steps[3].hold = Hours{-1};
  const std::vector<Finding> findings = check_profile(p);
  REQUIRE(findings.size() == 3);
  std::string all;
  for (const Finding& f : findings) {
    all += f.message;
  }
  CHECK(has(all, "lower than the step before"));
  CHECK(has(all, "rate of 0 °C/h"));
  CHECK(has(all, "holds for -1.0 h"));
  Wish wish;
  wish.target.end = std::string{"06"};
  CHECK(schedule_from(p, wish, {}, library().cones).schedule.segments.empty());

  Profile hot = profile("mid-range");
  hot.steps[1].to = Temperature{2232};
  REQUIRE(check_profile(hot).size() >= 1);
  CHECK(has(check_profile(hot).front().message, "was °F meant?"));
  Profile over = profile("mid-range");
  over.steps[2].to = Warming{20};
  CHECK(has(check_profile(over).front().message, "over the top"));
  Profile topless = profile("mid-range");
  topless.steps.resize(2);
  CHECK(has(check_profile(topless).front().message, "no step goes to the top"));
  Profile rising = profile("mid-range");
  rising.steps.back().to = Temperature{700};
  CHECK(has(check_profile(rising).front().message, "hotter than the step before"));
  Profile off = profile("mid-range");
  off.steps[0].natural = true;
  CHECK(has(check_profile(off).front().message, "heat off, before the top"));
}

TEST_CASE("a cone that no table has, and a profile that there is not", "[schedule]") {
  CHECK(told(schedule_for("mid-range", "66"), "cone", Severity::mistake));
  Wish wish;
  wish.profile = "mid-rnage";
  wish.target.end = std::string{"6"};
  const Built built = plan_schedule(library().profiles, wish, {}, library().cones);
  REQUIRE(told(built, "profile", Severity::mistake));
  CHECK(built.findings.front().suggestion == "mid-range");
}

TEST_CASE("the profile that suits is chosen", "[schedule]") {
  const auto chosen = [](Kind kind, Atmosphere atmosphere, const char* cone_name, double mm,
                         bool damp = false) {
    Wish wish;
    wish.kind = kind;
    wish.atmosphere = atmosphere;
    wish.target.end = std::string{cone_name};
    WareSummary ware;
    ware.thickest = Length::from_mm(mm);
    ware.damp = damp;
    return choose_profile(library().profiles, wish, ware).name;
  };
  CHECK(chosen(Kind::bisque, Atmosphere::oxidation, "06", 5) == "bisque-thin");
  CHECK(chosen(Kind::bisque, Atmosphere::oxidation, "06", 8) == "bisque-normal");
  CHECK(chosen(Kind::bisque, Atmosphere::oxidation, "04", 13) == "bisque-thick");
  CHECK(chosen(Kind::bisque, Atmosphere::oxidation, "06", 25) == "bisque-sculpture");
  CHECK(chosen(Kind::bisque, Atmosphere::oxidation, "06", 8, true) == "bisque-damp");
  CHECK(chosen(Kind::glaze, Atmosphere::oxidation, "04", 6) == "earthenware");
  CHECK(chosen(Kind::glaze, Atmosphere::oxidation, "6", 6) == "mid-range");
  CHECK(chosen(Kind::glaze, Atmosphere::oxidation, "9", 6) == "stoneware-oxidation");
  CHECK(chosen(Kind::glaze, Atmosphere::reduction, "10", 6) == "stoneware-reduction");
  CHECK(chosen(Kind::glaze, Atmosphere::oxidation, "018", 6) == "overglaze");
  Wish wish;
  wish.atmosphere = Atmosphere::reduction;
  wish.target.end = Temperature{1295};
  CHECK(choose_profile(library().profiles, wish, {}).name == "stoneware-reduction");
  CHECK_THROWS_AS(choose_profile({}, wish, {}), std::invalid_argument);
}

TEST_CASE("how long a segment takes", "[schedule]") {
  Segment s;
  s.target = {600};
  s.rate = {100};
  s.hold = Hours{0.5};
  CHECK(duration({100}, s).count() == Approx(5.5));
  CHECK(duration({1100}, s).count() == Approx(5.5));
  s.rate = {0};
  CHECK_THROWS_AS(duration({20}, s), std::invalid_argument);
}

TEST_CASE("safety figures", "[safety]") {
  CHECK(kCarbonMonoxide.osha_8h == 50);
  CHECK(kCarbonMonoxide.niosh_8h == 35);
  CHECK(kCarbonMonoxide.niosh_never_over == 200);
  CHECK(kCarbonMonoxide.dangerous_at_once == 1200);
  CHECK(kCarbonMonoxide.uk_8h == 20);
  CHECK(kSilica.osha_ug_m3 == 50);  // 29 CFR 1910.1053
  CHECK(kSilica.osha_action_ug_m3 == 25);
  CHECK(kSilica.uk_mg_m3 == 0.1);                                   // EH40
  CHECK(carbon_monoxide_mg_m3(200) == Approx(229).epsilon(0.005));  // NIOSH prints 229
  CHECK(dilution_air(0.1, 20) == Approx(5000));
  CHECK(dilution_air(0.1, 35) == Approx(2857).epsilon(0.001));
  // Opening: common practice, no source
  CHECK(opening_advice({250})->severity == Severity::mistake);
  CHECK(opening_advice({90})->severity == Severity::look);
  CHECK(opening_advice({61}));
  CHECK_FALSE(opening_advice({60}));
  CHECK(eye_filter({1063}) == "4-3");  // EN 171 scale, from memory
  CHECK(eye_filter({1222}) == "4-4");
  CHECK(eye_filter({1295}) == "4-5");
}

TEST_CASE("a reduction wish that comes to nothing is refused, or told", "[schedule]") {
  Wish wish;
  wish.target.end = std::string{"6"};
  wish.atmosphere = Atmosphere::reduction;
  wish.reduction_from = Temperature{1250};  // cone 6 is over before
  const Built late = schedule_from(profile("stoneware-reduction"), wish, {}, library().cones);
  CHECK(told(late, "reduction", Severity::mistake));
  CHECK(late.schedule.segments.empty());
  wish.atmosphere = Atmosphere::oxidation;
  wish.reduction_from = Temperature{900};
  CHECK(told(schedule_from(profile("mid-range"), wish, {}, library().cones), "reduction",
             Severity::look));
}

TEST_CASE("1222 °C: cone 6 at 60 °C/h today, printed for 150 °C/h once", "[schedule]") {
  Wish wish;
  wish.target.end = Temperature{1222};
  const Built built = schedule_from(profile("mid-range"), wish, {}, library().cones);
  const std::string all = [&] {
    std::string text;
    for (const std::string& remark : built.schedule.remarks) text += remark + "\n";
    return text;
  }();
  CHECK(has(all,
            "1222 °C (2232 °F) is cone 6 at 60 °C/h (108 °F/h) today, and was printed for "
            "150 °C/h (270 °F/h) once"));
}

}  // namespace placer::firing
