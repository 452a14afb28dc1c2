#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "report/course.h"
#include "report/fire_words.h"
#include "report/firing_blocks.h"
#include "report/words.h"

namespace placer::report {
namespace {

constexpr double kRow = 9;
constexpr double kHead = 9.5;
constexpr double kTable = 91;
constexpr int kFewestRows = 10;
constexpr int kMostRows = 40;
// Left edges within a table: plan, time, degrees, damper or switch, initials.
constexpr std::array kEdges{0.0, 32.0, 47.0, 63.0, 82.0, kTable};
constexpr std::array kNames{"", "time", "real °", "setting", "by"};

int rows_of(const firing::Forecast& forecast) {
  const int hours = static_cast<int>(std::ceil(forecast.off.count()));
  const int rows = std::clamp(hours, kFewestRows, kMostRows);
  return rows + rows % 2;
}

const char* setting_words(const firing::Forecast& forecast) {
  switch (heated_by(forecast)) {
    case HeatedBy::electricity:
      return "switch or controller";
    case HeatedBy::natural_gas:
      return "damper, gas";
    case HeatedBy::other_fire:
      return "damper, fuel";
    case HeatedBy::unknown:
      break;
  }
  return "damper, gas or switch";
}

void draw_table(Page& page, const Fire& fire, Point at, int first, int rows) {
  const double bottom = at.y + rows * kRow;
  frame(page, at, {at.x + kTable, bottom}, 0.4);
  for (std::size_t i = 0; i < kNames.size(); ++i) {
    // The first column follows the kiln, where it cannot follow the schedule.
    const char* first_name = fire.forecast.falls_behind ? "what it will manage" : "plan";
    write(page, fire.desk, {at.x + kEdges[i] + 0.5, at.y - 1.2}, i == 0 ? first_name : kNames[i],
          {pt(8)});
    if (i > 0) rule(page, {at.x + kEdges[i], at.y}, {at.x + kEdges[i], bottom}, 0.2);
  }
  for (int row = 0; row < rows; ++row) {
    const double y = at.y + row * kRow;
    if (row > 0) rule(page, {at.x, y}, {at.x + kTable, y}, 0.2);
    const double hour = first + row;
    const std::string when = fmt::format(
        "+{} h{}", first + row,
        fire.clock.knows_start() ? " · " + fire.clock.clock(Hours{hour}) : std::string{});
    write(page, fire.desk, {at.x + 1, y + 3.7}, when, {pt(8)});
    const double planned = course_at(fire.forecast, hour);
    const std::string degrees = both_degrees({std::round(planned)}, fire.desk.subject.inches);
    const double size = fire.desk.letters.size_to_fit(degrees, true, kEdges[1] - 2,
                                                      {pt(9.5), pt(9), pt(8.5), pt(8)});
    write(page, fire.desk, {at.x + 1, y + 7.6}, degrees, {size, true});
  }
}

}  // namespace

Block log_block(const Fire& fire) {
  const int rows = rows_of(fire.forecast);
  return {kHead + rows / 2 * kRow + 1, [&fire, rows](Page& page, Point at) {
            write(page, fire.desk, {at.x, at.y + 4.5}, "EVERY HOUR", {pt(13), true});
            const std::string how = "real °: write the scale that you read; setting: ";
            write(page, fire.desk, {at.x + 36, at.y + 4.5}, how + setting_words(fire.forecast),
                  {pt(9)});
            const double top = at.y + kHead;
            draw_table(page, fire, {at.x, top}, 1, rows / 2);
            draw_table(page, fire, {at.x + kSheetWidth - kTable, top}, 1 + rows / 2, rows / 2);
          }};
}

}  // namespace placer::report
