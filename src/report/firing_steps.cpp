#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "report/firing_blocks.h"
#include "report/words.h"

namespace placer::report {
namespace {

// Left edges of the columns.
constexpr double kFromTo = 10;
constexpr double kFast = 62;
constexpr double kTakes = 87;
constexpr double kWhen = 111;
constexpr double kRealTime = 144;
constexpr double kRealDegrees = 166;
constexpr double kBoxWidth = 20;
constexpr double kBoxHeight = 10;
constexpr double kFigures = 12.5;  // height of the line of figures
constexpr Style kBig{pt(15), true};
constexpr Style kPlain{pt(14), false};
constexpr Style kUnder{pt(10), false};
constexpr Style kStage{pt(12), true, 1.2};
constexpr Style kNote{pt(11), false, 1.2};
constexpr double kNotesWidth = kSheetWidth - kFromTo;

std::string from_to(const firing::TimedSegment& step) {
  const auto to = celsius_text(step.segment.target);
  if (std::abs((step.segment.target - step.from).kelvin) < 0.5) return "stay at " + to;
  const auto from = celsius_text(step.from);
  return from.substr(0, from.find(' ')) + " → " + to;
}

std::string from_to_fahrenheit(const firing::TimedSegment& step) {
  const auto to = fahrenheit_text(step.segment.target);
  if (std::abs((step.segment.target - step.from).kelvin) < 0.5) return to;
  const auto from = fahrenheit_text(step.from);
  return from.substr(0, from.find(' ')) + " → " + to;
}

std::string how_fast(const firing::TimedSegment& step) {
  if (std::abs((step.segment.target - step.from).kelvin) < 0.5) return "hold";
  if (step.segment.natural) return "as it falls";
  if (!std::isfinite(step.segment.rate.kelvin_per_hour)) return "full";
  return rate_text(step.segment.rate);
}

std::string how_fast_under(const firing::TimedSegment& step) {
  if (std::abs((step.segment.target - step.from).kelvin) < 0.5) return "";
  const double rate = step.segment.rate.kelvin_per_hour;
  if (!std::isfinite(rate)) return "as fast as it goes";
  if (step.segment.natural) return "about " + rate_text(step.segment.rate);
  return fmt::format("{} °F/h", std::llround(rate * 1.8));
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

void draw_figures(Page& page, const Fire& fire, const Step& step, Point at) {
  const Desk& desk = fire.desk;
  const firing::TimedSegment& timed = *step.timed;
  const double base = at.y + 6;
  const double under = at.y + 10.5;
  write(page, desk, {at.x, base}, std::to_string(step.number), kBig);
  const auto put = [&](double left, double right, const std::string& big, const std::string& small,
                       const Style& style) {
    write_fitted(page, desk, {at.x + left, base}, big, style, right - left - 2);
    if (!small.empty()) {
      write_fitted(page, desk, {at.x + left, under}, small, kUnder, right - left - 2);
    }
  };
  put(kFromTo, kFast, from_to(timed), from_to_fahrenheit(timed), kBig);
  put(kFast, kTakes, how_fast(timed), how_fast_under(timed), kPlain);
  const Hours hold = timed.segment.hold;
  const bool still = how_fast(timed) == "hold";
  put(kTakes, kWhen, hours_text(timed.ends - timed.starts),
      hold.count() > 0 && !still ? hours_text(hold) + " hold" : "", kPlain);
  const std::string elapsed = fire.clock.elapsed(timed.ends);
  if (fire.clock.knows_start()) {
    put(kWhen, kRealTime, fire.clock.day_time(timed.ends), elapsed, kBig);
  } else {
    put(kWhen, kRealTime, elapsed, "", kBig);
  }
  for (const double left : {kRealTime, kRealDegrees}) {
    frame(page, {at.x + left, at.y + 1}, {at.x + left + kBoxWidth, at.y + 1 + kBoxHeight}, 0.4);
  }
}

struct Paragraph {
  std::string lead;  ///< in bold, on the same line
  std::string words;
};

/// Where each caution was first told: 0 above the steps, else the step's number.
using Told = std::map<std::string, int>;

Paragraph caution_paragraph(const std::string& caution, int number, Told& told) {
  const auto [head, rest] = split_caution(caution);
  const auto [first, is_new] = told.emplace(caution, number);
  if (is_new) return {"⚠ " + head, rest};
  const std::string where =
      first->second == 0 ? "see above the steps" : fmt::format("see step {}", first->second);
  return {"⚠ " + head, where};
}

std::vector<Paragraph> paragraphs_of(const Step& step, Told& told) {
  const firing::Segment& segment = step.timed->segment;
  std::vector<Paragraph> all{{segment.stage, ""}};
  for (const std::string& note : segment.notes) {
    if (all.size() == 1 && all.front().words.empty()) {
      all.front().words = note;
    } else {
      all.push_back({"", note});
    }
  }
  for (const std::string& caution : segment.cautions) {
    all.push_back(caution_paragraph(caution, step.number, told));
  }
  return all;
}

struct Line {
  double indent = 0;
  std::string words;
  Style style;
};

// Cautions are set as the notes are, stages a little larger.
double lead_size(const std::string& lead) {
  return lead.compare(0, 3, "⚠") == 0 ? kNote.size : kStage.size;
}

// The lead and, behind it, as much of the words as the first line holds.
std::vector<Line> lines_of(const Desk& desk, const Paragraph& paragraph) {
  const Style style = kNote;
  std::vector<Line> lines;
  std::string rest = paragraph.words;
  if (!paragraph.lead.empty()) {
    const double size = lead_size(paragraph.lead);
    const auto lead = desk.letters.wrapped(paragraph.lead, size, true, kNotesWidth);
    for (const std::string& line : lead) lines.push_back({0, line, {size, true, kStage.step}});
    const double indent = desk.letters.width(lead.back(), size, true) + 3;
    const auto first =
        desk.letters.wrapped(rest, style.size, style.bold, std::max(kNotesWidth - indent, 1.0));
    if (rest.empty()) return lines;
    // Not worth it for a bit of a word.
    if (indent < 0.6 * kNotesWidth) {
      lines.push_back({indent, first.front(), style});
      rest = rest.substr(std::min(rest.size(), first.front().size()));
    }
  }
  if (rest.find_first_not_of(' ') == std::string::npos) return lines;
  for (const std::string& line : desk.letters.wrapped(rest, style.size, style.bold, kNotesWidth)) {
    lines.push_back({0, line, style});
  }
  return lines;
}

double line_step(const Line& line) { return line.style.step * line.style.size; }

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

std::vector<Block> step_blocks(const Fire& fire) {
  std::vector<Block> blocks;
  Told told;
  for (const std::string& caution : fire.forecast.cautions) told.emplace(caution, 0);
  int number = 0;
  for (const firing::TimedSegment& timed : fire.forecast.steps) {
    const Step step{++number, &timed};
    std::vector<Line> lines;
    for (const Paragraph& one : paragraphs_of(step, told)) {
      for (Line& line : lines_of(fire.desk, one)) lines.push_back(std::move(line));
    }
    double height = kFigures;
    for (const Line& line : lines) height += line.indent > 0 ? 0 : line_step(line);
    blocks.push_back({height + 1.5, [&fire, step, lines](Page& page, Point at) {
                        draw_figures(page, fire, step, at);
                        double y = at.y + kFigures;
                        double last_step = 0;
                        for (const Line& line : lines) {
                          // A line behind a lead shares the lead's base line.
                          const double base = line.indent > 0 ? y - last_step : y;
                          write(page, fire.desk,
                                {at.x + kFromTo + line.indent, base + 0.9 * kStage.size},
                                line.words, line.style);
                          if (line.indent > 0) continue;
                          last_step = line_step(line);
                          y += last_step;
                        }
                        rule(page, {at.x, y + 1.5}, {at.x + kSheetWidth, y + 1.5}, 0.2);
                      }});
  }
  return blocks;
}

}  // namespace placer::report
