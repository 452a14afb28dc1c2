// The drawn sheets as values: where every word stands, before any PDF is made.
#include "report/sheets.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "report/lists.h"
#include "report/piece_list.h"
#include "report/sheet.h"
#include "report/words.h"
#include "sheet_samples.h"

using namespace placer;
using namespace placer::report;

namespace {

bool is_number(const std::string& words) {
  return !words.empty() && words.find_first_not_of("0123456789") == std::string::npos;
}

/// Where a text has ink, within 0.1 mm: digits have no tails.
Box ink_box(const Text& text) {
  Box box = box_of(text);
  if (is_number(text.words)) box.high.y = text.at.y;
  return {box.low + Point{0.1, 0.1}, box.high - Point{0.1, 0.1}};
}

bool overlap(const Box& a, const Box& b) {
  return a.low.x < b.high.x && b.low.x < a.high.x && a.low.y < b.high.y && b.low.y < a.high.y;
}

std::vector<Text> texts_of(const Page& page) {
  std::vector<Text> texts;
  for (const Mark& mark : page.marks) {
    if (const Text* text = std::get_if<Text>(&mark)) texts.push_back(*text);
  }
  return texts;
}

/// Of one page, with spaces between them.
std::string words_of(const Page& page) {
  std::string words;
  for (const Text& text : texts_of(page)) words += text.words + ' ';
  return words;
}

std::vector<Point> points_of(const Mark& mark) {
  std::vector<Point> points;
  if (const auto* strokes = std::get_if<Strokes>(&mark)) {
    for (const auto& [a, b] : strokes->lines) points.insert(points.end(), {a, b});
  } else if (const auto* path = std::get_if<Path>(&mark)) {
    points = path->corners;
  } else if (const auto* circle = std::get_if<Circle>(&mark)) {
    const Point r{circle->radius, circle->radius};
    points = {circle->centre - r, circle->centre + r};
  } else {
    const Box box = box_of(std::get<Text>(mark));
    points = {box.low, box.high};
  }
  return points;
}

const std::vector<support::SheetSample>& samples() {
  static const auto all = support::sheet_samples();
  return all;
}

const Lettering& letters() {
  static const Lettering one;
  return one;
}

const Drawing& drawing_of(std::size_t sample) {
  static std::vector<Drawing> all;
  if (all.empty()) {
    for (const auto& one : samples()) all.push_back(sheets(one.subject(), letters(), Paper::both));
  }
  return all.at(sample);
}

constexpr std::size_t kSamples = 9;

}  // namespace

TEST_CASE("sheets: no words over other words", "[sheets]") {
  REQUIRE(samples().size() == kSamples);
  const auto sample = GENERATE(range(std::size_t{0}, kSamples));
  for (const Page& page : drawing_of(sample).pages) {
    const auto texts = texts_of(page);
    std::string clashes;
    for (std::size_t i = 0; i < texts.size(); ++i) {
      for (std::size_t j = i + 1; j < texts.size(); ++j) {
        if (overlap(ink_box(texts[i]), ink_box(texts[j]))) {
          clashes += '"' + texts[i].words + "\" over \"" + texts[j].words + "\"\n";
        }
      }
    }
    INFO(samples()[sample].name << ", " << page.name);
    CHECK(clashes == "");
  }
}

TEST_CASE("sheets: everything keeps within the margins and below the clip", "[sheets]") {
  const auto sample = GENERATE(range(std::size_t{0}, kSamples));
  const auto paper = GENERATE(Paper::both, Paper::a4, Paper::letter);
  const Drawing drawing = sheets(samples()[sample].subject(), letters(), paper);
  for (const Page& page : drawing.pages) {
    std::string outside;
    for (const Mark& mark : page.marks) {
      for (const Point p : points_of(mark)) {
        if (p.x >= kMargin - 0.5 && p.x <= page.width - kMargin + 0.5 && p.y >= kClip - 1.5 &&
            p.y <= page.height - kMargin + 1.2) {
          continue;
        }
        const Text* text = std::get_if<Text>(&mark);
        outside += (text != nullptr ? text->words : "a line") + " at " + std::to_string(p.x) +
                   ", " + std::to_string(p.y) + "\n";
      }
    }
    INFO(samples()[sample].name << ", " << page.name);
    CHECK(outside == "");
  }
}

