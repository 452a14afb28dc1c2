// What a map marks: tight gaps, drops, stacks, heights, and a key that shows the marks drawn.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <sstream>

#include "report/ladder.h"
#include "report/lists.h"
#include "report/onto_paper.h"
#include "report/paper_outside.h"
#include "report/pdf.h"
#include "report/sheets.h"
#include "report/standing.h"
#include "report/tight_gaps.h"
#include "report/words.h"
#include "sheet_samples.h"

using namespace placer;
using namespace placer::report;
using support::Picture;

namespace {

const Page& page_named(const Drawing& drawing, const std::string& name) {
  const auto page = std::find_if(drawing.pages.begin(), drawing.pages.end(),
                                 [&](const Page& one) { return one.name == name; });
  REQUIRE(page != drawing.pages.end());
  return *page;
}

std::string words_of(const Page& page) {
  std::string words;
  for (const Mark& mark : page.marks) {
    if (const Text* text = std::get_if<Text>(&mark)) words += text->words + ' ';
  }
  return words;
}

// Black closed paths of the drop's 25 corners.
std::ptrdiff_t drops_on(const Page& page) {
  return std::count_if(page.marks.begin(), page.marks.end(), [](const Mark& mark) {
    const Path* path = std::get_if<Path>(&mark);
    return path != nullptr && path->fill == Fill::black && path->corners.size() == 25;
  });
}

std::ptrdiff_t arrows_on(const Page& page) {
  return std::count_if(page.marks.begin(), page.marks.end(), [](const Mark& mark) {
    const Path* path = std::get_if<Path>(&mark);
    return path != nullptr && path->fill == Fill::black && path->corners.size() == 3;
  });
}

// Hollow ones, as beside a glaze that runs; the white ground behind an arrow has no pen.
std::ptrdiff_t hollow_arrows_on(const Page& page) {
  return std::count_if(page.marks.begin(), page.marks.end(), [](const Mark& mark) {
    const Path* path = std::get_if<Path>(&mark);
    return path != nullptr && path->fill == Fill::white && path->corners.size() == 3 &&
           path->pen.width == 0.35;
  });
}

/// "4 1/2", "5/8", "17.5": the value of what is printed.
double value_of(const std::string& words) {
  double sum = 0;
  std::istringstream in(words);
  for (std::string part; in >> part;) {
    const auto slash = part.find('/');
    sum += slash == std::string::npos ? std::stod(part)
                                      : std::stod(part) / std::stod(part.substr(slash + 1));
  }
  return sum;
}

Length mm(double value) { return Length::from_mm(value); }

support::SheetSample three_in_a_row(double first, double second) {
  auto sample = support::spy_sample();
  sample.batch.kiln.keep_outs.clear();
  for (Level& one : sample.plan.firings[0].levels) one.cones.clear();
  Level& level = sample.plan.firings[0].levels[1];
  level.pieces.resize(3);
  const double x[] = {-150, -150 + 80 + first, -150 + 160 + first + second};
  for (int i = 0; i < 3; ++i) {
    PlacedPiece& piece = level.pieces[static_cast<std::size_t>(i)];
    piece.piece = 0;
    piece.place = {{x[i], 0}, 0};
  }
  return sample;
}

}  // namespace

TEST_CASE("tight_gaps: within a millimetre of the rule, by the glaze that is there", "[marks]") {
  auto sample = three_in_a_row(12.4, 14);  // cups in copper red, which runs: 12 mm
  const KilnLoad& load = sample.plan.firings[0];
  const TightGaps tight = tight_gaps(sample.batch, load, load.levels[1]);
  REQUIRE(tight.bars.size() == 1);
  CHECK_FALSE(tight.least);
  REQUIRE(tight.least_runny);
  CHECK(tight.least_runny->mm() == Approx(12.4));
  CHECK(tight.bars[0].from.x == Approx(-110).margin(2));
  CHECK(tight.bars[0].to.x == Approx(-97.6).margin(2));
  const auto lines = tight_words(tight, false);
  REQUIRE(lines.size() == 1);
  CHECK(lines[0].words == "beside runny glaze: 12.5 mm, a little finger's width, no less");
  CHECK(lines[0].runny);
  const Lettering letters;
  const Drawing drawing = sheets(sample.subject(), letters, Paper::both);
  const Page& page = page_named(drawing, "firing-1-column-1-shelf-2");
  CHECK(hollow_arrows_on(page) == 4);  // two at the gap, two in the key
  CHECK(arrows_on(page) == 0);
}

