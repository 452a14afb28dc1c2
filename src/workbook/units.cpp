#include <fmt/format.h>

#include <cmath>

#include "workbook/measure.h"

namespace placer::workbook {
namespace {

constexpr double kInch = 25.4;
constexpr double kPound = 0.45359237;
constexpr double kBtuPerHour = 0.00029307107;  // in kW

}  // namespace

const std::vector<Unit>& all_units() {
  static const std::vector<Unit> units = {
      {"mm", Measure::length, 1, 0},
      {"cm", Measure::length, 10, 0},
      {"m", Measure::length, 1000, 0},
      {"in", Measure::length, kInch, 0},
      {"inch", Measure::length, kInch, 0},
      {"inches", Measure::length, kInch, 0},
      {"\"", Measure::length, kInch, 0},
      {"″", Measure::length, kInch, 0},
      {"ft", Measure::length, 12 * kInch, 0},
      {"foot", Measure::length, 12 * kInch, 0},
      {"feet", Measure::length, 12 * kInch, 0},
      {"'", Measure::length, 12 * kInch, 0},
      {"′", Measure::length, 12 * kInch, 0},
      {"kg", Measure::mass, 1, 0},
      {"g", Measure::mass, 0.001, 0},
      {"lb", Measure::mass, kPound, 0},
      {"lbs", Measure::mass, kPound, 0},
      {"oz", Measure::mass, kPound / 16, 0},
      {"c", Measure::temperature, 1, 0},
      {"f", Measure::temperature, 5. / 9, -160. / 9},
      {"h", Measure::duration, 1, 0},
      {"hour", Measure::duration, 1, 0},
      {"hours", Measure::duration, 1, 0},
      {"min", Measure::duration, 1. / 60, 0},
      {"minute", Measure::duration, 1. / 60, 0},
      {"minutes", Measure::duration, 1. / 60, 0},
      {"kw", Measure::power, 1, 0},
      {"w", Measure::power, 0.001, 0},
      {"btu/h", Measure::power, kBtuPerHour, 0},
      {"c/h", Measure::rate, 1, 0},
      {"k/h", Measure::rate, 1, 0},
      {"f/h", Measure::rate, 5. / 9, 0},
      {"c/min", Measure::rate, 60, 0},
  };
  return units;
}

std::string_view in_words(Measure measure) {
  switch (measure) {
    case Measure::length:
      return "a length";
    case Measure::mass:
      return "a weight";
    case Measure::temperature:
      return "a temperature";
    case Measure::duration:
      return "a time";
    case Measure::power:
      return "a power";
    case Measure::rate:
      return "a heating rate";
  }
  return "";
}

std::string_view example_of(Measure measure) {
  switch (measure) {
    case Measure::length:
      return "105 mm or 4 1/8 in";
    case Measure::mass:
      return "350 g or 12 oz";
    case Measure::temperature:
      return "1220 C or 2228 F";
    case Measure::duration:
      return "30 min or 6 h 30";
    case Measure::power:
      return "7.5 kW";
    case Measure::rate:
      return "100 C/h";
  }
  return "";
}

std::string_view units_in_words(Measure measure) {
  switch (measure) {
    case Measure::length:
      return "mm, cm, m, in or ft";
    case Measure::mass:
      return "kg, g, lb or oz";
    case Measure::temperature:
      return "C or F";
    case Measure::duration:
      return "h or min";
    case Measure::power:
      return "kW, W or Btu/h";
    case Measure::rate:
      return "C/h or F/h";
  }
  return "";
}

std::string understood(double value, Measure measure, const UsualUnits& units) {
  switch (measure) {
    case Measure::length:
      return units.inches()
                 ? fmt::format("{} mm ({} in)", plain_number(value), plain_number(value / kInch))
                 : plain_number(value) + " mm";
    case Measure::mass:
      return value < 1 ? plain_number(value * 1000) + " g" : plain_number(value) + " kg";
    case Measure::temperature:
      return fmt::format("{:.0f} °C ({:.0f} °F)", value, value * 1.8 + 32);
    case Measure::duration: {
      const auto minutes = static_cast<long long>(std::llround(value * 60));
      if (minutes < 60) return fmt::format("{} min", minutes);
      return minutes % 60 == 0 ? fmt::format("{} h", minutes / 60)
                               : fmt::format("{} h {:02} min", minutes / 60, minutes % 60);
    }
    case Measure::power:
      return plain_number(value) + " kW";
    case Measure::rate:
      return fmt::format("{:.0f} °C/h ({:.0f} °F/h)", value, value * 1.8);
  }
  return "";
}

}  // namespace placer::workbook
