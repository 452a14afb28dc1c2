// What is counted over the whole plan: pieces, loads, furniture in use, masses, claims.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <set>

#include "check/rules.h"

namespace placer::check {
namespace {

std::size_t index(int i) { return static_cast<std::size_t>(i); }

template <typename Visit>
void each_piece(const KilnLoad& load, Visit visit) {
  for (const Level& level : load.levels) {
    for (const PlacedPiece& piece : level.pieces) visit(piece);
  }
}

template <typename Visit>
void each_post(const KilnLoad& load, Visit visit) {
  for (const PlacedPost& post : load.floor_posts) visit(post);
  for (const Level& level : load.levels) {
    for (const PlacedPost& post : level.posts) visit(post);
  }
}

struct Used {
  std::vector<int> shelves, posts;  ///< of each kind
};

Used used_in(const Batch& batch, const KilnLoad& load) {
  Used used{std::vector<int>(batch.kiln.shelves.size()), std::vector<int>(batch.kiln.posts.size())};
  for (const Level& level : load.levels) ++used.shelves[index(level.shelf)];
  each_post(load, [&used](const PlacedPost& post) {
    for (const int part : post.parts) ++used.posts[index(part)];
  });
  return used;
}

std::string post_words(const Batch& batch, int kind) {
  return fmt::format("posts of {:g} mm", batch.kiln.posts[index(kind)].height.mm());
}

std::string shelf_words(const Batch& batch, int kind) {
  return fmt::format("shelves '{}'", batch.kiln.shelves[index(kind)].name);
}

// What the plan says is in use against what is.
void check_said(const std::vector<FurnitureUse>& said, const std::vector<int>& most,
                const std::vector<int>& have, const std::function<std::string(int)>& words,
                Findings& findings) {
  std::vector<bool> mentioned(most.size());
  for (const FurnitureUse& use : said) {
    const std::size_t kind = index(use.kind);
    if (mentioned[kind])
      add(findings, "furniture", "The plan counts " + words(use.kind) + " twice.");
    mentioned[kind] = true;
    if (use.needed == most[kind] && use.owned == have[kind]) continue;
    add(findings, "furniture",
        fmt::format("The plan says {} of {} {} are needed, but it is {} of {}.", use.needed,
                    use.owned, words(use.kind), most[kind], have[kind]));
  }
  for (std::size_t kind = 0; kind < most.size(); ++kind) {
    if (most[kind] == 0 || mentioned[kind]) continue;
    add(findings, "furniture",
        fmt::format("The plan uses {} {} but does not say so.", most[kind],
                    words(static_cast<int>(kind))));
  }
}

}  // namespace

void check_rounds(const Batch& batch, const LoadPlan& plan, Findings& findings) {
  std::map<int, std::set<int>> rounds;
  for (const KilnLoad& load : plan.firings) {
    if (!rounds[load.load].insert(load.round).second) {
      add(findings, "rounds",
          fmt::format("Two loads are both called load {} of {}.", load.round,
                      batch.loads[index(load.load)].name));
    }
  }
  for (const auto& [load, numbers] : rounds) {
    if (*numbers.begin() == 1 && *numbers.rbegin() == static_cast<int>(numbers.size())) continue;
    add(findings, "rounds",
        fmt::format("The {} loads of {} are numbered {} to {}; they should be 1 to {}.",
                    numbers.size(), batch.loads[index(load)].name, *numbers.begin(),
                    *numbers.rbegin(), numbers.size()));
  }
}

void check_counts(const Batch& batch, const LoadPlan& plan, Findings& findings) {
  const std::size_t kinds = batch.pieces.size();
  std::vector<std::vector<int>> set(batch.loads.size(), std::vector<int>(kinds));
  std::vector<std::vector<int>> left = set;
  for (const KilnLoad& load : plan.firings) {
    each_piece(load, [&](const PlacedPiece& piece) {
      for (const int kind : kinds_of(piece)) ++set[index(load.load)][index(kind)];
    });
  }
  for (const LeftOut& out : plan.left_out) {
    left[index(out.load)][index(out.piece)] += out.count;
    if (out.count < 1 || out.reason.empty() || out.code.empty()) {
      add(findings, "left-out",
          fmt::format("'{}' is named as left out, but without a number or a reason.",
                      batch.pieces[index(out.piece)].name));
    }
  }
  for (std::size_t load = 0; load < batch.loads.size(); ++load) {
    for (std::size_t kind = 0; kind < kinds; ++kind) {
      const PieceKind& piece = batch.pieces[kind];
      const bool needed = std::ranges::count(piece.loads, static_cast<int>(load)) > 0;
      const int asked = needed ? piece.count : 0;
      if (set[load][kind] + left[load][kind] == asked) continue;
      add(findings, "count",
          fmt::format("'{}': {} set and {} left out in {}, but there are {} to fire.", piece.name,
                      set[load][kind], left[load][kind], batch.loads[load].name, asked));
    }
  }
}

void check_furniture(const Batch& batch, const LoadPlan& plan, Findings& findings) {
  const Kiln& kiln = batch.kiln;
  Used most{std::vector<int>(kiln.shelves.size()), std::vector<int>(kiln.posts.size())};
  for (const KilnLoad& load : plan.firings) {
    const Used used = used_in(batch, load);
    std::ranges::transform(used.shelves, most.shelves, most.shelves.begin(), std::ranges::max);
    std::ranges::transform(used.posts, most.posts, most.posts.begin(), std::ranges::max);
  }
  std::vector<int> shelves_owned;
  std::vector<int> posts_owned;
  for (const ShelfKind& shelf : kiln.shelves) shelves_owned.push_back(shelf.have);
  for (const PostKind& post : kiln.posts) posts_owned.push_back(post.have);
  const auto shelf = [&batch](int kind) { return shelf_words(batch, kind); };
  const auto post = [&batch](int kind) { return post_words(batch, kind); };
  const auto check_owned = [&findings](const std::vector<int>& in_use, const std::vector<int>& have,
                                       const auto& words) {
    for (std::size_t kind = 0; kind < have.size(); ++kind) {
      if (in_use[kind] <= have[kind]) continue;
      add(findings, "owned",
          fmt::format("The plan needs {} {} at once, but only {} are owned.", in_use[kind],
                      words(static_cast<int>(kind)), have[kind]));
    }
  };
  check_owned(most.shelves, shelves_owned, shelf);
  check_owned(most.posts, posts_owned, post);
  check_said(plan.shelves, most.shelves, shelves_owned, shelf, findings);
  check_said(plan.posts, most.posts, posts_owned, post, findings);
}

void check_claims(const Batch&, const LoadPlan& plan, Findings& findings) {
  if (plan.fewest_firings_possible > static_cast<int>(plan.firings.size())) {
    add(findings, "fewest",
        fmt::format("The plan says that no fewer than {} firings are possible, yet it has {}.",
                    plan.fewest_firings_possible, plan.firings.size()));
  }
  if (plan.name != spoken_name(plan)) {
    add(findings, "name",
        fmt::format("The plan is called '{}', but its places give the name '{}'.", plan.name,
                    spoken_name(plan)));
  }
}

namespace {

/// What the kiln's owner allows on one shelf, and in the kiln at once.
void check_limits(const View& view, Mass ware, Findings& findings) {
  constexpr double kRounding = 1e-6;  // kg
  const Kiln& kiln = view.batch.kiln;
  const auto over = [&](double is, double most, const std::string& where) {
    if (is <= most + kRounding) return;
    add(findings, "too-heavy",
        fmt::format("There are {:.10g} kg of ware {}; the limit is {:.10g} kg.", is, where, most));
  };
  if (kiln.most_in_load) over(ware.kg(), kiln.most_in_load->kg(), "in " + view.words());
  if (!kiln.most_on_shelf) return;
  std::vector<double> on(view.load.levels.size());
  for (const StandingPiece& piece : view.pieces) on[index(piece.level)] += piece.size.mass.kg();
  for (int i = 0; i < static_cast<int>(on.size()); ++i) {
    over(on[index(i)], kiln.most_on_shelf->kg(), "on " + view.words(i));
  }
}

}  // namespace

void check_masses(const View& view, Findings& findings) {
  Mass ware;
  Mass furniture;
  for (const StandingPiece& piece : view.pieces) ware += piece.size.mass;
  for (const StandingShelf& shelf : view.shelves) furniture += mass_of(*shelf.kind);
  each_post(view.load, [&](const PlacedPost& post) {
    for (const int part : post.parts) furniture += view.batch.kiln.posts[index(part)].mass;
  });
  const auto compare = [&](const char* what, Mass said, Mass is) {
    if (std::abs(said.kg() - is.kg()) <= 1e-6) return;
    add(findings, "mass",
        fmt::format("The plan says {} kg of {} in {}, but it is {} kg.", said.kg(), what,
                    view.words(), is.kg()));
  };
  compare("ware", view.load.ware, ware);
  compare("shelves and posts", view.load.furniture, furniture);
  check_limits(view, ware, findings);
}

}  // namespace placer::check
