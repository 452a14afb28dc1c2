#include "report/sheets.h"

#include <fmt/format.h>

#include <algorithm>

#include "report/batch_sheet.h"
#include "report/firing_sheet.h"
#include "report/first_page.h"
#include "report/pdf.h"
#include "report/sheet.h"
#include "report/shelf_page.h"
#include "report/standing.h"
#include "report/svg.h"
#include "report/words.h"

namespace placer::report {
namespace {

void append(std::vector<Page>& pages, std::vector<Page> more) {
  for (Page& page : more) pages.push_back(std::move(page));
}

// The paper grows round the drawing, which keeps its size.
void set_paper(Page& page, Paper paper) {
  if (paper == Paper::both) return;
  const bool upright = page.height > page.width;
  const double short_side = paper == Paper::a4 ? 210 : 215.9;
  const double long_side = paper == Paper::a4 ? 297 : 279.4;
  const Point size = upright ? Point{short_side, long_side} : Point{long_side, short_side};
  const Point by = 0.5 * (size - Point{page.width, page.height});
  page.width = size.x;
  page.height = size.y;
  for (Mark& mark : page.marks) move(mark, by);
}

void note_missing(const Drawing& drawing, const Lettering& letters,
                  std::vector<std::string>* missing) {
  if (missing == nullptr) return;
  for (const Page& page : drawing.pages) {
    for (const Mark& mark : page.marks) {
      const Text* text = std::get_if<Text>(&mark);
      if (text == nullptr) continue;
      for (const std::string& run : letters.missing_in(text->words)) {
        if (std::find(missing->begin(), missing->end(), run) == missing->end()) {
          missing->push_back(run);
        }
      }
    }
  }
}

}  // namespace

Drawing sheets(const Subject& subject, const Lettering& letters, Paper paper) {
  const Desk desk{subject, letters};
  Drawing drawing{fmt::format("{} {}", subject.plan.name, subject.studio), {}};
  append(drawing.pages, batch_pages(desk));
  for (std::size_t i = 0; i < subject.plan.firings.size(); ++i) {
    append(drawing.pages, first_pages(desk, i));
    for (const Level& level : subject.plan.firings[i].levels) {
      if (only_lifts(subject.batch.kiln, subject.plan.firings[i], level)) continue;
      append(drawing.pages, shelf_pages(desk, i, level));
    }
    if (i < subject.forecasts.size()) append(drawing.pages, firing_pages(desk, i));
  }
  for (std::size_t i = 0; i < drawing.pages.size(); ++i) {
    Page& page = drawing.pages[i];
    write_page_number(page, desk, static_cast<int>(i) + 1, static_cast<int>(drawing.pages.size()),
                      subject.plan.name + " " + page.name);
    set_paper(page, paper);
  }
  return drawing;
}

std::string sheets_pdf(const Subject& subject, const PaperOptions& options) {
  const Lettering letters;
  const Drawing drawing = sheets(subject, letters, options.paper);
  note_missing(drawing, letters, options.missing_glyphs);
  return pdf(drawing, letters, subject.made_at);
}

std::vector<File> sheets_svg(const Subject& subject, const PaperOptions& options) {
  const Lettering letters;
  const Drawing drawing = sheets(subject, letters, options.paper);
  note_missing(drawing, letters, options.missing_glyphs);
  std::vector<File> files;
  for (const Page& page : drawing.pages) files.push_back({page.name + ".svg", svg(page)});
  return files;
}

}  // namespace placer::report
