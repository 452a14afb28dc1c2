#include "report/drawing.h"

namespace placer::report {

Box box_of(const Text& text) {
  double left = text.at.x;
  if (text.anchor == Anchor::middle) left -= text.width / 2;
  if (text.anchor == Anchor::right) left -= text.width;
  return {{left, text.at.y - kCapitals * text.size},
          {left + text.width, text.at.y + kDescent * text.size}};
}

namespace {

void move_mark(Strokes& strokes, Point by) {
  for (auto& [from, to] : strokes.lines) {
    from = from + by;
    to = to + by;
  }
}
void move_mark(Path& path, Point by) {
  for (Point& corner : path.corners) corner = corner + by;
}
void move_mark(Circle& circle, Point by) { circle.centre = circle.centre + by; }
void move_mark(Text& text, Point by) { text.at = text.at + by; }

}  // namespace

void move(Mark& mark, Point by) {
  std::visit([by](auto& plain) { move_mark(plain, by); }, mark);
}

void rule(Page& page, Point from, Point to, double width) {
  page.marks.emplace_back(Strokes{{{from, to}}, Pen{width, {}}});
}

void frame(Page& page, Point low, Point high, double width, Fill fill) {
  page.marks.emplace_back(
      Path{{low, {high.x, low.y}, high, {low.x, high.y}}, true, Pen{width, {}}, fill});
}

void dashed(Page& page, Point from, Point to, double width) {
  page.marks.emplace_back(Strokes{{{from, to}}, Pen{width, {1.5, 1.2}}});
}

}  // namespace placer::report
