#include "placer/base/units.h"

#include <catch2/catch.hpp>
#include <string>
#include <type_traits>

#include "placer/base/error.h"

namespace placer {
namespace {

using namespace literals;

template <class A, class B>
concept Addable = requires(A a, B b) {
  a + b;
};
template <class A, class B>
concept Subtractable = requires(A a, B b) {
  a - b;
};
template <class A, class B>
concept Multipliable = requires(A a, B b) {
  a* b;
};
template <class A, class B>
concept Dividable = requires(A a, B b) {
  a / b;
};
template <class A, class B>
concept Comparable = requires(A a, B b) {
  a < b;
};

TEST_CASE("units: sums that make no sense do not compile", "[units][must-not-compile]") {
  STATIC_REQUIRE_FALSE(Addable<Temperature, Temperature>);
  STATIC_REQUIRE_FALSE(Addable<Length, Mass>);
  STATIC_REQUIRE_FALSE(Addable<Length, double>);
  STATIC_REQUIRE_FALSE(Addable<Length, Temperature>);
  STATIC_REQUIRE_FALSE(Addable<Ramp, Ramp>);
  STATIC_REQUIRE_FALSE(Addable<Temperature, Ramp>);
  STATIC_REQUIRE_FALSE(Subtractable<Mass, double>);
  STATIC_REQUIRE_FALSE(Subtractable<Temperature, Ramp>);
}

TEST_CASE("units: products that make no sense do not compile", "[units][must-not-compile]") {
  STATIC_REQUIRE_FALSE(Multipliable<Length, Length>);
  STATIC_REQUIRE_FALSE(Multipliable<Temperature, double>);
  STATIC_REQUIRE_FALSE(Multipliable<double, Temperature>);
  STATIC_REQUIRE_FALSE(Multipliable<Ramp, Ramp>);
  STATIC_REQUIRE_FALSE(Dividable<Temperature, Ramp>);
  STATIC_REQUIRE_FALSE(Dividable<Warming, Hours>);
  STATIC_REQUIRE_FALSE(Dividable<Length, Length>);
}

TEST_CASE("units: bare numbers do not become quantities", "[units][must-not-compile]") {
  STATIC_REQUIRE_FALSE(std::is_convertible_v<double, Length>);
  STATIC_REQUIRE_FALSE(std::is_constructible_v<Length, double>);
  STATIC_REQUIRE_FALSE(std::is_constructible_v<Mass, double>);
  STATIC_REQUIRE_FALSE(std::is_convertible_v<Length, double>);
  STATIC_REQUIRE_FALSE(std::is_convertible_v<double, Temperature>);
  STATIC_REQUIRE_FALSE(std::is_convertible_v<Temperature, Warming>);
  STATIC_REQUIRE_FALSE(std::is_convertible_v<Warming, Temperature>);
  STATIC_REQUIRE_FALSE(Comparable<Length, double>);
  STATIC_REQUIRE_FALSE(Comparable<Length, Mass>);
  STATIC_REQUIRE_FALSE(Comparable<Temperature, Warming>);
}

TEST_CASE("units: what makes sense compiles", "[units]") {
  STATIC_REQUIRE(Addable<Temperature, Warming>);
  STATIC_REQUIRE(std::is_same_v<decltype(220_C - 20_C), Warming>);
  STATIC_REQUIRE(std::is_same_v<decltype(Warming{100} / 100_K_per_h), Hours>);
  STATIC_REQUIRE(450_mm + 50_mm == 500_mm);
  STATIC_REQUIRE(2 * 1.5_kg == 3_kg);
  STATIC_REQUIRE(1_mm < 2_mm);
}

TEST_CASE("units: ramps and times", "[units]") {
  CHECK(((220_C - 20_C) / 100_K_per_h).count() == Approx(2));
  CHECK((100_K_per_h * Hours{0.5}).kelvin == Approx(50));
  CHECK(std::chrono::duration_cast<std::chrono::minutes>(Hours{1.5}).count() == 90);
}

// Fixed points of both scales, exact by definition.
TEST_CASE("units: degrees Fahrenheit and kelvin", "[units]") {
  CHECK(fahrenheit(100_C) == Approx(212));
  CHECK(fahrenheit(0_C) == Approx(32));
  CHECK(fahrenheit(Temperature{-40}) == Approx(-40));
  CHECK(absolute_kelvin(0_C) == Approx(273.15));
}

TEST_CASE("to_string: whatever parts of a place are known", "[error]") {
  CHECK(to_string(TextPos{"ware.yaml", 12, 9, 12}) == "ware.yaml:12:9");
  CHECK(to_string(TextPos{"ware.yaml", 12, 0, 0}) == "ware.yaml:12");
  CHECK(to_string(TextPos{"ware.yaml", 0, 0, 0}) == "ware.yaml");
}

TEST_CASE("InputError: says the first finding and keeps all", "[error]") {
  const InputError one{TextPos{"ware.yaml", 3, 5, 9}, "The count is missing."};
  CHECK(std::string{one.what()} == "ware.yaml:3:5: The count is missing.");
  CHECK(one.findings().size() == 1);
  CHECK(has_mistakes(one.findings()));
  const InputError two{std::vector<Finding>{
      {Severity::look, "tall", "Rather tall.", {"ware.yaml", 1, 1, 2}, std::nullopt},
      {Severity::mistake, "count", "Not a number.", {"ware.yaml", 2, 1, 2}, std::nullopt}}};
  CHECK(std::string{two.what()} == "ware.yaml:1:1: Rather tall.");
  CHECK(two.findings().size() == 2);
}

TEST_CASE("has_mistakes: things to look at are none", "[error]") {
  CHECK_FALSE(has_mistakes({}));
  CHECK_FALSE(has_mistakes({{Severity::look, "tall", "Rather tall.", {}, std::nullopt}}));
}

}  // namespace
}  // namespace placer
