#include "report/ladder.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "placer/model/tower.h"
#include "report/standing.h"
#include "report/words.h"

namespace placer::report {
namespace {

// As one_length_text() prints it.
Length as_printed(Length length, bool inches) {
  const double step = inches ? 25.4 / 16 : 0.5;
  return Length::from_mm(std::floor(length.mm() / step + 0.5 + 1e-9) * step);
}

}  // namespace

Ladder ladder_of(const Batch& batch, const KilnLoad& load, int column, bool inches) {
  Ladder ladder;
  const auto printed = [&](Length length) { return as_printed(length, inches); };
  ladder.kept = printed(batch.kiln.under_lid);
  ladder.roof = printed(batch.kiln.height);
  for (const Level* level : levels_of(batch, load, column)) {
    Rung rung;
    rung.level = level;
    rung.thick = printed(batch.kiln.shelves.at(static_cast<std::size_t>(level->shelf)).thickness);
    rung.top = printed(level->shelf_top);
    rung.bottom = rung.top - rung.thick;
    ladder.rungs.push_back(rung);
  }
  for (std::size_t i = 0; i < ladder.rungs.size(); ++i) {
    const bool last = i + 1 == ladder.rungs.size();
    const Level& level = *ladder.rungs[i].level;
    if (last && level.bridge >= 0 && !level.posts.empty()) {  // another column goes on over it
      ladder.rungs[i].room = printed(level.clear_height);
      continue;
    }
    const Length over = last ? ladder.roof - ladder.kept : ladder.rungs[i + 1].bottom;
    ladder.rungs[i].room = over - ladder.rungs[i].top;
  }
  return ladder;
}

std::vector<std::vector<int>> columns_together(const Batch& batch, const KilnLoad& load) {
  std::vector<std::vector<int>> groups;
  for (const Level& level : load.levels) {
    std::vector<int> joined = columns_of(batch.kiln, level);
    std::size_t place = groups.size();
    for (std::size_t i = groups.size(); i-- > 0;) {
      const bool shares = std::any_of(groups[i].begin(), groups[i].end(), [&](int column) {
        return std::find(joined.begin(), joined.end(), column) != joined.end();
      });
      if (!shares) continue;
      joined.insert(joined.end(), groups[i].begin(), groups[i].end());
      groups.erase(groups.begin() + static_cast<std::ptrdiff_t>(i));
      place = i;
    }
    std::sort(joined.begin(), joined.end());
    joined.erase(std::unique(joined.begin(), joined.end()), joined.end());
    groups.insert(groups.begin() + static_cast<std::ptrdiff_t>(std::min(place, groups.size())),
                  std::move(joined));
  }
  return groups;
}

Ladder ladder_of(const Batch& batch, const KilnLoad& load, const std::vector<int>& columns,
                 bool inches) {
  Ladder all = ladder_of(batch, load, columns.front(), inches);
  for (std::size_t c = 1; c < columns.size(); ++c) {
    for (const Rung& rung : ladder_of(batch, load, columns[c], inches).rungs) {
      const bool known = std::any_of(all.rungs.begin(), all.rungs.end(),
                                     [&](const Rung& one) { return one.level == rung.level; });
      if (!known) all.rungs.push_back(rung);
    }
  }
  std::stable_sort(all.rungs.begin(), all.rungs.end(),
                   [](const Rung& a, const Rung& b) { return a.top < b.top; });
  return all;
}

const char* roof_word(const Kiln& kiln) { return kiln.opens == Opens::top ? "lid" : "roof"; }

std::string bare_length(Length length, bool inches) {
  const std::string words = one_length_text(length, inches);
  return words.substr(0, words.size() - 3);
}

std::string room_words(const Subject& subject, const KilnLoad& load, const Level& level) {
  const bool inches = subject.inches;
  const auto bare = [&](Length length) { return bare_length(length, inches); };
  Length room = level.clear_height;
  for (const Rung& rung : ladder_of(subject.batch, load, level.column, inches).rungs) {
    if (rung.level == &level) room = rung.room;
  }
  std::string words = "room " + length_text(room, subject.inches);
  if (!level.pieces.empty()) {
    const Length tallest = as_printed(tallest_on(level), inches);
    words += fmt::format(": tallest {} + {} free", bare(tallest), bare(room - tallest));
  }
  if (open_above(load, level) && subject.batch.kiln.under_lid.mm() > 0) {
    words += fmt::format(", {} kept under the {}",
                         one_length_text(as_printed(subject.batch.kiln.under_lid, inches), inches),
                         roof_word(subject.batch.kiln));
  }
  return words;
}

}  // namespace placer::report
