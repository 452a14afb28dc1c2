#include "loading/squeeze.h"

#include <algorithm>
#include <cmath>

#include "loading/index.h"

namespace placer::loading {
namespace {

constexpr double kSlip = 1e-6;   // mm: what is nearer than this to fitting is not proven
constexpr double kFinest = 0.5;  // mm: a box so small that still may do is taken to do

/// Where a disc's middle may be.
struct Patch {
  Point low, high;
};

double wide(const Patch& patch) {
  return std::max(patch.high.x - patch.low.x, patch.high.y - patch.low.y);
}

class Search {
 public:
  Search(const Floor& floor, std::vector<double> radii, int& looks)
      : floor_{&floor}, radii_{std::move(radii)}, looks_{looks} {}

  bool none() {
    const Box box = bounding_box(Footprint{{}, {floor_->edge}});
    std::vector<Patch> patches(radii_.size(), Patch{box.low, box.high});
    if (floor_->round && floor_->normals.empty()) {
      // A round floor can be turned until the first disc stands to the right of its middle.
      turned_ = true;
      patches[0] = {floor_->round->centre, {box.high.x, floor_->round->centre.y}};
    }
    return closed(patches);
  }

 private:
  /// Whether some middle in the patch leaves the whole disc on the floor.
  bool on_floor(const Patch& patch, double r) const {
    if (floor_->round) {
      const Point c = floor_->round->centre;
      const double x = std::clamp(c.x, patch.low.x, patch.high.x) - c.x;
      const double y = std::clamp(c.y, patch.low.y, patch.high.y) - c.y;
      const double most = floor_->round->radius - r + kSlip;
      if (most < 0 || x * x + y * y > most * most) return false;
    }
    for (std::size_t i = 0; i < floor_->normals.size(); ++i) {
      const Point n = floor_->normals[i];
      const double least = n.x * (n.x > 0 ? patch.low.x : patch.high.x) +
                           n.y * (n.y > 0 ? patch.low.y : patch.high.y);
      if (least > floor_->reaches[i] - r + kSlip) return false;
    }
    return true;
  }

  static bool far_enough(const Patch& a, const Patch& b, double apart) {
    const double x = std::max(a.high.x - b.low.x, b.high.x - a.low.x);
    const double y = std::max(a.high.y - b.low.y, b.high.y - a.low.y);
    return x * x + y * y >= apart * apart;
  }

  /// Whether the patch of disc `i` may do beside the others'. Discs alike stand from left to right.
  bool may(const std::vector<Patch>& patches, std::size_t i) const {
    if (!on_floor(patches[i], radii_[i])) return false;
    for (std::size_t k = 0; k < patches.size(); ++k) {
      if (k == i) continue;
      if (!far_enough(patches[i], patches[k], radii_[i] + radii_[k] - kSlip)) return false;
      if (radii_[k] != radii_[i] || (turned_ && (k == 0 || i == 0))) continue;
      if (k < i && patches[k].low.x > patches[i].high.x) return false;
      if (k > i && patches[k].high.x < patches[i].low.x) return false;
    }
    return true;
  }

  /// True when no places in the patches do.
  bool closed(std::vector<Patch>& patches) {
    if (--looks_ < 0) return false;
    std::size_t i = 0;
    for (std::size_t k = 1; k < patches.size(); ++k) {
      if (wide(patches[k]) > wide(patches[i])) i = k;
    }
    if (wide(patches[i]) < kFinest) return false;
    const Patch whole = patches[i];
    const bool across = whole.high.x - whole.low.x >= whole.high.y - whole.low.y;
    const Point middle = 0.5 * (whole.low + whole.high);
    for (int half = 0; half < 2; ++half) {
      Patch& part = patches[i];
      part = whole;
      if (across) {
        (half == 0 ? part.high.x : part.low.x) = middle.x;
      } else {
        (half == 0 ? part.high.y : part.low.y) = middle.y;
      }
      if (may(patches, i) && !closed(patches)) return false;
    }
    patches[i] = whole;
    return true;
  }

  const Floor* floor_;
  std::vector<double> radii_;
  int& looks_;
  bool turned_ = false;
};

}  // namespace

bool cannot_lie(const Floor& floor, std::vector<double> radii, int& looks) {
  std::sort(radii.begin(), radii.end(), std::greater<>{});
  return Search{floor, std::move(radii), looks}.none();
}

}  // namespace placer::loading
