/// @file draft.h
/// A studio while it is being read: the values so far and where in the file they stand. Each reader
/// takes one part of the file; sense.cpp then compares the parts. Internal to workbook/.
#pragma once

#include <string>
#include <vector>

#include "placer/workbook/studio.h"
#include "workbook/block.h"
#include "workbook/shapes.h"

namespace placer::workbook {

struct Draft {
  Studio studio;
  Desk desk;
  const Library& library;
  long long now = 0;

  TextPos inside_where, height_where;     ///< of the kiln
  bool kiln_known = false;                ///< chamber and height could be read
  std::vector<Floor> shelf_floors;        ///< one for each of kiln.shelves
  std::vector<TextPos> shelf_size_where;  ///< likewise
  std::vector<double> least_widths;       ///< one for each of batch.pieces, of the body
  std::vector<TextPos> where_lid;         ///< likewise, of the pot's name
  std::vector<TextPos> where_width;       ///< likewise, of the word that tells the shape
  std::vector<TextPos> glaze_where;
  bool glazes_listed = false;
  bool posts_given = false;
};

Draft empty_draft(const Library& library, long long now);
/// Everything in the file, with its findings at the desk.
void read_parts(const Node& root, Draft& draft);
/// The usual units; told before anything else is read.
void read_units(Block& root, Draft& draft);
void read_kiln(Block& root, Draft& draft);
void read_shelves(Block& root, Draft& draft);
void read_posts(Block& root, Draft& draft);
/// Explicit columns, or those found for the chamber and its shelves. After kiln and shelves.
void read_columns(Block& root, Draft& draft);
/// Shelves across columns that the file names. After columns.
void read_bridges(Block& kiln, Draft& draft);
/// Shelves that no column uses and that can lie across columns found for the kiln.
void find_bridges(Draft& draft);
void read_keep_outs(Block& kiln, Draft& draft);
void read_clays(Block& root, Draft& draft);
void read_glazes(Block& root, Draft& draft);
void read_firings(Block& root, Draft& draft);
void read_rules(Block& root, Draft& draft);
/// After clays, glazes and firings.
void read_pieces(Block& root, Draft& draft);
/// "from FILE.csv": the table beside the studio file, a map for each piece.
std::vector<Node> pieces_from_table(const Node& value, Draft& draft);
void read_piece(const Node& node, Stage usual_stage, Draft& draft);

/// What cannot be in the world although every value can be read. After everything else.
void tell_nonsense(Draft& draft);

/// Tells a name given before, with the line of the first.
void tell_repeated(const std::vector<Named>& names, std::string_view what, Desk& desk);
/// The index of a name among the known ones; a mistake with the nearest known name otherwise.
std::optional<int> index_of(const Named& name, const std::vector<std::string>& known,
                            std::string_view what, Desk& desk);

/// A clock in the file as seconds since 1970-01-01 UTC.
std::optional<long long> read_clock(Block& block, std::string_view key, Draft& draft);
/// "22:00 to 6:00"
std::optional<firing::Wish::Quiet> read_quiet(Block& block, std::string_view key);

}  // namespace placer::workbook
