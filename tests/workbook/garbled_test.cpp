#include <catch2/catch.hpp>

#include "placer/base/random.h"
#include "placer/workbook/pieces_csv.h"
#include "placer/workbook/tidy.h"
#include "support.h"

using namespace placer;
using namespace placer::workbook;
using namespace placer::workbook::testing;

namespace {

constexpr std::uint64_t kSeed = 20261125;

std::size_t pick(Random& random, std::size_t n) {
  return static_cast<std::size_t>(random.below(n));
}

/// One change of the kind that fingers, mailers and editors make.
void garble(std::string& text, Random& random) {
  static const std::vector<std::string> kBits = {
      ":",    ": ",   "-",    "- ",    "[",     "]",    "{",   "}",           ",",    "#",
      " #x",  "\"",   "'",    "&a",    "*a",    "!",    "|",   ">",           "\t",   "\n",
      "\r",   "%",    "@",    "`",     "~",     "?",    "? ",  "<<",          "é",    "茶",
      "\xff", "\xc3", "\x04", "---\n", "...\n", "0",    "-1",  "1e300",       ".nan", " mm",
      " in",  " F",   "06",   "\\",    "  ",    "null", "yes", "\xEF\xBB\xBF"};
  const std::size_t at = pick(random, text.size() + 1);
  switch (random.below(6)) {
    case 0:
      text.insert(at, kBits[pick(random, kBits.size())]);
      break;
    case 1:
      text.erase(at, 1 + pick(random, 6));
      break;
    case 2:
      text.replace(at, std::min<std::size_t>(1, text.size() - at),
                   kBits[pick(random, kBits.size())]);
      break;
    case 3:
      text.insert(at, text.substr(pick(random, text.size() + 1), pick(random, 40)));
      break;
    case 4:
      text.resize(at);
      break;
    default:
      if (at < text.size()) text[at] = static_cast<char>(random.below(256));
  }
  if (text.empty()) text = "a";
}

/// What must hold whatever the text: an answer, findings with places, a studio or a mistake.
void require_sense(const std::string& text) {
  const StudioResult result = read(text);
  if (result.studio.has_value() == has_mistakes(result.findings)) FAIL("neither or both");
  for (const Finding& finding : result.findings) {
    if (finding.message.empty() || finding.code.empty()) FAIL("no words");
    if (finding.where.line < 1) FAIL("no place: " << finding.message);
    if (show(finding, text, true).empty()) FAIL("nothing shown");
  }
  if (!result.studio) return;
  const Batch& batch = result.studio->batch;
  if (batch.loads.empty() || batch.clays.empty()) FAIL("an empty batch");
  if (batch.loads.size() != result.studio->firings.size()) FAIL("firings without loads");
  for (const PieceKind& piece : batch.pieces) {
    if (!(piece.height.mm() > 0) || !(piece.mass.kg() > 0) || piece.count < 1) {
      FAIL("a piece without sense");
    }
  }
}

}  // namespace

TEST_CASE("two thousand garbled studio files neither crash nor hang, and each is answered") {
  Random random{kSeed};
  std::vector<std::string> good = {first_studio()};
  for (const auto& path : files_of(PLACER_TEST_DATA "/studios", ".yaml")) {
    if (std::filesystem::file_size(path) < 8000) good.push_back(whole_file(path));
  }
  for (int i = 0; i < 2000; ++i) {
    std::string text = good[pick(random, good.size())];
    const std::size_t changes = 1 + pick(random, 4);
    for (std::size_t k = 0; k < changes; ++k) garble(text, random);
    INFO("text " << i);
    require_sense(text);
  }
}

TEST_CASE("texts of random characters are answered") {
  Random random{kSeed + 1};
  const std::string letters = ":-[]{},#\"' \n\tab1&*!|>%@?é";
  for (int i = 0; i < 1000; ++i) {
    std::string text;
    const std::size_t length = pick(random, 60);
    for (std::size_t k = 0; k < length; ++k) text += letters[pick(random, letters.size())];
    INFO(text);
    require_sense(text);
  }
}

TEST_CASE("garbled files are tidied without loss, or left alone") {
  Random random{kSeed + 2};
  for (int i = 0; i < 300; ++i) {
    std::string text = first_studio();
    garble(text, random);
    const Tidied tidied = tidy(text, "s.yaml");
    if (tidied.changes.empty()) {
      CHECK(tidied.text == text);
    } else {
      CHECK(tidy(tidied.text, "s.yaml").changes.empty());
    }
  }
}

TEST_CASE("garbled tables of pieces are answered") {
  Random random{kSeed + 3};
  const std::string table =
      "name;count;across;height;weight (g);glaze\n\"Mug, tall\";24;90,5;105;350;clear\n"
      "Bowl;6;150;70;700;tenmoku\n";
  for (int i = 0; i < 1000; ++i) {
    std::string text = table;
    for (std::size_t k = 0; k <= pick(random, 3); ++k) garble(text, random);
    INFO(text);
    const CsvPieces pieces = read_pieces_csv(text, "p.csv");
    CHECK((has_mistakes(pieces.findings) ? pieces.yaml.empty() : pieces.rows >= 0));
  }
}