TEST_CASE("gap_words: a thing to hold between the pots", "[marks]") {
  CHECK(gap_words(mm(2), false) == "2 mm");
  CHECK(gap_words(mm(6), false) == "6 mm, a pencil's width");
  CHECK(gap_words(mm(6), true) == "1/4 in (6 mm), a pencil's width");
  CHECK(gap_words(mm(12), false) == "12 mm, a little finger's width");
  CHECK(gap_words(mm(18), false) == "18 mm, a finger's width");
  CHECK(gap_words(mm(35), false) == "35 mm, 2 fingers");
}

TEST_CASE("sheets: every piece with a runny glaze has its drop on the map and in the list",
          "[marks]") {
  const auto sample = support::everyday_sample();
  const Lettering letters;
  const Drawing drawing = sheets(sample.subject(), letters, Paper::both);
  int pages = 0;
  for (const Level& level : sample.plan.firings[0].levels) {
    const Page& page =
        page_named(drawing, "firing-1-column-1-shelf-" + std::to_string(level.level));
    std::ptrdiff_t runny = 0;
    for (const PlacedPiece& piece : level.pieces) {
      runny += sample.batch.pieces[static_cast<std::size_t>(piece.piece)].glaze == 4 ? 1 : 0;
    }
    INFO(page.name);
    // One a piece, one in its line of the list, one in the key.
    CHECK(drops_on(page) == (runny > 0 ? runny + 2 : 0));
    CHECK((words_of(page).find("a cookie under it") != std::string::npos) == (runny > 0));
    CHECK((words_of(page).find("on a cookie") != std::string::npos) == (runny > 0));
    pages += runny > 0 ? 1 : 0;
  }
  CHECK(pages > 0);
  CHECK(drops_on(page_named(drawing, "firing-1-fetch")) == 0);
}

TEST_CASE("sheets: the key names each place to keep clear, with dashes only where the map has them",
          "[marks]") {
  auto sample = support::everyday_sample();
  sample.batch.kiln.keep_outs.clear();
  support::add_keep_out(sample.batch.kiln, "flue", {{0, 255}, 30}, 0, 700);  // off the shelf
  const Lettering letters;
  const auto dashes = [](const Page& page) {
    return std::count_if(page.marks.begin(), page.marks.end(), [](const Mark& mark) {
      const auto* path = std::get_if<Path>(&mark);
      const auto* circle = std::get_if<Circle>(&mark);
      return (path != nullptr && !path->pen.dashes.empty()) ||
             (circle != nullptr && !circle->pen.dashes.empty());
    });
  };
  const std::string name = "firing-1-column-1-shelf-2";
  const Drawing beside = sheets(sample.subject(), letters, Paper::both);
  CHECK(words_of(page_named(beside, name)).find("flue, beside the shelf") != std::string::npos);
  CHECK(dashes(page_named(beside, name)) == 0);
  sample.batch.kiln.keep_outs[0].area.discs[0].centre = {0, 200};
  const Drawing over = sheets(sample.subject(), letters, Paper::both);
  CHECK(words_of(page_named(over, name)).find("flue: keep clear") != std::string::npos);
  CHECK(dashes(page_named(over, name)) >= 2);  // the ring and the one in the key
}

