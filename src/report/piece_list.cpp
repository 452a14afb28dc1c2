#include "report/piece_list.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>

#include "report/words.h"

namespace placer::report {
namespace {

constexpr double kColumnGap = 5;
constexpr double kTextLeft = kTickBox + 3;
constexpr double kLineGap = 2;
constexpr Style kNumbers{pt(15), true, 1.15};
constexpr Style kName{pt(12), false, 1.2};
constexpr Style kDetail{pt(9), false, 1.2};

bool alike(const PlacedPiece& a, const PlacedPiece& b) {
  return a.piece == b.piece && a.stacked == b.stacked && a.stack == b.stack;
}

// Numbers and name on one line when they fit, else one under the other.
bool on_one_line(const Desk& desk, const SheetLine& line, double most) {
  const std::string numbers = numbers_words(line.numbers);
  return desk.letters.width(numbers, kNumbers.size, true) + 3 +
             desk.letters.width(line.name, kName.size, false) <=
         most;
}

double column_width(const Room& room, int columns) {
  return (room.width() - kColumnGap * (columns - 1)) / columns;
}

// Calls `place` for each line that finds room.
std::size_t flow(const Desk& desk, const std::vector<SheetLine>& lines, std::size_t first,
                 const Room& room, int columns,
                 const std::function<void(const SheetLine&, Point)>& place) {
  const double width = column_width(room, columns);
  int column = 0;
  double y = room.top;
  for (std::size_t i = first; i < lines.size(); ++i) {
    const double height = line_height(desk, lines[i], width);
    if (y + height > room.bottom && y > room.top) {
      if (++column == columns) return i;
      y = room.top;
    }
    place(lines[i], {room.left + column * (width + kColumnGap), y});
    y += height + kLineGap;
  }
  return lines.size();
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

std::vector<SheetLine> sheet_lines(const Desk& desk, const ShelfView& view) {
  std::vector<const PlacedPiece*> pieces;
  for (const PlacedPiece& piece : view.level.pieces) pieces.push_back(&piece);
  std::stable_sort(pieces.begin(), pieces.end(),
                   [](const auto* a, const auto* b) { return a->number < b->number; });
  std::vector<SheetLine> lines;
  std::vector<const PlacedPiece*> firsts;
  for (const PlacedPiece* piece : pieces) {
    const auto same = std::find_if(firsts.begin(), firsts.end(),
                                   [&](const auto* first) { return alike(*first, *piece); });
    if (same != firsts.end()) {
      lines[static_cast<std::size_t>(same - firsts.begin())].numbers.push_back(piece->number);
      continue;
    }
    firsts.push_back(piece);
    lines.push_back({{piece->number},
                     piece_name(desk.subject, *piece),
                     fmt::format("{} · {}", glaze_name(desk.subject, *piece),
                                 length_text(piece->height, desk.subject.inches)),
                     hatching_of(desk, view.load, *piece)});
  }
  return lines;
}

double line_height(const Desk& desk, const SheetLine& line, double width) {
  const double most = width - kTextLeft;
  double height = lines_height(desk, line.detail, most, kDetail);
  if (on_one_line(desk, line, most)) {
    height += kNumbers.size * kNumbers.step;
  } else {
    height += lines_height(desk, numbers_words(line.numbers), most, kNumbers) +
              lines_height(desk, line.name, most, kName);
  }
  return std::max(height, kTickBox);
}

void draw_line(Page& page, const Desk& desk, const SheetLine& line, Point top_left, double width) {
  const double most = width - kTextLeft;
  const std::string numbers = numbers_words(line.numbers);
  Point at{top_left.x + kTextLeft, top_left.y};
  tick_box(page, top_left);
  if (on_one_line(desk, line, most)) {
    const double base = at.y + 0.9 * kNumbers.size;
    write(page, desk, {at.x, base}, numbers, kNumbers);
    const double after = at.x + desk.letters.width(numbers, kNumbers.size, true) + 3;
    write(page, desk, {after, base}, line.name, kName);
    at.y += kNumbers.size * kNumbers.step;
  } else {
    at.y = write_lines(page, desk, at, numbers, most, kNumbers);
    at.y = write_lines(page, desk, at, line.name, most, kName);
  }
  write_lines(page, desk, at, line.detail, most, kDetail);
}

std::size_t draw_list(Page& page, const Desk& desk, const std::vector<SheetLine>& lines,
                      std::size_t first, const Room& room, int columns) {
  const double width = column_width(room, columns);
  return flow(desk, lines, first, room, columns,
              [&](const SheetLine& line, Point at) { draw_line(page, desk, line, at, width); });
}

std::size_t list_fits(const Desk& desk, const std::vector<SheetLine>& lines, std::size_t first,
                      const Room& room, int columns) {
  return flow(desk, lines, first, room, columns, [](const SheetLine&, Point) {});
}

}  // namespace placer::report
