#include "packing/discs.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace placer::packing {

namespace {

constexpr double kInf = std::numeric_limits<double>::infinity();
constexpr int kFew = 60;  // so few that looking at every one is quickest

std::size_t at(int i) { return static_cast<std::size_t>(i); }

/// What a shortage of distance weighs and how it pushes a disc that lacks it along n.
double press(double over, Point n, double* push) {
  if (push != nullptr) {
    push[0] += 2 * over * n.x;
    push[1] += 2 * over * n.y;
  }
  return over * over;
}

}  // namespace

Discs::Discs(const Kind& kind, const Scene& scene, double slack) : scene_{&scene} {
  const double r = kind.solid.balls[0].r;
  radius_ = r + slack;
  pitch_ = 2 * (r + kind.halo) + scene.gap + slack;
  round_room_ = scene.radius - radius_;
  for (const Obstacle& obstacle : scene.obstacles) {
    clear_.push_back(r + obstacle.clearance + (obstacle.halo ? kind.halo : 0) + slack);
  }
  skin_ = 0.25 * r;
  cell_ = pitch_ + skin_;
  constexpr int kMost = 400;
  columns_ = std::clamp(static_cast<int>((scene.high.x - scene.low.x) / cell_), 1, kMost);
  rows_ = std::clamp(static_cast<int>((scene.high.y - scene.low.y) / cell_), 1, kMost);
}

void Discs::set(const std::vector<Point>& middles) {
  at_ = middles;
  cells_known_ = false;
}

void Discs::set_back(const std::vector<Point>& middles, const std::vector<double>& strain) {
  at_ = middles;
  strain_ = strain;
  cells_known_ = false;
}

void Discs::move(int i, Point p) {
  at_[at(i)] = p;
  cells_known_ = false;
}

int Discs::column(double x) const {
  const double part = (x - scene_->low.x) / (scene_->high.x - scene_->low.x);
  return static_cast<int>(std::clamp(part * columns_, 0.0, columns_ - 1.0));
}

int Discs::row(double y) const {
  const double part = (y - scene_->low.y) / (scene_->high.y - scene_->low.y);
  return static_cast<int>(std::clamp(part * rows_, 0.0, rows_ - 1.0));
}

void Discs::fill_cells() {
  if (cells_known_) return;
  cells_known_ = true;
  const int n = size();
  if (n <= kFew) return;
  head_.assign(at(columns_ * rows_), -1);
  next_.resize(at(n));
  for (int i = 0; i < n; ++i) {
    int& head = head_[at(row(at_[at(i)].y) * columns_ + column(at_[at(i)].x))];
    next_[at(i)] = head;
    head = i;
  }
  work_ += 6 * static_cast<std::uint64_t>(n);
}

/// Looks at every disc that may be within a pitch and the skin of p.
template <class Look>
void Discs::near(Point p, Look look) const {
  const int n = size();
  if (n <= kFew) {
    for (int i = 0; i < n; ++i) look(i);
    return;
  }
  const int x = column(p.x);
  const int y = row(p.y);
  for (int r = std::max(y - 1, 0); r <= std::min(y + 1, rows_ - 1); ++r) {
    for (int c = std::max(x - 1, 0); c <= std::min(x + 1, columns_ - 1); ++c) {
      for (int i = head_[at(r * columns_ + c)]; i >= 0; i = next_[at(i)]) look(i);
    }
  }
}

bool Discs::clear_of_edges(Point p) const {
  if (!clear_.empty()) return false;
  for (const Wall& wall : scene_->walls) {
    if (dot(wall.n, p) + radius_ > wall.b) return false;
  }
  if (!scene_->round) return true;
  const Point v = p - scene_->centre;
  return round_room_ >= 0 && dot(v, v) <= round_room_ * round_room_;
}