TEST_CASE("ladder_of: the numbers printed add up to the roof", "[marks]") {
  for (auto sample : support::sheet_samples()) {
    for (const bool inches : {false, true}) {
      if (inches) {  // heights that do not come out even
        sample.batch.kiln.height = Length::from_mm(sample.batch.kiln.height.mm() + 0.3);
        for (KilnLoad& load : sample.plan.firings) {
          for (Level& level : load.levels) {
            level.shelf_top = Length::from_mm(level.shelf_top.mm() * 1.00071);
          }
        }
      }
      for (const KilnLoad& load : sample.plan.firings) {
        const int columns = static_cast<int>(sample.batch.kiln.columns.size());
        for (int column = 0; column < columns; ++column) {
          const Ladder ladder = ladder_of(sample.batch, load, column, inches);
          const auto printed = [&](Length length) { return value_of(bare_length(length, inches)); };
          REQUIRE(!ladder.rungs.empty());
          double sum = printed(ladder.rungs[0].bottom);
          for (const Rung& rung : ladder.rungs) {
            sum += printed(rung.thick);
            CHECK(sum == printed(rung.top));
            if (!inches && &rung != &ladder.rungs.back()) {
              CHECK(std::abs(rung.room.mm() - rung.level->clear_height.mm()) <= 0.5);
            }
            sum += printed(rung.room);
          }
          CHECK(sum + printed(ladder.kept) == printed(ladder.roof));
        }
      }
    }
  }
}

TEST_CASE("sheets: gaps beside a runny glaze have a mark of their own, as the key says",
          "[marks]") {
  const auto sample = support::everyday_sample();
  const Lettering letters;
  const Drawing drawing = sheets(sample.subject(), letters, Paper::both);
  const KilnLoad& load = sample.plan.firings[0];
  int both = 0;
  for (const Level& level : load.levels) {
    const TightGaps tight = tight_gaps(sample.batch, load, level);
    if (tight.everywhere) continue;
    const auto runny = std::count_if(tight.bars.begin(), tight.bars.end(),
                                     [](const TightGap& gap) { return gap.runny; });
    const auto plain = static_cast<std::ptrdiff_t>(tight.bars.size()) - runny;
    const Page& page =
        page_named(drawing, "firing-1-column-1-shelf-" + std::to_string(level.level));
    INFO(page.name);
    // Two at each gap, two in the key where there is one.
    CHECK(hollow_arrows_on(page) == 2 * runny + (runny > 0 ? 2 : 0));
    CHECK(arrows_on(page) >= 2 * plain + (plain > 0 ? 2 : 0));
    both += runny > 0 || plain > 0 ? 1 : 0;
  }
  CHECK(both > 0);
}

TEST_CASE("room_words: in inches what is printed adds up", "[marks]") {
  auto sample = support::bisque_sample();
  sample.inches = true;
  const KilnLoad& load = sample.plan.firings[0];
  for (const Level& level : load.levels) {
    const std::string words = room_words(sample.subject(), load, level);
    INFO(words);
    const std::string room = words.substr(5, words.find(" in (") - 5);
    const auto at = words.find("tallest ") + 8;
    const auto plus = words.find(" + ");
    const auto free = words.find(" free");
    CHECK(value_of(room) == value_of(words.substr(at, plus - at)) +
                                value_of(words.substr(plus + 3, free - plus - 3)));
  }
}

TEST_CASE("room_words: what is free, and what is kept under the lid", "[marks]") {
  auto sample = support::bisque_sample();
  const KilnLoad& load = sample.plan.firings[0];
  const Level& top = load.levels[2];
  CHECK(open_above(load, top));
  const std::string words = room_words(sample.subject(), load, top);
  CHECK(words.find("room ") == 0);
  CHECK(words.find(", 25 mm kept under the lid") != std::string::npos);
  const std::string low = room_words(sample.subject(), load, load.levels[0]);
  CHECK(low == "room 163 mm: tallest 114 + 49 free");
}

