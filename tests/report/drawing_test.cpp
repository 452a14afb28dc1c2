#include "report/drawing.h"

#include <catch2/catch.hpp>

#include "report/svg.h"

using namespace placer;
using namespace placer::report;

TEST_CASE("box_of: anchors move the box, capitals and tails give its height", "[drawing]") {
  const Text text{{10, 20}, "Mug", 4, Anchor::left, false, 9};
  CHECK(box_of(text).low.x == Approx(10));
  CHECK(box_of(text).high.x == Approx(19));
  CHECK(box_of(text).low.y == Approx(20 - 4 * kCapitals));
  CHECK(box_of(text).high.y == Approx(20 + 4 * kDescent));
  Text middle = text;
  middle.anchor = Anchor::middle;
  CHECK(box_of(middle).low.x == Approx(5.5));
  Text right = text;
  right.anchor = Anchor::right;
  CHECK(box_of(right).low.x == Approx(1));
}

TEST_CASE("move: every kind of mark goes along", "[drawing]") {
  const Point by{3, -2};
  Mark strokes = Strokes{{{{0, 0}, {1, 1}}}, {}};
  Mark path = Path{{{0, 0}, {5, 0}, {5, 5}}, true, {}, Fill::none};
  Mark circle = Circle{{1, 1}, 2, {}, Fill::none};
  Mark text = Text{{7, 7}, "x", 3, Anchor::left, false, 1};
  for (Mark* mark : {&strokes, &path, &circle, &text}) move(*mark, by);
  CHECK(std::get<Strokes>(strokes).lines[0].second == Point{4, -1});
  CHECK(std::get<Path>(path).corners[1] == Point{8, -2});
  CHECK(std::get<Circle>(circle).centre == Point{4, -1});
  CHECK(std::get<Text>(text).at == Point{10, 5});
}

TEST_CASE("pt: a point is the 72nd part of an inch", "[drawing]") { CHECK(pt(72) == Approx(25.4)); }

TEST_CASE("svg: the whole file of a small page", "[drawing][svg]") {
  Page page{"p", "A & B", 20, 10, {}};
  rule(page, {1, 2}, {3, 2}, 0.5);
  page.marks.emplace_back(Circle{{5, 5}, 1.234, Pen{0, {}}, Fill::black});
  page.marks.emplace_back(Text{{2, 9}, "<Mug> \"1\"", 3, Anchor::middle, true, 7.5});
  CHECK(svg(page) ==
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"20mm\" height=\"10mm\" "
        "viewBox=\"0 0 20 10\" font-family=\"'DejaVu Sans', Verdana, sans-serif\" "
        "stroke-linejoin=\"round\">\n<title>A &amp; B</title>\n"
        "<rect width=\"20\" height=\"10\" fill=\"#fff\"/>\n"
        "<path d=\"M1 2L3 2\" stroke=\"#000\" stroke-width=\"0.5\" fill=\"none\"/>\n"
        "<circle cx=\"5\" cy=\"5\" r=\"1.23\" fill=\"#000\"/>\n"
        "<text x=\"2\" y=\"9\" font-size=\"3\" font-weight=\"bold\" text-anchor=\"middle\" "
        "textLength=\"7.5\" lengthAdjust=\"spacingAndGlyphs\">&lt;Mug&gt; &quot;1&quot;</text>\n"
        "</svg>\n");
}
