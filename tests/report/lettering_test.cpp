#include "report/lettering.h"

#include <catch2/catch.hpp>

using namespace placer;
using namespace placer::report;

TEST_CASE("Lettering: a size is an em in mm, not in screen points", "[lettering]") {
  const Lettering letters;
  // Advance of the digits in DejaVu Sans: 1303 of 2048 units an em (the font's own table).
  CHECK(letters.width("0", 10) == Approx(10 * 1303.0 / 2048).margin(0.01));
  CHECK(letters.width("0000", 10) == Approx(4 * letters.width("0", 10)).margin(0.01));
  CHECK(letters.width("Mug", 5) == Approx(letters.width("Mug", 10) / 2).margin(0.01));
  CHECK(letters.width("Mug", 5, true) > letters.width("Mug", 5));
  CHECK(letters.width("", 5) == 0);
}

TEST_CASE("Lettering: wrapped lines fit and drop no letter", "[lettering]") {
  const Lettering letters;
  const std::string words =
      GENERATE("Bud vase with a long narrow neck and a small foot ring, no. 2", "Mug", "",
               "Donaudampfschifffahrtsgesellschaftskapitänsuntertasse", "Чашка с блюдцем и ложкой",
               "茶碗茶碗茶碗茶碗茶碗茶碗茶碗茶碗", "a  b   c");
  const double most = GENERATE(4.0, 20.0, 45.0);
  CAPTURE(words, most);
  std::string joined;
  for (const std::string& line : letters.wrapped(words, pt(12), false, most)) {
    CHECK((letters.width(line, pt(12)) <= most + 0.001 || line.size() <= 4));
    joined += line;
  }
  std::string expected;
  for (const char letter : words) {
    if (letter != ' ') expected += letter;
  }
  std::string letters_only;
  for (const char letter : joined) {
    if (letter != ' ') letters_only += letter;
  }
  CHECK(letters_only == expected);
}

TEST_CASE("Lettering: size_to_fit takes the largest that fits, or the last", "[lettering]") {
  const Lettering letters;
  const double width = letters.width("SHELF", pt(20), true);
  CHECK(letters.size_to_fit("SHELF", true, width + 0.1, {pt(30), pt(20), pt(10)}) == pt(20));
  CHECK(letters.size_to_fit("SHELF", true, 1, {pt(30), pt(20), pt(10)}) == pt(10));
}

TEST_CASE("Lettering: letters that no font has are named", "[lettering]") {
  const Lettering letters;
  CHECK(letters.can_draw("Mug, Чашка, Été ▲ ⚠ ½ °"));
  CHECK(letters.missing_in("Mug, Чашка, Été").empty());
  const std::string nothing = "\xF4\x8F\xBF\xBD";  // private use: no font has it
  CHECK(letters.missing_in("Mug " + nothing + nothing + " cup") ==
        std::vector<std::string>{nothing + nothing});
}

TEST_CASE("Lettering: what is no letter becomes a mark, so that a name cannot spoil a sheet",
          "[lettering]") {
  const Lettering letters;
  CHECK(letters
            .text({},
                  "a\xFF"
                  "b",
                  3)
            .words ==
        "a\xEF\xBF\xBD"
        "b");  // no UTF-8
  CHECK(letters
            .text({},
                  "a\xEF\xB7\x90"
                  "b",
                  3)
            .words ==
        "a\xEF\xBF\xBD"
        "b");  // noncharacter
  CHECK(letters.text({}, "a\tb\n", 3).words == "a b ");
}
