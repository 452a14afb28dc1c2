#include "report/hatching.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "report/hatch.h"

namespace placer::report {
namespace {

using Span = std::pair<double, double>;
using Segment = std::pair<Point, Point>;

double dot(Point a, Point b) { return a.x * b.x + a.y * b.y; }
double cross(Point a, Point b) { return a.x * b.y - a.y * b.x; }

std::optional<Span> inside(const Disc& disc, Point from, Point along) {
  const Point to_from = from - disc.centre;
  const double a = dot(along, along);
  const double b = dot(to_from, along);
  const double c = dot(to_from, to_from) - disc.radius * disc.radius;
  const double under_root = b * b - a * c;
  if (a <= 0 || under_root <= 0) return std::nullopt;
  const double root = std::sqrt(under_root);
  return Span{(-b - root) / a, (-b + root) / a};
}

// Convex, corners in either direction.
std::optional<Span> inside(const Outline& convex, Point from, Point along) {
  const double sign = signed_area(convex) >= 0 ? 1 : -1;
  double enters = -1e9;
  double leaves = 1e9;
  for (std::size_t i = 0; i < convex.corners.size(); ++i) {
    const Point corner = convex.corners[i];
    const Point edge = convex.corners[(i + 1) % convex.corners.size()] - corner;
    const double out = sign * cross(edge, from - corner);  // >= 0 on the inner side
    const double grows = sign * cross(edge, along);
    if (std::abs(grows) < 1e-12) {
      if (out < 0) return std::nullopt;
    } else if (grows > 0) {
      enters = std::max(enters, -out / grows);
    } else {
      leaves = std::min(leaves, -out / grows);
    }
  }
  if (leaves <= enters) return std::nullopt;
  return Span{enters, leaves};
}

void add_clipped(std::vector<Span>& spans, const std::optional<Span>& span) {
  if (!span) return;
  const Span clipped{std::max(0.0, span->first), std::min(1.0, span->second)};
  if (clipped.second > clipped.first) spans.push_back(clipped);
}

std::vector<Span> merged(std::vector<Span> spans) {
  std::sort(spans.begin(), spans.end());
  std::vector<Span> out;
  for (const Span& span : spans) {
    if (!out.empty() && span.first <= out.back().second) {
      out.back().second = std::max(out.back().second, span.second);
    } else {
      out.push_back(span);
    }
  }
  return out;
}

std::vector<Span> without(const std::vector<Span>& spans, const Span& gone) {
  std::vector<Span> out;
  for (const Span& span : spans) {
    if (gone.second <= span.first || gone.first >= span.second) {
      out.push_back(span);
      continue;
    }
    if (span.first < gone.first) out.emplace_back(span.first, gone.first);
    if (gone.second < span.second) out.emplace_back(gone.second, span.second);
  }
  return out;
}

// Level lines turned by `degrees`, `spacing` apart, over all of the box; a dash of `on` mm every
// `period` mm, shifted by half a period on every other line (period 0: one stroke).
struct Lines {
  double degrees = 0;
  double spacing = 2;
  double shift = 0;
  double on = 0;
  double period = 0;
};

void add_lines(std::vector<Segment>& segments, const Box& box, const Lines& lines) {
  const double turn = lines.degrees * 3.14159265358979323846 / 180;
  const Point along{std::cos(turn), std::sin(turn)};
  const Point across{-along.y, along.x};
  const Point middle = 0.5 * (box.low + box.high);
  const Point half = 0.5 * (box.high - box.low);
  const double reach = std::hypot(half.x, half.y) + lines.spacing;
  const double first = std::ceil((dot(middle, across) - reach - lines.shift) / lines.spacing);
  for (int i = 0; lines.spacing * i <= 2 * reach; ++i) {
    const double at = (first + i) * lines.spacing + lines.shift;
    const double start = dot(middle, along) - reach;
    const Point foot = at * across;
    if (lines.period <= 0) {
      segments.emplace_back(foot + start * along, foot + (start + 2 * reach) * along);
      continue;
    }
    const bool odd = std::fmod(std::abs(first + i), 2) > 0.5;
    const double from =
        std::floor(start / lines.period) * lines.period + (odd ? lines.period / 2 : 0);
    for (double u = from; u < start + 2 * reach; u += lines.period) {
      segments.emplace_back(foot + u * along, foot + (u + lines.on) * along);
    }
  }
}

void add_zigzag(std::vector<Segment>& segments, const Box& box) {
  constexpr double kStep = 1.5;
  constexpr double kRise = 1.2;
  constexpr double kRows = 2.4;
  const double x0 = std::floor(box.low.x / (2 * kStep)) * 2 * kStep;
  for (double y = std::floor(box.low.y / kRows) * kRows; y < box.high.y + kRows; y += kRows) {
    for (double x = x0; x < box.high.x; x += 2 * kStep) {
      segments.push_back({{x, y}, {x + kStep, y - kRise}});
      segments.push_back({{x + kStep, y - kRise}, {x + 2 * kStep, y}});
    }
  }
}

void add_crosses(std::vector<Segment>& segments, const Box& box) {
  constexpr double kPitch = 3.2;
  constexpr double kArm = 0.7;
  int row = static_cast<int>(std::floor(box.low.y / kPitch));
  for (; row * kPitch < box.high.y + kPitch; ++row) {
    const double y = row * kPitch;
    const double shift = row % 2 != 0 ? kPitch / 2 : 0;
    for (double x = std::floor(box.low.x / kPitch) * kPitch + shift; x < box.high.x + kPitch;
         x += kPitch) {
      segments.push_back({{x - kArm, y - kArm}, {x + kArm, y + kArm}});
      segments.push_back({{x - kArm, y + kArm}, {x + kArm, y - kArm}});
    }
  }
}

std::vector<Segment> pattern_over(const Box& box, int pattern) {
  std::vector<Segment> segments;
  const auto lines = [&](const Lines& family) { add_lines(segments, box, family); };
  switch (pattern) {
    case 1:
      lines({-45, 2});
      break;
    case 2:
      lines({45, 2});
      break;
    case 3:
      lines({-45, 2.6});
      lines({45, 2.6});
      break;
    case 4:
      lines({0, 1.9});
      break;
    case 5:
      lines({90, 1.9});
      break;
    case 6:
      lines({0, 2.6});
      lines({90, 2.6});
      break;
    case 7:
      lines({0, 1.3, 0, 0.4, 2.6});
      break;
    case 8:
      lines({-45, 4});
      lines({-45, 4, 0.9});
      break;
    case 9:
      lines({0, 1.6, 0, 1.8, 3.4});
      break;
    case 10:
      lines({45, 4});
      lines({45, 4, 0.9});
      break;
    case 11:
      add_zigzag(segments, box);
      break;
    default:
      add_crosses(segments, box);
  }
  return segments;
}

}  // namespace

std::vector<Span> parts_inside(const Footprint& area, Point from, Point to) {
  std::vector<Span> spans;
  for (const Disc& disc : area.discs) add_clipped(spans, inside(disc, from, to - from));
  for (const Outline& outline : area.outlines) add_clipped(spans, inside(outline, from, to - from));
  return merged(spans);
}

std::optional<Strokes> hatched(const Footprint& area, int pattern,
                               const std::optional<Box>& spare) {
  if (pattern < 0 || pattern > kHatches) {
    throw std::invalid_argument{"hatched: there are only 24 patterns"};
  }
  if (pattern == 0) return std::nullopt;
  const bool heavy = pattern > 12;
  const int kind = (pattern - 1) % 12 + 1;
  Strokes strokes{{}, Pen{kind == 7 ? 0.55 : heavy ? 0.5 : 0.2, {}}};
  if (kind == 7 && heavy) strokes.pen.width = 0.9;
  for (const auto& [from, to] : pattern_over(bounding_box(area), kind)) {
    std::vector<Span> spans = parts_inside(area, from, to);
    if (spare) {
      const auto gone = inside(rectangle(spare->low, spare->high), from, to - from);
      if (gone) spans = without(spans, *gone);
    }
    for (const auto& [a, b] : spans) {
      strokes.lines.emplace_back(from + a * (to - from), from + b * (to - from));
    }
  }
  return strokes;
}

}  // namespace placer::report
