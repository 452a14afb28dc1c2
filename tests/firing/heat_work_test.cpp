#include "placer/firing/heat_work.h"

#include <algorithm>
#include <boost/math/special_functions/expint.hpp>
#include <catch2/catch.hpp>
#include <cmath>

#include "library.h"

namespace placer::firing {
namespace {

const HeatWork& model() {
  static const HeatWork shipped{library().cones};
  return shipped;
}

double rms_against_table(double anchor, double rate, double* worst) {
  double sum = 0;
  int count = 0;
  *worst = 0;
  for (const Kinetics& k : model().anchored({anchor})) {
    for (const ConePoint& p : k.cone->points) {
      if (p.rate.kelvin_per_hour == rate && k.cone->points.size() == 3) {
        const double miss = HeatWork::plain_ramp_top(k, {rate}).celsius - p.bends_at.celsius;
        sum += miss * miss;
        *worst = std::max(*worst, std::abs(miss));
        ++count;
      }
    }
  }
  REQUIRE(count == 35);
  return std::sqrt(sum / count);
}

/// Minutes at `at` after a 60 °C/h climb to it until the cone is down.
double minutes_until(const std::string& name, double at, double rate = 60) {
  const Kinetics k = model().anchored(name, {rate});
  const double climbed = k.of_line({20}, {at}, Hours{(at - 20) / rate});
  return 60 * (1 - climbed) / k.per_hour({at});
}

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

}  // namespace

TEST_CASE("the exponential integral agrees with a library's", "[heat-work]") {
  const double x = GENERATE(0.6, 1.0, 3.0, 10.0, 40.0, 100.0, 300.0);
  CHECK(ln_e2(x) == Approx(std::log(boost::math::expint(2, x))).epsilon(1e-12));
  CHECK_THROWS_AS(ln_e2(0.1), std::invalid_argument);
}

TEST_CASE("the closed form of a ramp equals its sum in small steps", "[heat-work]") {
  const Kinetics k = model().anchored("6", {60});
  double sum = 0;
  constexpr int kSteps = 400000;
  for (int i = 0; i < kSteps; ++i) {
    sum += k.per_hour({400 + 822.0 * (i + 0.5) / kSteps}) * (822.0 / 60) / kSteps;
  }
  CHECK(k.of_line({400}, {1222}, Hours{822.0 / 60}) == Approx(sum).epsilon(1e-8));
}

TEST_CASE("plain ramps reproduce the table exactly at their own rate", "[heat-work]") {
  const double rate = GENERATE(15.0, 60.0, 108.0, 150.0);
  for (const Kinetics& k : model().anchored({rate})) {
    CAPTURE(k.cone->name);
    const double table = bend_temperature(*k.cone, {rate}).at.celsius;
    CHECK(HeatWork::plain_ramp_top(k, {rate}).celsius == Approx(table).margin(1e-6));
    CHECK(k.of_line({20}, {table}, Hours{(table - 20) / rate}) == Approx(1).margin(1e-4));
  }
}

TEST_CASE("anchored at 60 the smooth model misses the other columns by a few degrees",
          "[heat-work]") {
  // An independent fit by the same recipe gave 3.4 rms and 6.6 at most at 15 °C/h, 3.1 and 6.2 at
  // 150 °C/h; this one 3.5 and 6.4, 2.8 and 6.2.
  double worst = 0;
  CHECK(rms_against_table(60, 15, &worst) < 3.6);
  CHECK(worst < 6.7);
  CHECK(rms_against_table(60, 150, &worst) < 3.2);
  CHECK(worst < 6.3);
}

TEST_CASE("activation energies agree with an independent fit of the same table", "[heat-work]") {
  struct Row {
    const char* name;
    double kj;
  };
  const Row rows[] = {{"019", 413.7}, {"015", 291.9}, {"012", 584.5}, {"010", 957.8},
                      {"06", 1186.3}, {"04", 1170.6}, {"1", 772.2},   {"4", 821.8},
                      {"6", 712.3},   {"8", 707.9},   {"10", 848.4},  {"13", 1336.3}};
  for (const Row& row : rows) {
    CAPTURE(row.name);  // 0.5 %: to first order here, to the last digit there
    CHECK(model().anchored(row.name, {60}).activation * 1e-3 == Approx(row.kj).epsilon(0.006));
  }
}

TEST_CASE("cone 6 at other rates, anchored at 60", "[heat-work]") {
  // Computed by an independent fit of the same recipe.
  const Kinetics k = model().anchored("6", {60});
  const double rates[] = {15, 30, 60, 100, 150, 200};
  const double tops[] = {1187.8, 1204.7, 1222.0, 1235.0, 1245.5, 1253.0};
  for (int i = 0; i < 6; ++i) {
    CHECK(HeatWork::plain_ramp_top(k, {rates[i]}).celsius == Approx(tops[i]).margin(0.1));
  }
}

TEST_CASE("the last 100 °C of a climb at 60 °C/h do nearly all the work", "[heat-work]") {
  // The cone maker's chart says so; 0.964 (cone 014) to 0.9999 (06) in an independent fit.
  for (const Kinetics& k : model().anchored({60})) {
    const double top = bend_temperature(*k.cone, {60}).at.celsius;
    const double before = k.of_line({20}, {top - 100}, Hours{(top - 120) / 60});
    CAPTURE(k.cone->name, before);
    CHECK(before < 0.04);
  }
}

TEST_CASE("an e-fold of heat-work is 9 to 36 °C, as wide as a cone's bending", "[heat-work]") {
  // Bending takes under 22 °C (40 °F) and 15 to 25 min (the maker's chart, quoted in
  // community.ceramicartsdaily.org user 13967).
  for (const Kinetics& k : model().anchored({60})) {
    const double e_fold = k.e_fold(bend_temperature(*k.cone, {60}).at).kelvin;
    CAPTURE(k.cone->name, e_fold);
    CHECK(e_fold > 9);
    CHECK(e_fold < 36);
  }
}

TEST_CASE("a soak at a cone's own temperature brings the next one down in about an hour",
          "[heat-work]") {
  // The maker's rule, from memory: 1 to 2 h for the next cone, 4 to 6 h for the one after. The
  // model is about twice as quick at the median, and 4 : 1 between the two as in the rule.
  std::vector<double> next;
  std::vector<double> after;
  const std::vector<Kinetics> all = model().anchored({60});
  std::vector<std::string> whole;
  for (const Kinetics& k : all) {
    if (k.cone->name.find('.') == std::string::npos) {
      whole.push_back(k.cone->name);
    }
  }
  for (std::size_t i = 0; i + 1 < whole.size(); ++i) {
    next.push_back(minutes_until(whole[i + 1], bends(whole[i], 60)));
    if (i + 2 < whole.size()) {
      after.push_back(minutes_until(whole[i + 2], bends(whole[i], 60)));
    }
  }
  CHECK(median(next) > 30);
  CHECK(median(next) < 70);
  CHECK(median(after) > 150);
  CHECK(median(after) < 300);
  CHECK(std::count_if(next.begin(), next.end(), [](double m) { return m <= 120; }) >= 28);
}

TEST_CASE("potters' soaks that the model reproduces", "[heat-work]") {
  // potters.org subject 11957: 982 °C and 30 min drops 06 in a full electric bisque.
  CHECK(minutes_until("06", 982) == Approx(34.5).margin(3));
  // potters.org subject 29738: cone 10 and 30 min, cone 11 flat (11 to 16 min by the model).
  const double eleven = minutes_until("11", bends("10", 60));
  CHECK(eleven > 8);
  CHECK(eleven < 30);
}

TEST_CASE("potters' soaks that got more cone than the model says, never less", "[heat-work]") {
  struct Report {
    const char* cone;
    double at, rate, minutes;
    const char* source;
  };
  const Report reports[] = {
      {"6", 1162, 60, 75, "community.ceramicartsdaily.org topic 5036"},
      {"6", 1196, 83, 15, "community.ceramicartsdaily.org user 26604"},
      {"7", 1204, 60, 20, "community.ceramicartsdaily.org topic 5036"},
      {"6", 1188, 60, 20, "nickandmiri.wordpress.com 2009/06/30"},
      {"5.5", 1164, 83, 15, "community.ceramicartsdaily.org user 26604"},
      {"6", 1193, 60, 15, "community.ceramicartsdaily.org topic 23526"},
  };
  for (const Report& r : reports) {
    CAPTURE(r.cone, r.at, r.source);
    CHECK(minutes_until(r.cone, r.at, r.rate) > r.minutes);
  }
  // vcpg.org item 1332385: cone 6 nearly down at 1174 °C on a very slow climb.
  const Kinetics k = model().anchored("6", {15});
  CHECK(HeatWork::plain_ramp_top(k, {15}).celsius - 1174 == Approx(11).margin(2));
}

TEST_CASE("a plain climb to a cone's temperature is judged as that cone", "[heat-work]") {
  for (const char* name : {"018", "06", "04", "6", "10", "12"}) {
    for (const double rate : {15.0, 60.0, 100.0, 150.0}) {
      CAPTURE(name, rate);
      const Verdict v = model().judge(ramp(bends(name, rate), rate));
      CHECK(v.down == name);
      CHECK(v.final_rate.kelvin_per_hour == Approx(rate).epsilon(1e-6));
      CHECK(v.same_as_plain_ramp_to.celsius == Approx(bends(name, rate)).margin(0.05));
      CHECK(v.band_below.kelvin >= 7);
      CHECK(v.within_band.front() == name);
      for (const ConeState& c : v.cones) {
        CHECK(c.after_top == 0);
      }
    }
  }
}

TEST_CASE("a 30-minute soak adds heat-work, with a wider band and its share told", "[heat-work]") {
  const Verdict plain = model().judge(ramp(1222, 60));
  const Verdict soaked = model().judge(ramp(1222, 60, 0.5));
  CHECK(soaked.same_as_plain_ramp_to.celsius > plain.same_as_plain_ramp_to.celsius + 10);
  CHECK(soaked.same_as_plain_ramp_to.celsius < plain.same_as_plain_ramp_to.celsius + 35);
  CHECK(soaked.band_below.kelvin > 12);
  CHECK(soaked.band_above.kelvin > soaked.band_below.kelvin);
  CHECK(soaked.final_rate.kelvin_per_hour == Approx(60).epsilon(1e-6));
  for (const ConeState& c : soaked.cones) {
    if (c.name == "6") {
      CHECK(c.standing == ConeStanding::down);
      CHECK(c.after_top > 0.4 * c.heat_work);
    }
  }
  CHECK(in_words(soaked).find("Trust your witness cones") != std::string::npos);
}

TEST_CASE("the usual fall with the heat off is not counted, slow cooling is", "[heat-work]") {
  History quick = ramp(1222, 60);
  quick.push_back({quick.back().at + Hours{2}, {742}});  // 240 °C/h
  History slow = ramp(1222, 60);
  slow.push_back({slow.back().at + Hours{10}, {742}});  // 48 °C/h
  const double plain = model().judge(ramp(1222, 60)).same_as_plain_ramp_to.celsius;
  CHECK(model().judge(quick).same_as_plain_ramp_to.celsius == Approx(plain).margin(0.5));
  CHECK(model().judge(slow).same_as_plain_ramp_to.celsius > plain + 8);
}

TEST_CASE("ten hours at 1000 °C hardly touch cone 6", "[heat-work]") {
  // 0.1 percent in an independent fit
  const Kinetics k = model().anchored("6", {60});
  CHECK(k.of_line({1000}, {1000}, Hours{10}) < 0.002);
}

TEST_CASE("the rate over the last 100 °C does not count holds on the way", "[heat-work]") {
  History h{{Hours{0}, {20}}, {Hours{5}, {1150}}, {Hours{7}, {1150}}, {Hours{8.2}, {1222}}};
  CHECK(find_top(h).final_rate.kelvin_per_hour == Approx(60).margin(0.5));
  CHECK(find_top(h).at.count() == Approx(8.2));
}

TEST_CASE("bins of time at temperature lose nothing that matters", "[heat-work]") {
  const Kinetics k = model().anchored("05", {60});  // the narrowest e-fold, 11 °C
  TimeAtTemperature time;
  time.add({20}, {1031}, Hours{1011.0 / 60});
  time.add({1031}, {1031}, Hours{0.3});
  double sum = 0;
  double hours = 0;
  for (std::size_t i = 0; i < time.hours().size(); ++i) {
    sum += time.hours()[i] * k.per_hour(TimeAtTemperature::middle(i));
    hours += time.hours()[i];
  }
  const double exact = k.of_line({20}, {1031}, Hours{1011.0 / 60}) + 0.3 * k.per_hour({1031});
  CHECK(sum == Approx(exact).epsilon(0.012));
  CHECK(hours == Approx(731.0 / 60 + 0.3).epsilon(1e-9));
}

TEST_CASE("large and iron-free cones are judged by their own tables", "[heat-work]") {
  const ConeKind kind = GENERATE(ConeKind::large, ConeKind::self_supporting_iron_free,
                                 ConeKind::large_iron_free, ConeKind::small);
  const HeatWork own{library().cones, kind};
  const double rate = kind == ConeKind::small ? 300 : 60;
  for (const Kinetics& k : own.anchored({rate})) {
    CAPTURE(k.cone->name, to_string(kind));
    CHECK(HeatWork::plain_ramp_top(k, {rate}).celsius ==
          Approx(bend_temperature(*k.cone, {rate}).at.celsius).margin(1e-6));
  }
}

TEST_CASE("a history that is none is refused", "[heat-work]") {
  CHECK_THROWS_AS(model().judge({}), std::invalid_argument);
  CHECK_THROWS_AS(model().judge({{Hours{1}, {20}}, {Hours{0}, {900}}}), std::invalid_argument);
  CHECK_THROWS_AS(HeatWork{ConeTable{}}, std::invalid_argument);
}

}  // namespace placer::firing
