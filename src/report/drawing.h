/// @file drawing.h
/// A drawing is a pure value: pages of lines, areas and words, in mm from the top left corner of
/// the paper, x to the right and y *down*. Writers (pdf.h, svg.h) turn it into bytes. Black ink on
/// white paper only.
#pragma once

#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "placer/geometry/shape.h"

namespace placer::report {

/// Printer's points as mm: 1 pt = 1/72 in.
constexpr double pt(double points) { return points * 25.4 / 72; }

struct Pen {
  double width = 0.3;          ///< mm; 0 = no line
  std::vector<double> dashes;  ///< mm on, mm off, ...; empty = solid
};

enum class Fill { none, white, black };

/// Any number of separate straight strokes with one pen (hatching, grids).
struct Strokes {
  std::vector<std::pair<Point, Point>> lines;
  Pen pen;
};

/// A line through the corners, closed or open.
struct Path {
  std::vector<Point> corners;
  bool closed = true;
  Pen pen;
  Fill fill = Fill::none;
};

struct Circle {
  Point centre;
  double radius = 0;
  Pen pen;
  Fill fill = Fill::none;
};

enum class Anchor { left, middle, right };

/// One line of words; `at` lies on its base line.
struct Text {
  Point at;
  std::string words;
  double size = pt(10);  ///< mm, of the em
  Anchor anchor = Anchor::left;
  bool bold = false;
  double width = 0;  ///< mm as measured when it was placed
};

using Mark = std::variant<Strokes, Path, Circle, Text>;

struct Page {
  std::string name;   ///< "oak-17-glaze-1-shelf-2": a file name without its ending
  std::string title;  ///< for the list of pages in a viewer
  double width = 279, height = 210;
  std::vector<Mark> marks;  ///< in reading order; later ones cover earlier ones
};

struct Drawing {
  std::string title;
  std::vector<Page> pages;
};

/// Heights of the lettering as parts of the em (DejaVu Sans).
constexpr double kCapitals = 0.729;
constexpr double kDescent = 0.236;

/// The paper that a text takes: from the top of its capitals to the bottom of its tails.
Box box_of(const Text& text);

/// Moves a mark over the paper.
void move(Mark& mark, Point by);

// --- putting marks on a page ------------------------------------------------------------------
void rule(Page& page, Point from, Point to, double width = 0.3);
void frame(Page& page, Point low, Point high, double width = 0.3, Fill fill = Fill::none);
void dashed(Page& page, Point from, Point to, double width = 0.25);

}  // namespace placer::report
