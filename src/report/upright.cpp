#include "report/upright.h"

#include <algorithm>

namespace placer::report {

Upright upright_in(const Desk& desk, const Room& room) {
  return {room.bottom - 1, desk.subject.batch.kiln.height.mm() / (room.height() - kRoofWords - 1)};
}

void draw_chamber(Page& page, const Desk& desk, double left, double right, const Upright& up) {
  const Kiln& kiln = desk.subject.batch.kiln;
  const double roof = up(kiln.height);
  page.marks.emplace_back(
      Path{{{left, roof}, {left, up.floor_y}, {right, up.floor_y}, {right, roof}},
           false,
           Pen{0.6, {}},
           Fill::none});
  rule(page, {left, roof}, {right, roof}, 0.3);
  if (kiln.under_lid.mm() <= 0) return;
  const double kept = up(kiln.height - kiln.under_lid);
  dashed(page, {left, kept}, {right, kept});
}

void draw_shelf_bar(Page& page, const Desk& desk, const Level& level, double left, double right,
                    const Upright& up, bool black) {
  const ShelfKind& shelf =
      desk.subject.batch.kiln.shelves.at(static_cast<std::size_t>(level.shelf));
  const double top = up(level.shelf_top);
  const double thick = std::max(shelf.thickness.mm() / up.scale, 0.9);
  frame(page, {left, top}, {right, top + thick}, 0.3, black ? Fill::black : Fill::white);
}

std::vector<double> spread(std::vector<double> wanted, const std::vector<double>& heights,
                           double top) {
  for (std::size_t i = 1; i < wanted.size(); ++i) {
    wanted[i] = std::min(wanted[i], wanted[i - 1] - heights[i - 1]);
  }
  if (wanted.empty()) return wanted;
  wanted.back() = std::max(wanted.back(), top + heights.back());
  for (std::size_t i = wanted.size() - 1; i > 0; --i) {
    wanted[i - 1] = std::max(wanted[i - 1], wanted[i] + heights[i - 1]);
  }
  return wanted;
}

}  // namespace placer::report
