/// @file units.h
/// Strong units. Heights, masses, temperatures, times and energies never travel as bare numbers;
/// the number comes out only by naming its unit. (Plane coordinates are the one exception: they
/// are doubles in mm, see geometry/shape.h.)
#pragma once

#include <chrono>
#include <compare>
#include <ratio>

namespace placer {

using Hours = std::chrono::duration<double, std::ratio<3600>>;

/// A length, held in millimetres.
class Length {
 public:
  constexpr Length() = default;
  static constexpr Length from_mm(double v) { return Length{v}; }
  constexpr double mm() const { return mm_; }

  friend constexpr auto operator<=>(Length, Length) = default;
  friend constexpr Length operator+(Length a, Length b) { return Length{a.mm_ + b.mm_}; }
  friend constexpr Length operator-(Length a, Length b) { return Length{a.mm_ - b.mm_}; }
  friend constexpr Length operator*(double k, Length a) { return Length{k * a.mm_}; }
  constexpr Length& operator+=(Length b) { return *this = *this + b; }

 private:
  explicit constexpr Length(double mm) : mm_{mm} {}
  double mm_ = 0;
};

/// A mass, held in kilograms.
class Mass {
 public:
  constexpr Mass() = default;
  static constexpr Mass from_kg(double v) { return Mass{v}; }
  constexpr double kg() const { return kg_; }

  friend constexpr auto operator<=>(Mass, Mass) = default;
  friend constexpr Mass operator+(Mass a, Mass b) { return Mass{a.kg_ + b.kg_}; }
  friend constexpr Mass operator-(Mass a, Mass b) { return Mass{a.kg_ - b.kg_}; }
  friend constexpr Mass operator*(double k, Mass a) { return Mass{k * a.kg_}; }
  constexpr Mass& operator+=(Mass b) { return *this = *this + b; }

 private:
  explicit constexpr Mass(double kg) : kg_{kg} {}
  double kg_ = 0;
};

/// A difference of temperatures, in kelvin (1 K = 1 °C of difference).
struct Warming {
  double kelvin = 0;
  friend constexpr auto operator<=>(Warming, Warming) = default;
};

/// A point on the Celsius scale. Two of them subtract to a Warming but cannot be added.
struct Temperature {
  double celsius = 0;
  friend constexpr auto operator<=>(Temperature, Temperature) = default;
  friend constexpr Warming operator-(Temperature a, Temperature b) {
    return {a.celsius - b.celsius};
  }
  friend constexpr Temperature operator+(Temperature a, Warming d) {
    return {a.celsius + d.kelvin};
  }
};
constexpr double fahrenheit(Temperature t) { return t.celsius * 1.8 + 32; }
constexpr double absolute_kelvin(Temperature t) { return t.celsius + 273.15; }

/// A heating (> 0) or cooling (< 0) rate.
struct Ramp {
  double kelvin_per_hour = 0;
  friend constexpr auto operator<=>(Ramp, Ramp) = default;
};

constexpr Hours operator/(Warming d, Ramp r) { return Hours{d.kelvin / r.kelvin_per_hour}; }
constexpr Warming operator*(Ramp r, Hours t) { return {r.kelvin_per_hour * t.count()}; }

struct Power {
  double kw = 0;
  friend constexpr auto operator<=>(Power, Power) = default;
};
struct Energy {
  double kwh = 0;
  friend constexpr auto operator<=>(Energy, Energy) = default;
};

namespace literals {
constexpr Length operator""_mm(long double v) { return Length::from_mm(static_cast<double>(v)); }
constexpr Length operator""_mm(unsigned long long v) {
  return Length::from_mm(static_cast<double>(v));
}
constexpr Mass operator""_kg(long double v) { return Mass::from_kg(static_cast<double>(v)); }
constexpr Mass operator""_kg(unsigned long long v) {
  return Mass::from_kg(static_cast<double>(v));
}
constexpr Temperature operator""_C(unsigned long long v) { return {static_cast<double>(v)}; }
constexpr Ramp operator""_K_per_h(unsigned long long v) { return {static_cast<double>(v)}; }
}  // namespace literals

}  // namespace placer
