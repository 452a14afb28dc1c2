#include "placer/base/units.h"

#include <catch2/catch.hpp>
#include <concepts>

#include "placer/base/error.h"

using namespace placer;
using namespace placer::literals;

template <class A, class B>
concept Addable = requires(A a, B b) { a + b; };

TEST_CASE("units: what makes no sense does not compile", "[units]") {
  STATIC_REQUIRE_FALSE(Addable<Temperature, Temperature>);
  STATIC_REQUIRE(Addable<Temperature, Warming>);
  STATIC_REQUIRE_FALSE(Addable<Length, Mass>);
  STATIC_REQUIRE_FALSE(Addable<Length, double>);
}

TEST_CASE("units: ramps and times", "[units]") {
  CHECK(((220_C - 20_C) / 100_K_per_h).count() == Approx(2));
  CHECK((100_K_per_h * Hours{0.5}).kelvin == Approx(50));
  CHECK(fahrenheit(100_C) == Approx(212));
}

TEST_CASE("to_string: whatever parts of a place are known", "[error]") {
  CHECK(to_string(TextPos{"ware.yaml", 12, 9, 12}) == "ware.yaml:12:9");
  CHECK(to_string(TextPos{"ware.yaml", 12, 0, 0}) == "ware.yaml:12");
  CHECK(to_string(TextPos{"ware.yaml", 0, 0, 0}) == "ware.yaml");
}