TEST_CASE("sheets: every piece has its number on the plan, large enough for an arm's length",
          "[sheets]") {
  const auto sample = GENERATE(range(std::size_t{0}, kSamples));
  const auto subject = samples()[sample].subject();
  const bool beads = samples()[sample].name == "beads";
  for (std::size_t i = 0; i < subject.plan.firings.size(); ++i) {
    for (const Level& level : subject.plan.firings[i].levels) {
      const std::string name = "firing-" + std::to_string(i + 1) + "-column-" +
                               std::to_string(level.column + 1) + "-shelf-" +
                               std::to_string(level.level);
      const auto& pages = drawing_of(sample).pages;
      const auto page = std::find_if(pages.begin(), pages.end(),
                                     [&](const Page& one) { return one.name == name; });
      REQUIRE(page != pages.end());
      const auto texts = texts_of(*page);
      for (const PlacedPiece& piece : level.pieces) {
        const bool there = std::any_of(texts.begin(), texts.end(), [&](const Text& text) {
          return text.words == std::to_string(piece.number) && text.bold &&
                 text.anchor == Anchor::middle && (beads || text.size * kCapitals >= 4.5);
        });
        INFO(samples()[sample].name << ", " << name << ", piece " << piece.number);
        CHECK(there);
      }
    }
  }
}

TEST_CASE("sheets: no lettering smaller than 8 points but the numbers of beads", "[sheets]") {
  const auto sample = GENERATE(range(std::size_t{0}, kSamples));
  for (const Page& page : drawing_of(sample).pages) {
    for (const Text& text : texts_of(page)) {
      if (is_number(text.words) && samples()[sample].name == "beads") continue;
      INFO(samples()[sample].name << ", " << page.name << ": " << text.words);
      CHECK(text.size >= pt(8) - 1e-9);
    }
  }
}

TEST_CASE("sheets: left-out pieces come first of all, each with its reason", "[sheets]") {
  const auto sample = GENERATE(range(std::size_t{0}, kSamples));
  const auto& subject = samples()[sample];
  if (subject.plan.left_out.empty()) return;
  std::string words;
  for (const Text& text : texts_of(drawing_of(sample).pages.front())) words += text.words + ' ';
  const auto fetch = std::min(words.find("FETCH FIRST"), words.find("WHAT GOES"));
  CHECK(words.find("LEFT OUT") < fetch);
  CHECK(words.find(subject.plan.left_out[0].reason.substr(0, 12)) < fetch);
}

TEST_CASE("sheets: names of pages are all different", "[sheets]") {
  const auto sample = GENERATE(range(std::size_t{0}, kSamples));
  std::set<std::string> names;
  for (const Page& page : drawing_of(sample).pages) {
    INFO(page.name);
    CHECK(names.insert(page.name).second);
  }
}

TEST_CASE("sheets: paper sizes", "[sheets]") {
  const auto& subject = samples()[0];
  const auto size = [&](Paper paper) {
    const Drawing drawing = sheets(subject.subject(), letters(), paper);
    return std::pair{Point{drawing.pages.front().width, drawing.pages.front().height},
                     Point{drawing.pages.back().width, drawing.pages.back().height}};
  };
  CHECK(size(Paper::both) == std::pair{Point{279, 210}, Point{210, 279}});
  CHECK(size(Paper::a4) == std::pair{Point{297, 210}, Point{210, 297}});
  CHECK(size(Paper::letter) == std::pair{Point{279.4, 215.9}, Point{215.9, 279.4}});
}

TEST_CASE("sheets: a stack says how many, a pot with its lid does not", "[sheets]") {
  const auto has = [](const support::SheetSample& sample, const std::string& words) {
    const Drawing drawing = sheets(sample.subject(), letters(), Paper::both);
    for (const Page& page : drawing.pages) {
      for (const Text& text : texts_of(page)) {
        if (text.words == words) return true;
      }
    }
    return false;
  };
  CHECK(has(support::bisque_sample(), "×4"));
  auto lidded = support::everyday_sample();
  PlacedPiece& jar = lidded.plan.firings[0].levels[0].pieces[0];
  jar.stacked = 2;
  jar.stack = {jar.piece, 4};
  CHECK_FALSE(has(lidded, "×2"));
}

