// The files as other programs see them: poppler, qpdf, xmllint and zbar are the outside judges.
#include "report/pdf.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "report/hatch.h"
#include "report/hatching.h"
#include "report/lists.h"
#include "report/paper_outside.h"
#include "report/sheet.h"
#include "report/sheets.h"
#include "sheet_samples.h"

using namespace placer;
using namespace placer::report;
using namespace placer::support;

namespace {

std::size_t count_of(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
    ++count;
  }
  return count;
}

}  // namespace

TEST_CASE("sheets_pdf: qpdf and poppler accept every file, fonts are embedded", "[pdf]") {
  const Folder folder;
  for (const auto& sample : support::sheet_samples()) {
    INFO(sample.name);
    const std::string file = folder.write(sample.name + ".pdf", sheets_pdf(sample.subject()));
    const Ran checked = run("qpdf --check " + file);
    CHECK(checked.status == 0);
    CHECK(checked.out.find("WARNING") == std::string::npos);
    const Ran fonts = run("pdffonts " + file);
    CHECK(fonts.status == 0);
    std::istringstream lines(fonts.out);
    std::string line;
    std::getline(lines, line);
    std::getline(lines, line);
    int count = 0;
    while (std::getline(lines, line)) {
      ++count;
      // Columns emb, sub and uni: embedded, only the letters used, with a way back to text.
      CHECK(line.find("yes yes yes") != std::string::npos);
    }
    CHECK(count >= 2);
    const Ran read = run("pdftotext " + file + " - > /dev/null");
    CHECK(read.status == 0);
    CHECK(read.out == "");  // nothing to complain of
    const Ran info = run("pdfinfo " + file);
    CHECK(info.out.find(sample.plan.name) != std::string::npos);
  }
}

TEST_CASE("sheets_pdf: the same subject gives the same bytes, and the date comes from it",
          "[pdf]") {
  const auto sample = support::everyday_sample();
  const std::string once = sheets_pdf(sample.subject());
  CHECK(once == sheets_pdf(sample.subject()));
  CHECK(once.size() < 300000);
  CHECK(once.find("20251125063000") != std::string::npos);
  auto undated = support::tiny_sample();
  CHECK(sheets_pdf(undated.subject()) == sheets_pdf(undated.subject()));
}

TEST_CASE("sheets_pdf: text comes out in the order of reading", "[pdf]") {
  const Folder folder;
  const auto sample = support::everyday_sample();
  const std::string file = folder.write("s.pdf", sheets_pdf(sample.subject()));
  const Ran text = run("pdftotext -raw -f 2 -l 2 " + file + " -");
  REQUIRE(text.status == 0);
  std::size_t before = 0;
  for (const char* words :
       {"SHELF 1", "of 4, from the bottom", "posts on it: 3 of 100 + 13 mm", "back wall",
        "YOU STAND HERE", "numbers are on the map", "Mug", "clear, 105 mm high", "1: 31 mm",
        "on this shelf", "plan OAK-17", "this bar is 40 mm on paper", "page 2 of"}) {
    INFO(words << " in:\n" << text.out);
    const std::size_t at = text.out.find(words, before);
    REQUIRE(at != std::string::npos);
    before = at;
  }
  const Ran fire = run("pdftotext -raw -f 6 -l 8 " + file + " -");
  before = 0;
  for (const char* words :
       {"Firing: glaze", "cone 10 · top 1285 °C / 2345 °F",
        "This sheet advises; the kiln's own controls decide.", "START", "spy hole clear",
        "carbon monoxide alarm tested", "OFF, checked by", "reads under 100 °C / 212 °F", "BE THERE",
        "from → to", "candling", "body reduction", "+12 h", "EVERY HOUR", "next time:"}) {
    INFO(words << " in:\n" << fire.out);
    const std::size_t at = fire.out.find(words, before);
    REQUIRE(at != std::string::npos);
    before = at;
  }
  CHECK(fire.out.find("Carbon monoxide comes out") != std::string::npos);
}

TEST_CASE("sheets_pdf: at 100 dots an inch in grey every number is at least 4.5 mm high", "[pdf]") {
  const Folder folder;
  const Lettering letters;
  for (const auto& sample : {support::everyday_sample(), support::crowded_sample(),
                             support::bisque_sample(), support::spy_sample()}) {
    const Drawing drawing = sheets(sample.subject(), letters, Paper::both);
    const std::string file = folder.write("s.pdf", pdf(drawing, letters, 0));
    for (const Level& level : sample.plan.firings[0].levels) {
      const std::string name = "firing-1-column-" + std::to_string(level.column + 1) + "-shelf-" +
                               std::to_string(level.level);
      const auto shelf = std::find_if(drawing.pages.begin(), drawing.pages.end(),
                                      [&](const Page& p) { return p.name == name; });
      REQUIRE(shelf != drawing.pages.end());
      const auto picture =
          picture_of(folder, file, static_cast<int>(shelf - drawing.pages.begin()) + 1);
      int numbers = 0;
      for (const Mark& mark : shelf->marks) {
        const Text* text = std::get_if<Text>(&mark);
        if (text == nullptr || !text->bold || text->anchor != Anchor::middle ||
            text->words.find_first_not_of("0123456789") != std::string::npos) {
          continue;
        }
        Box box = box_of(*text);
        box.low.y -= 0.4;
        box.high.y = text->at.y + 0.4;
        INFO(sample.name << ", " << name << ": " << text->words);
        CHECK(ink_height(picture, box) >= 4.5);
        CHECK(ink_height(picture, box) <= 8);
        ++numbers;
      }
      CHECK(numbers == static_cast<int>(level.pieces.size()));
    }
  }
}

