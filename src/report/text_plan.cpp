#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "placer/model/tower.h"
#include "placer/report/report.h"
#include "report/cone_place.h"
#include "report/words.h"

namespace placer::report {
namespace {

constexpr int kWide = 96;  ///< columns of the terminal that the text is made for

const std::string& name_of(const Subject& subject, int piece) {
  return subject.batch.pieces.at(static_cast<std::size_t>(piece)).name;
}

/// "Mug 12 · Tall jug 1": in the order in which they first appear on the shelf.
std::string pieces_text(const Subject& subject, const Level& level) {
  std::vector<std::pair<int, int>> counts;
  for (const PlacedPiece& placed : level.pieces) {
    for (const int kind : kinds_of(placed)) {
      const auto known = std::find_if(counts.begin(), counts.end(),
                                      [&](const auto& one) { return one.first == kind; });
      if (known == counts.end()) {
        counts.emplace_back(kind, 1);
      } else {
        ++known->second;
      }
    }
  }
  std::string text;
  for (const auto& [kind, count] : counts) {
    text += fmt::format("{}{} {}", text.empty() ? "" : " · ", name_of(subject, kind), count);
  }
  return text.empty() ? "nothing" : text;
}

std::string tallest_name(const Subject& subject, const Level& level) {
  const auto tallest = std::max_element(
      level.pieces.begin(), level.pieces.end(),
      [](const PlacedPiece& a, const PlacedPiece& b) { return a.height < b.height; });
  return tallest == level.pieces.end() ? "" : name_of(subject, tallest->piece);
}

std::string room_text(const Subject& subject, const KilnLoad& load, const Level& level) {
  const std::string tallest = tallest_name(subject, level);
  const std::string over = tallest.empty() ? "" : " over the " + tallest;
  const std::string air = length_text(level.air, subject.inches);
  if (open_above(load, level)) return fmt::format("open above, {} free{}", air, over);
  return fmt::format("posts {}, {}{}", posts_text(subject, level.posts), air, over);
}

/// "on a cookie each: Bottle 3 (copper red runs)": what a glaze that may run asks for.
std::string cookies_text(const Subject& subject, const KilnLoad& load, const Level& level) {
  if (subject.batch.loads.at(static_cast<std::size_t>(load.load)).kind != FiringKind::glaze) {
    return {};
  }
  std::map<int, int> counts;
  for (const PlacedPiece& placed : level.pieces) {
    for (const int kind : kinds_of(placed)) {
      const auto& glaze = subject.batch.pieces.at(static_cast<std::size_t>(kind)).glaze;
      if (glaze && subject.batch.glazes.at(static_cast<std::size_t>(*glaze)).runny) {
        ++counts[placed.piece];
        break;  // a pot and its lid stand on one
      }
    }
  }
  std::string text;
  for (const auto& [kind, count] : counts) {
    text += fmt::format("{}{} {}", text.empty() ? "" : " · ", name_of(subject, kind), count);
  }
  return text.empty() ? "" : "runny glaze, on a cookie each: " + text;
}

/// Each pack once, though two holes look at it.
std::string cones_text(const Subject& subject, const Level& level) {
  std::vector<std::string> told;
  for (const ConePlace& place : cones_on(subject.batch, level)) {
    const std::string words = cone_words(place);
    if (std::find(told.begin(), told.end(), words) == told.end()) told.push_back(words);
  }
  return fmt::format("{}", fmt::join(told, " · "));
}

std::string level_text(const Subject& subject, const KilnLoad& load, const Level& level,
                       int name_width) {
  const std::string head = "  " + padded(shelf_name(subject, level), name_width) + "  ";
  const int indent = columns(head);
  std::string pieces = pieces_text(subject, level);
  if (!level.pattern.empty()) pieces += fmt::format(" ({})", level.pattern);
  std::string text;
  for (const std::string& line : wrapped_lines(pieces, kWide - indent)) {
    text +=
        (text.empty() ? head : std::string(static_cast<std::size_t>(indent), ' ')) + line + "\n";
  }
  for (const std::string& line : wrapped_lines(room_text(subject, load, level), kWide - indent)) {
    text += std::string(static_cast<std::size_t>(indent), ' ') + line + "\n";
  }
  if (level.bridge >= 0) {
    text += std::string(static_cast<std::size_t>(indent), ' ') + when_to_lay(subject, load, level) +
            "\n";
  }
  for (const std::string& more : {cookies_text(subject, load, level), cones_text(subject, level)}) {
    if (more.empty()) continue;
    for (const std::string& line : wrapped_lines(more, kWide - indent)) {
      text += std::string(static_cast<std::size_t>(indent), ' ') + line + "\n";
    }
  }
  return text;
}

/// From the top down, as one sees the kiln from the side; columns one after another as they are
/// set.
std::string load_text(const Subject& subject, std::size_t index) {
  const KilnLoad& load = subject.plan.firings.at(index);
  std::string text = fmt::format("\n{}: {} on {}, {}\n", firing_name(subject, index),
                                 count_text(pieces_in(load), "piece"),
                                 count_text(static_cast<int>(load.levels.size()), "shelf"),
                                 kilos_text(load.ware, subject.inches));
  int name_width = 0;
  std::vector<const Level*> levels;
  for (const Level& level : load.levels) {
    levels.push_back(&level);
    name_width = std::max(name_width, columns(shelf_name(subject, level)));
  }
  // Columns under a bridge are told together.
  const bool bridged = has_bridge(load);
  const auto together = [&](const Level& a, const Level& b) {
    return bridged || a.column == b.column;
  };
  for (auto first = levels.begin(); first != levels.end();) {
    const auto last = std::find_if(first, levels.end(),
                                   [&](const Level* level) { return !together(*level, **first); });
    std::reverse(first, last);
    first = last;
  }
  for (const Level* level : levels) text += level_text(subject, load, *level, name_width);
  if (!load.floor_posts.empty()) {
    text += fmt::format("  {}  feet {}\n", padded("floor", name_width),
                        posts_text(subject, load.floor_posts));
  }
  for (const NoCones& none : load.no_cones) text += "  No cone pack. " + none.reason + "\n";
  return text;
}

/// Loads that hold the same on every shelf as the one before take one line each.
std::string all_loads_text(const Subject& subject) {
  std::string text;
  std::string last;
  for (std::size_t i = 0; i < subject.plan.firings.size(); ++i) {
    const std::string load = load_text(subject, i);
    const std::size_t end = load.find('\n', 1);
    std::string shelves = load.substr(end + 1);
    if (shelves == last) {
      text += load.substr(1, end - 1) + ", the same as before\n";
      continue;
    }
    text += load;
    last = std::move(shelves);
  }
  return text;
}

std::string left_out_text(const Subject& subject) {
  std::string text;
  for (const LeftOut& out : subject.plan.left_out) {
    const std::string& load = subject.batch.loads.at(static_cast<std::size_t>(out.load)).name;
    const std::string sentence = fmt::format("Left out of {}: {} {}. {}   placer why \"{}\"", load,
                                             name_of(subject, out.piece), out.count, out.reason,
                                             name_of(subject, out.piece));
    for (const std::string& line : wrapped_lines(sentence, kWide)) text += line + "\n";
  }
  return text;
}

std::string sentences(const std::vector<std::string>& all) {
  std::string text;
  for (const std::string& sentence : all) {
    for (const std::string& line : wrapped_lines(sentence, kWide)) text += line + "\n";
  }
  return text;
}

/// "Plan OAK-17: 25 of 27 pieces, 2 firings, 3 + 4 shelves".
std::string headline(const Subject& subject) {
  int set = 0;
  int asked = 0;
  for (const KilnLoad& load : subject.plan.firings) set += pieces_in(load);
  for (const LeftOut& out : subject.plan.left_out) asked += out.count;
  asked += set;
  const int firings = static_cast<int>(subject.plan.firings.size());
  const auto& kinds = subject.batch.pieces;
  const bool twice = std::any_of(kinds.begin(), kinds.end(),
                                 [](const PieceKind& kind) { return kind.loads.size() > 1; });
  return fmt::format("Plan {}: {} of {} pieces in {}{}\n", subject.plan.name, set, asked,
                     count_text(firings, "firing"),
                     twice ? "; one fired twice is counted twice" : "");
}

std::string to_buy(const Subject& subject) {
  std::vector<std::string> lacking;
  for (const FurnitureUse& use : subject.plan.shelves) {
    if (use.needed <= use.owned) continue;
    lacking.push_back(
        fmt::format("{} of {}", count_text(use.needed - use.owned, "shelf"),
                    subject.batch.kiln.shelves.at(static_cast<std::size_t>(use.kind)).name));
  }
  for (const FurnitureUse& use : subject.plan.posts) {
    if (use.needed <= use.owned) continue;
    const Length height = subject.batch.kiln.posts.at(static_cast<std::size_t>(use.kind)).height;
    lacking.push_back(fmt::format("{} of {}", count_text(use.needed - use.owned, "post"),
                                  length_text(height, subject.inches)));
  }
  return lacking.empty() ? "" : "Still to get: " + joined(lacking) + "\n";
}

}  // namespace

std::string plan_text(const Subject& subject) {
  std::string text = headline(subject);
  text += all_loads_text(subject);
  const std::string missing = left_out_text(subject);
  if (!missing.empty()) text += "\n" + missing;
  std::vector<std::string> remarks;
  for (const Ungranted& wish : subject.plan.ungranted) {
    remarks.push_back(fmt::format("{}: {}", name_of(subject, wish.piece), wish.reason));
  }
  remarks.insert(remarks.end(), subject.plan.remarks.begin(), subject.plan.remarks.end());
  const std::string notes = sentences(remarks) + to_buy(subject);
  if (!notes.empty()) text += "\n" + notes;
  return text;
}

}  // namespace placer::report
