// Against the record tables in tests/data/packing/records; each file's first line names its source.
#include <catch2/catch.hpp>

#include "packing/packings.h"

namespace placer::packing {
namespace {

Options quick() {
  Options options;
  options.effort = Effort::quick;
  return options;
}

/// Where the record leaves less than a fifth of a millimetre to spare, a normal effort is asked
/// for.
Options effort_for(double margin) {
  Options options;
  options.effort = margin < 0.2 ? Effort::normal : Effort::quick;
  return options;
}

TEST_CASE("equal discs on round shelves: the record's count, never claimed to be beaten") {
  // Columns: shelf, piece, gap, edge gap, count, margin; every 149th row with up to 50 pieces.
  const auto rows = record_table("mugs_on_round_shelf.csv");
  REQUIRE(rows.size() > 2000);
  for (std::size_t i = 11; i < rows.size(); i += 149) {
    const auto& row = rows[i];
    if (row[4] > 50) continue;
    const Problem problem = in_circle(row[0], {disc_item(row[1])}, row[2], row[3]);
    const Packing packing = most_pieces(problem, effort_for(row[5]));
    CAPTURE(row);
    CHECK(count(packing) == row[4]);
    CHECK(seen_by_geos(problem, packing) >= kSeenShort);
  }
}

TEST_CASE("equal discs on square shelves: the record's count, never claimed to be beaten") {
  const auto rows = record_table("mugs_on_square_shelf.csv");
  REQUIRE(rows.size() > 900);
  for (std::size_t i = 5; i < rows.size(); i += 89) {
    const auto& row = rows[i];
    if (row[4] > 50) continue;
    const Problem problem = in_rectangle(row[0], row[0], {disc_item(row[1])}, row[2], row[3]);
    const Packing packing = most_pieces(problem, effort_for(row[5]));
    CAPTURE(row);
    CHECK(count(packing) == row[4]);
    CHECK(seen_by_geos(problem, packing) >= kSeenShort);
  }
}

TEST_CASE("circles in a circle: the best-known N fit, and where N is proven no more do") {
  // A region a millionth larger than the record's: N must be found exactly.
  // Six circles and seven have the same record, so six are not asked about.
  // Proven: N <= 13 and 19 (Kravitz 1967, Pirl 1969, Melissen 1994, Fodor 1999-2003).
  for (const auto& row : record_table("circles_in_circle.csv")) {
    const int n = static_cast<int>(row[0]);
    if (n == 6 || (n > 13 && n != 19)) continue;
    const Problem problem = in_circle(200 / row[1] * (1 + 1e-6), {disc_item(200)});
    CAPTURE(n);
    CHECK(count(most_pieces(problem, quick())) == n);
  }
}

TEST_CASE("circles in a square: the proven best of 2 to 20 fit, and no more do") {
  // Proven: N <= 9 by hand (Schaer 1965 and others), 10 to 20 by computer (Peikert, Wuertz, Monagan
  // and de Groot 1992).
  for (const auto& row : record_table("circles_in_square.csv")) {
    const int n = static_cast<int>(row[0]);
    if (n < 2 || n > 20) continue;
    const double side = 200 * row[2] / 2 * (1 + 1e-6);
    const Problem problem = in_rectangle(side, side, {disc_item(200)});
    CAPTURE(n);
    CHECK(count(most_pieces(problem, quick())) == n);
  }
}

TEST_CASE("no proven bound lies below a record") {
  for (const auto& row : record_table("mugs_on_round_shelf.csv")) {
    CAPTURE(row);
    REQUIRE(most_possible(in_circle(row[0], {disc_item(row[1])}, row[2], row[3])) >= row[4]);
  }
  for (const auto& row : record_table("mugs_on_square_shelf.csv")) {
    CAPTURE(row);
    const Problem problem = in_rectangle(row[0], row[0], {disc_item(row[1])}, row[2], row[3]);
    REQUIRE(most_possible(problem) >= row[4]);
  }
}

TEST_CASE("Oler's bound is as sharp as worked out by hand") {
  // 84 mm mugs, 4 mm apart, on a 533 mm round shelf: middles in a disc of radius 224.5, 88 apart:
  // 2/sqrt(3) pi 224.5²/88² + 2 pi 224.5/(2*88) + 1 = 23.61 + 8.01 + 1 = 32.6.
  CHECK(most_possible(in_circle(533, {disc_item(84)}, 4)) == 32);
  // 66 mm tumblers, 4 mm apart, on 610 x 305 mm: middles in 544 x 239:
  // 2/sqrt(3) 544*239/70² + 2*(544+239)/(2*70) + 1 = 30.64 + 11.19 + 1 = 42.8.
  CHECK(most_possible(in_rectangle(610, 305, {disc_item(66)}, 4)) == 42);
}

}  // namespace
}  // namespace placer::packing
