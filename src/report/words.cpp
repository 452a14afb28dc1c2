#include "report/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "placer/model/tower.h"

namespace placer::report {
namespace {

/// To the nearest step, halves away from zero, so that the printed digit never depends on how a
/// binary fraction ends.
double nearest(double value, double step) {
  const double rounded = std::floor(std::abs(value) / step + 0.5 + 1e-9) * step;
  return value < 0 && rounded > 0 ? -rounded : rounded;
}

long long whole(double value) { return static_cast<long long>(nearest(value, 1)); }

char32_t next_letter(std::string_view words, std::size_t& at) {
  const auto lead = static_cast<unsigned char>(words[at++]);
  const int more = lead >= 0xF0 ? 3 : lead >= 0xE0 ? 2 : lead >= 0xC0 ? 1 : 0;
  char32_t letter = more == 3   ? lead & 0x07U
                    : more == 2 ? lead & 0x0FU
                                : lead & (more ? 0x1FU : 0x7FU);
  for (int i = 0; i < more && at < words.size(); ++i) {
    letter = (letter << 6U) | (static_cast<unsigned char>(words[at++]) & 0x3FU);
  }
  return letter;
}

/// @source the wide and zero-width blocks of Unicode Standard Annex 11, whole blocks, from memory
int columns_of(char32_t c) {
  if ((c >= 0x0300 && c <= 0x036F) || (c >= 0x200B && c <= 0x200F) ||
      (c >= 0xFE00 && c <= 0xFE0F)) {
    return 0;
  }
  const bool wide = (c >= 0x1100 && c <= 0x115F) || (c >= 0x2E80 && c <= 0xA4CF) ||
                    (c >= 0xAC00 && c <= 0xD7A3) || (c >= 0xF900 && c <= 0xFAFF) ||
                    (c >= 0xFE30 && c <= 0xFE6F) || (c >= 0xFF00 && c <= 0xFF60) ||
                    (c >= 0x1F300 && c <= 0x1FAFF) || (c >= 0x20000 && c <= 0x3FFFD);
  return wide ? 2 : 1;
}

std::string parts_text(const Subject& subject, const PlacedPost& post) {
  std::string text;
  for (const int part : post.parts) {
    const Length height = subject.batch.kiln.posts.at(static_cast<std::size_t>(part)).height;
    std::string number = one_length_text(height, subject.inches);
    number.resize(number.size() - 3);  // the unit is said once, at the end
    text += (text.empty() ? "" : " + ") + number;
  }
  return text + (subject.inches ? " in" : " mm");
}

}  // namespace

std::string inches_text(Length length) {
  const long long sixteenths = whole(std::abs(length.mm()) / 25.4 * 16);
  const std::string sign = length.mm() < 0 && sixteenths > 0 ? "-" : "";
  long long top = sixteenths % 16;
  long long bottom = 16;
  while (top > 0 && top % 2 == 0) {
    top /= 2;
    bottom /= 2;
  }
  const long long inches = sixteenths / 16;
  if (top == 0) return fmt::format("{}{} in", sign, inches);
  if (inches == 0) return fmt::format("{}{}/{} in", sign, top, bottom);
  return fmt::format("{}{} {}/{} in", sign, inches, top, bottom);
}

std::string length_text(Length length, bool inches) {
  const double halves = nearest(length.mm(), 0.5);
  const bool has_half = std::abs(halves - std::trunc(halves)) > 0.25;
  const std::string mm = fmt::format("{:.{}f} mm", halves, has_half ? 1 : 0);
  return inches ? fmt::format("{} ({})", inches_text(length), mm) : mm;
}

std::string one_length_text(Length length, bool inches) {
  return inches ? inches_text(length) : length_text(length);
}

std::string celsius_text(Temperature temperature) {
  return fmt::format("{} °C", whole(temperature.celsius));
}

std::string fahrenheit_text(Temperature temperature) {
  return fmt::format("{} °F", whole(fahrenheit(temperature)));
}

std::string both_degrees(Temperature temperature, bool fahrenheit_first) {
  if (fahrenheit_first) return fahrenheit_text(temperature) + " / " + celsius_text(temperature);
  return celsius_text(temperature) + " / " + fahrenheit_text(temperature);
}

std::string rate_text(Ramp rate) {
  if (!std::isfinite(rate.kelvin_per_hour)) return "as fast as it goes";
  return fmt::format("{} °C/h", whole(rate.kelvin_per_hour));
}

std::string hours_text(Hours hours) {
  const long long minutes = whole(hours.count() * 60);
  const long long h = minutes / 60;
  const long long m = minutes % 60;
  if (h == 0) return fmt::format("{} min", m);
  return m == 0 ? fmt::format("{} h", h) : fmt::format("{} h {:02}", h, m);
}

std::string kilos_text(Mass mass, bool pounds) {
  constexpr double kPoundsInKilo = 1 / 0.45359237;  // the international pound, exact
  const std::string kilos = fmt::format("{:.1f} kg", nearest(mass.kg(), 0.1));
  if (!pounds) return kilos;
  return fmt::format("{:.1f} lb ({})", nearest(mass.kg() * kPoundsInKilo, 0.1), kilos);
}

std::string count_text(int count, std::string_view one) {
  std::string many{one};
  if (count != 1) {
    if (many == "shelf") {
      many = "shelves";
    } else {
      many += "s";
    }
  }
  return fmt::format("{} {}", count, many);
}

std::string capitalised(std::string words) {
  if (!words.empty() && words[0] >= 'a' && words[0] <= 'z') {
    words[0] = static_cast<char>(words[0] - 'a' + 'A');
  }
  return words;
}

std::string joined(const std::vector<std::string>& parts) {
  std::string text;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) text += i + 1 == parts.size() ? " and " : ", ";
    text += parts[i];
  }
  return text;
}

