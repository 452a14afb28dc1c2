#include <catch2/catch.hpp>
#include <cmath>

#include "placer/workbook/pieces_csv.h"
#include "placer/workbook/quantity.h"
#include "placer/workbook/tidy.h"
#include "support.h"
#include "workbook/measure.h"

using namespace placer;
using namespace placer::workbook;
using namespace placer::workbook::testing;

namespace {

double mm(const char* text, const char* usual = "mm") {
  UsualUnits units;
  units.length = usual;
  const QuantityOrWhy read = read_quantity(text, Measure::length, units);
  return read.quantity ? read.quantity->value : -1;
}

const PieceKind& only_piece(const StudioResult& result) { return result.studio->batch.pieces[0]; }

}  // namespace

TEST_CASE("lengths carry their unit or take the usual one") {
  // 1 in = 25.4 mm exactly: international yard and pound agreement, 1959
  CHECK(mm("450") == Approx(450));
  CHECK(mm("45 cm") == Approx(450));
  CHECK(mm("45cm") == Approx(450));
  CHECK(mm("0.45 m") == Approx(450));
  CHECK(mm("17 3/4 in") == Approx(450.85));
  CHECK(mm("17-3/4\"") == Approx(450.85));
  CHECK(mm("17¾ in") == Approx(450.85));
  CHECK(mm("17.75", "in") == Approx(450.85));
  CHECK(mm("½ in") == Approx(12.7));
  CHECK(mm("1 ft 6 in") == Approx(457.2));
  CHECK(mm("1 ft 6") == Approx(457.2));
  CHECK(mm("5' 3\"") == Approx(1600.2));
  for (const char* wrong : {"", "tall", "-3", "1e3", "3 4", "3/0 in", "12,5", "4 mn", "5 kg",
                            "1 mm 2 in", "0x10", "nan", "inf", "1..2", "1 ft 2 ft"}) {
    INFO(wrong);
    CHECK(mm(wrong) == -1);
  }
}

TEST_CASE("temperatures, weights, times and powers in their units") {
  CHECK(read_temperature("2232 °F", false)->celsius == Approx(1222.22).epsilon(1e-5));
  CHECK(read_temperature("2232", true)->celsius == Approx(1222.22).epsilon(1e-5));
  CHECK(read_temperature("1222 C", true)->celsius == 1222);
  CHECK(read_mass("12 oz")->kg() == Approx(0.340194).epsilon(1e-5));  // 1 lb = 0.45359237 kg
  CHECK(read_mass("2 lb 8 oz")->kg() == Approx(1.133981).epsilon(1e-5));
  CHECK(read_mass("350 g")->kg() == Approx(0.35));
  CHECK(read_hours("6 h 30")->count() == Approx(6.5));
  CHECK(read_hours("6:30")->count() == Approx(6.5));
  CHECK(read_hours("90 min")->count() == Approx(1.5));
  CHECK_FALSE(read_hours("90").has_value());
  CHECK(read_ramp("108 F/h", false)->kelvin_per_hour == Approx(60));
  CHECK(read_ramp("108", true)->kelvin_per_hour == Approx(60));
  CHECK_FALSE(read_ramp("60 C", false).has_value());
}

TEST_CASE("every good studio is read without a mistake") {
  const auto files = files_of(PLACER_TEST_DATA "/studios", ".yaml");
  REQUIRE(files.size() >= 8);
  for (const auto& path : files) {
    const std::string text = whole_file(path);
    const StudioResult result = read(text, path.string());
    INFO(path.filename() << '\n' << shown(result, text));
    REQUIRE(result.studio);
    const Batch& batch = result.studio->batch;
    CHECK_FALSE(batch.kiln.columns.empty());
    CHECK(batch.loads.size() == result.studio->firings.size());
  }
}

// Cone 6, large, 60 °C/h: 1222 °C, the cone maker's chart (schedules/cones.yaml has the source).
TEST_CASE("a load knows how hot its firing gets") {
  const auto load = [](const std::string& end) {
    std::string text = studio_with("across: 90, height: 100, count: 1");
    text.replace(text.find("cone: 6"), 7, end);
    const StudioResult result = read(text);
    INFO(shown(result, text));
    REQUIRE(result.studio);
    return result.studio->batch.loads.at(0);
  };
  CHECK(load("cone: 6").cone == "6");
  REQUIRE(load("cone: 6").top);
  CHECK(load("cone: 6").top->celsius == Approx(1222).margin(2));
  CHECK(load("cone: 6, cone kind: small").top->celsius == Approx(1222).margin(2));
  CHECK(load("top: 1240 C").cone.empty());
  CHECK(load("top: 1240 C").top->celsius == 1240);
}

