#include "loading/pile.h"

#include <algorithm>
#include <cmath>

#include "loading/even.h"
#include "loading/index.h"
#include "loading/order.h"

namespace placer::loading {
namespace {

std::vector<Parts> parts_of(const std::vector<PlacedPost>& posts) {
  std::vector<Parts> parts;
  for (const PlacedPost& post : posts) parts.push_back(post.parts);
  return parts;
}

}  // namespace

std::vector<PlacedPost> standing_posts(const std::vector<Point>& where,
                                       const std::vector<Parts>& parts) {
  std::vector<PlacedPost> posts;
  for (std::size_t i = 0; i < where.size() && i < parts.size(); ++i) {
    posts.push_back({where[i], 0, parts[i]});
  }
  return posts;
}

void open_top(const Kiln& kiln, Level& level) {
  const Length tallest = level.clear_height - level.air;
  level.posts.clear();
  level.clear_height = lid(kiln) - level.shelf_top;
  level.air = level.clear_height - tallest;
}

Pile::Pile(const Job& job, const Recipe& recipe, int column, Shed& shed, Supply& supply,
           KilnLoad& load)
    : job_{&job}, recipe_{&recipe}, column_{column}, shed_{&shed}, supply_{&supply}, load_{&load} {}

Length Pile::thickness(const Site& site) const {
  return at(job_->batch->kiln.shelves, site.shelf).thickness;
}

bool Pile::anything_left() const {
  return std::any_of(supply_->left.begin(), supply_->left.end(), [](int n) { return n > 0; });
}

/// The best shelf that can lie on posts that end at this height.
const Site* Pile::site_at(Length underside) const {
  for (const Site& site : at(job_->columns, column_)) {
    if (site.trouble.empty() && shed_->shelves(site.shelf) > 0 && !site.posts.empty() &&
        shelf_is_free(job_->batch->kiln, site, underside + thickness(site))) {
      return &site;
    }
  }
  return nullptr;
}

void Pile::take(const Site& site, Length top) {
  site_ = &site;
  top_ = top;
  shed_->take_shelf(site.shelf);
}

bool Pile::begin_on_floor(const Site& site) {
  const bool can = site.trouble.empty() && shed_->shelves(site.shelf) > 0 &&
                   can_close_from(thickness(site)) && job_->batch->kiln.first_shelf <= Length{} &&
                   shelf_is_free(job_->batch->kiln, site, thickness(site));
  if (can) take(site, thickness(site));
  return can;
}

/// The lowest shelf on the shortest posts that leave the room asked under it.
bool Pile::begin() {
  for (const Site& site : at(job_->columns, column_)) {
    if (begin_on_floor(site)) return true;
  }
  for (const PostHeight& height : job_->heights) {
    if (height.height < job_->batch->kiln.first_shelf) continue;
    const Site* site = site_at(height.height);
    if (site == nullptr || !can_close_from(height.height + thickness(*site))) continue;
    const auto parts = shed_->take(height, count_of(site->posts));
    if (!parts) continue;
    floor_ = standing_posts(site->posts, *parts);
    take(*site, height.height + thickness(*site));
    return true;
  }
  return false;
}

void Pile::start() {
  if (!closed_ && !bridge_) closed_ = fresh_ ? !begin() : !go_on();
}

bool Pile::grow() { return !closed_ && add_level(levels_ + 1); }

/// Whether any piece left can stand on a shelf with this surface, by its height.
bool Pile::fits_above(Length top) const {
  for (int s = 0; s < count_of(job_->sorts); ++s) {
    const Length height = at(job_->sorts, s).height();
    if (at(supply_->left, s) > 0 && top + height <= lid(job_->batch->kiln)) {
      return true;
    }
  }
  return false;
}

Room Pile::room_for(int number, Length ceiling, const std::vector<Parts>& parts) const {
  Room room = room_on(*job_, *site_, top_, ceiling, standing_posts(site_->posts, parts));
  room.level = number;
  room.round = load_->round;
  room.most_kg = std::min(room.most_kg, mass_left());
  return room;
}

/// Ware that may yet go into the load, kg.
double Pile::mass_left() const {
  double left = most_in_load_kg(job_->batch->kiln);
  for (const Level& level : load_->levels) left -= mass_on(level);
  return left;
}

std::optional<Pile::Trial> Pile::with_posts(int number, const PostHeight& posts) {
  const Length above = top_ + posts.height;
  const Site* next = site_at(above);
  if (next == nullptr || next->posts != site_->posts) return std::nullopt;
  if (above + thickness(*next) > roof() || !can_close_from(above + thickness(*next)))
    return std::nullopt;
  const auto parts = shed_->take(posts, count_of(site_->posts));
  if (!parts) return std::nullopt;
  shed_->put_back(*parts);
  Trial trial;
  trial.ceiling = above;
  trial.posts = &posts;
  trial.above = next;
  const double worth = estimate(number, above);
  trial.score = worth + prospect((roof() - above - thickness(*next)).mm(), worth);
  return trial;
}

/// What a level up to there may be worth, by how many of each sort an ordinary shelf holds: the
/// sorts that need the most height first, until the shelf is full.
double Pile::estimate(int number, Length ceiling) const {
  Room room;
  room.level = number;
  room.round = load_->round;
  room.low = top_;
  room.clear = ceiling - top_;
  if (ceiling < lid(job_->batch->kiln)) room.clear = room.clear - job_->clearances.air;
  room.most_kg = std::min(most_on_shelf_kg(job_->batch->kiln), mass_left());
  std::vector<std::pair<double, double>> parts;  // worth a full shelf, shelves there are
  for (int s = 0; s < count_of(job_->sorts); ++s) {
    const Sort& sort = at(job_->sorts, s);
    if (at(supply_->left, s) == 0) continue;
    int most = 0;
    for (int n = 1; n <= std::min(count_of(sort.stacks), at(supply_->left, s)); ++n) {
      if (may_stand(*job_, sort, n, room)) most = n;
    }
    if (most == 0) continue;
    const double full = at(job_->holds, s) * most;
    parts.emplace_back(full * at(job_->worth, s) * at(recipe_->price, s),
                       at(supply_->left, s) / full);
  }
  std::sort(parts.begin(), parts.end(), std::greater<>{});
  double worth = 0;
  double free = 1;
  for (const auto& [full, shelves] : parts) {
    const double part = std::min(free, shelves);
    worth += part * full;
    free -= part;
  }
  return worth;
}

/// Whether the pieces keep their gap from posts of these parts.
bool Pile::clear_of(const Filled& filled, const std::vector<Parts>& parts) const {
  const std::vector<PlacedPost> posts = standing_posts(site_->posts, parts);
  return std::all_of(filled.set.begin(), filled.set.end(), [&](const Standing& one) {
    const Footprint there =
        placed(at(at(job_->sorts, one.sort).stacks, one.stack - 1).footprint, one.place);
    return std::all_of(posts.begin(), posts.end(), [&](const PlacedPost& post) {
      return gap(there, ground(*job_->batch, post)) >= job_->clearances.gap.mm() - 1e-9;
    });
  });
}

/// Posts no longer than what stands there needs, when such are owned. Where a wish asks for a
/// height, long posts are what lifts the next shelf to it.
void Pile::lower(Trial& trial) {
  if (trial.posts == nullptr || trial.filled.set.empty()) return;
  for (const Sort& sort : job_->sorts) {
    if (sort.wishes.zone || sort.wishes.level) return;
  }
  Length tallest;
  for (const Standing& one : trial.filled.set) {
    tallest = std::max(tallest, at(at(job_->sorts, one.sort).stacks, one.stack - 1).height);
  }
  for (const PostHeight& posts : job_->heights) {
    if (posts.height < tallest + job_->clearances.air) continue;
    if (posts.height >= trial.posts->height) return;
    const Site* next = site_at(top_ + posts.height);
    if (next == nullptr || next->posts != site_->posts) continue;
    const auto parts = shed_->take(posts, count_of(site_->posts));
    if (!parts) continue;
    shed_->put_back(*parts);
    if (!clear_of(trial.filled, *parts)) continue;
    trial.posts = &posts;
    trial.ceiling = top_ + posts.height;
    trial.above = next;
    return;
  }
}

/// Fills the level for real.
void Pile::try_out(int number, Trial& trial) {
  std::optional<std::vector<Parts>> parts;
  if (trial.posts != nullptr) parts = shed_->take(*trial.posts, count_of(site_->posts));
  trial.filled =
      fill(*job_, *supply_, room_for(number, trial.ceiling, parts.value_or(std::vector<Parts>{})),
           Care{0, 0, recipe_->care.memory});
  if (parts) shed_->put_back(*parts);
  if (!roof_) lower(trial);
  trial.score = trial.filled.worth;
  if (trial.above != nullptr) {
    const Length rest = roof() - trial.ceiling - thickness(*trial.above);
    trial.score += prospect(rest.mm(), trial.filled.worth);
  }
}

/// The least clear height of every stack that is left and may stand here.
std::vector<Length> Pile::heights_worth_trying() const {
  std::vector<Length> heights;
  for (int s = 0; s < count_of(job_->sorts); ++s) {
    if (at(supply_->left, s) == 0) continue;
    const auto& stacks = at(job_->sorts, s).stacks;
    const int most = std::min(count_of(stacks), at(supply_->left, s));
    for (int n = 1; n <= most; ++n) {
      const Length height = at(stacks, n - 1).height;
      if (top_ + height <= roof()) heights.push_back(height + job_->clearances.air);
    }
  }
  std::sort(heights.begin(), heights.end(), std::greater<>{});
  heights.erase(std::unique(heights.begin(), heights.end()), heights.end());
  return heights;
}

/// Works out what the column may still be worth over a shelf with this much room to the lid, for
/// every whole mm: levels of nothing but one sort, one on another, each worth its own height.
void Pile::look_ahead(double room) {
  const double shelf = thickness(*site_).mm();
  left_ = 0;
  std::vector<std::pair<int, double>> levels;  // clear height, worth
  for (int s = 0; s < count_of(job_->sorts); ++s) {
    if (at(supply_->left, s) == 0) continue;
    const double price = at(recipe_->price, s);
    left_ += at(supply_->left, s) * at(job_->worth, s) * price;
    const double clear = at(job_->level_height, s) - shelf;
    levels.emplace_back(static_cast<int>(std::ceil(clear)), at(job_->level_height, s) * price);
  }
  const int most = std::max(0, static_cast<int>(room));
  ahead_.assign(static_cast<std::size_t>(most) + 1, 0);
  const int step = static_cast<int>(std::ceil(shelf));
  for (int r = 0; r <= most; ++r) {
    for (const auto& [clear, worth] : levels) {
      if (clear > r) continue;
      at(ahead_, r) = std::max(at(ahead_, r), worth + at(ahead_, std::max(0, r - clear - step)));
    }
  }
}

double Pile::prospect(double room, double taken) const {
  if (room <= 0) return 0;
  const int r = std::min(static_cast<int>(room), count_of(ahead_) - 1);
  return std::min(std::max(0.0, left_ - taken), at(ahead_, r));
}

/// Every height that some piece wants, tallest first, and the way up to the lid at the end.
std::vector<Pile::Trial> Pile::trials(int number) {
  std::vector<Trial> trials;
  const std::vector<Length> heights = heights_worth_trying();
  if (heights.empty() && !roof_) return trials;
  look_ahead((roof() - top_).mm());
  const PostHeight* last = nullptr;
  for (const Length height : heights) {
    for (const PostHeight& posts : job_->heights) {
      if (posts.height < height) continue;
      if (&posts == last) break;
      auto trial = with_posts(number, posts);
      if (!trial) continue;
      last = &posts;
      trials.push_back(std::move(*trial));
      break;
    }
  }
  if (roof_) {
    add_closing(number, trials);
    return trials;
  }
  Trial up;
  up.ceiling = lid(job_->batch->kiln);
  up.score = estimate(number, up.ceiling);
  trials.push_back(std::move(up));
  return trials;
}

/// The likeliest few are filled for real, and the best of those is taken.
const Pile::Trial* Pile::best_of(std::vector<Trial>& trials, int number) {
  if (!recipe_->tallest_first) {
    std::stable_sort(trials.begin(), trials.end(),
                     [](const Trial& a, const Trial& b) { return a.score > b.score; });
  }
  const Trial* best = nullptr;
  int filled = 0;
  for (Trial& trial : trials) {
    try_out(number, trial);
    if (trial.filled.set.empty()) continue;
    if (best == nullptr || (!recipe_->tallest_first && trial.score > best->score * (1 + 1e-9))) {
      best = &trial;
    }
    if (++filled >= (recipe_->tallest_first ? 1 : recipe_->looks)) break;
  }
  return best;
}

bool Pile::add_level(int number) {
  std::vector<Trial> all = trials(number);
  const Trial* best = best_of(all, number);
  if (best == nullptr && needs_shelf()) {  // one with nothing on it carries the bridge
    const auto closing = std::find_if(all.begin(), all.end(),
                                      [](const Trial& trial) { return trial.above == nullptr; });
    if (closing != all.end()) best = &*closing;
  }
  if (best == nullptr) {
    close();
    return false;
  }
  return set(number, *best);
}

/// Puts the level there. False when the column ends with it.
bool Pile::set(int number, Trial trial) {
  std::vector<PlacedPost> posts;
  if (trial.posts != nullptr) {
    posts = standing_posts(site_->posts, *shed_->take(*trial.posts, count_of(site_->posts)));
  }
  if (recipe_->care.steps > 0) {
    Filled again =
        fill(*job_, *supply_, room_for(number, trial.ceiling, parts_of(posts)), recipe_->care);
    if (again.worth > trial.filled.worth) trial.filled = std::move(again);
  }
  Level level;
  level.column = column_;
  level.level = number;
  level.shelf = site_->shelf;
  level.shelf_at = at(job_->batch->kiln.columns, column_).at;
  level.shelf_top = top_;
  level.clear_height = trial.ceiling - top_;
  level.posts = std::move(posts);
  add_pieces(*job_, trial.filled, level);
  take_off(*job_, trial.filled, *supply_);
  if (fresh_ && !bridge_) {
    load_->floor_posts.insert(load_->floor_posts.end(), floor_.begin(), floor_.end());
  }
  load_->levels.push_back(std::move(level));
  fresh_ = false;
  ++levels_;
  if (trial.above == nullptr) {
    reached_ = trial.posts != nullptr;
    closed_ = true;
    return false;
  }
  take(*trial.above, trial.ceiling + thickness(*trial.above));
  return true;
}

/// Nothing stands on the shelf just laid: it is not needed, nor are the posts under it.
void Pile::close() {
  closed_ = true;
  shed_->put_back_shelf(site_->shelf);
  if (fresh_) {
    for (const PlacedPost& post : floor_) shed_->put_back({post.parts});
    drop_feet();
    return;
  }
  Level& level = load_->levels.at(last_level());
  for (const PlacedPost& post : level.posts) shed_->put_back({post.parts});
  open_top(job_->batch->kiln, level);
}

}  // namespace placer::loading