TEST_CASE("sheets_pdf: the bar is 40 mm on every paper, and each page is that paper's size",
          "[pdf]") {
  const Folder folder;
  const auto sample = support::spy_sample();
  struct Size {
    Paper paper;
    double wide, high;
  };
  for (const Size& size :
       {Size{Paper::both, 279, 210}, {Paper::a4, 297, 210}, {Paper::letter, 279.4, 215.9}}) {
    PaperOptions options;
    options.paper = size.paper;
    const std::string file = folder.write("s.pdf", sheets_pdf(sample.subject(), options));
    const auto picture = picture_of(folder, file, 1);
    CHECK(picture.width == Approx(size.wide * kDotsPerMm).margin(1.01));
    CHECK(picture.height == Approx(size.high * kDotsPerMm).margin(1.01));
    // The longest run of ink in the foot, right of the middle, left of the square code.
    const double up = (size.high - 210) / 2;
    int longest = 0;
    for (int y = static_cast<int>((size.high - up - 20) * kDotsPerMm);
         y < static_cast<int>((size.high - up - 13) * kDotsPerMm); ++y) {
      int here = 0;
      for (int x = picture.width / 2; x < picture.width; ++x) {
        here = picture.at(x, y) < 160 ? here + 1 : 0;
        longest = std::max(longest, here);
      }
    }
    CAPTURE(size.wide);
    CHECK(longest / kDotsPerMm == Approx(40).margin(0.6));
  }
}

TEST_CASE("sheets_pdf: read down the page, the list keeps each piece's lines together", "[pdf]") {
  const Folder folder;
  const auto sample = support::everyday_sample();
  const std::string file = folder.write("s.pdf", sheets_pdf(sample.subject()));
  const Ran text = run("pdftotext -raw -f 2 -l 2 " + file + " -");
  REQUIRE(text.status == 0);
  std::size_t before = text.out.find("numbers are on the map");
  REQUIRE(before != std::string::npos);
  CHECK(text.out.find("SHELF 1") < before);
  for (const ListLine& line :
       list_lines(sample.subject(), sample.plan.firings[0], sample.plan.firings[0].levels[0])) {
    INFO(line.name << " in:\n" << text.out);
    const std::size_t name = text.out.find(line.name, before);
    REQUIRE(name != std::string::npos);
    const std::size_t detail = text.out.find(line.detail.substr(0, 12), name);
    REQUIRE(detail != std::string::npos);
    // Right below it and its numbers.
    const auto from = text.out.begin() + static_cast<std::ptrdiff_t>(name);
    CHECK(std::count(from, text.out.begin() + static_cast<std::ptrdiff_t>(detail), '\n') <= 2);
    before = detail;
  }
}

namespace {

// A pattern on a square of 18 mm as the chance of ink a few dots away from ink in four directions,
// and how much ink there is.
std::vector<double> signature_of(const Picture& picture, Point low) {
  const int x0 = static_cast<int>(low.x * kDotsPerMm);
  const int y0 = static_cast<int>(low.y * kDotsPerMm);
  constexpr int kSide = 60;
  std::vector<double> signature;
  const auto ink = [&](int x, int y) { return (255 - picture.at(x0 + x, y0 + y)) / 255.0; };
  double total = 0;
  for (int y = 0; y < kSide; ++y) {
    for (int x = 0; x < kSide; ++x) total += ink(x, y);
  }
  signature.push_back(4 * total / (kSide * kSide));
  for (const auto& [dx, dy] : {std::pair{1, 0}, {0, 1}, {1, 1}, {-1, 1}}) {
    for (int lag = 1; lag <= 8; ++lag) {
      double both = 0;
      for (int y = 8; y < kSide - 8; ++y) {
        for (int x = 8; x < kSide - 8; ++x) both += ink(x, y) * ink(x + lag * dx, y + lag * dy);
      }
      signature.push_back(both / total);
    }
  }
  return signature;
}

double apart(const std::vector<double>& a, const std::vector<double>& b) {
  double sum = 0;
  for (std::size_t k = 0; k < a.size(); ++k) sum += std::abs(a[k] - b[k]);
  return sum;
}

}  // namespace