TEST_CASE("the first studio is well and about forty pieces") {
  const StudioResult result = read(first_studio());
  REQUIRE(result.studio);
  CHECK(result.findings.empty());
  int pieces = 0;
  for (const PieceKind& piece : result.studio->batch.pieces) pieces += piece.count;
  CHECK(pieces == 40);
}

TEST_CASE("half-round shelves stand in two columns with their flat sides facing each other") {
  const StudioResult result = read(studio_with("across: 90, height: 105"));
  REQUIRE(result.studio);
  const Kiln& kiln = result.studio->batch.kiln;
  REQUIRE(kiln.columns.size() == 2);
  CHECK(kiln.columns[0].name == "left");
  const Region left = placed(kiln.shelves[0].shape, kiln.columns[0].at);
  const Region right = placed(kiln.shelves[0].shape, kiln.columns[1].at);
  CHECK(bounding_box(left).high.x == Approx(-2.5));
  CHECK(bounding_box(right).low.x == Approx(2.5));
}

TEST_CASE("a handle is a bar from the middle to its reach beyond the body") {
  const StudioResult result = read(studio_with("across: 90, height: 105, handle: 30"));
  REQUIRE(result.studio);
  const Footprint& shape = only_piece(result).footprint;
  REQUIRE(shape.discs.size() == 1);
  REQUIRE(shape.outlines.size() == 1);
  CHECK(shape.discs[0].radius == 45);
  CHECK(bounding_box(shape).high.x == Approx(75));
  CHECK(reach(shape) == Approx(std::hypot(75, 10)));
  const StudioResult two = read(
      studio_with("across: 90, height: 105, handle: {reach: 30, wide: 16, count: 2}, spout: 10"));
  REQUIRE(two.studio);
  CHECK(only_piece(two).footprint.outlines.size() == 3);
}

TEST_CASE("a spout points away from the handle, wherever that is") {
  const StudioResult result =
      read(studio_with("across: 150, height: 125, handle: {reach: 42, at: 90}, spout: 55"));
  REQUIRE(result.studio);
  const Box box = bounding_box(only_piece(result).footprint);
  CHECK(box.high.y == Approx(75 + 42));
  CHECK(box.low.y == Approx(-75 - 55));
}

TEST_CASE("several glazes that no list names are all kept") {
  std::string text = studio_with("across: 90, height: 105, glaze: a");
  for (const char* glaze : {"b", "c", "d", "e", "a"}) {
    const std::string row =
        std::string{"{name: P"} + glaze + ", across: 90, height: 50, glaze: " + glaze + "}, ";
    text.insert(text.find("{name: Mug"), row);
  }
  text.replace(text.find("name: Pa"), 8, "name: Qa");
  const StudioResult result = read(text);
  INFO(shown(result, text));
  REQUIRE(result.studio);
  const Batch& batch = result.studio->batch;
  CHECK(batch.glazes.size() == 5);
  for (const PieceKind& piece : batch.pieces) {
    REQUIRE(piece.glaze);
    const std::string& glaze = batch.glazes[static_cast<std::size_t>(*piece.glaze)].name;
    CHECK((piece.name == "Mug" ? "a" : piece.name.substr(1)) == glaze);
  }
}

TEST_CASE("clocks mean the next such time in the studio's zone") {
  const auto start = [](const std::string& when) {
    std::string text = studio_with("across: 90, height: 105");
    text.replace(text.find("cone: 6"), 7, "cone: 6, start: " + when);
    const StudioResult result = read(text);
    return result.studio ? result.studio->firings[0].starts_at.value_or(-1) : -2;
  };
  CHECK(start("9:00") == kNow + 3600);
  CHECK(start("6:30") == kNow + 22 * 3600 + 1800);
  CHECK(start("tomorrow 6:30") == kNow + 22 * 3600 + 1800);
  CHECK(start("Thursday 6:30 am") == kNow + 22 * 3600 + 1800);
  CHECK(start("2026-11-26 18:30") == kNow + 34 * 3600 + 1800);
  CHECK(start("6:30 pm") == kNow + 10 * 3600 + 1800);
  CHECK(start("25:00") == -2);
}

TEST_CASE("words are mended in place, remarks and line ends kept") {
  const Tidied tidied = tidy(
      "# mine\r\nkiln: {insdie: round 580, height: 680} # keep\r\nshelves: [{size: round 500, "
      "thik: 18, "
      "have: 6}]\r\npieces:\r\n - {name: Mug, diameter: 90, height: 100}\r\nfiring: {kind: glaz, "
      "cone: 6}\r\n",
      "s.yaml");
  CHECK(tidied.text ==
        "# mine\r\nstudio: 1\r\nkiln: {inside: round 580, height: 680} # keep\r\nshelves: [{size: "
        "round 500, thick: 18, have: 6}]\r\npieces:\r\n - {name: Mug, across: 90, height: "
        "100}\r\nfiring: {kind: glaze, cone: 6}\r\n");
  CHECK(tidied.changes.size() == 5);
  CHECK(tidy(first_studio(), "s.yaml").changes.empty());
}

