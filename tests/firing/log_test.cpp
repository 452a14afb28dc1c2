#include "placer/firing/log.h"

#include <fmt/core.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "library.h"
#include "made_log.h"
#include "placer/base/random.h"

namespace placer::firing {
namespace {

bool told(const std::vector<Finding>& findings, const std::string& code, int line = -1) {
  return std::any_of(findings.begin(), findings.end(), [&](const Finding& f) {
    return f.code == code && (line < 0 || f.where.line == line);
  });
}

bool says(const std::vector<std::string>& words, const std::string& part) {
  return std::any_of(words.begin(), words.end(),
                     [&](const std::string& line) { return line.find(part) != std::string::npos; });
}

Judged judged(const std::string& text, const LogQuestion& question = {}) {
  return judge_log(read_log(text, "made.csv"), library().cones, question);
}

Forecast planned(const std::string& name, const std::string& cone_name) {
  return forecast(schedule_for(name, cone_name).schedule, library().cones, std::nullopt, {});
}

}  // namespace

TEST_CASE("the same firing is read alike however it is written down", "[log]") {
  using Time = LogStyle::Time;
  for (const Time time :
       {Time::hours, Time::minutes, Time::seconds, Time::elapsed, Time::clock, Time::dated}) {
    for (const char separator : {',', ';', '\t'}) {
      for (int bits = 0; bits < 16; ++bits) {
        LogStyle style;
        style.time = time;
        style.separator = separator;
        style.decimal_comma = separator != ',' && (bits & 1) != 0;
        style.fahrenheit = (bits & 2) != 0;
        style.heading = (bits & 4) != 0 || style.fahrenheit;
        style.bom = (bits & 8) != 0;
        LogOptions options;
        options.zone = "Europe/Berlin";
        const FiringLog log = read_log(made_log(good_firing(), style), "made.csv", options);
        CAPTURE(static_cast<int>(time), separator, bits, log.understood);
        REQUIRE_FALSE(has_mistakes(log.findings));
        REQUIRE(log.left_out == 0);
        REQUIRE(log.rows.size() == 121);
        REQUIRE(log.scale == (style.fahrenheit ? Scale::fahrenheit : Scale::celsius));
        REQUIRE(log.rows.back().hours == Approx(20).margin(0.01));
        double top = 0;
        for (const LogRow& row : log.rows) {
          REQUIRE(row.celsius == Approx(at_hour(good_firing(), row.hours)).margin(1.2));
          top = std::max(top, row.celsius);
        }
        REQUIRE(judge_log(log, library().cones).verdict.down == "6");
      }
    }
  }
}

TEST_CASE("a good firing is judged as the cone it was", "[log]") {
  LogStyle style;
  style.every_minutes = 1;
  LogQuestion question;
  question.cone = "6";
  const Judged j = judged(made_log(good_firing(), style), question);
  CHECK(j.verdict.down == "6");
  CHECK(j.verdict.final_rate.kelvin_per_hour == Approx(60).margin(1));
  CHECK(j.verdict.top.celsius == Approx(1222).margin(1));
  CHECK(j.finished);
  CHECK(j.stalls.empty());
  CHECK_FALSE(j.outlook);
  CHECK_FALSE(told(j.findings, "hot"));
  CHECK_FALSE(told(j.findings, "cool"));
  CHECK(says(j.words, "cone 6 down"));
  CHECK(says(j.words, "1222 °C (2232 °F)"));
  CHECK(says(j.words, "Trust your witness cones"));
}

TEST_CASE("a sensor's noise does not change the cone", "[log]") {
  const double every = GENERATE(0.2, 1.0, 3.0);
  History h = good_firing();
  h[4] = {Hours{7.6 + 102.0 / 60}, {1224}};
  std::string text = "time (h),temperature C\n";
  Random random{11};
  for (double hours = 0; hours <= 20; hours += every / 60) {
    text += fmt::format("{:.5f},{:.2f}\n", hours, at_hour(h, hours) + random.uniform(-1, 1));
  }
  const Judged j = judged(text);
  CHECK(j.verdict.down == "6");
  CHECK(j.verdict.final_rate.kelvin_per_hour == Approx(60).epsilon(0.06));  // 1 °C of a cone
  CHECK(j.verdict.same_as_plain_ramp_to.celsius == Approx(1224).margin(3));
}

TEST_CASE("a stalled firing shows where and for how long", "[log]") {
  History h{{Hours{0}, {20}},    {Hours{8}, {1060}},    {Hours{9.5}, {1066}},
            {Hours{11}, {1150}}, {Hours{12.5}, {1222}}, {Hours{16}, {700}}};
  const Judged j = judged(made_log(h));
  REQUIRE(j.stalls.size() == 1);
  CHECK(j.stalls[0].at.celsius == Approx(1060).margin(8));
  CHECK((j.stalls[0].to - j.stalls[0].from).count() == Approx(1.5).margin(0.4));
  CHECK(told(j.findings, "stall"));
  CHECK(says(j.words, "tood nearly still"));
}

TEST_CASE("a stall is told once, with what was noted then", "[log]") {
  std::string text = "time,temp C,note\n";
  History h{{Hours{0}, {20}},
            {Hours{7}, {860}},
            {Hours{9}, {864}},
            {Hours{13}, {1214}},
            {Hours{15}, {900}}};
  for (int m = 0; m <= 900; m += 5) {
    text += fmt::format("{}:{:02},{:.0f},{}\n", m / 60, m % 60, at_hour(h, m / 60.0),
                        m == 500 ? "relay changed" : "");
  }
  const Judged j = judged(text);
  REQUIRE(j.stalls.size() == 1);
  CHECK(says(j.words, "noted then: 'relay changed'"));
  CHECK_FALSE(says(j.words, "Held at about"));
}

TEST_CASE("a firing that is early is told to slow down, to the cone's own temperature", "[log]") {
  const Forecast plan = planned("mid-range", "6");
  LogQuestion question;
  question.cone = "6";
  question.plan = &plan;
  History h{{Hours{0}, {20}}, {Hours{1}, {120}}, {Hours{4.2}, {600}}, {Hours{7.6}, {1160}}};
  const Judged j = judged(made_log(h, {.every_minutes = 5}), question);
  REQUIRE(j.outlook);
  REQUIRE(j.outlook->rate_to_be_on_time);
  const double rate = j.outlook->rate_to_be_on_time->kelvin_per_hour;
  const double last = 7.0 + 35.0 / 60;  // rows of five minutes
  CHECK(rate ==
        Approx((bends("6", rate) - at_hour(h, last)) / (plan.off.count() - last)).epsilon(0.02));
  CHECK(j.outlook->advice.find("It is early") != std::string::npos);
}

TEST_CASE("an over-fired and an under-fired log say by how much", "[log]") {
  LogQuestion question;
  question.cone = "6";
  History hot = good_firing();
  hot[4] = {Hours{7.6 + 140.0 / 60}, {1262}};
  const Judged over = judged(made_log(hot, {}), question);
  CHECK(told(over.findings, "hot"));
  CHECK(says(over.words, "over-fired") != says(over.words, "Over-fired"));
  History cool = good_firing();
  cool[4] = {Hours{7.6 + 70.0 / 60}, {1192}};
  CHECK(told(judged(made_log(cool), question).findings, "cool"));
}

TEST_CASE("°F by heading, by cell, by option, and by being too hot for °C", "[log]") {
  LogStyle style;
  style.fahrenheit = true;
  style.every_minutes = 1;
  CHECK(judged(made_log(good_firing(), style)).verdict.down == "6");
  style.heading = false;
  const FiringLog hot = read_log(made_log(good_firing(), style), "made.csv");
  CHECK(hot.scale == Scale::fahrenheit);
  CHECK(told(hot.findings, "scale"));
  const FiringLog cells = read_log("0:00,68 F\n1:00,248 F\n2:00,400 F\n", "made.csv");
  CHECK(cells.rows[1].celsius == Approx(120));
  LogOptions options;
  options.scale = Scale::fahrenheit;
  CHECK(read_log("0:00,68\n1:00,248\n", "made.csv", options).rows[1].celsius == Approx(120));
  CHECK(read_log("0:00,68\n1:00,248\n", "made.csv").rows[1].celsius == Approx(248));
}

TEST_CASE("a log that stops half way tells when the cone will be down", "[log]") {
  const Forecast plan = planned("mid-range", "6");
  LogQuestion question;
  question.cone = "6";
  question.plan = &plan;
  // On plan to 1107 °C, but only 40 °C/h since.
  History h{{Hours{0}, {20}},
            {Hours{1}, {120}},
            {Hours{4.2}, {600}},
            {Hours{7.6}, {1107}},
            {Hours{9.1}, {1167}}};
  const Judged j = judged(made_log(h, {.every_minutes = 5}), question);
  CHECK_FALSE(j.finished);
  REQUIRE(j.outlook);
  CHECK(j.outlook->rate.kelvin_per_hour == Approx(40).margin(1));
  const double needed = bends("6", 40);
  CHECK(j.outlook->needed.celsius == Approx(needed).margin(1));
  CHECK(j.outlook->left.count() == Approx((needed - 1167) / 40).margin(0.1));
  CHECK(j.outlook->band.count() > 0.15);
  CHECK(j.outlook->advice.find("cone 6 comes down") != std::string::npos);
  CHECK(j.outlook->rate_to_be_on_time);
  CHECK(j.outlook->rate_to_be_on_time->kelvin_per_hour > 100);
}

TEST_CASE("a log that creeps is told to stop and look", "[log]") {
  LogQuestion question;
  question.cone = "10";
  History h{{Hours{0}, {20}}, {Hours{9}, {1180}}, {Hours{11}, {1184}}};
  const Judged j = judged(made_log(h), question);
  REQUIRE(j.outlook);
  CHECK(j.outlook->advice.find("will not get there") != std::string::npos);
}

TEST_CASE("plan against real: how late, and in which step", "[log]") {
  const Forecast plan = planned("mid-range", "6");
  LogQuestion question;
  question.cone = "6";
  question.plan = &plan;
  // As planned up to 600 °C, then three hours slower to 1114.
  const double step = 514.0 / 150 + 3;
  History h{{Hours{0}, {20}},
            {Hours{1}, {120}},
            {Hours{4.2}, {600}},
            {Hours{4.2 + step}, {1114}},
            {Hours{4.2 + step + 100.0 / 60}, {1214}},
            {Hours{4.4 + step + 100.0 / 60}, {1214}},
            {Hours{8 + step}, {900}}};
  const Judged j = judged(made_log(h, {.every_minutes = 2}), question);
  REQUIRE(j.late);
  CHECK(j.late->count() == Approx(3).margin(0.15));
  CHECK(says(j.words, "3 h of it lost in this step") !=
        says(j.words, "2 h 59 min of it lost in this step"));
  REQUIRE(j.against.size() >= 4);
  CHECK(j.against[1].real->count() == Approx(4.2).margin(0.05));
}

TEST_CASE("holds are found with their temperature and length", "[log]") {
  History h{{Hours{0}, {20}},    {Hours{2}, {90}},       {Hours{4}, {90}},
            {Hours{10}, {1000}}, {Hours{10.75}, {1000}}, {Hours{14}, {500}}};
  const Judged j = judged(made_log(h, {.every_minutes = 2}));
  REQUIRE(j.holds.size() == 2);
  CHECK(j.holds[0].at.celsius == Approx(90).margin(2));
  CHECK((j.holds[0].to - j.holds[0].from).count() == Approx(2).margin(0.2));
  CHECK(j.holds[1].at.celsius == Approx(1000).margin(2));
  CHECK((j.holds[1].to - j.holds[1].from).count() == Approx(0.75).margin(0.1));
}

TEST_CASE("a kiln that slowly cools by itself is not held", "[log]") {
  History h{{Hours{0}, {20}},
            {Hours{10}, {1000}},
            {Hours{20}, {300}},
            {Hours{35}, {90}},
            {Hours{45}, {62}}};
  CHECK(judged(made_log(h, {.every_minutes = 5})).holds.empty());
}

TEST_CASE("clock times over midnight are counted on", "[log]") {
  LogStyle style;
  style.time = LogStyle::Time::clock;
  style.starts_at_hour = 18;
  const FiringLog log = read_log(made_log(good_firing(), style), "made.csv");
  CHECK(log.left_out == 0);
  CHECK(log.rows.back().hours == Approx(20));
}

TEST_CASE("the night on which the clocks go back is not an hour lost", "[log]") {
  const std::string dated =
      "date;temp °C\n2026-10-25 01:30;500\n2026-10-25 02:00;540\n2026-10-25 02:30;580\n"
      "2026-10-25 02:00;620\n2026-10-25 02:30;660\n2026-10-25 03:00;700\n";
  LogOptions options;
  options.zone = "Europe/Berlin";
  const FiringLog log = read_log(dated, "made.csv", options);
  CHECK(log.left_out == 0);
  CHECK(log.rows.back().hours == Approx(2.5));
  CHECK(told(log.findings, "clock"));
  REQUIRE(log.starts_at);
  // The same without dates: an hour back in the small hours.
  const FiringLog bare =
      read_log("01:30;500\n02:00;540\n02:30;580\n02:00;620\n02:30;660\n03:00;700\n", "made.csv");
  CHECK(bare.left_out == 0);
  CHECK(bare.rows.back().hours == Approx(2.5));
}

TEST_CASE("the night on which the clocks go forward is not an hour gained", "[log]") {
  const std::string dated =
      "date;temp °C\n2026-03-29 01:00;500\n2026-03-29 01:30;540\n2026-03-29 03:00;580\n"
      "2026-03-29 03:30;620\n";
  LogOptions options;
  options.zone = "Europe/Berlin";
  const FiringLog log = read_log(dated, "made.csv", options);
  CHECK(log.rows.back().hours == Approx(1.5));
}

TEST_CASE("dates in other orders, and times with their own offset", "[log]") {
  LogOptions options;
  options.zone = "UTC";
  CHECK(read_log("25.11.2026 06:30;20\n25.11.2026 08:00;120\n", "a", options).rows[1].hours ==
        Approx(1.5));
  CHECK(read_log("11/25/2026 6:30 am,20\n11/25/2026 1:00 pm,620\n", "a", options).rows[1].hours ==
        Approx(6.5));
  CHECK(read_log("2026-11-25T06:30:00Z,20\n2026-11-25T09:30:00+01:00,220\n", "a", options)
            .rows[1]
            .hours == Approx(2));
  CHECK(read_log("date,time,temp C\n2026-11-25,23:00,20\n2026-11-26,01:00,200\n", "a", options)
            .rows[1]
            .hours == Approx(2));
}

TEST_CASE("every row that can't be used is named, and the rest is used", "[log]") {
  const std::string text =
      "time,temp C,mV,note\n"
      "0:00,20,,lit\n"
      "1:00,abc,,\n"
      "nonsense,300,,\n"
      "2:00,220,,\n"
      "1:30,180,,\n"
      "3:00,320,9999,\n"
      "3:30,,,damper half in\n"
      "4:00,,600,\n"
      "4:10,2500,,\n"
      "5:00,520,,\"said, \"\"good\"\"\"\n"
      "\n"
      "6:00,620\n";
  const FiringLog log = read_log(text, "log.csv");
  CHECK(log.rows.size() == 5);
  CHECK(told(log.findings, "row", 3));
  CHECK(told(log.findings, "row", 4));
  CHECK(told(log.findings, "row", 6));
  CHECK(told(log.findings, "probe", 7));
  CHECK(told(log.findings, "row", 9));   // mV without a temperature
  CHECK(told(log.findings, "row", 10));  // an open sensor
  CHECK(log.left_out == 5);
  REQUIRE(log.notes.size() == 3);
  CHECK(log.notes[1].text == "damper half in");
  CHECK(log.rows.back().celsius == 620);
  CHECK(to_string(log.findings.front().where) == "log.csv:3");
}

TEST_CASE("a gap is named and bridged, a single spike is dropped", "[log]") {
  LogStyle style;
  std::string text = made_log(good_firing(), style);
  const std::size_t a = text.find("05:00");
  const std::size_t b = text.find("07:00");
  text.erase(a, b - a);
  const FiringLog log = read_log(text, "made.csv");
  CHECK(told(log.findings, "gap"));
  CHECK(log.breaks.size() == 1);
  std::string spiked = made_log(good_firing(), style);
  const std::size_t at = spiked.find("06:00,") + 6;
  spiked.replace(at, spiked.find('\n', at) - at, "0");
  const FiringLog clean = read_log(spiked, "made.csv");
  CHECK(clean.left_out == 1);
  CHECK(clean.rows.size() == 120);
}

TEST_CASE("a step that no kiln makes is told as a jump", "[log]") {
  const FiringLog log =
      read_log("0:00,20\n1:00,120\n2:00,220\n2:10,700\n3:10,800\n4:10,900\n", "made.csv");
  CHECK_FALSE(told(log.findings, "gap"));
  const FiringLog jump = read_log("0:00,20\n0:10,40\n0:20,60\n0:21,700\n0:31,720\n0:41,740\n", "a");
  CHECK(told(jump.findings, "jump"));
}

TEST_CASE("reduction is read from the probe, with temperature and strength", "[log]") {
  std::string text = "time;temperature;mV\n";
  for (int minute = 0; minute <= 600; minute += 5) {
    const double c = 20 + 2.1 * minute;
    double mv = c > 650 ? 30 : 0;
    if (c >= 900 && c <= 1000) {
      mv = millivolts_for(3, {c});
    } else if (c > 1000) {
      mv = millivolts_for(1, {c});
    }
    text += fmt::format("{}:{:02};{:.0f};{:.0f}\n", minute / 60, minute % 60, c, mv);
  }
  const Judged j = judged(text);
  REQUIRE(j.reduction.size() == 1);
  CHECK(j.reduction[0].begins.celsius == Approx(900).margin(15));
  CHECK(j.reduction[0].carbon_monoxide > 1);
  CHECK(j.reduction[0].carbon_monoxide < 3);
  CHECK(says(j.words, "eduction: "));
  CHECK_FALSE(told(j.findings, "reduction"));
  // Read at 700 °C it is warned of.
  std::string cold = "time;temperature;mV\n";
  for (int minute = 0; minute <= 60; minute += 5) {
    cold += fmt::format("{}:{:02};{};{:.0f}\n", minute / 60, minute % 60, 690 + minute,
                        millivolts_for(3, {690.0 + minute}));
  }
  CHECK(told(judged(cold).findings, "reduction"));
}

TEST_CASE("a text that is no log has a mistake, not a crash", "[log]") {
  for (const char* text : {"", "\n\n", "hello", "time,temp\n", "1,2", ";;;;\n;;;;", "\xEF\xBB\xBF",
                           "time,temp\n0:00,20\n", "\"", "0:00,nan\n1:00,inf\n"}) {
    CAPTURE(text);
    CHECK(has_mistakes(read_log(text, "x.csv").findings));
  }
  CHECK_THROWS_AS(judge_log(FiringLog{}, library().cones), std::invalid_argument);
}

TEST_CASE("rubbish of any kind is survived", "[log]") {
  const unsigned seed = GENERATE(range(0U, 60U));
  CAPTURE(seed);
  Random random{seed};
  const std::string letters = "0123456789.,;:\t\n\r\"'-+eEhU FCmV/T#\xC3\xB0\xFF\xFE";
  std::string text = seed % 7 == 0 ? "\xFF\xFE" : seed % 5 == 0 ? "time;temp\n" : "";
  for (int i = 0; i < 2000; ++i) {
    text += letters[random.below(letters.size())];
  }
  const FiringLog log = read_log(text, "x.csv");
  if (log.rows.size() >= 2) {
    CHECK_FALSE(judge_log(log, library().cones).words.empty());
  }
}

TEST_CASE("an unknown zone is a mistake in words", "[log]") {
  LogOptions options;
  options.zone = "Nowhere/Land";
  const FiringLog log = read_log("2026-11-25 06:30,20\n2026-11-25 07:30,120\n", "x.csv", options);
  CHECK(told(log.findings, "zone"));
}

TEST_CASE("a door opened at 250 °C is told off, a spy hole or a cool kiln is not", "[log]") {
  const std::string text =
      "time,temp C,note\n0:00,20,\n5:00,600,\n9:00,1100,\n10:00,1222,spy hole open\n"
      "14:00,600,damper opened\n20:00,250,lid opened a crack\n30:00,55,opened\n";
  const Judged j = judged(text);
  CHECK(std::count_if(j.findings.begin(), j.findings.end(),
                      [](const Finding& f) { return f.code == "opening"; }) == 1);
  CHECK(says(j.words, "do not open at 250 °C (482 °F)"));
}

}  // namespace placer::firing