TEST_CASE("hatched: at 100 dots an inch the patterns still differ", "[pdf][hatching]") {
  const Folder folder;
  const Lettering letters;
  Drawing drawing{"patterns", {landscape("p", "p"), landscape("q", "q")}};
  const auto low = [](int pattern) {
    return Point{15 + 30.0 * ((pattern - 1) % 8), 30 + 30.0 * ((pattern - 1) / 8)};
  };
  const Point shift{1.3, 0.7};  // the same patterns elsewhere on the second page
  for (int pattern = 1; pattern <= kHatches; ++pattern) {
    for (std::size_t page = 0; page < 2; ++page) {
      const Point at = low(pattern) + static_cast<double>(page) * shift;
      const Footprint cup{{}, {rectangle(at, at + Point{18, 18})}};
      drawing.pages[page].marks.emplace_back(*hatched(cup, pattern));
    }
  }
  const std::string file = folder.write("p.pdf", pdf(drawing, letters, 0));
  const auto picture = picture_of(folder, file, 1);
  const auto shifted = picture_of(folder, file, 2);
  std::vector<std::vector<double>> signatures;
  for (int pattern = 1; pattern <= kHatches; ++pattern) {
    signatures.push_back(signature_of(picture, low(pattern)));
  }
  for (std::size_t i = 0; i < signatures.size(); ++i) {
    const double same =
        apart(signatures[i], signature_of(shifted, low(static_cast<int>(i) + 1) + shift));
    double nearest = 1e9;
    for (std::size_t j = 0; j < signatures.size(); ++j) {
      if (j == i) continue;
      nearest = std::min(nearest, apart(signatures[i], signatures[j]));
    }
    CAPTURE(i + 1, same, nearest);
    CHECK(nearest > 0.4);
    CHECK(nearest > 1.5 * same);  // the measure itself: a pattern is like itself elsewhere
  }
}

TEST_CASE("ink_height: what the height test would say of numbers that are too small", "[pdf]") {
  const Folder folder;
  const Lettering letters;
  Drawing drawing{"numbers", {landscape("p", "p")}};
  std::vector<Text> numbers;
  for (const double size : {pt(14), pt(16), pt(18), pt(22)}) {
    const double x = 30 + 30 * static_cast<double>(numbers.size());
    numbers.push_back(letters.text({x, 60}, "17", size, true, Anchor::middle));
    drawing.pages[0].marks.emplace_back(numbers.back());
  }
  const auto picture = picture_of(folder, folder.write("n.pdf", pdf(drawing, letters, 0)), 1);
  std::vector<double> heights;
  for (const Text& number : numbers) {
    Box box = box_of(number);
    box.low.y -= 0.4;
    box.high.y = number.at.y + 0.4;
    heights.push_back(ink_height(picture, box));
  }
  CHECK(heights[0] < 4.0);
  CHECK(heights[1] < 4.5);
  CHECK(heights[2] >= 4.5);
  CHECK(heights[3] > 5.4);
}

TEST_CASE("sheets_svg: well-formed, a file a page, words as real text", "[svg]") {
  const Folder folder;
  for (const auto& sample : support::sheet_samples()) {
    std::string command = "xmllint --noout";
    const auto files = sheets_svg(sample.subject());
    REQUIRE(!files.empty());
    std::size_t words = 0;
    for (const File& file : files) {
      command += " " + folder.write(file.name, file.bytes);
      words += count_of(file.bytes, "<text ");
      CHECK(file.bytes.find("nan") == std::string::npos);
    }
    const Ran checked = run(command);
    INFO(sample.name << ": " << checked.out);
    CHECK(checked.status == 0);
    CHECK(words > 20 * files.size());
  }
  const auto sample = support::many_scripts_sample();
  std::string all;
  for (const File& file : sheets_svg(sample.subject())) all += file.bytes;
  CHECK(all.find("茶碗:<") != std::string::npos);
  CHECK(all.find("Tasse à café “Été”") != std::string::npos);
}

TEST_CASE("sheets_pdf: letters that could not be drawn are told once each", "[pdf]") {
  auto sample = support::everyday_sample();
  const std::string nothing = "\xF4\x8F\xBF\xBD";  // private use: no font has it
  sample.batch.pieces[0].name = "Mug " + nothing;
  std::vector<std::string> missing;
  PaperOptions options;
  options.missing_glyphs = &missing;
  sheets_pdf(sample.subject(), options);
  CHECK(missing == std::vector<std::string>{nothing});
}

TEST_CASE("sheets_pdf: the square code on a page says which page it is", "[pdf]") {
  const Folder folder;
  const auto sample = support::everyday_sample();
  const std::string file = folder.write("s.pdf", sheets_pdf(sample.subject()));
  REQUIRE(
      run("pdftoppm -r 200 -gray -f 2 -l 2 -singlefile " + file + " " + folder.path("qr")).status ==
      0);
  const Ran read = run("zbarimg -q --raw " + folder.path("qr.pgm") + " 2>/dev/null; true");
  CHECK(read.out == "OAK-17 firing-1-column-1-shelf-1\n");
}
