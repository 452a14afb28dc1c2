/// shelf: a question without a file.
#include <fmt/format.h>

#include <array>
#include <iostream>
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
constexpr double kLargest = 5000;      // mm

[[noreturn]] void refuse(const std::string& option, const std::string& message) {
  throw InputError{TextPos{option}, message};
}

double sensible(const std::string& option, const std::string& text, Length length, double least,
                double most) {
  const double mm = length.mm();
  if (mm <= 0 && least > 0) refuse(option, fmt::format("must be more than 0, not \"{}\"", text));
  if (mm < least || mm > most) {
    refuse(option,
           fmt::format("\"{}\" makes no sense here: from {} to {} mm can be", text, least, most));
  }
  return mm;
}

/// A length above zero.
double millimetres(const std::string& option, const std::string& text, double least = 1,
                   double most = kLargest) {
  const workbook::LengthOrWhy read = workbook::read_length_or_why(text, false);
  if (!read.length) refuse(option, read.complaint);
  return sensible(option, text, *read.length, least, most);
}

std::pair<double, double> two_sizes(const std::string& option, const std::string& text) {
  const workbook::SizesOrWhy read = workbook::read_sizes(text, false);
  if (!read.sizes) refuse(option, read.complaint);
  return {sensible(option, text, read.sizes->first, 1, kLargest),
          sensible(option, text, read.sizes->second, 1, kLargest)};
}

std::string lower_case(std::string text) {
  for (char& c : text) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return text;
}

struct Many {
  std::string_view word;
  int sides;
};
constexpr std::array kManySided = {Many{"hexagon ", 6}, Many{"octagon ", 8}, Many{"decagon ", 10},
                                   Many{"dodecagon ", 12}};

Region shelf_of(const std::string& given) {
  const std::string option = "the shelf";
  const std::string text = lower_case(given);
  const auto across = [&](std::string_view word) {
    return millimetres(option, given.substr(word.size()), 50);
  };
  if (text.starts_with("round ")) return {{}, Disc{{0, 0}, across("round ") / 2}, {}};
  for (const std::string_view word : {"half round ", "half-round "}) {
    if (text.starts_with(word)) return half_disc(across(word));
  }
  for (const Many& many : kManySided) {
    if (text.starts_with(many.word)) {
      return {regular_polygon(many.sides, across(many.word)), {}, {}};
    }
  }
  if (text.find('x') == std::string::npos && text.find("×") == std::string::npos) {
    refuse(option, fmt::format("takes \"round 533\", \"half round 560\", \"octagon 640\" or "
                               "\"600 x 300\", not \"{}\"",
                               given));
  }
  const auto [width, depth] = two_sizes(option, given);
  return {rectangle(width, depth), {}, {}};
}

Footprint piece_of(const Request& request) {
  const std::string& text = request.piece_size;
  if (text.find_first_of("xX") != std::string::npos || text.find("×") != std::string::npos) {
    if (!request.handle.empty()) {
      refuse("--handle", "goes with a round piece: give the piece one size, as in --piece 84");
    }
    const auto [width, depth] = two_sizes("--piece", text);
    return {{}, {rectangle(width, depth)}};
  }
  const double radius = millimetres("--piece", text) / 2;
  Footprint piece{{Disc{{0, 0}, radius}}, {}};
  if (!request.handle.empty()) {
    const double reach = millimetres("--handle", request.handle);
    piece.outlines.push_back(
        rectangle(Point{0, -kHandleWidth / 2}, Point{radius + reach, kHandleWidth / 2}));
  }
  return piece;
}

double gap_of(const Request& request) {
  return request.piece_gap.empty() ? kUsualGap : millimetres("--gap", request.piece_gap, 0, 500);
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
  if (answer.pieces == 0) {
    std::cout << "0 pieces: not one goes on this shelf.\n";
    return ExitStatus::done;
  }
  std::cout << fmt::format("{} pieces{}, {} mm between them; no arrangement holds more than {}.\n",
                           answer.pieces, answer.pattern.empty() ? "" : " in " + answer.pattern,
                           gap, answer.at_most);
  std::cout << "Posts take some of this room; placer load knows yours.\n";
  return ExitStatus::done;
}

}  // namespace placer::cli