TEST_CASE("mending goes on until nothing is left that only one thing can mean") {
  const std::string head = "# kept\nkiln: {inside: round 580, height: 680}\n";
  const std::string below =
      "shelves: [{size: round 500, thick: 18, have: 6}]\n"
      "peices:\n- {name: Mug, diameter: 90, height: 100}\nfiring: {kind: glaze, cone: 6}\n";
  const Tidied tidied = tidy(head + below, "s.yaml");
  CHECK(tidied.changes == std::vector<std::string>{"s.yaml:2: studio: 1 put in front",
                                                   "s.yaml:4: peices -> pieces",
                                                   "s.yaml:5: diameter -> across"});
  CHECK_FALSE(has_mistakes(read(tidied.text).findings));
  // Two words for one thing: a person must say which.
  const Tidied doubtful =
      tidy("studio: 1\nkiln: {inside: round 580, hieght: 680, heigth: 700}\n", "s.yaml");
  CHECK(doubtful.changes.empty());
}

TEST_CASE("tables of many countries are read, doubtful ones refused") {
  const CsvPieces german = read_pieces_csv(
      "\xEF\xBB\xBFName;Count;Diameter (cm);Height (cm);Weight (g);Glaze\r\n\"Mug; "
      "\"\"A\"\"\";24;9,5;10;350;clear\r\n"
      "Bowl;10;14;7;;tenmoku\r\n",
      "p.csv");
  REQUIRE(german.findings.empty());
  CHECK(german.separator == ';');
  CHECK(german.decimal_comma);
  CHECK(german.rows == 2);
  CHECK(german.first_rows[0] ==
        "{name: \"Mug; \\\"A\\\"\", count: 24, across: \"9.5 cm\", height: "
        "\"10 cm\", weight: \"350 g\", glaze: \"clear\"}");
  const auto code = [](const std::string& text) {
    const CsvPieces read = read_pieces_csv(text, "p.csv");
    for (const Finding& finding : read.findings) {
      if (finding.severity == Severity::mistake) return finding.code;
    }
    return std::string{};
  };
  CHECK(code("name,across,height\nMug,90,105\n").empty());
  CHECK(code("name\tacross\theight\nMug\t90\t105\n").empty());
  CHECK(code("name;across;height\nMug;9,5 cm;10.5 cm\n") == "decimals");
  CHECK(code("name;across;height\nMug;90;1,234\n") == "decimals");
  CHECK(code("name,across,height\nMug,90\n") == "table");
  CHECK(code("name,across,hieght\nMug,90,105\n") == "word");
  CHECK(code("name,across,diameter,height\nMug,90,90,105\n") == "twice");
  CHECK(code("name,across,height\nMug,90,\"105\n") == "quotes");
  CHECK(code("name,across,height\nM\xfcg,90,105\n") == "encoding");
  CHECK(code("Mug,90,105\nBowl,140,70\n") == "missing");
  CHECK(code("") == "empty");
}

TEST_CASE("carets stand under the word, whatever the letters before it") {
  const std::string text = "a: 茶☕é x\n";
  const Finding finding{Severity::mistake, "word", "m", TextPos{"f", 1, 8, 9}, std::nullopt};
  CHECK(show(finding, text, false) == "f:1:8: m\n   1 | a: 茶☕é x\n     |          ^\n");
}

TEST_CASE("reduction begins at a temperature or when a cone goes down") {
  std::string text = whole_file(PLACER_ROOT "/demo/studio.yaml");
  const std::string key = "reduction from: 900 C";
  const std::size_t at = text.find(key);
  REQUIRE(at != std::string::npos);
  const StudioResult by_degrees = read(text);
  CHECK(by_degrees.studio->firings[1].reduction_from->celsius == Approx(900));
  text.replace(at, key.size(), "reduction at cone: 010");
  const StudioResult by_cone = read(text);
  REQUIRE(by_cone.studio);
  // Cone 010, self-supporting: 903 °C at 60 and 915 °C at 150 °C/h (schedules/cones.yaml); 100 lies
  // at ln(100/60) / ln(150/60) = 0.557 of the way.
  CHECK(by_cone.studio->firings[1].reduction_from->celsius ==
        Approx(903 + 0.5575 * 12).margin(0.01));
  text.replace(text.find("at cone: 010"), 12, "at cone: 10X");
  const StudioResult no_cone = read(text);
  CHECK_FALSE(no_cone.studio);
  CHECK(codes(no_cone).find("cone") != std::string::npos);
}
