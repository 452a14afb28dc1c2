#include "report/side_view.h"

#include <fmt/format.h>

#include <algorithm>

#include "placer/model/tower.h"
#include "report/ladder.h"
#include "report/onto_paper.h"
#include "report/standing.h"
#include "report/upright.h"
#include "report/words.h"

namespace placer::report {
namespace {

constexpr Style kTiny{pt(8)};
constexpr Style kSmall{pt(9)};

std::vector<double> same_heights(std::size_t count) {
  return std::vector<double>(count, 1.15 * kSmall.size);
}

/// Of the chamber, on paper.
struct Across {
  double middle = 0, width = 0;
};

// "146+18": the room over a shelf and the next shelf, between the two, when it is high enough.
void write_between(Page& page, const Desk& desk, const std::string& words, Length from, Length to,
                   const Across& across, const Upright& up) {
  if ((to - from).mm() / up.scale < 1.3 * kTiny.size) return;
  const double y = up(from + 0.5 * (to - from)) + kCapitals * kTiny.size / 2;
  if (desk.letters.width(words, kTiny.size, false) > across.width) return;
  write(page, desk, {across.middle, y}, words, kTiny, Anchor::middle);
}

void write_sums(Page& page, const Desk& desk, const Ladder& ladder, const Across& across,
                const Upright& up) {
  const auto& rungs = ladder.rungs;
  if (rungs.empty()) return;
  const auto bare = [&](Length length) { return bare_length(length, desk.subject.inches); };
  const auto plus_shelf = [&](Length room, const Rung& rung) {
    return bare(room) + (desk.subject.inches ? " + " : "+") + bare(rung.thick);
  };
  write_between(page, desk, plus_shelf(rungs[0].bottom, rungs[0]), Length{}, rungs[0].bottom,
                across, up);
  for (std::size_t i = 0; i < rungs.size(); ++i) {
    const Rung& rung = rungs[i];
    const bool last = i + 1 == rungs.size();
    write_between(page, desk, last ? bare(rung.room) : plus_shelf(rung.room, rungs[i + 1]),
                  rung.top, rung.top + rung.room, across, up);
  }
}

}  // namespace

void draw_stack(Page& page, const Desk& desk, const KilnLoad& load, const Level& level,
                const Room& room) {
  const Batch& batch = desk.subject.batch;
  const Upright up = upright_in(desk, {room.left, room.top, room.right, room.bottom - kStackFoot});
  const double left = room.left;
  const double right = room.left + 0.44 * room.width();
  const Ladder ladder = ladder_of(batch, load, level.column, desk.subject.inches);
  write(page, desk, {left, up(batch.kiln.height) - 1},
        fmt::format("{} {}", roof_word(batch.kiln),
                    one_length_text(batch.kiln.height, desk.subject.inches)),
        kSmall);
  draw_chamber(page, desk, left, right, up);
  std::vector<double> wanted;
  for (const Rung& rung : ladder.rungs) {
    draw_shelf_bar(page, desk, *rung.level, left + 1.5, right - 1.5, up,
                   rung.level->level == level.level);
    wanted.push_back(up(rung.top) + 1.2);
  }
  write_sums(page, desk, ladder, {(left + right) / 2, right - left - 2}, up);
  const double top = room.top + kRoofWords + (ladder.kept.mm() > 0 ? 3 : 0);
  const auto bases = spread(wanted, same_heights(wanted.size()), top);
  const bool crowded = static_cast<double>(wanted.size()) * 1.15 * kSmall.size > up.floor_y - top;
  for (std::size_t i = 0; i < ladder.rungs.size(); ++i) {
    const Rung& rung = ladder.rungs[i];
    const bool here = rung.level->level == level.level;
    if (crowded && !here) continue;
    std::string words =
        fmt::format("{}: {}", rung.level->level, one_length_text(rung.top, desk.subject.inches));
    if (desk.letters.width(words, pt(8), here) > room.right - right - 2) {
      words = fmt::format("{}: {}", rung.level->level, bare_length(rung.top, desk.subject.inches));
    }
    const double size =
        desk.letters.size_to_fit(words, here, room.right - right - 2, {pt(9), pt(8)});
    write(page, desk, {right + 2, bases[i]}, words, {size, here});
  }
  if (ladder.kept.mm() > 0) {
    write(page, desk, {right + 2, up(ladder.roof) + 2.4},
          bare_length(ladder.kept, desk.subject.inches) + " kept", kTiny);
  }
  write_lines(page, desk, {left, up.floor_y + 1.6}, "room + shelf = height", room.width(),
              {pt(8), false, 1.15});
}

void draw_whereabouts(Page& page, const Desk& desk, const KilnLoad& load, const Level& level,
                      const Room& room) {
  const Kiln& kiln = desk.subject.batch.kiln;
  const Box box = bounding_box(kiln.chamber);
  const double scale =
      std::max((box.high.x - box.low.x) / room.width(), (box.high.y - box.low.y) / room.height());
  const OntoPaper onto{{box.low.x, box.high.y}, {room.left, room.top}, scale};
  page.marks.emplace_back(
      Path{onto(edge_polygon(kiln.chamber, 0.1 * scale)).corners, true, Pen{0.5, {}}, Fill::none});
  const auto draw_one = [&](const Level& each, Fill fill) {
    const Region shelf = ground(desk.subject.batch, each);
    page.marks.emplace_back(
        Path{onto(edge_polygon(shelf, 0.1 * scale)).corners, true, Pen{0.3, {}}, fill});
  };
  for (std::size_t column = 0; column < kiln.columns.size(); ++column) {
    if (lies_in(kiln, level, static_cast<int>(column))) continue;
    auto others = levels_of(desk.subject.batch, load, static_cast<int>(column));
    std::erase_if(others, [](const Level* other) { return other->bridge >= 0; });
    if (!others.empty()) draw_one(*others.front(), Fill::none);
  }
  draw_one(level, Fill::black);
  const double high = (box.high.y - box.low.y) / scale;
  write(page, desk, {room.left + room.width() / 2, room.top + high + 4}, "▲ you stand here",
        {pt(8)}, Anchor::middle);
}

}  // namespace placer::report
