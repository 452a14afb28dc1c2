// What the sheets of a batch cost: pages, bytes, processor seconds and memory, beside the bars that
// were set (all sheets of ten shelves in half a second; sixty shelves in 3 s and 200 MB). Prints;
// judges nothing.
//   sheet_bench [SHELVES A LOAD] [LOADS]
#include <fmt/format.h>
#include <sys/resource.h>

#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <functional>

#include "report/sheet_samples.h"

namespace {

using namespace placer;

// A tall kiln with mugs, cups and bud vases, about two dozen on each shelf.
support::SheetSample batch_of(int shelves, int loads) {
  support::SheetSample sample = support::everyday_sample();
  sample.name = "bench";
  sample.batch.kiln.height = Length::from_mm(200 + 131.0 * shelves);
  // A place for the cones is looked for on every load: none is kept.
  std::erase_if(sample.batch.kiln.keep_outs,
                [](const KeepOut& keep_out) { return keep_out.what == "cone pack"; });
  sample.plan.left_out.clear();
  sample.plan.firings.clear();
  sample.forecasts.clear();
  const std::vector<double> heights(static_cast<std::size_t>(shelves), 113);
  for (int load = 0; load < loads; ++load) {
    sample.plan.firings.push_back(support::filled(sample.batch, heights, {4, 4, 5, 0, 5, 4}, 24));
    sample.plan.firings.back().round = load + 1;
    sample.forecasts.push_back(support::sample_forecast(true));
  }
  return sample;
}

double seconds() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

double peak_mb() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024;
}

std::size_t pages_in(const std::string& pdf) {
  const std::string mark = "/Type /Page";
  std::size_t count = 0;
  for (std::size_t at = pdf.find(mark); at != std::string::npos; at = pdf.find(mark, at + 1)) {
    if (pdf.compare(at + mark.size(), 1, "s") != 0) ++count;
  }
  return count;
}

double row(const char* what, const std::function<std::string()>& make) {
  const double before = seconds();
  const std::string bytes = make();
  const double took = seconds() - before;
  fmt::print("{:<6} {:>8.1f} kB {:>7.3f} s\n", what, static_cast<double>(bytes.size()) / 1000,
             took);
  return took;
}

void measure(int shelves, int loads) {
  const support::SheetSample sample = batch_of(shelves, loads);
  const report::Subject subject = sample.subject();
  std::size_t pieces = 0;
  for (const KilnLoad& load : subject.plan.firings) {
    for (const Level& level : load.levels) pieces += level.pieces.size();
  }
  fmt::print("{} loads of {} shelves, {} pieces\n", loads, shelves, pieces);
  std::size_t pages = 0;
  double sum = row("pdf", [&] {
    std::string bytes = report::sheets_pdf(subject);
    pages = pages_in(bytes);
    return bytes;
  });
  sum += row("svg", [&] {
    std::string all;
    for (const report::File& file : report::sheets_svg(subject)) all += file.bytes;
    return all;
  });
  sum += row("html", [&] { return report::sheets_html(subject); });
  sum += row("json", [&] { return report::plan_json(subject); });
  sum += row("csv", [&] { return report::plan_csv(subject); });
  sum += row("ics", [&] { return report::diary_ics(subject); });
  fmt::print("all    {:.3f} s for {} pages of PDF, {:.1f} ms a page; {:.0f} MB at most so far\n\n",
             sum, pages, 1000 * sum / static_cast<double>(std::max<std::size_t>(pages, 1)),
             peak_mb());
}

}  // namespace

int main(int argc, char** argv) {
  if (argc == 3) {
    measure(std::max(1, std::atoi(argv[1])), std::max(1, std::atoi(argv[2])));
    return 0;
  }
  measure(10, 1);
  measure(10, 6);
  return 0;
}
