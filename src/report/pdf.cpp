#include "report/pdf.h"

#include <cairo-pdf.h>
#include <fmt/format.h>

#include <memory>
#include <numbers>
#include <stdexcept>

#include "placer/firing/clock.h"

namespace placer::report {
namespace {

struct SurfaceFree {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
struct ContextFree {
  void operator()(cairo_t* context) const { cairo_destroy(context); }
};
using Surface = std::unique_ptr<cairo_surface_t, SurfaceFree>;
using Context = std::unique_ptr<cairo_t, ContextFree>;

constexpr double kPointsPerMm = 72 / 25.4;

cairo_status_t append(void* bytes, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

std::string iso_utc(long long seconds) {
  const firing::WallClock at = firing::Zone::named("UTC").local(seconds).clock;
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z", at.year, at.month, at.day, at.hour,
                     at.minute, at.second);
}

void expect_success(cairo_status_t status) {
  if (status != CAIRO_STATUS_SUCCESS) {
    throw std::runtime_error{
        fmt::format("the PDF could not be drawn: {}", cairo_status_to_string(status))};
  }
}

void use(cairo_t* context, const Pen& pen) {
  cairo_set_source_rgb(context, 0, 0, 0);
  cairo_set_line_width(context, pen.width);
  cairo_set_dash(context, pen.dashes.data(), static_cast<int>(pen.dashes.size()), 0);
}

// Fills and strokes the path just made, then drops it.
void ink(cairo_t* context, const Pen& pen, Fill fill) {
  if (fill != Fill::none) {
    const double white = fill == Fill::white ? 1 : 0;
    cairo_set_source_rgb(context, white, white, white);
    cairo_fill_preserve(context);
  }
  if (pen.width > 0) {
    use(context, pen);
    cairo_stroke_preserve(context);
  }
  cairo_new_path(context);
}

void draw(cairo_t* context, const Strokes& strokes) {
  for (const auto& [from, to] : strokes.lines) {
    cairo_move_to(context, from.x, from.y);
    cairo_line_to(context, to.x, to.y);
  }
  ink(context, strokes.pen, Fill::none);
}

void draw(cairo_t* context, const Path& path) {
  for (const Point corner : path.corners) cairo_line_to(context, corner.x, corner.y);
  if (path.closed) cairo_close_path(context);
  ink(context, path.pen, path.fill);
}

void draw(cairo_t* context, const Circle& circle) {
  cairo_new_sub_path(context);
  cairo_arc(context, circle.centre.x, circle.centre.y, circle.radius, 0, 2 * std::numbers::pi);
  cairo_close_path(context);
  ink(context, circle.pen, circle.fill);
}

void draw_page(cairo_surface_t* surface, const Page& page, const Lettering& lettering) {
  cairo_pdf_surface_set_size(surface, page.width * kPointsPerMm, page.height * kPointsPerMm);
  const Context context{cairo_create(surface)};
  cairo_scale(context.get(), kPointsPerMm, kPointsPerMm);
  cairo_set_line_join(context.get(), CAIRO_LINE_JOIN_ROUND);
  for (const Mark& mark : page.marks) {
    if (const Text* text = std::get_if<Text>(&mark)) {
      cairo_set_source_rgb(context.get(), 0, 0, 0);
      lettering.draw(context.get(), *text);
      continue;
    }
    std::visit(
        [&](const auto& plain) {
          if constexpr (!std::is_same_v<std::decay_t<decltype(plain)>, Text>) {
            draw(context.get(), plain);
          }
        },
        mark);
  }
  cairo_show_page(context.get());
  expect_success(cairo_status(context.get()));
}

}  // namespace

std::string pdf(const Drawing& drawing, const Lettering& lettering, long long made_at) {
  std::string bytes;
  const Surface surface{cairo_pdf_surface_create_for_stream(append, &bytes, 1, 1)};
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, drawing.title.c_str());
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATOR, "placer");
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE,
                                 iso_utc(made_at).c_str());
  for (const Page& page : drawing.pages) {
    cairo_pdf_surface_add_outline(surface.get(), CAIRO_PDF_OUTLINE_ROOT, page.title.c_str(),
                                  "page=1", static_cast<cairo_pdf_outline_flags_t>(0));
    draw_page(surface.get(), page, lettering);
  }
  cairo_surface_finish(surface.get());
  expect_success(cairo_surface_status(surface.get()));
  return bytes;
}

}  // namespace placer::report
