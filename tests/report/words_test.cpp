#include "report/words.h"

#include <catch2/catch.hpp>

#include "report/odd_samples.h"

using namespace placer;
using namespace placer::report;

TEST_CASE("length_text: to the nearest half millimetre, halves away from zero", "[words]") {
  CHECK(length_text(Length::from_mm(138)) == "138 mm");
  CHECK(length_text(Length::from_mm(17.25)) == "17.5 mm");
  CHECK(length_text(Length::from_mm(17.24)) == "17 mm");
  CHECK(length_text(Length::from_mm(-0.1)) == "0 mm");
  CHECK(length_text(Length::from_mm(-3)) == "-3 mm");
}

TEST_CASE("inches_text: to the nearest sixteenth, in lowest terms", "[words]") {
  // 1 in = 25.4 mm exactly: international yard and pound agreement of 1959.
  CHECK(inches_text(Length::from_mm(25.4)) == "1 in");
  CHECK(inches_text(Length::from_mm(12.7)) == "1/2 in");
  CHECK(inches_text(Length::from_mm(138)) == "5 7/16 in");
  CHECK(inches_text(Length::from_mm(450.85)) == "17 3/4 in");
  CHECK(inches_text(Length::from_mm(0)) == "0 in");
  CHECK(length_text(Length::from_mm(138), true) == "5 7/16 in (138 mm)");
}

TEST_CASE("both_degrees: Celsius and Fahrenheit of the same temperature", "[words]") {
  CHECK(both_degrees({1285}) == "1285 °C / 2345 °F");
  CHECK(both_degrees({0}) == "0 °C / 32 °F");
  CHECK(both_degrees({-40}) == "-40 °C / -40 °F");
}

TEST_CASE("hours_text: hours and minutes, never sixty minutes", "[words]") {
  CHECK(hours_text(Hours{0}) == "0 min");
  CHECK(hours_text(Hours{0.75}) == "45 min");
  CHECK(hours_text(Hours{2}) == "2 h");
  CHECK(hours_text(Hours{7.0 + 5.0 / 60}) == "7 h 05");
  CHECK(hours_text(Hours{1.9999}) == "2 h");
}

TEST_CASE("count_text and joined: plain English", "[words]") {
  CHECK(count_text(1, "shelf") == "1 shelf");
  CHECK(count_text(3, "shelf") == "3 shelves");
  CHECK(count_text(0, "piece") == "0 pieces");
  CHECK(joined({}).empty());
  CHECK(joined({"a"}) == "a");
  CHECK(joined({"a", "b", "c"}) == "a, b and c");
}

TEST_CASE("columns: wide letters take two, accents none", "[words]") {
  CHECK(columns("Mug") == 3);
  CHECK(columns("茶碗") == 4);
  CHECK(columns("Étę") == 3);
  CHECK(columns("e\xCC\x81") == 1);  // e with a combining accent
  CHECK(padded("茶", 4) == "茶  ");
  CHECK(padded("longer", 3) == "longer");
}

TEST_CASE("wrapped_lines: no line is wider than asked unless one word is", "[words]") {
  const auto lines = wrapped_lines("posts 3 of 100 + 13 mm, 8 mm over the Mug", 16);
  REQUIRE(lines.size() == 3);
  for (const std::string& line : lines) CHECK(columns(line) <= 16);
  CHECK(wrapped_lines("Donaudampfschifffahrt", 5).size() == 1);
  CHECK(wrapped_lines("", 5) == std::vector<std::string>{""});
}

TEST_CASE("kilos_text, one_length_text, both_degrees: who reads inches reads pounds and °F first",
          "[words]") {
  CHECK(kilos_text(Mass::from_kg(6.9)) == "6.9 kg");
  CHECK(kilos_text(Mass::from_kg(6.9), true) == "15.2 lb (6.9 kg)");  // 1 lb = 0.45359237 kg, exact
  CHECK(one_length_text(Length::from_mm(444.5), true) == "17 1/2 in");
  CHECK(one_length_text(Length::from_mm(444.5), false) == "444.5 mm");
  CHECK(both_degrees(Temperature{1210}, true) == "2210 °F / 1210 °C");
}

TEST_CASE("posts_text: like posts are counted together", "[words]") {
  const auto sample = support::everyday_sample();
  const auto subject = sample.subject();
  CHECK(posts_text(subject, {}).empty());
  const PlacedPost tall{{0, 0}, 0, {1, 2}};
  const PlacedPost other{{9, 0}, 0, {0}};
  CHECK(posts_text(subject, {tall, tall, tall}) == "3 of 100 + 13 mm");
  CHECK(posts_text(subject, {tall, other, tall}) == "2 of 100 + 13 mm and 1 of 150 mm");
  report::Subject inches = subject;
  inches.inches = true;
  CHECK(posts_text(inches, {tall, tall, other}) == "2 of 3 15/16 + 1/2 in and 1 of 5 7/8 in");
}

TEST_CASE("names: columns and loads are named only where there are several", "[words]") {
  const auto one = support::everyday_sample();
  CHECK(shelf_name(one.subject(), one.plan.firings[0].levels[2]) == "shelf 3");
  CHECK(firing_name(one.subject(), 0) == "glaze");
  const auto many = support::bisque_sample();
  CHECK(shelf_name(many.subject(), many.plan.firings[0].levels[0]) == "back, shelf 1");
  CHECK(firing_name(many.subject(), 1) == "bisque, load 2 of 3");
}

TEST_CASE("piece_name: a stack says how many, a lid says what it lies on", "[words]") {
  const auto sample = support::bisque_sample();
  PlacedPiece piece;
  piece.piece = 0;
  CHECK(piece_name(sample.subject(), piece) == "Bowl");
  piece.stacked = 2;
  piece.stack = {0, 0};
  CHECK(piece_name(sample.subject(), piece) == "Bowl, stack of 2");
  piece.stack = {3, 1};
  CHECK(piece_name(sample.subject(), piece) == "Jar with lid with Mug");
}
