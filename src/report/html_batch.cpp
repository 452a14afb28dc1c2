#include <fmt/format.h>

#include <limits>

#include "report/batch_words.h"
#include "report/html.h"
#include "report/lists.h"
#include "report/words.h"

namespace placer::report {
namespace {

std::string furniture_table(const Subject& subject) {
  const auto rows = furniture_rows(subject);
  if (rows.empty()) return "";
  std::string text =
      "<h3>Shelves and posts</h3>\n<table><thead><tr><th scope=\"col\">What</th>"
      "<th scope=\"col\">at once</th><th scope=\"col\">owned</th>"
      "<th scope=\"col\">to get</th></tr></thead>\n<tbody>\n";
  for (const FurnitureRow& row : rows) {
    text +=
        fmt::format("<tr><th scope=\"row\">{}</th><td>{}</td><td>{}</td><td><b>{}</b></td></tr>\n",
                    bdi(row.what), row.needed, row.owned, row.get.empty() ? "–" : escaped(row.get));
  }
  return text + "</tbody></table>\n";
}

}  // namespace

std::string left_out_section(const Subject& subject) {
  if (subject.plan.left_out.empty()) return "";
  std::string text =
      "<section class=\"left-out\" id=\"left-out\" aria-labelledby=\"left-out-head\">"
      "<h2 id=\"left-out-head\">Left out</h2>\n<ul>\n";
  constexpr auto kAll = std::numeric_limits<std::size_t>::max();
  for (const LeftOutGroup& group : by_reason(subject.plan.left_out, kAll)) {
    std::vector<std::string> names;
    for (const LeftOut* out : group.pieces) {
      const std::string& name = subject.batch.pieces.at(static_cast<std::size_t>(out->piece)).name;
      names.push_back(fmt::format("{} × {}", out->count, bdi(name)));
    }
    const auto load = static_cast<std::size_t>(group.pieces.front()->load);
    text += fmt::format("<li><b>{}</b>, {} firing: {}</li>\n", joined(names),
                        bdi(subject.batch.loads.at(load).name), escaped(group.reason()));
  }
  return text + "</ul></section>\n";
}

std::string batch_section(const Subject& subject) {
  if (subject.plan.firings.size() < 2) return "";
  std::string text =
      "<section class=\"batch\" id=\"all-loads\" aria-labelledby=\"all-loads-head\">"
      "<h2 id=\"all-loads-head\">All loads</h2>\n<p>" +
      escaped(loads_words(subject)) + "</p>\n<ol>\n";
  for (std::size_t i = 0; i < subject.plan.firings.size(); ++i) {
    const KilnLoad& load = subject.plan.firings[i];
    text += fmt::format("<li><b>{}: {}, {} of ware</b><br/>{}", bdi(firing_name(subject, i)),
                        count_text(pieces_in(load), "piece"), kilos_text(load.ware, subject.inches),
                        bdi(contents_words(subject, load)));
    const std::string times = times_words(subject, i);
    if (!times.empty()) text += "<br/><small>" + escaped(times) + "</small>";
    text += "</li>\n";
  }
  text += "</ol>\n";
  const std::string days = days_words(subject);
  if (!days.empty()) text += "<p>" + escaped(days) + "</p>\n";
  return text + furniture_table(subject) + "</section>\n";
}

}  // namespace placer::report
