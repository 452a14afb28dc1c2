// One firing written down in the ways that loggers, spreadsheets and hands do it, and texts that
// are no logs. The firing is good_firing(): cone 6 at 60 °C/h, 20 h in all.
#include <fmt/core.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>

#include "library.h"
#include "made_log.h"
#include "placer/firing/clock.h"
#include "placer/firing/log.h"

namespace placer::firing {
namespace {

bool told(const FiringLog& log, const std::string& code) {
  return std::any_of(log.findings.begin(), log.findings.end(),
                     [&](const Finding& f) { return f.code == code; });
}

std::string all_of(const std::vector<Finding>& findings) {
  std::string all;
  for (const Finding& f : findings) {
    all += f.message + "\n";
  }
  return all;
}

/// Rows of good_firing(), each made from its minutes since the start and its °C.
std::string rows(int every, const std::function<std::string(int minutes, double celsius)>& row) {
  std::string text;
  for (int minutes = 0; minutes <= 20 * 60; minutes += every) {
    text += row(minutes, at_hour(good_firing(), minutes / 60.0)) + "\n";
  }
  return text;
}

std::string clock(int minutes, const char* form = "{:02}:{:02}") {
  return fmt::format(fmt::runtime(form), minutes / 60 % 24, minutes % 60);
}

/// The date of a firing that starts on 5 November 2026, by its minutes.
int day(int minutes) { return 5 + minutes / 1440; }

const FiringLog& understood(const FiringLog& log) {
  CAPTURE(log.understood, all_of(log.findings));
  CHECK_FALSE(has_mistakes(log.findings));
  CHECK(log.left_out == 0);
  REQUIRE(log.rows.size() >= 100);
  CHECK(log.rows.back().hours == Approx(20).margin(0.02));
  const auto top =
      std::max_element(log.rows.begin(), log.rows.end(),
                       [](const LogRow& a, const LogRow& b) { return a.celsius < b.celsius; });
  CHECK(top->celsius == Approx(1222).margin(6));
  CHECK(judge_log(log, library().cones).verdict.down == "6");
  return log;
}

FiringLog read(const std::string& text, const std::string& zone = "Europe/Berlin") {
  LogOptions options;
  options.zone = zone;
  return read_log(text, "log.csv", options);
}

std::string two_bytes(const std::string& ascii) {
  std::string out = "\xFF\xFE";
  for (const char c : ascii) {
    out += c;
    out += '\0';
  }
  return out;
}

}  // namespace

TEST_CASE("a logger's own words before the heading, and comments between the rows", "[log]") {
  const std::string text =
      "Device: kiln logger\nSerial;0012345\nInterval (s);600\n\n"
      "Date;Time;Ch1 (°C);Ch2 (°C)\n" +
      rows(10, [](int m, double c) {
        return fmt::format("{}{:02}.11.2026;{};{:.1f};{:.1f}", m == 600 ? "# cones seen\n" : "",
                           day(m), clock(m, "{:02}:{:02}:00"), c, c - 9);
      });
  const FiringLog log = read(text);
  CHECK(understood(log).understood.find("the first of 2 temperatures") != std::string::npos);
}

TEST_CASE("the heading as a comment, and units in it", "[log]") {
  understood(read("# elapsed (min), kiln temperature [°C]\n" +
                  rows(10, [](int m, double c) { return fmt::format("{},{:.1f}", m, c); })));
}

TEST_CASE("seconds, milliseconds and days since the start, told or not", "[log]") {
  const auto numbers = [](const char* heading, double per_minute, int digits) {
    return heading + rows(10, [&](int m, double c) {
             return fmt::format("{:.{}f};{:.1f}", m * per_minute, digits, c);
           });
  };
  understood(read(numbers("seconds;actual\n", 60, 0)));
  understood(read(numbers("t (s);T (°C)\n", 60, 0)));
  understood(read(numbers("ms;temp\n", 60000, 0)));
  CHECK(understood(read(numbers("", 60000, 0))).understood.find("milliseconds") !=
        std::string::npos);
  understood(read(numbers("time [d];temp\n", 1.0 / 1440, 6)));
  understood(read(numbers("", 1.0 / 1440, 6)));
  // A spreadsheet's day number, and seconds or milliseconds since 1970.
  understood(read(rows(
      10, [](int m, double c) { return fmt::format("{:.6f};{:.1f}", 46331.25 + m / 1440.0, c); })));
  understood(read(rows(
      10, [](int m, double c) { return fmt::format("{};{:.1f}", 1793858400LL + m * 60, c); })));
  understood(read(rows(10, [](int m, double c) {
    return fmt::format("{},{:.1f}", (1793858400LL + m * 60) * 1000, c);
  })));
}

TEST_CASE("instants with their zone, to the millisecond, or with a word for it", "[log]") {
  const auto dated = [](const char* behind) {
    return rows(10, [&](int m, double c) {
      return fmt::format("2026-11-{:02}T{}{},{:.1f}", day(m), clock(m, "{:02}:{:02}:00"), behind,
                         c);
    });
  };
  for (const char* behind : {"", "Z", ".000Z", "+01:00", "+0100", "-05", " UTC", " CET"}) {
    CAPTURE(behind);
    understood(read("timestamp,temperature_c\n" + dated(behind)));
  }
}

TEST_CASE("dates with a name for the month, and with the month first", "[log]") {
  understood(read(rows(10, [](int m, double c) {
    return fmt::format("{:02}-Nov-2026 {},{:.0f}", day(m), clock(m), c);
  })));
  // 11/05 and 11/06: read day first they would lie a month apart.
  const FiringLog log = read("Date,Time,Temp F\n" + rows(10, [](int m, double c) {
                               return fmt::format("11/{:02}/2026,{},{:.0f}", day(m + 400),
                                                  clock(m + 400), c * 1.8 + 32);
                             }));
  CHECK(told(understood(log), "date"));
  understood(read("Date,Time,Temp F\n" + rows(10, [](int m, double c) {
                    const int hour = m / 60 % 24;
                    return fmt::format("11/{:02}/2026,{}:{:02} {},{:.0f}", 20 + m / 1440,
                                       hour % 12 == 0 ? 12 : hour % 12, m % 60,
                                       hour < 12 ? "AM" : "PM", c * 1.8 + 32);
                  })));
}

TEST_CASE("clocks without a colon, with other marks, and of twelve hours", "[log]") {
  const auto from_half_past_six = [](const char* form) {
    return rows(10,
                [=](int m, double c) { return fmt::format("{};{:.0f}", clock(m + 390, form), c); });
  };
  understood(read(from_half_past_six("{:02}{:02}")));
  understood(read("Uhrzeit;Grad\n" + from_half_past_six("{}.{:02} Uhr")));
  understood(read(from_half_past_six("{}h{:02}")));
  const FiringLog dial =
      read("time;temp\n" + rows(10, [](int m, double c) {
             const int hour = (m + 390) / 60 % 12;
             return fmt::format("{}:{:02};{:.0f}", hour == 0 ? 12 : hour, (m + 390) % 60, c);
           }));
  CHECK(told(understood(dial), "clock"));
}

TEST_CASE("tabs, blanks, quoted decimals, thousands marked off, two-byte letters", "[log]") {
  understood(read("time\ttemp\n" + rows(10, [](int m, double c) {
                    return fmt::format("{}\t{:.0f} °C", clock(m), c);
                  })));
  understood(
      read(rows(10, [](int m, double c) { return fmt::format("{}   {:.0f}", clock(m), c); })));
  understood(read("\"time\",\"temp °C\"\n" + rows(10, [](int m, double c) {
                    std::string number = fmt::format("{:.1f}", c);
                    std::replace(number.begin(), number.end(), '.', ',');
                    return fmt::format("\"{}\",\"{}\"", clock(m), number);
                  })));
  const auto thousands = [](double c, char mark, char decimal) {
    const int tenths = static_cast<int>(std::lround(c * 10));
    return tenths >= 10000 ? fmt::format("{}{}{:03}{}{}", tenths / 10000, mark, tenths / 10 % 1000,
                                         decimal, tenths % 10)
                           : fmt::format("{}{}{}", tenths / 10, decimal, tenths % 10);
  };
  understood(read(rows(10, [&](int m, double c) {
    return fmt::format("{},\"{}\"", clock(m), thousands(c, ',', '.'));
  })));
  understood(read(rows(10, [&](int m, double c) {
    return fmt::format("{};{}", clock(m), thousands(c, '.', ','));
  })));
  understood(read(rows(10, [&](int m, double c) {
    return fmt::format("{};{}", clock(m), thousands(c, '\'', '.'));
  })));
  understood(read(two_bytes("time\ttemp\n" + rows(10, [](int m, double c) {
                              return fmt::format("{}\t{:.1f}", clock(m), c);
                            }))));
}

TEST_CASE("kelvin, tenths of a degree, a one-byte degree sign, and a wish beside the truth",
          "[log]") {
  understood(read("min,temp (K)\n" + rows(10, [](int m, double c) {
                    return fmt::format("{},{:.1f}", m, c + 273.15);
                  })));
  const FiringLog tenths =
      read(rows(10, [](int m, double c) { return fmt::format("{};{:.0f}", clock(m), c * 10); }));
  CHECK(told(understood(tenths), "scale"));
  const FiringLog fahrenheit = read(
      "time;Temp (\xB0"
      "F)\n" +
      rows(10, [](int m, double c) { return fmt::format("{};{:.0f}", clock(m), c * 1.8 + 32); }));
  CHECK(understood(fahrenheit).scale == Scale::fahrenheit);
  understood(read("time;setpoint °C;actual °C\n" + rows(10, [](int m, double c) {
                    return fmt::format("{};{:.0f};{:.1f}", clock(m), 900 + c / 10, c);
                  })));
}

TEST_CASE("a page from a notebook: words, a title, blanks between, old line ends", "[log]") {
  const FiringLog log = read(
      "Kiln log, Tuesday\nlit 6.30\n\n6:30 20\n7:30 120 damper half\n9:00 350\n10:45 600\n"
      "12:00 780\n13:10 970 reduction on\n14:06 1122\n15:10 1185\n15:46 1222 off\n16:50 1005\n");
  CHECK_FALSE(has_mistakes(log.findings));
  CHECK(log.rows.size() == 10);
  CHECK(log.notes.size() == 3);
  CHECK(judge_log(log, library().cones).verdict.down == "6");
  std::string old = "time;temp\n" +
                    rows(10, [](int m, double c) { return fmt::format("{};{:.0f}", clock(m), c); });
  std::replace(old.begin(), old.end(), '\n', '\r');
  understood(read(old));
}

TEST_CASE("a log of millivolts alone says nothing, and is told so", "[log]") {
  const FiringLog log = read("time,mV\n0:00,12\n1:00,500\n2:00,600\n");
  CHECK(has_mistakes(log.findings));
  CHECK(all_of(log.findings).find("without a temperature say nothing") != std::string::npos);
}

TEST_CASE("the newest row first", "[log]") {
  std::string text;
  for (int m = 20 * 60; m >= 0; m -= 10) {
    text += fmt::format("2026-11-{:02} {},{:.1f}\n", day(m), clock(m),
                        at_hour(good_firing(), m / 60.0));
  }
  const FiringLog log = read("time,temp °C\n" + text);
  CHECK(told(understood(log), "order"));
}

TEST_CASE("a counter that was full and began again", "[log]") {
  // Seconds in 16 bits: full after 18.2 h. Milliseconds in 32 bits that turn negative.
  const FiringLog seconds = read("seconds,temp\n" + rows(10, [](int m, double c) {
                                   return fmt::format("{},{:.1f}", m * 60 % 65536, c);
                                 }));
  CHECK(told(understood(seconds), "time"));
  const FiringLog ticks = read("ms,temp\n" + rows(10, [](int m, double c) {
                                 const auto t = static_cast<std::int32_t>(
                                     static_cast<std::uint32_t>(2'100'000'000LL + m * 60000LL));
                                 return fmt::format("{},{:.1f}", t, c);
                               }));
  CHECK(told(understood(ticks), "time"));
}

TEST_CASE("a sensor that falls out is left out, and the rest is the firing it was", "[log]") {
  int broken = 0;
  const std::string text =
      "time,temp °C\n" + rows(5, [&](int m, double c) {
        const char* words[] = {"", "---", "OPEN", "nan", "9999", "32767", "-200", "0"};
        const bool out = m >= 300 && m < 340;
        return fmt::format("{},{}", clock(m), out ? words[broken++ % 8] : fmt::format("{:.1f}", c));
      });
  const FiringLog log = read(text);
  CHECK(log.left_out == 8);
  CHECK(judge_log(log, library().cones).verdict.down == "6");
  // A thermocouple that came loose for half an hour and read the room.
  const FiringLog loose =
      read("time,temp °C\n" + rows(5, [](int m, double c) {
             return fmt::format("{},{:.1f}", clock(m), m >= 500 && m < 530 ? 40 : c);
           }));
  CHECK(loose.left_out == 6);
  CHECK_FALSE(told(loose, "jump"));
  CHECK(judge_log(loose, library().cones).verdict.down == "6");
}

TEST_CASE("an hourly log keeps its hottest row", "[log]") {
  const FiringLog log = read(
      "0:00,20\n1:00,200\n2:00,420\n3:00,640\n4:00,860\n5:00,1060\n6:00,1150\n7:00,1222\n"
      "8:00,1140\n9:00,900\n");
  CHECK(log.left_out == 0);
  CHECK(judge_log(log, library().cones).verdict.top.celsius == Approx(1222));
}

TEST_CASE("times that no firing has are left out, and none is believed", "[log]") {
  const FiringLog far = read("time (h),temp\n0,20\n1,120\n2,220\n1e20,900\n2e6,1000\n");
  CHECK(far.rows.size() == 3);
  CHECK(far.left_out == 2);
  CHECK(all_of(far.findings).find("no firing lasts so long") != std::string::npos);
  for (const std::string& words : judge_log(far, library().cones).words) {
    CHECK(words.size() < 400);
    CHECK(words.find("000000") == std::string::npos);
  }
  // One of them in the middle does not take the rest with it.
  const FiringLog one = read("time (h),temp\n0,20\n1,120\n1e20,900\n3,320\n4,1e300\n5,520\n");
  CHECK(one.rows.size() == 4);
  CHECK(all_of(one.findings).find("1e+300 °C") != std::string::npos);
  const FiringLog never = read("time (h),temp\n1e20,20\n2e20,1200\n3e20,1100\n");
  CHECK(has_mistakes(never.findings));
  const FiringLog same = read("6:00,20\n6:00,600\n6:00,1222\n6:00,900\n");
  CHECK(has_mistakes(same.findings));
  CHECK(all_of(same.findings).find("the same time") != std::string::npos);
}

TEST_CASE("a rate that the log does not hold is not made up in silence", "[log]") {
  const FiringLog fast = read("min,temp\n0,20\n1,600\n2,1222\n3,1200\n");
  bool doubted = false;
  for (const Finding& f : judge_log(fast, library().cones).findings) {
    doubted = doubted || f.code == "rate";
  }
  CHECK(doubted);
}

TEST_CASE("what nobody can read is shown in a way that no terminal stumbles over", "[log]") {
  const FiringLog log =
      read("time,temp\n0:00,20\n\x1B[31mred\x07\xFF\xFE,99\n1:00,120\n2:00,220\n");
  CHECK(log.left_out == 1);
  const std::string said = all_of(log.findings);
  for (const char c : said) {
    CHECK((static_cast<unsigned char>(c) >= 0x20 || c == '\n'));
  }
  CHECK(said.find("·[31mred···,99") != std::string::npos);
  const FiringLog long_row = read("time,temp\n0:00,20\n1:00,120\n" + std::string(5000, 'x') + "\n");
  CHECK(all_of(long_row.findings).size() < 200);
  std::string picture(3000, '\0');
  for (std::size_t i = 0; i < picture.size(); ++i) picture[i] = static_cast<char>(i * 7);
  const FiringLog binary = read(picture);
  CHECK(has_mistakes(binary.findings));
  CHECK(all_of(binary.findings).find("this is no text") != std::string::npos);
}

}  // namespace placer::firing
