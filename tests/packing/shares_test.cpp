// The sharing out of patterns proves itself: what it uses covers all, and what the pieces are worth
// then bounds any other use from below by the same sum.
#include "packing/shares.h"

#include <catch2/catch.hpp>

#include "placer/base/random.h"

namespace placer::packing {
namespace {

TEST_CASE("shares_of: covers what is asked for, and no less could") {
  const unsigned seed = GENERATE(range(0U, 200U));
  CAPTURE(seed);
  Random random{seed};
  const std::size_t kinds = 1 + random.below(6);
  std::vector<std::vector<int>> patterns;
  for (std::size_t k = 0; k < kinds; ++k) {  // each kind in one pattern at least
    patterns.emplace_back(kinds, 0);
    patterns.back()[k] = 1 + static_cast<int>(random.below(9));
  }
  for (std::uint64_t more = random.below(20); more > 0; --more) {
    patterns.emplace_back(kinds, 0);
    for (int& n : patterns.back()) n = static_cast<int>(random.below(6));
  }
  std::vector<int> asked;
  for (std::size_t k = 0; k < kinds; ++k) asked.push_back(static_cast<int>(random.below(200)));

  const Shares shares = shares_of(patterns, asked);
  double sum = 0;
  for (const double uses : shares.uses) {
    CHECK(uses >= -1e-9);
    sum += uses;
  }
  CHECK(sum == Approx(shares.sum).margin(1e-7));
  double worth = 0;
  for (std::size_t k = 0; k < kinds; ++k) {
    double held = 0;
    for (std::size_t p = 0; p < patterns.size(); ++p) held += shares.uses[p] * patterns[p][k];
    CHECK(held >= asked[k] - 1e-6);
    CHECK(shares.worth[k] >= -1e-9);
    worth += shares.worth[k] * asked[k];
  }
  for (const std::vector<int>& pattern : patterns) {
    double here = 0;
    for (std::size_t k = 0; k < kinds; ++k) here += shares.worth[k] * pattern[k];
    CHECK(here <= 1 + 1e-7);
  }
  CHECK(worth == Approx(shares.sum).margin(1e-6));
}

TEST_CASE("shares_of: as worked out by hand") {
  // 3 of A or 2 of B or 2 of A and 1 of B; 12 A and 4 B: four mixed shelves hold 8 A and 4 B, and
  // 4 more A take a third of four.
  const Shares shares = shares_of({{3, 0}, {0, 2}, {2, 1}}, {12, 4});
  CHECK(shares.sum == Approx(4 + 4.0 / 3));
}

}  // namespace
}  // namespace placer::packing
