#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "placer/base/words.h"
#include "workbook/broken_text.h"
#include "workbook/draft.h"

namespace placer::workbook {
namespace {

using firing::ConeKind;

constexpr std::array kConeKinds = {ConeKind::self_supporting, ConeKind::self_supporting_iron_free,
                                   ConeKind::large, ConeKind::large_iron_free, ConeKind::small};

/// The names of all cones of a kind, from the coolest.
std::vector<std::string> cones_of(const firing::ConeTable& table, ConeKind kind) {
  std::vector<std::string> names;
  for (const firing::Cone& cone : table.cones) {
    if (cone.kind == kind) names.push_back(cone.name);
  }
  return names;
}

/// "cone 6", "c6" and "6a" are near 6. A wrong number is near to none: 66 is no nearer to 6 than to
/// 06.
std::optional<std::string> near_cone(std::string_view given,
                                     const std::vector<std::string>& known) {
  std::string text = lower_case(given);
  for (const std::string_view front : {"cone", "c", "^", "k"}) {
    if (text.starts_with(front)) {
      text = std::string{trimmed(std::string_view{text}.substr(front.size()))};
      break;
    }
  }
  if (text.size() > 2 && text.ends_with(".0")) text.resize(text.size() - 2);
  if (std::ranges::find(known, text) != known.end()) return text;
  while (!text.empty() && (text.back() < '0' || text.back() > '9')) text.pop_back();
  if (std::ranges::find(known, text) != known.end()) return text;
  return std::nullopt;
}

void tell_no_cone(Block& block, const char* key, const std::string& name, ConeKind kind,
                  const Draft& draft) {
  const firing::ConeTable& table = draft.library.cones;
  const auto known = cones_of(table, kind);
  std::string message =
      fmt::format("no table has a {} cone \"{}\"", to_string(kind), shortened(name));
  const bool elsewhere =
      std::ranges::any_of(table.cones, [&](const firing::Cone& cone) { return cone.name == name; });
  const bool seger = std::ranges::any_of(
      table.seger, [&](const firing::ConeTable::Seger& cone) { return cone.name == name; });
  if (elsewhere) {
    message += ": there is one of another kind (see \"cone kind\")";
  } else if (seger) {
    message += ": that is a Seger cone, a series with numbers of its own";
  } else if (!known.empty()) {
    message += fmt::format(": they go from {} to {}", known.front(), known.back());
  }
  block.desk().mistake("cone", block.where(key), std::move(message), near_cone(name, known));
}

const firing::Profile* find_profile(const Draft& draft, const std::string& name) {
  const auto& all = draft.library.profiles;
  const auto found = std::ranges::find_if(
      all, [&](const firing::Profile& profile) { return profile.name == name; });
  return found == all.end() ? nullptr : &*found;
}

/// The profile's name, checked; "" when none is given.
void read_profile_name(Block& block, firing::Wish& wish, Draft& draft) {
  const auto name = block.text("profile");
  if (!name) return;
  wish.profile = *name;
  if (*name == "built" || draft.library.profiles.empty()) return;
  const firing::Profile* profile = find_profile(draft, *name);
  if (profile == nullptr) {
    std::vector<std::string> known;
    for (const firing::Profile& one : draft.library.profiles) known.push_back(one.name);
    known.emplace_back("built");
    draft.desk.mistake(
        "profile", block.where("profile"),
        fmt::format("no profile \"{}\": there are {}", shortened(*name), listed(known)),
        nearest_word(*name, known));
    return;
  }
  if (!block.has("atmosphere")) wish.atmosphere = profile->atmosphere;
  if (block.has("atmosphere") && profile->atmosphere != wish.atmosphere) {
    draft.desk.look(
        "profile", block.where("profile"),
        fmt::format(
            "\"{}\" is a profile for {}, and this firing is in {} ({})", *name,
            profile->atmosphere == firing::Atmosphere::reduction ? "reduction" : "oxidation",
            wish.atmosphere == firing::Atmosphere::reduction ? "reduction" : "oxidation",
            line_of(block.where("atmosphere"))));
  }
  if (profile->kind != wish.kind) {
    draft.desk.look("profile", block.where("profile"),
                    fmt::format("\"{}\" is a profile for a {} firing, and this is a {} firing",
                                *name, profile->kind == firing::Kind::bisque ? "bisque" : "glaze",
                                wish.kind == firing::Kind::bisque ? "bisque" : "glaze"));
  }
}

void read_target(Block& block, firing::Wish& wish, Draft& draft) {
  if (const auto kind = block.choice("cone kind")) wish.target.cone_kind = kConeKinds[*kind];
  const auto cone = block.text("cone");
  const auto top = block.temperature("top");
  if (block.has("cone") && block.has("top")) {
    draft.desk.mistake("both", block.where_word("top"),
                       fmt::format("\"cone\" ({}) and \"top\" both say where it ends: keep one "
                                   "of them",
                                   line_of(block.where("cone"))));
  }
  if (cone) {
    wish.target.end = *cone;
    const bool known = find_cone(draft.library.cones, *cone, wish.target.cone_kind) != nullptr;
    if (!known && !draft.library.cones.cones.empty()) {
      tell_no_cone(block, "cone", *cone, wish.target.cone_kind, draft);
    }
  } else if (top) {
    wish.target.end = *top;
  } else if (const firing::Profile* profile = find_profile(draft, wish.profile)) {
    wish.target.end = profile->cone;
  } else if (!block.meant("cone") && !block.meant("top") && !block.has("cone") &&
             !block.has("top")) {
    draft.desk.mistake("missing", block.where_named(),
                       "where does this firing end? add  cone: 6  or  top: 1240 C");
  }
}

/// How hot it gets, for what the shelves bear: of a cone at the slow climb of a full kiln. Small
/// cones are tabled at the fast climb of small kilns only, so that a large one of the name is
/// asked.
void tell_top(const firing::Target& target, Load& load, const Draft& draft) {
  constexpr Ramp kClimb{60};
  if (const auto* top = std::get_if<Temperature>(&target.end)) {
    load.top = *top;
    return;
  }
  load.cone = std::get<std::string>(target.end);
  const firing::ConeTable& table = draft.library.cones;
  const firing::Cone* cone = find_cone(table, load.cone, ConeKind::self_supporting);
  if (cone == nullptr) cone = find_cone(table, load.cone, target.cone_kind);
  if (cone != nullptr) load.top = firing::bend_temperature(*cone, kClimb).at;
}

/// Where reduction begins: a temperature, or a cone at the usual climb of a glaze firing by then.
void read_reduction(Block& block, firing::Wish& wish, Draft& draft) {
  constexpr Ramp kClimb{100};
  wish.reduction_from = block.temperature("reduction from");
  const auto name = block.text("reduction at cone");
  if (!name) return;
  if (block.has("reduction from")) {
    draft.desk.look("both", block.where_word("reduction at cone"),
                    fmt::format("\"reduction from\" ({}) says it too, and is the one that counts",
                                line_of(block.where("reduction from"))));
    return;
  }
  const ConeKind kind = wish.target.cone_kind;
  if (const firing::Cone* cone = find_cone(draft.library.cones, *name, kind)) {
    wish.reduction_from = firing::bend_temperature(*cone, kClimb).at;
  } else if (!draft.library.cones.cones.empty()) {
    tell_no_cone(block, "reduction at cone", *name, kind, draft);
  }
}

void read_times(Block& block, firing::Wish& wish, Draft& draft) {
  if (block.has("start") && block.has("finish")) {
    draft.desk.mistake("both", block.where_word("finish"),
                       fmt::format("\"start\" ({}) and \"finish\" are both given: keep one of "
                                   "them, the other follows",
                                   line_of(block.where("start"))));
  }
  wish.starts_at = read_clock(block, "start", draft);
  wish.ends_at = read_clock(block, "finish", draft);
  wish.quiet = read_quiet(block, "quiet");
  if (const auto soak = block.duration("soak")) wish.soak = *soak;
  wish.most_segments = block.count("most steps");
}

/// "glaze", or "glaze 2" for the second one without a name of its own.
std::string usual_name(const std::string& kind, const std::vector<Load>& loads) {
  const auto taken = [&](const std::string& name) {
    return std::ranges::any_of(loads, [&](const Load& load) { return load.name == name; });
  };
  std::string name = kind;
  for (int i = 2; taken(name); ++i) name = fmt::format("{} {}", kind, i);
  return name;
}

void read_one(const Node& node, std::vector<Named>& names, Draft& draft) {
  Block block{node, "firing", draft.desk};
  if (!block.readable()) return;
  firing::Wish wish;
  Load load;
  const auto kind = block.choice("kind");
  wish.kind = kind.value_or(1) == 0 ? firing::Kind::bisque : firing::Kind::glaze;
  load.kind = kind.value_or(1) == 0 ? FiringKind::bisque : FiringKind::glaze;
  if (const auto atmosphere = block.choice("atmosphere")) {
    wish.atmosphere =
        *atmosphere == 0 ? firing::Atmosphere::oxidation : firing::Atmosphere::reduction;
  }
  read_profile_name(block, wish, draft);
  read_target(block, wish, draft);
  tell_top(wish.target, load, draft);
  read_times(block, wish, draft);
  read_reduction(block, wish, draft);
  wish.top_limit = block.temperature("limit");
  if (!wish.top_limit) wish.top_limit = draft.studio.kiln_build.top_limit;
  wish.where = node.where;
  load.where = node.where;
  const auto name = block.text("name");
  load.name = name.value_or(
      usual_name(load.kind == FiringKind::bisque ? "bisque" : "glaze", draft.studio.batch.loads));
  if (name) names.push_back({*name, block.where("name")});
  draft.studio.batch.loads.push_back(std::move(load));
  draft.studio.firings.push_back(std::move(wish));
}

void read_clearances(Block& rules, std::string_view kind, Clearances& into) {
  const Node* node = rules.find(kind);
  if (node == nullptr) return;
  Block block{*node, "room", rules.desk()};
  if (!block.readable()) return;
  const auto take = [&](std::string_view key, Length& length) {
    if (const auto read = block.length(key)) length = *read;
  };
  take("gap", into.gap);
  take("runny gap", into.runny_gap);
  take("air", into.air);
  if (into.runny_gap < into.gap) into.runny_gap = into.gap;
}

}  // namespace

void read_firings(Block& root, Draft& draft) {
  std::vector<Named> names;
  if (root.has("firing") && root.has("firings")) {
    draft.desk.mistake("both", root.where_word("firings"),
                       fmt::format("\"firing\" ({}) and \"firings\" are both given: put them all "
                                   "under \"firings\"",
                                   line_of(root.where_word("firing"))));
  }
  const Node* only = root.find("firing");
  if (only != nullptr && !root.has("firings")) read_one(*only, names, draft);
  for (const Node* node : root.blocks("firings")) read_one(*node, names, draft);
  tell_repeated(names, "firing", draft.desk);
  const bool meant = root.meant("firing") || root.meant("firings");
  if (root.readable() && !meant && !root.has("firing") && !root.has("firings")) {
    draft.desk.mistake("missing", root.where(),
                       "no firing is given: add  firing: {kind: glaze, cone: 6}");
  }
}

void read_rules(Block& root, Draft& draft) {
  const Node* node = root.find("rules");
  if (node == nullptr) return;
  Block block{*node, "rules", draft.desk};
  if (!block.readable()) return;
  read_clearances(block, "glaze", draft.studio.batch.rules.glaze);
  read_clearances(block, "bisque", draft.studio.batch.rules.bisque);
}

}  // namespace placer::workbook
