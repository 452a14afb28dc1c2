#include "report/side_view.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>

#include "report/words.h"

namespace placer::report {
namespace {

constexpr Style kSmall{pt(9)};
constexpr Style kSmallBold{pt(9), true};

const ShelfKind& shelf_of(const Desk& desk, const Level& level) {
  return desk.subject.batch.kiln.shelves.at(static_cast<std::size_t>(level.shelf));
}

std::vector<const Level*> levels_of(const KilnLoad& load, int column) {
  std::vector<const Level*> levels;
  for (const Level& level : load.levels) {
    if (level.column == column) levels.push_back(&level);
  }
  std::sort(levels.begin(), levels.end(),
            [](const auto* a, const auto* b) { return a->level < b->level; });
  return levels;
}

/// Heights of the kiln onto y of the paper.
struct Upright {
  double floor_y = 0;
  double scale = 1;  ///< kiln mm per paper mm
  double operator()(Length z) const { return floor_y - z.mm() / scale; }
};

void draw_chamber(Page& page, const Desk& desk, double left, double right, const Upright& up) {
  const Length roof = desk.subject.batch.kiln.height;
  const Pen wall{0.6, {}};
  page.marks.emplace_back(
      Path{{{left, up(roof)}, {left, up.floor_y}, {right, up.floor_y}, {right, up(roof)}},
           false,
           wall,
           Fill::none});
  rule(page, {left, up(roof)}, {right, up(roof)}, 0.3);
  write(page, desk, {(left + right) / 2, up(roof) - 1},
        desk.subject.batch.kiln.opens == Opens::top ? "lid" : "roof", kSmall, Anchor::middle);
}

// Base lines for labels that want to be at `wanted` (falling y) but need `apart` between them.
std::vector<double> spread(std::vector<double> wanted, double apart) {
  for (std::size_t i = 1; i < wanted.size(); ++i) {
    wanted[i] = std::min(wanted[i], wanted[i - 1] - apart);
  }
  return wanted;
}

}  // namespace

void draw_stack(Page& page, const Desk& desk, const KilnLoad& load, const Level& level,
                const Room& room) {
  const Length roof = desk.subject.batch.kiln.height;
  constexpr double kHead = 5;
  const Upright up{room.bottom - 1, roof.mm() / (room.height() - kHead - 1)};
  const double left = room.left;
  const double right = room.left + 0.46 * room.width();
  draw_chamber(page, desk, left, right, up);
  const auto levels = levels_of(load, level.column);
  std::vector<double> wanted;
  for (const Level* each : levels) {
    const bool here = each->level == level.level;
    const double top = up(each->shelf_top);
    const double thick = std::max(shelf_of(desk, *each).thickness.mm() / up.scale, 1.0);
    frame(page, {left + 1.5, top}, {right - 1.5, top + thick}, 0.3,
          here ? Fill::black : Fill::white);
    wanted.push_back(top + 1.2);
  }
  const auto bases = spread(wanted, 1.15 * kSmall.size);
  for (std::size_t i = 0; i < levels.size(); ++i) {
    const bool here = levels[i]->level == level.level;
    write(page, desk, {right + 2, bases[i]},
          fmt::format("{}: {}", levels[i]->level, length_text(levels[i]->shelf_top)),
          here ? kSmallBold : kSmall);
  }
}

}  // namespace placer::report
