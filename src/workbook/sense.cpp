#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "workbook/draft.h"

namespace placer::workbook {
namespace {

constexpr double kHair = 1e-6;  ///< mm; two sizes nearer than this are equal

std::string mm(double value) { return plain_number(value) + " mm"; }

/// How far a shelf is from the wall in the column where it has most room; none uses it: nothing.
std::optional<double> most_room(const Kiln& kiln, int shelf) {
  std::optional<double> best;
  const auto look = [&](const auto& place) {
    if (std::ranges::find(place.shelves, shelf) == place.shelves.end()) return;
    const Region set = placed(kiln.shelves[static_cast<std::size_t>(shelf)].shape, place.at);
    const double room = inset(set, kiln.chamber);
    best = std::max(best.value_or(room), room);
  };
  for (const Column& column : kiln.columns) look(column);
  for (const Bridge& bridge : kiln.bridges) look(bridge);
  return best;
}

/// Shelves that go into no column at all, and those that come nearer to the wall than asked.
void tell_shelves(Draft& draft) {
  Kiln& kiln = draft.studio.batch.kiln;
  for (std::size_t i = 0; i < kiln.shelves.size(); ++i) {
    ShelfKind& shelf = kiln.shelves[i];
    const auto room = most_room(kiln, static_cast<int>(i));
    if (!room) continue;
    if (*room < -kHair) {
      draft.desk.mistake("shelf", draft.shelf_size_where[i],
                         fmt::format("this shelf ({}) cannot go in the kiln ({}): it is {} too "
                                     "large",
                                     shelf.name, line_of(draft.inside_where), mm(-*room)));
    } else if (*room < kiln.shelf_clearance.mm() - kHair && !shelf.snug) {
      draft.desk.look("snug", draft.shelf_size_where[i],
                      fmt::format("this shelf ({}) leaves only {} to the kiln wall ({}), less "
                                  "than {}",
                                  shelf.name, mm(*room), line_of(draft.inside_where),
                                  mm(kiln.shelf_clearance.mm())),
                      "snug: yes");
      shelf.snug = true;
    }
  }
}

/// Shelves of one column that do not go in there are dropped from it when others do.
void tell_columns(Draft& draft) {
  Kiln& kiln = draft.studio.batch.kiln;
  for (Column& column : kiln.columns) {
    const auto too_large = [&](int shelf) {
      const Region set = placed(kiln.shelves[static_cast<std::size_t>(shelf)].shape, column.at);
      return inset(set, kiln.chamber) < -kHair;
    };
    for (const int shelf : column.shelves) {
      const auto room = most_room(kiln, shelf);
      if (!too_large(shelf) || !room || *room < -kHair) continue;
      draft.desk.mistake("shelf", column.where,
                         fmt::format("\"{}\" cannot stand in column \"{}\": it would go through "
                                     "the kiln wall ({})",
                                     kiln.shelves[static_cast<std::size_t>(shelf)].name,
                                     column.name, line_of(draft.inside_where)));
    }
  }
}

void tell_columns_in_each_other(Draft& draft) {
  const Kiln& kiln = draft.studio.batch.kiln;
  const auto widest = [&](const Column& column) {
    return placed(kiln.shelves[static_cast<std::size_t>(column.shelves.front())].shape, column.at);
  };
  for (std::size_t i = 0; i < kiln.columns.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      const Column& a = kiln.columns[j];
      const Column& b = kiln.columns[i];
      if (a.shelves.empty() || b.shelves.empty()) continue;
      if (gap(widest(a), widest(b)) > -kHair) continue;
      draft.desk.mistake("column", b.where,
                         fmt::format("the shelves of column \"{}\" stand in those of column "
                                     "\"{}\" ({})",
                                     b.name, a.name, line_of(a.where)));
    }
  }
}

/// Things that stand the whole height up in the way of a shelf.
void tell_keep_outs(Draft& draft) {
  const Kiln& kiln = draft.studio.batch.kiln;
  for (const KeepOut& keep : kiln.keep_outs) {
    const bool whole_height = keep.from.mm() <= 0 && keep.to >= kiln.height;
    if (!keep.shelves_too || !whole_height) continue;
    for (const Column& column : kiln.columns) {
      for (const int shelf : column.shelves) {
        const Region set = placed(kiln.shelves[static_cast<std::size_t>(shelf)].shape, column.at);
        if (gap(keep.area, set) >= -kHair) continue;
        draft.desk.mistake(
            "in-the-way", keep.where,
            fmt::format("the {} stands in the way of \"{}\" ({}) in column \"{}\": give its height "
                        "with  from  and  to, or move the column",
                        keep.what, kiln.shelves[static_cast<std::size_t>(shelf)].name,
                        line_of(draft.shelf_size_where[static_cast<std::size_t>(shelf)]),
                        column.name));
        break;
      }
    }
  }
}

void tell_posts(Draft& draft) {
  const Kiln& kiln = draft.studio.batch.kiln;
  for (const PostKind& post : kiln.posts) {
    if (post.height < kiln.height) continue;
    draft.desk.mistake(
        "post", post.where,
        fmt::format("a post of {} cannot stand in a kiln {} high ({})", mm(post.height.mm()),
                    mm(kiln.height.mm()), line_of(draft.height_where)));
  }
  for (const Column& column : kiln.columns) {
    for (const Point& at : column.posts) {
      const bool beside = std::ranges::any_of(column.shelves, [&](int shelf) {
        const Footprint point{{Disc{at, 1}}, {}};
        return inset(point,
                     placed(kiln.shelves[static_cast<std::size_t>(shelf)].shape, column.at)) < 0;
      });
      if (!beside) continue;
      draft.desk.mistake("post", column.where,
                         fmt::format("a post at [{}, {}] stands beside the shelves of column "
                                     "\"{}\"",
                                     plain_number(at.x), plain_number(at.y), column.name));
    }
  }
  if (!draft.posts_given && !kiln.shelves.empty()) {
    draft.desk.look("post", kiln.where,
                    "no posts are listed, so there is one layer of shelves at most");
  }
}

/// The side of the narrowest box, along x and y, that a shelf needs.
double narrow_side(const Region& shelf) {
  const Box box = bounding_box(shelf);
  return std::min(box.high.x - box.low.x, box.high.y - box.low.y);
}

/// A piece that the kiln's own limits leave out.
void tell_heavy(const PieceKind& piece, FiringKind kind, Draft& draft) {
  const Kiln& kiln = draft.studio.batch.kiln;
  const double kg = sized(draft.studio.batch, piece, kind).mass.kg();
  const double most = most_on_shelf_kg(kiln);
  if (kg <= most + kMassRounding) return;
  const bool shelf = kiln.most_on_shelf && kiln.most_on_shelf->kg() <= most;
  draft.desk.look("heavy", piece.where,
                  fmt::format("\"{}\" weighs {} kg as it goes in, and the limit is {} kg {}: it "
                              "will be left out",
                              piece.name, std::ceil(kg * 100 - 1e-6) / 100,
                              std::round(most * 100) / 100, shelf ? "on a shelf" : "in a load"));
}

/// Taller than the chamber is a slip of the pen; too tall above any shelf, or too wide for every
/// one, can be meant, and is left out.
void tell_piece(const PieceKind& piece, std::size_t index, Draft& draft) {
  const Batch& batch = draft.studio.batch;
  const Kiln& kiln = batch.kiln;
  const FiringKind kind = piece.loads.empty()
                              ? FiringKind::glaze
                              : batch.loads[static_cast<std::size_t>(piece.loads.front())].kind;
  const double grown = scale(batch.clays[static_cast<std::size_t>(piece.clay)].shrinkage,
                             piece.measured, stage_going_in(kind));
  const double height = piece.height.mm() * grown;
  if (height > kiln.height.mm() + kHair) {
    draft.desk.mistake(
        "tall", piece.where_height,
        fmt::format("\"{}\" goes in {} tall, and the kiln is {} high inside ({})", piece.name,
                    mm(height), mm(kiln.height.mm()), line_of(draft.height_where)));
  } else if (!kiln.shelves.empty()) {
    double thinnest = std::numeric_limits<double>::infinity();
    double widest = 0;
    for (const ShelfKind& shelf : kiln.shelves) {
      thinnest = std::min(thinnest, shelf.thickness.mm());
      widest = std::max(widest, narrow_side(shelf.shape));
    }
    const double room = kiln.height.mm() - kiln.first_shelf.mm() - kiln.under_lid.mm() - thinnest;
    if (height > room + kHair) {
      draft.desk.look("tall", piece.where_height,
                      fmt::format("\"{}\" goes in {} tall, and the kiln has room for {} above its "
                                  "lowest shelf: it will be left out",
                                  piece.name, mm(height), mm(room)));
    }
    const double width = draft.least_widths[index] * grown;
    if (width > widest + kHair) {
      draft.desk.look("wide", draft.where_width[index],
                      fmt::format("\"{}\" goes in {} wide, and no shelf holds anything wider than "
                                  "{}: it will be left out",
                                  piece.name, mm(width), mm(widest)));
    }
    tell_heavy(piece, kind, draft);
  }
}

/// Lids without their pot.
void tell_lid(const PieceKind& piece, std::size_t index, Draft& draft) {
  if (!piece.wishes.inside) return;
  std::vector<std::string> known;
  for (const PieceKind& other : draft.studio.batch.pieces) known.push_back(other.name);
  const auto pot =
      index_of({*piece.wishes.inside, draft.where_lid[index]}, known, "piece", draft.desk);
  if (!pot) return;
  const PieceKind& under = draft.studio.batch.pieces[static_cast<std::size_t>(*pot)];
  if (under.name == piece.name) {
    draft.desk.mistake("lid", draft.where_lid[index],
                       fmt::format("\"{}\" cannot be the lid of itself", piece.name));
  } else if (under.count < piece.count) {
    draft.desk.look(
        "lid", piece.where,
        fmt::format("there are {} of \"{}\" and only {} of \"{}\" ({}) to carry them", piece.count,
                    piece.name, under.count, under.name, line_of(under.where)));
  }
}

constexpr long long kMostPieces = 100'000;

void tell_totals(Draft& draft) {
  long long sum = 0;
  for (const PieceKind& piece : draft.studio.batch.pieces) {
    sum += piece.count;
    if (sum <= kMostPieces) continue;
    draft.desk.mistake("range", piece.where,
                       fmt::format("more than {} pieces in all: split the list", kMostPieces));
    return;
  }
}

}  // namespace

void tell_nonsense(Draft& draft) {
  tell_totals(draft);
  if (draft.kiln_known) {
    tell_columns(draft);
    tell_shelves(draft);
    tell_columns_in_each_other(draft);
    tell_keep_outs(draft);
    tell_posts(draft);
    for (std::size_t i = 0; i < draft.studio.batch.pieces.size(); ++i) {
      tell_piece(draft.studio.batch.pieces[i], i, draft);
    }
  }
  for (std::size_t i = 0; i < draft.studio.batch.pieces.size(); ++i) {
    tell_lid(draft.studio.batch.pieces[i], i, draft);
  }
}

}  // namespace placer::workbook
