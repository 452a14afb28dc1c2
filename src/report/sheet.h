/// @file sheet.h
/// What all drawn sheets share: the paper, its margins, heading, foot and words.
#pragma once

#include <string>
#include <vector>

#include "placer/report/report.h"
#include "report/drawing.h"
#include "report/lettering.h"

namespace placer::report {

// The default paper prints unscaled on A4 and on Letter: A4's short side by Letter's short one.
constexpr double kShortSide = 210;
constexpr double kLongSide = 279;
constexpr double kMargin = 12;
constexpr double kClip = 25;  ///< free at the top for a clip or a nail
constexpr double kQrSide = 15;
constexpr double kFootHeight = 15;

/// What every sheet is made with.
struct Desk {
  const Subject& subject;
  const Lettering& letters;
};

/// A room on the paper.
struct Room {
  double left = 0, top = 0, right = 0, bottom = 0;
  double width() const { return right - left; }
  double height() const { return bottom - top; }
};

Page landscape(const std::string& name, const std::string& title);
Page portrait(const std::string& name, const std::string& title);
/// Between the margins, above the foot and below the clip.
Room body_of(const Page& page);

/// Words on as many lines as they need; `step` is the distance of the base lines as a part of the
/// size. Returns the y below the last line.
struct Style {
  double size = pt(10);
  bool bold = false;
  double step = 1.25;
};
double write_lines(Page& page, const Desk& desk, Point top_left, const std::string& words,
                   double most, const Style& style);
/// Height that write_lines() would use.
double lines_height(const Desk& desk, const std::string& words, double most, const Style& style);
void write(Page& page, const Desk& desk, Point at, const std::string& words, const Style& style,
           Anchor anchor = Anchor::left);

/// An empty box to tick, with 8 mm sides.
constexpr double kTickBox = 8;
void tick_box(Page& page, Point top_left, double side = kTickBox);

/// The foot: one bold line, one plain line, and the bar to measure that the print is not scaled.
/// The page's number and a code that names the sheet come to the right, once all pages are known.
struct Foot {
  std::string bold, plain;
};
void write_foot(Page& page, const Desk& desk, const Foot& foot);
/// " · Tue 24 Nov 2026", the date of the subject in its zone; "" when it has none.
std::string date_words(const Subject& subject);
/// The day on which that firing starts; "" when only others have one.
std::string date_words(const Subject& subject, std::size_t firing);
/// "page 3 of 6" and the square code of `says` in the lower right corner.
void write_page_number(Page& page, const Desk& desk, int number, int of, const std::string& says);

/// A square code (QR, ISO/IEC 18004) with its lower right corner there.
void square_code(Page& page, Point lower_right, double side, const std::string& says);

}  // namespace placer::report
