#include "placer/workbook/studio.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <stdexcept>
#include <tuple>

#include "placer/base/words.h"
#include "placer/firing/clock.h"
#include "workbook/broken_text.h"
#include "workbook/draft.h"

namespace placer::workbook {
namespace {

constexpr double kNewestVersion = 1;

void read_version(Block& root, Draft& draft) {
  const auto given = root.text("studio");
  if (!given) return;
  const auto version = plain_decimal(*given);
  if (version && *version == kNewestVersion) return;
  draft.desk.mistake(
      "version", root.where("studio"),
      version && *version > kNewestVersion
          ? fmt::format("this file is written for version {} of this program, and "
                        "this is version 1: get the newer one",
                        *given)
          : fmt::format("\"studio\" takes the number 1, not \"{}\"", shortened(*given)));
}

void read_zone(Block& root, Draft& draft) {
  const auto name = root.text("zone");
  if (!name) return;
  try {
    firing::Zone::named(*name);
    draft.studio.zone = *name;
  } catch (const std::exception&) {
    draft.desk.mistake(
        "zone", root.where("zone"),
        fmt::format("no time zone \"{}\" is known: write it like Europe/Berlin", shortened(*name)));
  }
}

/// In file order; what stands in a table beside the file comes after the file itself.
auto by_place(const std::string& file) {
  return [file](const auto& a, const auto& b) {
    return std::tuple{a.where.file != file, a.where.file, a.where.line, a.where.column} <
           std::tuple{b.where.file != file, b.where.file, b.where.line, b.where.column};
  };
}

}  // namespace

void read_parts(const Node& root_node, Draft& draft) {
  Block root{root_node, "", draft.desk};
  if (!root.readable()) return;
  read_version(root, draft);
  draft.studio.title = root.text("name").value_or("");
  read_units(root, draft);
  read_zone(root, draft);
  read_kiln(root, draft);
  read_shelves(root, draft);
  read_posts(root, draft);
  read_columns(root, draft);
  read_clays(root, draft);
  read_glazes(root, draft);
  read_firings(root, draft);
  read_rules(root, draft);
  read_pieces(root, draft);
  if (const auto variant = root.count("variant")) {
    draft.studio.batch.seed = static_cast<std::uint64_t>(*variant);
  }
  tell_nonsense(draft);
}

void read_units(Block& root, Draft& draft) {
  const auto given = root.text("units");
  if (!given) return;
  UsualUnits units;
  std::map<std::string_view, int> told;
  std::string_view rest = *given;
  while (!rest.empty()) {
    const std::size_t comma = rest.find(',');
    std::string word{trimmed(rest.substr(0, comma))};
    rest = comma == std::string_view::npos ? std::string_view{} : rest.substr(comma + 1);
    if (word.starts_with("°")) word = word.substr(std::string_view{"°"}.size());
    const std::string lower = lower_case(word);
    std::string_view of;
    if (lower == "c" || lower == "f") {
      units.temperature = lower == "c" ? "C" : "F";
      of = "temperature";
    } else if (lower == "mm" || lower == "cm" || lower == "m" || lower == "in" || lower == "ft") {
      units.length = lower;
      of = "length";
    } else if (lower == "kg" || lower == "g" || lower == "lb" || lower == "oz") {
      units.mass = lower;
      of = "weight";
    }
    if (of.empty() || ++told[of] > 1) {
      draft.desk.mistake("units", root.where("units"),
                         of.empty()
                             ? fmt::format("\"{}\" is no unit: write for example  units: mm, C  or "
                                           " units: in, F",
                                           shortened(word))
                             : fmt::format("two units for one thing, a {}: keep one", of));
      return;
    }
  }
  if (units.inches() && told["weight"] == 0) units.mass = "lb";
  draft.desk.units = units;
  draft.studio.inches = units.inches();
  draft.studio.fahrenheit = units.fahrenheit();
}

void tell_repeated(const std::vector<Named>& names, std::string_view what, Desk& desk) {
  std::map<std::string, TextPos> seen;
  for (const Named& name : names) {
    const auto [first, added] = seen.emplace(name.text, name.where);
    if (added) continue;
    desk.mistake("name", name.where,
                 fmt::format("a {} called \"{}\" is there already ({}): give this one another name",
                             what, shortened(name.text), line_of(first->second)));
  }
}

std::optional<int> index_of(const Named& name, const std::vector<std::string>& known,
                            std::string_view what, Desk& desk) {
  const auto found = std::ranges::find(known, name.text);
  if (found != known.end()) return static_cast<int>(found - known.begin());
  constexpr std::size_t kMostListed = 12;
  std::string message = fmt::format("no {} \"{}\" is known", what, shortened(name.text));
  if (!known.empty() && known.size() <= kMostListed) {
    message += ", only " + listed(known);
  }
  desk.mistake("unknown", name.where, std::move(message), nearest_word(name.text, known));
  return std::nullopt;
}

Draft empty_draft(const Library& library, long long now) {
  return Draft{{}, {}, library, now, {}, {}, false, {}, {}, {}, {}, {}, {}, false, false};
}

StudioResult read_studio(std::string_view text, const std::string& file, const Library& library,
                         long long now) {
  const Tree tree = read_tree(text, file);
  Draft draft = empty_draft(library, now);
  draft.studio.file = file;
  draft.desk.file = file;
  draft.desk.findings = tree.findings;
  const bool grown = tree.root.kind != Node::Kind::empty;
  if (grown) {
    // A broken text has a partial tree: what could be read of it would only be told as missing.
    if (!has_mistakes(tree.findings)) read_parts(tree.root, draft);
  } else if (!has_mistakes(tree.findings)) {
    draft.desk.mistake("empty", TextPos{file, 1, 1, 2},
                       "this file says nothing: placer begin writes one to start from");
  }
  StudioResult result;
  std::ranges::stable_sort(draft.desk.findings, by_place(file));
  result.findings = std::move(draft.desk.findings);
  result.inches = draft.studio.inches;
  if (!has_mistakes(result.findings)) {
    draft.studio.readings = std::move(draft.desk.readings);
    std::ranges::stable_sort(draft.studio.readings, by_place(file));
    result.studio = std::move(draft.studio);
  }
  return result;
}

}  // namespace placer::workbook
