/// fire_bench: what simulating, calibrating and reading logs cost. Prints user time for each job
/// and how it stands to a plain loop of the same size, so that machines can be compared.
///
///   fire_bench SCHEDULES_FOLDER
#include <fmt/core.h>
#include <sys/resource.h>

#include <cmath>
#include <string>

#include "placer/base/random.h"
#include "placer/firing/builder.h"
#include "placer/firing/calibration.h"
#include "placer/firing/log.h"
#include "placer/workbook/studio.h"

namespace {

using namespace placer;
using namespace placer::firing;

double user_seconds() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_utime.tv_sec) +
         static_cast<double>(usage.ru_utime.tv_usec) * 1e-6;
}

double peak_megabytes() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024;
}

template <class Job>
double timed(Job job) {
  const double before = user_seconds();
  job();
  return user_seconds() - before;
}

/// A hundred million dependent additions: the yardstick.
double yardstick() {
  return timed([] {
    volatile double sum = 0;
    for (int i = 0; i < 100'000'000; ++i) {
      sum = sum + 1e-9;
    }
  });
}

KilnBuild kiln() {
  KilnBuild k;
  k.chamber_volume_m3 = 0.198;
  k.chamber_surface_m2 = 2.04;
  k.power = Power{12};
  k.wall = {{"insulating brick 26", Length::from_mm(115)}};
  return k;
}

HeatLoad load() {
  HeatLoad l;
  l.ware = Mass::from_kg(40);
  l.furniture = Mass::from_kg(30);
  return l;
}

Schedule schedule(const workbook::Library& library) {
  Wish wish;
  wish.profile = "bisque-normal";
  wish.kind = Kind::bisque;
  wish.target.end = std::string{"06"};
  return plan_schedule(library.profiles, wish, {}, library.cones).schedule;
}

std::string log_text(const Forecast& f, int rows) {
  Random random{1};
  std::string text = "time (s);temperature °C;mV\n";
  text.reserve(static_cast<std::size_t>(rows) * 26);
  const double end = f.curve.back().at.count();
  std::size_t at = 1;
  for (int i = 0; i < rows; ++i) {
    const double hours = end * i / (rows - 1);
    while (at + 1 < f.curve.size() && f.curve[at].at.count() < hours) {
      ++at;
    }
    const Moment& a = f.curve[at - 1];
    const Moment& b = f.curve[at];
    const double span = (b.at - a.at).count();
    const double share = span > 0 ? (hours - a.at.count()) / span : 0;
    const double c = a.kiln.celsius + share * (b.kiln - a.kiln).kelvin + random.uniform(-0.5, 0.5);
    text += fmt::format("{:.2f};{:.2f};{:.1f}\n", hours * 3600, c, c > 700 ? 560.0 : 30.0);
  }
  return text;
}

void row(const char* what, double seconds, double unit) {
  fmt::print("{:<52} {:9.2f} ms   {:7.3f} yardsticks   peak {:5.0f} MB\n", what, seconds * 1e3,
             seconds / unit, peak_megabytes());
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) {
    fmt::print("fire_bench SCHEDULES_FOLDER\n");
    return 2;
  }
  const workbook::Library library = workbook::read_library(argv[1]);
  const double unit = yardstick();
  fmt::print("yardstick: {:.0f} ms for 100,000,000 additions\n", unit * 1e3);

  row("fit of the heat-work model", timed([&] { HeatWork{library.cones}; }), unit);

  const Schedule bisque = schedule(library);
  Forecast f;
  constexpr int kTimes = 20;
  const double each = timed([&] {
                        for (int i = 0; i < kTimes; ++i) {
                          f = forecast(bisque, library.cones, kiln(), load());
                        }
                      }) /
                      kTimes;
  row(fmt::format("a {:.0f} h firing with its cooling", f.curve.back().at.count()).c_str(), each,
      unit);

  const std::string thousand = log_text(f, 1000);
  const FiringLog past = read_log(thousand, "past.csv");
  row("calibration on 1,000 rows", timed([&] { calibrate(kiln(), load(), past); }), unit);

  const std::string million = log_text(f, 1'000'000);
  fmt::print("(the million rows of text take {:.0f} MB themselves)\n",
             static_cast<double>(million.size()) / 1048576);
  Judged judged;
  row("1,000,000 rows read and judged", timed([&] {
        const FiringLog log = read_log(million, "million.csv");
        LogQuestion question;
        question.cone = "06";
        question.plan = &f;
        judged = judge_log(log, library.cones, question);
      }),
      unit);
  fmt::print("its verdict: cone {} down, {} reduction spells\n", judged.verdict.down,
             judged.reduction.size());
  return 0;
}
