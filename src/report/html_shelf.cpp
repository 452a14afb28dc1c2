#include <fmt/format.h>

#include <algorithm>

#include "report/html.h"
#include "report/ladder.h"
#include "report/lists.h"
#include "report/standing.h"
#include "report/words.h"

namespace placer::report {
namespace {

/// "One tap sets it": the number of a piece; `told` is what the page says of it.
std::string number_button(const ShelfPlace& place, const ListLine& line, std::size_t index,
                          std::size_t in_list) {
  const PlacedPiece& piece = *line.pieces[index];
  std::string told = fmt::format("{}, {}", line.name, line.detail);
  if (piece.row > 0) told += fmt::format(", row {} from the far side", piece.row);
  told += fmt::format(", line {} of the list", in_list);
  return fmt::format(
      "<button type=\"button\" class=\"tick number\" id=\"{}-p{}\" aria-pressed=\"false\" "
      "aria-label=\"{} {}\" data-told=\"{}\">{}</button>",
      shelf_id(place), piece.number, piece.number, escaped(line.name), escaped(told), piece.number);
}

std::string list_line(const Subject& subject, const ShelfPlace& place, const ListLine& line,
                      std::size_t in_list) {
  std::string text = fmt::format(
      "<li class=\"kind\"><p>{}<b>{}</b> <small>{}</small></p>",
      glazed(subject, place.load) ? swatch_svg(subject, place, *line.pieces.front()) : "",
      bdi(head_words(subject, line)), bdi(line.detail));
  text +=
      fmt::format("<div class=\"numbers\" role=\"group\" aria-label=\"{}\">", escaped(line.name));
  for (std::size_t i = 0; i < line.pieces.size(); ++i) {
    text += number_button(place, line, i, in_list);
  }
  return text + "</div></li>\n";
}

/// "of 5, from the bottom": the second half of the heading.
std::string of_how_many(const Subject& subject, const ShelfPlace& place) {
  const int count = shelves_with(subject.batch, place.load, place.level);
  return count == 1 ? "the only one" : fmt::format("of {}, from the bottom", count);
}

std::string now_line(const Subject& subject, const ShelfPlace& place) {
  const Level& level = place.level;
  std::vector<std::string> parts;
  const ShelfKind& kind = subject.batch.kiln.shelves.at(static_cast<std::size_t>(level.shelf));
  parts.push_back(kind.name);
  parts.push_back("top at " + length_text(level.shelf_top, subject.inches));
  parts.push_back(room_words(subject, place.load, level));
  std::string text = "<p>" + escaped(fmt::format("{}", fmt::join(parts, " · "))) + "</p>\n";
  if (level.bridge >= 0) {
    text += "<p><b>Across the columns:</b> " + escaped(when_to_lay(subject, place.load, level)) +
            ".</p>\n";
  }
  if (level.level == 1 || level.bridge >= 0) {
    const auto feet = feet_under(subject.batch, place.load, level);
    if (!feet.empty()) {
      text += "<p><b>Feet under it:</b> " + escaped(posts_text(subject, feet)) + "</p>\n";
    }
  }
  if (!level.posts.empty()) {
    text += "<p><b>Posts on this shelf:</b> " + escaped(posts_text(subject, level.posts)) +
            ". They carry the next one.</p>\n";
  } else {
    text += "<p><b>No posts:</b> nothing stands over this shelf.</p>\n";
  }
  if (!level.pattern.empty()) text += "<p>Set in " + escaped(level.pattern) + ".</p>\n";
  return text;
}

/// What lies at the top of the map; of a column in front it is not the wall itself.
const char* far_side(const Subject& subject) {
  const bool columns = subject.batch.kiln.columns.size() > 1;
  if (subject.batch.kiln.opens == Opens::top) return columns ? "towards the hinge" : "hinge side";
  return columns ? "towards the back wall" : "back wall";
}

}  // namespace

std::string shelf_section(const Subject& subject, const ShelfPlace& place) {
  const std::string id = shelf_id(place);
  const std::string name = capitalised(shelf_name(subject, place.level));
  std::string text = fmt::format(
      "<section class=\"shelf\" id=\"{0}\" aria-labelledby=\"f{5}-head {0}-head\">"
      "<h3 id=\"{0}-head\">{1} <small>{2} <span class=\"firing\">{6}</span></small></h3>\n"
      "<p class=\"progress\" data-shelf=\"{0}\">{3} · {4}</p>\n",
      id, bdi(name), escaped(of_how_many(subject, place)),
      count_text(pieces_on(place.level), "piece"), kilos_text(mass_on(place.level), subject.inches),
      place.firing + 1, bdi(capitalised(firing_name(subject, place.firing))));
  text += now_line(subject, place);
  text += fmt::format(
      "<figure><p class=\"edge\">{}</p>\n{}<p class=\"edge\">▲ You stand here ▲</p>"
      "</figure>\n",
      far_side(subject), map_svg(subject, place));
  text += key_list(subject, place);
  text +=
      fmt::format("<h4>What stands here; the numbers are on the map</h4>\n<ol class=\"kinds\">\n");
  std::size_t in_list = 1;
  for (const ListLine& line : list_lines(subject, place.load, place.level)) {
    text += list_line(subject, place, line, in_list++);
  }
  return text + "</ol></section>\n";
}

}  // namespace placer::report
