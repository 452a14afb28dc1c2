// Limits of mass, bulk in the middle, loads that do not stand on one side, and the order of
// columns.
#include "loading/even.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <numeric>

#include "loading/furniture.h"
#include "loading/index.h"
#include "loading/order.h"
#include "loading/plans.h"
#include "loading/stow.h"
#include "loading/studios.h"
#include "loading/tiers.h"
#include "placer/check/check.h"
#include "placer/loading/loading.h"
#include "support/geos_oracle.h"

namespace placer::loading {
namespace {

std::string all_of(const std::vector<Finding>& findings) {
  std::string text;
  for (const Finding& finding : findings) text += finding.message + "\n";
  return text;
}

/// From the kinds alone, not from what the plan says.
double ware_on(const Batch& batch, const KilnLoad& load, const Level& level) {
  const FiringKind kind = at(batch.loads, load.load).kind;
  double kg = 0;
  for (const PlacedPiece& placed : level.pieces) {
    for (const int k : kinds_of(placed)) kg += sized(batch, at(batch.pieces, k), kind).mass.kg();
  }
  return kg;
}

double ware_in(const Batch& batch, const KilnLoad& load) {
  double kg = 0;
  for (const Level& level : load.levels) kg += ware_on(batch, load, level);
  return kg;
}

double heaviest_piece(const Batch& batch) {
  double kg = 0;
  for (const PieceKind& kind : batch.pieces) {
    kg = std::max(kg, sized(batch, kind, batch.loads.front().kind).mass.kg());
  }
  return kg;
}

double all_ware(const Batch& batch) {
  double kg = 0;
  for (const PieceKind& kind : batch.pieces) {
    kg += kind.count * sized(batch, kind, batch.loads.front().kind).mass.kg();
  }
  return kg;
}

void check_within_limits(const Batch& batch, const LoadPlan& plan) {
  constexpr double kRounding = 1e-7;
  const double on_shelf = batch.kiln.most_on_shelf ? batch.kiln.most_on_shelf->kg() : 1e9;
  const double in_load = batch.kiln.most_in_load ? batch.kiln.most_in_load->kg() : 1e9;
  for (const KilnLoad& load : plan.firings) {
    CHECK(ware_in(batch, load) <= in_load + kRounding);
    for (const Level& level : load.levels)
      CHECK(ware_on(batch, load, level) <= on_shelf + kRounding);
  }
  CHECK(all_of(check::check_plan(batch, plan)) == "");
  CHECK(oracle::plan_troubles(batch, plan).empty());
}

bool says(const LoadPlan& plan, const std::string& words) {
  return std::any_of(plan.remarks.begin(), plan.remarks.end(), [&](const std::string& remark) {
    return remark.find(words) != std::string::npos;
  });
}

/// Full round shelves; cylinders of one kind, 1 kg each.
Batch one_kind(int count, double kg = 1) {
  Batch batch = studios::studio(1, 1, 1);
  batch.pieces[0] = studios::piece("jar", count, studios::round(100), 120);
  batch.pieces[0].mass = Mass::from_kg(kg);
  batch.kiln.posts[3].have = 60;
  return batch;
}

/// The levels of one column, from the bottom up.
std::vector<Level> column_of(const KilnLoad& load, int column) {
  std::vector<Level> levels;
  for (const Level& level : load.levels) {
    if (level.column == column) levels.push_back(level);
  }
  return levels;
}

/// kg·mm from the middle of the kiln's height, the levels set on one another in this order.
double away(const Batch& batch, const KilnLoad& load, const std::vector<Level>& levels,
            double underside) {
  double sum = 0;
  for (const Level& level : levels) {
    const double top = underside + at(batch.kiln.shelves, level.shelf).thickness.mm();
    double tallest = 0;
    for (const PlacedPiece& piece : level.pieces) tallest = std::max(tallest, piece.height.mm());
    sum += ware_on(batch, load, level) * std::abs(top + tallest / 2 - batch.kiln.height.mm() / 2);
    underside = top + level.clear_height.mm();
  }
  return sum;
}

}  // namespace

TEST_CASE("no shelf and no load is heavier than its limit, in any kind of kiln", "[even]") {
  const auto seed = GENERATE(range(60U, 68U));
  const auto pieces = GENERATE(14, 70);
  CAPTURE(seed, pieces);
  Batch batch = studios::studio(seed, pieces < 20 ? 3 : 6, pieces);
  const double whole = all_ware(batch);
  batch.kiln.most_on_shelf = Mass::from_kg(std::max(heaviest_piece(batch), whole / 14));
  if (seed % 2 == 0) {
    batch.kiln.most_in_load = Mass::from_kg(std::max(heaviest_piece(batch), whole / 2.5));
  }
  const LoadPlan planned = plan(batch, quick());
  check_within_limits(batch, planned);
  CHECK(planned.left_out.empty());
  CHECK(planned.fewest_firings_possible <= count_of(planned.firings));
  if (batch.kiln.most_in_load) CHECK(planned.fewest_firings_possible >= 3);
}

TEST_CASE("stacks of a bisque load keep to the limits", "[even]") {
  Batch batch = studios::studio(4, 1, 1);
  batch.loads[0] = {"bisque", FiringKind::bisque, {}};
  batch.pieces[0] = studios::piece("bowl", 60, studios::round(150), 60);
  batch.pieces[0].measured = Stage::dry;
  batch.pieces[0].glaze.reset();
  batch.pieces[0].mass = Mass::from_kg(0.5);
  batch.pieces[0].stacking.how = Stacking::How::nested;
  batch.pieces[0].stacking.most = 5;
  batch.pieces[0].stacking.step = Length::from_mm(15);
  batch.kiln.most_on_shelf = Mass::from_kg(4.3);
  const LoadPlan planned = plan(batch, quick());
  check_within_limits(batch, planned);
  CHECK(planned.left_out.empty());
  batch.kiln.most_on_shelf = Mass::from_kg(1.2);  // two at most, though five could be nested
  check_within_limits(batch, plan(batch, quick()));
}

TEST_CASE("a limit in a load costs just the firings that mass divides it into", "[even]") {
  Batch batch = one_kind(35);
  const LoadPlan free = plan(batch, quick());
  REQUIRE(count_of(free.firings) == 1);
  batch.kiln.most_in_load = Mass::from_kg(10);
  const LoadPlan planned = plan(batch, quick());
  check_within_limits(batch, planned);
  CHECK(count_of(planned.firings) == 4);
  CHECK(planned.fewest_firings_possible == 4);
  CHECK(says(planned,
             "The limit of 10 kg in a load costs 3 glaze firings more: without it 1 would do."));
  batch.kiln.most_in_load = Mass::from_kg(35);
  const LoadPlan just = plan(batch, quick());
  CHECK(count_of(just.firings) == 1);
  CHECK_FALSE(says(just, "The limit"));
}

TEST_CASE("shelves filled first are stowed into loads within the limit", "[even]") {
  Batch batch = one_kind(30);
  batch.kiln.most_on_shelf = Mass::from_kg(5);
  batch.kiln.most_in_load = Mass::from_kg(12);
  const Job job = job_of(batch, 0);
  Recipe recipe;
  recipe.price = {1};
  const std::vector<Tier> tiers = tiers_of(job, {30}, recipe, nullptr);
  REQUIRE(tiers.size() == 6);  // of 5 kg each: two in a load, though four are low enough
  CHECK_FALSE(stow(job, tiers, 2).has_value());
  const auto loads = stow(job, tiers, 3);
  REQUIRE(loads.has_value());
  for (const KilnLoad& load : *loads) CHECK(ware_in(batch, load) <= 12);
}

TEST_CASE("a limit on a shelf bounds the pieces on it, and the proof counts with it", "[even]") {
  Batch batch = one_kind(40);
  batch.kiln.most_on_shelf = Mass::from_kg(4);  // 4 levels of 120 mm are all the kiln has
  const LoadPlan planned = plan(batch, quick());
  check_within_limits(batch, planned);
  CHECK(planned.fewest_firings_possible == 3);
  CHECK(count_of(planned.firings) == 3);
  CHECK(says(planned, "The limit of 4 kg on a shelf costs"));
}

TEST_CASE("a piece heavier than the limit is left out with the reason, and why tells what helps",
          "[even]") {
  Batch batch = one_kind(3, 2.5);
  batch.pieces.push_back(studios::piece("cup", 2, studios::round(70), 80));
  batch.kiln.most_on_shelf = Mass::from_kg(2);
  const LoadPlan planned = plan(batch, quick());
  check_within_limits(batch, planned);
  REQUIRE(planned.left_out.size() == 1);
  CHECK(planned.left_out[0].count == 3);
  CHECK(planned.left_out[0].code == "heavy");
  const std::string reason =
      "It weighs 2.5 kg as it goes in, and the limit is 2 kg on a shelf: it would have to be 0.5 "
      "kg lighter.";
  CHECK(planned.left_out[0].reason == reason);
  CHECK(says(planned, "The limit of 2 kg on a shelf leaves 3 pieces out of the glaze firing."));
  const auto words = why(batch, planned, 0);
  REQUIRE(words.size() == 2);
  CHECK(words[0].find(reason) != std::string::npos);
  CHECK(words[1] == "What would help: A limit of 2.5 kg would let it in.");
}

TEST_CASE("what would still fit is counted within the limits", "[even]") {
  Batch batch = one_kind(4);
  const int free = room_left(batch, plan(batch, quick()))[0];
  REQUIRE(free > 3);
  batch.kiln.most_on_shelf = Mass::from_kg(6.5);
  CHECK(room_left(batch, plan(batch, quick()))[0] == 2);
  batch.kiln.most_in_load = Mass::from_kg(5);
  CHECK(room_left(batch, plan(batch, quick()))[0] == 1);
}

TEST_CASE("what is set already counts towards the load's limit and stays where it is", "[even]") {
  Batch batch = one_kind(30);
  const LoadPlan before = plan(batch, quick());
  Options options = quick();
  options.keep = {before.firings[0].levels.front()};
  const double kept = ware_on(batch, before.firings[0], options.keep[0]);
  batch.kiln.most_in_load = Mass::from_kg(kept + 3.5);
  const LoadPlan planned = plan(batch, options);
  check_within_limits(batch, planned);
  CHECK(ware_in(batch, planned.firings[0]) == Approx(kept + 3));
  CHECK(planned.firings[0].levels.front().shelf_top == options.keep[0].shelf_top);
}

TEST_CASE("the bulk is in the middle: no two levels changed over would bring it nearer", "[even]") {
  const auto seed = GENERATE(range(1U, 13U));
  CAPTURE(seed);
  const Batch batch = studios::studio(seed, 5, 90);
  const LoadPlan planned = plan(batch, quick());
  for (const KilnLoad& load : planned.firings) {
    for (int column = 0; column < count_of(batch.kiln.columns); ++column) {
      const std::vector<Level> levels = column_of(load, column);
      if (levels.size() < 3) continue;
      const double under = levels.front().shelf_top.mm() -
                           at(batch.kiln.shelves, levels.front().shelf).thickness.mm();
      const double is = away(batch, load, levels, under);
      for (int i = 0; i + 1 < count_of(levels); ++i) {
        for (int j = i + 1; j + 1 < count_of(levels); ++j) {
          std::vector<Level> other = levels;
          std::swap(at(other, i), at(other, j));
          CHECK(away(batch, load, other, under) >= is * (1 - 2e-3));
        }
      }
    }
  }
}

TEST_CASE("columns are listed from far to near, each from the bottom up", "[even]") {
  const bool swapped = GENERATE(false, true);
  Batch batch = studios::studio(4, 4, 80);  // half shelves at the back and in front
  if (swapped) std::swap(batch.kiln.columns[0], batch.kiln.columns[1]);
  const LoadPlan planned = plan(batch, quick());
  CHECK(all_of(check::check_plan(batch, planned)) == "");
  for (const KilnLoad& load : planned.firings) {
    for (std::size_t i = 1; i < load.levels.size(); ++i) {
      const Level& before = load.levels[i - 1];
      const Level& here = load.levels[i];
      const Box a = bounding_box(ground(batch, before));
      const Box b = bounding_box(ground(batch, here));
      CHECK(a.low.y + a.high.y >= b.low.y + b.high.y - 1e-9);
      if (before.column == here.column) CHECK(here.level == before.level + 1);
      if (before.column != here.column) CHECK(here.level == 1);
    }
  }
}

TEST_CASE("columns side by side keep the order of the studio file", "[even]") {
  Batch batch = studios::studio(2, 4, 60);
  at(batch.kiln.columns, 1).at.at.y = 20;  // no farther than a hand: the same reach
  const LoadPlan planned = plan(batch, quick());
  for (const KilnLoad& load : planned.firings) {
    CHECK(
        std::is_sorted(load.levels.begin(), load.levels.end(), [](const Level& a, const Level& b) {
          return std::pair(a.column, a.level) < std::pair(b.column, b.level);
        }));
  }
}

TEST_CASE("a load of a front loader does not stand on one side", "[even]") {
  const auto seed = GENERATE(2U, 6U, 10U, 14U, 18U, 22U);
  const auto pieces = GENERATE(25, 45, 70);
  CAPTURE(seed, pieces);
  const Batch batch = studios::studio(seed, 4, pieces);
  const LoadPlan planned = plan(batch, quick());
  CHECK(all_of(check::check_plan(batch, planned)) == "");
  CHECK(oracle::plan_troubles(batch, planned).empty());
  for (const KilnLoad& load : planned.firings) {
    const int left = count_of(column_of(load, 0));
    const int right = count_of(column_of(load, 1));
    CHECK(std::abs(left - right) <= 1);
    if (left + right > 1) CHECK_FALSE(says(planned, "stands on one side"));
  }
}

TEST_CASE("a load all in one column is spread over both, wishes and keep-outs and all", "[even]") {
  const auto seed = GENERATE(2U, 6U, 10U, 14U, 18U);
  const bool wishes = GENERATE(false, true);
  CAPTURE(seed, wishes);
  Batch batch = studios::studio(seed, 4, 75);
  if (wishes) batch.pieces[0].wishes.zone = Zone::middle;
  if (wishes) {
    KeepOut wall;  // stands where the lowest shelf of the right column would have its pieces
    wall.what = "bag wall";
    wall.area = {{}, {rectangle(Point{400, -260}, Point{450, 260})}};
    wall.to = Length::from_mm(120);
    wall.shelves_too = false;
    batch.kiln.keep_outs.push_back(wall);
  }
  Batch left_only = batch;
  left_only.kiln.columns.resize(1);
  LoadPlan planned = plan(left_only, quick());
  const Job job = job_of(batch, 0);
  bool any = false;
  for (KilnLoad& load : planned.firings) {
    const std::size_t shelves = load.levels.size();
    const double ware = ware_in(batch, load);
    if (shelves < 2) continue;
    any = true;
    const Evened evened = even_out(job, load);
    CHECK(evened.moved);
    CHECK(load.levels.size() == shelves);
    CHECK(ware_in(batch, load) == Approx(ware));
    const int more = count_of(column_of(load, 0)) - count_of(column_of(load, 1));
    CHECK(more < count_of(load.levels));
    if (!wishes) CHECK(std::abs(more) <= 1);
  }
  REQUIRE(any);
  for (KilnLoad& load : planned.firings) number_pieces(batch, load);
  planned.shelves.clear();
  planned.posts.clear();
  count_furniture(batch, planned);
  planned.name = spoken_name(planned);
  CHECK(all_of(check::check_plan(batch, planned)) == "");
  CHECK(oracle::plan_troubles(batch, planned).empty());
}

TEST_CASE("a load stays as it is where there are no posts for the other side", "[even]") {
  Batch batch = studios::studio(2, 1, 1);
  batch.pieces[0] = studios::piece("plate", 8, studios::round(250), 30);
  batch.kiln.first_shelf = Length::from_mm(GENERATE(20, 180));
  CAPTURE(batch.kiln.first_shelf.mm());
  Batch left_only = batch;
  left_only.kiln.columns.resize(1);
  KilnLoad load = plan(left_only, quick()).firings.at(0);
  const std::size_t levels = load.levels.size();
  REQUIRE(levels > 1);
  // Those in use are all that is owned: what a level gives away is too short for a high floor.
  for (PostKind& post : batch.kiln.posts) post.have = 0;
  const auto own = [&](const std::vector<PlacedPost>& posts) {
    for (const PlacedPost& post : posts) {
      for (const int part : post.parts) ++at(batch.kiln.posts, part).have;
    }
  };
  own(load.floor_posts);
  for (const Level& level : load.levels) own(level.posts);
  const bool high = batch.kiln.first_shelf.mm() > 100;
  CHECK(even_out(job_of(batch, 0), load).moved != high);
  CHECK((column_of(load, 0).size() == levels) == high);
}

TEST_CASE("a load that can't be evened says so, and what to do", "[even]") {
  Batch batch = studios::studio(2, 1, 1);
  batch.pieces[0] = studios::piece("vase", 1, studios::round(120), 300);
  const LoadPlan planned = plan(batch, quick());
  REQUIRE(count_of(planned.firings) == 1);
  REQUIRE(planned.firings[0].levels.size() == 1);
  const int empty = planned.firings[0].levels[0].column == 0 ? 1 : 0;
  CHECK(says(planned, "glaze load 1 stands on one side: there is nothing in " +
                          at(batch.kiln.columns, empty).name +
                          ". For even heat set a spare shelf on posts there"));
}

TEST_CASE("a kiln of one column has no sides, and few levels no middle", "[even]") {
  Batch batch = one_kind(5);
  const LoadPlan planned = plan(batch, quick());
  CHECK_FALSE(says(planned, "one side"));
  CHECK_FALSE(says(planned, "For even heat in"));
}

}  // namespace placer::loading
