#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "report/fire_words.h"
#include "report/firing_blocks.h"
#include "report/run_in.h"
#include "report/words.h"

namespace placer::report {
namespace {

constexpr Style kWords{pt(12)};

std::vector<std::string> before_lighting() {
  return {"spy hole clear",
          "sensor in",
          "cones seen",
          "vent on",
          "carbon monoxide alarm tested",  // clay gives it off in every firing, whatever heats it
          "nothing that burns within reach"};
}

// Boxes with words, as many on a line as fit; returns the height.
double boxes(Page* page, const Desk& desk, Point at, const std::vector<std::string>& words) {
  constexpr double kBox = 6;
  constexpr double kLine = 7.5;
  double x = 0;
  double y = 0;
  for (const std::string& one : words) {
    const double width = kBox + 2 + desk.letters.width(one, kWords.size, false);
    if (x > 0 && x + width > kSheetWidth) {
      x = 0;
      y += kLine;
    }
    if (page != nullptr) {
      tick_box(*page, {at.x + x, at.y + y}, kBox);
      write(*page, desk, {at.x + x + kBox + 2, at.y + y + 4.8}, one, kWords);
    }
    x += width + 7;
  }
  return y + kBox + 1.5;
}

std::string fire_words(const firing::Forecast& forecast) {
  std::vector<std::string> parts;
  if (forecast.energy) {
    const double kwh = forecast.energy->kwh;
    const double band = forecast.energy_band;
    parts.push_back(fmt::format("energy about {:.0f} kWh ({:.0f} to {:.0f})", kwh, kwh * (1 - band),
                                kwh * (1 + band)));
  }
  if (forecast.fuel_kg) parts.push_back(fuel_words(forecast));
  if (forecast.cost) parts.push_back(cost_words(forecast));
  return joined(parts);
}

void blank(Page& page, double left, double right, double y) {
  rule(page, {left, y}, {right, y}, 0.3);
}

}  // namespace

Block start_block(const Fire& fire) {
  const auto words = before_lighting();
  const double height = boxes(nullptr, fire.desk, {}, words);
  return {13 + height, [&fire, words](Page& page, Point at) {
            write(page, fire.desk, {at.x, at.y + 8}, "START", {pt(22), true});
            const double left = at.x + fire.desk.letters.width("START", pt(22), true) + 4;
            blank(page, left, left + 22, at.y + 9);
            write(page, fire.desk, {left + 24, at.y + 8}, ":", {pt(22), true});
            blank(page, left + 28, left + 50, at.y + 9);
            const std::string planned = fire.clock.knows_start()
                                            ? "planned " + fire.clock.start_words()
                                            : "write it in; the times below count from it";
            write(page, fire.desk, {left + 56, at.y + 8}, planned, {pt(12)});
            boxes(&page, fire.desk, {at.x, at.y + 13}, words);
          }};
}

Block paragraph(const Desk& desk, const std::string& heading, const std::string& words,
                double size) {
  const Style bold{size, true, 1.2};
  const Style plain{size, false, 1.2};
  const auto lines = run_in(desk, heading, words, kSheetWidth, bold, plain);
  return {lines_high(lines),
          [=, &desk](Page& page, Point at) { write_run_in(page, desk, at, lines); }};
}

std::optional<Block> be_there_block(const Fire& fire, double size) {
  struct Row {
    std::string when, what;
    double height = 0;
  };
  constexpr double kHead = 5;
  const Style bold{size, true, 1.15};
  const Style plain{size, false, 1.15};
  std::vector<Row> rows;
  double left = 0;  // of what is to be done
  for (const firing::Event& event : fire.forecast.events) {
    if (!event.hands_on) continue;
    rows.push_back(
        {fire.clock.knows_start() ? fire.clock.day_time(event.at) : fire.clock.elapsed(event.at),
         event.what});
    left = std::max(left, fire.desk.letters.width(rows.back().when, size, true) + 3);
  }
  if (rows.empty()) return std::nullopt;
  double height = kHead;
  for (Row& row : rows) {
    row.height = lines_height(fire.desk, row.what, kSheetWidth - left, plain);
    height += row.height;
  }
  return Block{
      height, [&fire, rows, left, bold, plain](Page& page, Point at) {
        write(page, fire.desk, {at.x, at.y + 3.6}, "BE THERE", {pt(11), true});
        at.y += kHead;
        for (const Row& row : rows) {
          write_lines(page, fire.desk, at, row.when, left, bold);
          write_lines(page, fire.desk, {at.x + left, at.y}, row.what, kSheetWidth - left, plain);
          at.y += row.height;
        }
      }};
}

Block off_block(const Fire& fire) {
  const firing::Forecast& forecast = fire.forecast;
  const std::string elapsed = fire.clock.elapsed(forecast.earliest_opening);
  const std::string when =
      fire.clock.knows_start()
          ? fmt::format("{} ({})", fire.clock.day_time(forecast.earliest_opening), elapsed)
          : elapsed;
  const std::string open = fmt::format("Open only after {} and when it reads under {}.", when,
                                       both_degrees(forecast.open_below, fire.desk.subject.inches));
  std::string why = forecast.open_why;
  if (!why.empty()) why.front() = static_cast<char>(std::toupper(why.front()));
  why += (why.empty() ? "" : ". ") + cooling_band_words(forecast);
  return {26, [&fire, open, why](Page& page, Point at) {
            const Desk& desk = fire.desk;
            frame(page, at, at + Point{kSheetWidth, 26}, 0.8);
            const double x = at.x + 3;
            tick_box(page, {x, at.y + 2});
            write(page, desk, {x + 11, at.y + 8.5}, "OFF, checked by", {pt(16), true});
            const double after = x + 13 + desk.letters.width("OFF, checked by", pt(16), true);
            blank(page, after, after + 42, at.y + 9.5);
            write(page, desk, {after + 45, at.y + 8.5}, "at", {pt(16), true});
            blank(page, after + 54, at.x + kSheetWidth - 4, at.y + 9.5);
            const auto fitted = [&](const std::string& words, bool bold, double y,
                                    const std::vector<double>& sizes) {
              write(page, desk, {x, y}, words,
                    {desk.letters.size_to_fit(words, bold, kSheetWidth - 8, sizes), bold});
            };
            fitted(open, true, at.y + 17.5, {pt(16), pt(15), pt(14), pt(13), pt(12), pt(11)});
            fitted(why, false, at.y + 23, {pt(11), pt(10), pt(9), pt(8)});
          }};
}

Block next_time_block(const Fire& fire) {
  return {12, [&fire](Page& page, Point at) {
            const std::string words = fire_words(fire.forecast);
            const double size = fire.desk.letters.size_to_fit(words, false, kSheetWidth,
                                                              {pt(11), pt(10), pt(9), pt(8)});
            write(page, fire.desk, {at.x, at.y + 4}, words, {size});
            write(page, fire.desk, {at.x, at.y + 10.5}, "next time:", {pt(12), true});
            blank(page, at.x + 26, at.x + kSheetWidth, at.y + 11.5);
          }};
}

}  // namespace placer::report