/// Walls, rim and what stands in the way; `push` (two numbers) may be null.
double Discs::edge_press(Point p, double* push) const {
  double e = 0;
  for (const Wall& wall : scene_->walls) {
    const double over = dot(wall.n, p) + radius_ - wall.b;
    if (over > 0) e += press(over, wall.n, push);
  }
  if (scene_->round) {
    const Point v = p - scene_->centre;
    const double d2 = dot(v, v);
    if (round_room_ < 0 || d2 > round_room_ * round_room_) {
      const double d = std::sqrt(d2);
      if (d > 0) {
        e += press(d - round_room_, {v.x / d, v.y / d}, push);
      } else {
        e += round_room_ * round_room_;
      }
    }
  }
  for (std::size_t o = 0; o < clear_.size(); ++o) {
    const Obstacle& obstacle = scene_->obstacles[o];
    const double far = clear_[o] + obstacle.reach;
    const Point v = obstacle.centre - p;
    if (dot(v, v) >= far * far) continue;
    const Solid& solid = obstacle.solid;
    for (const Ball& ball : solid.balls) {
      const Touch t = touch(Ball{p, 0}, ball);
      if (t.d < clear_[o]) e += press(clear_[o] - t.d, t.n, push);
    }
    for (int k = 0; k < solid.polygons(); ++k) {
      const std::size_t from = at(solid.starts[at(k)]);
      const int corners = solid.starts[at(k) + 1] - solid.starts[at(k)];
      const Touch t = touch(&solid.corners[from], &solid.normals[from], corners, Ball{p, 0});
      if (t.d < clear_[o]) e += press(clear_[o] - t.d, {-t.n.x, -t.n.y}, push);
    }
  }
  return e;
}

bool Discs::list_is_stale() const {
  const double limit = 0.25 * skin_ * skin_;
  for (std::size_t i = 0; i + 1 < v_.size(); i += 2) {
    const double dx = v_[i] - listed_at_[i];
    const double dy = v_[i + 1] - listed_at_[i + 1];
    if (dx * dx + dy * dy > limit) return true;
  }
  return false;
}

void Discs::list_near() {
  for (std::size_t s = 0; s < active_.size(); ++s) at_[at(active_[s])] = {v_[2 * s], v_[2 * s + 1]};
  cells_known_ = false;
  fill_cells();
  near_.clear();
  const double far2 = (pitch_ + skin_) * (pitch_ + skin_);
  for (std::size_t s = 0; s < active_.size(); ++s) {
    const int a = active_[s];
    const Point p = at_[at(a)];
    near(p, [&](int b) {
      const Point v = at_[at(b)] - p;
      if (b == a || dot(v, v) >= far2) return;
      const int other = slot_[at(b)];
      if (other < 0) {
        near_.push_back({static_cast<int>(s), -1 - b});
      } else if (b > a) {
        near_.push_back({static_cast<int>(s), other});
      }
    });
  }
  listed_at_ = v_;
  work_ += (size() <= kFew ? at(size()) : 60) * active_.size();
}

double Discs::evaluate(double* slope) {
  if (list_is_stale()) list_near();
  std::fill(slope, slope + v_.size(), 0.0);
  const double* v = v_.data();
  const double pitch2 = pitch_ * pitch_;
  double e = 0;
  for (std::size_t s = 0; s < active_.size(); ++s) {
    e += edge_energy({v[2 * s], v[2 * s + 1]}, slope + 2 * s);
  }
  for (const Near& pair : near_) {
    const double* a = v + 2 * pair.a;
    const Point b = pair.b < 0 ? at_[at(-1 - pair.b)] : Point{v[2 * pair.b], v[2 * pair.b + 1]};
    const double dx = b.x - a[0];
    const double dy = b.y - a[1];
    const double d2 = dx * dx + dy * dy;
    if (d2 >= pitch2) continue;
    const double d = std::sqrt(d2);
    const double over = pitch_ - d;
    e += over * over;
    const double f = d > 0 ? 2 * over / d : 2 * over;
    const double px = f * (d > 0 ? dx : 1);
    const double py = f * dy;
    slope[2 * pair.a] += px;
    slope[2 * pair.a + 1] += py;
    if (pair.b < 0) continue;
    slope[2 * pair.b] -= px;
    slope[2 * pair.b + 1] -= py;
  }
  work_ += 4 * near_.size() + (6 + 15 * clear_.size()) * active_.size();
  return e;
}

double Discs::settle_active(int iterations, double enough, double stuck) {
  slot_.assign(at_.size(), -1);
  v_.resize(2 * active_.size());
  for (std::size_t s = 0; s < active_.size(); ++s) {
    slot_[at(active_[s])] = static_cast<int>(s);
    v_[2 * s] = at_[at(active_[s])].x;
    v_[2 * s + 1] = at_[at(active_[s])].y;
  }
  list_near();
  const double e = descent_.run(*this, v_, iterations, enough, 0.25 * pitch_, stuck);
  for (std::size_t s = 0; s < active_.size(); ++s) at_[at(active_[s])] = {v_[2 * s], v_[2 * s + 1]};
  cells_known_ = false;
  return e;
}