TEST_CASE("joints: where each piece of a stack ends, seen from the side", "[marks]") {
  auto sample = support::bisque_sample();
  const KilnLoad& load = sample.plan.firings[0];
  const auto of_kind = [&](int kind) {
    for (const PlacedPiece& piece : load.levels[0].pieces) {
      if (piece.piece == kind) return joints(sample.batch, load, piece);
    }
    return std::vector<Length>{};
  };
  const double size = scale(sample.batch.clays[0].shrinkage, Stage::bisque, Stage::dry);
  const auto bowls = of_kind(0);  // four nested, 18 mm each
  REQUIRE(bowls.size() == 3);
  CHECK(bowls[0].mm() == Approx(60 * size));
  CHECK(bowls[1].mm() - bowls[0].mm() == Approx(18 * size));
  const auto mugs = of_kind(1);  // rim to rim
  REQUIRE(mugs.size() == 1);
  CHECK(mugs[0].mm() == Approx(100 * size));
  CHECK(of_kind(3).empty());
}

TEST_CASE("build_words: a mixed stack is told from the bottom up", "[marks]") {
  const auto sample = support::bisque_sample();
  PlacedPiece piece;
  piece.piece = 2;
  piece.stacked = 5;
  piece.stack = {2, 2, 2, 0, 0};
  CHECK(build_words(sample.subject(), piece) ==
        "from the bottom: 3 Plate lying on one another, then 2 Bowl each in the one below");
  piece.stack = {0, 0};
  piece.piece = 0;
  CHECK(build_words(sample.subject(), piece) == "each in the one below");
  piece.stack = {0};
  CHECK(build_words(sample.subject(), piece) == "");
}

TEST_CASE("list_lines: like pieces share a line, however they are numbered", "[marks]") {
  const auto sample = support::everyday_sample();
  const KilnLoad& load = sample.plan.firings[0];
  for (const Level& level : load.levels) {
    std::size_t pieces = 0;
    std::vector<int> kinds;
    for (const ListLine& line : list_lines(sample.subject(), load, level)) {
      pieces += line.pieces.size();
      kinds.push_back(line.pieces[0]->piece);
      for (std::size_t i = 1; i < line.pieces.size(); ++i) {
        CHECK(line.pieces[i - 1]->number < line.pieces[i]->number);
        CHECK(line.pieces[i]->piece == line.pieces[0]->piece);
      }
    }
    CHECK(pieces == level.pieces.size());
    std::sort(kinds.begin(), kinds.end());
    CHECK(std::adjacent_find(kinds.begin(), kinds.end()) == kinds.end());
  }
}

TEST_CASE("draw_inside: two shapes that touch keep both outlines, and a handle is open to its pot",
          "[marks]") {
  const support::Folder folder;
  const Lettering letters;
  Drawing drawing{"touching", {landscape("p", "p")}};
  Page& page = drawing.pages[0];
  // Two discs that touch at (60, 60); the right one has a handle upwards.
  Footprint left{{{{50, 60}, 10}}, {}};
  Footprint right{{{{70, 60}, 10}}, {rectangle(Point{67, 40}, Point{73, 60})}};
  draw_inside(page, left, 1);
  draw_inside(page, right, 1);
  const Picture picture =
      support::picture_of(folder, folder.write("t.pdf", pdf(drawing, letters, 0)), 1);
  const auto grey = [&](double x, double y) {
    return picture.at(static_cast<int>(x * support::kDotsPerMm),
                      static_cast<int>(y * support::kDotsPerMm));
  };
  CHECK(grey(59.5, 60) < 100);  // the left one's edge
  CHECK(grey(60.5, 60) < 100);  // the right one's
  CHECK(grey(57.5, 60) > 200);  // white inside
  CHECK(grey(62.5, 60) > 200);
  CHECK(grey(70, 50) > 200);    // no line where the handle leaves the body
  CHECK(grey(67.4, 45) < 100);  // the handle's side
  CHECK(grey(66.2, 45) > 200);  // nothing outside of it
  CHECK(grey(70, 40.4) < 100);  // its end
}
