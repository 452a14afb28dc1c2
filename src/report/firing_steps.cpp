#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "placer/firing/words.h"
#include "report/fire_words.h"
#include "report/firing_blocks.h"
#include "report/own_units.h"
#include "report/run_in.h"
#include "report/words.h"

namespace placer::report {
namespace {

// Left edges of the columns.
constexpr double kFromTo = 10;
constexpr double kFast = 64;
constexpr double kTakes = 90;
constexpr double kWhen = 112;
constexpr double kRealTime = 144;
constexpr double kRealDegrees = 166;
constexpr double kBoxWidth = 20;
constexpr double kBoxHeight = 9.5;
constexpr double kFigures = 10.6;  // height of the line of figures
constexpr double kCoolingRow = 6;
constexpr Style kBig{pt(16), true};
constexpr Style kCooling{pt(13), true};
constexpr Style kPlain{pt(14), false};
constexpr Style kUnder{pt(10), false};
constexpr Style kStage{pt(12), true, 1.2};
constexpr Style kNote{pt(11), false, 1.2};
constexpr Style kCaution{pt(10), false, 1.15};
constexpr double kNotesWidth = kSheetWidth - kFromTo;

std::string from_to_in(const firing::TimedSegment& step, bool fahrenheit) {
  const auto words = [&](Temperature at) {
    return fahrenheit ? fahrenheit_text(at) : celsius_text(at);
  };
  const auto to = words(step.segment.target);
  if (std::abs((step.segment.target - step.from).kelvin) < 0.5) return to;
  const auto from = words(step.from);
  return from.substr(0, from.find(' ')) + " → " + to;
}

/// On the scale that the studio reads.
std::string from_to(const firing::TimedSegment& step, bool fahrenheit) {
  const bool stays = std::abs((step.segment.target - step.from).kelvin) < 0.5;
  return (stays ? "stay at " : "") + from_to_in(step, fahrenheit);
}

std::string rate_in(Ramp rate, bool fahrenheit) {
  return fahrenheit ? fmt::format("{} °F/h", std::llround(rate.kelvin_per_hour * 1.8))
                    : rate_text(rate);
}

std::string how_fast(const firing::TimedSegment& step, bool fahrenheit) {
  if (never_reached(step)) return "not reached";
  if (std::abs((step.segment.target - step.from).kelvin) < 0.5) return "hold";
  if (!std::isfinite(step.segment.rate.kelvin_per_hour)) return "full";
  return rate_in(real_rate(step), fahrenheit);
}

std::string how_fast_under(const firing::TimedSegment& step, bool fahrenheit) {
  if (std::abs((step.segment.target - step.from).kelvin) < 0.5) return "";
  const Ramp rate = real_rate(step);
  return std::isfinite(rate.kelvin_per_hour) ? rate_in(rate, !fahrenheit) : "as fast as it goes";
}

// A text no wider than its column: smaller when it must be.
void write_fitted(Page& page, const Desk& desk, Point at, const std::string& words, Style style,
                  double most) {
  style.size = desk.letters.size_to_fit(words, style.bold, most,
                                        {style.size, 0.93 * style.size, 0.86 * style.size,
                                         0.8 * style.size, 0.7 * style.size, 0.6 * style.size});
  write(page, desk, at, words, style);
}

struct Step {
  int number = 0;
  const firing::TimedSegment* timed = nullptr;
};

/// A stage with nothing to say needs no line of its own.
bool only_a_name(const firing::Segment& segment) {
  return segment.notes.empty() && segment.cautions.empty();
}

// Behind the °F, in the room up to how long it takes.
void draw_stage_name(Page& page, const Fire& fire, const Step& step, Point at) {
  const double after = kFromTo +
                       fire.desk.letters.width(from_to_in(*step.timed, !fire.desk.subject.inches),
                                               kUnder.size, false) +
                       3;
  write_fitted(page, fire.desk, at + Point{after, 9.5}, step.timed->segment.stage, {pt(11), true},
               kFast - after - 2);
}

void draw_figures(Page& page, const Fire& fire, const Step& step, Point at) {
  const Desk& desk = fire.desk;
  const firing::TimedSegment& timed = *step.timed;
  const bool fahrenheit = desk.subject.inches;
  const double base = at.y + 5.2;
  const double under = at.y + 9.5;
  write(page, desk, {at.x, base}, std::to_string(step.number), kBig);
  const auto put = [&](double left, double right, const std::string& big, const std::string& small,
                       const Style& style) {
    write_fitted(page, desk, {at.x + left, base}, big, style, right - left - 2);
    if (!small.empty()) {
      write_fitted(page, desk, {at.x + left, under}, small, kUnder, right - left - 2);
    }
  };
  put(kFromTo, kFast, from_to(timed, fahrenheit), from_to_in(timed, !fahrenheit), kBig);
  put(kFast, kTakes, how_fast(timed, fahrenheit), how_fast_under(timed, fahrenheit), kPlain);
  const Hours hold = timed.segment.hold;
  const bool still = how_fast(timed, fahrenheit) == "hold";
  put(kTakes, kWhen, hours_text(timed.ends - timed.starts),
      hold.count() > 0 && !still ? hours_text(hold) + " hold" : "", kPlain);
  const std::string elapsed = fire.clock.elapsed(timed.ends);
  if (fire.clock.knows_start()) {
    put(kWhen, kRealTime, fire.clock.day_time(timed.ends), elapsed, kBig);
  } else {
    put(kWhen, kRealTime, elapsed, "", kBig);
  }
  if (only_a_name(timed.segment)) draw_stage_name(page, fire, step, at);
  for (const double left : {kRealTime, kRealDegrees}) {
    frame(page, {at.x + left, at.y + 0.3}, {at.x + left + kBoxWidth, at.y + 0.3 + kBoxHeight}, 0.4);
  }
}

/// The fall with the heat off: nobody sets it, so it takes one line, and no boxes.
bool falls_by_itself(const firing::TimedSegment& timed) { return timed.segment.natural; }

void draw_fall(Page& page, const Fire& fire, const Step& step, Point at) {
  const Desk& desk = fire.desk;
  const firing::TimedSegment& timed = *step.timed;
  const double base = at.y + 4.8;
  write(page, desk, {at.x, base}, std::to_string(step.number), kCooling);
  const auto put = [&](double left, double right, const std::string& words, const Style& style) {
    write_fitted(page, desk, {at.x + left, base}, words, style, right - left - 2);
  };
  const bool fahrenheit = desk.subject.inches;
  put(kFromTo, 54, from_to(timed, fahrenheit), kCooling);
  put(54, 84, from_to_in(timed, !fahrenheit), kUnder);
  put(84, 126, in_own_units("about " + firing::both_scales(timed.segment.rate), fahrenheit),
      kUnder);
  put(126, 144, hours_text(timed.ends - timed.starts), kUnder);
  const std::string elapsed = fire.clock.elapsed(timed.ends);
  if (fire.clock.knows_start()) {
    put(144, 166, fire.clock.day_time(timed.ends), {pt(12), true});
    put(166, kSheetWidth + 2, elapsed, kUnder);
  } else {
    put(144, kSheetWidth + 2, elapsed, {pt(12), true});
  }
}

struct Paragraph {
  std::string lead;  ///< in bold, on the same line
  std::string words;
};

/// Cautions that have been told in full.
using Told = std::set<std::string>;

std::vector<Paragraph> paragraphs_of(const Step& step, const Told& general, Told& told) {
  const firing::Segment& segment = step.timed->segment;
  if (only_a_name(segment)) return {};
  std::string notes;
  for (const std::string& note : segment.notes) notes += (notes.empty() ? "" : " ") + note;
  std::vector<Paragraph> all;
  const bool falls = falls_by_itself(*step.timed);  // its name says no more than its figures
  if (!falls || !notes.empty()) all.push_back({falls ? "" : segment.stage, notes});
  std::string again;
  for (const std::string& caution : segment.cautions) {
    if (told.insert(caution).second) {
      const auto [head, rest] = split_caution(caution);
      all.push_back({"⚠ " + head, rest});
    } else if (!general.contains(caution)) {
      again += (again.empty() ? "" : " · ") + caution_head(caution);
    }
  }
  if (!again.empty()) all.push_back({"⚠ still:", again});
  return all;
}

bool is_caution(const Paragraph& paragraph) { return paragraph.lead.compare(0, 3, "⚠") == 0; }

std::vector<RunInLine> lines_of(const Desk& desk, const Paragraph& paragraph, bool falls,
                                double smaller) {
  const bool small = falls || is_caution(paragraph);
  Style bold = small ? kCaution : kStage;
  Style plain = small ? kCaution : kNote;
  bold.bold = true;
  for (Style* style : {&bold, &plain}) style->size *= 1 - smaller;
  return run_in(desk, paragraph.lead, paragraph.words, kNotesWidth, bold, plain);
}

}  // namespace

Block steps_head(const Fire& fire) {
  return {8, [&fire](Page& page, Point at) {
            constexpr Style kHead{pt(9)};
            const auto put = [&](double left, const char* words) {
              write(page, fire.desk, {at.x + left, at.y + 4}, words, kHead);
            };
            put(kFromTo, "from → to");
            put(kFast, "how fast");
            put(kTakes, "takes");
            put(kWhen, "done at about");
            put(kRealTime, "real time");
            put(kRealDegrees, "real °");
            rule(page, {at.x, at.y + 6}, {at.x + kSheetWidth, at.y + 6}, 0.5);
          }};
}

namespace {

Block step_block(const Fire& fire, const Step& step, const std::vector<RunInLine>& lines) {
  return {
      kFigures + lines_high(lines) + 1, [&fire, step, lines](Page& page, Point at) {
        draw_figures(page, fire, step, at);
        const double y = write_run_in(page, fire.desk, {at.x + kFromTo, at.y + kFigures}, lines);
        rule(page, {at.x, y + 1}, {at.x + kSheetWidth, y + 1}, 0.2);
      }};
}

Block fall_block(const Fire& fire, const Step& step, const std::vector<RunInLine>& lines) {
  return {kCoolingRow + lines_high(lines), [&fire, step, lines](Page& page, Point at) {
            draw_fall(page, fire, step, at);
            write_run_in(page, fire.desk, {at.x + kFromTo, at.y + kCoolingRow}, lines);
          }};
}

}  // namespace

std::vector<Block> step_blocks(const Fire& fire, double smaller) {
  std::vector<Block> blocks;
  const Told general(fire.forecast.cautions.begin(), fire.forecast.cautions.end());
  Told told = general;
  int number = 0;
  for (const firing::TimedSegment& timed : fire.forecast.steps) {
    const Step step{++number, &timed};
    std::vector<RunInLine> lines;
    for (const Paragraph& one : paragraphs_of(step, general, told)) {
      for (RunInLine& line : lines_of(fire.desk, one, falls_by_itself(timed), smaller)) {
        lines.push_back(std::move(line));
      }
    }
    blocks.push_back(falls_by_itself(timed) ? fall_block(fire, step, lines)
                                            : step_block(fire, step, lines));
  }
  return blocks;
}

}  // namespace placer::report
