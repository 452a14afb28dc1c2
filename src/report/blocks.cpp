#include "report/blocks.h"

namespace placer::report {
namespace {

std::size_t flow(const std::vector<Block>& blocks, std::size_t first, const Room& room,
                 const Columns& columns, const std::function<void(const Block&, Point)>& place) {
  const double width = column_width(room, columns);
  int column = 0;
  double y = room.top;
  for (std::size_t i = first; i < blocks.size(); ++i) {
    if (y + blocks[i].height > room.bottom + 1e-9 && y > room.top) {
      if (++column == columns.count) return i;
      y = room.top;
    }
    place(blocks[i], {room.left + column * (width + columns.gap), y});
    y += blocks[i].height + columns.line_gap;
  }
  return blocks.size();
}

}  // namespace

double column_width(const Room& room, const Columns& columns) {
  return (room.width() - columns.gap * (columns.count - 1)) / columns.count;
}

std::size_t blocks_that_fit(const std::vector<Block>& blocks, std::size_t first, const Room& room,
                            const Columns& columns) {
  return flow(blocks, first, room, columns, [](const Block&, Point) {});
}

std::size_t set_blocks(Page& page, const std::vector<Block>& blocks, std::size_t first,
                       const Room& room, const Columns& columns) {
  return flow(blocks, first, room, columns,
              [&](const Block& block, Point at) { block.ink(page, at); });
}

double height_of(const std::vector<Block>& blocks, const Columns& columns) {
  double sum = 0;
  for (const Block& block : blocks) sum += block.height + columns.line_gap;
  return sum;
}

}  // namespace placer::report
