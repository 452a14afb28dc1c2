#include "report/piece_list.h"

#include <fmt/format.h>

#include <algorithm>

#include "report/lists.h"
#include "report/plan_marks.h"

namespace placer::report {
namespace {

constexpr double kTextLeft = kTickBox + 3;
constexpr Style kNumbers{pt(15), true, 1.15};
constexpr Style kName{pt(12), false, 1.2};
constexpr Style kHead{pt(12), false, 1.2};  // how many of what
constexpr Style kDetail{pt(10), false, 1.2};
constexpr double kApart = 3;                 // mm between the head and the numbers
constexpr double kDrop = 5;                  // mm for the sign of a runny glaze behind the numbers
constexpr std::size_t kNumbersInALine = 40;  // more of one kind start another line

/// Words of one line, measured.
struct Measured {
  std::string head, numbers, detail;
  bool one_line = false;  ///< the head and the numbers side by side
  double most = 0;
  bool cookie = false;  ///< a drop behind the numbers
};

double numbers_most(const Measured& line) { return line.most - (line.cookie ? kDrop : 0); }

double height_of(const Desk& desk, const Measured& line) {
  double height = lines_height(desk, line.detail, line.most, kDetail);
  if (line.one_line) {
    height += kNumbers.size * kNumbers.step;
  } else {
    height += lines_height(desk, line.head, line.most, kHead) +
              lines_height(desk, line.numbers, numbers_most(line), kNumbers);
  }
  return std::max(height, kTickBox);
}

// Behind the last of the numbers.
void draw_drop_behind(Page& page, const Desk& desk, const Measured& line, double left,
                      double base) {
  if (!line.cookie) return;
  const auto lines = desk.letters.wrapped(line.numbers, kNumbers.size, true, numbers_most(line));
  const double after = desk.letters.width(lines.back(), kNumbers.size, true);
  draw_drop(page, {left + after + 2.6, base - 1.5}, 1.4);
}

void draw(Page& page, const Desk& desk, const Measured& line, Point top_left) {
  Point at{top_left.x + kTextLeft, top_left.y};
  tick_box(page, top_left);
  if (line.one_line) {
    const double base = at.y + 0.9 * kNumbers.size;
    write(page, desk, {at.x, base}, line.head, kHead);
    const double after = at.x + desk.letters.width(line.head, kHead.size, false) + kApart;
    write(page, desk, {after, base}, line.numbers, kNumbers);
    draw_drop_behind(page, desk, line, after, base);
    at.y += kNumbers.size * kNumbers.step;
  } else {
    at.y = write_lines(page, desk, at, line.head, line.most, kHead);
    at.y = write_lines(page, desk, at, line.numbers, numbers_most(line), kNumbers);
    const double below = (kNumbers.step - 0.9) * kNumbers.size;
    draw_drop_behind(page, desk, line, at.x, at.y - below);
  }
  write_lines(page, desk, at, line.detail, line.most, kDetail);
}

Block block_of(const Desk& desk, Measured line) {
  const double together = desk.letters.width(line.numbers, kNumbers.size, true) + kApart +
                          (line.cookie ? kDrop : 0) +
                          desk.letters.width(line.head, kHead.size, false);
  line.one_line = together <= line.most;
  return {height_of(desk, line),
          [&desk, line](Page& page, Point at) { draw(page, desk, line, at); }};
}

}  // namespace

std::string numbers_words(const std::vector<int>& numbers) {
  std::string out;
  for (std::size_t i = 0; i < numbers.size();) {
    std::size_t end = i;
    while (end + 1 < numbers.size() && numbers[end + 1] == numbers[end] + 1) ++end;
    if (!out.empty()) out += ' ';
    if (end >= i + 2) {
      out += fmt::format("{}–{}", numbers[i], numbers[end]);
    } else {
      end = i;
      out += std::to_string(numbers[i]);
    }
    i = end + 1;
  }
  return out;
}

std::vector<Block> piece_list(const Desk& desk, const ShelfView& view, double width) {
  std::vector<Block> blocks;
  for (const ListLine& line : list_lines(desk.subject, view.load, view.level)) {
    for (std::size_t i = 0; i < line.pieces.size(); i += kNumbersInALine) {
      std::vector<int> numbers;
      const std::size_t end = std::min(line.pieces.size(), i + kNumbersInALine);
      for (std::size_t k = i; k < end; ++k) numbers.push_back(line.pieces[k]->number);
      const std::string head = i == 0 ? head_words(desk.subject, line) + ":"
                                      : fmt::format("{}, {} of them:", line.name, numbers.size());
      blocks.push_back(block_of(desk, {head, numbers_words(numbers), line.detail, false,
                                       width - kTextLeft, line.cookie}));
    }
  }
  return blocks;
}

Block tick_line(const Desk& desk, const std::string& words, const std::string& detail,
                double width) {
  const double most = width - kTextLeft;
  double height = lines_height(desk, words, most, kName);
  if (!detail.empty()) height += lines_height(desk, detail, most, kDetail);
  return {std::max(height, kTickBox), [&desk, words, detail, most](Page& page, Point at) {
            tick_box(page, at);
            at.x += kTextLeft;
            const bool alone = detail.empty() && lines_height(desk, words, most, kName) < kTickBox;
            if (alone) at.y += (kTickBox - kName.size * kName.step) / 2;
            at.y = write_lines(page, desk, at, words, most, kName);
            if (!detail.empty()) write_lines(page, desk, at, detail, most, kDetail);
          }};
}

}  // namespace placer::report
