/// @file lettering.h
/// The one typeface of all sheets, and how much paper its words take. Latin, Greek and Cyrillic
/// come from DejaVu Sans whatever else is installed, so that a sheet looks the same everywhere;
/// other scripts come from whatever font of this machine has them.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "report/drawing.h"

typedef struct _cairo cairo_t;

namespace placer::report {

class Lettering {
 public:
  /// @throws std::runtime_error if the drawing library cannot start.
  Lettering();
  ~Lettering();
  Lettering(const Lettering&) = delete;
  Lettering& operator=(const Lettering&) = delete;

  /// mm that the words take on one line. `size` is the em in mm.
  double width(const std::string& words, double size, bool bold = false) const;

  /// The words on lines that are at most `most` mm wide: broken at spaces, or inside a word that
  /// is wider than the line. Nothing is ever dropped; at least one line.
  std::vector<std::string> wrapped(const std::string& words, double size, bool bold,
                                   double most) const;

  /// The largest of the sizes (falling) at which the words fit, or the last one.
  double size_to_fit(const std::string& words, bool bold, double most,
                     const std::vector<double>& sizes) const;

  /// A measured text, ready to be put on a page.
  Text text(Point at, const std::string& words, double size, bool bold = false,
            Anchor anchor = Anchor::left) const;

  /// True when this machine's fonts have every letter of the words.
  bool can_draw(const std::string& words) const;

  /// The runs of letters in the words that no font of this machine has.
  std::vector<std::string> missing_in(const std::string& words) const;

  /// Draws it onto a surface whose unit is 1 mm.
  void draw(cairo_t* context, const Text& text) const;

 private:
  struct Fonts;
  std::unique_ptr<Fonts> fonts_;
};

}  // namespace placer::report
