/// @file ladder.h
/// Heights of one column of shelves, from the floor up, so that a person can add them.
#pragma once

#include <string>
#include <vector>

#include "placer/report/report.h"

namespace placer::report {

/// One shelf. All heights to the half mm, or to the sixteenth of an inch, as they are printed, and
/// bottom of the first = feet; bottom + thick = top; top + room = bottom of the next;
/// top of the last + room + kept = roof.
struct Rung {
  const Level* level = nullptr;
  Length bottom, thick, top, room;
};

struct Ladder {
  std::vector<Rung> rungs;  ///< from the bottom up
  Length kept;              ///< under the lid or roof, for nothing to stand in
  Length roof;
};

/// Levels of the column in this load; no rungs when it has none.
Ladder ladder_of(const Batch& batch, const KilnLoad& load, int column, bool inches = false);

/// Columns that are drawn beside one another as one: those that a bridge of the load lies over;
/// else each alone. In setting order; columns without a shelf are left away.
std::vector<std::vector<int>> columns_together(const Batch& batch, const KilnLoad& load);

/// Rungs of several columns, each level once, from the bottom up.
Ladder ladder_of(const Batch& batch, const KilnLoad& load, const std::vector<int>& columns,
                 bool inches = false);

/// "lid" or "roof".
const char* roof_word(const Kiln& kiln);

/// "room 120 mm: tallest 107 + 13 free"; on top also what is kept under the roof.
std::string room_words(const Subject& subject, const KilnLoad& load, const Level& level);

/// "120", "17.5", "4 1/2": the number of one_length_text().
std::string bare_length(Length length, bool inches = false);

}  // namespace placer::report
