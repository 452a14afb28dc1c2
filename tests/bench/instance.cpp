#include "instance.h"

#include <algorithm>
#include <ctime>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <stdexcept>

namespace placer::bench {

namespace {

using nlohmann::json;

Point point_of(const json& j) { return {j.at(0).get<double>(), j.at(1).get<double>()}; }

Outline outline_of(const json& points) {
  Outline outline;
  for (const json& p : points) outline.corners.push_back(point_of(p));
  if (signed_area(outline) < 0) std::reverse(outline.corners.begin(), outline.corners.end());
  return outline;
}

Region region_of(const json& c) {
  const std::string type = c.at("type");
  if (type == "rect") {
    Region region;
    region.outline = rectangle({0, 0}, {c.at("w"), c.at("h")});
    return region;
  }
  if (type == "circle") {
    Region region;
    region.round = Disc{{0, 0}, c.at("d").get<double>() / 2};
    return region;
  }
  if (type == "half") return half_disc(c.at("d"));
  if (type == "polygon") {
    Region region;
    region.outline = outline_of(c.at("points"));
    return region;
  }
  throw std::runtime_error{"container of type " + type};
}

Footprint keep_out_of(const json& k) {
  Footprint shape;
  if (k.contains("circle")) {
    const json& c = k.at("circle");
    shape.discs.push_back({{c.at("x"), c.at("y")}, c.at("d").get<double>() / 2});
  } else {
    const json& r = k.at("rect");
    const Point low{r.at("x"), r.at("y")};
    shape.outlines.push_back(
        rectangle(low, low + Point{r.at("w").get<double>(), r.at("h").get<double>()}));
  }
  return shape;
}

Footprint shape_of(const json& item) {
  const json& s = item.at("shape");
  Footprint shape;
  if (s.contains("rect")) {
    shape.outlines.push_back(rectangle(s.at("rect").at("w"), s.at("rect").at("h")));
  } else if (s.contains("polygon")) {
    shape.outlines.push_back(outline_of(s.at("polygon")));
  } else {
    const double radius = s.at("circle").at("d").get<double>() / 2;
    shape.discs.push_back({{0, 0}, radius});
    if (item.contains("handle") && !item.at("handle").is_null()) {
      const json& h = item.at("handle");
      const double half = h.at("width").get<double>() / 2;
      shape.outlines.push_back(
          rectangle({0, -half}, {radius + h.at("length").get<double>(), half}));
    }
  }
  return shape;
}

packing::Item item_of(const json& j) {
  packing::Item item;
  item.shape = shape_of(j);
  item.count = j.at("count");
  if (j.at("rotations").is_array()) {
    for (const json& turn : j.at("rotations")) item.turns_deg.push_back(turn);
  }
  return item;
}

std::string svg_of(const Footprint& shape, const std::string& style) {
  std::ostringstream out;
  for (const Outline& outline : shape.outlines) {
    out << "<polygon " << style << " points=\"";
    for (const Point p : outline.corners) out << p.x << ',' << -p.y << ' ';
    out << "\"/>\n";
  }
  for (const Disc& disc : shape.discs) {
    out << "<circle " << style << " cx=\"" << disc.centre.x << "\" cy=\"" << -disc.centre.y
        << "\" r=\"" << disc.radius << "\"/>\n";
  }
  return out.str();
}

}  // namespace

Instance read_instance(const std::string& path) {
  std::ifstream in{path};
  if (!in) throw std::runtime_error{"cannot open " + path};
  const json j = json::parse(in);
  Instance instance;
  instance.name = j.value("name", path);
  instance.objective = j.at("objective");
  instance.problem.region = region_of(j.at("container"));
  for (const json& k : j.value("keepouts", json::array())) {
    instance.problem.region.keep_outs.push_back(keep_out_of(k));
  }
  instance.problem.gap = j.at("gap");
  instance.problem.edge_gap = j.at("edge_gap");
  for (const json& item : j.at("items")) {
    instance.ids.push_back(item.at("id"));
    instance.problem.items.push_back(item_of(item));
  }
  return instance;
}

Answer solve(const Instance& instance, const packing::Options& options) {
  Answer answer;
  const std::clock_t start = std::clock();
  if (instance.objective == "count") {
    answer.bins.push_back(packing::most_pieces(instance.problem, options));
    answer.upper_bound = packing::most_possible(instance.problem);
  } else if (instance.objective == "area") {
    answer.bins.push_back(packing::most_value(instance.problem, options));
    answer.upper_bound = static_cast<int>(
        100 * packing::most_value_possible(instance.problem) /
        area(Region{instance.problem.region.outline, instance.problem.region.round, {}}));
  } else {
    answer.upper_bound = packing::fewest_possible(instance.problem, instance.problem.items);
    answer.bins = packing::fewest_regions({instance.problem}, instance.problem.items, options);
  }
  answer.seconds = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
  Region bare = instance.problem.region;
  bare.keep_outs.clear();
  double covered = 0;
  for (const packing::Packing& bin : answer.bins) {
    answer.placed += static_cast<int>(bin.places.size());
    for (const packing::Place& place : bin.places) {
      covered += area(instance.problem.items[static_cast<std::size_t>(place.item)].shape);
    }
  }
  answer.area_percent = 100 * covered / area(bare) /
                        static_cast<double>(std::max<std::size_t>(1, answer.bins.size()));
  return answer;
}

std::string answer_json(const Instance& instance, const Answer& answer) {
  json out;
  out["name"] = instance.name;
  out["bins"] = json::array();
  for (const packing::Packing& bin : answer.bins) {
    json places = json::array();
    for (const packing::Place& place : bin.places) {
      places.push_back({{"id", instance.ids[static_cast<std::size_t>(place.item)]},
                        {"x", place.at.at.x},
                        {"y", place.at.at.y},
                        {"turn_deg", place.at.turn_deg}});
    }
    out["bins"].push_back(places);
  }
  out["placed"] = answer.placed;
  out["upper_bound"] = answer.upper_bound;
  out["seconds"] = answer.seconds;
  return out.dump(1) + "\n";
}

std::string picture_svg(const Instance& instance, const Answer& answer) {
  const Box box = bounding_box(instance.problem.region);
  const double width = box.high.x - box.low.x + 20;
  const double depth = box.high.y - box.low.y + 20;
  std::ostringstream out;
  out << "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"" << box.low.x - 10 << ' '
      << -box.high.y - 10 << ' ' << width * static_cast<double>(answer.bins.size()) << ' ' << depth
      << "\">\n";
  double x = 0;
  for (const packing::Packing& bin : answer.bins) {
    out << "<g transform=\"translate(" << x << " 0)\">\n";
    Footprint edge;
    edge.outlines.push_back(edge_polygon(instance.problem.region, 0.1));
    out << svg_of(edge, "fill=\"#eee\" stroke=\"#888\"");
    for (const Footprint& keep_out : instance.problem.region.keep_outs) {
      out << svg_of(keep_out, "fill=\"#555\"");
    }
    for (const packing::Place& place : bin.places) {
      const packing::Item& item = instance.problem.items[static_cast<std::size_t>(place.item)];
      out << svg_of(placed(item.shape, place.at),
                    "fill=\"#c96\" fill-opacity=\"0.8\" stroke=\"#630\"");
    }
    out << "</g>\n";
    x += width;
  }
  out << "</svg>\n";
  return out.str();
}

}  // namespace placer::bench
