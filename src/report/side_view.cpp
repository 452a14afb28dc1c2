#include "report/side_view.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/onto_paper.h"
#include "report/words.h"

namespace placer::report {
namespace {

constexpr Style kSmall{pt(9)};
constexpr double kHead = 5;  // the word over the roof

const ShelfKind& shelf_of(const Desk& desk, const Level& level) {
  return desk.subject.batch.kiln.shelves.at(static_cast<std::size_t>(level.shelf));
}

std::string bare_mm(Length length) {
  const std::string words = length_text(length);
  return words.substr(0, words.size() - 3);
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

Upright upright_in(const Desk& desk, const Room& room) {
  return {room.bottom - 1, desk.subject.batch.kiln.height.mm() / (room.height() - kHead - 1)};
}

void draw_chamber(Page& page, const Desk& desk, double left, double right, const Upright& up) {
  const double roof = up(desk.subject.batch.kiln.height);
  page.marks.emplace_back(
      Path{{{left, roof}, {left, up.floor_y}, {right, up.floor_y}, {right, roof}},
           false,
           Pen{0.6, {}},
           Fill::none});
  rule(page, {left, roof}, {right, roof}, 0.3);
}

// Base lines that want to be at `wanted` (falling y, bottom up) and need `apart` between them:
// pushed up where they crowd, then down again from `top`.
std::vector<double> spread(std::vector<double> wanted, double apart, double top) {
  for (std::size_t i = 1; i < wanted.size(); ++i) {
    wanted[i] = std::min(wanted[i], wanted[i - 1] - apart);
  }
  if (!wanted.empty() && wanted.back() < top) {
    wanted.back() = top;
    for (std::size_t i = wanted.size() - 1; i > 0; --i) {
      wanted[i - 1] = std::max(wanted[i - 1], wanted[i] + apart);
    }
  }
  return wanted;
}

void draw_shelf_bar(Page& page, const Desk& desk, const Level& level, double left, double right,
                    const Upright& up, bool black) {
  const double top = up(level.shelf_top);
  const double thick = std::max(shelf_of(desk, level).thickness.mm() / up.scale, 0.9);
  frame(page, {left, top}, {right, top + thick}, 0.3, black ? Fill::black : Fill::white);
}

// The room between a shelf and what comes over it, written between them when it is high enough.
void write_clear_height(Page& page, const Desk& desk, const Level& level, double middle,
                        const Upright& up) {
  constexpr Style kTiny{pt(8)};
  if (level.clear_height.mm() / up.scale < 1.6 * kTiny.size) return;
  const double y = up(level.shelf_top + 0.5 * level.clear_height) + kCapitals * kTiny.size / 2;
  write(page, desk, {middle, y}, bare_mm(level.clear_height), kTiny, Anchor::middle);
}

struct Sideways {
  double left = 0;  // paper
  double from = 0;  // kiln
  double scale = 1;
  double operator()(double x) const { return left + (x - from) / scale; }
};

void draw_posts_side(Page& page, const Desk& desk, const std::vector<PlacedPost>& posts,
                     Length foot, const Sideways& across, const Upright& up) {
  for (const PlacedPost& post : posts) {
    const Box box = bounding_box(ground(desk.subject.batch, post));
    Length z = foot;
    for (const int part : post.parts) {
      const Length next =
          z + desk.subject.batch.kiln.posts.at(static_cast<std::size_t>(part)).height;
      frame(page, {across(box.low.x), up(next)}, {across(box.high.x), up(z)}, 0.15, Fill::black);
      z = next;
    }
  }
}

// Far pieces first, so that near ones stand before them.
void draw_pieces_side(Page& page, const Desk& desk, const KilnLoad& load, const Level& level,
                      const Sideways& across, const Upright& up) {
  std::vector<const PlacedPiece*> pieces;
  for (const PlacedPiece& piece : level.pieces) pieces.push_back(&piece);
  std::stable_sort(pieces.begin(), pieces.end(),
                   [](const auto* a, const auto* b) { return a->place.at.y > b->place.at.y; });
  for (const PlacedPiece* piece : pieces) {
    const Box box = bounding_box(ground(desk.subject.batch, load, *piece));
    frame(page, {across(box.low.x), up(level.shelf_top + piece->height)},
          {across(box.high.x), up(level.shelf_top)}, 0.25, Fill::white);
  }
}

bool under(const Desk& desk, const PlacedPost& post, const Level& level) {
  return inset(post.at, edge_polygon(ground(desk.subject.batch, level))) >= 0;
}

std::string level_words(const Desk& desk, const KilnLoad& load, const Level& level) {
  const std::string posts =
      level.posts.empty() ? "no posts" : "posts: " + posts_text(desk.subject, level.posts);
  const std::string inches =
      desk.subject.inches ? "at " + inches_text(level.shelf_top) + "; " : std::string{};
  const std::string above = open_above(load, level)
                                ? fmt::format("; {} free above the tallest", length_text(level.air))
                                : std::string{};
  return fmt::format("{}{}, {}{}", inches, count_text(pieces_on(level), "piece"), posts, above);
}

// A name for each level, and what is on it: over the name where there is room between the levels,
// else behind it, else not at all (its own page says it).
void write_ladder(Page& page, const Desk& desk, const KilnLoad& load,
                  const std::vector<const Level*>& levels, double left, double right,
                  const Upright& up, double top) {
  constexpr Style kMore{pt(9), false, 1.2};
  std::vector<double> wanted;
  for (const Level* level : levels) wanted.push_back(up(level->shelf_top) + 1);
  const auto bases = spread(wanted, 1.15 * pt(11), top);
  const double most = right - left - 2;
  for (std::size_t i = 0; i < levels.size(); ++i) {
    const Level& level = *levels[i];
    const std::string height = length_text(level.shelf_top);
    std::string name = fmt::format("SHELF {} at {}", level.level, height);
    if (desk.letters.width(name, pt(9), true) > most) {
      name = fmt::format("{}: {}", level.level, height);
    }
    const double size = desk.letters.size_to_fit(name, true, most, {pt(11), pt(10), pt(9), pt(8)});
    rule(page, {left - 1.5, up(level.shelf_top)}, {left + 1, bases[i] - 1.2}, 0.2);
    write(page, desk, {left + 2, bases[i]}, name, {size, true});
    const double next = i + 1 < bases.size() ? bases[i + 1] : top;
    const std::string more = level_words(desk, load, level);
    const double high = lines_height(desk, more, most, kMore);
    const double after = desk.letters.width(name, size, true) + 3;
    if (bases[i] - next >= 1.4 * pt(11) + high) {
      write_lines(page, desk, {left + 2, bases[i] - kCapitals * size - high - 0.8}, more, most,
                  kMore);
    } else if (after + desk.letters.width(more, kMore.size, false) <= most) {
      write(page, desk, {left + 2 + after, bases[i]}, more, kMore);
    }
  }
}

}  // namespace

void draw_stack(Page& page, const Desk& desk, const KilnLoad& load, const Level& level,
                const Room& room) {
  const Upright up = upright_in(desk, room);
  const double left = room.left;
  const double right = room.left + 0.35 * room.width();
  const Length roof = desk.subject.batch.kiln.height;
  write(page, desk, {left, up(roof) - 1},
        fmt::format("{} {}", desk.subject.batch.kiln.opens == Opens::top ? "lid" : "roof",
                    length_text(roof)),
        kSmall);
  draw_chamber(page, desk, left, right, up);
  const auto levels = levels_of(load, level.column);
  std::vector<double> wanted;
  for (const Level* each : levels) {
    draw_shelf_bar(page, desk, *each, left + 1.5, right - 1.5, up, each->level == level.level);
    write_clear_height(page, desk, *each, (left + right) / 2, up);
    wanted.push_back(up(each->shelf_top) + 1.2);
  }
  const double apart = 1.15 * kSmall.size;
  const auto bases = spread(wanted, apart, room.top + kHead + 2);
  const bool crowded = static_cast<double>(levels.size()) * apart > room.height() - kHead;
  for (std::size_t i = 0; i < levels.size(); ++i) {
    const bool here = levels[i]->level == level.level;
    if (crowded && !here) continue;
    const std::string words =
        fmt::format("{}: {}", levels[i]->level, length_text(levels[i]->shelf_top));
    const double size =
        desk.letters.size_to_fit(words, here, room.right - right - 2, {pt(9), pt(8)});
    write(page, desk, {right + 2, bases[i]}, words, {size, here});
  }
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
    if (static_cast<int>(column) == level.column) continue;
    const auto others = levels_of(load, static_cast<int>(column));
    if (!others.empty()) draw_one(*others.front(), Fill::none);
  }
  draw_one(level, Fill::black);
  const double high = (box.high.y - box.low.y) / scale;
  write(page, desk, {room.left + room.width() / 2, room.top + high + 4}, "▲ you stand here",
        {pt(8)}, Anchor::middle);
}

void draw_kiln_side(Page& page, const Desk& desk, const KilnLoad& load, const Room& room) {
  const Kiln& kiln = desk.subject.batch.kiln;
  const Upright up = upright_in(desk, room);
  const double step = room.width() / static_cast<double>(kiln.columns.size());
  for (std::size_t c = 0; c < kiln.columns.size(); ++c) {
    const auto levels = levels_of(load, static_cast<int>(c));
    const double left = room.left + static_cast<double>(c) * step;
    if (levels.empty()) continue;
    Box box = bounding_box(ground(desk.subject.batch, *levels.front()));
    for (const Level* level : levels) {
      const Box one = bounding_box(ground(desk.subject.batch, *level));
      box.low.x = std::min(box.low.x, one.low.x);
      box.high.x = std::max(box.high.x, one.high.x);
    }
    const double wide = box.high.x - box.low.x;
    // The words beside it need 60 mm, the kiln at least a third of the room.
    const double scale = std::max(up.scale, wide / (std::max(step - 64, 0.35 * step) - 4));
    const double right = left + wide / scale + 4;
    const Sideways across{left + 2, box.low.x, scale};
    const std::string roof = fmt::format("{} {}", kiln.opens == Opens::top ? "lid" : "roof",
                                         length_text(kiln.height, desk.subject.inches));
    const std::string column = kiln.columns.size() > 1 ? kiln.columns[c].name + "; " : "";
    write(page, desk, {left, up(kiln.height) - 1}, column + roof, {pt(10)});
    draw_chamber(page, desk, left, right, up);
    for (const PlacedPost& post : load.floor_posts) {
      if (under(desk, post, *levels.front()))
        draw_posts_side(page, desk, {post}, Length{}, across, up);
    }
    for (const Level* level : levels) {
      const Box shelf = bounding_box(ground(desk.subject.batch, *level));
      draw_shelf_bar(page, desk, *level, across(shelf.low.x), across(shelf.high.x), up, false);
      draw_posts_side(page, desk, level->posts, level->shelf_top, across, up);
      draw_pieces_side(page, desk, load, *level, across, up);
    }
    write_ladder(page, desk, load, levels, right + 1, left + step - 3, up, room.top + kHead + 3);
  }
}

}  // namespace placer::report
