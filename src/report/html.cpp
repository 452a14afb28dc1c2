#include "report/html.h"

#include <fmt/format.h>

#include "placer/firing/clock.h"
#include "report/embedded.h"
#include "report/to_fetch.h"
#include "report/words.h"

namespace placer::report {
namespace {

/// Nothing may be fetched: the page says so to the browser, which then holds it to that.
std::string head(const Subject& subject) {
  return fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\" xmlns=\"http://www.w3.org/1999/xhtml\">\n<head>\n"
      "<meta charset=\"utf-8\"/>\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
      "'unsafe-inline'; script-src 'unsafe-inline'; img-src data:\"/>\n"
      "<meta name=\"color-scheme\" content=\"light dark\"/>\n"
      "<link rel=\"icon\" href=\"data:,\"/>\n<title>{} · kiln load and firing{}</title>\n"
      "<style>/*<![CDATA[*/\n{}/*]]>*/</style>\n</head>\n",
      escaped(subject.plan.name), subject.studio.empty() ? "" : " · " + escaped(subject.studio),
      embedded("page.css"));
}

std::string subtitle(const Subject& subject) {
  std::vector<std::string> parts;
  if (!subject.studio.empty()) parts.push_back(bdi(subject.studio));
  if (!subject.batch.kiln.name.empty()) parts.push_back(bdi(subject.batch.kiln.name));
  if (subject.made_at != 0) {
    parts.push_back(
        firing::to_string(firing::Zone::named(subject.zone).local(subject.made_at), true));
    parts.back().resize(parts.back().size() - 6);  // the date without the clock
  }
  return fmt::format("{}", fmt::join(parts, " · "));
}

/// Shelves and firings to jump to.
std::string contents(const Subject& subject) {
  std::string text = "<nav aria-label=\"Sheets\"><ul>\n";
  if (!subject.plan.left_out.empty()) {
    text += "<li><a href=\"#left-out\">Left out</a></li>\n";
  }
  if (subject.plan.firings.size() > 1) {
    text += "<li class=\"of\"><a href=\"#all-loads\">All loads</a></li>\n";
  }
  for (std::size_t i = 0; i < subject.plan.firings.size(); ++i) {
    const KilnLoad& load = subject.plan.firings[i];
    text += fmt::format("<li class=\"of\"><a href=\"#f{}\">{}: fetch</a></li>\n", i + 1,
                        bdi(capitalised(firing_name(subject, i))));
    for (const Level& level : load.levels) {
      const ShelfPlace place{i, load, level, {}};
      text += fmt::format("<li><a href=\"#{0}\" data-shelf=\"{0}\">{1}</a></li>\n", shelf_id(place),
                          bdi(capitalised(shelf_name(subject, level))));
    }
    if (i < subject.forecasts.size()) {
      text += fmt::format("<li><a href=\"#f{}-fire\">Fire</a></li>\n", i + 1);
    }
  }
  return text + "</ul></nav>\n";
}

std::string fetch(const Subject& subject, std::size_t firing) {
  std::string text = "<h3>Fetch first</h3>\n<ul class=\"ticks\">\n";
  int number = 1;
  for (const FetchLine& line : to_fetch(subject, firing)) {
    text += tick_line(fmt::format("f{}-get{}", firing + 1, number++), line.words, line.detail);
  }
  return text + "</ul>\n";
}

std::string firing_section(const Subject& subject, std::size_t firing) {
  const KilnLoad& load = subject.plan.firings[firing];
  const std::string id = fmt::format("f{}", firing + 1);
  std::string text = fmt::format(
      "<section class=\"load\" id=\"{0}\" aria-labelledby=\"{0}-head\"><h2 "
      "id=\"{0}-head\">{1}</h2>\n"
      "<p>{2} on {3} · {4} of ware · {5} of shelves and posts</p>\n",
      id, bdi(capitalised(firing_name(subject, firing))), count_text(pieces_in(load), "piece"),
      count_text(static_cast<int>(load.levels.size()), "shelf"),
      kilos_text(load.ware, subject.inches), kilos_text(load.furniture, subject.inches));
  text += fetch(subject, firing);
  if (!load.floor_posts.empty()) {
    text += "<p><b>Posts on the floor, first of all:</b> " +
            escaped(posts_text(subject, load.floor_posts)) + "</p>\n";
  }
  text += "<figure>" + side_svg(subject, firing) +
          "<figcaption>From the side: number of the shelf, and the heights from the floor up; they "
          "add up to the whole.</figcaption>"
          "</figure>\n";
  for (const Level& level : load.levels) {
    text += shelf_section(subject, {firing, load, level, cones_on(subject.batch, level)});
  }
  return text + fire_section(subject, firing) + "</section>\n";
}

std::string remarks(const Subject& subject) {
  std::string text;
  for (const Ungranted& wish : subject.plan.ungranted) {
    const std::string& name = subject.batch.pieces.at(static_cast<std::size_t>(wish.piece)).name;
    text += fmt::format("<li>{}: {}</li>\n", bdi(name), escaped(wish.reason));
  }
  for (const std::string& remark : subject.plan.remarks) {
    text += "<li>" + escaped(remark) + "</li>\n";
  }
  if (text.empty()) return "";
  return "<section aria-labelledby=\"notes-head\"><h2 id=\"notes-head\">Notes on the plan</h2>\n"
         "<ul>\n" +
         text + "</ul></section>\n";
}

/// What the thumb reaches at any time: the chosen piece, set, undo.
constexpr const char* kBar =
    "<div class=\"bar js\" id=\"bar\" role=\"region\" aria-label=\"Chosen piece\">"
    "<p id=\"told\" role=\"status\">Tap a piece on a map.</p>"
    "<button type=\"button\" id=\"set\" disabled=\"disabled\">Set</button>"
    "<button type=\"button\" id=\"undo\" disabled=\"disabled\">Undo</button></div>\n";

}  // namespace

std::string sheets_html(const Subject& subject) {
  std::string text = head(subject);
  text += fmt::format("<body data-plan=\"{}\">\n", escaped(subject.plan.name));
  text += "<a class=\"skip\" href=\"#main\">Skip to the sheets</a>\n";
  text += fmt::format(
      "<header><h1>Plan {}</h1>\n<p>{}</p>\n<p class=\"js kept\">Ticks are kept on this "
      "phone.</p></header>\n",
      escaped(subject.plan.name), subtitle(subject));
  text += "<main id=\"main\" tabindex=\"-1\">\n" + left_out_section(subject) + contents(subject);
  text += batch_section(subject);
  for (std::size_t i = 0; i < subject.plan.firings.size(); ++i) text += firing_section(subject, i);
  text += remarks(subject);
  text += "<p class=\"js\"><button type=\"button\" id=\"clear\">Take all ticks off</button></p>\n";
  text += "</main>\n";
  text += kBar;
  text +=
      fmt::format("<script>//<![CDATA[\n{}//]]></script>\n</body>\n</html>\n", embedded("page.js"));
  return text;
}

}  // namespace placer::report
