// Writes studio files of every kind, good and broken, and what the reader thinks of each, one JSON
// object a line: {"text": ..., "verdict": "good" | "broken" | "world"}. "world" = it can be read,
// and cannot be in a kiln (a shelf too large, a glaze nobody has): no schema can know that.
#include <algorithm>
#include <cstdio>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "placer/base/random.h"
#include "support.h"
#include "workbook/json_text.h"
#include "workbook/vocabulary.h"

using namespace placer;
using namespace placer::workbook;
using namespace placer::workbook::testing;

namespace {

constexpr int kFiles = 4000;

using BlockText = std::vector<std::pair<std::string, std::string>>;

/// A good studio, each place once. "@kiln" stands for the block of that place.
std::map<std::string, BlockText> good_studio() {
  return {
      {"",
       {{"studio", "1"},
        {"units", "mm, C"},
        {"kiln", "@kiln"},
        {"shelves", "[@shelf]"},
        {"posts", "[@post]"},
        {"clays", "[@clay]"},
        {"glazes", "[clear, @glaze]"},
        {"pieces", "[@piece, {name: Cup, across: 60, height: 70, stack: @stack, stands at: @pin}]"},
        {"firing", "@firing"},
        {"rules", "@rules"}}},
      {"kiln",
       {{"inside", "round 580"},
        {"height", "680"},
        {"wall", "[@wall]"},
        {"keep clear", "[@keep clear]"}}},
      {"wall", {{"material", "insulating brick 23"}, {"thick", "76"}}},
      {"keep clear", {{"what", "spy hole"}, {"wall", "front"}, {"size", "80 x 120"}}},
      {"column", {{"name", "only"}, {"at", "[0, 0]"}}},
      {"shelf", {{"size", "half round 520"}, {"thick", "18"}, {"have", "6"}}},
      {"post", {{"height", "150"}, {"have", "12"}}},
      {"clay", {{"name", "stoneware"}, {"dry to fired", "7 %"}}},
      {"glaze", {{"name", "tenmoku"}, {"runny", "yes"}}},
      {"piece", {{"name", "Mug"}, {"across", "90"}, {"height", "105"}, {"handle", "@handle"}}},
      {"handle", {{"reach", "30"}}},
      {"stack", {{"how", "nested"}, {"most", "4"}, {"step", "25"}}},
      {"pin", {{"at", "[120, 0]"}}},
      {"firing", {{"kind", "glaze"}, {"cone", "6"}}},
      {"rules", {{"glaze", "@room"}}},
      {"room", {{"gap", "6"}}},
  };
}

const std::vector<std::string> kValues = {"1",
                                          "0",
                                          "12",
                                          "12.5",
                                          "-3",
                                          "105 mm",
                                          "4 1/8 in",
                                          "17-3/4 in",
                                          "½ in",
                                          "2½",
                                          "6\"",
                                          "1 ft 6",
                                          "5' 3\"",
                                          "350 g",
                                          "2 lb 8 oz",
                                          "12 OZ",
                                          "1240 C",
                                          "2264 °F",
                                          "900 ° C",
                                          "30 min",
                                          "6 h 30",
                                          "6:30",
                                          "18:00",
                                          "6:30 pm",
                                          "tomorrow 6:30",
                                          "Saturday 7:15 am",
                                          "2026-11-25 6:30",
                                          "22:00 to 6:00",
                                          "7.5 kW",
                                          "90000 Btu/h",
                                          "yes",
                                          "no",
                                          "true",
                                          "False",
                                          "maybe",
                                          "6 %",
                                          "7",
                                          "90°",
                                          "-45 deg",
                                          "0.32 EUR/kWh",
                                          "$0.16/kWh",
                                          "0.32 EUR",
                                          "round 300",
                                          "half round 300",
                                          "Half-Round 300",
                                          "octagon 300 mm",
                                          "300 x 250",
                                          "12 x 10 in",
                                          "300x250",
                                          "300 × 250",
                                          "rund 300",
                                          "round",
                                          "round 0",
                                          "[0, 0]",
                                          "[10, -20]",
                                          "[1]",
                                          "[[0, 0], [300, 0], [300, 200]]",
                                          "[[0, 0], [300, 0]]",
                                          "[]",
                                          "{}",
                                          "~",
                                          "",
                                          "[a, b]",
                                          "\"06\"",
                                          "06",
                                          "glaze",
                                          "Glaze",
                                          "bisque",
                                          "glase",
                                          "low",
                                          "top",
                                          "front",
                                          "dry",
                                          "nested",
                                          "rim to rim",
                                          "electric",
                                          "cordierite",
                                          "silicon carbide",
                                          "large",
                                          "reduction",
                                          "clear",
                                          "[clear]",
                                          "\"24\"",
                                          "24.5",
                                          "a mug",
                                          "mm, C",
                                          "in, F, oz",
                                          "mm, in",
                                          "105 mn",
                                          "105 kg",
                                          "12,5",
                                          "from pieces.csv",
                                          "{reach: 20}",
                                          "{at: [1, 2]}",
                                          "0 mm",
                                          "0/4 in",
                                          "3/0 in"};

std::size_t pick(Random& random, std::size_t n) {
  return static_cast<std::size_t>(random.below(n));
}

void set(BlockText& block, const std::string& key, const std::string& value) {
  const auto found =
      std::ranges::find_if(block, [&](const auto& entry) { return entry.first == key; });
  if (found == block.end()) {
    block.emplace_back(key, value);
  } else {
    found->second = value;
  }
}

void change(std::map<std::string, BlockText>& studio, Random& random) {
  const VocabularyRow& row = vocabulary()[pick(random, vocabulary().size())];
  BlockText& block = studio[std::string{row.place}];
  const std::string key{row.key};
  switch (random.below(10)) {
    case 0:
      std::erase_if(block, [&](const auto& entry) { return entry.first == key; });
      break;
    case 1:
      set(block, key + "s", std::string{row.example});
      break;
    case 2:
    case 3:
    case 4:
    case 5:
      set(block, key, std::string{row.example});
      break;
    default:
      set(block, key, kValues[pick(random, kValues.size())]);
  }
}

std::string written(const std::map<std::string, BlockText>& studio, const std::string& value);

std::string written(const std::map<std::string, BlockText>& studio, const BlockText& block) {
  std::string out = "{";
  for (const auto& [key, value] : block) {
    if (out.size() > 1) out += ", ";
    out += key + ": " + written(studio, value);
  }
  return out + "}";
}

/// Puts the blocks of places in for their names.
std::string written(const std::map<std::string, BlockText>& studio, const std::string& value) {
  std::string out = value;
  for (auto place = studio.rbegin(); place != studio.rend(); ++place) {
    const std::string mark = "@" + place->first;
    if (place->first.empty()) continue;
    const std::size_t at = out.find(mark);
    if (at != std::string::npos) out.replace(at, mark.size(), written(studio, place->second));
  }
  return out;
}

std::string verdict(const std::string& text) {
  static const std::set<std::string> kWorld = {
      "range", "cone", "unknown", "name", "shelf", "column", "post", "tall", "zone", "in-the-way",
      "profile", "which", "lid", "weight", "outline", "table", "day", "bridge",
      // of the text, before there are any values
      "twice", "two-lines", "alias", "mark"};
  bool world = false;
  for (const Finding& finding : read(text).findings) {
    if (finding.severity == Severity::look) continue;
    if (!kWorld.contains(finding.code)) return "broken";
    world = true;
  }
  return world ? "world" : "good";
}

void write(const std::string& text) {
  const std::string line =
      json_object({{"text", json_string(text)}, {"verdict", json_string(verdict(text))}});
  std::printf("%s\n", line.c_str());
}

}  // namespace

int main(int count, char** given) {
  if (count > 1 && std::string{given[1]} == "schema") {
    std::fputs(studio_schema().c_str(), stdout);
    return 0;
  }
  write(first_studio());
  for (const char* folder : {"/studios", "/broken"}) {
    for (const auto& path : files_of(std::string{PLACER_TEST_DATA} + folder, ".yaml")) {
      const std::string text = whole_file(path);
      const bool readable = std::ranges::all_of(
          text, [](char c) { return c == '\n' || static_cast<unsigned char>(c) >= 0x20; });
      if (readable && text.size() < 10'000 && path.stem() != "old-letters") write(text);
    }
  }
  Random random{7};
  for (int i = 0; i < kFiles; ++i) {
    auto studio = good_studio();
    const std::size_t changes = pick(random, 3) + (i % 8 == 0 ? 0 : 1);
    for (std::size_t k = 0; k < changes; ++k) change(studio, random);
    std::string text;
    for (const auto& [key, value] : studio[""]) {
      text += key + ": " + written(studio, value) + "\n";
    }
    write(text);
  }
}
