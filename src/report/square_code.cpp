#include <qrencode.h>

#include <memory>
#include <stdexcept>

#include "report/sheet.h"

namespace placer::report {
namespace {

struct CodeFree {
  void operator()(QRcode* code) const { QRcode_free(code); }
};

}  // namespace

void square_code(Page& page, Point lower_right, double side, const std::string& says) {
  const std::unique_ptr<QRcode, CodeFree> code{
      QRcode_encodeString(says.c_str(), 0, QR_ECLEVEL_M, QR_MODE_8, 1)};
  if (!code) throw std::runtime_error{"the square code of a sheet could not be made"};
  const int width = code->width;
  const double cell = side / width;
  const Point origin = lower_right - Point{side, side};
  // One stroke for each run of black cells in a row keeps the file small.
  Strokes rows{{}, Pen{cell, {}}};
  for (int y = 0; y < width; ++y) {
    for (int x = 0; x < width; ++x) {
      const int from = x;
      while (x < width && (code->data[y * width + x] & 1U) != 0) ++x;
      if (x == from) continue;
      const double middle = origin.y + (y + 0.5) * cell;
      rows.lines.push_back({{origin.x + from * cell, middle}, {origin.x + x * cell, middle}});
    }
  }
  page.marks.emplace_back(std::move(rows));
}

}  // namespace placer::report