double Discs::relax(int iterations, double enough) {
  active_.resize(at_.size());
  for (int i = 0; i < size(); ++i) active_[at(i)] = i;
  settle_active(iterations, enough);
  return energy();
}

double Discs::relax_long(double enough) {
  active_.resize(at_.size());
  for (int i = 0; i < size(); ++i) active_[at(i)] = i;
  settle_active(3000, enough, 0.995);
  return energy();
}

double Discs::relax_near(Point a, Point b, double far, int iterations, double enough) {
  active_.clear();
  for (int i = 0; i < size(); ++i) {
    const Point u = at_[at(i)] - a;
    const Point w = at_[at(i)] - b;
    if (std::min(dot(u, u), dot(w, w)) < far * far) active_.push_back(i);
  }
  settle_active(iterations, enough);
  return energy();
}

double Discs::energy() {
  fill_cells();
  strain_.assign(at_.size(), 0);
  const double pitch2 = pitch_ * pitch_;
  double e = 0;
  for (int i = 0; i < size(); ++i) {
    const Point p = at_[at(i)];
    const double here = edge_energy(p, nullptr);
    strain_[at(i)] += here;
    e += here;
    near(p, [&](int j) {
      const Point v = at_[at(j)] - p;
      const double d2 = dot(v, v);
      if (j >= i || d2 >= pitch2) return;
      const double over = pitch_ - std::sqrt(d2);
      strain_[at(i)] += over * over;
      strain_[at(j)] += over * over;
      e += over * over;
    });
  }
  work_ += static_cast<std::uint64_t>(size()) *
           (size() <= kFew ? static_cast<std::uint64_t>(size()) : 50);
  return e;
}

double Discs::strain_at(Point p, int except, double cap) {
  double e = edge_energy(p, nullptr);
  work_ += size() <= kFew ? static_cast<std::uint64_t>(size()) + 15 : 50;
  if (e >= cap) return e;
  const double pitch2 = pitch_ * pitch_;
  near(p, [&](int j) {
    const Point v = at_[at(j)] - p;
    const double d2 = dot(v, v);
    if (d2 >= pitch2 || j == except) return;
    const double over = pitch_ - std::sqrt(d2);
    e += over * over;
  });
  return e;
}

/// A few careful steps downhill for one alone.
double Discs::slide(Point& p, int except, int steps) {
  Point trial = p;
  double best = kInf;
  for (int i = 0; i < steps; ++i) {
    double push[2] = {0, 0};
    double e = edge_energy(trial, push);
    near(trial, [&](int j) {
      const Point v = at_[at(j)] - trial;
      const double d2 = dot(v, v);
      if (d2 >= pitch_ * pitch_ || j == except || d2 == 0) return;
      const double d = std::sqrt(d2);
      e += press(pitch_ - d, {v.x / d, v.y / d}, push);
    });
    if (e < best) {
      best = e;
      p = trial;
    }
    if (e == 0) break;
    trial.x -= 0.25 * push[0];
    trial.y -= 0.25 * push[1];
  }
  work_ += at(steps) * (size() <= kFew ? static_cast<std::uint64_t>(2 * size()) : 60);
  return best;
}

Point Discs::emptiest(int except, int samples, Random& random) {
  fill_cells();
  constexpr int kKept = 3;
  Point kept[kKept];
  double strains[kKept];
  std::fill(strains, strains + kKept, kInf);
  for (int i = 0; i < samples; ++i) {
    const double x = random.uniform(scene_->low.x, scene_->high.x);
    const double y = random.uniform(scene_->low.y, scene_->high.y);
    const double e = strain_at({x, y}, except, strains[kKept - 1]);
    if (e >= strains[kKept - 1]) continue;
    int k = kKept - 1;
    for (; k > 0 && e < strains[k - 1]; --k) {
      kept[k] = kept[k - 1];
      strains[k] = strains[k - 1];
    }
    kept[k] = {x, y};
    strains[k] = e;
  }
  double least = kInf;
  Point best = kept[0];
  for (int k = 0; k < kKept && strains[k] < kInf; ++k) {
    Point p = kept[k];
    const double e = slide(p, except, 8);
    if (e < least) {
      least = e;
      best = p;
    }
  }
  return best;
}

}  // namespace placer::packing
