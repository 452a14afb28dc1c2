#include "report/tight_gaps.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "report/onto_paper.h"
#include "report/words.h"

namespace placer::report {
namespace {

constexpr double kTight = 1;  // mm over the rule that still count as tight
constexpr std::size_t kMostBars = 16;
constexpr double kNeighbour = 30;  // mm: pieces farther apart are no neighbours

double squared(Point p) { return p.x * p.x + p.y * p.y; }

std::vector<Point> edge_points(const Footprint& shape) {
  std::vector<Point> points;
  for (const auto& run : edge_runs(shape, 3)) points.insert(points.end(), run.begin(), run.end());
  return points;
}

std::pair<Point, Point> nearest_points(const std::vector<Point>& a, const std::vector<Point>& b) {
  std::pair<Point, Point> best;
  double least = std::numeric_limits<double>::infinity();
  for (const Point p : a) {
    for (const Point q : b) {
      if (squared(p - q) < least) {
        least = squared(p - q);
        best = {p, q};
      }
    }
  }
  return best;
}

bool far_apart(const Box& a, const Box& b) {
  return a.low.x > b.high.x + kNeighbour || b.low.x > a.high.x + kNeighbour ||
         a.low.y > b.high.y + kNeighbour || b.low.y > a.high.y + kNeighbour;
}

struct Standing {
  const PieceKind* kind = nullptr;
  Footprint shape;
  Box box;
  std::vector<Point> edge;
};

std::vector<Standing> standing_on(const Batch& batch, const KilnLoad& load, const Level& level) {
  std::vector<Standing> all;
  for (const PlacedPiece& piece : level.pieces) {
    const Footprint shape = ground(batch, load, piece);
    all.push_back({&batch.pieces.at(static_cast<std::size_t>(piece.piece)), shape,
                   bounding_box(shape), edge_points(shape)});
  }
  return all;
}

}  // namespace

TightGaps tight_gaps(const Batch& batch, const KilnLoad& load, const Level& level) {
  const FiringKind kind = batch.loads.at(static_cast<std::size_t>(load.load)).kind;
  TightGaps tight;
  const auto runs = [&](const PieceKind* piece) {
    return piece->glaze && batch.glazes.at(static_cast<std::size_t>(*piece->glaze)).runny;
  };
  const auto all = standing_on(batch, load, level);
  for (std::size_t i = 0; i < all.size(); ++i) {
    for (std::size_t j = i + 1; j < all.size(); ++j) {
      if (far_apart(all[i].box, all[j].box)) continue;
      const double between = gap(all[i].shape, all[j].shape);
      const double allowed = gap_between(batch, *all[i].kind, *all[j].kind, kind).mm();
      if (allowed <= 0 || between > allowed + kTight) continue;
      const bool runny = runs(all[i].kind) || runs(all[j].kind);
      auto& least = runny ? tight.least_runny : tight.least;
      const Length here = Length::from_mm(std::max(between, 0.0));
      least = least ? std::min(*least, here) : here;
      const auto [from, to] = nearest_points(all[i].edge, all[j].edge);
      tight.bars.push_back({from, to,
                            std::min(roomiest(all[i].shape).radius, roomiest(all[j].shape).radius),
                            runny});
    }
  }
  tight.everywhere = tight.bars.size() > kMostBars;
  return tight;
}

std::string gap_words(Length gap, bool inches) {
  const std::string words = length_text(gap, inches);
  if (gap.mm() >= 5 && gap.mm() < 10) return words + ", a pencil's width";
  if (gap.mm() >= 10 && gap.mm() < 14.5) return words + ", a little finger's width";
  if (gap.mm() >= 14.5 && gap.mm() < 21) return words + ", a finger's width";
  if (gap.mm() >= 28 && gap.mm() < 42) return words + ", 2 fingers";
  return words;
}

std::vector<TightLine> tight_words(const TightGaps& tight, bool inches) {
  std::vector<TightLine> lines;
  const std::string lead = tight.everywhere ? "many gaps are tight: " : "tight: ";
  if (tight.least) lines.push_back({lead + gap_words(*tight.least, inches) + ", no less", false});
  if (tight.least_runny) {
    lines.push_back({(tight.everywhere && !tight.least ? lead : "") + "beside runny glaze: " +
                         gap_words(*tight.least_runny, inches) + ", no less",
                     true});
  }
  return lines;
}

}  // namespace placer::report