TEST_CASE("sheets: the head of every shelf page names its firing", "[sheets]") {
  const auto sample = GENERATE(range(std::size_t{0}, kSamples));
  const auto subject = samples()[sample].subject();
  for (const Page& page : drawing_of(sample).pages) {
    if (page.name.find("-shelf-") == std::string::npos) continue;
    const auto firing = static_cast<std::size_t>(page.name[7] - '1');
    std::string head;
    for (const Text& text : texts_of(page)) {
      if (text.at.y < kClip + 14) head += text.words + ' ';
    }
    INFO(samples()[sample].name << ", " << page.name << ": " << head);
    CHECK(head.find(capitalised(firing_name(subject, firing))) != std::string::npos);
  }
}

TEST_CASE("sheets: each firing's pages carry the day of that firing", "[sheets]") {
  auto sample = support::bisque_sample();                    // three loads
  sample.forecasts[0].schedule.wish.starts_at = 1764052200;  // Tuesday 25 November 2025
  sample.forecasts[1].schedule.wish.starts_at = 1764052200 + 4 * 86400;
  sample.forecasts[2].schedule.wish.starts_at.reset();
  const Drawing drawing = sheets(sample.subject(), letters(), Paper::both);
  for (const Page& page : drawing.pages) {
    if (page.name.find("firing-") != 0) continue;
    const std::string words = words_of(page);
    CAPTURE(page.name, words);
    CHECK((words.find("· Tue 25 Nov 2025") != std::string::npos) == (page.name[7] == '1'));
    CHECK((words.find("· Sat 29 Nov 2025") != std::string::npos) == (page.name[7] == '2'));
  }
}

TEST_CASE("head_words: stacks are counted as stacks, single pieces as pieces", "[sheets]") {
  const auto sample = support::bisque_sample();
  const Subject subject = sample.subject();
  PlacedPiece piece;
  const auto head = [&](std::vector<int> stack, std::size_t count) {
    piece.piece = stack.front();
    piece.stacked = static_cast<int>(stack.size());
    piece.stack = std::move(stack);
    const ListLine line{std::vector<const PlacedPiece*>(count, &piece), piece_name(subject, piece),
                        "", false};
    return head_words(subject, line);
  };
  CHECK(head({2, 2, 2}, 2) == "2 stacks of 3 Plate");
  CHECK(head({0, 0}, 1) == "1 stack of 2 Bowl");
  CHECK(head({1}, 12) == "12 Mug");
  CHECK(head({2, 2, 0}, 1) == "1 mixed stack of 3");
  CHECK(head({3, 1}, 2) == "2 Jar with lid with Mug");
}

TEST_CASE("sheets: a load that starts before the kiln is empty is called out", "[sheets]") {
  auto sample = support::bisque_sample();
  const auto words = [&] {
    std::string all;
    const Drawing drawing = sheets(sample.subject(), letters(), Paper::both);
    for (const Page& page : drawing.pages) {
      if (page.name.find("all-loads") == 0) all += words_of(page);
    }
    return all;
  };
  for (std::size_t i = 0; i < 3; ++i) {
    sample.forecasts[i].schedule.wish.starts_at =
        1764052200 + static_cast<long long>(i) * 9 * 86400;
  }
  CHECK(words().find("THIS CANNOT BE") == std::string::npos);
  sample.forecasts[1].schedule.wish.starts_at = 1764052200 + 3600;
  CHECK(words().find("THIS CANNOT BE: bisque, load 2 of 3 is to start") != std::string::npos);
}

