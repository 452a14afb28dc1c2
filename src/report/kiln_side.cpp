#include <fmt/format.h>

#include <algorithm>

#include "placer/model/tower.h"
#include "report/ladder.h"
#include "report/side_view.h"
#include "report/standing.h"
#include "report/upright.h"
#include "report/words.h"

namespace placer::report {
namespace {

struct Sideways {
  double left = 0;  // paper
  double from = 0;  // kiln
  double scale = 1;
  double operator()(double x) const { return left + (x - from) / scale; }
};

/// One column while it is drawn, or several under a bridge.
struct Side {
  Page& page;
  const Desk& desk;
  const KilnLoad& load;
  Sideways across;
  Upright up;
  bool several = false;
};

void draw_posts_side(const Side& side, const std::vector<PlacedPost>& posts, Length foot) {
  const Batch& batch = side.desk.subject.batch;
  for (const PlacedPost& post : posts) {
    const Box box = bounding_box(ground(batch, post));
    Length z = foot;
    for (const int part : post.parts) {
      const Length next = z + batch.kiln.posts.at(static_cast<std::size_t>(part)).height;
      frame(side.page, {side.across(box.low.x), side.up(next)},
            {side.across(box.high.x), side.up(z)}, 0.15, Fill::black);
      z = next;
    }
  }
}

// Lines where one piece of a stack ends and the next begins; upright ones for a row on edge.
void draw_joints(const Side& side, const Level& level, const PlacedPiece& piece, const Box& box) {
  const Batch& batch = side.desk.subject.batch;
  const double left = side.across(box.low.x);
  const double right = side.across(box.high.x);
  Strokes lines{{}, Pen{0.15, {}}};
  for (const Length height : joints(batch, side.load, piece)) {
    const double y = side.up(level.shelf_top + height);
    lines.lines.push_back({{left, y}, {right, y}});
  }
  const int count = on_edge(batch, piece) ? like_ones(piece) : 1;
  for (int i = 1; i < count; ++i) {
    const double x = left + (right - left) * i / count;
    lines.lines.push_back(
        {{x, side.up(level.shelf_top)}, {x, side.up(level.shelf_top + piece.height)}});
  }
  if (!lines.lines.empty()) side.page.marks.emplace_back(std::move(lines));
}

// Far pieces first, so that near ones stand before them.
void draw_pieces_side(const Side& side, const Level& level) {
  std::vector<const PlacedPiece*> pieces;
  for (const PlacedPiece& piece : level.pieces) pieces.push_back(&piece);
  std::stable_sort(pieces.begin(), pieces.end(),
                   [](const auto* a, const auto* b) { return a->place.at.y > b->place.at.y; });
  for (const PlacedPiece* piece : pieces) {
    const Box box = bounding_box(ground(side.desk.subject.batch, side.load, *piece));
    frame(side.page, {side.across(box.low.x), side.up(level.shelf_top + piece->height)},
          {side.across(box.high.x), side.up(level.shelf_top)}, 0.3, Fill::white);
    draw_joints(side, level, *piece, box);
  }
}

/// The words beside one shelf: its name, and what is on it.
struct LadderWords {
  std::string name;
  std::vector<std::string> more;  ///< lines under the name
  double height = 0;
};

/// How small the words get when a column has many shelves.
struct LadderStyle {
  double name = pt(12), more = pt(10);
  bool with_more = true;
};

constexpr double kAboveRule = 1.2;  // mm between words and the line under them

std::string level_words(const Desk& desk, const Side& side, const Rung& rung, bool last) {
  const Level& level = *rung.level;
  const bool inches = desk.subject.inches;
  std::string words;
  if (level.bridge >= 0) words = when_to_lay(desk.subject, side.load, level) + "; ";
  if (level.level == 1 || level.bridge >= 0) {
    const auto feet = feet_under(desk.subject.batch, side.load, level);
    if (!feet.empty()) words += "feet under it: " + posts_text(desk.subject, feet) + "; ";
  }
  words += level.posts.empty() ? "no posts on it"
                               : "posts on it: " + posts_text(desk.subject, level.posts);
  words += "; " + count_text(pieces_on(level), "piece");
  if (last && !level.pieces.empty()) {
    const Length tallest = tallest_on(level);
    words += fmt::format("; {} tall, {} free over it", one_length_text(tallest, inches),
                         one_length_text(rung.room - tallest, inches));
    if (desk.subject.batch.kiln.under_lid.mm() > 0) {
      words += fmt::format(", {} kept under the {}",
                           one_length_text(desk.subject.batch.kiln.under_lid, inches),
                           roof_word(side.desk.subject.batch.kiln));
    }
  }
  return words;
}

std::vector<LadderWords> ladder_words(const Side& side, const Ladder& ladder, double most,
                                      const LadderStyle& style) {
  std::vector<LadderWords> all;
  for (std::size_t i = 0; i < ladder.rungs.size(); ++i) {
    const Rung& rung = ladder.rungs[i];
    LadderWords words;
    const Subject& subject = side.desk.subject;
    words.name =
        fmt::format("SHELF {} at {}", rung.level->level, one_length_text(rung.top, subject.inches));
    if (side.several) {
      words.name = fmt::format("{} {} at {}", place_name(subject.batch.kiln, *rung.level),
                               rung.level->level, one_length_text(rung.top, subject.inches));
    }
    if (side.desk.letters.width(words.name, pt(9), true) > most) {
      words.name =
          fmt::format("{}: {}", rung.level->level, one_length_text(rung.top, subject.inches));
    }
    words.height = 1.25 * style.name;
    if (style.with_more) {
      const bool last =
          side.several ? open_above(side.load, *rung.level) : i + 1 == ladder.rungs.size();
      words.more = side.desk.letters.wrapped(level_words(side.desk, side, rung, last), style.more,
                                             false, most);
      words.height += 1.2 * style.more * static_cast<double>(words.more.size()) + kAboveRule;
    }
    all.push_back(std::move(words));
  }
  return all;
}

double sum_of(const std::vector<LadderWords>& words) {
  double sum = 0;
  for (const LadderWords& one : words) sum += one.height;
  return sum;
}

// What is on every shelf as long as there is room for it, in smaller letters before not at all
// (each shelf has its own page).
void write_ladder(const Side& side, const Ladder& ladder, double left, double right, double top) {
  const double most = right - left - 2;
  LadderStyle style;
  auto words = ladder_words(side, ladder, most, style);
  const double room = side.up.floor_y + 1 - top;
  for (const LadderStyle& smaller :
       {LadderStyle{pt(11), pt(9)}, LadderStyle{pt(9), pt(8)}, LadderStyle{pt(9), pt(8), false}}) {
    if (sum_of(words) <= room) break;
    style = smaller;
    words = ladder_words(side, ladder, most, style);
  }
  std::vector<double> wanted;
  std::vector<double> heights;
  for (std::size_t i = 0; i < words.size(); ++i) {
    wanted.push_back(side.up(ladder.rungs[i].top));
    heights.push_back(words[i].height);
  }
  const auto bases = spread(wanted, heights, top);
  for (std::size_t i = 0; i < words.size(); ++i) {
    const double size = side.desk.letters.size_to_fit(words[i].name, true, most,
                                                      {style.name, pt(10), pt(9), pt(8)});
    // The words stand on a line that leads to their shelf, as what they tell of stands on it.
    const Point end{left + 1, bases[i]};
    rule(side.page, {left - 1.5, side.up(ladder.rungs[i].top)}, end, 0.2);
    rule(side.page, end, {right, bases[i]}, 0.2);
    double y = bases[i] - words[i].height + style.name;
    write(side.page, side.desk, {left + 2, y}, words[i].name, {size, true});
    for (const std::string& line : words[i].more) {
      y += 1.2 * style.more;
      write(side.page, side.desk, {left + 2, y}, line, {style.more});
    }
  }
}

std::string names_of(const Kiln& kiln, const std::vector<int>& columns) {
  std::vector<std::string> names;
  for (const int column : columns)
    names.push_back(kiln.columns[static_cast<std::size_t>(column)].name);
  return joined(names);
}

/// The feet of all its lowest shelves; of a bridge's, once.
void draw_feet(const Side& side, const std::vector<int>& columns) {
  const Batch& batch = side.desk.subject.batch;
  std::vector<const Level*> drawn;
  for (const int column : columns) {
    const auto levels = levels_of(batch, side.load, column);
    if (levels.empty()) continue;
    for (const Level* level : levels) {
      const bool may = level == levels.front() || level->bridge >= 0;
      if (!may || std::find(drawn.begin(), drawn.end(), level) != drawn.end()) continue;
      drawn.push_back(level);
      draw_posts_side(side, feet_under(batch, side.load, *level), Length{});
    }
  }
}

void draw_columns(Page& page, const Desk& desk, const KilnLoad& load,
                  const std::vector<int>& columns, const Room& room) {
  const Kiln& kiln = desk.subject.batch.kiln;
  const Ladder ladder = ladder_of(desk.subject.batch, load, columns, desk.subject.inches);
  if (ladder.rungs.empty()) return;
  Box box = bounding_box(ground(desk.subject.batch, *ladder.rungs.front().level));
  for (const Rung& rung : ladder.rungs) {
    const Box one = bounding_box(ground(desk.subject.batch, *rung.level));
    box.low.x = std::min(box.low.x, one.low.x);
    box.high.x = std::max(box.high.x, one.high.x);
  }
  const Upright up = upright_in(desk, room);
  const double wide = box.high.x - box.low.x;
  // The words beside it need 60 mm, the kiln at least a third of the room.
  const double scale =
      std::max(up.scale, wide / (std::max(room.width() - 64, 0.35 * room.width()) - 4));
  const double right = room.left + wide / scale + 4;
  const Side side{page, desk, load, {room.left + 2, box.low.x, scale}, up, columns.size() > 1};
  const std::string roof =
      fmt::format("{} {}", roof_word(kiln), length_text(kiln.height, desk.subject.inches));
  const std::string name = kiln.columns.size() > 1 ? names_of(kiln, columns) + "; " : "";
  write(page, desk, {room.left, up(kiln.height) - 1}, name + roof, {pt(10)});
  draw_chamber(page, desk, room.left, right, up);
  draw_feet(side, columns);
  for (const Rung& rung : ladder.rungs) {
    const Box shelf = bounding_box(ground(desk.subject.batch, *rung.level));
    draw_shelf_bar(page, desk, *rung.level, side.across(shelf.low.x), side.across(shelf.high.x), up,
                   false);
    draw_posts_side(side, rung.level->posts, rung.level->shelf_top);
    draw_pieces_side(side, *rung.level);
  }
  write_ladder(side, ladder, right + 1, room.right - 3, room.top + kRoofWords);
}

}  // namespace

void draw_kiln_side(Page& page, const Desk& desk, const KilnLoad& load, const Room& room) {
  const auto used = columns_together(desk.subject.batch, load);
  if (used.empty()) return;
  const double step = room.width() / static_cast<double>(used.size());
  for (std::size_t i = 0; i < used.size(); ++i) {
    const double left = room.left + static_cast<double>(i) * step;
    draw_columns(page, desk, load, used[i], {left, room.top, left + step, room.bottom});
  }
}

}  // namespace placer::report
