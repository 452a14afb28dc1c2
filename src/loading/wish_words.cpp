#include "loading/wish_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "loading/index.h"
#include "loading/job.h"
#include "loading/support.h"
#include "placer/model/kiln.h"

namespace placer::loading {
namespace {

std::string mm(double v) { return fmt::format("{:.0f} mm", v); }

/// What of one site hinders the piece, and by how much: the least of these over all sites counts.
struct Hindrance {
  double short_by = 0;  ///< mm
  std::string words;
};

Hindrance of_ground(const Batch& batch, const Site& site, const Footprint& there) {
  const ShelfKind& shelf = at(batch.kiln.shelves, site.shelf);
  const double out = -inset(there, site.ground);
  return {out, fmt::format("there it would stick out {} beyond the room on the shelf \"{}\"",
                           mm(std::ceil(out)), shelf.name)};
}

Hindrance of_posts(const Batch& batch, const Site& site, const Footprint& there, double asked) {
  Hindrance worst{-1, {}};
  const Footprint foot = widest_foot(batch.kiln);
  for (const Point post : site.posts) {
    const double room = gap(there, placed(foot, {post, 0}));
    if (asked - room <= worst.short_by) continue;
    worst = {asked - room,
             fmt::format("a post of the column \"{}\" stands there (at {:.0f}, {:.0f}), {}",
                         at(batch.kiln.columns, site.column).name, post.x, post.y,
                         room < 0 ? "in the same place" : mm(room) + " away")};
  }
  return worst;
}

Hindrance of_keep_outs(const Kiln& kiln, const Footprint& there) {
  Hindrance worst{-1, {}};
  for (const KeepOut& keep_out : kiln.keep_outs) {
    const double room = gap(there, keep_out.area);
    if (room >= 0 || -room <= worst.short_by) continue;
    worst = {-room, fmt::format("the {} is kept clear there", keep_out.what)};
  }
  return worst;
}

}  // namespace

std::string line_words(const Batch& batch, const TextPos& where) {
  if (where.line == 0) return {};
  const std::string& main_file = batch.kiln.where.file;
  if (main_file.empty() || where.file == main_file) return fmt::format("line {}", where.line);
  return fmt::format("line {} of {}", where.line, where.file);
}

std::string wish_words(const Batch& batch, const std::string& asked, const TextPos& where) {
  const std::string line = line_words(batch, where);
  return line.empty() ? fmt::format("\"{}\"", asked) : fmt::format("\"{}\" ({})", asked, line);
}

std::string piece_words(const Batch& batch, const PieceKind& piece) {
  const std::string line = line_words(batch, piece.where);
  return line.empty() ? piece.name : fmt::format("{} ({})", piece.name, line);
}

const char* word(Zone zone) {
  return zone == Zone::low ? "low" : zone == Zone::middle ? "middle" : "high";
}
const char* word(Side side) { return side == Side::front ? "front" : "back"; }
const char* place_words(Zone zone) { return zone == Zone::middle ? "in the middle" : word(zone); }
const char* place_words(Side side) { return side == Side::front ? "in front" : "at the back"; }

std::string out_of_zone(const Batch& batch, Length height, Zone zone) {
  const Kiln& kiln = batch.kiln;
  const double thirds = kiln.height.mm() / 3;
  double thin = kiln.height.mm();
  for (const ShelfKind& shelf : kiln.shelves) thin = std::min(thin, shelf.thickness.mm());
  const double lowest = std::max(0.0, kiln.first_shelf.mm()) + thin + height.mm() / 2;
  const double highest = lid(kiln).mm() - height.mm() / 2;
  if (zone == Zone::high && highest <= 2 * thirds) {
    return fmt::format(
        "it is {} tall, and even right under the lid its middle is at {}, below the "
        "upper third of the kiln (from {})",
        mm(height.mm()), mm(highest), mm(2 * thirds));
  }
  const double top = zone == Zone::low ? thirds : 2 * thirds;
  if (zone != Zone::high && lowest >= top) {
    return fmt::format(
        "it is {} tall, and even on the lowest shelf its middle is at {}, above the "
        "{} third of the kiln (up to {})",
        mm(height.mm()), mm(lowest), zone == Zone::low ? "lower" : "middle", mm(top));
  }
  return {};
}

std::string in_the_way(const Batch& batch, const PieceKind& piece, int load) {
  const FiringKind kind = at(batch.loads, load).kind;
  const Footprint there = placed(sized(batch, piece, kind).footprint, *piece.wishes.pinned);
  const double asked = clearances(batch.rules, kind).gap.mm();
  Hindrance least{1e18, {}};
  for (int c = 0; c < count_of(batch.kiln.columns); ++c) {
    for (const Site& site : sites_of(batch, c, asked, asked)) {
      if (!site.trouble.empty()) continue;
      Hindrance here = of_ground(batch, site, there);
      for (Hindrance& more :
           std::vector{of_posts(batch, site, there, asked), of_keep_outs(batch.kiln, there)}) {
        if (more.short_by > here.short_by) here = std::move(more);
      }
      if (here.short_by < least.short_by) least = std::move(here);
    }
  }
  return least.short_by > 0 ? least.words : std::string{};
}

}  // namespace placer::loading
