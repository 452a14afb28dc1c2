#include "report/ladder.h"

#include <fmt/format.h>

#include <cmath>

#include "report/standing.h"
#include "report/words.h"

namespace placer::report {
namespace {

// As length_text() prints it.
Length to_half(Length length) {
  return Length::from_mm(std::floor(length.mm() * 2 + 0.5 + 1e-9) / 2);
}

}  // namespace

Ladder ladder_of(const Batch& batch, const KilnLoad& load, int column) {
  Ladder ladder;
  ladder.kept = to_half(batch.kiln.under_lid);
  ladder.roof = to_half(batch.kiln.height);
  for (const Level* level : levels_of(load, column)) {
    Rung rung;
    rung.level = level;
    rung.thick = to_half(batch.kiln.shelves.at(static_cast<std::size_t>(level->shelf)).thickness);
    rung.top = to_half(level->shelf_top);
    rung.bottom = rung.top - rung.thick;
    ladder.rungs.push_back(rung);
  }
  for (std::size_t i = 0; i < ladder.rungs.size(); ++i) {
    const bool last = i + 1 == ladder.rungs.size();
    const Length over = last ? ladder.roof - ladder.kept : ladder.rungs[i + 1].bottom;
    ladder.rungs[i].room = over - ladder.rungs[i].top;
  }
  return ladder;
}

const char* roof_word(const Kiln& kiln) { return kiln.opens == Opens::top ? "lid" : "roof"; }

std::string bare_mm(Length length) {
  const std::string words = length_text(length);
  return words.substr(0, words.size() - 3);
}

std::string room_words(const Subject& subject, const KilnLoad& load, const Level& level) {
  Length room = level.clear_height;
  for (const Rung& rung : ladder_of(subject.batch, load, level.column).rungs) {
    if (rung.level == &level) room = rung.room;
  }
  std::string words = "room " + length_text(room, subject.inches);
  if (!level.pieces.empty()) {
    const Length tallest = to_half(tallest_on(level));
    words += fmt::format(": tallest {} + {} free", bare_mm(tallest), bare_mm(room - tallest));
  }
  if (open_above(load, level) && subject.batch.kiln.under_lid.mm() > 0) {
    words += fmt::format(", {} kept under the {}", bare_mm(to_half(subject.batch.kiln.under_lid)),
                         roof_word(subject.batch.kiln));
  }
  return words;
}

}  // namespace placer::report
