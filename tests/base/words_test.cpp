#include "placer/base/words.h"

#include <catch2/catch.hpp>

using namespace placer;

TEST_CASE("letters_apart: counts inserts, drops, changes and swaps", "[words]") {
  CHECK(letters_apart("height", "height") == 0);
  CHECK(letters_apart("hieght", "height") == 1);
  CHECK(letters_apart("heigt", "height") == 1);
  CHECK(letters_apart("", "post") == 4);
  CHECK(letters_apart("kitten", "sitting") == 3);  // the textbook example of Levenshtein's distance
}

TEST_CASE("nearest_word: near words only, the first of equals", "[words]") {
  const std::vector<std::string> known{"height", "handle", "have", "glaze"};
  CHECK(nearest_word("hieght", known) == "height");
  CHECK(nearest_word("Glase", known) == "glaze");
  CHECK_FALSE(nearest_word("temperature", known));
  CHECK_FALSE(nearest_word("zz", known));
}