int columns(std::string_view words) {
  int sum = 0;
  for (std::size_t at = 0; at < words.size();) sum += columns_of(next_letter(words, at));
  return sum;
}

std::string padded(std::string_view words, int width) {
  return std::string{words} +
         std::string(static_cast<std::size_t>(std::max(0, width - columns(words))), ' ');
}

std::vector<std::string> wrapped_lines(std::string_view words, int width) {
  std::vector<std::string> lines(1);
  while (!words.empty()) {
    const std::size_t end = std::min(words.find(' '), words.size());
    const std::string_view word = words.substr(0, end);
    words.remove_prefix(std::min(end + 1, words.size()));
    std::string& line = lines.back();
    if (!line.empty() && columns(line) + 1 + columns(word) > width) {
      lines.emplace_back(word);
    } else {
      if (!line.empty()) line += ' ';
      line += word;
    }
  }
  return lines;
}

std::string firing_name(const Subject& subject, std::size_t firing) {
  const KilnLoad& load = subject.plan.firings.at(firing);
  const auto rounds = std::count_if(subject.plan.firings.begin(), subject.plan.firings.end(),
                                    [&](const KilnLoad& other) { return other.load == load.load; });
  const std::string& name = subject.batch.loads.at(static_cast<std::size_t>(load.load)).name;
  return rounds > 1 ? fmt::format("{}, load {} of {}", name, load.round, rounds) : name;
}

std::string shelf_name(const Subject& subject, const Level& level) {
  if (subject.batch.kiln.columns.size() < 2) return fmt::format("shelf {}", level.level);
  return fmt::format("{}, shelf {}", place_name(subject.batch.kiln, level), level.level);
}

int shelves_in_column(const Batch& batch, const KilnLoad& load, int column) {
  const std::vector<int> levels = tower(batch.kiln, load, column);
  return levels.empty() ? 0 : load.levels.at(static_cast<std::size_t>(levels.back())).level;
}

int shelves_with(const Batch& batch, const KilnLoad& load, const Level& level) {
  int most = 0;
  for (const int column : columns_of(batch.kiln, level))
    most = std::max(most, shelves_in_column(batch, load, column));
  return most;
}

std::string when_to_lay(const Subject& subject, const KilnLoad& load, const Level& level) {
  if (level.bridge < 0) return "";
  const Kiln& kiln = subject.batch.kiln;
  std::vector<std::string> under;
  for (const int column : columns_of(kiln, level)) {
    const Level* below = nullptr;
    for (const int i : tower(kiln, load, column)) {
      const Level& one = load.levels.at(static_cast<std::size_t>(i));
      if (one.level < level.level) below = &one;
    }
    const std::string words =
        below == nullptr ? "the feet of " + kiln.columns.at(static_cast<std::size_t>(column)).name
                         : shelf_name(subject, *below);
    if (std::find(under.begin(), under.end(), words) == under.end()) under.push_back(words);
  }
  return fmt::format("lay it when {} {} set", joined(under), under.size() == 1 ? "is" : "are");
}

std::string posts_text(const Subject& subject, const std::vector<PlacedPost>& posts) {
  std::vector<std::pair<std::string, int>> groups;  // in the order they stand
  for (const PlacedPost& post : posts) {
    const std::string parts = parts_text(subject, post);
    const auto known = std::find_if(groups.begin(), groups.end(),
                                    [&](const auto& group) { return group.first == parts; });
    if (known == groups.end()) {
      groups.emplace_back(parts, 1);
    } else {
      ++known->second;
    }
  }
  std::vector<std::string> texts;
  for (const auto& [parts, count] : groups) texts.push_back(fmt::format("{} of {}", count, parts));
  return joined(texts);
}

int pieces_on(const Level& level) {
  int sum = 0;
  for (const PlacedPiece& piece : level.pieces) sum += static_cast<int>(kinds_of(piece).size());
  return sum;
}

int pieces_in(const KilnLoad& load) {
  int sum = 0;
  for (const Level& level : load.levels) sum += pieces_on(level);
  return sum;
}

Mass mass_on(const Level& level) {
  Mass sum;
  for (const PlacedPiece& piece : level.pieces) sum += piece.mass;
  return sum;
}

bool open_above(const KilnLoad& load, const Level& level) {
  if (has_bridge(load)) return level.posts.empty();
  return level.level == static_cast<int>(std::count_if(
                            load.levels.begin(), load.levels.end(),
                            [&](const Level& other) { return other.column == level.column; }));
}

std::string piece_name(const Subject& subject, const PlacedPiece& piece) {
  std::vector<std::pair<int, int>> runs;  // kind and how many, from the bottom up
  for (const int kind : kinds_of(piece)) {
    if (!runs.empty() && runs.back().first == kind) {
      ++runs.back().second;
    } else {
      runs.emplace_back(kind, 1);
    }
  }
  std::vector<std::string> names;
  for (const auto& [kind, count] : runs) {
    const std::string& name = subject.batch.pieces.at(static_cast<std::size_t>(kind)).name;
    names.push_back(count > 1 ? fmt::format("{}, stack of {}", name, count) : name);
  }
  if (names.size() < 2) return joined(names);
  std::string text = names.front() + " with ";
  names.erase(names.begin());
  return text + joined(names);
}

std::string glaze_name(const Subject& subject, const PlacedPiece& piece) {
  const PieceKind& kind = subject.batch.pieces.at(static_cast<std::size_t>(piece.piece));
  return kind.glaze ? subject.batch.glazes.at(static_cast<std::size_t>(*kind.glaze)).name
                    : "no glaze";
}

}  // namespace placer::report
