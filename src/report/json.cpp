#include "report/json.h"

#include <cmath>
#include <numbers>
#include <stdexcept>

#include "placer/report/report.h"

namespace placer::report {
namespace {

constexpr std::size_t kLine = 100;

std::string scalar(const Json& value) {
  return value.dump(-1, ' ', false, Json::error_handler_t::replace);
}

/// The members of a list or a map as texts, each fit to stand on a line at `depth`.
std::string pretty(const Json& value, std::size_t depth) {
  if (!value.is_structured() || value.empty()) return scalar(value);
  const bool is_map = value.is_object();
  std::vector<std::string> members;
  std::size_t length = 2 * depth + 4;
  bool one_line = true;
  for (const auto& [key, member] : value.items()) {
    std::string text = is_map ? scalar(Json(key)) + ": " : "";
    text += pretty(member, depth + 1);
    length += text.size() + 2;
    one_line = one_line && text.find('\n') == std::string::npos;
    members.push_back(std::move(text));
  }
  one_line = one_line && length <= kLine;
  const std::string indent(2 * (depth + 1), ' ');
  std::string all = is_map ? "{" : "[";
  for (std::size_t i = 0; i < members.size(); ++i) {
    if (i > 0) all += one_line ? ", " : ",";
    if (!one_line) all += "\n" + indent;
    all += members[i];
  }
  if (!one_line) all += "\n" + std::string(2 * depth, ' ');
  return all + (is_map ? "}" : "]");
}

}  // namespace

std::string written(const Json& value) { return pretty(value, 0) + "\n"; }

Json number(double value) {
  if (!std::isfinite(value)) throw std::invalid_argument{"report: a number is not finite"};
  // Whole numbers are written without a fraction: 680, not 680.0.
  if (value == std::trunc(value) && std::abs(value) < 1e15) return static_cast<long long>(value);
  return value;
}

Json number_or_null(double value) { return std::isfinite(value) ? number(value) : Json(nullptr); }

Json corners_json(const Outline& outline) {
  Json corners = Json::array();
  for (const Point p : outline.corners) corners.push_back(Json::array({number(p.x), number(p.y)}));
  return corners;
}

Json disc_json(const Disc& disc) {
  return {{"x_mm", number(disc.centre.x)},
          {"y_mm", number(disc.centre.y)},
          {"r_mm", number(disc.radius)}};
}

Json footprint_json(const Footprint& footprint) {
  Json discs = Json::array();
  for (const Disc& disc : footprint.discs) discs.push_back(disc_json(disc));
  Json outlines = Json::array();
  for (const Outline& outline : footprint.outlines) outlines.push_back(corners_json(outline));
  return {{"discs", discs}, {"outlines", outlines}};
}

void add_region(Json& to, const Region& region, ArcsAs arcs) {
  to["outline_mm"] = corners_json(edge_polygon(region, kSagitta, arcs));
  const bool whole_disc = region.round && region.outline.corners.empty();
  to["round"] = whole_disc ? disc_json(*region.round) : Json(nullptr);
}

void add_obstacle(Json& to, const Disc& disc) {
  const int sides = 72;
  Outline around = regular_polygon(sides, 2 * disc.radius);
  to["outline_mm"] = corners_json(placed(around, {disc.centre, 0}));
  to["round"] = disc_json(disc);
}

void add_obstacle(Json& to, const Outline& outline) {
  to["outline_mm"] = corners_json(outline);
  to["round"] = nullptr;
}

Json findings_array(const std::vector<Finding>& findings) {
  Json all = Json::array();
  for (const Finding& finding : findings) {
    all.push_back({{"severity", finding.severity == Severity::mistake ? "mistake" : "look"},
                   {"code", finding.code},
                   {"message", finding.message},
                   {"file", finding.where.file},
                   {"line", finding.where.line},
                   {"column", finding.where.column},
                   {"end_column", finding.where.end_column},
                   {"suggestion", finding.suggestion ? Json(*finding.suggestion) : Json(nullptr)}});
  }
  return all;
}

std::string findings_json(const std::vector<Finding>& findings) {
  Json all = Json::object();
  all["findings"] = findings_array(findings);
  return written(all);
}

}  // namespace placer::report
