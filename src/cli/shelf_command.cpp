/// shelf: a question without a file.
#include <fmt/format.h>

#include <iostream>
#include <optional>
#include <string_view>
#include <utility>

#include "cli/commands.h"
#include "placer/base/error.h"
#include "placer/loading/quick.h"
#include "placer/workbook/quantity.h"

namespace placer::cli {
namespace {

constexpr double kUsualGap = 6;  // mm, between glazed pieces: see model/batch.h
constexpr double kHandleWidth = 20;
constexpr int kMostCounted = 100'000;  // how_many() goes no further

[[noreturn]] void refuse(const std::string& option, const std::string& message) {
  throw InputError{TextPos{option}, message};
}

double millimetres(const std::string& option, std::string_view text, const std::string& takes) {
  const auto length = workbook::read_length(text, false);
  if (!length || length->mm() <= 0 || length->mm() > 5000) {
    refuse(option, fmt::format("takes {}, not \"{}\"", takes, text));
  }
  return length->mm();
}

std::optional<std::pair<std::string_view, std::string_view>> two_sizes(std::string_view text) {
  const std::size_t cross = text.find('x');
  if (cross == std::string_view::npos) return std::nullopt;
  return std::pair{text.substr(0, cross), text.substr(cross + 1)};
}

Region shelf_of(const std::string& text) {
  const std::string takes = "\"round 533\", \"half round 560\", \"octagon 640\" or \"600 x 300\"";
  const auto after = [&](std::string_view word) -> std::optional<double> {
    if (!std::string_view{text}.starts_with(word)) return std::nullopt;
    return millimetres("shelf", std::string_view{text}.substr(word.size()), takes);
  };
  if (const auto across = after("round ")) return {{}, Disc{{0, 0}, *across / 2}, {}};
  if (const auto across = after("half round ")) return half_disc(*across);
  if (const auto across = after("octagon ")) return {regular_polygon(8, *across), {}, {}};
  if (const auto sides = two_sizes(text)) {
    return {rectangle(millimetres("shelf", sides->first, takes),
                      millimetres("shelf", sides->second, takes)),
            {},
            {}};
  }
  refuse("shelf", fmt::format("takes {}, not \"{}\"", takes, text));
}

Footprint piece_of(const Request& request) {
  const std::string takes = "a size such as 84, or \"90 x 60\"";
  if (const auto sides = two_sizes(request.piece_size)) {
    return {{},
            {rectangle(millimetres("--piece", sides->first, takes),
                       millimetres("--piece", sides->second, takes))}};
  }
  const double radius = millimetres("--piece", request.piece_size, takes) / 2;
  Footprint piece{{Disc{{0, 0}, radius}}, {}};
  if (!request.handle.empty()) {
    const double reach = millimetres("--handle", request.handle, "a length such as 30");
    piece.outlines.push_back(
        rectangle(Point{0, -kHandleWidth / 2}, Point{radius + reach, kHandleWidth / 2}));
  }
  return piece;
}

double gap_of(const Request& request) {
  if (request.piece_gap.empty()) return kUsualGap;
  const auto gap = workbook::read_length(request.piece_gap, false);
  if (!gap || gap->mm() < 0 || gap->mm() > 500) {
    refuse("--gap", fmt::format("takes a length such as 6, not \"{}\"", request.piece_gap));
  }
  return gap->mm();
}

std::string in_json(const loading::ShelfAnswer& answer, double gap) {
  std::string places;
  for (const Placement& place : answer.places) {
    places += fmt::format("{}\n    {{\"x_mm\": {}, \"y_mm\": {}, \"turn_deg\": {}}}",
                          places.empty() ? "" : ",", place.at.x, place.at.y, place.turn_deg);
  }
  return fmt::format(
      "{{\n  \"pieces\": {},\n  \"at_most\": {},\n  \"pattern\": \"{}\",\n  \"gap_mm\": {},\n"
      "  \"places\": [{}\n  ]\n}}\n",
      answer.pieces, answer.at_most, answer.pattern, gap, places);
}

}  // namespace

ExitStatus shelf(const Request& request) {
  if (request.shelf_size.empty() || request.piece_size.empty()) {
    std::cerr << "placer: name a shelf and a piece: placer shelf \"round 533\" --piece 84\n";
    return ExitStatus::could_not_run;
  }
  const double gap = gap_of(request);
  const loading::ShelfAnswer answer =
      loading::how_many(shelf_of(request.shelf_size), piece_of(request), gap);
  if (answer.pieces >= kMostCounted) {
    std::cerr << fmt::format("placer: {} pieces and more would go on it; so many are not counted\n",
                             kMostCounted);
    return ExitStatus::could_not_run;
  }
  if (request.json) {
    std::cout << in_json(answer, gap);
    return ExitStatus::done;
  }
  std::cout << fmt::format("{} pieces{}, {} mm between them; no arrangement holds more than {}.\n",
                           answer.pieces, answer.pattern.empty() ? "" : " in " + answer.pattern,
                           gap, answer.at_most);
  std::cout << "Posts take some of this room; placer load knows yours.\n";
  return ExitStatus::done;
}

}  // namespace placer::cli