TEST_CASE("sheets: a column that holds nothing is named", "[sheets]") {
  auto sample = support::bisque_sample();
  auto& columns = sample.batch.kiln.columns;
  columns.push_back(columns.back());
  columns.back().name = "spare";
  const Drawing drawing = sheets(sample.subject(), letters(), Paper::both);
  const auto first = std::find_if(drawing.pages.begin(), drawing.pages.end(),
                                  [](const Page& page) { return page.name == "firing-1-fetch"; });
  REQUIRE(first != drawing.pages.end());
  CHECK(words_of(*first).find("nothing stands in: spare") != std::string::npos);
}

TEST_CASE("sheets: the first page says pieces and posts of every shelf", "[sheets]") {
  const auto sample = GENERATE(range(std::size_t{0}, kSamples));
  const auto subject = samples()[sample].subject();
  for (std::size_t i = 0; i < subject.plan.firings.size(); ++i) {
    const auto& pages = drawing_of(sample).pages;
    const std::string name = "firing-" + std::to_string(i + 1) + "-fetch";
    const auto page =
        std::find_if(pages.begin(), pages.end(), [&](const Page& one) { return one.name == name; });
    REQUIRE(page != pages.end());
    const std::string words = words_of(*page);
    std::size_t told = 0;
    for (std::size_t at = words.find("posts on it"); at != std::string::npos;
         at = words.find("posts on it", at + 1)) {
      ++told;
    }
    INFO(samples()[sample].name << ", " << name << ": " << words);
    CHECK(told == subject.plan.firings[i].levels.size());
  }
}

TEST_CASE("sheets: on the first page each heading stands over the words of its own shelf",
          "[sheets]") {
  const auto sample = GENERATE(range(std::size_t{0}, kSamples));
  const auto subject = samples()[sample].subject();
  if (subject.batch.kiln.columns.size() > 1) return;
  for (std::size_t i = 0; i < subject.plan.firings.size(); ++i) {
    const std::string name = "firing-" + std::to_string(i + 1) + "-fetch";
    int shelf = 0;  // of the last heading above
    bool feet = false;
    for (const Page& page : drawing_of(sample).pages) {
      if (page.name != name) continue;
      for (const Mark& mark : page.marks) {
        const Text* text = std::get_if<Text>(&mark);
        if (text == nullptr) continue;
        if (text->words.rfind("SHELF ", 0) == 0) shelf = std::stoi(text->words.substr(6));
        if (text->words.rfind("feet under it", 0) == 0) {
          CHECK(shelf == 1);
          feet = true;
        }
      }
    }
    INFO(samples()[sample].name << ", " << name);
    CHECK(feet == !subject.plan.firings[i].floor_posts.empty());
  }
}

TEST_CASE("sheets: a list of two hundred kinds is whole on the sheet of all loads", "[sheets]") {
  const std::size_t kinds = 7;
  REQUIRE(samples()[kinds].name == "kinds");
  std::string words;
  for (const Page& page : drawing_of(kinds).pages) {
    if (page.name.rfind("all-loads", 0) == 0) words += words_of(page);
  }
  std::vector<int> counts(200);
  for (const KilnLoad& load : samples()[kinds].plan.firings) {
    for (const Level& level : load.levels) {
      for (const PlacedPiece& piece : level.pieces) {
        ++counts[static_cast<std::size_t>(piece.piece)];
      }
    }
  }
  std::string missing;
  for (std::size_t i = 0; i < counts.size(); ++i) {
    const std::string name = "no. " + std::to_string(i + 1);
    const bool there =
        words.find(name + ",") != std::string::npos || words.find(name + " ") != std::string::npos;
    if (counts[i] > 0 && !there) missing += name + ' ';
  }
  CHECK(missing == "");
  CHECK(words.find("get 2 more") != std::string::npos);
  CHECK(words.find("some are to be bought") != std::string::npos);
  CHECK(words.find("days") != std::string::npos);
}

TEST_CASE("numbers_words: runs of three and more are shortened", "[sheets]") {
  CHECK(numbers_words({1}) == "1");
  CHECK(numbers_words({1, 2}) == "1 2");
  CHECK(numbers_words({1, 2, 3, 7, 9, 10, 11, 12}) == "1–3 7 9–12");
  CHECK(numbers_words({5, 6, 8, 11}) == "5 6 8 11");
  CHECK(numbers_words({}) == "");
}
